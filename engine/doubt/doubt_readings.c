/* Readings: what is usual and a fault at once, what is neither, settings that a fix can't reach. */
#include <assert.h>
#include <math.h>

#include "base/sorted.h"
#include "doubt/doubt.h"

/* A number of a reading with its unit. */
static str amount_of(const doubter *d, const question *q, double number)
{
    assert(q >= d->book->questions);
    return book_amount(d->scratch, d->book, (uint32_t)(q - d->book->questions), number, NULL);
}

/* ---- what is usual is no sign of a fault ---- */

static bool is_sign(const symptom *s)
{
    for (uint32_t i = 0; i < s->shown_by_count; i++)
        if (s->shown_by[i].chance > 2 * s->otherwise) return true;
    return false;
}

/* The one reading that a symptom rests on; null: it rests on more. */
static const cond *only_range(const symptom *s)
{
    return s->when->kind == COND_RANGE ? s->when : NULL;
}

static double overlap(const cond *c, double low, double high)
{
    assert(low <= high);
    return fmin(c->high, high) - fmax(c->low, low);
}

static void doubt_usual_range(const doubter *d, const symptom *s, const cond *c)
{
    assert(c->kind == COND_RANGE && c->subject < d->book->question_count);
    const question *q = &d->book->questions[c->subject];
    if (!q->has_usual || q->made || !is_sign(s)) return;
    const double common = overlap(c, q->usual_low, q->usual_high),
                 width = q->usual_high - q->usual_low;
    const bool inside = width > 0 ? common > 1e-9 * width : interval_holds(c, q->usual_low, 0);
    if (!inside) return;
    fault *f = fault_add(d->list, FAULT_USUAL_IS_FAULT, c->at,
                         "Readings that are usual for '%.*s' count as this sign of a fault.",
                         STR_ARG(q->of.base));
    if (width > 0)
        fault_help(d->list, f,
                   "Let the range end where 'usual' begins, or begin where it ends: %.*s to %.*s.",
                   STR_ARG(amount_of(d, q, q->usual_low)), STR_ARG(amount_of(d, q, q->usual_high)));
    else
        fault_help(d->list, f, "Leave %.*s, which is usual, out of the range.",
                   STR_ARG(amount_of(d, q, q->usual_low)));
    fault_note_at(d->list, f, q->id.at, "its usual readings");
}

static void doubt_usual_answer(const doubter *d, const symptom *s)
{
    if (!s->rests_on_one || s->from_confirms || !is_sign(s)) return;
    const question *q = &d->book->questions[s->one_question];
    if (q->kind != QUESTION_CHOICE || !q->has_usual || q->usual_answer != s->one_answer) return;
    fault *f =
        fault_add(d->list, FAULT_USUAL_IS_FAULT, s->when->at,
                  "'%.*s' is the usual answer to '%.*s', and counts as a sign of a fault here.",
                  STR_ARG(q->answers[s->one_answer].id.name), STR_ARG(q->of.base));
    fault_help(d->list, f, "Name the answer that a fault gives, or mend 'usual'.");
}

/* ---- gaps between bands ---- */

typedef struct band {
    double low, high;
    span at;
} band;

static int by_low(const void *left, const void *right)
{
    const band *a = left, *b = right;
    return a->low != b->low ? THREE_WAY(a->low, b->low) : THREE_WAY(a->high, b->high);
}

enum { BANDS_MAX = 64 }; /* of one question: the first */

typedef struct bands { /* of all questions */
    band **of;         /* [question] */
    uint32_t *count;
} bands;

static void add_bands(const cond *c, const bands *all)
{
    if (c->kind == COND_RANGE && all->count[c->subject] < BANDS_MAX) {
        const uint32_t at = all->count[c->subject]++;
        if (all->of[c->subject] != NULL) all->of[c->subject][at] = (band){c->low, c->high, c->at};
    }
    if (c->kind == COND_SYMPTOM || c->kind == COND_NOT || c->kind == COND_NONE) return;
    for (uint32_t i = 0; i < c->count; i++) add_bands(c->parts[i], all);
}

