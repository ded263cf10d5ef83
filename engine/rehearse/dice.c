/* Random numbers with a name. */
#include "rehearse/dice.h"

#include <assert.h>
#include <math.h>

#define GOLDEN UINT64_C(0x9E3779B97F4A7C15) /* 2^64 over the golden ratio, odd */

static uint64_t stirred(uint64_t z)
{
    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    return z ^ (z >> 31);
}

uint64_t dice_next(dice *d)
{
    d->state += GOLDEN;
    return stirred(d->state);
}

/* Each part is stirred in before the next is added, or neighbours would share their numbers. */
dice dice_for(uint64_t seed, uint64_t call, dice_use use, uint64_t which)
{
    uint64_t parts[] = {call, (uint64_t)use, which};
    dice d = {stirred(seed + GOLDEN)};
    for (unsigned i = 0; i < sizeof parts / sizeof parts[0]; i++)
        d.state = stirred((d.state ^ parts[i]) + GOLDEN);
    return d;
}

/* FNV-1a (Fowler, Noll, Vo 1991), which is stirred afterwards: alone it leaves neighbours alike. */
static uint64_t hash_on(uint64_t hash, str name)
{
    for (size_t i = 0; i < name.n; i++)
        hash = (hash ^ (unsigned char)name.p[i]) * UINT64_C(1099511628211);
    return hash;
}

static const uint64_t hash_begin = UINT64_C(14695981039346656037);

uint64_t dice_named(str name, uint32_t time)
{
    assert(name.n > 0);
    return stirred(hash_on(hash_begin, name) + time * GOLDEN);
}

/* No name holds the byte between them. */
uint64_t dice_named_both(str first, str second)
{
    assert(first.n > 0 && second.n > 0);
    return stirred(hash_on(hash_on(hash_on(hash_begin, first), (str){"\n", 1}), second));
}

double dice_share(dice *d)
{
    return (double)(dice_next(d) >> 11) * 0x1p-53;
}

bool dice_falls(dice *d, double chance)
{
    assert(chance >= 0);
    return dice_share(d) < chance;
}

uint32_t dice_below(dice *d, uint32_t count)
{
    assert(count > 0);
    return (uint32_t)(dice_share(d) * count);
}

double dice_wait(dice *d, double rate)
{
    assert(rate >= 0);
    const double wait = -log1p(-dice_share(d));
    return rate > 0 ? wait / rate : INFINITY;
}

uint32_t dice_pick(dice *d, const double *weights, uint32_t count)
{
    double sum = 0, at = dice_share(d);
    uint32_t last = 0;
    assert(count > 0);
    for (uint32_t i = 0; i < count; i++) sum += weights[i];
    assert(sum > 0);
    for (uint32_t i = 0; i < count; i++) {
        if (!(weights[i] > 0)) continue;
        if (at * sum < weights[i]) return i;
        at -= weights[i] / sum;
        last = i;
    }
    return last; /* rounding left a hair over */
}
