/* How much of the shipped books their worked cases touch. */
#include "testing.h"

#include "shipped_books.h"
#include "test_sources.h"

static void coverage_counts_what_was_touched(void **state)
{
    (void)state;
    arena *keep = test_arena();
    shipped_book books[SHIPPED_MOST];
    uint32_t count = shipped_books(keep, books);
    for (uint32_t k = 0; k < count; k++) {
        tt_book *book = shipped_load(keep, &books[k]);
        tt_trials trials;
        uint32_t left = 0;
        assert_int_equal(tt_try(book, &trials), TT_OK);
        for (int i = 0; i < TT_COVERED; i++) {
            assert_true(trials.covers[i].touched <= trials.covers[i].of && trials.covers[i].of > 0);
            left += trials.covers[i].of - trials.covers[i].touched;
        }
        assert_int_equal(left, trials.unused_count);
        tt_book_free(book);
    }
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(coverage_counts_what_was_touched)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
