/* Where the sites of rulebooks are kept: one file for each rulebook, by the name of its folder. */
#ifndef TT_CLI_SITE_FILE_H
#define TT_CLI_SITE_FILE_H

/* telltale/sites/NAME.yaml in the folder for settings of the XDG base directory specification:
 * people edit it, and every case of the rulebook begins with it. Null without a home folder. Freed
 * by the caller. */
char *site_file_usual(const char *rulebook_folder);

#endif
