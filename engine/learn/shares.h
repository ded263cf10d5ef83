/* How often causes are met, learned from confirmed cases in which rules made some of them likelier
 * than others: the chance of cause c in a case with factors f is w_c f_c over the sum of all, and
 * the weights w are those that make what was confirmed likeliest (a conditional logit, McFadden
 * 1974; found by the steps of Hunter 2004). */
#ifndef TT_LEARN_SHARES_H
#define TT_LEARN_SHARES_H

#include "base/arena.h"
#include "learn/learn.h"

/* Cases in which the same factors held. */
typedef struct learn_setting {
    const double *factor; /* [entry] ≥ 0 */
    uint32_t count[LEARN_ENDS];
    struct learn_setting *next;
} learn_setting;

typedef struct learn_shares {
    uint32_t entries;
    const double *written;           /* [entry] > 0: relative weights of the author */
    uint32_t *confirmed[LEARN_ENDS]; /* [entry] cases */
    learn_setting *settings;
    double *weight; /* [entry] once learn_shares_fit was called; without a case and under factors
                       of 1 it is what the author wrote */
    double *worth;  /* [entry] as many cases without factors would be as sure of its share */
} learn_shares;

learn_shares *learn_shares_new(arena *keep, const double *written, uint32_t entries);

/* A case of `entry`, whose factor is above 0. */
void learn_shares_add(arena *keep, learn_shares *s, const double *factor, uint32_t entry,
                      learn_end end);

void learn_shares_fit(arena *scratch, learn_shares *s, const learn_weights *w);

#endif
