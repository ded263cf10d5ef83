/* What comes back, beside what comes anew. */
#include "believe/recurrence.h"

#include <assert.h>
#include <math.h>

#define A_DAY \
    (0.69314718055994530942 / RETURNS_HALF_DAYS) /* ln 2 in the time in which half is back */

double recurrence_later(double chance, double days)
{
    const double left = exp(-A_DAY * days);
    return chance * left / (1 - chance * (1 - left));
}

double recurrence_a_day(double chance, double days)
{
    return A_DAY * recurrence_later(chance, days);
}

/* New troubles of the site a day: its own, and a month with one that nobody saw. */
static double calls_a_day(const recurrence_input *in)
{
    return (in->calls + 1.0) / (in->days + RETURNS_HALF_DAYS);
}

/* Of the returns of a cause those that show as itself; the others show as what brings it on. */
static double own_part(const recurrence_input *in, uint32_t cause)
{
    double roots = 0;
    for (uint32_t i = 0; i < in->root_count[cause]; i++) roots += in->share[in->roots[cause][i]];
    return roots > 0 ? 0.5 : 1;
}

/* That a trouble of this cause, so many days after a cure of it, was this coming back and not anew.
 */
static double was_back(const recurrence_input *in, uint32_t cause, double days)
{
    const double again = own_part(in, cause) * recurrence_a_day(in->returns[cause], days),
                 anew = calls_a_day(in) * in->share[cause];
    return again > 0 ? again / (again + anew) : 0;
}

/* What became of one cure of a cause: it came back, on the mean; or did not in so many days, and
 * may yet. */
static double came_or_will(const recurrence_input *in, uint32_t cure, uint32_t cause)
{
    const double since = in->cures[cure].days, chance = in->returns[cause];
    double still = 1, sum = 0;
    for (uint32_t i = cure + 1; i < in->cure_count; i++) {
        const double same = in->cures[i].of[cause], days = fmax(0, since - in->cures[i].days),
                     back = was_back(in, cause, days);
        sum += still * same * (back + (1 - back) * recurrence_later(chance, days));
        still *= 1 - same;
    }
    return sum + still * recurrence_later(chance, since);
}

/* After a cure of this cause here: as everywhere, until the site's own cures say otherwise. */
static double chance_of_return(const recurrence_input *in, uint32_t cause)
{
    double cures = 0, back = 0;
    for (uint32_t i = 0; i < in->cure_count; i++) {
        const past_cure *x = &in->cures[i];
        const double surely = x->came_back ? x->of[cause] : 0;
        back += surely + x->of[cause] * came_or_will(in, i, cause);
        cures += surely + x->of[cause];
    }
    assert(back <= cures + 1e-9);
    return (RETURNS_WEIGHT * in->returns[cause] + back) / (RETURNS_WEIGHT + cures);
}

/* Returns a day, now, of cures since which it was not cured again. */
static double returns_a_day(const recurrence_input *in, uint32_t cause)
{
    double sum = 0, still = 1, chance = -1;
    for (uint32_t i = in->cure_count; i-- > 0;) {
        const double of = in->cures[i].of[cause];
        assert(in->cures[i].days >= 0);
        if (of > 0 && chance < 0) chance = chance_of_return(in, cause);
        if (of > 0) sum += still * of * recurrence_a_day(chance, in->cures[i].days);
        still *= 1 - of;
    }
    return sum;
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
    add(in, factor, cause, own_part(in, cause) * a_day);
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
