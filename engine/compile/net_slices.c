/* Components whose symptoms name facts beside questions: one table for each combination of the
 * facts' states, each fitted on the questions alone. */
#include <assert.h>
#include <string.h>

#include "compile/net_parts.h"

uint32_t net_group_slices(const net_input *in, const net_group *from)
{
    uint64_t slices = 1;
    for (uint32_t i = 0; i < from->fact_count; i++) {
        slices *= in->findings[from->facts[i]].states;
        if (slices > NET_CELLS_MAX) return NET_CELLS_MAX + 1;
    }
    return (uint32_t)slices;
}

static void go_to_slice(const net_input *in, const net_group *from, uint32_t slice, uint32_t *state)
{
    for (uint32_t i = from->fact_count; i-- > 0;) {
        state[from->facts[i]] = slice % in->findings[from->facts[i]].states;
        slice /= in->findings[from->facts[i]].states;
    }
}

static component *build_slices(arena *keep, arena *scratch, const net *n, const net_group *from,
                               uint32_t *state, uint32_t count, faults *list)
{
    component *all = ARENA_ARRAY(keep, component, count);
    const uint32_t told = list == NULL ? 0 : faults_warnings(list);
    for (uint32_t i = 0; i < count; i++) {
        arena_mark mark = arena_here(scratch);
        go_to_slice(&n->in, from, i, state);
        const draft *d = component_build(keep, scratch, n, from, state, &all[i]);
        if (list != NULL && faults_warnings(list) == told)
            lint_component(list, scratch, d); /* once is enough */
        arena_back_to(scratch, mark);
    }
    for (uint32_t i = 0; i < from->fact_count; i++) state[from->facts[i]] = 0;
    return all;
}

static bool same_in_all(const component *slices, uint32_t count, uint32_t x, uint32_t y)
{
    for (uint32_t i = 0; i < count; i++)
        if (slices[i].cell_atom[x] != slices[i].cell_atom[y]) return false;
    return true;
}

/* Cells that no slice tells apart are an atom. */
static void join_atoms(arena *keep, arena *scratch, const component *slices, uint32_t count,
                       component *out)
{
    uint32_t *cell_atom = ARENA_ARRAY(keep, uint32_t, out->cell_count);
    uint32_t *first = ARENA_ARRAY(scratch, uint32_t, out->cell_count);
    double *within = ARENA_ARRAY(keep, double, out->cell_count);
    double *sum = ARENA_ARRAY(scratch, double, out->cell_count);
    out->atom_count = 0;
    for (uint32_t x = 0; x < out->cell_count; x++) {
        uint32_t a = 0;
        while (a < out->atom_count && !same_in_all(slices, count, x, first[a])) a++;
        if (a == out->atom_count) first[out->atom_count++] = x;
        cell_atom[x] = a;
        sum[a] += slices[0].within[x];
    }
    for (uint32_t x = 0; x < out->cell_count; x++)
        within[x] = slices[0].within[x] / sum[cell_atom[x]];
    out->cell_atom = cell_atom;
    out->within = within;
}

/* A row over a slice's atoms as one over the atoms of all. */
static void spread_row(const component *slice, const component *out, const double *row, double *to)
{
    for (uint32_t x = 0; x < out->cell_count; x++)
        to[out->cell_atom[x]] += row[slice->cell_atom[x]] * slice->within[x];
}

static uint32_t row_count(const component *g)
{
    return g->listed_count + 2;
}

static const double *slice_row(const component *slice, uint32_t row)
{
    assert(row < row_count(slice));
    if (row == slice->listed_count) return slice->base;
    return row > slice->listed_count ? slice->other
                                     : slice->table + (size_t)row * slice->atom_count;
}

static void spread_slices(arena *keep, const component *slices, component *out)
{
    const uint32_t rows = row_count(out);
    double *all = ARENA_ARRAY(keep, double, (size_t)out->slice_count *rows * out->atom_count);
    for (uint32_t i = 0; i < out->slice_count; i++)
        for (uint32_t r = 0; r < rows; r++)
            spread_row(&slices[i], out, slice_row(&slices[i], r),
                       all + ((size_t)i * rows + r) * out->atom_count);
    out->slices = all;
}

component component_mixed(arena *keep, const component *g, const double *odds)
{
    const uint32_t rows = row_count(g);
    component out = *g;
    double *all = ARENA_ARRAY(keep, double, (size_t)rows * g->atom_count);
    assert(g->slice_count > 1);
    for (uint32_t r = 0; r < rows; r++)
        for (uint32_t i = 0; i < g->slice_count; i++) {
            const double *row = g->slices + ((size_t)i * rows + r) * g->atom_count;
            const double chance = odds[(size_t)r * g->slice_count + i];
            for (uint32_t a = 0; a < g->atom_count; a++)
                all[(size_t)r * g->atom_count + a] += chance * row[a];
        }
    out.odds = odds;
    out.table = all;
    out.base = all + (size_t)g->listed_count * g->atom_count;
    out.other = out.base + g->atom_count;
    out.usual_atom = 0;
    for (uint32_t a = 1; a < g->atom_count; a++)
        if (out.base[a] > out.base[out.usual_atom]) out.usual_atom = a;
    return out;
}

/* Until more is known, each combination of the facts is as likely. */
static const double *even_odds(arena *keep, const component *g)
{
    size_t count = (size_t)row_count(g) * g->slice_count;
    double *odds = ARENA_ARRAY(keep, double, count);
    for (size_t i = 0; i < count; i++) odds[i] = 1.0 / g->slice_count;
    return odds;
}

void component_build_sliced(arena *keep, arena *scratch, const net *n, const net_group *from,
                            uint32_t *state, component *out, faults *list)
{
    const uint32_t count = net_group_slices(&n->in, from);
    assert(from->fact_count > 0 && count >= 1);
    const component *slices = build_slices(keep, scratch, n, from, state, count, list);
    uint32_t *facts = ARENA_ARRAY(keep, uint32_t, from->fact_count);
    memcpy(facts, from->facts, from->fact_count * sizeof *facts);
    *out = slices[0];
    if (count == 1) return;
    out->facts = facts;
    out->fact_count = from->fact_count;
    out->slice_count = count;
    join_atoms(keep, scratch, slices, count, out);
    spread_slices(keep, slices, out);
    *out = component_mixed(keep, out, even_odds(keep, out));
}
