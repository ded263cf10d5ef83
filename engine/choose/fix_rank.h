/* Which fix comes first of those that stand as they stand. */
#ifndef TT_CHOOSE_FIX_RANK_H
#define TT_CHOOSE_FIX_RANK_H

#include "choose/choose.h"

#define NO_FIX UINT32_MAX

/* What the order compares: a fix as it stands on some weights. */
typedef struct fix_rank {
    fix_standing standing;
    risk_level level;
    double ratio; /* weight cured per minute */
    str name;
    uint32_t fix;
} fix_rank;

/* Negative: a comes first of its standing. Never 0 for two different fixes. */
int fix_rank_compare(const fix_rank *a, const fix_rank *b);

/* Into the order: likely ones, lowest level first, but a possible one before the first likely one
 * whose level is not lower and that cures less per minute; then the others. */
void fix_ranks_sort(arena *scratch, fix_rank *ranks, uint32_t count);

/* The first of that order, found without sorting, in whatever order they are added. */
typedef struct fix_lead {
    double ratio;
    risk_level level;
    uint32_t fix; /* NO_FIX: nothing was added */
} fix_lead;

typedef struct fix_first {
    const fix_option *fixes;                  /* for their names, where all else is even */
    fix_lead likely, possible[RISK_HIGH + 1]; /* [level] */
} fix_first;

#define NO_LEAD ((fix_lead){.fix = NO_FIX})

static inline fix_first fix_first_new(const fix_option *fixes)
{
    return (fix_first){fixes, NO_LEAD, {NO_LEAD, NO_LEAD, NO_LEAD, NO_LEAD}};
}

bool fix_named_before(const fix_option *fixes, uint32_t a, uint32_t b);

/* One that is worth trying. Done for every fix of every course, so it says in few steps what
 * fix_rank_compare says of two that stand alike. */
static inline void fix_first_add(fix_first *all, bool likely, fix_lead lead)
{
    fix_lead *best = likely ? &all->likely : &all->possible[lead.level];
    if (best->fix != NO_FIX) {
        if (best->level < lead.level) return;
        if (best->level == lead.level && best->ratio > lead.ratio) return;
        const bool even = best->level == lead.level && !(best->ratio < lead.ratio);
        if (even && !fix_named_before(all->fixes, lead.fix, best->fix)) return;
    }
    *best = lead;
}
uint32_t fix_first_of(const fix_first *all); /* NO_FIX: none is worth trying */

#endif
