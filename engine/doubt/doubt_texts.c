/* What people read: questions that ask nothing, the same words twice, words left to be written, a
 * language that is missing. */
#include <assert.h>
#include <string.h>

#include "base/sorted.h"
#include "base/unicode.h"
#include "doubt/doubt.h"

typedef struct reading { /* a text that people read */
    const texts *text;
    span at;
    const char *what;
    const label *name;
    const cond *only_when;
} reading;

typedef struct readings {
    reading *items;
    uint32_t count, room;
} readings;

static void add_text(readings *all, const texts *t, const char *what, const label *name)
{
    if (t->count == 0) return;
    assert(all->count < all->room);
    const span at = t->at.file == NO_FILE ? name->at : t->at;
    all->items[all->count++] = (reading){t, at, what, name, NULL};
}

static void add_list(readings *all, const texts_list *list, const char *what, const label *name)
{
    for (uint32_t i = 0; i < list->count; i++) add_text(all, &list->items[i], what, name);
}

static uint32_t most_texts(const book *b)
{
    uint32_t most = b->cause_count + b->symptom_count + 2 * b->rule_count + b->cautions.count + 2;
    for (uint32_t i = 0; i < b->question_count; i++) most += 3 + b->questions[i].answer_count;
    for (uint32_t i = 0; i < b->fix_count; i++) most += 2 + b->fixes[i].steps.count;
    return most;
}

static void add_text_when(readings *all, const texts *t, const char *what, const label *name,
                          const cond *only_when)
{
    const uint32_t before = all->count;
    add_text(all, t, what, name);
    if (all->count > before) all->items[before].only_when = only_when;
}

static readings all_texts(const doubter *d)
{
    static const label manifest = {{"book", 4}, {NO_FILE, 0, 0}};
    const book *b = d->book;
    readings all = {.room = most_texts(b)};
    all.items = ARENA_ARRAY(d->scratch, reading, all.room);
    for (uint32_t i = 0; i < b->question_count; i++) {
        const question *q = &b->questions[i];
        if (q->ours || q->made || q->kind == QUESTION_QUANTITY) continue;
        add_text_when(&all, &q->ask, "question", &q->id, q->only_when);
        add_text(&all, &q->look, "look", &q->id);
        add_text(&all, &q->say, "say", &q->id);
        for (uint32_t k = 0; k < q->answer_count && !q->yes_no; k++)
            add_text(&all, &q->answers[k].text, "answer", &q->answers[k].id);
    }
    for (uint32_t i = 0; i < b->cause_count; i++)
        add_text_when(&all, &b->causes[i].text, "cause", &b->causes[i].id, b->causes[i].only_when);
    for (uint32_t i = 0; i < b->symptom_count; i++)
        if (!b->symptoms[i].from_confirms)
            add_text(&all, &b->symptoms[i].text, "symptom", &b->symptoms[i].id);
    for (uint32_t i = 0; i < b->fix_count; i++) {
        add_text_when(&all, &b->fixes[i].text, "fix", &b->fixes[i].id, b->fixes[i].only_when);
        add_list(&all, &b->fixes[i].steps, "step", &b->fixes[i].id);
    }
    for (uint32_t i = 0; i < b->rule_count; i++)
        add_text(&all, &b->rules[i].caution, "caution", &b->rules[i].id);
    add_list(&all, &b->cautions, "caution", &manifest);
    return all;
}

/* ---- a question asks ---- */

static void doubt_question(const doubter *d, const question *q)
{
    const str ask = str_trim(texts_for(&q->ask, d->book->language));
    if (ask.n == 0 || str_find_byte(ask, '?') != SIZE_MAX) return;
    fault *f =
        fault_add(d->list, FAULT_ASKS_NOTHING, q->ask.at,
                  "'%.*s' asks nothing: there is no question mark in it.", STR_ARG(q->of.base));
    fault_help(d->list, f, "Write it as a question, as it is asked at the equipment.");
}