static bands all_bands(const doubter *d)
{
    const book *b = d->book;
    bands all = {ARENA_ARRAY(d->scratch, band *, b->question_count),
                 ARENA_ARRAY(d->scratch, uint32_t, b->question_count)};
    for (uint32_t i = 0; i < b->symptom_count; i++) add_bands(b->symptoms[i].when, &all);
    for (uint32_t q = 0; q < b->question_count; q++) {
        if (all.count[q] > 0) all.of[q] = ARENA_ARRAY(d->scratch, band, all.count[q]);
        all.count[q] = 0;
    }
    for (uint32_t i = 0; i < b->symptom_count; i++) add_bands(b->symptoms[i].when, &all);
    return all;
}

/* Between two bands, and nothing of it usual: such a reading would mean nothing at all. */
static void doubt_gaps(const doubter *d, uint32_t question, band *all, uint32_t count)
{
    assert(question < d->book->question_count);
    const struct question *q = &d->book->questions[question];
    SORT(all, count, by_low);
    double reached = count > 0 ? all[0].high : 0;
    for (uint32_t i = 1; i < count; i++) {
        const bool gap = all[i].low > reached * (1 + 1e-12) + 1e-12;
        const bool usual = !q->has_usual || (q->usual_high > reached && q->usual_low < all[i].low);
        if (gap && !usual) {
            fault *f =
                fault_add(d->list, FAULT_GAP, all[i].at,
                          "'%.*s' between %.*s and %.*s is neither usual nor a sign of anything.",
                          STR_ARG(q->of.base), STR_ARG(amount_of(d, q, reached)),
                          STR_ARG(amount_of(d, q, all[i].low)));
            fault_help(d->list, f,
                       "Let one range end where the next begins, or say what is usual.");
        }
        reached = fmax(reached, all[i].high);
    }
}

/* ---- adjustments ---- */

/* On which side of what is good a range lies: -1 below, 1 above, 0 both. What is compared with a
 * set point is good where they differ by nothing. */
static int side_of_range(const doubter *d, const cond *c, uint32_t reading)
{
    const question *q = &d->book->questions[c->subject];
    assert(c->kind == COND_RANGE);
    if (q->made && q->judged == reading) return c->high <= 0 ? -1 : c->low >= 0 ? 1 : 0;
    if (c->subject != reading || !q->has_usual) return 0;
    return c->high <= q->usual_low + 1e-9 ? -1 : c->low >= q->usual_high - 1e-9 ? 1 : 0;
}

/* The sides of all ranges in a condition that is no denial. */
static void see_sides(const doubter *d, const cond *c, uint32_t reading, bool *below, bool *above)
{
    if (c == NULL) return;
    if (c->kind == COND_RANGE) {
        const int side = side_of_range(d, c, reading);
        *below = *below || side < 0;
        *above = *above || side > 0;
    }
    for (uint32_t i = 0; (c->kind == COND_ALL || c->kind == COND_ANY) && i < c->count; i++)
        see_sides(d, c->parts[i], reading, below, above);
}

static bool speaks_for_cured(const symptom *s, const fix *x)
{
    for (uint32_t k = 0; k < s->shown_by_count; k++)
        for (uint32_t j = 0; j < x->cures_count; j++)
            if (s->shown_by[k].cause == x->cures[j].cause && s->shown_by[k].chance > s->otherwise)
                return true;
    return false;
}

/* Symptoms that list any cause that it cures, rising; one may stand there twice. */
static const uint32_t *signs_of_cured(const doubter *d, const fix *x, uint32_t *count)
{
    const links *of = &d->index->symptoms_of;
    uint32_t most = 0;
    for (uint32_t i = 0; i < x->cures_count; i++)
        most += of->first[x->cures[i].cause + 1] - of->first[x->cures[i].cause];
    uint32_t *all = ARENA_ARRAY(d->scratch, uint32_t, most);
    *count = 0;
    for (uint32_t i = 0; i < x->cures_count; i++)
        for (uint32_t k = of->first[x->cures[i].cause]; k < of->first[x->cures[i].cause + 1]; k++)
            all[(*count)++] = of->items[k];
    SORT(all, *count, by_rising_id);
    return all;
}

