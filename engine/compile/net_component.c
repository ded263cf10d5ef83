/* One component: cells to atoms, the reference, the base row and a row for every cause listed. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/sorted.h"
#include "compile/net_parts.h"

#define USUAL_SHARE     0.9  /* of the reference, for the author's usual state */
#define BASE_SMOOTHING  0.1  /* of the reference, in the base row of a compound */
#define CAUSE_SMOOTHING 0.03 /* of the base, in a cause's row of a compound */
#define OTHER_FROM_BASE 0.5  /* the rest is the mean cause */

typedef struct builder {
    arena *keep, *scratch;
    draft *d;
    const net_group *from;
    bool *inside;
    double *target;
    uint32_t *only;
    bool closed;       /* one finding, and all its symptoms exclude one another */
    bool *beside_fact; /* [symptom] it names a fact */
} builder;

static const net_input *input_of(const builder *b)
{
    return &b->d->n->in;
}

static const net_symptom *symptom_of(const builder *b, uint32_t s)
{
    return &input_of(b)->symptoms[b->from->symptoms[s]];
}

static uint32_t states_of(const builder *b, uint32_t slot)
{
    return input_of(b)->findings[b->from->findings[slot]].states;
}

/* ---- cells and atoms ---- */

static void lay_out_cells(builder *b)
{
    component *g = b->d->made;
    uint32_t *findings = ARENA_ARRAY(b->keep, uint32_t, g->finding_count),
             *stride = ARENA_ARRAY(b->keep, uint32_t, g->finding_count);
    uint32_t *symptoms = ARENA_ARRAY(b->keep, uint32_t, g->symptom_count);
    memcpy(findings, b->from->findings, g->finding_count * sizeof *findings);
    memcpy(symptoms, b->from->symptoms, g->symptom_count * sizeof *symptoms);
    g->cell_count = 1;
    for (uint32_t i = g->finding_count; i-- > 0;) {
        stride[i] = g->cell_count;
        g->cell_count *= states_of(b, i);
    }
    assert(g->cell_count <= NET_CELLS_MAX);
    g->findings = findings;
    g->stride = stride;
    g->symptoms = symptoms;
}

static void go_to_cell(builder *b, uint32_t cell)
{
    for (uint32_t i = 0; i < b->from->finding_count; i++)
        b->d->state[b->from->findings[i]] = cell / b->d->made->stride[i] % states_of(b, i);
}

/* One bit a symptom. */
static uint32_t truth_at(builder *b, uint32_t cell)
{
    uint32_t truth = 0;
    assert(b->from->symptom_count <= NET_SYMPTOMS_MAX);
    go_to_cell(b, cell);
    for (uint32_t s = 0; s < b->from->symptom_count; s++)
        if (expr_holds(symptom_of(b, s)->when, b->d->state)) truth |= 1u << s;
    return truth;
}

static void number_atoms(builder *b)
{
    component *g = b->d->made;
    uint32_t *cell_atom = ARENA_ARRAY(b->keep, uint32_t, g->cell_count);
    uint32_t *truth_of = ARENA_ARRAY(b->scratch, uint32_t, g->cell_count);
    uint32_t *atom_plus_one = ARENA_ARRAY(b->scratch, uint32_t, (size_t)1 << g->symptom_count);
    for (uint32_t x = 0; x < g->cell_count; x++) {
        uint32_t truth = truth_at(b, x);
        if (atom_plus_one[truth] == 0) {
            truth_of[g->atom_count] = truth;
            atom_plus_one[truth] = ++g->atom_count;
        }
        cell_atom[x] = atom_plus_one[truth] - 1;
    }
    assert(g->atom_count >= 1 && g->atom_count <= g->cell_count);
    g->cell_atom = cell_atom;
    b->inside = ARENA_ARRAY(b->scratch, bool, (size_t)g->symptom_count * g->atom_count);
    for (uint32_t s = 0; s < g->symptom_count; s++)
        for (uint32_t a = 0; a < g->atom_count; a++)
            b->inside[(size_t)s * g->atom_count + a] = ((truth_of[a] >> s) & 1) != 0;
    b->d->inside = b->inside;
}

typedef struct one_finding {
    const net_input *in;
    uint32_t finding;
    bool several, fact;
} one_finding;

static void note_finding(void *context, uint32_t finding)
{
    one_finding *seen = context;
    if (seen->in->findings[finding].fact) {
        seen->fact = true;
        return;
    }
    if (seen->finding != NO_SLOT && seen->finding != finding) seen->several = true;
    seen->finding = finding;
}

static void find_simple_symptoms(builder *b)
{
    b->d->only = b->only = ARENA_ARRAY(b->scratch, uint32_t, b->from->symptom_count);
    b->beside_fact = ARENA_ARRAY(b->scratch, bool, b->from->symptom_count);
    for (uint32_t s = 0; s < b->from->symptom_count; s++) {
        one_finding seen = {input_of(b), NO_SLOT, false, false};
        expr_each_finding(symptom_of(b, s)->when, note_finding, &seen);
        b->only[s] = NO_SLOT;
        b->beside_fact[s] = seen.fact;
        for (uint32_t i = 0; i < b->from->finding_count && !seen.several; i++)
            if (b->from->findings[i] == seen.finding) b->only[s] = i;
    }
}

