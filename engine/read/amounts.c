/* Amounts and ranges of them, in any unit of the reading's dimension. */
#include <assert.h>
#include <math.h>

#include "read/reader.h"

bool amount_in(reader *r, str text, const unit *wanted, double *number, amount_slip *slip)
{
    amount as;
    *slip = (amount_slip){.part = str_trim(text)};
    slip->found = amount_read(r->keep, slip->part, wanted, number, &as, &slip->bad);
    slip->written = as.in;
    return slip->found == AMOUNT_FOUND;
}

/* "20 to 40 psi": the first number takes the second's unit. */
static bool low_end(reader *r, str text, const amount_slip *high, const unit *wanted, double *low,
                    amount_slip *slip)
{
    if (amount_in(r, text, wanted, low, slip)) return true;
    if (slip->found != AMOUNT_NO_UNIT) return false;
    str whole =
        str_printf(r->scratch, "%.*s %.*s", STR_ARG(str_trim(text)), STR_ARG(high->written.text));
    return amount_in(r, whole, wanted, low, slip);
}

range_state range_of(reader *r, str text, const unit *wanted, double *low, double *high,
                     amount_slip *slip)
{
    size_t middle = str_find(text, STR(" to "));
    if (middle == SIZE_MAX) return RANGE_NONE;
    amount_slip right;
    if (!amount_in(r, str_slice(text, middle + 4, text.n), wanted, high, &right)) {
        *slip = right;
        return RANGE_BAD_AMOUNT;
    }
    if (!low_end(r, str_slice(text, 0, middle), &right, wanted, low, slip)) return RANGE_BAD_AMOUNT;
    assert(isfinite(*low) && isfinite(*high));
    return *low > *high ? RANGE_BACKWARDS : RANGE_READ;
}

const char *unit_gap(const unit *u)
{
    return u->text.n == 0 || unit_is_ratio(u) ? "" : " ";
}

str amount_example(reader *r, double number, const unit *u)
{
    if (u->form == UNIT_PARTS) return STR("1:60");
    if (u->form == UNIT_ONE_IN) return STR("1 in 60");
    return amount_words(r->scratch, number, u, 6);
}

str range_example(reader *r, double low, double high, const unit *u)
{
    if (u->form == UNIT_PARTS) return STR("1:200 to 1:50");
    if (u->form == UNIT_ONE_IN) return STR("1 in 200 to 1 in 50");
    str first = amount_words(r->scratch, low, &unit_none, 6),
        last = amount_words(r->scratch, high, u, 6);
    return str_printf(r->scratch, "%.*s to %.*s", STR_ARG(first), STR_ARG(last));
}

/* "0-800 mg/L" as '0 to 800 mg/L', "1:15 to 1:30" as '1:30 to 1:15'; what is no two amounts, as an
 * example from low to high. */
str range_mended(reader *r, str text, const unit *u, double low, double high)
{
    size_t to = str_find(text, STR(" to ")), dash = str_find_byte(text, '-'),
           gap = to == SIZE_MAX ? 1 : 4;
    size_t middle = to == SIZE_MAX ? dash : to;
    double first, last;
    amount_slip ahead, slip;
    if (middle == SIZE_MAX || middle == 0) return range_example(r, low, high, u);
    str left = str_trim(str_slice(text, 0, middle)),
        right = str_trim(str_slice(text, middle + gap, text.n));
    bool good = amount_in(r, right, u, &last, &ahead) && low_end(r, left, &ahead, u, &first, &slip);
    if (!good || first == last) return range_example(r, low, high, u);
    if (first < last) return str_printf(r->scratch, "%.*s to %.*s", STR_ARG(left), STR_ARG(right));
    if (!amount_in(r, left, u, &first, &slip)) return range_example(r, last, first, u);
    return str_printf(r->scratch, "%.*s to %.*s", STR_ARG(right), STR_ARG(left));
}

static void no_number(reader *r, const node *n, const amount_slip *slip, const unit *wanted)
{
    fault *f = fault_add(r->list, FAULT_BAD_NUMBER, n->at, "'%.*s' does not begin with a number.",
                         STR_ARG(slip->part));
    fault_help(r->list, f, "Write a number%s, such as %.*s.",
               wanted->text.n > 0 ? " and its unit" : "", STR_ARG(amount_example(r, 20, wanted)));
}

static void unclear_number(reader *r, const node *n, const amount_slip *slip)
{
    if (str_find_byte(slip->bad, ':') != SIZE_MAX) {
        fault *ratio = fault_add(r->list, FAULT_UNCLEAR_NUMBER, n->at,
                                 "Which of the two in '%.*s' is the product?", STR_ARG(slip->bad));
        fault_help(r->list, ratio,
                   "Write it first, such as 1:50: one part of product to 50 of water.");
        return;
    }
    fault *f = fault_add(r->list, FAULT_UNCLEAR_NUMBER, n->at,
                         "The comma in '%.*s' could stand for decimals or for thousands.",
                         STR_ARG(slip->bad));
    fault_help(r->list, f, "Write decimals with a point, and thousands without a comma.");
}

