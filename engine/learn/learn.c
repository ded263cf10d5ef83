/* What was counted, as means and credible intervals. */
#include "learn/learn.h"

#include <assert.h>
#include <math.h>

#include "learn/beta.h"

/* A chance of exactly 0 or 1 is nobody's number: tables keep away from it by as much. */
static const double least = 1e-6;

learn_belief learn_from(const learn_count *c)
{
    static const double tail = 0.025;
    double written = fmin(fmax(c->written, least), 1 - least);
    assert(c->strength > 0 && c->yes >= 0 && c->of - c->yes > -1e-9 * (1 + c->of));
    double yes = c->strength * written + c->yes,
           no = c->strength * (1 - written) + fmax(0, c->of - c->yes);
    return (learn_belief){yes / (yes + no), beta_quantile(yes, no, tail),
                          beta_quantile(yes, no, 1 - tail)};
}

double learn_weight(double before, double sum, double cases)
{
    assert(before > 0 && sum >= before && cases >= 0);
    return before + cases * sum / LEARN_SHARES_COUNT;
}

/* P(answer | state): right, or evenly one of the others. */
static double likelihood(const net_finding *f, const double *weights, double sum, uint32_t state)
{
    if (f->states == 1) return weights[state];
    return weights[state] * f->right + (sum - weights[state]) * (1 - f->right) / (f->states - 1);
}

void learn_atoms(const net *n, uint32_t component_index, uint32_t cause, const double *weights,
                 double *out)
{
    const component *g = &n->components[component_index];
    const net_finding *f = &n->in.findings[g->findings[0]];
    const double *row = component_row(g, cause);
    double sum = 0, all = 0;
    assert(g->finding_count == 1 && g->cell_count == f->states);
    for (uint32_t s = 0; s < f->states; s++) sum += weights[s];
    for (uint32_t a = 0; a < g->atom_count; a++) out[a] = 0;
    for (uint32_t s = 0; s < f->states; s++) {
        double chance = row[g->cell_atom[s]] * g->within[s] * likelihood(f, weights, sum, s);
        out[g->cell_atom[s]] += chance;
        all += chance;
    }
    assert(all > 0);
    for (uint32_t a = 0; a < g->atom_count; a++) out[a] /= all;
}
