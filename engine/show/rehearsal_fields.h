/* What made-up calls came to, for programs: version 1 of `rehearse --json`. */
#ifndef TT_SHOW_REHEARSAL_FIELDS_H
#define TT_SHOW_REHEARSAL_FIELDS_H

#include "show/fields.h"

/* The seed is at most 2^53, beyond which JSON can't hold it for everybody. */
tt_value rehearsal_value(arena *keep, const tt_origin *origin, const tt_rehearsal_options *options,
                         const tt_rehearsed *r);
tt_value rehearsal_schema(arena *keep);

#endif
