/* Every name of our books given another and its own back: the bytes are what they were, and in
 * between the book's worked cases come out as before. */
#include <stdio.h>
#include <stdlib.h>

#include "base/sorted.h"
#include "load/nodes.h"
#include "read/book_read.h"
#include "shipped_books.h"
#include "telltale.h"
#include "test_sources.h"
#include "testing.h"

/* Of a large book every so many; the next run of the suite takes the same. */
#ifdef __SANITIZE_ADDRESS__
enum { LARGE = 300, EACH = 211 }; /* ten times slower */
#else
enum { LARGE = 300, EACH = 29 };
#endif

static const tt_source *given(arena *keep, const sources *files)
{
    tt_source *all = ARENA_ARRAY(keep, tt_source, files->count);
    for (uint32_t i = 0; i < files->count; i++)
        all[i] =
            (tt_source){files->items[i].name.p, files->items[i].bytes.p, files->items[i].bytes.n};
    return all;
}

static int by_thing(const void *a, const void *b)
{
    const mention *x = a, *y = b;
    int order = THREE_WAY(x->named, y->named);
    if (order == 0) order = str_cmp(x->owner, y->owner);
    return order == 0 ? str_cmp(x->name, y->name) : order;
}

/* What names there are, each once; made ones have no place of their own. */
static mention_list names_of(arena *keep, const sources *files)
{
    mention_list all = {.keep = keep};
    arena *scratch = test_arena();
    faults *list = faults_new(keep);
    const node *const *roots = load_sources(keep, scratch, files, list);
    assert_non_null(book_read_names(keep, scratch, files, NO_FILE, roots, list, &all));
    SORT(all.items, all.count, by_thing);
    uint32_t used = 0;
    for (uint32_t i = 0; i < all.count; i++) {
        if (all.items[i].form != MENTION_DEFINES || all.items[i].named == NAMED_MADE) continue;
        if (used == 0 || by_thing(&all.items[used - 1], &all.items[i]) != 0)
            all.items[used++] = all.items[i];
    }
    all.count = used;
    arena_free(scratch);
    return all;
}

static const char *as_said(arena *keep, const mention *m, str name)
{
    if (m->named == NAMED_ANSWER)
        return str_printf(keep, "%.*s: %.*s", STR_ARG(m->owner), STR_ARG(name)).p;
    return str_printf(keep, "%s %.*s", named_words(m->named), STR_ARG(name)).p;
}

static tt_renaming *renamed(const tt_source *all, uint32_t count, const char *old, const char *new)
{
    tt_renaming *r;
    tt_report *report;
    tt_status status = tt_rename(all, count, NULL, old, new, &r, &report);
    if (status != TT_OK)
        fail_msg("%s: %s%s", old, r == NULL ? "" : tt_renaming_look(r).refusal,
                 r == NULL ? tt_report_text(report) : "");
    tt_report_free(report);
    return r;
}

static void same_bytes(const char *what, const tt_source *a, const tt_source *b, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++)
        if (a[i].length != b[i].length || memcmp(a[i].bytes, b[i].bytes, a[i].length) != 0)
            fail_msg("%s comes back otherwise in %s", what, a[i].name);
}

static void same_trials(const char *what, const tt_source *all, uint32_t count, uint32_t passed)
{
    tt_book *book;
    tt_report *report;
    tt_trials trials;
    assert_int_equal(tt_book_load(all, count, &book, &report), TT_OK);
    assert_int_equal(tt_report_warnings(report), 0);
    assert_int_equal(tt_try(book, &trials), TT_OK);
    if (trials.passed != passed)
        fail_msg("%s: %u of the worked cases hold, not %u", what, trials.passed, passed);
    tt_report_free(report);
    tt_book_free(book);
}

static uint32_t passed_as_it_is(const tt_source *all, uint32_t count)
{
    tt_book *book;
    tt_report *report;
    tt_trials trials;
    assert_int_equal(tt_book_load(all, count, &book, &report), TT_OK);
    assert_int_equal(tt_try(book, &trials), TT_OK);
    const uint32_t passed = trials.passed;
    tt_report_free(report);
    tt_book_free(book);
    return passed;
}

static void there_and_back(arena *keep, const tt_source *all, uint32_t count, const mention *m,
                           bool tried, uint32_t passed)
{
    const char *old = as_said(keep, m, m->name), *back = as_said(keep, m, STR("zz-other"));
    tt_renaming *there = renamed(all, count, old, "zz-other");
    const tt_renamed done = tt_renaming_look(there);
    assert_true(done.edit_count > 0 && done.source_count == count);
    if (tried) same_trials(old, done.sources, count, passed);
    tt_renaming *again =
        renamed(done.sources, count, back, str_printf(keep, "%.*s", STR_ARG(m->name)).p);
    same_bytes(old, all, tt_renaming_look(again).sources, count);
    tt_renaming_free(again);
    tt_renaming_free(there);
}

static void shipped_names_come_back(void **state)
{
    (void)state;
    arena *keep = test_arena();
    shipped_book books[SHIPPED_MOST];
    const uint32_t book_count = shipped_books(keep, books);
    for (uint32_t b = 0; b < book_count; b++) {
        const sources files = sources_sorted(keep, books[b].files.items, books[b].files.count);
        const tt_source *all = given(keep, &files);
        const mention_list names = names_of(keep, &files);
        const uint32_t step = names.count > LARGE ? EACH : 1,
                       passed = passed_as_it_is(all, files.count);
        bool seen[NAMED_COUNT] = {false};
        for (uint32_t i = 0; i < names.count; i++) {
            const mention *m = &names.items[i];
            const bool first = !seen[m->named];
            seen[m->named] = true;
            if (first || i % step == 0)
                there_and_back(keep, all, files.count, m, i % (step * 8) == 0, passed);
        }
    }
    arena_free(keep);
}

/* Everything that the language has, in small books. */
static void small_names_come_back(void **state)
{
    (void)state;
    static const char *const paths[] = {"tests/unit/read/full.yaml",
                                        "tests/unit/read/equipment.yaml",
                                        "tests/unit/read/quantities.yaml"};
    for (size_t p = 0; p < sizeof paths / sizeof *paths; p++) {
        arena *keep = test_arena();
        str path = str_printf(keep, "%s/%s", TT_SOURCE_DIR, paths[p]);
        const source both[] = {
            {STR("all.yaml"), file_bytes(keep, path.p)},
            {STR("pump.svg"), file_bytes(keep, TT_SOURCE_DIR "/tests/unit/read/pump.svg")}};
        const sources files = {both, p == 0 ? 2 : 1}; /* the first shows the picture */
        const mention_list names = names_of(keep, &files);
        assert_true(names.count > 10);
        for (uint32_t i = 0; i < names.count; i++)
            there_and_back(keep, given(keep, &files), files.count, &names.items[i], false, 0);
        arena_free(keep);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(small_names_come_back),
                                       cmocka_unit_test(shipped_names_come_back)};
    return cmocka_run_group_tests_name("rename back", tests, NULL, NULL);
}
