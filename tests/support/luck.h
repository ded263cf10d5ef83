/* Numbers as if by chance, and always the same of a seed. Everything drawn in a test is drawn here,
 * so that a failure comes again. The state is the test's; any number is a seed. */
#ifndef TT_SUPPORT_LUCK_H
#define TT_SUPPORT_LUCK_H

#include <stdint.h>

double luck_share(uint64_t *state);        /* [0, 1) */
double luck_share_within(uint64_t *state); /* (0, 1), for logarithms */
uint32_t luck_below(uint64_t *state, uint32_t limit);
double luck_normal(uint64_t *state);
double luck_gamma(uint64_t *state, double shape);
/* Which of them, each with a chance in proportion. */
uint32_t luck_pick(uint64_t *state, const double *chances, uint32_t count);

#endif
