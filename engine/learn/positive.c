/* Cholesky's factor, and what is solved with it. */
#include "learn/positive.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

void positive_factor(double *h, uint32_t n)
{
    for (uint32_t i = 0; i < n; i++) {
        double *row = h + (size_t)i * n;
        for (uint32_t k = 0; k <= i; k++) {
            const double *above = h + (size_t)k * n;
            double rest = row[k];
            for (uint32_t j = 0; j < k; j++) rest -= row[j] * above[j];
            assert(k < i || rest > 0);
            row[k] = k < i ? rest / above[k] : sqrt(rest);
        }
    }
}

void positive_solve(const double *factor, uint32_t n, double *x)
{
    for (uint32_t i = 0; i < n; i++) {
        for (uint32_t k = 0; k < i; k++) x[i] -= factor[(size_t)i * n + k] * x[k];
        assert(factor[(size_t)i * n + i] > 0);
        x[i] /= factor[(size_t)i * n + i];
    }
    for (uint32_t i = n; i-- > 0;) {
        for (uint32_t k = i + 1; k < n; k++) x[i] -= factor[(size_t)k * n + i] * x[k];
        x[i] /= factor[(size_t)i * n + i];
    }
}
