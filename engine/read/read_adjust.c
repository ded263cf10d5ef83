/* `adjust` of a fix: a setting that is changed step by step, and put back if it does not help. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "read/reader.h"

enum { STEPS_MAX = 100 };

/* ---- what is adjusted ---- */

static void no_reading(reader *r, span at, const question *q)
{
    fault *f = fault_add(r->list, FAULT_ADJUST_NO_READING, at,
                         "'%.*s' is no reading, so it has no value to adjust step by step.",
                         STR_ARG(q->id.name));
    fault_note_at(r->list, f, q->id.at, "The question stands here.");
    fault_help(r->list, f, "Name a question with 'reading:'.");
}

/* Null if there is none that could be adjusted. */
static const question *read_reading(reader *r, const node *n)
{
    str name;
    if (n == NULL || !read_word(r, n, "a question", &name)) return NULL;
    uint32_t id = resolve(r, SECTION_QUESTIONS, name, n->at);
    if (id == NO_ID || r->tables[SECTION_QUESTIONS].items[id].broken) return NULL;
    const question *q = &r->book->questions[id];
    if (q->kind == QUESTION_READING) return q;
    no_reading(r, n->at, q);
    return NULL;
}

static void check_role(reader *r, span at, const fix *f, const question *q)
{
    if (r->roles_lost || f->role == NO_ID || q->role == NO_ID ||
        book_may(r->book, f->role, q->role))
        return;
    fault *found =
        fault_add(r->list, FAULT_ADJUST_NO_ROLE, at,
                  "A %.*s may do the fix '%.*s', but may not read '%.*s', where it starts from.",
                  STR_ARG(r->book->roles[f->role].name), STR_ARG(f->id.name), STR_ARG(q->id.name));
    fault_help(r->list, found, "Give the fix the 'role' of the question, or the other way round.");
}

/* ---- amounts, in the unit of the reading ---- */

/* Nobody sets 44.748 psi on a gauge: what the author wrote in another unit than the question's is
 * rounded so that it can be set. */
enum { STEP_DIGITS = 2, LIMIT_DIGITS = 3 };

static bool converted(const amount_slip *read, const unit *in)
{
    bool same = fabs(read->written.factor - in->factor) <= 1e-12 * fabs(in->factor);
    return !same || read->written.offset != in->offset;
}

static double to_digits(double number, int digits, double (*round_it)(double))
{
    if (number == 0) return 0;
    int power = digits - 1 - (int)floor(log10(fabs(number)));
    /* Dividing by a power of ten gives the decimal number that was meant; multiplying by its
     * inverse does not. */
    double scale = pow(10, abs(power));
    return power >= 0 ? round_it(number * scale) / scale : round_it(number / scale) * scale;
}

static bool read_step(reader *r, const node *n, const unit *in, double *step)
{
    str text;
    amount_slip read;
    const unit apart = difference_unit(r, in);
    if (n == NULL || !read_word(r, n, "a step", &text)) return false;
    if (!amount_in(r, text, &apart, step, &read)) {
        amount_fault(r, n, &read, &apart);
        return false;
    }
    if (converted(&read, &apart)) *step = to_digits(*step, STEP_DIGITS, round);
    *step *= apart.factor /
             in->factor; /* a step of a dilution is said in %, and its readings are shares */
    return true;
}

/* Inward: never beyond what was written. A number that is a hair off one that could be set is that
 * one. */
static double up(double number)
{
    return ceil(number - 1e-6);
}

static double down(double number)
{
    return floor(number + 1e-6);
}

static void round_limits(adjustment *a)
{
    a->low = to_digits(a->low, LIMIT_DIGITS, up);
    a->high = to_digits(a->high, LIMIT_DIGITS, down);
}

static bool read_limits(reader *r, const node *n, const unit *in, adjustment *a)
{
    str text;
    amount_slip slip;
    if (n == NULL || !read_word(r, n, "'within'", &text)) return false;
    range_state range = range_of(r, text, in, &a->low, &a->high, &slip);
    if (range == RANGE_READ && converted(&slip, in)) round_limits(a);
    if (range == RANGE_READ && a->low < a->high) return true;
    if (range == RANGE_BAD_AMOUNT) {
        amount_fault(r, n, &slip, in);
        return false;
    }
    fault *f = fault_add(
        r->list, FAULT_BAD_RANGE, n->at,
        "'within' must be a range from a lower number to a higher one, not '%.*s'.", STR_ARG(text));
    fault_help(r->list, f, "Write such as '%.*s'.", STR_ARG(range_mended(r, text, in, 35, 60)));
    return false;
}

