/* Conditions on readings and counts: below, above, at least, at most, A to B. */
#include <assert.h>
#include <math.h>

#include "read/reader.h"

static const struct {
    const char *words;
    bool is_high, included, ratio; /* ratio: said of dilutions only */
} comparisons[] = {
    {"below ", true, false, false},      {"above ", false, false, false},
    {"at most ", true, true, false},     {"at least ", false, true, false},
    {"weaker than ", true, false, true}, {"stronger than ", false, false, true},
};

/* One end of an interval: a number, or a number above what is not constant; then the reading's
 * difference from that is compared. */
typedef struct bound {
    uint32_t subject; /* the reading, or the quantity made of the difference */
    double number;    /* in the subject's unit */
} bound;

/* What people write for it, and what to write instead. */
static const struct {
    const char *written, *ours;
} other_words[] = {
    {"< ", "below "},
    {"<= ", "at most "},
    {"> ", "above "},
    {">= ", "at least "},
    {"<", "below "},
    {">", "above "},
    {"less than ", "below "},
    {"lower than ", "below "},
    {"under ", "below "},
    {"up to ", "at most "},
    {"more than ", "above "},
    {"greater than ", "above "},
    {"higher than ", "above "},
    {"over ", "above "},
    {"is below ", "below "},
    {"is above ", "above "},
    {"at least than ", "at least "},
    {"not below ", "at least "},
    {"not above ", "at most "},
};

/* "less than 0.8 * x" as 'below 0.8 * x', "between 40 and 70 %" as '40 to 70 %'; empty if it is
 * neither. */
static str in_our_words(reader *r, str text)
{
    for (size_t i = 0; i < sizeof other_words / sizeof *other_words; i++)
        if (str_starts(text, other_words[i].written))
            return str_printf(
                r->scratch, "%s%.*s", other_words[i].ours,
                STR_ARG(str_trim(str_slice(text, str_of(other_words[i].written).n, text.n))));
    size_t and = str_find(text, STR(" and "));
    if (!str_starts(text, "between ") || and == SIZE_MAX) return STR("");
    return str_printf(r->scratch, "%.*s to %.*s", STR_ARG(str_trim(str_slice(text, 8, and))),
                      STR_ARG(str_trim(str_slice(text, and+5, text.n))));
}

static const cond *needs_range(reader *r, const question *q, const node *n, str text)
{
    assert(q->kind != QUESTION_CHOICE);
    str one = amount_example(r, 20, &q->in), range = range_example(r, 20, 40, &q->in);
    fault *f = fault_add(r->list, FAULT_NEEDS_RANGE, n->at, "'%.*s' is no range of '%.*s'.",
                         STR_ARG(text), STR_ARG(q->id.name));
    str ours = in_our_words(r, text);
    if (ours.n > 0) {
        fault_help(r->list, f, "Write '%.*s'.", STR_ARG(ours));
        fault_mend(r->list, f, text, ours);
    } else
        fault_help(r->list, f,
                   "Write 'below %.*s', 'above %.*s', 'at least', 'at most', or '%.*s'.",
                   STR_ARG(one), STR_ARG(one), STR_ARG(range));
    return NULL;
}

static const cond *no_ratio(reader *r, const question *q, const node *n)
{
    str one = amount_example(r, 20, &q->in);
    fault *f = fault_add(
        r->list, FAULT_NEEDS_RANGE, n->at,
        "'weaker than' and 'stronger than' are said of a dilution, but '%.*s' measures %.*s.",
        STR_ARG(q->id.name), STR_ARG(dimension_words(r->scratch, q->in.dim)));
    fault_help(r->list, f, "Write 'below %.*s' or 'above %.*s'.", STR_ARG(one), STR_ARG(one));
    return NULL;
}

static size_t place_of(const node *n, str part)
{
    return (size_t)(part.p - n->text.p);
}

typedef enum split { SPLIT_NONE, SPLIT_DONE, SPLIT_REPORTED } split;

