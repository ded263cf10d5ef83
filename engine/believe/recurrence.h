/* What was cured at a site may come back: how much likelier that makes each cause of a new call.
 * Mathematics: docs/mathematics.md, "What comes back". */
#ifndef TT_BELIEVE_RECURRENCE_H
#define TT_BELIEVE_RECURRENCE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"

#define RETURNS_WEIGHT    2.0  /* so many cures of one site would say as much */
#define RETURNS_HALF_DAYS 30.0 /* of those that come back, half have done so */

typedef struct past_cure {
    const double *of; /* [cause] chance that it is what was cured; sums to 1 at most */
    double days;      /* ago */
    bool came_back;   /* it was back once, before this was the end of it */
} past_cure;

typedef struct recurrence_input {
    const double *share; /* [cause] of calls */
    const double
        *returns; /* [cause] of its cures at any site, those after which it comes back: 0 to 1 */
    uint32_t cause_count;
    const uint32_t *const *roots; /* [cause] causes that bring it on */
    const uint32_t *root_count;   /* [cause] */
    const past_cure *cures;       /* the longest ago first */
    uint32_t cure_count;
    uint32_t calls; /* of this site, in so many days up to now */
    double days;
} recurrence_input;

/* [cause] factor ≥ 1 on how often it is what is wrong. */
double *recurrence_factors(arena *keep, const recurrence_input *in);

#endif
