/* A row by expectation and maximisation, and its observed information. */
#include "learn/row.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "compile/misread.h"
#include "learn/positive.h"

learn_row *learn_row_new(arena *keep, const double *written, uint32_t atoms, double strength)
{
    assert(atoms > 0 && strength > 0);
    learn_row *r = ARENA_NEW(keep, learn_row);
    double *copy = ARENA_ARRAY(keep, double, atoms);
    memcpy(copy, written, atoms * sizeof *copy);
    *r = (learn_row){.atoms = atoms,
                     .written = copy,
                     .strength = strength,
                     .fitted = ARENA_ARRAY(keep, double, atoms)};
    return r;
}

/* ---- answers ---- */

void learn_row_chances(const net *n, const component *g, const double *weights, double *out)
{
    const net_finding *f = &n->in.findings[g->findings[0]];
    const misreading m = misreading_of(f);
    double lambda[EXPR_STATES_MAX], most = 0;
    assert(g->finding_count == 1 && g->cell_count == f->states && f->states <= EXPR_STATES_MAX);
    for (uint32_t a = 0; a < g->atom_count; a++) out[a] = 0;
    misread_weights(&m, weights, lambda);
    for (uint32_t s = 0; s < f->states; s++) out[g->cell_atom[s]] += g->within[s] * lambda[s];
    for (uint32_t a = 0; a < g->atom_count; a++) most = fmax(most, out[a]);
    assert(most > 0);
    for (uint32_t a = 0; a < g->atom_count; a++) out[a] /= most;
}

static learn_answer *new_answer(arena *keep, learn_row *r, const double *chance)
{
    double *copy = ARENA_ARRAY(keep, double, r->atoms);
    learn_answer *x = ARENA_NEW(keep, learn_answer);
    memcpy(copy, chance, r->atoms * sizeof *copy);
    *x = (learn_answer){.chance = copy, .next = r->answers};
    return r->answers = x;
}

void learn_row_saw(arena *keep, learn_row *r, const double *chance, learn_end end)
{
    assert(end < LEARN_ENDS);
    learn_answer *x = r->answers;
    while (x != NULL && memcmp(x->chance, chance, r->atoms * sizeof *chance) != 0) x = x->next;
    if (x == NULL) x = new_answer(keep, r, chance);
    x->count[end]++;
}

void learn_row_add(arena *keep, learn_row *r, const net *n, const component *g,
                   const double *weights, learn_end end)
{
    assert(r->atoms == g->atom_count);
    double chance[EXPR_STATES_MAX];
    learn_row_chances(n, g, weights, chance);
    learn_row_saw(keep, r, chance, end);
}

static double times(const learn_answer *x, const learn_weights *w)
{
    double sum = 0;
    for (int e = 0; e < LEARN_ENDS; e++) sum += w->of[e] * x->count[e];
    return sum;
}

static double chance_with(const learn_row *r, const learn_answer *x)
{
    double sum = 0;
    for (uint32_t a = 0; a < r->atoms; a++) sum += r->fitted[a] * x->chance[a];
    assert(sum > 0);
    return sum;
}

/* ---- the row ---- */

/* Cases with each atom, the author's among them, as the row explains the answers; returns how many
 * there are. */
static double expect(const learn_row *r, const learn_weights *w, double *cases)
{
    double all = r->strength;
    for (uint32_t a = 0; a < r->atoms; a++) cases[a] = r->strength * r->written[a];
    for (const learn_answer *x = r->answers; x != NULL; x = x->next) {
        double each = times(x, w) / chance_with(r, x);
        for (uint32_t a = 0; a < r->atoms; a++) cases[a] += each * r->fitted[a] * x->chance[a];
        all += times(x, w);
    }
    return all;
}

/* What is sought is the one maximum of a concave function, from any start. Where answers say next
 * to nothing (read right hardly more often than by chance) steps are short, and the author's
 * cases, which no doubt touches, bound how short. */
void learn_row_fit(arena *scratch, learn_row *r, const learn_weights *w)
{
    enum { STEPS_MOST = 20000 };
    static const double enough = 1e-15;
    double *cases = ARENA_ARRAY(scratch, double, r->atoms), moved = 1;
    memcpy(r->fitted, r->written, r->atoms * sizeof *r->fitted);
    for (int step = 0; step < STEPS_MOST && moved > enough; step++) {
        double all = expect(r, w, cases);
        moved = 0;
        for (uint32_t a = 0; a < r->atoms; a++) {
            double now = cases[a] / all;
            moved = fmax(moved, fabs(now - r->fitted[a]));
            r->fitted[a] = now;
        }
    }
}

/* ---- how sure ---- */

/* Minus the second derivatives of what is maximised, in the chances of the atoms. */
static double *information(arena *scratch, const learn_row *r, const learn_weights *w)
{
    double *h = ARENA_ARRAY(scratch, double, (size_t)r->atoms * r->atoms);
    for (uint32_t a = 0; a < r->atoms; a++)
        h[(size_t)a * r->atoms + a] = r->strength * r->written[a] / (r->fitted[a] * r->fitted[a]);
    for (const learn_answer *x = r->answers; x != NULL; x = x->next) {
        double chance = chance_with(r, x), each = times(x, w) / (chance * chance);
        for (uint32_t a = 0; a < r->atoms; a++)
            for (uint32_t b = 0; b < r->atoms; b++)
                h[(size_t)a * r->atoms + b] += each * x->chance[a] * x->chance[b];
    }
    return h;
}

/* Variance of the chance of a set, with the information h and the sum of all held at 1: b'H⁻¹b -
 * (1'H⁻¹b)² / 1'H⁻¹1. */
static double variance(arena *scratch, const learn_row *r, const learn_weights *w,
                       const bool *inside)
{
    double *h = information(scratch, r, w), *of_set = ARENA_ARRAY(scratch, double, r->atoms),
           *of_all = ARENA_ARRAY(scratch, double, r->atoms);
    positive_factor(h, r->atoms);
    for (uint32_t a = 0; a < r->atoms; a++) {
        of_set[a] = inside[a] ? 1 : 0;
        of_all[a] = 1;
    }
    positive_solve(h, r->atoms, of_set);
    positive_solve(h, r->atoms, of_all);
    double own = 0, both = 0, all = 0;
    for (uint32_t a = 0; a < r->atoms; a++) {
        own += inside[a] ? of_set[a] : 0;
        both += of_set[a];
        all += of_all[a];
    }
    return own - both * both / all;
}

static double chance_of_set(const learn_row *r, const double *row, const bool *inside)
{
    double sum = 0;
    for (uint32_t a = 0; a < r->atoms; a++) sum += inside[a] ? row[a] : 0;
    return sum;
}

learn_count learn_row_count(arena *scratch, const learn_row *r, const learn_weights *w,
                            const bool *inside)
{
    learn_count out = {.written = chance_of_set(r, r->written, inside),
                       .mean = chance_of_set(r, r->fitted, inside)};
    for (const learn_answer *x = r->answers; x != NULL; x = x->next) {
        double with = 0, seen = x->count[LEARN_CURED] + x->count[LEARN_HANDED_OVER];
        for (uint32_t a = 0; a < r->atoms; a++) with += inside[a] ? r->fitted[a] * x->chance[a] : 0;
        out.cases += seen * with / chance_with(r, x);
        out.of += seen;
    }
    double spread = variance(scratch, r, w, inside), open = out.mean * (1 - out.mean);
    out.worth = spread > 0 && open > 0 ? open / spread : r->strength + out.of;
    return out;
}
