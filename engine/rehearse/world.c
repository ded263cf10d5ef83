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

typedef struct shaking {
    arena *keep;
    const program *prog;
    double off;
    uint64_t seed, call;
} shaking;

static double shaken(const shaking *x, double number, uint64_t which)
{
    assert(number >= 0);
    dice d = dice_for(x->seed, x->call, DICE_NUMBERS, which);
    return number * (1 + x->off * (2 * dice_share(&d) - 1));
}

/* Of a symptom or a fix with this name. */
static const net_rate *shaken_rates(const shaking *x, str name, const net_rate *rates,
                                    uint32_t count)
{
    net_rate *all = ARENA_ARRAY(x->keep, net_rate, count);
    for (uint32_t i = 0; i < count; i++) {
        const str cause = x->prog->book->causes[rates[i].cause].id.name;
        double chance = shaken(x, rates[i].chance, dice_named_both(name, cause));
        all[i] = (net_rate){rates[i].cause, fmin(chance, CURE_MOST)};
    }
    return all;
}

static const net_symptom *shaken_symptoms(const shaking *x, const net_input *in)
{
    net_symptom *all = ARENA_ARRAY(x->keep, net_symptom, in->symptom_count);
    for (uint32_t s = 0; s < in->symptom_count; s++) {
        all[s] = in->symptoms[s];
        all[s].listed = shaken_rates(x, all[s].name, all[s].listed, all[s].listed_count);
        all[s].otherwise = fmin(shaken(x, all[s].otherwise, dice_named(all[s].name, 0)), 1);
    }
    return all;
}

static const double *shaken_weights(const shaking *x, const net_input *in)
{
    double *all = ARENA_ARRAY(x->keep, double, in->cause_count);
    for (uint32_t c = 0; c < in->cause_count; c++)
        all[c] = shaken(x, in->weights[c], dice_named_both(STR("cause"), in->cause_names[c]));
    return all;
}

static const net_rate *const *shaken_cures(const shaking *x)
{
    const program *p = x->prog;
    const net_rate **all = ARENA_ARRAY(x->keep, const net_rate *, p->book->fix_count);
    for (uint32_t f = 0; f < p->book->fix_count; f++)
        all[f] =
            shaken_rates(x, p->book->fixes[f].id.name, p->cures[f], p->book->fixes[f].cures_count);
    return all;
}

world world_off(arena *keep, arena *scratch, const program *p, double off, uint64_t seed,
                uint64_t call)
{
    assert(off >= 0 && off < 1);
    const shaking x = {keep, p, off, seed, call};
    net_input in = p->evidence->in;
    in.symptoms = shaken_symptoms(&x, &p->evidence->in);
    in.weights = shaken_weights(&x, &p->evidence->in);
    const net_rate *const *cures = shaken_cures(&x);
    const net *n = net_build(keep, scratch, &in, NULL);
    assert(n !=
           NULL); /* only weights of 0 or a component too big fail, and neither can come of this */
    return world_of(keep, n, cures);
}
