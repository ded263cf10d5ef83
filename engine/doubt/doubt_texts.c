/* What people read: questions that ask nothing, the same words twice, words left to be written, a
 * language that is missing. */
#include <assert.h>
#include <string.h>

#include "base/str_head.h"
#include "base/unicode.h"
#include "doubt/doubt.h"

/* ---- a question asks ---- */

static void doubt_question(const doubter *d, const question *q)
{
    const str ask = str_trim(texts_for(&q->ask, d->book->language));
    if (str_find_byte(ask, '?') != SIZE_MAX) return;
    fault *f =
        fault_add(d->list, FAULT_ASKS_NOTHING, q->ask.at,
                  "'%.*s' asks nothing: there is no question mark in it.", STR_ARG(q->of.base));
    fault_help(d->list, f, "Write it as a question, as it is asked at the equipment.");
}

/* ---- the same words twice ---- */

typedef struct worded {
    uint32_t chosen; /* among which */
    uint64_t head;
    str plain;
    const read_text *from;
} worded;

static int by_words(const void *left, const void *right)
{
    const worded *a = left, *b = right;
    if (a->chosen != b->chosen) return THREE_WAY(a->chosen, b->chosen);
    int order = str_cmp_headed(a->head, a->plain, b->head, b->plain);
    if (order == 0) order = THREE_WAY(a->from->at.file, b->from->at.file);
    return order != 0 ? order : THREE_WAY(a->from->at.start, b->from->at.start);
}

/* What people choose among; steps, looks and cautions may well say the same twice. */
static const char *const chosen[] = {"question", "cause", "symptom", "fix"};
enum { CHOSEN = sizeof chosen / sizeof *chosen };

/* CHOSEN: none of them. */
static uint32_t chosen_by(const char *what)
{
    uint32_t i = 0;
    while (i < CHOSEN && strcmp(what, chosen[i]) != 0) i++;
    return i;
}

static worded worded_of(const doubter *d, const read_text *t)
{
    const uint32_t among = chosen_by(t->what);
    const str plain = among == CHOSEN
                          ? STR("")
                          : unicode_plain(d->scratch, texts_for(t->text, d->book->language));
    return (worded){among, str_head(plain), plain, t};
}

static void doubt_same(const doubter *d, const read_list *all)
{
    assert(all->count > 0);
    worded *w = ARENA_ARRAY(d->scratch, worded, all->count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < all->count; i++) {
        w[count] = worded_of(d, &all->items[i]);
        count += w[count].chosen < CHOSEN;
    }
    SORT(w, count, by_words);
    for (uint32_t i = 1; i < count; i++) {
        const read_text *a = w[i - 1].from, *b = w[i].from;
        if (w[i - 1].chosen != w[i].chosen || !str_eq(w[i - 1].plain, w[i].plain) ||
            same_written(a->name, b->name) ||
            !can_hold(d, (const cond *const[]){a->only_when, b->only_when}, 2))
            continue;
        fault *f =
            fault_add(d->list, FAULT_SAME_TEXT, b->at,
                      "The %s%s '%.*s' and '%.*s' read the same, so nobody can tell which is "
                      "meant.",
                      b->what, str_ends(str_of(b->what), "x") ? "es" : "s", STR_ARG(a->name->name),
                      STR_ARG(b->name->name));
        fault_note_at(d->list, f, a->at, "the other one");
        fault_help(d->list, f, "Say in each what the other is not, or make one of them.");
    }
}

static void doubt_same_answers(const doubter *d, const question *q)
{
    const arena_mark before = arena_here(d->scratch);
    str *plain = ARENA_ARRAY(d->scratch, str, q->answer_count);
    for (uint32_t i = 0; i < q->answer_count && !q->yes_no; i++)
        plain[i] = unicode_plain(d->scratch, texts_for(&q->answers[i].text, d->book->language));
    for (uint32_t i = 0; i < q->answer_count && !q->yes_no; i++)
        for (uint32_t k = 0; k < i; k++) {
            if (plain[i].n == 0 || !str_eq(plain[i], plain[k])) continue;
            fault *f = fault_add(d->list, FAULT_SAME_TEXT, q->answers[i].id.at,
                                 "The answers '%.*s' and '%.*s' read the same.",
                                 STR_ARG(q->answers[k].id.name), STR_ARG(q->answers[i].id.name));
            fault_help(d->list, f, "Say in each what the other is not.");
        }
    arena_back_to(d->scratch, before);
}

/* ---- left to be written ---- */

/* In a text of words with one space between them. */
static size_t word_behind(str plain, size_t from)
{
    const size_t space = str_find_byte(str_slice(plain, from, plain.n), ' ');
    return space == SIZE_MAX ? plain.n : from + space + 1;
}

