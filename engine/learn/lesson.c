/* What was learned: numbers in words, edits to the files, and the book with them. */
#include "learn/learning.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/sorted.h"
#include "base/written.h"
#include "revise/edit_list.h"

/* ---- what is to be written ---- */

/* So many digits as tell the chance, or what is missing to 100 %, apart. */
static const char *percent_text(tt_learning *l, double chance, int digits)
{
    assert(chance >= 0 && chance <= 1 && digits > 0);
    double least = 100 * fmin(chance, 1 - chance);
    int decimals = digits - 1 - (int)floor(log10(fmax(least, 1e-4)));
    return str_printf(l->shown, "%.*f %%", decimals < 0 ? 0 : decimals, 100 * chance).p;
}

static const char *weight_text(tt_learning *l, double weight, int digits)
{
    assert(weight > 0 && digits > 0);
    int decimals = digits - (int)floor(log10(weight));
    return str_printf(l->shown, "%.*f", decimals < 0 ? 0 : decimals, weight).p;
}

/* Less than a tenth of what it leaves open is no news: the author's word is better to read than a
 * number as good. */
static bool is_news(const number *n)
{
    return fabs(n->count.mean - n->count.written) >= (n->is.high - n->is.low) / 10;
}

static bool is_outside(const number *n)
{
    return n->count.written < n->is.low || n->count.written > n->is.high;
}

/* A number left out counts with what stands for it, so a text that says the same changes nothing.
 */
static double written_value(const tt_learning *l, const number *n)
{
    const book *b = l->book->book;
    if (n->kind == TT_OTHERWISE) return b->symptoms[n->symptom].otherwise;
    if (n->kind == TT_HOW_OFTEN) return n->weight;
    if (n->kind == TT_DONE_WRONGLY)
        return n->fix != NO_ID ? b->fixes[n->fix].done_wrongly : b->done_wrongly;
    if (n->kind == TT_COMES_BACK)
        return n->cause != NO_ID ? b->causes[n->cause].comes_back : b->comes_back;
    if (n->kind == TT_MISLEADS) return b->instruments[n->instrument].wrong;
    const struct symptom *s = &b->symptoms[n->symptom];
    for (uint32_t i = 0; i < s->shown_by_count; i++)
        if (s->shown_by[i].cause == n->cause) return s->shown_by[i].chance;
    return 0;
}

/* How often as it is written: of a cause at each piece of equipment it is the kind's, unless it is
 * said of each. */
static double written_weight(const tt_learning *l, const number *n)
{
    assert(n->kind == TT_HOW_OFTEN && n->cause != NO_ID);
    const struct cause *c = &l->book->book->causes[n->cause];
    return c->each ? c->how_often : n->weight;
}

/* A cause without a case stays as it is written, unless it was to be expected more or less often
 * than that in the cases there are: no season, no site speaks for it or against it. */
static const char *often_text(tt_learning *l, const number *n, int digits)
{
    const uint32_t entry = (uint32_t)(n - l->numbers);
    const double weight = l->shares->weight[entry];
    assert(entry < l->cause_entries && n->weight > 0);
    if (n->count.cases <= 0) {
        const double kept = n->count.mean * n->weight / weight;
        if (fabs(kept - n->count.mean) < (n->is.high - n->is.low) / 10) return "";
    }
    return weight_text(l, written_weight(l, n) * weight / n->weight, digits);
}

const char *learned_text(tt_learning *l, const number *n, int digits)
{
    if (n->kind == TT_HOW_OFTEN) return often_text(l, n, digits);
    if (n->kind == TT_ANSWERS_COUNT)
        return is_outside(n) ? percent_text(l, n->count.mean, digits) : "";
    if (n->kind == TT_COMES_AND_GOES)
        return learned_passing(n->passing) ? percent_text(l, n->count.mean, digits) : "";
    if (n->count.of <= 0) return "";
    const bool with_looks = n->passing != NULL && learned_passing(n->passing);
    if (!is_news(n) && !with_looks) return "";
    /* The language takes no more: what is done wrongly so often is to be looked into, not to be
     * tried. */
    const double most = n->kind == TT_DONE_WRONGLY ? DONE_WRONGLY_MOST : 1;
    const char *text = percent_text(l, fmin(n->count.mean, most), digits);
    return strtod(text, NULL) == strtod(percent_text(l, written_value(l, n), digits), NULL) ? ""
                                                                                            : text;
}

