/* The world that made-up calls come from. */
#include "rehearse/world.h"

#include <assert.h>
#include <math.h>

#define CURE_MOST (1 - 1e-6) /* no fix is certain, here as in the engine */

static world world_of(arena *keep, const net *n, const net_rate *const *cures)
{
    return (world){n, cures, belief_new(keep, n, 2)};
}

world world_written(arena *keep, const program *p)
{
    return world_of(keep, p->evidence, p->cures);
}

static double shaken(double number, double off, dice *d)
{
    assert(number >= 0);
    return number * (1 + off * (2 * dice_share(d) - 1));
}

static const net_rate *shaken_rates(arena *keep, const net_rate *rates, uint32_t count, double off,
                                    dice *d)
{
    net_rate *all = ARENA_ARRAY(keep, net_rate, count);
    for (uint32_t i = 0; i < count; i++)
        all[i] = (net_rate){rates[i].cause, fmin(shaken(rates[i].chance, off, d), CURE_MOST)};
    return all;
}

static const net_symptom *shaken_symptoms(arena *keep, const net_input *in, double off, dice *d)
{
    net_symptom *all = ARENA_ARRAY(keep, net_symptom, in->symptom_count);
    for (uint32_t s = 0; s < in->symptom_count; s++) {
        all[s] = in->symptoms[s];
        all[s].listed = shaken_rates(keep, all[s].listed, all[s].listed_count, off, d);
        all[s].otherwise = fmin(shaken(all[s].otherwise, off, d), 1);
    }
    return all;
}

static const double *shaken_weights(arena *keep, const net_input *in, double off, dice *d)
{
    double *all = ARENA_ARRAY(keep, double, in->cause_count);
    for (uint32_t c = 0; c < in->cause_count; c++) all[c] = shaken(in->weights[c], off, d);
    return all;
}

static const net_rate *const *shaken_cures(arena *keep, const program *p, double off, dice *d)
{
    const net_rate **all = ARENA_ARRAY(keep, const net_rate *, p->book->fix_count);
    for (uint32_t f = 0; f < p->book->fix_count; f++)
        all[f] = shaken_rates(keep, p->cures[f], p->book->fixes[f].cures_count, off, d);
    return all;
}

world world_off(arena *keep, arena *scratch, const program *p, double off, dice *d)
{
    assert(off >= 0 && off < 1);
    net_input in = p->evidence->in;
    in.symptoms = shaken_symptoms(keep, &p->evidence->in, off, d);
    in.weights = shaken_weights(keep, &p->evidence->in, off, d);
    const net_rate *const *cures = shaken_cures(keep, p, off, d);
    const net *n = net_build(keep, scratch, &in, NULL);
    assert(n !=
           NULL); /* only weights of 0 or a component too big fail, and neither can come of this */
    return world_of(keep, n, cures);
}
