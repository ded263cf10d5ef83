#include "choice_twin.h"

#include <assert.h>
#include <math.h>

static double sum(const choice_input *in, const double *w)
{
    double total = 0;
    for (uint32_t h = 0; h <= in->cause_count; h++) total += w[h];
    return total;
}

static double cure_chance(const fix_option *f, uint32_t cause)
{
    for (uint32_t i = 0; i < f->cure_count; i++)
        if (f->cures[i].cause == cause) return f->cures[i].chance;
    return 0;
}

uint32_t twin_first(const choice_input *in, arena *scratch, const double *w, twin_course so_far)
{
    assert(in->cause_count <= TWIN_CAUSES && in->fix_count <= TWIN_FIXES);
    fix_option fixes[TWIN_FIXES];
    ranked_fix order[TWIN_FIXES];
    choice_input now = *in;
    for (uint32_t f = 0; f < in->fix_count; f++) {
        fixes[f] = in->fixes[f];
        if (so_far.failed >> f & 1) fixes[f].open = false;
    }
    now.fixes = fixes;
    choose_order(&now, scratch, w, order);
    return in->fix_count > 0 && order[0].standing <= FIX_POSSIBLE ? order[0].fix : UINT32_MAX;
}

double twin_cost(const choice_input *in, uint32_t f, const double *w)
{
    const fix_option *fix = &in->fixes[f];
    double needless = w[0];
    for (uint32_t c = 0; c < in->cause_count; c++)
        if (cure_chance(fix, c) <= 0) needless += w[1 + c];
    int level = (int)fix->level + (fix->cannot_undo ? 1 : 0);
    return fix->minutes * sum(in, w) + in->rules.price[level] * needless;
}

void twin_fail(const choice_input *in, uint32_t f, const double *w, double *out)
{
    out[0] = w[0];
    for (uint32_t c = 0; c < in->cause_count; c++)
        out[1 + c] = w[1 + c] * (1 - cure_chance(&in->fixes[f], c));
}

void twin_answer(const choice_input *in, uint32_t q, uint32_t y, const double *w, double *out)
{
    const prediction *seen = in->questions[q].seen;
    out[0] = w[0] * seen->other[y];
    for (uint32_t c = 0; c < in->cause_count; c++) {
        const double *row = seen->base;
        for (uint32_t i = 0; i < seen->listed_count; i++)
            if (seen->listed[i] == c) row = &seen->rows[i * seen->states];
        out[1 + c] = w[1 + c] * row[y];
    }
}

double twin_fix_value(const choice_input *in, arena *scratch, const double *w, twin_course so_far)
{
    double call = in->rules.call_minutes * sum(in, w);
    uint32_t f = twin_first(in, scratch, w, so_far);
    if (f == UINT32_MAX) return call;
    double left[TWIN_CAUSES + 1];
    twin_fail(in, f, w, left);
    so_far.failed |= UINT32_C(1) << f;
    return fmin(call, twin_cost(in, f, w) + twin_fix_value(in, scratch, left, so_far));
}

double twin_value(const choice_input *in, arena *scratch, const double *w, twin_course so_far,
                  uint32_t listed, int ahead)
{
    double best = twin_fix_value(in, scratch, w, so_far);
    for (uint32_t q = 0; ahead > 0 && q < in->question_count; q++)
        if ((listed & ~so_far.asked) >> q & 1)
            best = fmin(best, twin_ask(in, scratch, w, q, so_far, listed, ahead - 1));
    return best;
}

double twin_ask(const choice_input *in, arena *scratch, const double *w, uint32_t q,
                twin_course so_far, uint32_t listed, int ahead)
{
    double after[TWIN_CAUSES + 1], value = fmax(.1, in->questions[q].minutes) * sum(in, w);
    so_far.asked |= UINT32_C(1) << q;
    for (uint32_t y = 0; y < in->questions[q].seen->states; y++) {
        twin_answer(in, q, y, w, after);
        value += twin_value(in, scratch, after, so_far, listed, ahead);
    }
    return value;
}

/* splitmix64 (Steele, Lea and Flood 2014). */
static uint64_t next(uint64_t *state)
{
    uint64_t z = *state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

double twin_random(uint64_t *state)
{
    return ldexp((double)(next(state) >> 11), -53);
}

uint32_t twin_random_below(uint64_t *state, uint32_t limit)
{
    assert(limit > 0);
    return (uint32_t)(twin_random(state) * limit);
}
