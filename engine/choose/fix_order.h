/* Trying fixes in thought: which comes first, what it costs, what is left when it fails.
 * A course of fixes is run many times for one decision (after every answer of every question looked
 * at), so the tables and the room to work in are made once and a run takes no memory. Mathematics:
 * docs/mathematics.md (fixes). */
#ifndef TT_CHOOSE_FIX_ORDER_H
#define TT_CHOOSE_FIX_ORDER_H

#include "choose/choose.h"

#define NO_FIX UINT32_MAX

typedef struct fix_course {
    const choice_input *in;
    const double *worth; /* [fix] share of the weight it must cure to be worth trying */
    const double *price; /* [fix] minutes that a needless job counts as, more */
    const bool *open;    /* [fix] may be offered at all */
    /* Open fixes of cause c: cure_fixes[cure_start[c] … cure_start[c + 1] - 1]. */
    const uint32_t *cure_start, *cure_fixes;
    /* Room to work in: */
    double *left;  /* [hypothesis] weight not yet cured */
    double *cured; /* [fix] weight it would cure; negative: count again */
    bool *spent;   /* [fix] tried in this run, or not open */
} fix_course;

fix_course *fix_course_new(arena *keep, const choice_input *in);

/* Minutes (unnormalised: times Σw) of trying fix f on weights w, which sum to `total`, with the
 * price of its being needless. */
double fix_course_cost(const fix_course *run, uint32_t f, const double *w, double total);

/* UF(w) without the fix `without` (NO_FIX: with all). `first` may be null. */
double fix_course_value(fix_course *run, const double *w, uint32_t without, uint32_t *first);

/* Takes what fix f cures from w. */
void fix_failed(const fix_option *f, double *w);

double weights_total(const double *w, uint32_t cause_count);

#endif
