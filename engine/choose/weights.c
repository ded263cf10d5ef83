/* What is left of weights, and what a fix takes from them. */
#include "choose/weights.h"

#include <assert.h>
#include <math.h>

double weights_total(const double *w, uint32_t cause_count)
{
    double total = 0;
    for (uint32_t h = 0; h <= cause_count; h++) total += w[h];
    assert(total >= 0 && isfinite(total));
    return total;
}

double cured_weight(const fix_option *f, const double *w)
{
    double cured = 0;
    for (uint32_t i = 0; i < f->cure_count; i++)
        cured += w[1 + f->cures[i].cause] * f->cures[i].chance;
    return cured;
}

void fix_failed(const fix_option *f, double *w)
{
    for (uint32_t i = 0; i < f->cure_count; i++) w[1 + f->cures[i].cause] *= 1 - f->cures[i].chance;
}
