/* Amounts read: sign, numbers, units, ratios. */
#include "measure/amount.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "measure/number.h"

/* Bytes of a unit; keeps the tries at where it ends few, whatever the text. */
enum { LONGEST_IN_AMOUNT = 80 };

typedef struct amount_reader {
    arena *keep;
    str rest; /* what is still to be read */
    const unit *wanted;
    double sign;      /* 1 or -1 */
    amount sum;       /* in the first part's unit */
    double converted; /* in the unit wanted, if that is of the same dimension */
    str bad;
} amount_reader;

static amount_found stop(amount_reader *r, amount_found found, str bad)
{
    assert(found != AMOUNT_FOUND);
    r->bad = bad;
    return found;
}

static void skip(amount_reader *r, size_t bytes)
{
    assert(bytes <= r->rest.n);
    r->rest = without_blanks(str_slice(r->rest, bytes, r->rest.n));
}

static double read_sign(amount_reader *r)
{
    static const char *const minus[] = {"-", "\u2212", "\u2013"};
    for (size_t i = 0; i < sizeof minus / sizeof *minus; i++) {
        if (!str_starts(r->rest, minus[i])) continue;
        skip(r, strlen(minus[i]));
        return -1;
    }
    if (str_starts(r->rest, "+")) skip(r, 1);
    return 1;
}

static amount_found read_number(amount_reader *r, double *number)
{
    size_t length;
    number_found found = number_read(r->rest, number, &length);
    if (found == NUMBER_NONE) return stop(r, AMOUNT_NO_NUMBER, r->rest);
    if (found == NUMBER_UNCLEAR) return stop(r, AMOUNT_UNCLEAR, str_slice(r->rest, 0, length));
    assert(length > 0 && *number >= 0);
    skip(r, length);
    return AMOUNT_FOUND;
}

/* ":" or "in" between the two numbers of a ratio; 0 if it is none. */
static size_t ratio_sign(str rest, unit_form *form)
{
    static const char *const words[] = {"in ", "IN ", "In ", "out of "};
    *form = UNIT_PARTS;
    if (str_starts(rest, ":")) return 1;
    *form = UNIT_ONE_IN;
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (str_starts(rest, words[i])) return strlen(words[i]);
    return 0;
}

/* The whole rest is a ratio whose first number is read: `first`. False if it is no ratio. */
static bool read_ratio(amount_reader *r, str whole, double first, amount_found *found)
{
    unit_form form;
    double second = 0;
    size_t sign = ratio_sign(r->rest, &form), length;
    if (sign == 0) return false;
    str behind = without_blanks(str_slice(r->rest, sign, r->rest.n));
    number_found number = number_read(behind, &second, &length);
    if (number == NUMBER_NONE || without_blanks(str_slice(behind, length, behind.n)).n > 0)
        return false;
    bool one = fabs(first - 1) < 1e-12 && form == UNIT_PARTS;
    double all = form == UNIT_PARTS ? first + second : second;
    if (number == NUMBER_UNCLEAR || r->sign < 0 || !(all > 0) || !(one || first <= second)) {
        *found = stop(r, AMOUNT_UNCLEAR,
                      number == NUMBER_UNCLEAR ? str_slice(behind, 0, length) : whole);
        return true;
    }
    r->sum = (amount){first / all, unit_none};
    assert(r->sum.number >= 0 && r->sum.number <= 1);
    r->sum.in.form = form;
    r->sum.in.text = form == UNIT_PARTS ? STR("1:N") : STR("1 in N");
    r->bad = whole;
    r->rest = STR("");
    *found = AMOUNT_FOUND;
    return true;
}

/* Without the "," or "and" that joins a part to the next. */
static str without_joint(str text)
{
    text = blanks_trimmed(text);
    if (str_ends(text, ",")) return str_slice(text, 0, text.n - 1);
    if (str_ends(text, " and")) return str_slice(text, 0, text.n - 4);
    return text;
}

/* Not within a number that began before. */
static bool new_number(str text, size_t at)
{
    assert(at > 0 && at < text.n);
    size_t before = at - 1;
    if (before > 0 && (text.p[before] == '.' || text.p[before] == ',')) before--;
    if (text.p[before] >= '0' && text.p[before] <= '9') return false;
    return number_begins(str_slice(text, at, text.n));
}

/* The longest beginning of the rest that is a unit. Units hold digits ("inH2O", "oz per 5 gal"), so
 * each place where a number could begin is tried as its end. */
