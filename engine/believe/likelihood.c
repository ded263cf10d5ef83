/* How well each hypothesis fits the answers, component by component. */
#include <math.h>

#include "believe/belief_parts.h"
#include "believe/joined.h"

/* ---- the row of one hypothesis ---- */

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

/* ---- all hypotheses ---- */

/* The rows of all listed pairs one after the other; they don't depend on answers. Null: too many to
 * keep, or they depend on facts. */
static const double *rows_of_pairs(belief *b, uint32_t index)
{
    enum { KEPT_MAX = 1 << 16 };
    const component *g = &b->n->components[index];
    size_t listed = g->listed_count, pairs = listed < 2 ? 0 : listed * (listed - 1) / 2,
           atoms = g->atom_count;
    if (b->pair_rows[index] != NULL || pairs * atoms > KEPT_MAX || g->slice_count > 1)
        return b->pair_rows[index];
    double *next = ARENA_ARRAY(b->keep, double, pairs *atoms);
    b->pair_rows[index] = next;
    for (uint32_t i = 0; i < listed; i++)
        for (uint32_t j = i + 1; j < listed; j++, next += atoms)
            race_row(g, &b->races[index], i, j, next);
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
    const arena_mark mark = arena_here(b->keep);
    weigh_atoms(g, answers_in(b->keep, b->n, g, &b->seen, g->finding_count, NULL), b->atom_weight);
    arena_back_to(b->keep, mark);
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

/* The same of several components that an instrument joins. */
static double weigh_joined(belief *b, const joined *j)
{
    const arena_mark mark = arena_here(b->keep);
    const joined_says s = joined_weigh(b->keep, b->n, b->races, j, &b->seen, UINT32_MAX);
    const double log_base = joined_counted(b->n, s.base);
    b->log_likelihood[0] += joined_counted(b->n, s.other) - log_base;
    for (uint32_t i = 0; i < j->listed_count; i++) {
        b->log_listed[i] = joined_counted(b->n, s.listed[i]);
        b->log_likelihood[1 + j->listed[i]] += b->log_listed[i] - log_base;
    }
    for (uint32_t i = 0, pair = 0; b->pairs && i < j->listed_count; i++)
        for (uint32_t k = i + 1; k < j->listed_count; k++, pair++)
            b->log_likelihood[pair_at(b, j->listed[i], j->listed[k])] +=
                (joined_counted(b->n, s.pairs[pair]) - log_base) - (b->log_listed[i] - log_base) -
                (b->log_listed[k] - log_base);
    arena_back_to(b->keep, mark);
    return log_base;
}

/* What is kept of rows is made first: what is only needed now is given back. */
static void keep_rows(belief *b)
{
    for (uint32_t i = 0; b->pairs && i < b->n->component_count; i++) {
        const component *g = &b->n->components[i];
        bool any = false;
        for (uint32_t k = 0; k < g->finding_count; k++) any |= b->weights[g->findings[k]] != NULL;
        if (any) rows_of_pairs(b, i);
    }
}

void belief_weigh_answers(belief *b)
{
    double common = 0;
    keep_rows(b);
    const arena_mark mark = arena_here(b->keep);
    const joining all = joining_of(b->keep, b->n, &b->seen);
    for (uint32_t h = 0; h < b->count; h++) b->log_likelihood[h] = 0;
    for (uint32_t i = 0; i < all.count; i++)
        common += all.groups[i].latent_count == 0 && all.groups[i].count == 1
                      ? weigh_component(b, all.groups[i].components[0])
                      : weigh_joined(b, &all.groups[i]);
    arena_back_to(b->keep, mark);
    const double *single = b->log_likelihood + 1;
    for (uint32_t c = 0; b->pairs && c < b->causes; c++) {
        double *pair = b->log_likelihood + b->first_pair[c];
        const double *other = single + c + 1;
        for (uint32_t i = 0; i < b->causes - 1 - c; i++) pair[i] += common + single[c] + other[i];
    }
    for (uint32_t h = 0; h <= b->causes; h++) b->log_likelihood[h] += common;
}