static bool stands_at(str plain, size_t from, const char *words)
{
    if (plain.p[from] != words[0] || !str_starts(str_slice(plain, from, plain.n), words))
        return false;
    const size_t end = from + strlen(words);
    return end == plain.n || plain.p[end] == ' ';
}

static bool is_unfinished(const doubter *d, str text)
{
    static const char *const marks[] = {"todo",  "tbd",           "fixme",     "xxx",
                                        "lorem", "to be written", "por hacer", NULL};
    const str plain = unicode_plain(d->scratch, text);
    for (size_t from = 0; from < plain.n; from = word_behind(plain, from))
        for (size_t i = 0; marks[i] != NULL; i++)
            if (stands_at(plain, from, marks[i])) return true;
    return str_find(text, STR("???")) != SIZE_MAX;
}

static void doubt_unfinished(const doubter *d, const read_text *r)
{
    assert(r->text->count > 0);
    const arena_mark before = arena_here(d->scratch);
    const bool unfinished = is_unfinished(d, texts_for(r->text, d->book->language));
    arena_back_to(d->scratch, before);
    if (!unfinished) return;
    fault *f = fault_add(d->list, FAULT_UNFINISHED, r->at,
                         "This text of '%.*s' is not written yet.", STR_ARG(r->name->name));
    fault_help(d->list, f, "Write it, or leave the entry out until it can be.");
}

/* ---- what fits a small screen, and can be read aloud ---- */

static void doubt_long(const doubter *d, const read_text *r)
{
    assert(r->text->count > 0);
    const bool answer = strcmp(r->what, "answer") == 0,
               spoken = strcmp(r->what, "question") == 0 || strcmp(r->what, "say") == 0;
    const size_t most = answer ? 90 : spoken ? 160 : 400;
    const str text = texts_for(r->text, d->book->language);
    const size_t letters = unicode_points(text);
    if (letters <= most) return;
    const char *what = strcmp(r->what, "say") == 0 ? "spoken question" : r->what;
    fault *f = fault_add(d->list, FAULT_TOO_LONG, r->at,
                         "This %s has %zu letters; more than %zu are hard to read on a telephone.",
                         what, letters, most);
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

/* A language in which this role can read most of what is its own: a book may well speak to its
 * attendants in two languages, and to its technicians in one. */
static bool is_language_of(const read_list *all, uint32_t role, str language)
{
    assert(language.n > 0);
    uint32_t with = 0, count = 0;
    for (uint32_t i = 0; i < all->count; i++) {
        if (all->items[i].role != role) continue;
        with += all->items[i].times * has_language(all->items[i].text, language);
        count += all->items[i].times;
    }
    return 2 * with > count;
}

static void doubt_translation(const doubter *d, const read_text *r, str language)
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

/* Whoever is asked in this language reads there whom to call. */
static void doubt_role(const doubter *d, uint32_t role, str language)
{
    if (d->book->role_text[role].count > 0) return; /* doubted with the other texts */
    const label *name = &d->book->roles[role];
    fault *f = fault_add(d->list, FAULT_NOT_TRANSLATED, name->at,
                         "The role '%.*s' is called by this name in '%.*s' too.",
                         STR_ARG(name->name), STR_ARG(language));
    fault_help(d->list, f, "Write it as {%.*s: {text: {%.*s: ..., %.*s: ...}}}.",
               STR_ARG(name->name), STR_ARG(d->book->language), STR_ARG(language));
}

static void doubt_language(const doubter *d, const read_list *all, str language)
{
    enum { LOWEST = 0 };
    if (is_language_of(all, LOWEST, language))
        for (uint32_t role = 0; role < d->book->role_count; role++) doubt_role(d, role, language);
    for (uint32_t role = 0; role < d->book->role_count; role++) {
        if (!is_language_of(all, role, language)) continue;
        for (uint32_t i = 0; i < all->count; i++)
            if (all->items[i].role == role) doubt_translation(d, &all->items[i], language);
    }
}

static void doubt_languages(const doubter *d, const read_list *all)
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
    for (uint32_t k = 0; k < count; k++) doubt_language(d, all, languages[k]);
}

void doubt_texts(const doubter *d)
{
    const read_list all = what_people_read(d);
    for (uint32_t i = 0; i < d->book->question_count; i++) {
        const question *q = &d->book->questions[i];
        if (!q->ours && !q->made && q->kind != QUESTION_QUANTITY) doubt_question(d, q);
        if (i == 0 || d->book->questions[i - 1].answers != q->answers) doubt_same_answers(d, q);
    }
    for (uint32_t i = 0; i < all.count; i++) {
        doubt_unfinished(d, &all.items[i]);
        doubt_long(d, &all.items[i]);
    }
    doubt_same(d, &all);
    doubt_languages(d, &all);
}
