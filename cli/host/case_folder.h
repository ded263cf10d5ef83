/* Where cases lie: <root>/YYYY/MM/<uuid>/<writer>.jsonl. */
#ifndef TT_CLI_CASE_FOLDER_H
#define TT_CLI_CASE_FOLDER_H

#include "host/case_number.h"
#include "host/exits.h"

/* The folder given, else TELLTALE_CASES, else telltale/cases in the user's data folder as the XDG
 * base directory specification says. Freed by the caller; null after saying that there is no such
 * place. */
char *cases_root(const char *given);
/* The one that is meant where neither an option nor the environment names any: in the home folder. Freed by the caller; null: there is none. */
char *cases_usual_root(void);

/* A new, empty case folder whose number no other case under the root has. Says what went wrong. */
exit_status case_folder_new(const char *root, char **folder, char uuid[CASE_UUID_SIZE]);

/* The number as it is written, from one that was typed; EXIT_USAGE after saying that it is none, or that
 * its letter is wrong. */
exit_status case_number_typed(const char *typed, char number[CASE_NUMBER_SIZE]);

/* `named` is a case number as typed, or the path of a case folder. Says what went wrong. */
exit_status case_folder_find(const char *root, const char *named, char **folder,
                             char uuid[CASE_UUID_SIZE]);

#endif
