/* What cases are called, and where this user's are kept. */
#ifndef TT_CLI_CASE_NAME_H
#define TT_CLI_CASE_NAME_H

#include "base/arena.h"
#include "host/exits.h"
#include "telltale.h"

/* The folder given, else TELLTALE_CASES, else telltale/cases in the user's data folder as the XDG
 * base directory specification says. Freed by the caller; null after saying that there is no such
 * place. */
char *cases_root(const char *given);
/* The one that is meant where neither an option nor the environment names any: in the home folder.
 * Freed by the caller; null: there is none. */
char *cases_usual_root(void);

/* Of a number: the fewest, how many more it takes where another case has the same, and the most. */
enum { LEAST_DIGITS = 6, MORE_DIGITS = 3, MOST_DIGITS = 12 };

typedef struct case_name {
    const char *folder;
    char id[TT_CASE_ID_SIZE], number[TT_CASE_NUMBER_SIZE]; /* number: the shortest that is no other
                                                              case's under the root */
} case_name;

/* Of a case that lies in no folder: its shortest number. */
void case_name_of_id(const char *id, case_name *out);

/* The number as it is written, from one that was typed; EXIT_USAGE if it is none, or its letter is
 * wrong, which is said. */
exit_status case_number_typed(const char *typed, char number[TT_CASE_NUMBER_SIZE]);

#endif