static bool symptoms_are_disjoint(const builder *b)
{
    const component *g = b->d->made;
    for (uint32_t a = 0; a < g->atom_count; a++) {
        uint32_t holding = 0;
        for (uint32_t s = 0; s < g->symptom_count; s++)
            holding += b->inside[(size_t)s * g->atom_count + a];
        if (holding > 1) return false;
    }
    return true;
}

/* ---- who is listed, and with what ---- */

static bool has_fact(const net_group *from, uint32_t finding)
{
    return place_of_id(from->facts, from->fact_count, finding) < from->fact_count;
}

/* Whoever reads a fact that the tables depend on has a row of its own, since its facts come with
 * odds of their own. */
static void gather_listed(builder *b)
{
    component *g = b->d->made;
    const net_input *in = input_of(b);
    uint32_t most = b->from->fact_count > 0 ? in->reader_count : 0, count = 0;
    for (uint32_t s = 0; s < g->symptom_count; s++) most += symptom_of(b, s)->listed_count;
    uint32_t *listed = ARENA_ARRAY(b->keep, uint32_t, most);
    for (uint32_t s = 0; s < g->symptom_count; s++)
        for (uint32_t i = 0; i < symptom_of(b, s)->listed_count; i++)
            listed[count++] = symptom_of(b, s)->listed[i].cause;
    for (uint32_t i = 0; i < in->reader_count && b->from->fact_count > 0; i++)
        if (has_fact(b->from, in->readers[i].fact)) listed[count++] = in->readers[i].cause;
    SORT(listed, count, by_rising_id);
    for (uint32_t i = 0; i < count; i++)
        if (i == 0 || listed[i] != listed[i - 1]) listed[g->listed_count++] = listed[i];
    g->listed = listed;
}

static uint32_t row_of(const component *g, uint32_t cause)
{
    return place_of_id(g->listed, g->listed_count, cause);
}

const double *component_row(const component *g, uint32_t cause)
{
    uint32_t row = row_of(g, cause);
    return row == g->listed_count ? g->base : g->table + (size_t)row * g->atom_count;
}

static void lay_out_targets(builder *b)
{
    const component *g = b->d->made;
    size_t size = (size_t)(g->listed_count + 1) * g->symptom_count;
    b->d->target = b->target = ARENA_ARRAY(b->scratch, double, size);
    b->d->fitted = ARENA_ARRAY(b->scratch, double, size);
    for (size_t i = 0; i < size; i++) b->target[i] = NAN;
    for (uint32_t s = 0; s < g->symptom_count; s++) {
        const net_symptom *symptom = symptom_of(b, s);
        for (uint32_t i = 0; i < symptom->listed_count; i++)
            b->target[(size_t)row_of(g, symptom->listed[i].cause) * g->symptom_count + s] =
                symptom->listed[i].chance;
        b->target[(size_t)g->listed_count * g->symptom_count + s] = symptom->otherwise;
    }
}

/* ---- fitting ---- */

/* FIT from q with the targets of one row; notes what became of them. */
static void fit_row(builder *b, const double *q, uint32_t row, double *out)
{
    const component *g = b->d->made;
    assert(row <= g->listed_count);
    arena_mark mark = arena_here(b->scratch);
    bool *inside = ARENA_ARRAY(b->scratch, bool, (size_t)g->symptom_count * g->atom_count);
    double target[NET_SYMPTOMS_MAX];
    uint32_t given = 0;
    for (uint32_t s = 0; s < g->symptom_count; s++) {
        double wanted = b->target[(size_t)row * g->symptom_count + s];
        if (isnan(wanted)) continue;
        memcpy(inside + (size_t)given * g->atom_count, b->inside + (size_t)s * g->atom_count,
               g->atom_count * sizeof *inside);
        target[given++] = wanted;
    }
    net_fit(b->scratch, q, g->atom_count, inside, target, given, b->closed, out);
    arena_back_to(b->scratch, mark);
    for (uint32_t s = 0; s < g->symptom_count; s++)
        b->d->fitted[(size_t)row * g->symptom_count + s] =
            chance_inside(out, b->inside + (size_t)s * g->atom_count, g->atom_count);
}

/* Shares of a finding's states from the author's usual state alone. */
static double *plain_reference(builder *b, uint32_t slot)
{
    const net_finding *f = &input_of(b)->findings[b->from->findings[slot]];
    double *m = ARENA_ARRAY(b->scratch, double, f->states);
    bool has_usual = f->usual != NO_STATE && f->states > 1;
    double rest = has_usual ? (1 - USUAL_SHARE) / (f->states - 1) : 1.0 / f->states;
    for (uint32_t v = 0; v < f->states; v++) m[v] = has_usual && v == f->usual ? USUAL_SHARE : rest;
    return m;
}

