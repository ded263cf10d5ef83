/* For authors of books, as programs read it: faults (version 1 of `check --json`, one a line) and
 * worked cases (`try --json`). */
#ifndef TT_SHOW_AUTHOR_FIELDS_H
#define TT_SHOW_AUTHOR_FIELDS_H

#include "show/fields.h"

tt_value fault_value(arena *keep, const tt_fault *fault);
tt_value trials_value(arena *keep, const tt_trials *trials);
tt_value fault_schema(arena *keep);
tt_value trials_schema(arena *keep);

#endif
