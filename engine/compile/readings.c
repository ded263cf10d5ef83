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

static int by_place(const void *a, const void *b)
{
    const cut *x = a, *y = b;
    int places = THREE_WAY(x->at, y->at);
    return places != 0 ? places : THREE_WAY(x->above, y->above);
}

/* The same limit in two units (3 bar, 300 kPa) may differ in the last digits. */
static bool same_place(const cut *a, const cut *b)
{
    return number_is_at(a->at, a->at, b->at);
}

static int by_near_place(const cut *a, const cut *b)
{
    return same_place(a, b) ? (int)a->above - (int)b->above : by_place(a, b);
}

/* Sorted. Numbers that are the same but for rounding all become the first of them; then each side
 * of a number is kept once. */
static uint32_t without_repeats(cut *cuts, uint32_t count)
{
    uint32_t kept = 0;
    for (uint32_t i = 1; i < count; i++)
        if (same_place(&cuts[i - 1], &cuts[i])) cuts[i].at = cuts[i - 1].at;
    SORT(cuts, count, by_place);
    for (uint32_t i = 0; i < count; i++)
        if (kept == 0 || by_place(&cuts[kept - 1], &cuts[i]) != 0) cuts[kept++] = cuts[i];
    assert(kept <= count);
    return kept;
}

static state_table finished_table(arena *keep, cut *cuts, uint32_t count)
{
    SORT(cuts, count, by_place);
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

/* Is there anything of state i inside the interval? The interval's own ends are cuts, so a state
 * lies wholly in or out: a point strictly inside it decides, and for the one-point state between
 * "below x" and "above x" that point is x. */
static bool state_inside(const state_table *t, uint32_t state, const cond *c)
{
    bool from_start = state == 0 || c->low == -INFINITY;
    bool to_end = state == t->cut_count || c->high == INFINITY;
    if (!from_start || c->low != -INFINITY) {
        if (state == 0) return false;
        const cut low = {c->low, !c->low_in};
        if (by_near_place(&t->cuts[state - 1], &low) < 0) return false;
    }
    if (!to_end || c->high != INFINITY) {
        if (state == t->cut_count) return false;
        const cut high = {c->high, c->high_in};
        if (by_near_place(&t->cuts[state], &high) > 0) return false;
    }
    return true;
}

state_mask program_range_mask(const program *p, const cond *c)
{
    const state_table *t = &p->tables[c->subject];
    assert(t->cut_count < EXPR_STATES_MAX);
    state_mask mask = 0;
    for (uint32_t state = 0; state <= t->cut_count; state++)
        if (state_inside(t, state, c)) mask |= (state_mask)1 << state;
    return mask;
}

/* "steady", "falling or jump". */
static str trend_words(arena *keep, const program *p, uint32_t question, uint32_t state)
{
    text_builder b = {.keep = keep};
    for (int t = 0; t < TREND_COUNT; t++)
        if (program_state_near(p, question, t, t) == state)
            text_addf(&b, "%s%s", b.length == 0 ? "" : " or ", trend_name((reading_trend)t));
    return b.length == 0 ? STR("") : text_done(&b);
}

/* "below 20 psi", "20 psi to 40 psi": how people say an interval; the edge's side is told only
 * where it matters. */
str program_state_words(arena *keep, const program *p, uint32_t question, uint32_t state)
{
    assert(state <= p->tables[question].cut_count);
    if (p->book->questions[question].trend) return trend_words(keep, p, question, state);
    const state_table *t = &p->tables[question];
    if (t->cut_count == 0) return STR("any reading");
    const cut *low = state == 0 ? NULL : &t->cuts[state - 1],
              *high = state == t->cut_count ? NULL : &t->cuts[state];
    str from = low == NULL ? STR("") : book_amount(keep, p->book, question, low->at, NULL);
    str to = high == NULL ? STR("") : book_amount(keep, p->book, question, high->at, NULL);
    if (low == NULL)
        return str_printf(keep, "%s %.*s", high->above ? "at most" : "below", STR_ARG(to));
    if (high == NULL)
        return str_printf(keep, "%s %.*s", low->above ? "above" : "at least", STR_ARG(from));
    if (low->at == high->at) return str_printf(keep, "just %.*s", STR_ARG(from));
    return str_printf(keep, "%.*s to %.*s", STR_ARG(from), STR_ARG(to));
}