/* "mix - 5": of shares nothing tells a plain 5 from 5 %, and it would be taken for 500 %. Other
 * sums are refused for adding what is not alike. */
static split no_constant(reader *r, const node *n, const amount_slip *slip, const unit *wanted)
{
    if (slip->found != AMOUNT_NO_UNIT || !dimension_is_none(wanted->dim) || wanted->text.n == 0)
        return SPLIT_NONE;
    amount_fault(r, n, slip, wanted);
    return SPLIT_REPORTED;
}

/* "cut-in - 5 psi": what comes before the last sign at the outermost level whose right side is an
 * amount. */
static split split_constant(reader *r, const node *n, str text, const unit *wanted, str *base,
                            double *constant)
{
    int depth = 0;
    for (size_t i = text.n; i-- > 1;) {
        if (text.p[i] == ')') depth++;
        if (text.p[i] == '(') depth--;
        bool sign = (text.p[i] == '+' || text.p[i] == '-') && text.p[i - 1] == ' ' &&
                    i + 1 < text.n && text.p[i + 1] == ' ';
        if (!sign || depth != 0) continue;
        amount_slip slip;
        double number;
        if (!amount_in(r, str_slice(text, i + 1, text.n), wanted, &number, &slip))
            return no_constant(r, n, &slip, wanted);
        *base = str_trim(str_slice(text, 0, i));
        *constant = text.p[i] == '-' ? -number : number;
        return base->n > 0 ? SPLIT_DONE : SPLIT_NONE;
    }
    return SPLIT_NONE;
}

static bool looks_like_formula(str text)
{
    char c = text.n == 0 ? '0' : text.p[0];
    bool name = (c >= 'a' && c <= 'z') || c == '(';
    return name || str_find(text, STR(" * ")) != SIZE_MAX || str_find(text, STR(" / ")) != SIZE_MAX;
}

/* "0.8 set-point", "0.8 x set-point" and "80 % of set-point" are formulas with a slip, no amounts
 * in an unknown unit. */
static bool slipped_times(reader *r, const node *n, str text)
{
    static const char *const words[] = {" x", " X", " of", " times", " \xC3\x97"};
    size_t from = text.n;
    while (from > 0 && text.p[from - 1] != ' ') from--;
    str name = str_slice(text, from, text.n), number = str_trim(str_slice(text, 0, from));
    if (number.n == 0 || base_find(r, SECTION_QUESTIONS, name) == NULL) return false;
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (str_ends(number, words[i]))
            number = str_trim(str_slice(number, 0, number.n - str_of(words[i]).n));
    fault *f =
        fault_add(r->list, FAULT_FORMULA_WRONG, n->at,
                  "There is no sign between '%.*s' and '%.*s'.", STR_ARG(number), STR_ARG(name));
    fault_help(r->list, f, "To multiply, write '%.*s * %.*s'.", STR_ARG(number), STR_ARG(name));
    return true;
}

/* What one site measures by must not decide what is safe at another. */
static bool numbers_wanted(reader *r, const node *n, str text)
{
    fault *f =
        fault_add(r->list, FAULT_BAD_NUMBER, n->at,
                  "'%.*s' is no number, and what is safe is said in numbers.", STR_ARG(text));
    fault_help(r->list, f,
               "Write a number with its unit; a limit that differs from site to site goes into a "
               "rule that stops.");
    return false;
}

static bool read_bound(reader *r, uint32_t reading, const node *n, str text, bound *out)
{
    const question *q = &r->book->questions[reading];
    amount_slip slip;
    text = str_trim(text);
    *out = (bound){.subject = reading};
    if (amount_in(r, text, &q->in, &out->number, &slip)) return true;
    if (r->numbers_only && looks_like_formula(text)) return numbers_wanted(r, n, text);
    if (!looks_like_formula(text)) {
        if (slip.found != AMOUNT_UNKNOWN_UNIT || !slipped_times(r, n, text))
            amount_fault(r, n, &slip, &q->in);
        return false;
    }
    const unit apart = difference_unit(r, &q->in);
    str base = text;
    if (split_constant(r, n, text, &apart, &base, &out->number) == SPLIT_REPORTED) return false;
    out->subject = quantity_of_difference(r, reading, n, place_of(n, base), base);
    return out->subject != NO_ID;
}

