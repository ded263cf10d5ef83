/* How much an answer would tell, from a prediction and weights. */
#include "believe/gain.h"

#include <assert.h>
#include <math.h>

static double x_log_x(double x)
{
    return x > 0 ? x * log(x) : 0;
}

void gain_add(gain_tally *t, const double *row, double sum, double sum_log)
{
    for (uint32_t y = 0; y < t->states; y++) {
        t->mass[y] += sum * row[y];
        t->inner += row[y] * sum_log + sum * x_log_x(row[y]);
    }
}

static void add_one(gain_tally *t, const double *row, double w)
{
    const double w_log_w = x_log_x(w);
    t->sum -= w;
    t->sum_log -= w_log_w;
    gain_add(t, row, w, w_log_w);
}

double gain_finish(gain_tally *t, const double *base, double before, double *answer)
{
    double mass = 0, outer = 0;
    t->sum = fmax(0, t->sum);
    gain_add(t, base, t->sum, t->sum_log);
    for (uint32_t y = 0; y < t->states; y++) {
        mass += t->mass[y];
        outer += x_log_x(t->mass[y]);
    }
    for (uint32_t y = 0; answer != NULL && y < t->states; y++) answer[y] = t->mass[y] / mass;
    assert(mass > 0);
    return (before - (outer - t->inner) / mass) / log(2);
}

weight_totals weight_totals_of(const double *w, uint32_t count, double *logs)
{
    weight_totals all = {.logs = logs};
    for (uint32_t i = 0; i < count; i++) {
        const double own = x_log_x(w[i]);
        all.sum += w[i];
        all.sum_log += own;
        if (logs != NULL) logs[i] = own;
    }
    if (all.sum > 0) all.spread = log(all.sum) - all.sum_log / all.sum;
    return all;
}

static double plain_gain(const prediction *p, const double *w, weight_totals all, double *answer)
{
    double mass[EXPR_STATES_MAX] = {0};
    gain_tally t = {.sum = all.sum, .sum_log = all.sum_log, .mass = mass, .states = p->states};
    add_one(&t, p->other, w[0]);
    for (uint32_t i = 0; i < p->listed_count; i++)
        add_one(&t, p->rows + (size_t)i * p->states, w[1 + p->listed[i]]);
    return gain_finish(&t, p->base, all.spread, answer);
}

/* The same, bit for bit, of a prediction that was prepared: no logarithms but those of the answers,
 * and where the compiler knows how many answers there are, no loops over them. */
static inline __attribute__((always_inline)) double gain_at(const prediction *p, const double *w,
                                                            weight_totals all, uint32_t states)
{
    double mass[EXPR_STATES_MAX], inner = 0, sum = all.sum, sum_log = all.sum_log, total = 0,
                                  outer = 0;
    const double *row = p->other, *logs = p->logs + states;
    for (uint32_t y = 0; y < states; y++) mass[y] = 0;
    for (uint32_t i = 0; i <= p->listed_count; i++, logs += states) {
        const uint32_t h = i == 0 ? 0 : 1 + p->listed[i - 1];
        const double own = w[h], own_log = all.logs[h];
        sum -= own;
        sum_log -= own_log;
        for (uint32_t y = 0; y < states; y++) {
            mass[y] += own * row[y];
            inner += row[y] * own_log + own * logs[y];
        }
        row = i == 0 ? p->rows : row + states;
    }
    sum = fmax(0, sum);
    for (uint32_t y = 0; y < states; y++) {
        mass[y] += sum * p->base[y];
        inner += p->base[y] * sum_log + sum * p->logs[y];
    }
    for (uint32_t y = 0; y < states; y++) {
        total += mass[y];
        outer += x_log_x(mass[y]);
    }
    assert(total > 0);
    return (all.spread - (outer - inner) / total) / log(2);
}

static double prepared_gain(const prediction *p, const double *w, weight_totals all)
{
    if (p->states == 2) return gain_at(p, w, all, 2);
    if (p->states == 3) return gain_at(p, w, all, 3);
    return gain_at(p, w, all, p->states);
}

double prediction_gain_given(const prediction *p, const double *w, weight_totals all,
                             double *answer)
{
    assert(p->states <= EXPR_STATES_MAX);
    if (!(all.sum > 0)) {
        for (uint32_t y = 0; answer != NULL && y < p->states; y++) answer[y] = p->base[y];
        return 0;
    }
    const bool prepared = p->logs != NULL && all.logs != NULL && answer == NULL;
    return prepared ? prepared_gain(p, w, all) : plain_gain(p, w, all, answer);
}

double prediction_gain(const prediction *p, const double *w, uint32_t cause_count, double *answer)
{
    return prediction_gain_given(p, w, weight_totals_of(w, cause_count + 1, NULL), answer);
}

/* ---- what its gains need each time ---- */

static void logs_of(const double *row, uint32_t count, double *out)
{
    for (uint32_t i = 0; i < count; i++) out[i] = x_log_x(row[i]);
}

/* Nats from one row to another (Kullback and Leibler 1951); INFINITY where either is no row of
 * chances, or the second has none where the first has some. */
static double apart(const double *row, const double *base, uint32_t states)
{
    const double rounding = 1e-12;
    double nats = 0, sum = 0, base_sum = 0;
    for (uint32_t y = 0; y < states; y++) {
        sum += row[y];
        base_sum += base[y];
        if (row[y] > 0) nats += row[y] * log(row[y] / base[y]);
    }
    const bool chances = fabs(sum - 1) <= rounding && fabs(base_sum - 1) <= rounding;
    return chances && isfinite(nats) ? fmax(0, nats) : INFINITY;
}

void prediction_prepare(arena *keep, prediction *p)
{
    const uint32_t states = p->states, rows = p->listed_count;
    double *logs = ARENA_ARRAY(keep, double, ((size_t)rows + 2) * states);
    double *nats = ARENA_ARRAY(keep, double, (size_t)rows + 1);
    logs_of(p->base, states, logs);
    logs_of(p->other, states, logs + states);
    if (rows > 0) logs_of(p->rows, rows * states, logs + (size_t)2 * states);
    nats[0] = apart(p->other, p->base, states);
    for (uint32_t i = 0; i < rows; i++)
        nats[1 + i] = apart(p->rows + (size_t)i * states, p->base, states);
    p->logs = logs;
    p->apart = nats;
}

/* Gain is the mean distance of the rows from the mean row, and from no other row is it less. */
double prediction_gain_most(const prediction *p, const double *w, double sum)
{
    const double rounding = 1e-9, least = 1e-12; /* both far above what adding up makes */
    if (p->apart == NULL || !(sum > 0)) return INFINITY;
    double nats = w[0] * p->apart[0];
    for (uint32_t i = 0; i < p->listed_count; i++) nats += w[1 + p->listed[i]] * p->apart[1 + i];
    return nats / (sum * log(2)) * (1 + rounding) + least;
}
