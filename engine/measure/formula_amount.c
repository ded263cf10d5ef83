/* A number with its unit. The unit is the longest text behind the number that unit_read takes. */
#include <assert.h>
#include <math.h>

#include "measure/formula_reader.h"
#include "measure/number.h"

enum { UNIT_WORDS = 8 };

/* ---- the number ---- */

/* Bytes of what is written in digits, points and commas. */
static size_t digits_end(const formula_reader *r, size_t at)
{
    for (char c; c = formula_byte(r, at), formula_digit(c) || c == '.' || c == ',';) {
        if (!formula_digit(c) && !formula_digit(formula_byte(r, at + 1))) break;
        at++;
    }
    return at;
}

static bool bad_number(formula_reader *r, size_t from, size_t to)
{
    str bad = formula_text(r, from, to);
    formula_fail(r, from, to, formula_say(r, "'%.*s' is no number.", STR_ARG(bad)),
                 "Write a number such as '3', '0.5' or '1 1/2'.");
    return false;
}

/* A comma parts the members of a list, so it is no decimal sign here, not even where it is clear in
 * an answer. */
static bool unclear(formula_reader *r, size_t from, size_t to)
{
    str bad = formula_text(r, from, to);
    size_t comma = str_find_byte(bad, ',');
    const char *help = "Write a number with one point for decimals, and nothing for thousands.";
    if (comma != SIZE_MAX) {
        str left = str_slice(bad, 0, comma), right = str_slice(bad, comma + 1, bad.n);
        help = formula_say(r, "Write '%.*s.%.*s' for decimals, '%.*s, %.*s' for two of a list.",
                           STR_ARG(left), STR_ARG(right), STR_ARG(left), STR_ARG(right));
        if (right.n == 3)
            help = formula_say(r, "%s Thousands have no sign: '%.*s%.*s'.", help, STR_ARG(left),
                               STR_ARG(right));
    }
    formula_fail(r, from, to,
                 formula_say(r, "'%.*s' can be read in more than one way.", STR_ARG(bad)), help);
    return false;
}

/* Number without unit at `from`; its end and value. */
static bool read_number(formula_reader *r, size_t from, size_t *end, double *value)
{
    assert(from < r->text.n);
    size_t length = 0;
    number_found found = number_read(formula_text(r, from, r->text.n), value, &length);
    size_t simple = digits_end(r, from);
    *end = from + length < simple ? simple : from + length;
    if (str_find_byte(formula_text(r, from, *end), ',') != SIZE_MAX) return unclear(r, from, *end);
    if (found == NUMBER_NONE) return bad_number(r, from, *end > from ? *end : from + 1);
    if (found == NUMBER_UNCLEAR || *end > from + length) return unclear(r, from, *end);
    return true;
}

/* ---- parts to water ---- */

/* "1:50" and "1 in 50": where the second number begins, or 0. */
static size_t second_of_ratio(const formula_reader *r, size_t end, bool *one_in)
{
    assert(end <= r->text.n);
    *one_in = formula_byte(r, end) != ':';
    if (!*one_in) return formula_amount_begins(r, end + 1) ? end + 1 : 0;
    size_t in = formula_skip(r, end), behind = in + 2;
    if (in == end || formula_byte(r, in) != 'i' || formula_byte(r, in + 1) != 'n') return 0;
    size_t second = formula_skip(r, behind);
    return second > behind && formula_amount_begins(r, second) ? second : 0;
}

static formula_node *bad_ratio(formula_reader *r, size_t from, size_t to, double a, double b,
                               bool one_in)
{
    str whole = formula_text(r, from, to);
    if (a > 0 && b > a)
        return formula_fail(
            r, from, to,
            formula_say(r, "'%.*s' does not begin with one part of product.", STR_ARG(whole)),
            formula_say(r, "Write '1%s%.6g'.", one_in ? " in " : ":", b / a));
    return formula_fail(r, from, to, formula_say(r, "'%.*s' is no ratio.", STR_ARG(whole)),
                        "Write product to water, such as '1:50', or '1 in 50' of the whole.");
}

