/* How a fact that nobody has told will be answered. */
#include "believe/untold.h"

#include <assert.h>
#include <math.h>
#include <string.h>

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

/* As the causes expect it on the mean. */
static void mean_row(const prediction *p, uint32_t cause_count, const double *prior, double *other)
{
    double rest = 0, all = 0;
    for (uint32_t c = 0; c < cause_count; c++) all += prior[c];
    rest = all;
    for (uint32_t s = 0; s < p->states; s++) other[s] = 0;
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
    prediction p = {states, o->odds[variable], other, 0, listed, rows};
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