static void no_unit(reader *r, const node *n, const amount_slip *slip, const unit *wanted)
{
    fault *f = fault_add(r->list, FAULT_WRONG_UNIT, n->at,
                         "'%.*s' has no unit, so it could be read wrongly.", STR_ARG(slip->part));
    if (unit_is_ratio(wanted))
        fault_help(r->list, f, "Write such as '%.*s', or a share such as '2 %%'.",
                   STR_ARG(amount_example(r, 0, wanted)));
    else
        fault_help(r->list, f, "Write '%.*s %.*s'.", STR_ARG(slip->part), STR_ARG(wanted->text));
}

/* "mgl" is like "mil", but where hardness is wanted nobody meant a length. */
static bool measures(reader *r, str spelling, dimension wanted)
{
    unit u;
    str bad;
    return unit_read(r->scratch, spelling, &wanted, &u, &bad) == UNIT_FOUND &&
           dimension_same(u.dim, wanted);
}

void unit_unknown(reader *r, span at, str bad, const dimension *wanted)
{
    uint32_t count;
    const str *all = unit_spellings(r->scratch, &count);
    fault *f = fault_add(r->list, FAULT_UNKNOWN_UNIT, at, "'%.*s' is no unit that is known here.",
                         STR_ARG(bad));
    size_t nearest = nearest_name(r, bad, all, count);
    if (nearest != SIZE_MAX && wanted != NULL && !measures(r, all[nearest], *wanted))
        nearest = SIZE_MAX;
    bool differs = str_starts(bad, "month") || str_starts(bad, "year");
    str some = wanted == NULL ? STR("") : unit_examples(r->scratch, *wanted, 4);
    if (differs)
        fault_help(r->list, f, "Months and years differ; write days or weeks, such as '30 day'.");
    else if (nearest != SIZE_MAX) {
        fault_help(r->list, f, "Did you mean '%.*s'?", STR_ARG(all[nearest]));
        fault_mend(r->list, f, bad, all[nearest]);
    } else if (some.n > 0)
        fault_help(r->list, f, "Write a unit such as %.*s.", STR_ARG(some));
    else
        fault_help(r->list, f,
                   "docs/units.md lists the units; write one of those. What is counted and not "
                   "listed there goes by "
                   "'pieces', such as 'pieces/h'.");
}

static void other_kind(reader *r, const node *n, const amount_slip *slip, const unit *wanted)
{
    if (dimension_is_none(wanted->dim) && wanted->text.n == 0) {
        fault *f = fault_add(r->list, FAULT_BAD_NUMBER, n->at, "'%.*s' is not a plain number.",
                             STR_ARG(slip->part));
        fault_help(r->list, f, "Write the number alone, without '%.*s'.", STR_ARG(slip->bad));
        return;
    }
    str given = dimension_words(r->scratch, slip->written.dim),
        right = dimension_words(r->scratch, wanted->dim);
    if (dimension_is_none(wanted->dim)) {
        fault *share = fault_add(r->list, FAULT_WRONG_UNIT, n->at,
                                 "'%.*s' measures %.*s, but here a share is wanted.",
                                 STR_ARG(slip->bad), STR_ARG(given));
        fault_help(r->list, share, "Write such as '%.*s', or '2 %%'.",
                   STR_ARG(amount_example(r, 20, wanted)));
        return;
    }
    fault *f = fault_add(r->list, FAULT_WRONG_UNIT, n->at,
                         "'%.*s' measures %.*s, but here %.*s is wanted.", STR_ARG(slip->bad),
                         STR_ARG(given), STR_ARG(right));
    fault_help(r->list, f, "Give it in %.*s, or in another unit of %.*s.", STR_ARG(wanted->text),
               STR_ARG(right));
}

static void other_form(reader *r, const node *n, const unit *wanted)
{
    bool scale = wanted->form == UNIT_SCALE;
    fault *f =
        fault_add(r->list, FAULT_WRONG_UNIT, n->at,
                  scale ? "A temperature is wanted here, not a difference of two."
                        : "A difference of two temperatures is wanted here, not a temperature.");
    fault_help(r->list, f,
               scale ? "Write such as '140 degF'." : "Write such as '10 degF interval'.");
}

void amount_fault(reader *r, const node *n, const amount_slip *slip, const unit *wanted)
{
    switch (slip->found) {
    case AMOUNT_FOUND:
        return;
    case AMOUNT_NO_NUMBER:
        no_number(r, n, slip, wanted);
        return;
    case AMOUNT_UNCLEAR:
        unclear_number(r, n, slip);
        return;
    case AMOUNT_NO_UNIT:
        no_unit(r, n, slip, wanted);
        return;
    case AMOUNT_UNKNOWN_UNIT:
        unit_unknown(r, n->at, slip->bad, &wanted->dim);
        return;
    case AMOUNT_OTHER_KIND:
        other_kind(r, n, slip, wanted);
        return;
    case AMOUNT_OTHER_FORM:
        other_form(r, n, wanted);
        return;
    }
}

bool read_amount(reader *r, const node *n, str part, const unit *wanted, double *number)
{
    amount_slip slip;
    if (amount_in(r, part, wanted, number, &slip)) return true;
    amount_fault(r, n, &slip, wanted);
    return false;
}

/* A unit as the author names it after `unit:`, in `show:` and in texts. */
bool read_unit(reader *r, str text, span at, const dimension *wanted, unit *out)
{
    str bad;
    if (unit_read(r->keep, str_copy(r->keep, text), wanted, out, &bad) == UNIT_FOUND) return true;
    unit_unknown(r, at, bad, wanted);
    return false;
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
