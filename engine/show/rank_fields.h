/* Where a case stands by itself, without a conversation, for programs: version 1 of `rank --json`.
 */
#ifndef TT_SHOW_RANK_FIELDS_H
#define TT_SHOW_RANK_FIELDS_H

#include "show/fields.h"

/* All lives in `keep`, texts up to the next change of the case. */
tt_value standing_value(arena *keep, const tt_origin *origin, tt_case *c, bool with_why);
tt_value standing_schema(arena *keep);

#endif
