/* Signs that come and go, learned from cases in which one was looked at more than once. A sign that
 * a cause shows in a share p of its calls is seen there by a share q of looks. One look a case
 * tells the product p q alone, which is the chance in the row of the cause; looks that differ, more
 * than misreading makes them, tell the two apart. The number is what makes these looks likeliest,
 * with the product as learned. Mathematics: docs/mathematics.md, "Learning". */
#ifndef TT_LEARN_PASSING_H
#define TT_LEARN_PASSING_H

#include "believe/looks.h"
#include "learn/row.h"

/* All looks at a finding in a case. */
typedef struct learn_looked {
    uint32_t count;
    const double *chance; /* [look][atom] of what was said */
    uint32_t times[LEARN_ENDS];
    struct learn_looked *next;
} learn_looked;

typedef struct learn_passing {
    const learn_row *row; /* of the cause */
    const bool *inside;   /* [atom] where the sign is */
    double written;       /* of looks, those that show it while it is there */
    double strength; /* as how many looks that counts; 0: nobody said it, and 1 stands for it */
    learn_looked *all;
    /* Once it is fitted: */
    double mean, low, high; /* 95 % sure, from the likelihood */
    double shown, of;       /* of looks while it was there, those that showed it, on the mean */
} learn_passing;

/* The component has the row's atoms; of fewer than two looks nothing is kept. */
void learn_passing_add(arena *keep, learn_passing *p, const net *n, const component *g, looks all,
                       learn_end end);

/* The row must be fitted; `spread` is how sure its chance of the sign is (a standard deviation,
 * > 0). */
void learn_passing_fit(learn_passing *p, const learn_weights *w, double spread);

#endif