/* On which side of the usual readings the faults lie that a fix cures: -1 below, 1 above, 0 both or
 * not known. What it is offered at says so too. */
static int side_of_faults(const doubter *d, const fix *x)
{
    bool below = false, above = false;
    see_sides(d, x->only_when, x->adjust.reading, &below, &above);
    if (below != above) return below ? -1 : 1;
    below = above = false;
    uint32_t count;
    const uint32_t *all = signs_of_cured(d, x, &count);
    for (uint32_t i = 0; i < count; i++) {
        const symptom *s = &d->book->symptoms[all[i]];
        if (speaks_for_cured(s, x)) see_sides(d, s->when, x->adjust.reading, &below, &above);
    }
    return below == above ? 0 : below ? -1 : 1;
}

/* The range of the reading that a sign asks for, also among others; null: it asks for none, or for
 * one that a set point decides. */
static const cond *range_within(const cond *c, uint32_t reading)
{
    if (c->kind == COND_RANGE) return c->subject == reading ? c : NULL;
    for (uint32_t i = 0; c->kind == COND_ALL && i < c->count; i++)
        if (range_within(c->parts[i], reading) != NULL) return range_within(c->parts[i], reading);
    return NULL;
}

/* Some setting that shows the sign can be changed: it lies within the limits, and not at the one
 * that is stepped to. */
static bool can_begin(const adjustment *a, const cond *c)
{
    const double low = fmax(c->low, a->low), high = fmin(c->high, a->high);
    assert(a->step > 0 || a->step < 0);
    if (low > high || (low == high && !interval_holds(c, low, 0))) return false;
    return a->step > 0 ? low < a->high : high > a->low;
}

static bool is_only_fix(const doubter *d, const fix *x)
{
    const book *b = d->book;
    const links *of = &d->index->fixes_of;
    for (uint32_t k = 0; k < x->cures_count; k++)
        for (uint32_t i = of->first[x->cures[k].cause]; i < of->first[x->cures[k].cause + 1]; i++) {
            const fix *other = &b->fixes[of->items[i]];
            if (other != x && !same_written(&other->id, &x->id)) return false;
        }
    return true;
}

/* Most readings that show the fault and can be read lie beyond the limit that is stepped away from:
 * nothing is offered there. A few may well be too far off to be set right. */
static void doubt_beyond(const doubter *d, const fix *x, const cond *c)
{
    const adjustment *a = &x->adjust;
    const question *q = &d->book->questions[a->reading];
    const double low = q->has_plausible ? fmax(c->low, q->plausible_low) : c->low,
                 high = q->has_plausible ? fmin(c->high, q->plausible_high) : c->high;
    const bool below = a->step > 0;
    const double beyond = below ? fmin(a->low, high) - low : high - fmax(a->high, low);
    if (!isfinite(beyond) || beyond <= 0.5 * (high - low) * (1 + 1e-9)) return;
    if (!is_only_fix(d, x)) return;
    fault *f = fault_add(d->list, FAULT_ADJUST_SHUT_OUT, x->id.at,
                         "Most readings that show what '%.*s' is for are %s %.*s, where it is not "
                         "offered, nor is any other fix.",
                         STR_ARG(x->of.base), below ? "below" : "above",
                         STR_ARG(amount_of(d, q, below ? a->low : a->high)));
    fault_note_at(d->list, f, c->at, "what shows it");
    fault_help(d->list, f,
               "Widen 'within', or write the fix for a setting that is so far off: then something "
               "may be broken.");
}