/* ---- the same words twice ---- */

typedef struct worded {
    str plain;
    const reading *from;
} worded;

static int by_words(const void *left, const void *right)
{
    const worded *a = left, *b = right;
    int order = strcmp(a->from->what, b->from->what);
    if (order == 0) order = str_cmp(a->plain, b->plain);
    if (order == 0) order = THREE_WAY(a->from->at.file, b->from->at.file);
    return order != 0 ? order : THREE_WAY(a->from->at.start, b->from->at.start);
}

static bool told_apart_by(const char *what)
{
    return strcmp(what, "step") != 0 && strcmp(what, "look") != 0 && strcmp(what, "say") != 0 &&
           strcmp(what, "answer") != 0 &&
           strcmp(what, "caution") != 0; /* several rules may give one caution */
}

static void doubt_same(const doubter *d, const readings *all)
{
    assert(all->count <= all->room);
    worded *w = ARENA_ARRAY(d->scratch, worded, all->count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < all->count; i++)
        if (told_apart_by(all->items[i].what))
            w[count++] = (worded){
                unicode_plain(d->scratch, texts_for(all->items[i].text, d->book->language)),
                &all->items[i]};
    SORT(w, count, by_words);
    for (uint32_t i = 1; i < count; i++) {
        const reading *a = w[i - 1].from, *b = w[i].from;
        if (strcmp(a->what, b->what) != 0 || !str_eq(w[i - 1].plain, w[i].plain) ||
            same_written(a->name, b->name) ||
            !can_hold(d, (const cond *const[]){a->only_when, b->only_when}, 2))
            continue;
        fault *f =
            fault_add(d->list, FAULT_SAME_TEXT, b->at,
                      "The %ss '%.*s' and '%.*s' read the same, so nobody can tell which is meant.",
                      b->what, STR_ARG(a->name->name), STR_ARG(b->name->name));
        fault_note_at(d->list, f, a->at, "the other one");
        fault_help(d->list, f, "Say in each what the other is not, or make one of them.");
    }
}

static void doubt_same_answers(const doubter *d, const question *q)
{
    for (uint32_t i = 0; i < q->answer_count && !q->yes_no; i++)
        for (uint32_t k = 0; k < i; k++) {
            const str a = unicode_plain(d->scratch,
                                        texts_for(&q->answers[i].text, d->book->language)),
                      b = unicode_plain(d->scratch,
                                        texts_for(&q->answers[k].text, d->book->language));
            if (a.n == 0 || !str_eq(a, b)) continue;
            fault *f = fault_add(d->list, FAULT_SAME_TEXT, q->answers[i].id.at,
                                 "The answers '%.*s' and '%.*s' read the same.",
                                 STR_ARG(q->answers[k].id.name), STR_ARG(q->answers[i].id.name));
            fault_help(d->list, f, "Say in each what the other is not.");
        }
}

/* ---- left to be written ---- */

static bool is_unfinished(const doubter *d, str text)
{
    static const char *const marks[] = {"todo",  "tbd",           "fixme",     "xxx",
                                        "lorem", "to be written", "por hacer", NULL};
    const str plain = unicode_plain(d->scratch, text),
              spaced = str_printf(d->scratch, " %.*s ", STR_ARG(plain));
    for (size_t i = 0; marks[i] != NULL; i++)
        if (str_find(spaced, str_printf(d->scratch, " %s ", marks[i])) != SIZE_MAX) return true;
    return str_find(text, STR("???")) != SIZE_MAX;
}

static void doubt_unfinished(const doubter *d, const reading *r)
{
    assert(r->text->count > 0);
    if (!is_unfinished(d, texts_for(r->text, d->book->language))) return;
    fault *f = fault_add(d->list, FAULT_UNFINISHED, r->at,
                         "This text of '%.*s' is not written yet.", STR_ARG(r->name->name));
    fault_help(d->list, f, "Write it, or leave the entry out until it can be.");
}

