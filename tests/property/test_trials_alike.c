/* Worked cases played the quick ways against the slow one, which makes a new case for each and
 * writes all its words: one after the other in the same room, and shared out between two threads.
 * And after random edits of a book, what is said to come out as before does. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "luck.h"
#include "rule_kit.h"
#include "shipped_books.h"

static void same(const tt_trial *a, const tt_trial *b)
{
    assert_string_equal(a->name, b->name);
    assert_string_equal(a->at, b->at);
    assert_string_equal(a->why, b->why);
    assert_string_equal(a->leads, b->leads);
    assert_memory_equal(&a->chance, &b->chance, sizeof a->chance);
    assert_int_equal(a->rank, b->rank);
    assert_int_equal(a->fix, b->fix);
}

/* ---- shared out ---- */

typedef struct table {
    pthread_mutex_t lock;
    uint32_t given, count, told;
    const tt_trial *items; /* as they must come out */
} table;

typedef struct seat {
    table *at;
    tt_book *book;
    pthread_t thread;
    bool sits;
} seat;

static bool next(void *context, uint32_t *index)
{
    table *t = context;
    pthread_mutex_lock(&t->lock);
    *index = t->given;
    const bool any = t->given < t->count;
    t->given += any;
    pthread_mutex_unlock(&t->lock);
    return any;
}

static void told(void *context, uint32_t index, const tt_trial *trial)
{
    table *t = context;
    pthread_mutex_lock(&t->lock);
    same(trial, &t->items[index]);
    t->told++;
    pthread_mutex_unlock(&t->lock);
}

static void *play(void *context)
{
    seat *s = context;
    s->sits = tt_try_shared(s->book, &(tt_sharing){s->at, next, told}) == TT_OK;
    return NULL;
}

static void share(tt_book *book, const tt_trials *all)
{
    table t = {.lock = PTHREAD_MUTEX_INITIALIZER, .count = all->count, .items = all->items};
    seat here = {.at = &t, .book = book}, there = {.at = &t};
    assert_int_equal(tt_book_beside(book, &there.book), TT_OK);
    assert_int_equal(pthread_create(&there.thread, NULL, play, &there), 0);
    play(&here);
    pthread_join(there.thread, NULL);
    tt_book_free(there.book);
    assert_true(here.sits && there.sits);
    assert_int_equal(t.told, all->count);
    pthread_mutex_destroy(&t.lock);
}

static void quick_ways_come_out_as_the_slow_one(void **state)
{
    (void)state;
    arena *scratch = arena_new(NULL, NULL);
    shipped_book all[SHIPPED_MOST];
    const uint32_t count = shipped_books(scratch, all);
    for (uint32_t k = 0; k < count; k++) {
        tt_book *book = shipped_load(scratch, &all[k]);
        tt_trials quick;
        assert_int_equal(tt_try(book, &quick), TT_OK);
        assert_true(quick.count > 0);
        for (uint32_t i = 0; i < quick.count; i++) {
            tt_trial slow;
            tt_case *c;
            assert_int_equal(tt_try_case(book, i, &slow, &c), TT_OK);
            same(&quick.items[i], &slow);
            tt_case_free(c);
        }
        share(book, &quick);
        tt_book_free(book);
    }
    arena_free(scratch);
}

/* ---- what comes out as before ---- */

static const char rules[] =
    "book:\n  title: T\n  roles: [helper]\n"
    "questions:\n"
    "  drip:\n    ask: Does it drip?\n"
    "  hum:\n    ask: Does it hum?\n"
    "symptoms:\n"
    "  drips:\n    text: It drips\n    when: {drip: yes}\n    shown-by: {worn: 90 %, loose: 20 %}\n"
    "  hums:\n    text: It hums\n    when: {hum: yes}\n    shown-by: {loose: 80 %, worn: 30 %}\n"
    "causes:\n  loose:\n    text: Loose\n  worn:\n    text: Worn\n"
    "fixes:\n"
    "  tighten:\n    text: Tighten it\n    role: helper\n    cures: {loose: usually}\n    harm: "
    "none\n    put-back: not needed\n"
    "  renew:\n    text: Renew it\n    role: helper\n    cures: {worn: usually}\n    harm: none\n  "
    "  put-back: not needed\n";
static const char cases[] =
    "cases:\n"
    "  one:\n    answers: {drip: yes}\n    expect: {leading-cause: worn}\n"
    "  two:\n    answers: {hum: yes}\n    expect: {leading-cause: loose}\n"
    "  three:\n    answers: {drip: yes, hum: yes}\n    expect: {leading-cause: worn}\n";

