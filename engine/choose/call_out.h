/* Whom somebody may call, and the plans of those that come next. Mathematics: docs/mathematics.md
 * (what a hand-over is worth). */
#ifndef TT_CHOOSE_CALL_OUT_H
#define TT_CHOOSE_CALL_OUT_H

#include "choose/fix_order.h"

enum { CALLEE_ASKS = 2 }; /* questions that whoever is called still asks, at most */

/* What plans of whoever is called next cost, by what is wrong. Each was made for a belief that this
 * decision looks at; on any other it may not be the best, so the least of all counts. */
typedef struct call_plans {
    const double **minutes; /* [plan][hypothesis], with waiting for them */
    uint32_t count, room;
    uint32_t up_to[CALLEE_ASKS + 1]; /* [questions] so many of them ask no more than that */
    uint32_t last_best;              /* where the next search begins */
} call_plans;

typedef struct causes_of {
    const uint32_t *causes; /* rising */
    uint32_t count;
} causes_of;

typedef struct calling {
    const choice_input *in;
    fix_course *const *of;          /* [callee] */
    const struct causes_of *theirs; /* [callee] for them to cure, and not for those before them */
    const double
        *least;       /* [hypothesis] minutes that no plan of anybody who may be called can beat */
    call_plans plans; /* of those that come next */
} calling;

/* A course of whoever asks, with all that may be called. */
fix_course *fix_course_new(arena *keep, const choice_input *in);

/* The first callee above this one, who may be NO_CALLEE. */
uint32_t first_above(const choice_input *in, uint32_t callee);

/* Minutes (unnormalised: times Σw) that no plan of anybody who may be called can beat. */
double calling_bound(const calling *c, const double *w);

/* What a plan costs on weights w; as soon as it is `limit` or more, something from there on. */
double plan_value(const double *minutes, const double *w, uint32_t cause_count, double limit);

/* All that so many plans cost, each as plan_value has it without a limit. */
void plan_values(const double *const *minutes, uint32_t count, const double *w,
                 uint32_t cause_count, double *values);

/* The least of the plans that ask no more than `asks` questions; INFINITY: none is below `limit`.
 */
double least_plan(calling *c, const double *w, uint32_t asks, double limit);

#endif
