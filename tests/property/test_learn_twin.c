/* Learning against a twin that knows nothing of expectation and maximisation: the likelihood of the
 * cases, one after the other in long double, climbed by moving weight between two atoms (or one
 * cause's weight) at a time, and its second derivatives taken by differences. */
#include <math.h>
#include <string.h>

#include "learn/row.h"
#include "learn/shares.h"
#include "luck.h"
#include "net_kit.h"
#include "testing.h"

enum { MOST = 5, CASES = 40, WORLDS = 8 };

static const learn_weights plain = {{1, 1}, false}, uneven = {{0.8, 2.5}, false};

static uint64_t drawn;
/* What is to be climbed: of a point in `count` numbers above 0, which may be times anything. */
typedef struct hill {
    uint32_t count;
    long double (*height)(const struct hill *h, const long double *at);
    long double strength, written[MOST];
    uint32_t cases;
    long double chance[CASES][MOST]; /* rows: of the answer by atom; shares: factors */
    uint32_t had[CASES];             /* shares: the cause */
    long double counts[CASES];
} hill;

static long double sum_of(const long double *at, uint32_t count)
{
    long double sum = 0;
    for (uint32_t i = 0; i < count; i++) sum += at[i];
    return sum;
}

static long double weighed(const hill *h, uint32_t x, const long double *at)
{
    long double sum = 0;
    for (uint32_t i = 0; i < h->count; i++) sum += at[i] * h->chance[x][i];
    return sum;
}

static long double prior_height(const hill *h, const long double *at)
{
    long double sum = sum_of(at, h->count), height = 0;
    for (uint32_t i = 0; i < h->count; i++)
        height += h->strength * h->written[i] * logl(at[i] / sum);
    return height;
}

static long double height_of_row(const hill *h, const long double *at)
{
    long double height = prior_height(h, at), all = sum_of(at, h->count);
    for (uint32_t x = 0; x < h->cases; x++) height += h->counts[x] * logl(weighed(h, x, at) / all);
    return height;
}

static long double height_of_shares(const hill *h, const long double *at)
{
    long double height = prior_height(h, at);
    for (uint32_t x = 0; x < h->cases; x++)
        height += h->counts[x] * logl(at[h->had[x]] * h->chance[x][h->had[x]] / weighed(h, x, at));
    return height;
}

/* The best factor for one number, by the golden section on its logarithm. */
static void climb_one(const hill *h, long double *at, uint32_t i, long double reach)
{
    const long double golden = 0.6180339887498948482L, from = logl(at[i]);
    long double low = from - reach, high = from + reach;
    while (high - low > 1e-9L) {
        long double one = high - golden * (high - low), two = low + golden * (high - low);
        at[i] = expl(one);
        long double left = h->height(h, at);
        at[i] = expl(two);
        if (left < h->height(h, at))
            low = one;
        else
            high = two;
    }
    at[i] = expl((low + high) / 2);
}

static void climb(const hill *h, long double *at)
{
    for (uint32_t i = 0; i < h->count; i++) at[i] = 1;
    for (int round = 0; round < 80; round++)
        for (uint32_t i = 0; i < h->count; i++) climb_one(h, at, i, round < 5 ? 4 : 0.05L);
    long double sum = sum_of(at, h->count);
    for (uint32_t i = 0; i < h->count; i++) at[i] /= sum;
}

/* Variance of a share (or of the chance of one atom) from the curvature in the logarithms of all
 * numbers but the first, which stays. */
static long double variance(const hill *h, const long double *at, uint32_t which)
{
    const long double step = 1e-3L;
    uint32_t n = h->count - 1;
    long double m[MOST][MOST + 1], slope[MOST], p[MOST];
    for (uint32_t i = 0; i < n; i++)
        for (uint32_t k = 0; k < n; k++) {
            long double sum = 0;
            for (int a = -1; a <= 1; a += 2)
                for (int b = -1; b <= 1; b += 2) {
                    memcpy(p, at, sizeof p);
                    p[i + 1] *= expl(a * step);
                    p[k + 1] *= expl(b * step);
                    sum += a * b * h->height(h, p);
                }
            m[i][k] = -sum / (4 * step * step);
        }
    for (uint32_t i = 0; i < n; i++) {
        slope[i] = at[which] * ((i + 1 == which ? 1 : 0) - at[i + 1]);
        m[i][n] = slope[i];
    }
    for (uint32_t c = 0; c < n; c++) /* Gauss and Jordan; the matrix is positive definite */
        for (uint32_t r = 0; r < n; r++) {
            if (r == c) continue;
            long double by = m[r][c] / m[c][c];
            for (uint32_t k = 0; k <= n; k++) m[r][k] -= by * m[c][k];
        }
    long double sum = 0;
    for (uint32_t i = 0; i < n; i++) sum += slope[i] * m[i][n] / m[i][i];
    return sum;
}

static void near(double got, long double wanted, double tolerance)
{
    if (!(fabs(got - (double)wanted) <= tolerance * fmax(1, fabs((double)wanted))))
        fail_msg("%.12g, the twin has %.12Lg", got, wanted);
}

