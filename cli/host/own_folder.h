/* The user's own folders, as the XDG base directory specification says. */
#ifndef TT_CLI_OWN_FOLDER_H
#define TT_CLI_OWN_FOLDER_H

/* One for each sort of file. */
typedef enum own_folder { OWN_SETTINGS, OWN_DATA, OWN_STATE, OWN_CACHE } own_folder;

/* telltale/NAME in the folder of that sort. Null: nothing says where that is. What the environment
 * does not name whole is passed over. Freed by the caller. */
char *own_path(own_folder sort, const char *name);

#endif
