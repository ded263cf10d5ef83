/* Why one cause rather than another, and which causes no question tells apart. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "believe/joined.h"
#include "compile/misread.h"

#define ROUNDING 1e-12 /* an overlap this close to 1 is 1: no answer differs */

/* ---- weight of evidence ---- */

static double decibels(double natural_log)
{
    return 10 / log(10) * natural_log;
}

static const double *row_with(const component *g, uint32_t hypothesis)
{
    return hypothesis == 0 ? g->other : component_row(g, hypothesis - 1);
}

/* Where an instrument joins several components, each has the bar of what it adds to those before
 * it. */
static double bar_of_joined(arena *scratch, const net *n, const joined *j, const evidence *seen,
                            uint32_t index, const uint32_t hypotheses[2])
{
    double bar = 0;
    for (uint32_t until = index; until <= index + 1; until++) {
        const joined_says s = joined_weigh(scratch, n, NULL, j, seen, until);
        const double its = joined_counted(n, joined_of(j, &s, hypotheses[0])) -
                           joined_counted(n, joined_of(j, &s, hypotheses[1]));
        bar += until > index ? its : -its;
    }
    return bar;
}

static double bar_in(const net *n, arena *scratch, const joining *all, uint32_t component_index,
                     const evidence *seen, uint32_t hypothesis, uint32_t rival)
{
    assert(component_index < n->component_count);
    const component *g = &n->components[component_index];
    const arena_mark mark = arena_here(scratch);
    const joined j = joined_with(all, component_index);
    double bar = 0;
    if (j.latent_count > 0) {
        const uint32_t both[] = {hypothesis, rival};
        bar = bar_of_joined(scratch, n, &j, seen, component_index, both);
    } else if (j.count > 0) {
        const double *mine = row_with(g, hypothesis), *theirs = row_with(g, rival);
        double *atom_weight = ARENA_ARRAY(scratch, double, g->atom_count);
        weigh_atoms(g, answers_in(scratch, n, g, seen, g->finding_count, NULL), atom_weight);
        if (mine != theirs)
            bar = log_counted(n, mine, atom_weight, g->atom_count) -
                  log_counted(n, theirs, atom_weight, g->atom_count);
    }
    arena_back_to(scratch, mark);
    return decibels(bar);
}

double belief_bar_of_answers(const net *n, arena *scratch, const evidence *seen,
                             uint32_t hypothesis, uint32_t rival)
{
    const arena_mark mark = arena_here(scratch);
    const joining all = joining_of(scratch, n, seen);
    double sum = 0;
    for (uint32_t i = 0; i < all.count; i++) {
        const joined_says s = joined_weigh(scratch, n, NULL, &all.groups[i], seen, UINT32_MAX);
        sum += joined_counted(n, joined_of(&all.groups[i], &s, hypothesis)) -
               joined_counted(n, joined_of(&all.groups[i], &s, rival));
    }
    arena_back_to(scratch, mark);
    return decibels(sum);
}

static double log_prior_of(const net *n, const double *factor, uint32_t hypothesis)
{
    double sum = 0, own = 0;
    for (uint32_t c = 0; c < n->in.cause_count; c++) {
        double weight = n->in.weights[c] * (factor == NULL ? 1 : factor[c]);
        sum += weight;
        if (c + 1 == hypothesis) own = weight;
    }
    if (hypothesis > 0) return sum > 0 ? log(own / sum) + log(1 - n->in.not_listed) : -INFINITY;
    return sum > 0 ? log(n->in.not_listed) : 0;
}

double belief_bar_of_prior(const net *n, const double *factor, uint32_t hypothesis, uint32_t rival)
{
    assert(hypothesis <= n->in.cause_count && rival <= n->in.cause_count);
    return decibels(log_prior_of(n, factor, hypothesis) - log_prior_of(n, factor, rival));
}

void belief_bars(const belief *b, arena *scratch, const evidence *seen, uint32_t hypothesis,
                 uint32_t rival, double *prior, double *bars)
{
    assert(hypothesis <= b->causes && rival <= b->causes);
    *prior = decibels(b->log_prior[hypothesis] - b->log_prior[rival]);
    const arena_mark mark = arena_here(scratch);
    const joining all = joining_of(scratch, b->n, seen);
    for (uint32_t i = 0; i < b->n->component_count; i++)
        bars[i] = bar_in(b->n, scratch, &all, i, seen, hypothesis, rival);
    arena_back_to(scratch, mark);
}

double belief_bar_of_outcomes(const belief *b, uint32_t hypothesis, uint32_t rival)
{
    assert(hypothesis <= b->causes && rival <= b->causes);
    return decibels(history_of(b, hypothesis) - history_of(b, rival));
}

/* ---- hard to tell apart ---- */

/* P(state) along one finding becomes P(answer), or goes into the first state where nobody is asked.
 */
static void read_off(const net_finding *f, bool asked, double *p, uint32_t stride)
{
    const misreading m = misreading_of(f);
    double sum = 0, read[EXPR_STATES_MAX];
    assert(stride > 0 && f->states <= EXPR_STATES_MAX);
    for (uint32_t v = 0; v < f->states; v++) sum += p[(size_t)v * stride];
    misread_states(&m, p, stride, read);
    for (uint32_t v = 0; v < f->states; v++)
        p[(size_t)v * stride] = asked ? read[v] : v == 0 ? sum : 0;
}

/* Chance of each combination of answers with a row. */
static double *answers_with(arena *scratch, const net *n, const component *g, const double *row,
                            const bool *askable)
{
    double *p = ARENA_ARRAY(scratch, double, g->cell_count);
    for (uint32_t x = 0; x < g->cell_count; x++) p[x] = g->within[x] * row[g->cell_atom[x]];
    for (uint32_t i = 0; i < g->finding_count; i++) {
        bool asked = askable == NULL || askable[g->findings[i]];
        for (uint32_t x = 0; x < g->cell_count; x++)
            if (x / g->stride[i] % states_in(g, i) == 0)
                read_off(&n->in.findings[g->findings[i]], asked, p + x, g->stride[i]);
    }
    return p;
}

static double overlap_in(arena *scratch, const net *n, const component *g, uint32_t cause,
                         uint32_t rival, const bool *askable)
{
    const double *mine = component_row(g, cause), *theirs = component_row(g, rival);
    if (mine == theirs) return 1;
    arena_mark mark = arena_here(scratch);
    const double *p = answers_with(scratch, n, g, mine, askable),
                 *q = answers_with(scratch, n, g, theirs, askable);
    double sum = 0;
    for (uint32_t x = 0; x < g->cell_count; x++) sum += sqrt(p[x] * q[x]);
    arena_back_to(scratch, mark);
    assert(sum <= 1 + ROUNDING); /* Cauchy and Schwarz */
    return sum > 1 - ROUNDING ? 1 : sum;
}

double belief_overlap(const net *n, arena *scratch, uint32_t cause, uint32_t rival,
                      const bool *askable, uint32_t *best)
{
    double product = 1, least = 1;
    if (best != NULL) *best = NO_COMPONENT;
    for (uint32_t i = 0; i < n->component_count; i++) {
        double factor = overlap_in(scratch, n, &n->components[i], cause, rival, askable);
        product *= factor;
        if (factor >= least) continue;
        least = factor;
        if (best != NULL) *best = i;
    }
    return product;
}
