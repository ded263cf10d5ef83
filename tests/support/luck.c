#include "luck.h"

#include <assert.h>
#include <math.h>

/* SplitMix64, Steele, Lea, Flood 2014. */
static uint64_t next(uint64_t *state)
{
    uint64_t z = *state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

double luck_share(uint64_t *state)
{
    return ldexp((double)(next(state) >> 11), -53);
}

double luck_share_within(uint64_t *state)
{
    return ldexp((double)(next(state) >> 11) + 0.5, -53);
}

uint32_t luck_below(uint64_t *state, uint32_t limit)
{
    assert(limit > 0);
    return (uint32_t)(luck_share(state) * limit);
}

/* Box, Muller 1958. */
double luck_normal(uint64_t *state)
{
    const double length = sqrt(-2 * log(luck_share_within(state)));
    return length * cos(6.283185307179586 * luck_share_within(state));
}

/* Marsaglia, Tsang 2000; below 1 by their step from shape + 1. */
double luck_gamma(uint64_t *state, double shape)
{
    if (shape < 1) {
        const double above = luck_gamma(state, shape + 1);
        return above * pow(luck_share_within(state), 1 / shape);
    }
    const double d = shape - 1.0 / 3, c = 1 / sqrt(9 * d);
    for (;;) {
        const double x = luck_normal(state), v = pow(1 + c * x, 3);
        if (v > 0 && log(luck_share_within(state)) < 0.5 * x * x + d - d * v + d * log(v))
            return d * v;
    }
}

uint32_t luck_pick(uint64_t *state, const double *chances, uint32_t count)
{
    double at = luck_share(state), sum = 0;
    assert(count > 0);
    for (uint32_t i = 0; i < count; i++) sum += chances[i];
    at *= sum;
    for (uint32_t i = 0; i + 1 < count; i++)
        if ((at -= chances[i]) < 0) return i;
    return count - 1;
}
