/* What the next answer to a question will be, and how much it would tell. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "believe/gain.h"
#include "believe/joined.h"
#include "compile/misread.h"

/* One question's component, with all other answers in it taken in. */
typedef struct outlook {
    const component *g;
    uint32_t slot, states;
    misreading slips;
    double power; /* to which the answer will count */
    /* [atom][state] chance of the other answers, and of this state, in the atom */
    const double *joint;
} outlook;

static outlook look_ahead(arena *a, const net *n, const evidence *seen, uint32_t finding)
{
    const net_finding *f = &n->in.findings[finding];
    const component *g = &n->components[n->component_of[finding]];
    uint32_t slot = n->slot_of[finding];
    assert(g->findings[slot] == finding);
    const double *const *lambda = answers_in(a, n, g, seen, slot, NULL);
    double *joint = ARENA_ARRAY(a, double, (size_t)g->atom_count * f->states);
    for (uint32_t x = 0; x < g->cell_count; x++) {
        double weight = g->within[x];
        for (uint32_t i = 0; i < g->finding_count; i++)
            if (lambda[i] != NULL) weight *= lambda[i][x / g->stride[i] % states_in(g, i)];
        joint[(size_t)g->cell_atom[x] * f->states + x / g->stride[slot] % f->states] += weight;
    }
    return (outlook){g, slot, f->states, misreading_of(f), 1, joint};
}

static void count_for(double power, double *row, uint32_t states)
{
    double sum = 0;
    if (power == 1) return;
    for (uint32_t y = 0; y < states; y++) sum += row[y] = pow(row[y], power);
    assert(sum > 0);
    for (uint32_t y = 0; y < states; y++) row[y] /= sum;
}

/* P(answer) from a row P(atom); sums to 1 because misreading only moves chances between answers. */
static void answer_row(const outlook *o, const double *row, double *out)
{
    double sum = 0;
    for (uint32_t y = 0; y < o->states; y++) out[y] = 0;
    for (uint32_t a = 0; a < o->g->atom_count; a++)
        for (uint32_t y = 0; y < o->states; y++)
            out[y] += row[a] * o->joint[(size_t)a * o->states + y];
    for (uint32_t y = 0; y < o->states; y++) sum += out[y];
    if (!(sum > 0)) { /* answers that two causes together can't give: such a pair has no weight
                         left, any row will do */
        for (uint32_t y = 0; y < o->states; y++) out[y] = 1;
        sum = o->states;
    }
    misread_states(&o->slips, out, 1, out);
    for (uint32_t y = 0; y < o->states; y++) out[y] /= sum;
    count_for(o->power, out, o->states);
}

/* A finding that no table holds: every answer is as likely, whatever the cause. */
static prediction blank(arena *keep, uint32_t states)
{
    double *even = ARENA_ARRAY(keep, double, states);
    for (uint32_t y = 0; y < states; y++) even[y] = 1.0 / states;
    return (prediction){.states = states, .base = even, .other = even};
}

/* ---- by trying each answer ---- */

/* Where the look to come is not by itself: it was looked at before, or other answers depend on
 * whether the same instrument misleads. */
typedef struct attempt {
    evidence with; /* what was seen, and one more sighting */
    double *said;  /* [state] its weights */
    uint32_t finding, states;
    joined j; /* all that goes with it */
} attempt;

tryout tryout_of(arena *keep, const net *n, const evidence *seen)
{
    const uint32_t count = n->in.finding_count;
    const tryout t = {ARENA_ARRAY(keep, const double *, count), ARENA_ARRAY(keep, looks, count),
                      seen->person};
    if (count > 0) memcpy(t.weights, seen->weights, count * sizeof *t.weights);
    if (count > 0 && seen->looks != NULL) memcpy(t.looks, seen->looks, count * sizeof *t.looks);
    return t;
}

/* One more sighting is among what was seen from here on. */
static attempt attempt_in(arena *keep, const net *n, const tryout *seen, uint32_t finding,
                          sighting next, bool again)
{
    attempt t = {.with = {.weights = seen->weights, seen->looks, seen->person},
                 .finding = finding,
                 .states = n->in.findings[finding].states};
    sighting one, *items = ARENA_ARRAY(keep, sighting, LOOKS_MAX + 1);
    const looks before = again ? looks_at(n, &t.with, finding, &one) : (looks){NULL, 0};
    for (uint32_t i = 0; i < before.count; i++) items[i] = before.items[i];
    t.said = ARENA_ARRAY(keep, double, t.states);
    t.said[0] = 1;
    next.weights = seen->weights[finding] = t.said;
    items[before.count] = next;
    seen->looks[finding] = (looks){items, before.count + 1};
    t.j = joining_with(keep, n, &t.with, n->component_of[finding]);
    assert(t.j.count > 0 || t.states == 1);
    return t;
}

