/* What moved between two editions, for programs: version 1 of `compare --json`. */
#ifndef TT_SHOW_COMPARE_FIELDS_H
#define TT_SHOW_COMPARE_FIELDS_H

#include "show/fields.h"

tt_value compared_value(arena *keep, const tt_compared *all);
tt_value compared_schema(arena *keep);

#endif
