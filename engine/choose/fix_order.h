/* Trying fixes in thought: which comes first, what it costs, what is left when it fails.
 * A course of fixes is run many times for one decision (after every answer of every question looked
 * at), so the tables and the room to work in are made once and a run takes no memory. Mathematics:
 * docs/mathematics.md (fixes). */
#ifndef TT_CHOOSE_FIX_ORDER_H
#define TT_CHOOSE_FIX_ORDER_H

#include "choose/fix_rank.h"
#include "choose/weights.h"

typedef struct fix_course {
    const choice_input *in;
    const double *worth; /* [fix] share of the weight it must cure to be worth trying */
    const double *price; /* [fix] minutes that a needless job counts as, more */
    const double *flat;  /* [fix] minutes and price, without a way */
    const bool *open;    /* [fix] may be offered at all: */
    const uint32_t *offered;
    uint32_t offered_count;
    /* Open fixes of cause c: cure_fixes[cure_start[c] … cure_start[c + 1] - 1]. */
    const uint32_t *cure_start, *cure_fixes;
    struct calling *calls; /* whom this role may call */
    uint32_t above;        /* the first callee above it */
    bool sends;            /* for those above, whatever is known */
    bool travels;          /* it was called, and brings parts */
    bool packed;           /* what it brings is settled */
    double lightest; /* share of the weight below which no cause brings a fix to be worth trying */
    const uint32_t *parted; /* open ones that need parts */
    uint32_t parted_count;
    const uint32_t *waiters; /* open ones that may have to wait for another */
    uint32_t waiter_count;   /* 0: nothing is in sequence */
    bool walks;              /* whoever asks; of others nobody knows from where they come */
    uint32_t here;           /* where it starts */
    /* Room to work in: */
    uint32_t at;   /* where the last fix was done */
    double *left;  /* [hypothesis] weight not yet cured */
    double *cured; /* [fix] weight it would cure; negative: count again */
    bool *tried;   /* [fix] in this run, or before by whoever called */
    bool *missing; /* [fix] its parts were not brought */
    double *after; /* [hypothesis] weight left by a chain of fixes, of what they cure */
    uint32_t *chain;
    uint64_t *in_chain, chains; /* [fix] the last chain that it was put into; so many were made */
    fix_rank *ranks;            /* [fix] */
    uint32_t *worthy;           /* those worth trying now */
    uint32_t *untried;          /* those offered that were not tried yet, in any order */
    uint32_t untried_count;
    uint32_t *where;      /* [fix] its place among the untried, while it is one of them */
    double *before;       /* [hypothesis] weight when the last fix was begun */
    uint32_t under;       /* the fix whose set-up still stands, in thought; NO_FIX: none does */
    double begun, spread; /* weight when it was begun, and that over what is left of it now */
    const bool *shares;   /* [fix] another open one has the same set-up */
    /* What the next run puts back as it was: */
    double total;               /* of all that is left; negative: sum again */
    uint32_t *gone, gone_count; /* fixes that were tried */
    /* fixes that `cured` may be known of; more of them than there are fixes: any */
    uint32_t *counted, counted_count;
    double first_total; /* of the weights that the last run began with */
    /* Of the last run: fixes in the order of trying, and how many of them until calling is best. */
    uint32_t *order;
    bool *joined; /* [place in the order] done under the set-up of the one before it */
    uint32_t length, best_length;
} fix_course;

/* Two fixes that are left out: in thought they were tried before. */
typedef struct fix_pair {
    uint32_t first, second; /* each may be NO_FIX */
} fix_pair;

/* Of whoever asks, with all that may be called. */
fix_course *fix_course_new(arena *keep, const choice_input *in);
/* fix_course.c: of whoever asks, with nobody to call; of somebody to whom these fixes are open. */
fix_course *fix_course_own(arena *keep, const choice_input *in);
fix_course *fix_course_of(arena *keep, const choice_input *in, const bool *open);
/* Which fixes of these (null: of all) cure cause c: fixes[start[c] … start[c + 1] - 1], rising. */
void fixes_by_cause(arena *keep, const choice_input *in, const bool *open, const uint32_t **start,
                    const uint32_t **fixes);
uint32_t fixes_set_up_most(const choice_input *in); /* the last number of a set-up */

/* fix_cost.c: minutes of walking from where the run is; without the set-up; of going a second time
 * for a part that whoever was called did not bring. */
double fix_course_way(const fix_course *run, uint32_t f);
double fix_own_minutes(const fix_option *fix);
double fix_course_fetching(const fix_course *run, uint32_t f);

/* Minutes (unnormalised: times Σw) of walking from where the run is to fix f and trying it on
 * weights w, which sum to `total`, with the price of its being needless. */
double fix_course_cost(const fix_course *run, uint32_t f, const double *w, double total);

/* The same for g under the set-up of the fix that was tried last, on the weights w from before that
 * one. */
double fix_course_cost_under(const fix_course *run, uint32_t g, const double *w, double total);

/* The fix to be done before the set-up of f is given back, or NO_FIX. */
uint32_t fix_course_partner(fix_course *run, uint32_t f, const double *w);

/* Back to the beginning, with weights w. `caller` may be null. */
void fix_course_begin(fix_course *run, const fix_course *caller, const double *w);
/* What is left, summed. */
double fix_course_total(fix_course *run);
/* This fix as if it had been tried before. */
void fix_course_leave_out(fix_course *run, uint32_t f);
/* What to try next on what is left, which sums to `total`, or NO_FIX. */
uint32_t fix_course_next(fix_course *run, double total);
/* What goes under the set-up of f, which has just failed and stood before weights that sum to
 * `total_before`; or NO_FIX. */
uint32_t fix_course_joins(fix_course *run, uint32_t f, double total_before, double total);
/* One fix fails. */
void fix_course_try(fix_course *run, uint32_t f);
/* Everything fails that is worth trying. */
void fix_course_try_all(fix_course *run);
/* Settles what it brings: the parts of what is likely enough on the weights that it has. */
void fix_course_pack(fix_course *run);
/* Adds what trying f costs for each hypothesis, times what survives until then; `joined`: under the
 * set-up of the one before it. */
void fix_course_add_cost(const fix_course *run, uint32_t f, bool joined, const double *survives,
                         double *minutes);

/* What can't be put back is held to the next level's standard. */
risk_level fix_held_to(const fix_option *f);

#endif