/* ---- what fits a small screen, and can be read aloud ---- */

static void doubt_long(const doubter *d, const reading *r)
{
    assert(r->text->count > 0);
    const bool answer = strcmp(r->what, "answer") == 0,
               spoken = strcmp(r->what, "question") == 0 || strcmp(r->what, "say") == 0;
    const size_t most = answer ? 90 : spoken ? 160 : 400;
    const str text = texts_for(r->text, d->book->language);
    if (text.n <= most) return;
    fault *f = fault_add(d->list, FAULT_TOO_LONG, r->at,
                         "This %s has %zu letters; more than %zu are hard to read on a telephone.",
                         r->what, text.n, most);
    fault_help(d->list, f,
               answer
                   ? "Say it shorter; what else people call it belongs under 'heard'."
                   : "Say one thing; how to look belongs under 'look', what to do into 'steps'.");
}

/* ---- languages ---- */

static bool has_language(const texts *t, str language)
{
    for (uint32_t i = 0; i < t->count; i++)
        if (str_eq(t->items[i].language, language)) return true;
    return false;
}

/* A language in which most of the book can be read. */
static bool is_language_of(const readings *all, str language)
{
    assert(language.n > 0);
    uint32_t with = 0;
    for (uint32_t i = 0; i < all->count; i++) with += has_language(all->items[i].text, language);
    return 2 * with > all->count;
}

static void doubt_translation(const doubter *d, const reading *r, str language)
{
    assert(language.n > 0);
    if (!has_language(r->text, language)) {
        fault *f = fault_add(d->list, FAULT_NOT_TRANSLATED, r->at,
                             "This text of '%.*s' is not there in '%.*s', as others are.",
                             STR_ARG(r->name->name), STR_ARG(language));
        fault_help(d->list, f, "Write it as {%.*s: ..., %.*s: ...}.", STR_ARG(d->book->language),
                   STR_ARG(language));
        return;
    }
    const str here = texts_for(r->text, language), first = texts_for(r->text, d->book->language);
    if (here.n < 12 || !str_eq(here, first)) return;
    fault *f = fault_add(d->list, FAULT_NOT_TRANSLATED, r->at,
                         "This text of '%.*s' says the same words in '%.*s'.",
                         STR_ARG(r->name->name), STR_ARG(language));
    fault_help(d->list, f, "Translate it.");
}

static void doubt_languages(const doubter *d, const readings *all)
{
    enum { LANGUAGES_MAX = 16 };
    str languages[LANGUAGES_MAX];
    uint32_t count = 0;
    for (uint32_t i = 0; i < all->count; i++)
        for (uint32_t k = 0; k < all->items[i].text->count; k++) {
            const str language = all->items[i].text->items[k].language;
            bool seen = str_eq(language, d->book->language) || count == LANGUAGES_MAX;
            for (uint32_t j = 0; j < count; j++) seen = seen || str_eq(languages[j], language);
            if (!seen) languages[count++] = language;
        }
    for (uint32_t k = 0; k < count; k++)
        for (uint32_t i = 0; is_language_of(all, languages[k]) && i < all->count; i++)
            doubt_translation(d, &all->items[i], languages[k]);
}

void doubt_texts(const doubter *d)
{
    const readings all = all_texts(d);
    for (uint32_t i = 0; i < d->book->question_count; i++) {
        const question *q = &d->book->questions[i];
        if (!q->ours && !q->made && q->kind != QUESTION_QUANTITY) doubt_question(d, q);
        doubt_same_answers(d, q);
    }
    for (uint32_t i = 0; i < all.count; i++) {
        doubt_unfinished(d, &all.items[i]);
        doubt_long(d, &all.items[i]);
    }
    doubt_same(d, &all);
    doubt_languages(d, &all);
}