static cond *on_subject(reader *r, uint32_t reading, cond *c, uint32_t subject)
{
    c->subject = subject;
    if (subject != reading) remember_made(r, c);
    return c;
}

/* ---- from one to another ---- */

static const cond *backwards(reader *r, const node *n, str text)
{
    fault *f = fault_add(r->list, FAULT_RANGE_BACKWARDS, n->at,
                         "No reading lies in '%.*s': the first number is above the second.",
                         STR_ARG(text));
    fault_help(r->list, f, "Put the lower number first.");
    return NULL;
}

/* Both ends over one subject: one interval; else both must hold. */
static const cond *between(reader *r, uint32_t reading, bound low, bound high, cond *c)
{
    c->low = low.number;
    c->low_in = c->high_in = true;
    if (low.subject == high.subject) {
        c->high = high.number;
        return on_subject(r, reading, c, low.subject);
    }
    cond *upper = ARENA_NEW(r->keep, cond), *both = ARENA_NEW(r->keep, cond);
    const cond **parts = ARENA_ARRAY(r->keep, const cond *, 2);
    *upper = *c;
    *both = (cond){.kind = COND_ALL, .at = c->at, .subject = NO_ID, .count = 2, .parts = parts};
    upper->low = -INFINITY;
    upper->low_in = false;
    upper->high = high.number;
    c->high_in = false;
    parts[0] = on_subject(r, reading, c, low.subject);
    parts[1] = on_subject(r, reading, upper, high.subject);
    return both;
}

/* "20 to set-point + 5 psi": each end by itself. Two mere amounts were read before, and what is
 * wrong with them is known. */
static bool read_ends(reader *r, uint32_t reading, const node *n, const str *text,
                      const amount_slip *wrong, bound *low, bound *high)
{
    if (!looks_like_formula(str_trim(text[0])) && !looks_like_formula(str_trim(text[1]))) {
        amount_fault(r, n, wrong, &r->book->questions[reading].in);
        return false;
    }
    bool good = read_bound(r, reading, n, text[0], low);
    return read_bound(r, reading, n, text[1], high) && good;
}

static const cond *read_between(reader *r, uint32_t reading, const node *n, str text, cond *c)
{
    const question *q = &r->book->questions[reading];
    size_t middle = str_find(text, STR(" to "));
    if (middle == SIZE_MAX) return needs_range(r, q, n, text);
    bound low = {.subject = reading}, high = {.subject = reading};
    amount_slip slip;
    range_state state = range_of(r, text, &q->in, &low.number, &high.number, &slip);
    const str halves[] = {str_slice(text, 0, middle), str_slice(text, middle + 4, text.n)};
    if (state == RANGE_BAD_AMOUNT && !read_ends(r, reading, n, halves, &slip, &low, &high))
        return NULL;
    if (low.subject == high.subject && low.number > high.number) {
        if (!unit_is_ratio(&q->in)) return backwards(r, n, text);
        const bound swapped =
            low; /* "1:20 to 1:400": people put the smaller number of parts first */
        low = high;
        high = swapped;
    }
    return between(r, reading, low, high, c);
}

static bool includes(const cond *c, double value)
{
    return (value > c->low || c->low_in) && (value < c->high || c->high_in);
}

/* The least that can be counted and meets the condition is 0 or what comes next above its low end.
 */
static bool counts_none(const question *q, const cond *c)
{
    if (q->kind != QUESTION_COUNT) return false;
    double least = fmax(ceil(c->low), 0);
    if (least <= c->low && !c->low_in) least++;
    return least > c->high || (least >= c->high && !c->high_in);
}

/* Whether any plausible reading meets the condition; a reading outside the range is asked for
 * again. */