/* ---- edits ---- */

/* Where the chance stands by itself, both are written in its place. */
static bool edit_passing(tt_learning *l, edit_list *e, const number *n, int digits)
{
    if (n->passing == NULL || !learned_passing(n->passing)) return false;
    const number *shown = learning_number_at(l, TT_SHOWN_BY, n->key),
                 *looks = learning_number_at(l, TT_COMES_AND_GOES, n->key);
    const char *chance = percent_text(l, shown->count.mean, digits),
               *share = percent_text(l, looks->count.mean, digits);
    const rate *r = looks->rate;
    if (r->looks_in == NULL && n == looks)
        edit_at(e, r->said,
                str_printf(l->shown, "{chance: %s, comes-and-goes: %s}", chance, share).p);
    if (r->looks_in == NULL) return true;
    if (n == shown)
        edit_at(e, r->said, chance);
    else if (r->looks_said.file != NO_FILE)
        edit_at(e, r->looks_said, share);
    else
        edit_add_key(e, r->looks_in, "chance", "comes-and-goes", share);
    return true;
}

static void edit_number(tt_learning *l, edit_list *e, const number *n, int digits)
{
    if (edit_passing(l, e, n, digits)) return;
    const char *text = learned_text(l, n, digits);
    if (*text == 0) return;
    if (n->said.file != NO_FILE)
        edit_at(e, n->said, text);
    else if (n->kind == TT_HOW_OFTEN)
        edit_add_key(e, n->body, "text", "how-often", text);
    else if (n->kind == TT_ANSWERS_COUNT)
        edit_add_key(e, n->body, "roles", "answers-count", text);
    else if (n->kind == TT_DONE_WRONGLY)
        edit_add_key(e, n->body, "roles", "done-wrongly", text);
    else if (n->kind == TT_COMES_BACK)
        edit_add_key(e, n->body, "roles", "comes-back", text);
    else
        edit_add_key(e, n->body, "shown-by", "otherwise", text);
}

const tt_edit *learned_edits(tt_learning *l, const char *until, int digits, uint32_t *count)
{
    const book *b = l->book->book;
    edit_list e = {.keep = l->shown, .sources = l->sources, .source_count = l->source_count};
    for (uint32_t i = 0; i < l->number_count; i++) edit_number(l, &e, &l->numbers[i], digits);
    *count = e.count;
    if (e.count == 0) return e.items;
    if (b->learned_until_said.file != NO_FILE)
        edit_at(&e, b->learned_until_said, until);
    else
        edit_add_key(&e, b->manifest, "title", "learned-until", until);
    edit_sort(&e);
    assert(e.count <= l->number_count + 1);
    *count = e.count;
    return e.items;
}

/* ---- the lesson ---- */

static const char *names_text(tt_learning *l, const texts *t)
{
    return cstr(l->shown, texts_for(t, l->book->book->language));
}

/* A symptom written without a text reads as the answer that it rests on. */
static const char *symptom_text(tt_learning *l, const struct symptom *s)
{
    const texts *own = s->of_any.count > 0 ? &s->of_any : &s->text;
    if (own->count > 0 || !s->rests_on_one) return names_text(l, own);
    return names_text(l, &l->book->book->questions[s->one_question].answers[s->one_answer].text);
}