typedef struct edit_of {
    const char *file, *from, *to;
    const char *alike; /* names that come out as before */
    const char * or ;  /* null: these; else, where it is known what each case told */
} edit_of;

static const edit_of edits[] = {
    {"rules.yaml", "questions:\n", "# a word\nquestions:\n", "one two three ", NULL},
    {"rules.yaml", "  hum:\n    ask: Does it hum?\n", "  hum: {ask: \"Does it hum?\"}\n", "", NULL},
    {"rules.yaml", "worn: 90 %", "worn: 50 %", "", "two "},
    {"rules.yaml", "loose: 80 %", "loose: seldom", "", "one "},
    {"rules.yaml", "Tighten it", "Tighten it well", "", NULL},
    {"rules.yaml", "worn: 90 %", "worn:   90 %", "one two three ", NULL},
    {"cases.yaml", "cases:\n", "cases:\n\n# a word\n\n", "one two three ", NULL},
    {"cases.yaml", "  two:\n    answers: {hum: yes}", "  two:\n    answers: {hum: no}",
     "one three ", NULL},
    {"cases.yaml", "  two:", "  other-two:", "one three ", NULL},
    {"cases.yaml",
     "  three:\n    answers: {drip: yes, hum: yes}\n    expect: {leading-cause: worn}\n", "",
     "one two ", NULL},
    {"cases.yaml",
     "  two:", "  zero:\n    answers: {hum: yes}\n    expect: {leading-cause: worn}\n  two:",
     "one two three ", NULL},
    {"cases.yaml", "cases:\n", "questions:\n  wet:\n    ask: Is it wet?\ncases:\n", "", NULL},
};
enum { EDITS = sizeof edits / sizeof edits[0] };

static tt_book *load(const char *of_rules, const char *of_cases)
{
    const tt_source files[] = {{"cases.yaml", of_cases, strlen(of_cases)},
                               {"rules.yaml", of_rules, strlen(of_rules)}};
    tt_book *book;
    tt_report *report;
    if (tt_book_load(files, 2, &book, &report) != TT_OK) fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    return book;
}

static const char *edited(const char *text, const edit_of *e, char *room, size_t size)
{
    const char *at = strstr(text, e->from);
    assert_non_null(at);
    snprintf(room, size, "%.*s%s%s", (int)(at - text), text, e->to, at + strlen(e->from));
    return room;
}

/* By name, as the edits tell them. */
static void names_alike(const tt_case_alike *alike, const tt_trials *new, char *names, size_t size)
{
    names[0] = 0;
    for (const char *n = "one two three "; *n != 0;) {
        const size_t length = strcspn(n, " ");
        for (uint32_t i = 0; i < new->count; i++)
            if (strlen(new->items[i].name) == length &&
                memcmp(new->items[i].name, n, length) == 0 && alike[i].before != TT_NONE)
                strncat(names, n,
                        size - strlen(names) - 1 < length + 1 ? size - strlen(names) - 1
                                                              : length + 1);
        n += length + 1;
    }
}

static const tt_grounds *grounds_of(arena *keep, const tt_trials *all)
{
    tt_grounds *grounds = ARENA_ARRAY(keep, tt_grounds, all->count);
    for (uint32_t i = 0; i < all->count; i++) grounds[i] = all->items[i].grounds;
    return grounds;
}

/* Whatever is said to come out as before does so. Returns how many. */
static uint32_t all_come_out_so(const tt_case_alike *alike, const tt_trials *old,
                                const tt_trials *new)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < new->count; i++) {
        assert_string_equal(alike[i].at, new->items[i].at);
        if (alike[i].before == TT_NONE) continue;
        tt_trial was = old->items[alike[i].before];
        was.at = alike[i].at; /* lines may have moved */
        same(&was, &new->items[i]);
        count++;
    }
    return count;
}

static void alike_as_said(const edit_of *e, tt_book *before, tt_book *now)
{
    tt_trials old, new;
    char names[64];
    assert_int_equal(tt_try(before, &old), TT_OK);
    assert_int_equal(tt_try(now, &new), TT_OK);
    for (int known = 0; known < 2; known++) {
        arena *keep = arena_new(NULL, NULL);
        const tt_case_alike *alike;
        assert_int_equal(tt_cases_alike(now, before, known ? grounds_of(keep, &old) : NULL, &alike),
                         TT_OK);
        all_come_out_so(alike, &old, &new);
        names_alike(alike, &new, names, sizeof names);
        assert_string_equal(names, known && e->or != NULL ? e->or : e->alike);
        arena_free(keep);
    }
}

