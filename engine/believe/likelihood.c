/* How well each hypothesis fits the answers, component by component. */
#include <assert.h>
#include <math.h>

#include "believe/belief_parts.h"
#include "compile/misread.h"

#define USUAL_LEAST \
    1e-6 /* a cause leaves the usual atom this often at least, for its rate to be finite */

/* ---- two causes at once ---- */

/* Clocks of total rate -ln(1-s) ring within the time with chance s = 1 - usual. Written with
 * `usual`, since 1 - s would lose the digits of a small one. */
static double rate_per_chance(double usual)
{
    return usual == 1 ? 1 : log(usual) / (usual - 1);
}

static void hazards(const component *g, const double *row, double *out)
{
    assert(row[g->usual_atom] > 0);
    double scale = rate_per_chance(fmax(row[g->usual_atom], USUAL_LEAST));
    for (uint32_t a = 0; a < g->atom_count; a++) out[a] = a == g->usual_atom ? 0 : row[a] * scale;
}

void race_of(const component *g, race *out)
{
    for (uint32_t c = 0; c < g->listed_count; c++)
        hazards(g, g->table + (size_t)c * g->atom_count, out->hazard + (size_t)c * g->atom_count);
    hazards(g, g->base, out->leak);
}

race *races_of(arena *keep, const net *n)
{
    race *races = ARENA_ARRAY(keep, race, n->component_count);
    for (uint32_t i = 0; i < n->component_count; i++) {
        const component *g = &n->components[i];
        races[i].hazard = ARENA_ARRAY(keep, double, (size_t)g->listed_count * g->atom_count);
        races[i].leak = ARENA_ARRAY(keep, double, g->atom_count);
        race_of(g, &races[i]);
    }
    return races;
}

void race_row(const component *g, const race *r, uint32_t one, uint32_t two, double *row)
{
    assert(one < two && two < g->listed_count);
    const double *first = r->hazard + (size_t)one * g->atom_count,
                 *second = r->hazard + (size_t)two * g->atom_count;
    double total = 0;
    for (uint32_t a = 0; a < g->atom_count; a++) {
        row[a] = fmax(0, first[a] + second[a] - r->leak[a]);
        total += row[a];
    }
    double scale = total > 0 ? -expm1(-total) / total : 0;
    for (uint32_t a = 0; a < g->atom_count; a++) row[a] *= scale;
    row[g->usual_atom] = exp(-total);
}

static bool place_in_list(const component *g, uint32_t cause, uint32_t *place)
{
    for (*place = 0; *place < g->listed_count; ++*place)
        if (g->listed[*place] == cause) return true;
    return false;
}

void belief_row(const belief *b, uint32_t component_index, uint32_t hypothesis, double *row)
{
    const component *g = &b->n->components[component_index];
    uint32_t size, causes[2], one, two;
    belief_hypothesis(b, hypothesis, &size, causes);
    const double *from = size == 0 ? g->other : component_row(g, causes[0]);
    if (size == 2) {
        bool first = place_in_list(g, causes[0], &one), second = place_in_list(g, causes[1], &two);
        if (first && second) {
            race_row(g, &b->races[component_index], one, two, row);
            return;
        }
        from = component_row(g, causes[first ? 0 : 1]); /* who isn't listed drops out */
    }
    for (uint32_t a = 0; a < g->atom_count; a++) row[a] = from[a];
}

/* ---- answers ---- */

bool answer_lambda(const net_finding *f, const double *weights, double *lambda)
{
    const misreading m = misreading_of(f);
    double sum = 0;
    bool unsure = true;
    for (uint32_t a = 0; a < f->states; a++) {
        assert(weights[a] >= 0);
        sum += weights[a];
        if (weights[a] != 1) unsure = false;
    }
    assert(sum > 0);
    misread_weights(&m, weights, lambda);
    return !unsure;
}

const double *const *answers_in(arena *a, const net *n, const component *g, const evidence *seen,
                                uint32_t but_for)
{
    const double **lambda = ARENA_ARRAY(a, const double *, g->finding_count);
    for (uint32_t i = 0; i < g->finding_count; i++) {
        const net_finding *f = &n->in.findings[g->findings[i]];
        const double *weights = seen->weights[g->findings[i]];
        if (i == but_for || weights == NULL) continue;
        double *out = ARENA_ARRAY(a, double, f->states);
        if (answer_lambda(f, weights, out)) lambda[i] = out;
    }
    return lambda;
}

uint32_t states_in(const component *g, uint32_t slot)
{
    assert(slot < g->finding_count && g->stride[slot] > 0);
    return (slot == 0 ? g->cell_count : g->stride[slot - 1]) / g->stride[slot];
}