static tt_learned learned_item(tt_learning *l, const number *n, int digits)
{
    const book *b = l->book->book;
    const struct cause *c = n->cause != NO_ID ? &b->causes[n->cause] : NULL;
    const struct symptom *s = n->symptom != NO_ID ? &b->symptoms[n->symptom] : NULL;
    const struct fix *f = n->fix != NO_ID ? &b->fixes[n->fix] : NULL;
    tt_learned t = {.kind = n->kind,
                    .cause = "",
                    .cause_text = "",
                    .symptom = "",
                    .symptom_text = "",
                    .fix = "",
                    .fix_text = "",
                    .instrument = "",
                    .instrument_text = "",
                    .written = cstr(l->shown, written_at(b->files, n->said)),
                    .proposed = learned_text(l, n, digits),
                    .at =
                        place_words(l->shown, l->book, n->said.file != NO_FILE ? n->said : n->key),
                    .before = n->count.written,
                    .after = n->is.mean,
                    .low = n->is.low,
                    .high = n->is.high,
                    .cases = n->count.cases,
                    .of = n->count.of};
    t.outside = is_outside(n);
    if (c != NULL) {
        t.cause = cstr(l->shown, c->of.base.n > 0 ? c->of.base : c->id.name);
        t.cause_text = c->of.piece == NO_ID ? names_text(l, &c->text)
                                            : t.cause; /* a text of one piece would mislead */
    }
    if (f != NULL) {
        t.fix = cstr(l->shown, f->of.base.n > 0 ? f->of.base : f->id.name);
        t.fix_text = f->of.piece == NO_ID ? names_text(l, &f->text) : t.fix;
    }
    if (n->instrument != NO_ID) {
        t.instrument = cstr(l->shown, b->instruments[n->instrument].id.name);
        t.instrument_text = names_text(l, &b->instruments[n->instrument].text);
    }
    if (s != NULL) {
        t.symptom = cstr(l->shown, s->of.base.n > 0 ? s->of.base : s->id.name);
        t.symptom_text = symptom_text(l, s);
    }
    return t;
}

static void list_items(tt_learning *l, int digits)
{
    tt_learned *items = ARENA_ARRAY(l->shown, tt_learned, l->number_count);
    for (uint32_t i = 0; i < l->number_count; i++) {
        const number *n = &l->numbers[i];
        bool counted = n->kind == TT_HOW_OFTEN
                           ? n->count.cases > 0 || *learned_text(l, n, digits) != 0
                           : n->count.of > 0;
        if (counted) items[l->lesson.count++] = learned_item(l, n, digits);
    }
    l->lesson.items = items;
}

enum { DIGITS_USUAL = 2, DIGITS_MOST = 5 };

typedef struct looking {
    tt_learning *l;
    const char *until;
    int digits;
} looking;

static tt_status look(void *context)
{
    const looking *at = context;
    tt_learning *l = at->l;
    arena_back_to(l->shown, (arena_mark){NULL, 0});
    l->lesson = (tt_lesson){.cases = l->cases,
                            .causes = l->cause_entries,
                            .handed_over = l->ended[LEARN_HANDED_OVER],
                            .handed_over_confirmed = l->confirmed[LEARN_HANDED_OVER],
                            .cases_wanted = LEARN_CASES_A_CAUSE * l->cause_entries,
                            .sources = l->sources,
                            .source_count = l->source_count};
    if (l->cases < l->lesson.cases_wanted) return TT_OK;
    if (at->digits == DIGITS_USUAL) learning_settle(l);
    l->lesson.handed_over_counts = l->each.of[LEARN_HANDED_OVER] / l->each.of[LEARN_CURED];
    l->lesson.handed_over_held = l->each.held;
    list_items(l, at->digits);
    l->lesson.edits = learned_edits(l, at->until, at->digits, &l->lesson.edit_count);
    l->lesson.sources = edited_sources(l->shown, l->sources, l->source_count, l->lesson.edits,
                                       l->lesson.edit_count);
    return TT_OK;
}

/* Rounded numbers may add up to more than all; then a digit more is written. */
static tt_status look_with(tt_learning *l, const char *until, int digits)
{
    tt_report *report = NULL;
    tt_book_free(l->lesson.book);
    l->lesson.book = NULL;
    tt_status status =
        guarded((arena *[]){l->keep, l->shown, l->scratch}, 3, look, &(looking){l, until, digits});
    if (status != TT_OK || l->lesson.edit_count == 0) return status;
    status = tt_book_load(l->lesson.sources, l->lesson.source_count, &l->lesson.book, &report);
    uint32_t warnings = status == TT_NO_MEMORY ? 0 : tt_report_warnings(report);
    l->lesson.new_warnings = warnings > l->warnings ? warnings - l->warnings : 0;
    tt_report_free(report);
    return status;
}

tt_status tt_learning_look(tt_learning *l, const char *until, const tt_lesson **out)
{
    tt_status status = TT_OK;
    int digits = DIGITS_USUAL;
    do status = look_with(l, until, digits);
    while (status == TT_OK && l->lesson.new_warnings > 0 && ++digits <= DIGITS_MOST);
    *out = status == TT_OK ? &l->lesson : NULL;
    return status;
}