static void set_value(formula_node *n)
{
    assert(n->kind == FORMULA_NUMBER);
    n->base = formula_to_base(&n->in, n->number, &n->weight);
    n->type = (value_type){n->in.dim, n->in.form == UNIT_SCALE};
}

/* Null without failing: it is no ratio. */
static formula_node *read_ratio(formula_reader *r, size_t from, size_t number, size_t end, double a)
{
    bool one_in;
    double b;
    size_t second = second_of_ratio(r, end, &one_in), to;
    if (second == 0 || !read_number(r, second, &to, &b)) return NULL;
    if (a != 1 || b <= 0 || (one_in && b < 1)) return bad_ratio(r, number, to, a, b, one_in);
    if (from != number)
        return formula_fail(r, from, to, "A ratio can't be negative.", "Leave the minus out.");
    formula_node *n = formula_new(r, FORMULA_NUMBER, from, to);
    n->digits = formula_joined(r->keep, formula_text(r, from, to));
    n->in = unit_none; /* what is kept is the share of the whole */
    n->number = one_in ? 1 / b : 1 / (b + 1);
    assert(n->number > 0 && n->number <= 1);
    set_value(n);
    r->at = to;
    return n;
}

/* ---- the unit ---- */

/* Units have blanks, hyphens and slashes inside; brackets, lists and the signs + * end them. */
static bool ends_unit_word(char c)
{
    return c == 0 || formula_space(c) || c == '(' || c == ')' || c == ',' || c == '+' || c == '*' ||
           c == '=' || c == '<' || c == '>';
}

static size_t unit_word_end(const formula_reader *r, size_t at)
{
    while (!ends_unit_word(formula_byte(r, at))) at++;
    return at;
}

/* A hyphen that no letter follows is a minus with its blanks forgotten: "5 psi-2 psi". */
static size_t before_tight_minus(const formula_reader *r, size_t from, size_t to)
{
    assert(from <= to);
    for (size_t i = from + 1; i < to; i++) {
        char next = formula_byte(r, i + 1);
        if (formula_byte(r, i) == '-' && !formula_letter(next)) return i;
    }
    return to;
}

/* May a word of a unit begin here? Behind "per" it may be a number: "1 oz per 5 gal". */
static bool begins_unit_word(const formula_reader *r, size_t from, size_t at, size_t end)
{
    char c = formula_byte(r, at);
    if (end == at || c == '-' || formula_byte(r, end) == '(') return false; /* "(": a function */
    if (c == '/') return at == from && end > at + 1;
    if (at == from || !formula_amount_begins(r, at)) return true;
    return str_ends(str_trim(formula_text(r, from, at)), "per");
}

/* Where units that begin at `from` might end, shortest first. */
static uint32_t unit_ends(const formula_reader *r, size_t from, size_t *ends)
{
    uint32_t count = 0;
    for (size_t at = from; count + 1 < UNIT_WORDS;) {
        size_t end = unit_word_end(r, at), cut = before_tight_minus(r, at, end);
        if (!begins_unit_word(r, from, at, end)) break;
        if (cut < end) ends[count++] = cut;
        ends[count++] = end;
        at = formula_skip(r, end);
    }
    assert(count <= UNIT_WORDS);
    return count;
}