static void cases_are_alike_only_where_nothing_else_is_written(void **state)
{
    (void)state;
    char room[2048];
    for (uint32_t i = 0; i < EDITS; i++) {
        const bool in_rules = strcmp(edits[i].file, "rules.yaml") == 0;
        tt_book *before = load(rules, cases);
        const char *text = edited(in_rules ? rules : cases, &edits[i], room, sizeof room);
        tt_book *now = in_rules ? load(text, cases) : load(rules, text);
        alike_as_said(&edits[i], before, now);
        alike_as_said(&(edit_of){.alike = "one two three "}, before, before);
        tt_book_free(before);
        tt_book_free(now);
    }
}

/* ---- numbers of the shipped books, turned into others ---- */

/* Where a number of per cent stands in the text; false: none from there on. */
static bool find_number(str text, size_t from, size_t *start, size_t *end)
{
    for (size_t i = from; i + 2 < text.n; i++) {
        if (text.p[i] != ' ' || text.p[i + 1] != '%' || i == 0) continue;
        size_t first = i;
        while (first > 0 && text.p[first - 1] >= '0' && text.p[first - 1] <= '9') first--;
        if (first == i) continue;
        *start = first;
        *end = i;
        return true;
    }
    return false;
}

static str with_number(arena *keep, str text, size_t start, size_t end, uint32_t percent)
{
    return str_printf(keep, "%.*s%u%.*s", (int)start, text.p, percent, (int)(text.n - end),
                      text.p + end);
}

/* As the bench loads it after the edit; what is said of it is what is said of one loaded anew. */
static tt_book *loaded_or_null(arena *scratch, const shipped_book *shipped, const tt_book *before,
                               uint32_t file, str other)
{
    tt_book *book, *anew;
    tt_report *report, *of_anew;
    tt_source *files = ARENA_ARRAY(scratch, tt_source, shipped->files.count);
    for (uint32_t i = 0; i < shipped->files.count; i++) {
        const source *f = &shipped->files.items[i];
        files[i] = (tt_source){f->name.p, i == file ? other.p : f->bytes.p,
                               i == file ? other.n : f->bytes.n};
    }
    const tt_status status =
        tt_book_load_again(files, shipped->files.count, before, &book, &report);
    assert_int_equal(status, tt_book_load(files, shipped->files.count, &anew, &of_anew));
    assert_string_equal(tt_report_text(report), tt_report_text(of_anew));
    tt_report_free(report);
    tt_report_free(of_anew);
    tt_book_free(anew);
    return book;
}

/* Returns how many cases came out as before, as was said; 0: the edit is no book. */
static uint32_t number_turned(arena *scratch, const shipped_book *shipped, tt_book *before,
                              const tt_trials *old, uint64_t *random)
{
    const uint32_t file = luck_below(random, shipped->files.count);
    const str text = shipped->files.items[file].bytes;
    size_t start, end;
    if (!find_number(text, luck_below(random, (uint32_t)text.n), &start, &end)) return 0;
    tt_book *now =
        loaded_or_null(scratch, shipped, before, file,
                       with_number(scratch, text, start, end, 1 + luck_below(random, 98)));
    if (now == NULL) return 0;
    tt_trials new;
    const tt_case_alike *alike;
    assert_int_equal(tt_try(now, &new), TT_OK);
    assert_int_equal(tt_cases_alike(now, before, grounds_of(scratch, old), &alike), TT_OK);
    const uint32_t count = all_come_out_so(alike, old, &new);
    tt_book_free(now);
    return count;
}

static void turned_numbers_move_only_cases_that_rest_on_them(void **state)
{
    (void)state;
    const char *set = getenv("TT_NUMBERS");
    const uint32_t edits_wanted = set != NULL ? (uint32_t)strtoul(set, NULL, 10) : 1;
    uint64_t random = 20261130;
    arena *scratch = arena_new(NULL, NULL);
    shipped_book all[SHIPPED_MOST];
    const uint32_t count = shipped_books(scratch, all);
    uint32_t alike = 0;
    for (uint32_t k = 0; k < count; k++) {
        tt_book *before = shipped_load(scratch, &all[k]);
        tt_trials old;
        assert_int_equal(tt_try(before, &old), TT_OK);
        for (uint32_t done = 0, tried = 0; done < edits_wanted && tried < 20 * edits_wanted;
             tried++) {
            const uint32_t said = number_turned(scratch, &all[k], before, &old, &random);
            done += said > 0;
            alike += said;
        }
        tt_book_free(before);
    }
    printf("%u cases were said to come out as before, and did\n", alike);
    assert_true(alike > 50);
    arena_free(scratch);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quick_ways_come_out_as_the_slow_one),
        cmocka_unit_test(cases_are_alike_only_where_nothing_else_is_written),
        cmocka_unit_test(turned_numbers_move_only_cases_that_rest_on_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
