/* What the cases of a folder say of a book's numbers. */
#ifndef TT_CLI_LEARN_CASES_H
#define TT_CLI_LEARN_CASES_H

#include "face/learned.h"
#include "telltale.h"

/* Counts all cases under the folder that are about this book. Says what can't be read. */
exit_status learn_from_cases(tt_learning *l, const char *book, const char *root, cases_seen *seen);

#endif
