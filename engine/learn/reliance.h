/* How much answers count: signs of one fault hang together, and who takes each for news of its own
 * grows too sure. What the answers say of a cause counts to a power, `answers-count`, and that is
 * learned like a number: the chance of what was confirmed is prior × likelihood to the power, over
 * the sum of all (a conditional logit with one number, McFadden 1974), and its logarithm is
 * concave in it. */
#ifndef TT_LEARN_RELIANCE_H
#define TT_LEARN_RELIANCE_H

#include "base/arena.h"
#include "learn/learn.h"

/* A case with its cause confirmed. */
typedef struct learn_verdict {
    uint32_t count, truth; /* what was possible; which of it was there */
    const double *before;  /* [count] ln of its chance but for what the answers say */
    const double *says;    /* [count] ln of the chance of the answers */
    learn_end end;
    struct learn_verdict *next;
} learn_verdict;

typedef struct learn_reliance {
    double power;     /* held between ANSWERS_COUNT_LEAST and 1 */
    double low, high; /* 95 % confident */
    double bits;      /* of surprise that it takes from a case on the mean, against `written` */
} learn_reliance;
learn_reliance learn_reliance_fit(const learn_verdict *all, const learn_weights *w, double written);

#endif