static bool read_unit(amount_reader *r, unit *in)
{
    size_t end = r->rest.n < LONGEST_IN_AMOUNT ? r->rest.n : LONGEST_IN_AMOUNT;
    str bad = STR("");
    if (r->rest.n > LONGEST_IN_AMOUNT) bad = beginning(r->rest, end);
    for (size_t i = end; i > 0; i--) {
        bool whole = i == r->rest.n;
        if (!whole && !new_number(r->rest, i)) continue;
        str text = str_slice(r->rest, 0, i), wrong;
        if (unit_read(r->keep, whole ? text : without_joint(text), &r->wanted->dim, in, &wrong) ==
                UNIT_FOUND &&
            in->text.n > 0) {
            skip(r, i);
            return true;
        }
        if (bad.n == 0) bad = wrong;
    }
    r->bad = bad.n > 0 ? bad : r->rest;
    return false;
}

static void add(amount_reader *r, double number, const unit *in)
{
    assert(r->sign == 1 || r->sign == -1);
    assert(isfinite(number) && number >= 0);
    number *= r->sign;
    r->sum.number += unit_convert(in, &r->sum.in, number);
    if (dimension_same(in->dim, r->wanted->dim))
        r->converted += unit_convert(in, r->wanted, number);
}

static bool continues(const unit *before, const unit *in)
{
    return dimension_same(before->dim, in->dim) && before->form == UNIT_PLAIN &&
           in->form == UNIT_PLAIN && in->factor < before->factor;
}

/* Number and unit in turn, to the end; the first number is read. */
static amount_found read_parts(amount_reader *r, str whole, double number)
{
    unit in, before = unit_none;
    for (bool first = true;; first = false) {
        if (number_begins(r->rest) || (!first && r->rest.n == 0))
            return stop(r, AMOUNT_UNCLEAR, whole);
        if (!read_unit(r, &in)) return AMOUNT_UNKNOWN_UNIT;
        if (first)
            r->sum.in = in;
        else if (!continues(&before, &in))
            return stop(r, AMOUNT_UNCLEAR, whole);
        add(r, number, &in);
        if (r->rest.n == 0) return AMOUNT_FOUND;
        before = in;
        amount_found found = read_number(r, &number);
        if (found != AMOUNT_FOUND) return found;
    }
}

static amount_found as_wanted(amount_reader *r, str whole)
{
    const unit *in = &r->sum.in, *wanted = r->wanted;
    bool ratio = unit_is_ratio(in);
    if (!dimension_same(in->dim, wanted->dim))
        return stop(r, AMOUNT_OTHER_KIND, ratio ? whole : in->text);
    if (!unit_fits(in, wanted)) return stop(r, AMOUNT_OTHER_FORM, in->text);
    if (ratio) r->converted = unit_convert(in, wanted, r->sum.number);
    return AMOUNT_FOUND;
}

static amount_found without_unit(amount_reader *r, double number)
{
    const unit *wanted = r->wanted;
    bool plain =
        dimension_is_none(wanted->dim) && wanted->form == UNIT_PLAIN && wanted->factor == 1;
    r->converted = r->sign * number;
    r->sum = (amount){r->converted, unit_none};
    return plain ? AMOUNT_FOUND : stop(r, AMOUNT_NO_UNIT, STR(""));
}

static amount_found read_amount(amount_reader *r)
{
    str whole = r->rest;
    double number;
    r->sign = read_sign(r);
    amount_found found = read_number(r, &number);
    if (found == AMOUNT_NO_NUMBER) return stop(r, found, whole);
    if (found != AMOUNT_FOUND) return found;
    if (r->rest.n == 0) return without_unit(r, number);
    if (!read_ratio(r, whole, number, &found)) found = read_parts(r, whole, number);
    return found == AMOUNT_FOUND ? as_wanted(r, whole) : found;
}

amount_found amount_read(arena *keep, str text, const unit *wanted, double *number, amount *as,
                         str *bad)
{
    assert(wanted != NULL && number != NULL);
    amount_reader r = {
        .keep = keep, .rest = blanks_trimmed(text), .wanted = wanted, .bad = STR("")};
    amount_found found = read_amount(&r);
    bool finite = isfinite(r.converted) && isfinite(r.sum.number);
    if (!finite) found = stop(&r, AMOUNT_NO_NUMBER, blanks_trimmed(text));
    *number = finite ? r.converted + 0.0 : 0; /* -0 becomes 0 */
    if (as != NULL) *as = r.sum;
    if (bad != NULL) *bad = r.bad;
    return found;
}