/* A first look. */
static attempt attempt_of(arena *keep, const net *n, const evidence *seen, uint32_t finding,
                          sighting next)
{
    const tryout own = tryout_of(keep, n, seen);
    return attempt_in(keep, n, &own, finding, next, false);
}

static bool stands_alone(const attempt *t)
{
    return t->with.looks[t->finding].count == 1 && t->j.latent_count == 0;
}

/* [y] the chance of all answers, this among them, for each hypothesis of the group. */
static const joined_says *each_answer(arena *keep, const attempt *t, const net *n,
                                      const race *races)
{
    joined_says *all = ARENA_ARRAY(keep, joined_says, t->states);
    for (uint32_t y = 0; y < t->states; y++) {
        for (uint32_t a = 0; a < t->states; a++) t->said[a] = a == y;
        all[y] = joined_weigh(keep, n, races, &t->j, &t->with, UINT32_MAX);
    }
    return all;
}

static void row_of_answers(double *row, uint32_t states, double power)
{
    double sum = 0;
    for (uint32_t y = 0; y < states; y++) sum += row[y];
    for (uint32_t y = 0; y < states; y++) row[y] = sum > 0 ? row[y] / sum : 1.0 / states;
    count_for(power, row, states);
}

static prediction predict_by_trying(arena *keep, const net *n, const attempt *t, double power)
{
    const uint32_t states = t->states, listed = t->j.listed_count;
    double *base = ARENA_ARRAY(keep, double, states), *other = ARENA_ARRAY(keep, double, states);
    double *rows = ARENA_ARRAY(keep, double, (size_t)listed *states);
    const joined_says *all = each_answer(keep, t, n, NULL);
    for (uint32_t y = 0; y < states; y++) {
        base[y] = all[y].base;
        other[y] = all[y].other;
        for (uint32_t i = 0; i < listed; i++) rows[(size_t)i * states + y] = all[y].listed[i];
    }
    row_of_answers(base, states, power);
    row_of_answers(other, states, power);
    for (uint32_t i = 0; i < listed; i++) row_of_answers(rows + (size_t)i * states, states, power);
    return (prediction){.states = states,
                        .base = base,
                        .other = other,
                        .listed_count = listed,
                        .listed = t->j.listed,
                        .rows = rows};
}

prediction belief_predict_again(arena *keep, const belief *b, const tryout *seen, uint32_t finding,
                                bool another)
{
    assert(seen->weights[finding] != NULL && b->n->component_of[finding] != NO_COMPONENT);
    const sighting next = {.person = seen->person, .another = another};
    const double *weights = seen->weights[finding];
    const looks had = seen->looks[finding];
    const attempt t = attempt_in(keep, b->n, seen, finding, next, true);
    const prediction p = predict_by_trying(keep, b->n, &t, b->n->in.answers_count);
    seen->weights[finding] = weights;
    seen->looks[finding] = had;
    return p;
}

static const double *numbers_copy(arena *keep, const double *from, size_t count)
{
    return count == 0 ? from : memcpy(ARENA_ARRAY(keep, double, count), from, count * sizeof *from);
}

prediction prediction_copy(arena *keep, const prediction *p)
{
    prediction copy = *p;
    copy.base = numbers_copy(keep, p->base, p->states);
    copy.other = numbers_copy(keep, p->other, p->states);
    copy.rows = numbers_copy(keep, p->rows, (size_t)p->listed_count * p->states);
    if (p->listed_count > 0)
        copy.listed = memcpy(ARENA_ARRAY(keep, uint32_t, p->listed_count), p->listed,
                             p->listed_count * sizeof *p->listed);
    return copy;
}

/* ---- the first look ---- */

/* It, or an answer that stands in one table with it, may depend on whether an instrument misleads.
 */
static bool may_be_joined(const net *n, const evidence *seen, uint32_t finding)
{
    const component *g = &n->components[n->component_of[finding]];
    for (uint32_t i = 0; i < g->finding_count; i++) {
        const uint32_t f = g->findings[i];
        if ((f == finding || seen->weights[f] != NULL) && n->in.findings[f].source_count > 0)
            return true;
    }
    return false;
}

bool belief_predicts_alike(const belief *b, const evidence *seen, uint32_t finding)
{
    const uint32_t index = b->n->component_of[finding];
    if (index == NO_COMPONENT) return true;
    const component *g = &b->n->components[index];
    bool alike = g->slice_count <= 1 && b->n->in.findings[finding].source_count == 0;
    for (uint32_t i = 0; i < g->finding_count; i++) alike &= seen->weights[g->findings[i]] == NULL;
    return alike;
}

