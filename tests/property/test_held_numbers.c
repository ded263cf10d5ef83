/* Which numbers worked cases hold: against books in whose files the number was turned round, word
 * for word. */
#include "testing.h"

#include "base/str.h"
#include "shipped_books.h"
#include "test_sources.h"

/* The files with other words in the place of one number. */
static sources with_word(arena *keep, const sources *files, const tt_held *n)
{
    source *all = ARENA_ARRAY(keep, source, files->count);
    for (uint32_t i = 0; i < files->count; i++) {
        all[i] = files->items[i];
        const str old = all[i].bytes;
        if (!str_is(all[i].name, n->place.file)) continue;
        assert_true(str_eq(str_slice(old, n->place.start, n->place.end), str_of(n->written)));
        all[i].bytes = str_printf(keep, "%.*s%s%s", (int)n->place.start, old.p, n->turned,
                                  old.p + n->place.end);
    }
    return (sources){all, files->count};
}

static const tt_trial *trial_named(const tt_trials *trials, const char *name)
{
    for (uint32_t i = 0; i < trials->count; i++)
        if (strcmp(trials->items[i].name, name) == 0) return &trials->items[i];
    fail_msg("there is no case %s", name);
    return NULL;
}

static void is_as_told(const shipped_book *shipped, const tt_held *n)
{
    arena *keep = test_arena();
    shipped_book turned = *shipped;
    turned.files = with_word(keep, &shipped->files, n);
    tt_book *book = shipped_load(keep, &turned);
    tt_trials trials;
    assert_int_equal(tt_try(book, &trials), TT_OK);
    if (*n->by == 0 && trials.passed < trials.count)
        fail_msg("%s: some case notices '%s'", n->place.at, n->turned);
    if (*n->by != 0 && trial_named(&trials, n->by)->passed)
        fail_msg("%s: %s doesn't notice '%s'", n->place.at, n->by, n->turned);
    tt_book_free(book);
    arena_free(keep);
}

/* The sanitizers make it slow, and see in a small book what they would see in a large one. */
#ifdef __SANITIZE_ADDRESS__
enum { MOST_CAUSES = 100 };
#else
enum { MOST_CAUSES = 100000 };
#endif

static void what_is_told_of_a_number_is_so(void **state)
{
    (void)state;
    arena *keep = test_arena();
    shipped_book books[SHIPPED_MOST];
    uint32_t count = shipped_books(keep, books);
    for (uint32_t k = 0; k < count; k++) {
        tt_book *book = shipped_load(keep, &books[k]);
        const uint32_t causes = tt_book_describe(book).causes, step = causes > 100 ? 37 : 11;
        tt_holding all;
        unsigned held = 0, loose = 0;
        if (causes > MOST_CAUSES) {
            tt_book_free(book);
            continue;
        }
        assert_int_equal(tt_numbers_held(book, &all), TT_OK);
        for (uint32_t i = k; i < all.count; i += step) {
            is_as_told(&books[k], &all.items[i]);
            *(*all.items[i].by != 0 ? &held : &loose) += 1;
        }
        assert_true(held > 5 && loose > 5);
        tt_book_free(book);
    }
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_told_of_a_number_is_so),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