/* What to write instead of a word that is no unit; `behind` a slash. */
static const char *unit_help(formula_reader *r, str digits, str bad, bool behind)
{
    assert(bad.n > 0);
    if (str_starts(bad, "month") || str_starts(bad, "year"))
        return "Months and years differ; write days or weeks, such as '30 day'.";
    const char *help = "Write the unit as in '5 psi' or '3 gal/min'; one amount in two units is a "
                       "sum: '5 ft + 6 in'.";
    if (behind) help = "To divide, put a blank on each side of '/'.";
    if (!formula_letter(bad.p[0])) return help;
    if (!behind)
        help = formula_say(r, "To multiply, write '%.*s * %.*s'.", STR_ARG(digits), STR_ARG(bad));
    uint32_t count;
    const str *spellings = unit_spellings(r->scratch, &count);
    size_t near = str_nearest(r->scratch, bad, spellings, count);
    if (near >= count || !formula_letter(spellings[near].p[0])) return help;
    return formula_say(r, "Did you mean '%.*s'? %s", STR_ARG(spellings[near]), help);
}

static formula_node *unknown_unit(formula_reader *r, const formula_node *n, size_t from, size_t to)
{
    assert(from < to);
    unit u;
    str bad = {NULL, 0}, word = formula_text(r, from, to);
    unit_read(r->scratch, word, NULL, &u, &bad);
    size_t at = bad.n == 0 ? SIZE_MAX : str_find(word, bad);
    if (at == SIZE_MAX || (!formula_letter(bad.p[0]) && bad.p[0] != '/')) {
        bad = word;
        at = 0;
    }
    bool behind = at > 0 || bad.p[0] == '/';
    return formula_fail(r, from + at, from + at + bad.n,
                        formula_say(r, "'%.*s' is no unit.", STR_ARG(bad)),
                        unit_help(r, n->digits, bad, behind));
}

/* Sets n->in and moves on; a number may stand without a unit. */
static formula_node *read_unit(formula_reader *r, formula_node *n, const dimension *wanted)
{
    size_t ends[UNIT_WORDS], from = formula_skip(r, r->at);
    uint32_t count = unit_ends(r, from, ends);
    n->in = unit_none;
    if (count == 0) return n;
    for (uint32_t i = count; i-- > 0;) {
        str bad, text = formula_joined(r->keep, formula_text(r, from, ends[i]));
        if (unit_read(r->keep, text, wanted, &n->in, &bad) != UNIT_FOUND) continue;
        r->at = ends[i];
        return n;
    }
    n->in = unit_none;
    if (formula_slipped_sign(r, from, ends[0])) return n;
    return unknown_unit(r, n, from, ends[0]);
}

formula_node *formula_amount(formula_reader *r, size_t from, bool negative)
{
    assert(r->at >= from && r->at < r->text.n);
    size_t number = r->at, end;
    double value;
    if (!read_number(r, number, &end, &value)) return NULL;
    formula_node *ratio = read_ratio(r, from, number, end, value);
    if (ratio != NULL || r->failed) return ratio;
    formula_node *n = formula_new(r, FORMULA_NUMBER, from, end);
    str digits = formula_joined(r->keep, formula_text(r, number, end));
    n->digits = negative ? str_printf(r->keep, "-%.*s", STR_ARG(digits)) : digits;
    n->number = negative ? -value : value;
    r->at = end;
    if (read_unit(r, n, NULL) == NULL) return NULL;
    n->to = (uint32_t)r->at;
    set_value(n);
    if (isfinite(n->base)) return n;
    return formula_fail(r, from, r->at, "This amount is too large to be meant.",
                        "Write fewer digits.");
}

bool formula_amount_as(formula_reader *r, formula_node *n, dimension wanted)
{
    unit u;
    str bad;
    if (n->kind != FORMULA_NUMBER || n->in.text.n == 0) return false;
    if (unit_read(r->keep, n->in.text, &wanted, &u, &bad) != UNIT_FOUND) return false;
    if (!dimension_same(u.dim, wanted)) return false;
    n->in = u;
    set_value(n);
    return true;
}

void formula_amount_step(formula_node *n)
{
    if (n->kind != FORMULA_NUMBER || !n->type.scale) return;
    n->in.offset = 0;
    n->in.form = UNIT_PLAIN;
    set_value(n);
}
