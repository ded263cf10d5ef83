/* Where the sites of books are kept: one file for each book, by the name of its folder. */
#ifndef TT_CLI_SITE_FILE_H
#define TT_CLI_SITE_FILE_H

/* telltale/sites/NAME.yaml in the folder for settings of the XDG base directory specification:
 * people edit it, and every case of the book begins with it. Null without a home folder. Freed
 * by the caller. */
char *site_file_usual(const char *book_folder);

#endif
