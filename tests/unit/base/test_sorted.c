/* Sorted arrays and growing ones, against what a plain loop says. */
#include "base/grow.h"
#include "base/resort.h"
#include "base/sorted.h"
#include "luck.h"
#include "test_sources.h"
#include "testing.h"

enum { MOST = 40 };

static void numbers_compare_in_three_ways(void **state)
{
    (void)state;
    assert_int_equal(THREE_WAY(1.5, 2.5), -1);
    assert_int_equal(THREE_WAY(2.5, 2.5), 0);
    const uint32_t least = 0, most = UINT32_MAX;
    assert_int_equal(THREE_WAY(most, least), 1); /* where a difference would overflow */
}

static void nothing_can_be_sorted(void **state)
{
    (void)state;
    uint32_t *none = NULL, three[] = {7, UINT32_MAX, 0};
    SORT(none, 0, by_rising_id);
    SORT(three, 3, by_rising_id);
    assert_int_equal(three[0], 0);
    assert_int_equal(three[2], UINT32_MAX);
}

/* Every row of up to six numbers below four: in order, nearly so, the wrong way round. */
static void what_is_sorted_is_as_a_loop_sorts_it(void **state)
{
    enum { LONGEST = 6, VALUES = 4 };
    (void)state;
    uint32_t rows = 1;
    for (uint32_t count = 0; count <= LONGEST; count++, rows *= VALUES)
        for (uint32_t row = 0; row < rows; row++) {
            uint32_t sorted[LONGEST], plain[LONGEST], rest = row;
            for (uint32_t i = 0; i < count; i++, rest /= VALUES)
                sorted[i] = plain[i] = rest % VALUES;
            for (uint32_t i = 0; i < count; i++)
                for (uint32_t k = i + 1; k < count; k++)
                    if (plain[k] < plain[i]) {
                        const uint32_t moved = plain[i];
                        plain[i] = plain[k];
                        plain[k] = moved;
                    }
            SORT(sorted, count, by_rising_id);
            assert_memory_equal(sorted, plain, count * sizeof *plain);
        }
}

/* Of even numbers, every one and every gap between them, for every length. */
static void a_place_is_where_a_loop_finds_it(void **state)
{
    (void)state;
    uint32_t even[MOST];
    for (uint32_t i = 0; i < MOST; i++) even[i] = 2 * i + 2;
    for (uint32_t count = 0; count <= MOST; count++)
        for (uint32_t key = 0; key <= 2 * MOST + 3; key++) {
            uint32_t plain = 0, place;
            while (plain < count && even[plain] < key) plain++;
            SORTED_PLACE(place, count, i, even[i] < key);
            assert_int_equal(place, plain);
            bool there = plain < count && even[plain] == key;
            assert_int_equal(place_of_id(even, count, key), there ? plain : count);
        }
}

/* What was in order, and then some of it moved: none, few, many, all. */
static void what_was_in_order_is_resorted(void **state)
{
    enum { LONGEST = 200, ROUNDS = 3000 };
    (void)state;
    uint64_t random = 11;
    for (int round = 0; round < ROUNDS; round++) {
        uint32_t resorted[LONGEST], plain[LONGEST], aside[LONGEST];
        const uint32_t count = luck_below(&random, LONGEST + 1),
                       moved = luck_below(&random, 4) == 0 ? count : luck_below(&random, 12);
        for (uint32_t i = 0; i < count; i++) plain[i] = 3 * i;
        for (uint32_t i = 0; count > 0 && i < moved; i++)
            plain[luck_below(&random, count)] = luck_below(&random, 3 * LONGEST);
        for (uint32_t i = 0; i < count; i++) resorted[i] = plain[i];
        RESORT(resorted, count, by_rising_id, aside);
        SORT(plain, count, by_rising_id);
        for (uint32_t i = 0; i < count; i++) assert_int_equal(resorted[i], plain[i]);
    }
}

static void what_is_put_in_keeps_the_order(void **state)
{
    (void)state;
    arena *keep = test_arena();
    uint32_t *items = NULL, count = 0, room = 0;
    for (uint32_t n = 0; n < MOST; n++) {
        uint32_t id = n * 17 % 41, at; /* 41 is a prime, so each comes once */
        SORTED_PLACE(at, count, i, items[i] < id);
        GROW(keep, items, count, room);
        SORTED_INSERT(items, count, at, id);
    }
    assert_int_equal(count, MOST);
    for (uint32_t i = 1; i < count; i++) assert_true(items[i - 1] < items[i]);
    for (uint32_t n = 0; n < MOST; n++) assert_true(place_of_id(items, count, n * 17 % 41) < count);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_compare_in_three_ways),
        cmocka_unit_test(nothing_can_be_sorted),
        cmocka_unit_test(what_is_sorted_is_as_a_loop_sorts_it),
        cmocka_unit_test(a_place_is_where_a_loop_finds_it),
        cmocka_unit_test(what_was_in_order_is_resorted),
        cmocka_unit_test(what_is_put_in_keeps_the_order),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
