/* What walking and trying a fix cost, by itself and under a set-up that stands. */
#include <assert.h>
#include <math.h>

#include "choose/fix_order.h"

double choose_walk(const choice_input *in, uint32_t from, uint32_t to)
{
    if (in->walk == NULL || from == NO_PLACE || to == NO_PLACE) return 0;
    assert(from < in->place_count && to < in->place_count);
    return in->walk[(size_t)from * in->place_count + to];
}

uint32_t choose_stand(const choice_input *in, uint32_t from, uint32_t to)
{
    return in->walk == NULL || to == NO_PLACE ? from : to;
}

double fix_course_way(const fix_course *run, uint32_t f)
{
    return choose_walk(run->in, run->at, run->in->fixes[f].place);
}

double fix_own_minutes(const fix_option *fix)
{
    assert(fix->set_up_minutes >= 0 && fix->set_up_minutes <= fix->minutes);
    return fix->minutes - fix->set_up_minutes;
}

static double minutes_from_here(const fix_course *run, uint32_t f)
{
    return run->in->fixes[f].minutes + fix_course_way(run, f);
}

static double price_of(const fix_course *run, uint32_t f, const double *w, double total)
{
    const fix_option *fix = &run->in->fixes[f];
    double helped = 0;
    for (uint32_t i = 0; i < fix->cure_count; i++)
        if (fix->cures[i].chance > 0) helped += w[1 + fix->cures[i].cause];
    return run->price[f] * fmax(0, total - helped);
}

double fix_course_cost(const fix_course *run, uint32_t f, const double *w, double total)
{
    return minutes_from_here(run, f) * total + price_of(run, f, w, total);
}

double fix_course_cost_under(const fix_course *run, uint32_t g, const double *w, double total)
{
    return (fix_own_minutes(&run->in->fixes[g]) + fix_course_way(run, g)) * total +
           price_of(run, g, w, total);
}

/* Whoever was called goes a second time for a part that they did not bring. */
double fix_course_fetching(const fix_course *run, uint32_t f)
{
    return run->travels && run->missing[f] ? run->in->rules.call_minutes : 0;
}

void fix_course_add_cost(const fix_course *run, uint32_t f, bool joined, const double *survives,
                         double *minutes)
{
    const fix_option *fix = &run->in->fixes[f];
    const double saved = joined ? fix->set_up_minutes : 0, needless = run->price[f],
                 flat = minutes_from_here(run, f) + fix_course_fetching(run, f) - saved;
    for (uint32_t h = 0; h <= run->in->cause_count; h++)
        minutes[h] += survives[h] * (flat + needless);
    for (uint32_t i = 0; i < fix->cure_count; i++)
        if (fix->cures[i].chance > 0)
            minutes[1 + fix->cures[i].cause] -= survives[1 + fix->cures[i].cause] * needless;
}
