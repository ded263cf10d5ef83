/* How the other writers' files ended when a writer had read them. His next record names it
 * ("ends"), so that a last line that is changed later is noticed too: those before it are named by
 * the lines behind them. */
#ifndef TT_CLI_CASE_ENDS_H
#define TT_CLI_CASE_ENDS_H

#include "cases/case_store_parts.h"

/* What is still to be named, as {writer: hash}, and counts as named from then on; null: nothing. */
const tt_value *case_ends_named(arena *keep, case_store *s);

/* A line was read: its own hash, and what it names. */
void case_ends_take(case_taking *t, const case_line *line, const char *hash,
                    const tt_record *record);
/* Says which named lines are not there as they were. One that has not arrived yet is none of them.
 */
void case_ends_check(const case_store *s);

#endif
