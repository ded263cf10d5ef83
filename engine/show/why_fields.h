/* Why one cause rather than another, and what would turn it, for programs. */
#ifndef TT_SHOW_WHY_FIELDS_H
#define TT_SHOW_WHY_FIELDS_H

#include "show/fields.h"

typedef struct shown_side {
    const char *name, *text;
    double chance;
} shown_side;
typedef struct shown_fix_why {
    const char *fix, *text, *first, *first_text, *reason;
    const char *const *names;
    uint32_t names_count;
    const char *setting;
    double chance, least, minutes, first_chance, first_minutes;
    const tt_fix_pivot *pivots;
    uint32_t pivots_count;
} shown_fix_why;
typedef struct shown_why {
    shown_side cause, rival;
    double decibels;
    bool two_faults;
    const tt_bar *bars;
    uint32_t bars_count;
    const tt_missing *missing;
    uint32_t missing_count;
    const tt_pivot *pivots;
    uint32_t pivots_count;
    const shown_fix_why *fix;
} shown_why;

extern const shape why_shape, place_shape;

/* Of the cause at this place of the ranking against its strongest rival; null where there is none.
 * `fix`: the one whose place is told too; TT_NONE: the one for the likeliest cause. */
const shown_why *why_of(arena *keep, tt_case *c, uint32_t rank, uint32_t fix);

#endif
