/* Positive definite systems, for how sure numbers are that were learned together. */
#ifndef TT_LEARN_POSITIVE_H
#define TT_LEARN_POSITIVE_H

#include <stdint.h>

/* Replaces the lower triangle of h[n][n], which is symmetric and positive definite, by its factor
 * L with L L' = h (Cholesky). */
void positive_factor(double *h, uint32_t n);
/* x becomes the solution of L L' y = x. */
void positive_solve(const double *factor, uint32_t n, double *x);

#endif