static learn_end random_end(void)
{
    return luck_share(&drawn) < 0.7 ? LEARN_CURED : LEARN_HANDED_OVER;
}

/* A question whose answers but the first are a symptom each, one cause, CASES answers: some sure,
 * some "not this one", some in doubt. */
static void one_row(uint64_t seed, const learn_weights *w)
{
    net_kit *k = net_kit_new();
    drawn = seed;
    uint32_t states = 2 + (uint32_t)(luck_share(&drawn) * 4), f = net_kit_finding(k, "f", states),
             a = net_kit_cause(k, "a", 1);
    k->findings[f].right = 0.6 + 0.4 * luck_share(&drawn);
    for (uint32_t v = 1; v < states; v++)
        net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, f, v), 0.1), a,
                     0.9 * luck_share(&drawn) / states);
    const net *n = net_kit_build(k);
    const component *g = &n->components[0];
    learn_row *r = learn_row_new(k->keep, component_row(g, 0), states, LEARN_ROW_COUNTS);
    hill h = {
        .count = states, .height = height_of_row, .strength = LEARN_ROW_COUNTS, .cases = CASES};
    for (uint32_t v = 0; v < states; v++) h.written[v] = component_row(g, 0)[v];
    for (uint32_t x = 0; x < CASES; x++) {
        double weights[MOST], sum = 0;
        int kind = (int)(luck_share(&drawn) * 3);
        uint32_t said = (uint32_t)(luck_share(&drawn) * states);
        learn_end end = random_end();
        for (uint32_t v = 0; v < states; v++)
            sum += weights[v] = kind == 0   ? v == said
                                : kind == 1 ? v != said
                                            : 0.1 + luck_share(&drawn);
        learn_row_add(k->keep, r, n, g, weights, end);
        h.counts[x] = w->of[end];
        for (uint32_t v = 0; v < states; v++)
            h.chance[x][g->cell_atom[v]] =
                weights[v] * k->findings[f].right +
                (sum - weights[v]) * (1 - k->findings[f].right) / (states - 1);
    }
    long double at[MOST];
    climb(&h, at);
    learn_row_fit(k->scratch, r, w);
    for (uint32_t v = 0; v < states; v++) {
        bool inside[MOST] = {false};
        inside[v] = true;
        learn_count c = learn_row_count(k->scratch, r, w, inside);
        near(c.mean, at[v], 1e-7);
        near(c.worth, at[v] * (1 - at[v]) / variance(&h, at, v), 1e-3);
    }
    net_kit_free(k);
}

static void rows_are_those_of_the_twin(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= WORLDS; seed++) one_row(seed, seed % 2 == 0 ? &plain : &uneven);
}

static void all_shares(uint64_t seed, const learn_weights *w)
{
    arena *keep = arena_new(NULL, NULL), *scratch = arena_new(NULL, NULL);
    drawn = seed;
    uint32_t count = 2 + (uint32_t)(luck_share(&drawn) * 4);
    double written[MOST], sum = 0, factors[4][MOST];
    hill h = {
        .count = count, .height = height_of_shares, .strength = LEARN_SHARES_COUNT, .cases = CASES};
    for (uint32_t i = 0; i < count; i++) sum += written[i] = 0.2 + 5 * luck_share(&drawn);
    for (uint32_t i = 0; i < count; i++) h.written[i] = written[i] / sum;
    for (int v = 0; v < 4; v++)
        for (uint32_t i = 0; i < count; i++)
            factors[v][i] = luck_share(&drawn) < 0.6   ? 1
                            : luck_share(&drawn) < 0.2 ? 0
                                                       : 6 * luck_share(&drawn);
    learn_shares *s = learn_shares_new(keep, written, count);
    for (uint32_t x = 0; x < CASES; x++) {
        const double *factor = factors[(int)(luck_share(&drawn) * 4)];
        uint32_t had = (uint32_t)(luck_share(&drawn) * count);
        learn_end end = random_end();
        h.had[x] = had;
        h.counts[x] = factor[had] > 0 ? w->of[end] : 0;
        for (uint32_t i = 0; i < count; i++) h.chance[x][i] = factor[had] > 0 ? factor[i] : 1;
        if (factor[had] > 0) learn_shares_add(keep, s, factor, had, end);
    }
    long double at[MOST];
    climb(&h, at);
    learn_shares_fit(scratch, s, w);
    double all = 0;
    for (uint32_t i = 0; i < count; i++) all += s->weight[i];
    for (uint32_t i = 0; i < count; i++) {
        near(s->weight[i] / all, at[i], 1e-7);
        near(s->worth[i], at[i] * (1 - at[i]) / variance(&h, at, i), 1e-3);
    }
    arena_free(keep);
    arena_free(scratch);
}

static void shares_are_those_of_the_twin(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= WORLDS; seed++)
        all_shares(seed, seed % 2 == 0 ? &plain : &uneven);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_are_those_of_the_twin),
        cmocka_unit_test(shares_are_those_of_the_twin),
    };
    return cmocka_run_group_tests_name("learn twin", tests, NULL, NULL);
}