void weigh_atoms(const component *g, const double *const *lambda, double *out)
{
    for (uint32_t a = 0; a < g->atom_count; a++) out[a] = 0;
    for (uint32_t x = 0; x < g->cell_count; x++) {
        double weight = g->within[x];
        for (uint32_t i = 0; i < g->finding_count; i++)
            if (lambda[i] != NULL) weight *= lambda[i][x / g->stride[i] % states_in(g, i)];
        out[g->cell_atom[x]] += weight;
    }
}

double log_likelihood_of(const double *row, const double *atom_weight, uint32_t atoms)
{
    double sum = 0;
    for (uint32_t a = 0; a < atoms; a++) sum += row[a] * atom_weight[a];
    assert(sum >= 0);
    return log(fmax(sum, LIKELIHOOD_LEAST));
}

double log_counted(const net *n, const double *row, const double *atom_weight, uint32_t atoms)
{
    assert(n->in.answers_count > 0 && n->in.answers_count <= 1);
    return n->in.answers_count * log_likelihood_of(row, atom_weight, atoms);
}

/* ---- all hypotheses ---- */

/* The rows of all listed pairs one after the other; they don't depend on answers. Null: too many to keep, or they depend on facts. */
static const double *rows_of_pairs(belief *b, uint32_t index)
{
    enum { KEPT_MAX = 1 << 16 };
    const component *g = &b->n->components[index];
    size_t listed = g->listed_count, pairs = listed < 2 ? 0 : listed * (listed - 1) / 2, atoms = g->atom_count;
    if (b->pair_rows[index] != NULL || pairs * atoms > KEPT_MAX || g->slice_count > 1) return b->pair_rows[index];
    double *next = ARENA_ARRAY(b->keep, double, pairs * atoms);
    b->pair_rows[index] = next;
    for (uint32_t i = 0; i < listed; i++)
        for (uint32_t j = i + 1; j < listed; j++, next += atoms) race_row(g, &b->races[index], i, j, next);
    return b->pair_rows[index];
}

/* Pairs of two listed causes are more than the sum of both: what is more. */
static void weigh_listed_pairs(belief *b, uint32_t index, double log_base)
{
    const component *g = &b->n->components[index];
    const double *rows = rows_of_pairs(b, index);
    for (uint32_t i = 0, pair = 0; i < g->listed_count; i++)
        for (uint32_t j = i + 1; j < g->listed_count; j++, pair++) {
            if (rows == NULL) race_row(g, &b->races[index], i, j, b->row);
            const double *row = rows == NULL ? b->row : rows + (size_t)pair * g->atom_count;
            double both = log_counted(b->n, row, b->atom_weight, g->atom_count);
            b->log_likelihood[pair_at(b, g->listed[i], g->listed[j])] +=
                (both - log_base) - (b->log_listed[i] - log_base) - (b->log_listed[j] - log_base);
        }
}

/* Adds what a component says of the causes it lists, beyond what it says of all the others
 * (returned). */
static double weigh_component(belief *b, uint32_t index)
{
    const component *g = &b->n->components[index];
    double log_base = log_counted(b->n, g->base, b->atom_weight, g->atom_count);
    b->log_likelihood[0] += log_counted(b->n, g->other, b->atom_weight, g->atom_count) - log_base;
    for (uint32_t i = 0; i < g->listed_count; i++) {
        b->log_listed[i] =
            log_counted(b->n, g->table + (size_t)i * g->atom_count, b->atom_weight, g->atom_count);
        b->log_likelihood[1 + g->listed[i]] += b->log_listed[i] - log_base;
    }
    if (b->pairs) weigh_listed_pairs(b, index, log_base);
    return log_base;
}

static bool look_up_lambdas(const belief *b, const component *g)
{
    bool any = false;
    for (uint32_t i = 0; i < g->finding_count; i++) {
        b->lambda_of_slot[i] = b->answered[g->findings[i]] ? b->lambda[g->findings[i]] : NULL;
        any |= b->answered[g->findings[i]];
    }
    return any;
}

void belief_weigh_answers(belief *b)
{
    double common = 0;
    for (uint32_t h = 0; h < b->count; h++) b->log_likelihood[h] = 0;
    for (uint32_t i = 0; i < b->n->component_count; i++) {
        if (!look_up_lambdas(b, &b->n->components[i])) continue;
        weigh_atoms(&b->n->components[i], b->lambda_of_slot, b->atom_weight);
        common += weigh_component(b, i);
    }
    const double *single = b->log_likelihood + 1;
    for (uint32_t c = 0; b->pairs && c < b->causes; c++)
        for (uint32_t d = c + 1; d < b->causes; d++)
            b->log_likelihood[pair_at(b, c, d)] += common + single[c] + single[d];
    for (uint32_t h = 0; h <= b->causes; h++) b->log_likelihood[h] += common;
}
