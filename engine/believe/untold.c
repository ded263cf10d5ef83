/* How a fact that nobody has told will be answered. */
#include "believe/untold.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/sorted.h"
#include "believe/joined.h"

/* What this is off by may be rounding: causes that expect the same. */
#define SAME 1e-14

static bool make_row(const double *part, uint32_t states, double *row)
{
    double sum = 0;
    for (uint32_t s = 0; s < states; s++) sum += part[s];
    for (uint32_t s = 0; s < states && sum > 0; s++) row[s] = part[s] / sum;
    return sum > 0;
}

static bool differs(const double *row, const double *base, uint32_t states)
{
    for (uint32_t s = 0; s < states; s++)
        if (fabs(row[s] - base[s]) > SAME) return true;
    return false;
}

static const double *part_with(const facts_outlook *o, uint32_t block, uint32_t variable)
{
    const fact_block *b = &o->f->blocks[block];
    uint32_t place = 0;
    while (b->variables[place] != variable) place++;
    assert(place < b->variable_count);
    return o->with[block] + b->room[place];
}

/* As the causes expect it on the mean; in room where nothing was added yet. */
static void mean_row(const prediction *p, uint32_t cause_count, const double *prior, double *other)
{
    double all = 0;
    for (uint32_t c = 0; c < cause_count; c++) all += prior[c];
    double rest = all;
    for (uint32_t i = 0; i < p->listed_count; i++) {
        rest -= prior[p->listed[i]];
        for (uint32_t s = 0; s < p->states; s++)
            other[s] += prior[p->listed[i]] * p->rows[(size_t)i * p->states + s];
    }
    rest = all > 0 ? fmax(0, rest) : 1;
    for (uint32_t s = 0; s < p->states; s++) other[s] += rest * p->base[s];
    double sum = 0;
    for (uint32_t s = 0; s < p->states; s++) sum += other[s];
    for (uint32_t s = 0; s < p->states; s++) other[s] /= sum;
}

prediction untold_predict(arena *keep, const facts_outlook *o, uint32_t finding,
                          const double *prior)
{
    const facts *f = o->f;
    const uint32_t variable = f->variable_of[finding];
    assert(variable != NO_VARIABLE && o->odds[variable] != NULL);
    const uint32_t states = f->variables[variable].states,
                   most = f->first_of[variable + 1] - f->first_of[variable];
    uint32_t *listed = ARENA_ARRAY(keep, uint32_t, most);
    double *rows = ARENA_ARRAY(keep, double, (size_t)most *states),
           *other = ARENA_ARRAY(keep, double, states);
    prediction p = {.states = states,
                    .base = o->odds[variable],
                    .other = other,
                    .listed = listed,
                    .rows = rows};
    for (uint32_t i = f->first_of[variable]; i < f->first_of[variable + 1]; i++) {
        double *row = rows + (size_t)p.listed_count * states;
        if (!make_row(part_with(o, f->block_of[i], variable), states, row))
            continue; /* ruled out anyhow */
        if (differs(row, p.base, states))
            listed[p.listed_count++] = f->blocks[f->block_of[i]].cause;
    }
    mean_row(&p, f->book->cause_count, prior, other);
    return p;
}

/* ---- tables that depend on the fact ---- */

/* The same prediction with a row for every cause, to be written on. */
static void list_all(arena *keep, uint32_t causes, prediction *p)
{
    uint32_t *listed = ARENA_ARRAY(keep, uint32_t, causes), at = 0;
    double *rows = ARENA_ARRAY(keep, double, (size_t)causes * p->states);
    double *base = ARENA_ARRAY(keep, double, p->states),
           *other = ARENA_ARRAY(keep, double, p->states);
    const size_t size = p->states * sizeof *rows;
    for (uint32_t c = 0; c < causes; c++) {
        bool has = at < p->listed_count && p->listed[at] == c;
        memcpy(rows + (size_t)c * p->states, has ? p->rows + (size_t)at * p->states : p->base,
               size);
        listed[c] = c;
        at += has;
    }
    memcpy(base, p->base, size);
    memcpy(other, p->other, size);
    *p = (prediction){.states = p->states,
                      .base = base,
                      .other = other,
                      .listed_count = causes,
                      .listed = listed,
                      .rows = rows};
}

