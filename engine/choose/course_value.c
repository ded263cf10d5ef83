/* What a course of fixes costs to its end, and what calling costs: a course ends with calling, and
 * whoever is called begins a course of their own, so the two are one recursion. */
#include "choose/course_value.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "choose/call_out.h"

/* They are called for what is theirs: where that is unlikely, they are passed over. */
static bool is_of_use(const calling *c, uint32_t callee, const double *w, double total)
{
    enum { STRETCH = 32 };
    const causes_of *theirs = &c->theirs[callee];
    const double likely = c->in->rules.likely * total;
    double share = 0; /* it only grows: what is enough stays so */
    for (uint32_t i = 0; i < theirs->count && !(share >= likely);) {
        const uint32_t end = theirs->count - i < STRETCH ? theirs->count : i + STRETCH;
        for (; i < end; i++) share += w[1 + theirs->causes[i]];
    }
    return share >= likely;
}

/* The first of those beside each other one of whom is of use. */
static uint32_t who_comes(const fix_course *caller, const double *w, double total)
{
    const choice_input *in = caller->in;
    uint32_t at = caller->above;
    while (at < in->callee_count && !is_of_use(caller->calls, at, w, total)) at++;
    if (at == in->callee_count) return NO_CALLEE;
    while (at > caller->above && in->callees[at - 1].level == in->callees[at].level) at--;
    return at;
}

/* Of those beside each other from `first` on. */
static uint32_t cheapest_from(const fix_course *caller, uint32_t first, const double *w,
                              double *value)
{
    const calling *c = caller->calls;
    uint32_t best = first;
    *value = first == NO_CALLEE ? 0 : INFINITY;
    for (uint32_t i = first; i < first_above(c->in, first); i++) {
        double of_this = fix_course_after(c->of[i], caller, w);
        if (of_this < *value) best = i;
        *value = fmin(*value, of_this);
    }
    return best;
}

uint32_t best_callee(const fix_course *caller, const double *w, double total, double *value)
{
    return cheapest_from(caller, who_comes(caller, w, total), w, value);
}

uint32_t likely_callee(const fix_course *caller, const double *w, double total)
{
    double value;
    const bool sends = caller->sends && caller->above < caller->in->callee_count;
    return cheapest_from(caller, sends ? caller->above : who_comes(caller, w, total), w, &value);
}

bool may_call_outside(const fix_course *caller)
{
    return caller->above < caller->in->callee_count && !caller->sends;
}

double call_value(const fix_course *caller, const double *w, double total, uint32_t asks,
                  double limit)
{
    const double wait = caller->in->rules.call_minutes * total;
    double value;
    if (caller->above >= caller->in->callee_count) return wait;
    if (may_call_outside(caller)) return wait + calling_bound(caller->calls, w);
    if (wait >= limit) return INFINITY;
    if (!caller->travels && caller->calls->plans.count > 0) {
        if (who_comes(caller, w, total) == caller->above)
            return isfinite(limit) && wait + calling_bound(caller->calls, w) >= limit
                       ? INFINITY
                       : least_plan(caller->calls, w, asks, limit);
    }
    best_callee(caller, w, total, &value);
    return wait + value;
}

/* One more fix of the run; returns its minutes. */
static double go_on_with(fix_course *run, uint32_t f, bool joined, const double *w, double total)
{
    const double cost =
        joined ? fix_course_cost_under(run, f, w, total)
               : fix_course_cost(run, f, w, total) + fix_course_fetching(run, f) * total;
    run->joined[run->length] = joined;
    run->order[run->length++] = f;
    fix_course_try(run, f);
    return cost;
}

static double value_from_here(fix_course *run, uint32_t asks)
{
    const uint32_t causes = run->in->cause_count;
    double total = fix_course_total(run), total_before = total, spent = 0;
    if (run->travels && !run->packed) fix_course_pack(run);
    double best = call_value(run, run->left, total, asks, INFINITY);
    uint32_t f = fix_course_next(run, total);
    bool joined = false;
    run->length = run->best_length = 0;
    run->first_total = total;
    assert(f == NO_FIX || run->in->fixes[f].level < RISK_HIGH);
    /* Nothing later can be cheaper than what was spent to get there. */
    while (f != NO_FIX && spent < best) {
        if (!joined) {
            total_before = total;
            if (run->shares[f]) memcpy(run->before, run->left, (causes + 1) * sizeof *run->left);
        }
        spent += go_on_with(run, f, joined, joined ? run->before : run->left, total_before);
        total = fix_course_total(run);
        double then = spent + call_value(run, run->left, total, asks, best - spent);
        if (then < best) run->best_length = run->length;
        best = fmin(best, then);
        const uint32_t partner = joined ? NO_FIX : fix_course_joins(run, f, total_before, total);
        joined = partner != NO_FIX;
        f = joined ? partner : fix_course_next(run, total);
    }
    return best;
}

double fix_course_value_of(fix_course *run, const double *w, double total, fix_pair without,
                           uint32_t asks)
{
    fix_course_begin(run, NULL, w);
    run->total = total;
    if (without.first != NO_FIX) fix_course_leave_out(run, without.first);
    if (without.second != NO_FIX) fix_course_leave_out(run, without.second);
    return value_from_here(run, asks);
}

double fix_course_value(fix_course *run, const double *w, fix_pair without, uint32_t asks)
{
    return fix_course_value_of(run, w, weights_total(w, run->in->cause_count), without, asks);
}

uint32_t fix_course_first(const fix_course *run)
{
    return run->length > 0 ? run->order[0] : NO_FIX;
}

double fix_course_after(fix_course *run, const fix_course *caller, const double *w)
{
    fix_course_begin(run, caller, w);
    return value_from_here(run, 0);
}
