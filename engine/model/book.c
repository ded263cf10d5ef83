/* Looking things up in a book that has been read. */
#include <assert.h>
#include <math.h>

#include "model/book.h"

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool same_tag(str a, str b)
{
    if (a.n != b.n) return false;
    for (size_t i = 0; i < a.n; i++)
        if (lower(a.p[i]) != lower(b.p[i])) return false;
    return true;
}

/* RFC 4647, 3.4: cut the last part off, and a single letter left hanging before it too. */
static str shorter(str tag)
{
    while (tag.n > 0 && tag.p[tag.n - 1] != '-') tag.n--;
    if (tag.n > 0) tag.n--;
    if (tag.n >= 2 && tag.p[tag.n - 2] == '-') tag.n -= 2;
    return tag;
}

str texts_for(const texts *t, str language)
{
    for (str tag = language; tag.n > 0; tag = shorter(tag))
        for (uint32_t i = 0; i < t->count; i++)
            if (same_tag(t->items[i].language, tag)) return t->items[i].text;
    return t->count == 0 ? STR("") : t->items[0].text;
}

/* Every section's entries begin with their label and stand in name order. */
static uint32_t find(const void *items, uint32_t count, size_t size, str name)
{
    assert(count == 0 || items != NULL);
    uint32_t low = 0, high = count;
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        const label *id = (const label *)(const void *)((const char *)items + middle * size);
        int order = str_cmp(id->name, name);
        if (order == 0) return middle;
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return NO_ID;
}

uint32_t book_emergency(const book *r, str name)
{
    for (uint32_t i = 0; i < r->emergency_count; i++)
        if (str_eq(r->emergencies[i].id.name, name) ||
            (name.n > 0 && str_eq(r->emergencies[i].replaces, name)))
            return i;
    return NO_ID;
}

uint32_t book_question(const book *r, str name)
{
    bool ours = r->our_gate != NO_ID && str_eq(name, r->questions[r->our_gate].id.name);
    return ours ? r->our_gate : find(r->questions, r->named_questions, sizeof *r->questions, name);
}

uint32_t book_symptom(const book *r, str name)
{
    return find(r->symptoms, r->symptom_count, sizeof *r->symptoms, name);
}

uint32_t book_cause(const book *r, str name)
{
    return find(r->causes, r->cause_count, sizeof *r->causes, name);
}

uint32_t book_fix(const book *r, str name)
{
    return find(r->fixes, r->fix_count, sizeof *r->fixes, name);
}

bool book_may(const book *r, uint32_t role, uint32_t work_of)
{
    assert(role < r->role_count && work_of < r->role_count);
    return role == work_of || r->role_level[role] > r->role_level[work_of];
}

bool book_may_work(const book *r, uint32_t role, uint32_t work_of, const safety *s)
{
    return book_may(r, role, work_of) && (!safety_isolates(s) || r->authorised[role]);
}

uint32_t book_role_for(const book *r, uint32_t work_of, const safety *s)
{
    for (uint32_t i = 0; i < r->role_count; i++)
        if (book_may_work(r, i, work_of, s)) return i;
    return work_of;
}

double book_set_up_minutes(const book *b, const safety *s)
{
    double minutes = 0;
    for (uint32_t i = 0; i < s->procedure_count; i++)
        minutes += b->procedures[s->procedures[i]].minutes;
    return minutes;
}

uint32_t book_role(const book *r, str name)
{
    for (uint32_t i = 0; i < r->role_count; i++)
        if (str_eq(r->roles[i].name, name)) return i;
    return NO_ID;
}

uint32_t book_kind(const book *r, str name)
{
    return find(r->kinds, r->kind_count, sizeof *r->kinds, name);
}

uint32_t book_piece(const book *r, str name)
{
    for (uint32_t i = 0; i < r->piece_count; i++)
        if (str_eq(r->pieces[i].id.name, name)) return i;
    return NO_ID;
}

