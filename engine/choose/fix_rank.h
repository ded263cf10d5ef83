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

/* The first of that order, found without sorting, in whatever order they are added. Ranks stay
 * where they are. All zero: nothing was added. */
typedef struct fix_first {
    const fix_rank *likely, *possible[RISK_HIGH + 1]; /* best so far, or null; [level] */
} fix_first;
/* For certain, before one that stands so is even ranked. Looked at for every fix of every course.
 */
static inline bool fix_first_is_ahead(const fix_first *all, bool likely, risk_level level,
                                      double ratio)
{
    const fix_rank *best = likely ? all->likely : all->possible[level];
    if (best == NULL) return false;
    return best->level < level || (best->level == level && best->ratio > ratio);
}
void fix_first_add(fix_first *all, const fix_rank *rank);
uint32_t fix_first_of(const fix_first *all); /* NO_FIX: none is worth trying */

#endif
