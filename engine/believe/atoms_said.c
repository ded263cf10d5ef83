/* What a row of a component says of answers: the row of two causes at once, and the chance of the
 * answers in each atom. */
#include <assert.h>
#include <math.h>

#include "believe/belief_parts.h"
#include "believe/looks.h"

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

/* ---- answers ---- */

const double *const *answers_in(arena *a, const net *n, const component *g, const evidence *seen,
                                uint32_t but_for, const given_latents *given)
{
    const double **lambda = ARENA_ARRAY(a, const double *, g->finding_count);
    for (uint32_t i = 0; i < g->finding_count; i++) {
        sighting one;
        const looks all = looks_at(n, seen, g->findings[i], &one);
        if (i == but_for || all.count == 0) continue;
        double *out = ARENA_ARRAY(a, double, n->in.findings[g->findings[i]].states);
        looks_lambda(n, g->findings[i], all, given, out);
        lambda[i] = out;
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