static prediction predict(arena *keep, const belief *b, const evidence *seen, uint32_t finding,
                          double power)
{
    assert(finding < b->n->in.finding_count);
    uint32_t states = b->n->in.findings[finding].states;
    if (b->n->component_of[finding] == NO_COMPONENT) return blank(keep, states);
    if (may_be_joined(b->n, seen, finding)) {
        const sighting next = {.person = seen->person};
        const attempt t = attempt_of(keep, b->n, seen, finding, next);
        if (!stands_alone(&t)) return predict_by_trying(keep, b->n, &t, power);
    }
    const component *g = &b->n->components[b->n->component_of[finding]];
    double *base = ARENA_ARRAY(keep, double, states), *other = ARENA_ARRAY(keep, double, states);
    double *rows = ARENA_ARRAY(keep, double, (size_t)g->listed_count *states);
    arena_mark mark = arena_here(keep);
    outlook o = look_ahead(keep, b->n, seen, finding);
    o.power = power;
    answer_row(&o, g->base, base);
    answer_row(&o, g->other, other);
    for (uint32_t i = 0; i < g->listed_count; i++)
        answer_row(&o, g->table + (size_t)i * g->atom_count, rows + (size_t)i * states);
    arena_back_to(keep, mark);
    return (prediction){.states = states,
                        .base = base,
                        .other = other,
                        .listed_count = g->listed_count,
                        .listed = g->listed,
                        .rows = rows};
}

prediction belief_predict(arena *keep, const belief *b, const evidence *seen, uint32_t finding)
{
    return predict(keep, b, seen, finding, b->n->in.answers_count);
}

prediction belief_foresee(arena *keep, const belief *b, const evidence *seen, uint32_t finding)
{
    return predict(keep, b, seen, finding, 1);
}

/* ---- gain, with pairs ---- */

/* Takes a group of hypotheses that share a row out of what is left. Rows sum to 1 here, so that the
 * groups' own spread cancels. */
static void add_group(gain_tally *t, const double *row, double mass)
{
    mass = fmax(0, mass);
    t->sum -= mass;
    gain_add(t, row, mass, 0);
}

/* Pairs of two listed causes have rows of their own; what is left of each listed cause stays with
 * its row. */
static void add_listed_pairs(gain_tally *t, const belief *b, const outlook *o, const race *r,
                             double *alone, double *atoms)
{
    double row[EXPR_STATES_MAX];
    for (uint32_t i = 0; i < o->g->listed_count; i++)
        for (uint32_t j = i + 1; j < o->g->listed_count; j++) {
            double mass = b->posterior[pair_at(b, o->g->listed[i], o->g->listed[j])];
            race_row(o->g, r, i, j, atoms);
            answer_row(o, atoms, row);
            add_group(t, row, mass);
            alone[i] -= mass;
            alone[j] -= mass;
        }
}

/* Pairs of two listed causes, where answers were tried. */
static void add_tried_pairs(gain_tally *t, const belief *b, const attempt *x, arena *scratch,
                            double *alone)
{
    const joined_says *all = each_answer(scratch, x, b->n, b->races);
    double row[EXPR_STATES_MAX];
    for (uint32_t i = 0, pair = 0; i < x->j.listed_count; i++)
        for (uint32_t k = i + 1; k < x->j.listed_count; k++, pair++) {
            const double mass = b->posterior[pair_at(b, x->j.listed[i], x->j.listed[k])];
            for (uint32_t y = 0; y < x->states; y++) row[y] = all[y].pairs[pair];
            row_of_answers(row, x->states, b->n->in.answers_count);
            add_group(t, row, mass);
            alone[i] -= mass;
            alone[k] -= mass;
        }
}

static void add_pairs_ahead(gain_tally *t, const belief *b, arena *scratch, const evidence *seen,
                            uint32_t finding, double *alone)
{
    const sighting next = {.person = seen->person};
    const attempt x = attempt_of(scratch, b->n, seen, finding, next);
    if (!stands_alone(&x)) {
        add_tried_pairs(t, b, &x, scratch, alone);
        return;
    }
    const uint32_t index = b->n->component_of[finding];
    outlook o = look_ahead(scratch, b->n, seen, finding);
    o.power = b->n->in.answers_count;
    double *atoms = ARENA_ARRAY(scratch, double, o.g->atom_count);
    add_listed_pairs(t, b, &o, &b->races[index], alone, atoms);
}

double belief_gain(const belief *b, arena *scratch, const evidence *seen, uint32_t finding,
                   double *answer)
{
    prediction p = belief_predict(scratch, b, seen, finding);
    double mass[EXPR_STATES_MAX] = {0};
    double *alone = ARENA_ARRAY(scratch, double, p.listed_count);
    gain_tally t = {.sum = 1, .mass = mass, .states = p.states};
    add_group(&t, p.other, b->posterior[0]);
    for (uint32_t i = 0; i < p.listed_count; i++) alone[i] = b->marginal[1 + p.listed[i]];
    if (b->pairs && p.listed_count > 1) add_pairs_ahead(&t, b, scratch, seen, finding, alone);
    for (uint32_t i = 0; i < p.listed_count; i++)
        add_group(&t, p.rows + (size_t)i * p.states, alone[i]);
    return gain_finish(&t, p.base, 0, answer);
}
