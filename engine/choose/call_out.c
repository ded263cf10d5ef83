/* Whom somebody may call, and what no plan of theirs can beat. */
#include "choose/call_out.h"

#include <assert.h>
#include <math.h>

/* ---- what no plan can beat ---- */

/* Whoever knows the cause for certain tries what cures it most cheaply, as often as there are such
 * fixes, under a set-up that stands already, and calls with what is left: a plan that knows less
 * takes no fewer minutes. */
static double least_minutes(const fix_course *course, uint32_t cause)
{
    const choice_input *in = course->in;
    double left = 1, cheapest = in->rules.call_minutes;
    for (uint32_t k = course->cure_start[cause]; k < course->cure_start[cause + 1]; k++) {
        const fix_option *f = &in->fixes[course->cure_fixes[k]];
        for (uint32_t i = 0; i < f->cure_count; i++) {
            if (f->cures[i].cause != cause || f->cures[i].chance <= 0) continue;
            cheapest = fmin(cheapest, (f->minutes - f->set_up_minutes) / f->cures[i].chance);
            left *= 1 - f->cures[i].chance;
        }
    }
    assert(left >= 0 && left <= 1);
    return cheapest * (1 - left) + in->rules.call_minutes * left;
}

static const double *least_of_all(arena *keep, const choice_input *in)
{
    bool *open = ARENA_ARRAY(keep, bool, in->fix_count);
    double *least = ARENA_ARRAY(keep, double, (size_t)in->cause_count + 1);
    for (uint32_t i = 0; i < in->callee_count; i++)
        for (uint32_t f = 0; f < in->fix_count; f++) open[f] |= in->callees[i].open[f];
    const fix_course *any = fix_course_of(keep, in, open);
    least[0] = in->rules.call_minutes;
    for (uint32_t c = 0; c < in->cause_count; c++) least[1 + c] = least_minutes(any, c);
    return least;
}

/* ---- whoever may be called ---- */

uint32_t first_above(const choice_input *in, uint32_t callee)
{
    uint32_t next = callee;
    while (callee < in->callee_count && next < in->callee_count &&
           in->callees[next].level == in->callees[callee].level)
        next++;
    return next;
}

static bool cures(const fix_course *course, uint32_t cause)
{
    return course->cure_start[cause] < course->cure_start[cause + 1];
}

static bool is_theirs(const calling *c, const fix_course *own, uint32_t callee, uint32_t cause)
{
    const choice_input *in = c->in;
    bool theirs = cures(c->of[callee], cause) && !cures(own, cause);
    for (uint32_t i = 0; theirs && in->callees[i].level < in->callees[callee].level; i++)
        theirs = !cures(c->of[i], cause);
    return theirs;
}

/* What a callee may cure, and neither whoever asks nor anybody below them who may be called. */
static causes_of only_theirs(arena *keep, const calling *c, const fix_course *own, uint32_t callee)
{
    const choice_input *in = c->in;
    uint32_t *list = ARENA_ARRAY(keep, uint32_t, in->cause_count), count = 0;
    for (uint32_t cause = 0; cause < in->cause_count; cause++)
        if (is_theirs(c, own, callee, cause)) list[count++] = cause;
    return (causes_of){list, count};
}

static calling *calling_new(arena *keep, const fix_course *own)
{
    const choice_input *in = own->in;
    calling *c = ARENA_NEW(keep, calling);
    fix_course **of = ARENA_ARRAY(keep, fix_course *, in->callee_count);
    causes_of *theirs = ARENA_ARRAY(keep, causes_of, in->callee_count);
    *c = (calling){.in = in, .of = of, .theirs = theirs};
    if (in->callee_count > 0) c->least = least_of_all(keep, in);
    for (uint32_t i = 0; i < in->callee_count; i++) {
        assert(i == 0 || in->callees[i].level >= in->callees[i - 1].level);
        of[i] = fix_course_of(keep, in, in->callees[i].open);
        of[i]->calls = c;
        of[i]->above = first_above(in, i);
        of[i]->sends = in->callees[i].sends;
        of[i]->travels = true;
        theirs[i] = only_theirs(keep, c, own, i);
    }
    return c;
}

/* ---- the value ---- */

double calling_bound(const calling *c, const double *w)
{
    double bound = 0;
    for (uint32_t h = 0; h <= c->in->cause_count; h++) bound += w[h] * c->least[h];
    return bound;
}

double plan_value(const double *minutes, const double *w, uint32_t cause_count, double limit)
{
    enum { STRETCH = 32 };
    double value = 0;
    for (uint32_t h = 0; h <= cause_count && value < limit;) {
        uint32_t end = cause_count + 1 - h < STRETCH ? cause_count + 1 : h + STRETCH;
        for (; h < end; h++) value += w[h] * minutes[h];
    }
    return value;
}

/* Four side by side, each summed as plan_value does: a sum waits for the one before it, and four
 * don't wait for each other. Ends where all of them cost more than the limit. */
static void values_of_four(const double *const *minutes, const double *w, uint32_t cause_count,
                           double limit, double *values)
{
    enum { STRETCH = 32 };
    const double *a = minutes[0], *b = minutes[1], *c = minutes[2], *d = minutes[3];
    double of_a = 0, of_b = 0, of_c = 0, of_d = 0;
    for (uint32_t h = 0; h <= cause_count;) {
        const uint32_t end = cause_count + 1 - h < STRETCH ? cause_count + 1 : h + STRETCH;
        for (; h < end; h++) {
            of_a += w[h] * a[h];
            of_b += w[h] * b[h];
            of_c += w[h] * c[h];
            of_d += w[h] * d[h];
        }
        if (of_a >= limit && of_b >= limit && of_c >= limit && of_d >= limit) break;
    }
    values[0] = of_a;
    values[1] = of_b;
    values[2] = of_c;
    values[3] = of_d;
}

enum { ABREAST = 4 };

void plan_values(const double *const *minutes, uint32_t count, const double *w,
                 uint32_t cause_count, double *values)
{
    uint32_t i = 0;
    for (; i + ABREAST <= count; i += ABREAST)
        values_of_four(minutes + i, w, cause_count, INFINITY, values + i);
    for (; i < count; i++) values[i] = plan_value(minutes[i], w, cause_count, INFINITY);
}

/* The plan that was best last time is tried first: of the others most then soon cost more. The
 * least is the same whatever their order. */
double least_plan(calling *c, const double *w, uint32_t asks, double limit)
{
    assert(asks <= CALLEE_ASKS && c->plans.count > 0);
    const uint32_t count = c->plans.up_to[asks], causes = c->in->cause_count;
    uint32_t first = c->plans.last_best < count ? c->plans.last_best : 0, which = first;
    double best = count == 0 ? limit : plan_value(c->plans.minutes[first], w, causes, limit);
    if (!(best < limit)) best = limit;
    for (uint32_t i = 0; i < count; i += ABREAST) {
        const uint32_t abreast = count - i < ABREAST ? count - i : ABREAST;
        double values[ABREAST];
        if (abreast == ABREAST)
            values_of_four(c->plans.minutes + i, w, causes, best, values);
        else
            for (uint32_t k = 0; k < abreast; k++)
                values[k] = plan_value(c->plans.minutes[i + k], w, causes, best);
        for (uint32_t k = 0; k < abreast; k++) {
            if (i + k == first || !(values[k] < best)) continue;
            best = values[k];
            which = i + k;
        }
    }
    c->plans.last_best = which;
    return best;
}

fix_course *fix_course_new(arena *keep, const choice_input *in)
{
    fix_course *run = fix_course_own(keep, in);
    run->calls = calling_new(keep, run);
    return run;
}
