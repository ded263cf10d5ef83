/* How an answer comes to differ from what is so. */
#include "compile/misread.h"

#include <assert.h>
#include <math.h>

static bool settles(const misreading *m, uint32_t state)
{
    return (m->settling >> state & 1) != 0;
}

static uint32_t count_of(state_mask mask)
{
    uint32_t count = 0;
    for (; mask != 0; mask &= mask - 1) count++;
    return count;
}

/* What is left of the slips goes to the answers that confirm nothing; if there is no other such
 * answer, it is no slip. */
static void share_out(misreading *m, double right, uint32_t own)
{
    const uint32_t settling = count_of(m->settling) - own, others = m->states - 1 - settling;
    assert(settling + others + 1 == m->states);
    const double left = 1 - right - settling * m->toward;
    m->slip[own] = others > 0 ? fmax(0, left) / others : 0;
    m->right[own] = others > 0 ? right : 1 - settling * m->toward;
}

misreading misreading_of(const net_finding *f)
{
    assert(f->states >= 1 && f->right > 0 && f->right <= 1 && f->toward >= 0);
    misreading m = {.states = f->states, .right = {1, 1}};
    if (f->states == 1) return m;
    const double even = (1 - f->right) / (f->states - 1);
    m.settling = f->settling;
    m.toward = fmin(f->toward, even);
    share_out(&m, f->right, 0);
    if (m.settling != 0) share_out(&m, f->right, 1);
    return m;
}

double misread_chance(const misreading *m, uint32_t answer, uint32_t state)
{
    assert(answer < m->states && state < m->states);
    const bool own = settles(m, state);
    if (answer == state) return m->right[own];
    return settles(m, answer) ? m->toward : m->slip[own];
}

typedef struct sums {
    double settling, rest;
} sums;

static sums sum_of(const misreading *m, const double *p, uint32_t stride)
{
    sums all = {0, 0};
    for (uint32_t a = 0; a < m->states; a++)
        *(settles(m, a) ? &all.settling : &all.rest) += p[(size_t)a * stride];
    return all;
}

void misread_weights(const misreading *m, const double *weights, double *lambda)
{
    const sums all = sum_of(m, weights, 1);
    for (uint32_t v = 0; v < m->states; v++) {
        const bool own = settles(m, v);
        const double w = weights[v];
        lambda[v] = m->slip[own] * (all.rest - (own ? 0 : w)) + m->right[own] * w +
                    m->toward * (all.settling - (own ? w : 0));
    }
}

void misread_states(const misreading *m, const double *p, uint32_t stride, double *out)
{
    const sums all = sum_of(m, p, stride);
    const double slips = m->slip[0] * all.rest + m->slip[1] * all.settling;
    for (uint32_t a = 0; a < m->states; a++) {
        const double here = p[(size_t)a * stride];
        out[a] = m->settling == 0 ? m->slip[0] * (all.rest - here) + m->right[0] * here
                 : settles(m, a) ? m->toward * (all.settling + all.rest - here) + m->right[1] * here
                                 : slips - m->slip[0] * here + m->right[0] * here;
    }
}
