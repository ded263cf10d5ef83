/* Numbers with a unit, and ranges of them, as text. */
#include <assert.h>
#include <math.h>

#include "model/reader.h"

static bool digit(char c)
{
    return c >= '0' && c <= '9';
}

static size_t number_length(str text)
{
    assert(text.n == 0 || text.p != NULL);
    size_t i = 0;
    if (text.n > 0 && (text.p[0] == '-' || text.p[0] == '+')) i++;
    while (i < text.n &&
           (digit(text.p[i]) || (text.p[i] == '.' && i + 1 < text.n && digit(text.p[i + 1]))))
        i++;
    return i;
}

amount_state amount_of(str text, str unit, double *number)
{
    text = str_trim(text);
    size_t length = number_length(text);
    if (!str_to_double(str_slice(text, 0, length), number)) return AMOUNT_NO_NUMBER;
    str rest = str_trim(str_slice(text, length, text.n));
    if (str_eq(rest, unit)) return AMOUNT_READ;
    return rest.n == 0 ? AMOUNT_NO_UNIT : AMOUNT_OTHER_UNIT;
}

static range_state bad_part(amount_state found, str text, amount_state *state, str *part)
{
    assert(found != AMOUNT_READ);
    *state = found;
    *part = str_trim(text);
    return RANGE_BAD_AMOUNT;
}

range_state range_of(str text, str unit, double *low, double *high, amount_state *state, str *part)
{
    assert(low != NULL && high != NULL && state != NULL && part != NULL);
    size_t middle = str_find(text, STR(" to "));
    if (middle == SIZE_MAX) return RANGE_NONE;
    str left = str_slice(text, 0, middle), right = str_slice(text, middle + 4, text.n);
    amount_state first = amount_of(left, unit, low), last = amount_of(right, unit, high);
    if (first == AMOUNT_NO_NUMBER || first == AMOUNT_OTHER_UNIT)
        return bad_part(first, left, state, part);
    if (last != AMOUNT_READ) return bad_part(last, right, state, part);
    assert(isfinite(*low) && isfinite(*high));
    return *low > *high ? RANGE_BACKWARDS : RANGE_READ;
}

static void no_number(reader *r, const node *n, str part, str unit)
{
    fault *f = fault_add(r->list, FAULT_BAD_NUMBER, n->at, "'%.*s' does not begin with a number.",
                         STR_ARG(part));
    fault_help(r->list, f, "Write a number%s%.*s, with a point for decimals.",
               unit.n > 0 ? " and its unit, such as 20 " : "", STR_ARG(unit));
}

static void other_unit(reader *r, const node *n, str part, str unit)
{
    size_t length = number_length(part);
    str number = str_slice(part, 0, length), rest = str_trim(str_slice(part, length, part.n));
    bool comma = rest.n > 1 && rest.p[0] == ',' && digit(rest.p[1]);
    if (comma || unit.n == 0) {
        fault *f = fault_add(r->list, FAULT_BAD_NUMBER, n->at, "'%.*s' is not a plain number.",
                             STR_ARG(part));
        fault_help(r->list, f, comma ? "Write a point for decimals." : "Write '%.*s' alone.",
                   STR_ARG(number));
        return;
    }
    fault *f = fault_add(r->list, FAULT_WRONG_UNIT, n->at,
                         "'%.*s' is not the unit of this question, which is '%.*s'.", STR_ARG(rest),
                         STR_ARG(unit));
    fault_help(r->list, f, "Give the number in %.*s.", STR_ARG(unit));
}

void amount_fault(reader *r, const node *n, str part, amount_state state, str unit)
{
    assert(state != AMOUNT_READ);
    if (state == AMOUNT_NO_NUMBER) {
        no_number(r, n, part, unit);
    } else if (state == AMOUNT_OTHER_UNIT) {
        other_unit(r, n, part, unit);
    } else {
        fault *f = fault_add(r->list, FAULT_WRONG_UNIT, n->at,
                             "'%.*s' has no unit, so it could be read wrongly.", STR_ARG(part));
        fault_help(r->list, f, "Write '%.*s %.*s'.", STR_ARG(part), STR_ARG(unit));
    }
}

bool read_whole(str text, uint32_t *number)
{
    assert(number != NULL);
    double value;
    if (!str_to_double(str_trim(text), &value) || value < 0 || value > 1e9 || floor(value) < value)
        return false;
    *number = (uint32_t)value;
    return true;
}