/* Whatever shows what it is for is outside its limits, so it is never offered. */
static void doubt_limits(const doubter *d, const fix *x)
{
    const cond *shut_out = NULL;
    uint32_t count;
    const uint32_t *all = signs_of_cured(d, x, &count);
    for (uint32_t i = 0; i < count; i++) {
        const symptom *s = &d->book->symptoms[all[i]];
        const cond *c = range_within(s->when, x->adjust.reading);
        if (c == NULL || !speaks_for_cured(s, x)) continue;
        if (can_begin(&x->adjust, c)) {
            doubt_beyond(d, x, c);
            return;
        }
        shut_out = c;
    }
    if (shut_out == NULL) return;
    const question *q = &d->book->questions[x->adjust.reading];
    fault *f = fault_add(d->list, FAULT_ADJUST_SHUT_OUT, x->id.at,
                         "'%.*s' begins only at readings from %.*s to %.*s, and none of them shows "
                         "what it is for: so it is never offered.",
                         STR_ARG(x->of.base), STR_ARG(amount_of(d, q, x->adjust.low)),
                         STR_ARG(amount_of(d, q, x->adjust.high)));
    fault_note_at(d->list, f, shut_out->at, "what shows it");
    fault_help(d->list, f,
               "Widen 'within' so that it takes in the readings that show the fault: a setting "
               "that is outside of it is not adjusted.");
}

static void doubt_adjust(const doubter *d, const fix *x)
{
    doubt_limits(d, x);
    assert(x->adjust.reading < d->book->question_count);
    const adjustment *a = &x->adjust;
    const question *q = &d->book->questions[a->reading];
    const double width = q->usual_high - q->usual_low, step = fabs(a->step);
    const int side = side_of_faults(d, x);
    if ((side < 0 && a->step < 0) || (side > 0 && a->step > 0)) {
        fault *f =
            fault_add(d->list, FAULT_ADJUST_AWAY, x->id.at,
                      "'%.*s' steps away from what is good: the faults that it is for read %s it.",
                      STR_ARG(x->of.base), side < 0 ? "below" : "above");
        fault_help(d->list, f, "Turn the sign of 'by' round, or mend what it cures.");
    }
    if (!q->has_usual) return;
    if (a->high < q->usual_low - 1e-9 || a->low > q->usual_high + 1e-9) {
        fault *f =
            fault_add(d->list, FAULT_ADJUST_SHORT, x->id.at,
                      "'%.*s' can't reach a usual reading: it goes from %.*s to %.*s, and "
                      "usual is %.*s to %.*s.",
                      STR_ARG(x->of.base), STR_ARG(amount_of(d, q, a->low)),
                      STR_ARG(amount_of(d, q, a->high)), STR_ARG(amount_of(d, q, q->usual_low)),
                      STR_ARG(amount_of(d, q, q->usual_high)));
        fault_help(d->list, f, "Widen its limits, or mend 'usual' of '%.*s'.", STR_ARG(q->of.base));
    } else if (width > 0 && step > width * 1.0001) {
        fault *f = fault_add(
            d->list, FAULT_ADJUST_WIDE, x->id.at,
            "One step of '%.*s' (%.*s) can jump over all usual readings (%.*s to %.*s).",
            STR_ARG(x->of.base), STR_ARG(amount_of(d, q, step)),
            STR_ARG(amount_of(d, q, q->usual_low)), STR_ARG(amount_of(d, q, q->usual_high)));
        fault_help(d->list, f, "Write a smaller step.");
    }
}

void doubt_readings(const doubter *d)
{
    const book *b = d->book;
    for (uint32_t i = 0; i < b->symptom_count; i++) {
        const cond *c = only_range(&b->symptoms[i]);
        if (c != NULL) doubt_usual_range(d, &b->symptoms[i], c);
        doubt_usual_answer(d, &b->symptoms[i]);
    }
    const bands all = all_bands(d);
    for (uint32_t i = 0; i < b->question_count; i++)
        if (!b->questions[i].made &&
            (b->questions[i].kind == QUESTION_READING || b->questions[i].kind == QUESTION_QUANTITY))
            doubt_gaps(d, i, all.of[i], all.count[i]);
    for (uint32_t i = 0; i < b->fix_count; i++)
        if (b->fixes[i].adjust.reading != NO_ID) doubt_adjust(d, &b->fixes[i]);
}
