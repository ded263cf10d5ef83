/* Readings become the intervals that conditions cut. */
#include <assert.h>
#include <math.h>

#include "base/grow.h"
#include "base/sorted.h"
#include "compile/program_parts.h"

typedef struct gathering {
    arena *scratch;
    cut **cuts;       /* [question] */
    uint32_t *counts; /* [question] */
    uint32_t *rooms;
} gathering;

static void add_cut(gathering *g, uint32_t question, double at, bool above)
{
    if (!isfinite(at)) return;
    GROW(g->scratch, g->cuts[question], g->counts[question], g->rooms[question]);
    g->cuts[question][g->counts[question]++] = (cut){at, above};
}

/* The low end belongs to the interval: cut below it. It does not: cut above it. */
static void add_bounds(void *context, const cond *c)
{
    if (c->kind != COND_RANGE) return;
    assert(c->low <= c->high);
    add_cut(context, c->subject, c->low, !c->low_in);
    add_cut(context, c->subject, c->high, c->high_in);
}

/* Sorted. Numbers that are the same but for rounding all become the first of them; then each side
 * of a number is kept once. */
static uint32_t without_repeats(cut *cuts, uint32_t count)
{
    uint32_t kept = 0;
    for (uint32_t i = 1; i < count; i++)
        if (cut_same_place(&cuts[i - 1], &cuts[i])) cuts[i].at = cuts[i - 1].at;
    SORT(cuts, count, cut_by_place);
    for (uint32_t i = 0; i < count; i++)
        if (kept == 0 || cut_by_place(&cuts[kept - 1], &cuts[i]) != 0) cuts[kept++] = cuts[i];
    assert(kept <= count);
    return kept;
}

static state_table finished_table(arena *keep, cut *cuts, uint32_t count)
{
    SORT(cuts, count, cut_by_place);
    count = without_repeats(cuts, count);
    cut *kept = ARENA_ARRAY(keep, cut, count);
    for (uint32_t i = 0; i < count; i++) kept[i] = cuts[i];
    return (state_table){kept, count};
}

static bool fits_mask(const state_table *t, const struct question *q, faults *list)
{
    if (t->cut_count < EXPR_STATES_MAX) return true;
    fault *f = fault_add(
        list, FAULT_READING_TOO_FINE, q->id.at,
        "The conditions judge '%.*s' by %u different numbers; at most %d can be told apart.",
        STR_ARG(q->id.name), t->cut_count, EXPR_STATES_MAX - 1);
    fault_help(
        list, f,
        "Use the same few limits, for example 'below 20' and 'above 40', in all conditions on it.");
    return false;
}

const state_table *program_cut_readings(arena *keep, arena *scratch, const book *b, faults *list)
{
    gathering g = {scratch, ARENA_ARRAY(scratch, cut *, b->question_count),
                   ARENA_ARRAY(scratch, uint32_t, b->question_count),
                   ARENA_ARRAY(scratch, uint32_t, b->question_count)};
    program_each_condition(b, add_bounds, &g);
    state_table *tables = ARENA_ARRAY(keep, state_table, b->question_count);
    bool fit = true;
    for (uint32_t q = 0; q < b->question_count; q++) {
        tables[q] = finished_table(keep, g.cuts[q], g.counts[q]);
        fit &= fits_mask(&tables[q], &b->questions[q], list);
    }
    return fit ? tables : NULL;
}