/* What is to be expected once the fact is told to be in this state. */
static facts_outlook outlook_then(arena *keep, const facts_outlook *o, uint32_t finding,
                                  uint32_t state)
{
    const uint32_t findings = o->f->finding_count;
    state_mask *possible = ARENA_ARRAY(keep, state_mask, findings);
    bool *known = ARENA_ARRAY(keep, bool, findings);
    memcpy(possible, o->told.possible, findings * sizeof *possible);
    memcpy(known, o->told.known, findings * sizeof *known);
    possible[finding] = (state_mask)1 << state;
    known[finding] = true;
    const facts_told told = {possible, known, o->told.weights, o->told.in_focus};
    return facts_look(keep, o->f, &told);
}

typedef struct weighing {
    arena *keep;
    const net *n;
    const evidence *seen;
    double *rows, *base, *other; /* of the prediction */
    uint32_t states;
} weighing;

static bool depends_on_facts(const net *n, const joined *j)
{
    for (uint32_t i = 0; i < j->count; i++)
        if (n->components[j->components[i]].slice_count > 1) return true;
    return false;
}

/* Multiplies what is predicted of one state by the chance in it of answers that depend on facts. */
static void weigh_state(const weighing *w, const joined *j, uint32_t state,
                        const facts_outlook *then, const double *prior)
{
    net mixed = *w->n;
    component *components = ARENA_ARRAY(w->keep, component, mixed.component_count);
    memcpy(components, mixed.components, mixed.component_count * sizeof *components);
    for (uint32_t i = 0; i < j->count; i++) {
        component *g = &components[j->components[i]];
        if (g->slice_count > 1) *g = facts_mix_component(w->keep, then, w->n, g, prior);
    }
    mixed.components = components;
    const joined_says s = joined_weigh(w->keep, &mixed, NULL, j, w->seen, UINT32_MAX);
    for (uint32_t c = 0; c < w->n->in.cause_count; c++)
        w->rows[(size_t)c * w->states + state] *= joined_of(j, &s, 1 + c);
    w->base[state] *= s.base;
    w->other[state] *= s.other;
}

static void make_one(double *row, uint32_t states)
{
    double sum = 0;
    for (uint32_t s = 0; s < states; s++) sum += row[s];
    for (uint32_t s = 0; s < states && sum > 0; s++) row[s] /= sum;
}

void untold_after_answers(arena *keep, const facts_outlook *o, const net *n, const evidence *seen,
                          uint32_t finding, const double *prior, prediction *p)
{
    const uint32_t causes = n->in.cause_count;
    const joining all = joining_of(keep, n, seen);
    bool any = false;
    for (uint32_t i = 0; i < all.count; i++) any |= depends_on_facts(n, &all.groups[i]);
    if (!any) return;
    list_all(keep, causes, p);
    const weighing w = {keep,
                        n,
                        seen,
                        (double *)(uintptr_t)p->rows,
                        (double *)(uintptr_t)p->base,
                        (double *)(uintptr_t)p->other,
                        p->states};
    double *prior_then = ARENA_ARRAY(keep, double, causes);
    for (uint32_t s = 0; s < p->states; s++) {
        const facts_outlook then = outlook_then(keep, o, finding, s);
        for (uint32_t c = 0; c < causes; c++)
            prior_then[c] = o->factor[c] > 0 ? prior[c] / o->factor[c] * then.factor[c] : 0;
        for (uint32_t i = 0; i < all.count; i++)
            if (depends_on_facts(n, &all.groups[i]))
                weigh_state(&w, &all.groups[i], s, &then, prior_then);
    }
    for (uint32_t c = 0; c < causes; c++) make_one(w.rows + (size_t)c * p->states, p->states);
    make_one(w.base, p->states);
    make_one(w.other, p->states);
}
