/* Inside of what is learned of returns: returns.c finds the numbers, returns_sure.c how sure they
 * are; both ask returns_parts.c. */
#ifndef TT_LEARN_RETURNS_PARTS_H
#define TT_LEARN_RETURNS_PARTS_H

#include "believe/recurrence.h"
#include "learn/returns.h"
#include "model/basics.h"

#define A_DAY \
    (0.69314718055994530942 / RETURNS_HALF_DAYS) /* ln 2 in the time in which half is back */

typedef struct returns_fitting {
    learn_returning *all;
    uint32_t count;
    learn_site *sites;
    const double *share; /* [entry] of new troubles: of the author; */
    double *changed;     /* what is learned of it, by that */
    double *anew;        /* those that came anew, on the mean */
    uint32_t entries;
} returns_fitting;

/* That it comes back now, a day, if it has not done so by now, and its derivative by the chance
 * that it does so ever. */
typedef struct return_rate {
    double a_day, slope;
} return_rate;

/* returns_parts.c */
/* Days become parts of what comes back, once: they never change. */
void returns_lay_out(learn_site *sites);
return_rate return_rate_after(double chance, const learn_past *past);

/* That it comes back later, if it has not done so by now. */
double return_later(double chance, const learn_past *past);

/* That it has neither come back by now nor been cured anew. */
double returns_stands(const learn_cure *c);
/* Nothing more came of it until then: it may be past. */
void returns_wait(const returns_fitting *f, learn_cure *c, const learn_past *past);

/* How often such a trouble is met at the site, a day: anew; and altogether. */
double returns_anew(const returns_fitting *f, const learn_site *s, const learn_trouble *t);
double returns_a_day(const returns_fitting *f, learn_site *s, const learn_trouble *t);
/* What was noted with its cures. */
void returns_forget(learn_site *s);
/* Parts the trouble among what it may be: what came back is noted with its cure, for the troubles
 * behind it, and so is that the same was cured anew. */
void returns_part(const returns_fitting *f, learn_site *s, learn_trouble *t);

/* returns_sure.c */
void returns_judge(arena *scratch, const returns_fitting *f);

#endif
