/* Where cases lie: <root>/YYYY/MM/<uuid>/<writer>.jsonl. */
#ifndef TT_CLI_CASE_FOLDER_H
#define TT_CLI_CASE_FOLDER_H

#include "base/arena.h"
#include "host/exits.h"
#include "telltale.h"

/* The folder given, else TELLTALE_CASES, else telltale/cases in the user's data folder as the XDG
 * base directory specification says. Freed by the caller; null after saying that there is no such
 * place. */
char *cases_root(const char *given);
/* What the program keeps of its own lies under it. Freed by the caller; null: there is no such place. */
char *telltale_data_folder(void);
/* The one that is meant where neither an option nor the environment names any: in the home folder.
 * Freed by the caller; null: there is none. */
char *cases_usual_root(void);

/* ---- each says what went wrong ---- */

typedef struct case_name {
    const char *folder;
    char id[TT_CASE_ID_SIZE], number[TT_CASE_NUMBER_SIZE]; /* number: the shortest that is no other
                                                              case's under the root */
} case_name;

/* What a new case is to be called. Nothing is made; but it is said if it could not be. */
exit_status case_folder_new(arena *keep, const char *root, case_name *out);
/* The same with an id that somebody wants, or null. */
exit_status case_folder_new_as(arena *keep, const char *root, const char *id, case_name *out);

/* The number as it is written, from one that was typed; EXIT_USAGE if it is none, or its letter is
 * wrong. */
exit_status case_number_typed(const char *typed, char number[TT_CASE_NUMBER_SIZE]);

/* `named` is a case number as typed, the path of a case's folder, or of a file in it. */
exit_status case_folder_find(arena *keep, const char *root, const char *named, case_name *out);

/* Of a case that lies in no folder: its shortest number. */
void case_name_of_id(const char *id, case_name *out);

/* ---- */

/* Makes the folder of a case, and those above it. Null, or what is in the way, in words. */
const char *case_folder_make(arena *keep, const char *root, const char *folder);

#endif
