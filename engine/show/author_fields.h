/* For authors of books, as programs read it: faults (version 1 of `check --json`, one a line; as a
 * log of SARIF 2.1.0) and worked cases (`try --json`). */
#ifndef TT_SHOW_AUTHOR_FIELDS_H
#define TT_SHOW_AUTHOR_FIELDS_H

#include "show/fields.h"

tt_value fault_value(arena *keep, const tt_report *report, uint32_t index);
/* All of them as a log of SARIF 2.1.0 (OASIS Standard, 27 March 2020): one run of the program in
 * this version. `folder`: where the book's files lie, absolute. */
tt_value fault_log_value(arena *keep, const tt_report *report, const char *version,
                         const char *folder);
/* `failed`: [trial] as it stands after its answers, where its why is to be told; or null. */
tt_value trials_value(arena *keep, const tt_trials *trials, tt_case *const *failed);
/* One worked case with its why, as version 1 of `try BOOK CASE --json` has it. */
tt_value tried_case_value(arena *keep, const tt_trial *trial, tt_case *c);
tt_value fault_schema(arena *keep);
tt_value trials_schema(arena *keep);
tt_value tried_case_schema(arena *keep);
/* Which numbers the worked cases hold: version 1 of `try --held --json`. */
tt_value holding_value(arena *keep, const tt_holding *all);
tt_value holding_schema(arena *keep);

#endif