/* In a compound: first fitted to the otherwise rates of the symptoms that rest on this finding
 * alone, and on no fact, so that the reference is the same whatever the facts. */
static double *fitted_reference(builder *b, uint32_t slot)
{
    uint32_t states = states_of(b, slot), given = 0, *state = &b->d->state[b->from->findings[slot]];
    double *m = plain_reference(b, slot), *out = ARENA_ARRAY(b->scratch, double, states),
           target[NET_SYMPTOMS_MAX];
    bool *inside = ARENA_ARRAY(b->scratch, bool, (size_t)b->from->symptom_count *states);
    for (uint32_t s = 0; s < b->from->symptom_count; s++) {
        if (b->only[s] != slot || b->beside_fact[s]) continue;
        for (*state = 0; *state < states; ++*state)
            inside[(size_t)given * states + *state] =
                expr_holds(symptom_of(b, s)->when, b->d->state);
        target[given++] = symptom_of(b, s)->otherwise;
    }
    *state = 0;
    net_fit(b->scratch, m, states, inside, target, given, true, out);
    floor_and_normalise(out, states); /* rates that contradict each other can push a state to 0 */
    return out;
}

/* Reference of every atom, and each cell's share of its atom. */
static double *reference(builder *b)
{
    component *g = b->d->made;
    double *atom = ARENA_ARRAY(b->scratch, double, g->atom_count),
           *within = ARENA_ARRAY(b->keep, double, g->cell_count);
    for (uint32_t x = 0; x < g->cell_count; x++) within[x] = 1;
    for (uint32_t i = 0; i < g->finding_count; i++) {
        const double *m = g->finding_count > 1 ? fitted_reference(b, i) : plain_reference(b, i);
        for (uint32_t x = 0; x < g->cell_count; x++)
            within[x] *= m[x / g->stride[i] % states_of(b, i)];
    }
    for (uint32_t x = 0; x < g->cell_count; x++) atom[g->cell_atom[x]] += within[x];
    for (uint32_t x = 0; x < g->cell_count; x++) {
        assert(atom[g->cell_atom[x]] > 0);
        within[x] /= atom[g->cell_atom[x]];
    }
    g->within = within;
    return atom;
}

static void mix(double *p, const double *with, double share, uint32_t count)
{
    for (uint32_t a = 0; a < count; a++) p[a] = (1 - share) * p[a] + share * with[a];
}

static void fit_base(builder *b)
{
    component *g = b->d->made;
    const double *r = reference(b);
    double *base = ARENA_ARRAY(b->keep, double, g->atom_count);
    fit_row(b, r, g->listed_count, base);
    if (g->finding_count > 1) mix(base, r, BASE_SMOOTHING, g->atom_count);
    floor_and_normalise(base, g->atom_count);
    for (uint32_t a = 1; a < g->atom_count; a++)
        if (base[a] > base[g->usual_atom]) g->usual_atom = a;
    g->base = base;
}

static void fit_causes(builder *b)
{
    component *g = b->d->made;
    double *table = ARENA_ARRAY(b->keep, double, (size_t)g->listed_count * g->atom_count);
    for (uint32_t row = 0; row < g->listed_count; row++) {
        double *out = table + (size_t)row * g->atom_count;
        fit_row(b, g->base, row, out);
        if (g->finding_count > 1) mix(out, g->base, CAUSE_SMOOTHING, g->atom_count);
        floor_and_normalise(out, g->atom_count);
    }
    g->table = table;
}

/* Half the base, half the mean cause. */
const double *component_other(arena *keep, const net *n, const component *g)
{
    assert(g->table != NULL && g->base != NULL);
    double *other = ARENA_ARRAY(keep, double, g->atom_count), listed_share = 0;
    for (uint32_t row = 0; row < g->listed_count; row++) {
        double share = n->share[g->listed[row]];
        listed_share += share;
        for (uint32_t a = 0; a < g->atom_count; a++)
            other[a] += share * g->table[(size_t)row * g->atom_count + a];
    }
    double unlisted_share = fmax(0, 1 - listed_share);
    for (uint32_t a = 0; a < g->atom_count; a++) other[a] += unlisted_share * g->base[a];
    mix(other, g->base, OTHER_FROM_BASE, g->atom_count);
    floor_and_normalise(other, g->atom_count);
    return other;
}

draft *component_build(arena *keep, arena *scratch, const net *n, const net_group *from,
                       uint32_t *state, component *out)
{
    draft *d = ARENA_NEW(scratch, draft);
    *d = (draft){.n = n, .made = out, .state = state};
    builder b = {.keep = keep, .scratch = scratch, .d = d, .from = from};
    out->finding_count = from->finding_count;
    out->symptom_count = from->symptom_count;
    lay_out_cells(&b);
    number_atoms(&b);
    find_simple_symptoms(&b);
    b.closed = out->finding_count == 1 && symptoms_are_disjoint(&b);
    gather_listed(&b);
    lay_out_targets(&b);
    fit_base(&b);
    fit_causes(&b);
    out->other = component_other(keep, n, out);
    return d;
}
