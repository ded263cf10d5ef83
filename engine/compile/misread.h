/* How an answer comes to differ from what is so: R, the chance of each answer given the state,
 * whose rows sum to 1. What an answer that confirms a cause says is hardly ever said where it isn't
 * so, so R need not be the same both ways. Mathematics: docs/mathematics.md, "Answers and
 * likelihood". */
#ifndef TT_COMPILE_MISREAD_H
#define TT_COMPILE_MISREAD_H

#include "compile/net.h"

typedef struct misreading {
    uint32_t states;
    state_mask settling;      /* answers that confirm a cause */
    double toward;            /* R of any of those where another state is so */
    double right[2], slip[2]; /* R of what is so, and of any other answer that confirms nothing;
                                 where what is so [0] confirms nothing, [1] confirms a cause */
} misreading;

misreading misreading_of(const net_finding *f);
double misread_chance(const misreading *m, uint32_t answer, uint32_t state);
/* [state] chance of what was said, a weight for each answer, where that state is so. */
void misread_weights(const misreading *m, const double *weights, double *lambda);
/* [answer] its chance, from chances of the states; p and out may be the same. Entries are `stride`
 * apart in p. */
void misread_states(const misreading *m, const double *p, uint32_t stride, double *out);

#endif