bool number_is_at(double number, double magnitude, double bound)
{
    if (!isfinite(bound)) return false; /* an open end: nothing is near it */
    double size = fmax(fabs(magnitude), fmax(fabs(number), fabs(bound)));
    return fabs(number - bound) <= FORMULA_ROUNDING * size;
}

bool interval_holds(const cond *c, double number, double magnitude)
{
    if (number_is_at(number, magnitude, c->low)) return c->low_in;
    if (number_is_at(number, magnitude, c->high)) return c->high_in;
    return number > c->low && number < c->high;
}

bool answers_as_before(const book *b, uint32_t question)
{
    return question > 0 && b->questions[question].answer_count > 0 &&
           b->questions[question].answers == b->questions[question - 1].answers;
}

bool answer_is_safe(const question *q, uint32_t answer)
{
    assert(q->gate && q->kind == QUESTION_CHOICE && answer < q->answer_count);
    return (q->safe_answers >> answer & 1) != 0;
}

static bool is_within_safe(const question *q, double number, double magnitude)
{
    const cond safe = {.low = q->safe_low,
                       .high = q->safe_high,
                       .low_in = q->safe_low_in,
                       .high_in = q->safe_high_in};
    return interval_holds(&safe, number, magnitude);
}

bool reading_is_safe(const question *q, double number, double magnitude)
{
    assert(q->gate && q->kind != QUESTION_CHOICE);
    return is_within_safe(q, number, magnitude);
}

/* Of a range with one end a tenth of that away, so that it reads like such a number. */
static double middle(double low, double high)
{
    const double end = isfinite(low) ? low : high, step = fabs(end) > 0 ? fabs(end) / 10 : 1;
    if (isfinite(low) && isfinite(high)) return low + (high - low) / 2;
    return !isfinite(end) ? 0 : isfinite(low) ? low + step : high - step;
}

double safe_number(const question *q)
{
    assert(q->kind != QUESTION_CHOICE);
    const double low = q->has_plausible ? fmax(q->safe_low, q->plausible_low) : q->safe_low,
                 high = q->has_plausible ? fmin(q->safe_high, q->plausible_high) : q->safe_high;
    if (q->kind != QUESTION_COUNT) return middle(low, high);
    double least = ceil(fmax(low, 0)); /* where the end itself is not safe, the next one is */
    if (!is_within_safe(q, least, 0)) least++;
    return is_within_safe(q, least, 0) && is_plausible(q, least) ? least : NAN;
}

bool is_plausible(const question *q, double number)
{
    if (!q->has_plausible) return true;
    return (number >= q->plausible_low || number_is_at(number, number, q->plausible_low)) &&
           (number <= q->plausible_high || number_is_at(number, number, q->plausible_high));
}

unit book_shown_unit(const book *r, const unit *in)
{
    for (uint32_t i = 0; i < r->shown_unit_count; i++)
        if (in->text.n > 0 && unit_fits(&r->shown_units[i], in)) return r->shown_units[i];
    return *in;
}

/* A reading off a gauge has few digits; many come from another unit that it was typed in (2.6 bar
 * are 37.70981181 psi). */
static bool is_as_read(double number)
{
    if (number == round(number)) return true;
    const double scaled =
        number * pow(10, 6 - floor(log10(fabs(number)))); /* seven digits before the point */
    return fabs(scaled - round(scaled)) < 1e-3;
}

str book_amount(arena *keep, const book *r, uint32_t question, double number, const unit *as)
{
    enum { AS_READ = 10, RECKONED = 4 };
    const struct question *q = &r->questions[question];
    unit shown = as != NULL ? *as : book_shown_unit(r, &q->in);
    bool same = str_eq(shown.text, q->in.text);
    /* Parts of water are few digits on every label, and a step of a dilution would make many. */
    bool ratio = unit_is_ratio(&shown);
    return amount_words(
        keep, same ? number : unit_convert(&q->in, &shown, number), &shown,
        same && !ratio && q->kind != QUESTION_QUANTITY && is_as_read(number) ? AS_READ : RECKONED);
}
