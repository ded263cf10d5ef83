/* Conditions on readings and counts: below, above, at least, at most, A to B. */
#include <assert.h>
#include <math.h>

#include "model/reader.h"

static const struct {
    const char *words;
    bool is_high, included;
} comparisons[] = {
    {"below ", true, false},
    {"above ", false, false},
    {"at most ", true, true},
    {"at least ", false, true},
};

static const cond *needs_range(reader *r, const question *q, const node *n, str text)
{
    assert(q->kind != QUESTION_CHOICE);
    const char *unit = q->unit.n > 0 ? " " : "";
    fault *f = fault_add(r->list, FAULT_NEEDS_RANGE, n->at, "'%.*s' is no range of '%.*s'.",
                         STR_ARG(text), STR_ARG(q->id.name));
    fault_help(
        r->list, f,
        "Write 'below 20%s%.*s', 'above 20%s%.*s', 'at least', 'at most', or '20 to 40%s%.*s'.",
        unit, STR_ARG(q->unit), unit, STR_ARG(q->unit), unit, STR_ARG(q->unit));
    return NULL;
}

static const cond *read_between(reader *r, const question *q, const node *n, str text, cond *c)
{
    amount_state state;
    str part;
    c->low_in = c->high_in = true;
    switch (range_of(text, q->unit, &c->low, &c->high, &state, &part)) {
    case RANGE_READ:
        return c;
    case RANGE_BAD_AMOUNT:
        amount_fault(r, n, part, state, q->unit);
        return NULL;
    case RANGE_NONE:
        return needs_range(r, q, n, text);
    case RANGE_BACKWARDS:
        break;
    }
    fault *f = fault_add(r->list, FAULT_RANGE_BACKWARDS, n->at,
                         "No reading lies in '%.*s': the first number is above the second.",
                         STR_ARG(text));
    fault_help(r->list, f, "Put the lower number first.");
    return NULL;
}

static bool compare(const cond *c, double value)
{
    bool above = value > c->low || (c->low_in && value >= c->low);
    bool below = value < c->high || (c->high_in && value <= c->high);
    return above && below;
}

/* Whether any plausible reading meets the condition; a reading outside the range is asked for
 * again. */
static void check_plausible(reader *r, const question *q, const node *n, const cond *c)
{
    assert(c->low <= c->high);
    if (!q->has_plausible) return;
    double low = fmax(c->low, q->plausible_low), high = fmin(c->high, q->plausible_high);
    if (low < high || (low <= high && compare(c, low))) return;
    fault *f = fault_add(r->list, FAULT_NEVER_PLAUSIBLE, n->at,
                         "This can never hold: '%.*s' is plausible from %g to %g%s%.*s only.",
                         STR_ARG(q->id.name), q->plausible_low, q->plausible_high,
                         q->unit.n > 0 ? " " : "", STR_ARG(q->unit));
    fault_help(r->list, f, "Mend the number, or widen 'plausible' of the question.");
}

static const cond *read_comparison(reader *r, const question *q, const node *n, str text, cond *c)
{
    double number;
    for (size_t i = 0; i < sizeof comparisons / sizeof *comparisons; i++) {
        if (!str_starts(text, comparisons[i].words)) continue;
        str amount = str_trim(str_slice(text, str_of(comparisons[i].words).n, text.n));
        amount_state state = amount_of(amount, q->unit, &number);
        if (state != AMOUNT_READ) {
            amount_fault(r, n, amount, state, q->unit);
            return NULL;
        }
        if (comparisons[i].is_high)
            c->high = number;
        else
            c->low = number;
        c->high_in = comparisons[i].is_high && comparisons[i].included;
        c->low_in = !comparisons[i].is_high && comparisons[i].included;
        return c;
    }
    if (q->kind == QUESTION_COUNT && str_to_double(text, &number)) {
        c->low = c->high = number;
        c->low_in = c->high_in = true;
        return c;
    }
    return read_between(r, q, n, text, c);
}

const cond *read_reading_condition(reader *r, const question *q, const node *n, cond *c)
{
    assert(q->kind != QUESTION_CHOICE && c->kind == COND_RANGE);
    if (n->kind != NODE_TEXT) {
        fault *f =
            fault_add(r->list, FAULT_NEEDS_RANGE, n->at,
                      "'%.*s' is a number, so it is compared with one range.", STR_ARG(q->id.name));
        fault_help(r->list, f, "Write one range, and {any: [...]} for several.");
        return NULL;
    }
    const cond *read = read_comparison(r, q, n, str_trim(n->text), c);
    if (read != NULL) check_plausible(r, q, n, read);
    return read;
}