static void check_plausible(reader *r, const question *q, const node *n, const cond *c)
{
    assert(c->low <= c->high);
    if (counts_none(q, c)) {
        fault *none = fault_add(r->list, FAULT_NEVER_PLAUSIBLE, n->at,
                                "This can never hold: '%.*s' is counted, and no whole number from "
                                "0 on lies in it.",
                                STR_ARG(q->id.name));
        fault_help(r->list, none, "Mend the number, or ask for a reading instead of a count.");
        return;
    }
    if (!q->has_plausible) return;
    double low = fmax(c->low, q->plausible_low), high = fmin(c->high, q->plausible_high);
    if (low < high || (low <= high && includes(c, low))) return;
    fault *f = fault_add(r->list, FAULT_NEVER_PLAUSIBLE, n->at,
                         "This can never hold: '%.*s' is plausible from %.*s only.",
                         STR_ARG(q->id.name), STR_ARG(range_of_plausible(r, q)));
    fault_help(r->list, f, "Mend the number, or widen 'plausible' of the question.");
}

/* "below 1:40": fewer parts of water, or a weaker mix? */
static bool unclear_ratio(reader *r, const question *q, const node *n, size_t which, str text)
{
    text = str_trim(text);
    bool ratio = str_starts(text, "1:") || str_starts(text, "1 in ");
    if (comparisons[which].ratio || !ratio || !unit_is_ratio(&q->in)) return false;
    fault *f = fault_add(r->list, FAULT_NEEDS_RANGE, n->at,
                         "'%s%.*s' could mean less product or fewer parts of water.",
                         comparisons[which].words, STR_ARG(text));
    fault_help(r->list, f,
               "Write 'weaker than %.*s' or 'stronger than %.*s'; to take the limit in, write a "
               "share such as '2 %%'.",
               STR_ARG(text), STR_ARG(text));
    return true;
}

static const cond *read_one_sided(reader *r, uint32_t reading, const node *n, size_t which,
                                  str text, cond *c)
{
    bound end;
    if (comparisons[which].ratio && !dimension_is_none(r->book->questions[reading].in.dim))
        return no_ratio(r, &r->book->questions[reading], n);
    str limit = str_slice(text, str_of(comparisons[which].words).n, text.n);
    if (unclear_ratio(r, &r->book->questions[reading], n, which, limit) ||
        !read_bound(r, reading, n, limit, &end))
        return NULL;
    bool high = comparisons[which].is_high;
    if (high)
        c->high = end.number;
    else
        c->low = end.number;
    c->high_in = high && comparisons[which].included;
    c->low_in = !high && comparisons[which].included;
    return on_subject(r, reading, c, end.subject);
}

static const cond *read_comparison(reader *r, uint32_t reading, const node *n, str text, cond *c)
{
    double number;
    for (size_t i = 0; i < sizeof comparisons / sizeof *comparisons; i++)
        if (str_starts(text, comparisons[i].words))
            return read_one_sided(r, reading, n, i, text, c);
    if (r->book->questions[reading].kind == QUESTION_COUNT && str_to_double(text, &number)) {
        c->low = c->high = number;
        c->low_in = c->high_in = true;
        return c;
    }
    return read_between(r, reading, n, text, c);
}

const cond *read_reading_condition(reader *r, uint32_t reading, const node *n, cond *c)
{
    const question *q = &r->book->questions[reading];
    assert(q->kind != QUESTION_CHOICE && c->kind == COND_RANGE);
    if (n->kind == NODE_MAP && !r->numbers_only && node_get(n, "trend") != NULL)
        return read_trend_condition(r, reading, n, c);
    if (n->kind != NODE_TEXT) {
        fault *f =
            fault_add(r->list, FAULT_NEEDS_RANGE, n->at,
                      "'%.*s' is a number, so it is compared with one range.", STR_ARG(q->id.name));
        fault_help(r->list, f, "Write one range, and {any: [...]} for several.");
        return NULL;
    }
    const cond *read = read_comparison(r, reading, n, str_trim(n->text), c);
    if (!r->numbers_only && read != NULL && read->kind == COND_RANGE && read->subject == reading)
        check_plausible(r, q, n, read);
    return read;
}
