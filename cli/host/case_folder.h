/* Where cases lie: <root>/YYYY/MM/<uuid>/<writer>.jsonl. */
#ifndef TT_CLI_CASE_FOLDER_H
#define TT_CLI_CASE_FOLDER_H

#include "base/arena.h"
#include "host/case_number.h"
#include "host/exits.h"

/* The folder given, else TELLTALE_CASES, else telltale/cases in the user's data folder as the XDG
 * base directory specification says. Freed by the caller; null after saying that there is no such
 * place. */
char *cases_root(const char *given);
/* The one that is meant where neither an option nor the environment names any: in the home folder. Freed by the caller; null: there is none. */
char *cases_usual_root(void);

/* ---- each says what went wrong ---- */

/* What the folder of a new case is to be, with a number that no other case under the root has. Nothing is made; but it is said if it could not be. */
exit_status case_folder_new(arena *keep, const char *root, const char **folder, char id[CASE_UUID_SIZE]);

/* The number as it is written, from one that was typed; EXIT_USAGE if it is none, or its letter is wrong. */
exit_status case_number_typed(const char *typed, char number[CASE_NUMBER_SIZE]);

/* `named` is a case number as typed, the path of a case's folder, or of a file in it. */
exit_status case_folder_find(arena *keep, const char *root, const char *named, const char **folder, char id[CASE_UUID_SIZE]);

/* ---- */

/* Makes the folder of a case, and those above it. Null, or what is in the way, in words. */
const char *case_folder_make(arena *keep, const char *root, const char *folder);

#endif
