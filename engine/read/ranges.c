/* Ranges of a reading, in its unit. */
#include <assert.h>
#include <math.h>

#include "read/reader.h"

bool read_range_in(reader *r, const question *q, const node *n, const char *what, double *low,
                   double *high)
{
    assert(q->kind != QUESTION_CHOICE);
    str text;
    amount_slip slip;
    if (!read_word(r, n, what, &text)) return false;
    range_state range = range_of(r, text, &q->in, low, high, &slip);
    if (range == RANGE_READ && *low < *high) return true;
    if (range == RANGE_BAD_AMOUNT) {
        amount_fault(r, n, &slip, &q->in);
        return false;
    }
    if (q->kind == QUESTION_COUNT && (range == RANGE_READ || str_to_double(text, low)) &&
        *low >= 0 && floor(*low) >= *low) {
        *high = *low;
        return true;
    }
    fault *f = fault_add(r->list, FAULT_BAD_RANGE, n->at,
                         "%s must be a range from a lower number to a higher one, not '%.*s'.",
                         what, STR_ARG(text));
    fault_help(r->list, f, "Write %ssuch as '%.*s'.",
               q->kind == QUESTION_COUNT ? "a whole number, or a range " : "",
               STR_ARG(range_mended(r, text, &q->in, 0, 150)));
    return false;
}

str range_of_plausible(reader *r, const question *q)
{
    if (unit_is_ratio(&q->in))
        return str_printf(r->scratch, "%.*s to %.*s",
                          STR_ARG(amount_words(r->scratch, q->plausible_low, &q->in, 6)),
                          STR_ARG(amount_words(r->scratch, q->plausible_high, &q->in, 6)));
    return range_example(r, q->plausible_low, q->plausible_high, &q->in);
}
