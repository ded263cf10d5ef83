/* A part of a rehearsal, to be kept and added: version 1 of what `rehearse --calls A..B` writes. */
#ifndef TT_SHOW_PART_FIELDS_H
#define TT_SHOW_PART_FIELDS_H

#include "show/fields.h"

/* The calls from number `first` to `last`, from 1, and what was counted in them. */
typedef struct rehearsal_part {
    uint64_t first, last;
    const char *role;
    tt_rehearsal_options options; /* but for the role */
    const uint64_t *words;
    uint32_t word_count;
} rehearsal_part;

tt_value rehearsal_part_value(arena *keep, const tt_origin *origin, const rehearsal_part *part);
/* Null: it is one, of this book and site as they are. Else why not, in words that say what to do;
 * lives in `keep`. */
const char *rehearsal_part_read(arena *keep, const tt_origin *origin, const tt_value *v,
                                rehearsal_part *out);
/* Whether it was written as a part, of whatever book. */
bool rehearsal_part_is(const tt_value *v);
tt_value rehearsal_part_schema(arena *keep);

#endif
