/* What calling somebody costs: waiting for them, and then what they need at what is known by then.
 * They fix by the same thresholds and prices, bring the parts of what was likely when they were
 * called, and call those above them in turn. Mathematics: docs/mathematics.md (what a hand-over is
 * worth). */
#ifndef TT_CHOOSE_CALL_VALUE_H
#define TT_CHOOSE_CALL_VALUE_H

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

calling *calling_new(arena *keep, const fix_course *own);

/* Minutes (unnormalised: times Σw) of calling with weights w that sum to `total`, as far along as
 * `caller` is. Those called next ask up to `asks` questions. INFINITY: certainly not below `limit`.
 */
double call_value(const fix_course *caller, const double *w, double total, uint32_t asks,
                  double limit);

/* Somebody above may be called, but it may be somebody from outside: nobody knows what they need,
 * so they are taken to need what no plan beats. */
bool may_call_outside(const fix_course *caller);

/* Who comes, and their minutes without waiting and questions. NO_CALLEE: nobody who may be called
 * is likely enough to be of use, so it is somebody else. */
uint32_t best_callee(const fix_course *caller, const double *w, double total, double *value);

/* Whom to call: as above, but whoever sends for the next level is never left without it. */
uint32_t likely_callee(const fix_course *caller, const double *w, double total);

/* call_plans.c: makes the plans for weights `now` and for what the listed questions may make of
 * them. */
void make_call_plans(arena *keep, fix_course *own, const double *now, const uint32_t *listed,
                     uint32_t listed_count);
/* What a plan costs on weights w; as soon as it is `limit` or more, something from there on. */
double plan_value(const double *minutes, const double *w, uint32_t cause_count, double limit);

#endif
