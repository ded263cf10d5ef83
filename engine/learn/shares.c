/* Weights of causes by steps that each raise the likelihood, and their observed information. */
#include "learn/shares.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "learn/positive.h"

learn_shares *learn_shares_new(arena *keep, const double *written, uint32_t entries)
{
    learn_shares *s = ARENA_NEW(keep, learn_shares);
    *s = (learn_shares){.entries = entries,
                        .written = written,
                        .weight = ARENA_ARRAY(keep, double, entries),
                        .worth = ARENA_ARRAY(keep, double, entries)};
    for (int e = 0; e < LEARN_ENDS; e++) s->confirmed[e] = ARENA_ARRAY(keep, uint32_t, entries);
    return s;
}

void learn_shares_add(arena *keep, learn_shares *s, const double *factor, uint32_t entry,
                      learn_end end)
{
    assert(entry < s->entries && factor[entry] > 0 && end < LEARN_ENDS);
    learn_setting *x = s->settings;
    while (x != NULL && memcmp(x->factor, factor, s->entries * sizeof *factor) != 0) x = x->next;
    if (x == NULL) {
        double *copy = ARENA_ARRAY(keep, double, s->entries);
        memcpy(copy, factor, s->entries * sizeof *copy);
        x = ARENA_NEW(keep, learn_setting);
        *x = (learn_setting){.factor = copy, .next = s->settings};
        s->settings = x;
    }
    x->count[end]++;
    s->confirmed[end][entry]++;
}

static double times(const uint32_t count[LEARN_ENDS], const learn_weights *w)
{
    double sum = 0;
    for (int e = 0; e < LEARN_ENDS; e++) sum += w->of[e] * count[e];
    return sum;
}

static double sum_of(const double *items, uint32_t count)
{
    double sum = 0;
    for (uint32_t i = 0; i < count; i++) sum += items[i];
    return sum;
}

static double weight_under(const learn_shares *s, const double *factor)
{
    double sum = 0;
    for (uint32_t i = 0; i < s->entries; i++) sum += s->weight[i] * factor[i];
    assert(sum > 0);
    return sum;
}

/* ---- the weights ---- */

/* Cases that would be expected of each entry, for a weight of 1; the author's are without factors.
 */
static void expect(const learn_shares *s, const learn_weights *w, double *out)
{
    double plain = LEARN_SHARES_COUNT / sum_of(s->weight, s->entries);
    for (uint32_t i = 0; i < s->entries; i++) out[i] = plain;
    for (const learn_setting *x = s->settings; x != NULL; x = x->next) {
        double each = times(x->count, w) / weight_under(s, x->factor);
        for (uint32_t i = 0; i < s->entries; i++) out[i] += each * x->factor[i];
    }
}

static double cases_of(const learn_shares *s, const learn_weights *w, uint32_t entry)
{
    const uint32_t count[LEARN_ENDS] = {s->confirmed[LEARN_CURED][entry],
                                        s->confirmed[LEARN_HANDED_OVER][entry]};
    return LEARN_SHARES_COUNT * s->written[entry] / sum_of(s->written, s->entries) +
           times(count, w);
}

static double all_cases(const learn_shares *s, const learn_weights *w)
{
    double sum = LEARN_SHARES_COUNT;
    for (const learn_setting *x = s->settings; x != NULL; x = x->next) sum += times(x->count, w);
    return sum;
}

/* The sum of weights is free; with this one a cause that no factor touched and no case had keeps
 * what is written. */
static void scale(learn_shares *s, double sum)
{
    double by = sum / sum_of(s->weight, s->entries);
    for (uint32_t i = 0; i < s->entries; i++) s->weight[i] *= by;
}

static void settle(arena *scratch, learn_shares *s, const learn_weights *w)
{
    enum { STEPS_MOST = 20000 };
    static const double enough = 1e-14;
    double *expected = ARENA_ARRAY(scratch, double, s->entries),
           *cases = ARENA_ARRAY(scratch, double, s->entries), moved = 1,
           sum = sum_of(s->written, s->entries) * all_cases(s, w) / LEARN_SHARES_COUNT;
    memcpy(s->weight, s->written, s->entries * sizeof *s->weight);
    for (uint32_t i = 0; i < s->entries; i++) cases[i] = cases_of(s, w, i);
    scale(s, sum);
    for (int step = 0; step < STEPS_MOST && moved > enough; step++) {
        expect(s, w, expected);
        moved = 0;
        for (uint32_t i = 0; i < s->entries; i++) {
            double now = cases[i] / expected[i];
            moved = fmax(moved, fabs(now / s->weight[i] - 1));
            s->weight[i] = now;
        }
        scale(s, sum);
    }
}

