/* The states of a reading: where one lies, which lie inside a condition, and how people say them.
 */
#include <assert.h>
#include <math.h>

#include "base/sorted.h"
#include "compile/program_parts.h"

int cut_by_place(const void *a, const void *b)
{
    const cut *x = a, *y = b;
    int places = THREE_WAY(x->at, y->at);
    return places != 0 ? places : THREE_WAY(x->above, y->above);
}

/* The same limit in two units (3 bar, 300 kPa) may differ in the last digits. */
bool cut_same_place(const cut *a, const cut *b)
{
    return number_is_at(a->at, a->at, b->at);
}

static int by_near_place(const cut *a, const cut *b)
{
    return cut_same_place(a, b) ? (int)a->above - (int)b->above : cut_by_place(a, b);
}

uint32_t program_states(const program *p, uint32_t question)
{
    assert(question < p->book->question_count);
    const struct question *q = &p->book->questions[question];
    return q->kind == QUESTION_CHOICE ? q->answer_count : p->tables[question].cut_count + 1;
}

static bool is_past(const cut *c, double number, double magnitude)
{
    return number_is_at(number, magnitude, c->at) ? !c->above : number > c->at;
}

uint32_t program_state_near(const program *p, uint32_t question, double number, double magnitude)
{
    assert(question < p->book->question_count);
    const state_table *t = &p->tables[question];
    uint32_t state = 0;
    while (state < t->cut_count && is_past(&t->cuts[state], number, magnitude)) state++;
    return state;
}

uint32_t program_state_of(const program *p, uint32_t question, double number)
{
    return program_state_near(p, question, number, number);
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
