/* What comes back, beside what comes anew. */
#include "believe/recurrence.h"

#include <assert.h>
#include <math.h>

/* The next trouble of the site was this again. */
static double came_again(const recurrence_input *in, uint32_t cure, uint32_t cause)
{
    return cure + 1 < in->cure_count ? in->cures[cure + 1].of[cause] : 0;
}

/* After a cure of this cause here: as usual, until the site's own cures say otherwise. */
static double chance_of_return(const recurrence_input *in, uint32_t cause)
{
    double known = 0, back = 0;
    for (uint32_t i = 0; i < in->cure_count; i++) {
        const past_cure *x = &in->cures[i];
        if (x->came_back) back += x->of[cause];
        if (x->came_back) known += x->of[cause];
        if (i + 1 < in->cure_count) known += x->of[cause];
        back += x->of[cause] * came_again(in, i, cause);
    }
    assert(back <= known + 1e-9);
    return (RETURNS_WEIGHT * in->returns[cause] + back) / (RETURNS_WEIGHT + known);
}

/* Returns a day, now, of cures that still stand. */
static double returns_a_day(const recurrence_input *in, uint32_t cause)
{
    double sum = 0;
    for (uint32_t i = 0; i < in->cure_count; i++) {
        assert(in->cures[i].days >= 0);
        sum += in->cures[i].of[cause] * (1 - came_again(in, i, cause)) *
               exp(-log(2) * in->cures[i].days / RETURNS_HALF_DAYS);
    }
    return sum > 0 ? chance_of_return(in, cause) * log(2) / RETURNS_HALF_DAYS * sum : 0;
}

/* New troubles of the site a day: its own, and a month with one that nobody saw. */
static double calls_a_day(const recurrence_input *in)
{
    return (in->calls + 1.0) / (in->days + RETURNS_HALF_DAYS);
}

static void add(const recurrence_input *in, double *factor, uint32_t cause, double a_day)
{
    if (in->share[cause] > 0) factor[cause] += a_day / (calls_a_day(in) * in->share[cause]);
}

/* Half of what comes back does so because what brings it on is still there. */
static void add_returns(const recurrence_input *in, double *factor, uint32_t cause, double a_day)
{
    double roots = 0;
    for (uint32_t i = 0; i < in->root_count[cause]; i++) roots += in->share[in->roots[cause][i]];
    add(in, factor, cause, roots > 0 ? a_day / 2 : a_day);
    for (uint32_t i = 0; i < in->root_count[cause] && roots > 0; i++) {
        const uint32_t root = in->roots[cause][i];
        add(in, factor, root, a_day / 2 * in->share[root] / roots);
    }
}

double *recurrence_factors(arena *keep, const recurrence_input *in)
{
    double *factor = ARENA_ARRAY(keep, double, in->cause_count);
    assert(in->days >= 0);
    for (uint32_t c = 0; c < in->cause_count; c++) factor[c] = 1;
    for (uint32_t c = 0; c < in->cause_count; c++) {
        const double a_day = returns_a_day(in, c);
        if (a_day > 0) add_returns(in, factor, c, a_day);
    }
    return factor;
}