/* ---- how sure ---- */

/* Adds `cases` of the information about ln w that one case with these chances has. */
static void inform(double *h, const double *chance, uint32_t n, double cases)
{
    for (uint32_t i = 0; i < n; i++) {
        for (uint32_t k = 0; k <= i; k++) h[(size_t)i * n + k] -= cases * chance[i] * chance[k];
        h[(size_t)i * n + i] += cases * chance[i];
    }
}

static double *information(arena *scratch, const learn_shares *s, const learn_weights *w)
{
    double *h = ARENA_ARRAY(scratch, double, (size_t)s->entries * s->entries),
           *chance = ARENA_ARRAY(scratch, double, s->entries), sum = sum_of(s->weight, s->entries);
    for (uint32_t i = 0; i < s->entries; i++) chance[i] = s->weight[i] / sum;
    inform(h, chance, s->entries, LEARN_SHARES_COUNT);
    for (const learn_setting *x = s->settings; x != NULL; x = x->next) {
        double all = weight_under(s, x->factor);
        for (uint32_t i = 0; i < s->entries; i++) chance[i] = s->weight[i] * x->factor[i] / all;
        inform(h, chance, s->entries, times(x->count, w));
    }
    return h;
}

/* All weights times the same are the same shares: nothing is known in that direction, and nothing
 * asked, so any information may be put there. */
static void bound(double *h, uint32_t n)
{
    for (uint32_t i = 0; i < n; i++)
        for (uint32_t k = 0; k <= i; k++) h[(size_t)i * n + k] += 1.0 / n;
}

/* A share is w over the sum of all: its variance by the rule for functions of what was learned. */
static double variance_of_share(const double *factor, const double *share, uint32_t n,
                                uint32_t entry, double *slope, double *solved)
{
    for (uint32_t i = 0; i < n; i++)
        slope[i] = solved[i] = share[entry] * ((i == entry ? 1 : 0) - share[i]);
    positive_solve(factor, n, solved);
    double sum = 0;
    for (uint32_t i = 0; i < n; i++) sum += slope[i] * solved[i];
    return sum;
}

static void judge(arena *scratch, learn_shares *s, const learn_weights *w)
{
    uint32_t n = s->entries;
    double *h = information(scratch, s, w), *share = ARENA_ARRAY(scratch, double, n),
           *slope = ARENA_ARRAY(scratch, double, n), *solved = ARENA_ARRAY(scratch, double, n),
           sum = sum_of(s->weight, n);
    for (uint32_t i = 0; i < n; i++) share[i] = s->weight[i] / sum;
    bound(h, n);
    positive_factor(h, n);
    for (uint32_t i = 0; i < n; i++) {
        double spread = variance_of_share(h, share, n, i, slope, solved);
        s->worth[i] = spread > 0 ? share[i] * (1 - share[i]) / spread : all_cases(s, w);
    }
}

/* With very many causes what one knows of the others is left out: exact while no factor is at
 * work, and else a little off. */
static void judge_one_by_one(arena *scratch, learn_shares *s, const learn_weights *w)
{
    double *expected = ARENA_ARRAY(scratch, double, s->entries),
           sum = sum_of(s->weight, s->entries);
    expect(s, w, expected);
    for (uint32_t i = 0; i < s->entries; i++) s->worth[i] = expected[i] * sum;
}

void learn_shares_fit(arena *scratch, learn_shares *s, const learn_weights *w)
{
    enum { TOGETHER_MOST = 600 };
    if (s->entries == 0) return;
    settle(scratch, s, w);
    if (s->entries <= TOGETHER_MOST)
        judge(scratch, s, w);
    else
        judge_one_by_one(scratch, s, w);
}
