/* Trying fixes in thought: which comes first, what it costs, what is left when it fails.
 * A course of fixes is run many times for one decision (after every answer of every question looked
 * at), so the tables and the room to work in are made once and a run takes no memory. Mathematics:
 * docs/mathematics.md (fixes). */
#ifndef TT_CHOOSE_FIX_ORDER_H
#define TT_CHOOSE_FIX_ORDER_H

#include "choose/fix_rank.h"

typedef struct fix_course {
    const choice_input *in;
    const double *worth; /* [fix] share of the weight it must cure to be worth trying */
    const double *price; /* [fix] minutes that a needless job counts as, more */
    const bool *open;    /* [fix] may be offered at all */
    /* Open fixes of cause c: cure_fixes[cure_start[c] … cure_start[c + 1] - 1]. */
    const uint32_t *cure_start, *cure_fixes;
    struct calling *calls; /* whom this role may call */
    uint32_t above;        /* the first callee above it */
    bool travels;          /* it was called, and brings parts */
    bool packed;           /* what it brings is settled */
    bool in_sequence;      /* some fix waits for another */
    bool walks;            /* whoever asks; of others nobody knows from where they come */
    uint32_t here;         /* where it starts */
    /* Room to work in: */
    uint32_t at;   /* where the last fix was done */
    double *left;  /* [hypothesis] weight not yet cured */
    double *cured; /* [fix] weight it would cure; negative: count again */
    bool *tried;   /* [fix] in this run, or before by whoever called */
    bool *missing; /* [fix] its parts were not brought */
    double *after; /* [hypothesis] weight left by a chain of fixes */
    uint32_t *chain;
    fix_rank *ranks; /* [fix] */
    /* Of the last run: fixes in the order of trying, and how many of them until calling is best. */
    uint32_t *order;
    uint32_t length, best_length;
} fix_course;

/* Of whoever asks, with all that may be called. */
fix_course *fix_course_new(arena *keep, const choice_input *in);
/* Of somebody to whom these fixes are open. */
fix_course *fix_course_of(arena *keep, const choice_input *in, const bool *open);

/* Minutes (unnormalised: times Σw) of walking from where the run is to fix f and trying it on
 * weights w, which sum to `total`, with the price of its being needless. */
double fix_course_cost(const fix_course *run, uint32_t f, const double *w, double total);

/* UF(w) without the fix `without` (NO_FIX: with all), where whoever is called asks up to `asks`
 * questions. `first` may be null. */
double fix_course_value(fix_course *run, const double *w, uint32_t without, uint32_t asks,
                        uint32_t *first);
/* UF(w) of somebody who was called: what the caller tried is not tried again. */
double fix_course_after(fix_course *run, const fix_course *caller, const double *w);

/* Back to the beginning, with weights w. `caller` may be null. */
void fix_course_begin(fix_course *run, const fix_course *caller, const double *w);
/* One fix fails. */
void fix_course_try(fix_course *run, uint32_t f);
/* Everything fails that is worth trying. */
void fix_course_try_all(fix_course *run);
/* Settles what it brings: the parts of what is likely enough on the weights that it has. */
void fix_course_pack(fix_course *run);
/* Adds what trying f costs for each hypothesis, times what survives until then. */
void fix_course_add_cost(const fix_course *run, uint32_t f, const double *survives,
                         double *minutes);

/* Takes what fix f cures from w. */
void fix_failed(const fix_option *f, double *w);

double weights_total(const double *w, uint32_t cause_count);

#endif