static void check_limits(reader *r, const node *n, const question *q, const adjustment *a)
{
    assert(a->low < a->high);
    if (!q->has_plausible || (a->low >= q->plausible_low && a->high <= q->plausible_high)) return;
    fault *f = fault_add(r->list, FAULT_ADJUST_IMPLAUSIBLE, n->at,
                         "'within' reaches outside 'plausible' of '%.*s', %.*s.",
                         STR_ARG(q->id.name), STR_ARG(range_of_plausible(r, q)));
    fault_note_at(r->list, f, q->id.at, "The question stands here.");
    fault_help(r->list, f, "Narrow 'within'; a setting outside it could not even be read.");
}

static void check_step(reader *r, const node *n, const adjustment *a)
{
    assert(a->low < a->high);
    double size = fabs(a->step);
    if (size > 0 && size <= a->high - a->low) return;
    fault *f = fault_add(r->list, FAULT_ADJUST_STEP, n->at,
                         size > 0 ? "This step is larger than all that 'within' allows."
                                  : "A step of 0 changes nothing.");
    fault_help(r->list, f,
               "Write what one step adds, such as '2 psi', or takes away, such as '-2 psi'.");
}

static void read_count(reader *r, const node *n, adjustment *a)
{
    str text;
    if (n == NULL || !read_word(r, n, "a number of times", &text)) return;
    str number = str_ends(text, " times")  ? str_slice(text, 0, text.n - 6)
                 : str_ends(text, " time") ? str_slice(text, 0, text.n - 5)
                                           : STR("");
    if (read_whole(number, &a->at_most) && a->at_most >= 1 && a->at_most <= STEPS_MAX) return;
    fault *f = fault_add(r->list, FAULT_ADJUST_COUNT, n->at,
                         "'%.*s' does not say how many steps may be tried, from 1 to %d.",
                         STR_ARG(text), STEPS_MAX);
    fault_help(r->list, f, "Write such as '3 times'.");
}

/* ---- all together ---- */

/* Whoever changes a setting must be able to say how it is set back. */
static void check_put_back(reader *r, span at, const fix *f)
{
    if (f->undo.kind == PUT_BACK_TEXT) return;
    fault *found = fault_add(r->list, FAULT_ADJUST_NOT_PUT_BACK, at,
                             "A setting that did not help is put back as found, but 'put-back' of "
                             "'%.*s' does not say how.",
                             STR_ARG(f->id.name));
    fault_help(r->list, found, "Write such as 'put-back: Set it back to {name as found}.'");
}

void read_adjust(reader *r, const node *n, fix *f)
{
    assert(f->adjust.reading == NO_ID);
    if (!check_map(r, n, KEYS_ADJUST)) return;
    label here = {STR(""), n->at};
    const node *reading = need(r, n, here, KEYS_ADJUST, "reading"),
               *by = need(r, n, here, KEYS_ADJUST, "by"),
               *within = need(r, n, here, KEYS_ADJUST, "within"),
               *most = need(r, n, here, KEYS_ADJUST, "at-most");
    adjustment a = {.reading = NO_ID};
    read_count(r, most, &a);
    check_put_back(r, n->at, f);
    const question *q = read_reading(r, reading);
    if (q == NULL) return;
    check_role(r, reading->at, f, q);
    bool step = read_step(r, by, &q->in, &a.step), limits = read_limits(r, within, &q->in, &a);
    if (limits) check_limits(r, within, q, &a);
    if (step && limits) check_step(r, by, &a);
    a.reading = (uint32_t)(q - r->book->questions);
    f->adjust = a;
}

/* ---- as found, as left ---- */

void check_adjusted(reader *r)
{
    const book *b = r->book;
    bool *adjusted = ARENA_ARRAY(r->scratch, bool, b->question_count);
    for (uint32_t i = 0; i < b->fix_count; i++)
        if (b->fixes[i].adjust.reading != NO_ID) adjusted[b->fixes[i].adjust.reading] = true;
    for (const when_insert *one = r->when_inserts; one != NULL; one = one->next) {
        if (adjusted[one->question]) continue;
        str name = base_of_name(b->questions[one->question].id.name);
        fault *f =
            fault_add(r->list, FAULT_NOT_ADJUSTED, one->at,
                      "No fix adjusts '%.*s', so nothing sets 'as found' apart from 'as left'.",
                      STR_ARG(name));
        fault_help(r->list, f, "Write {%.*s}, or a fix with 'adjust: {reading: %.*s, ...}'.",
                   STR_ARG(name), STR_ARG(name));
    }
}
