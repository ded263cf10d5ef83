/* Numbers of cases for the telephone. */
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>

#include "journal/spoken_number.h"
#include "test_sources.h"

static const char id[] = "019b1b48-9420-7e45-8172-00002235a41d";

/* Told by the first version, and by hand: sha256sum of the id begins 71896baff195a630, a number of
 * which these are the last digits. */
static void a_number_that_was_told_stays(void **state)
{
    (void)state;
    char six[TT_CASE_NUMBER_SIZE], nine[TT_CASE_NUMBER_SIZE], twelve[TT_CASE_NUMBER_SIZE];
    tt_case_number(id, 6, six);
    tt_case_number(id, 9, nine);
    tt_case_number(id, 12, twelve);
    assert_string_equal(six, "781936K");
    assert_string_equal(nine, "511781936P");
    assert_string_equal(twelve, "601511781936R");
    assert_memory_equal(nine + 3, six, 6);
    assert_memory_equal(twelve + 3, nine, 9);
    assert_true(tt_case_number_fits(id, six) && tt_case_number_fits(id, nine) &&
                tt_case_number_fits(id, twelve));
    assert_false(tt_case_number_fits("019b1b48-9420-7e45-8172-00002235a41e", six));
    assert_false(tt_case_number_fits(id, "") || tt_case_number_fits(id, "A") ||
                 tt_case_number_fits(id, "1234567A"));
}

static void what_people_type_is_read(void **state)
{
    (void)state;
    static const unsigned lengths[] = {6, 9, 12};
    for (size_t i = 0; i < 3; i++) {
        char number[TT_CASE_NUMBER_SIZE], typed[40], read[TT_CASE_NUMBER_SIZE];
        memset(number, '#', sizeof number);
        memset(read, '#', sizeof read);
        tt_case_number(id, lengths[i], number);
        snprintf(typed, sizeof typed, " %.3s-%s ", number, number + 3);
        for (char *c = typed; *c != '\0'; c++)
            if (*c >= 'A' && *c <= 'Z') *c = (char)(*c + 32);
        assert_int_equal(tt_case_number_read(typed, read), TT_NUMBER_READ);
        assert_string_equal(read, number);
    }
    static const char *const none[] = {
        "",         "K",       "123456",         "12345K",  "1234567K",       "12345678K",
        "123456KK", "12345K6", "1234567890123K", "12.456K", "123456\xC3\xA9", "0123456789abc"};
    char read[TT_CASE_NUMBER_SIZE];
    for (size_t i = 0; i < sizeof none / sizeof *none; i++)
        assert_int_equal(tt_case_number_read(none[i], read), TT_NUMBER_NOT_ONE);
}

/* One digit wrong, or two swapped wherever they stand. */
static void a_slip_changes_the_letter(void **state)
{
    (void)state;
    static const unsigned lengths[] = {6, 9, 12};
    for (unsigned n = 0; n < 200; n++) {
        char made[TT_CASE_ID_SIZE], number[TT_CASE_NUMBER_SIZE], slip[TT_CASE_NUMBER_SIZE],
            read[TT_CASE_NUMBER_SIZE];
        unsigned digits = lengths[n % 3];
        snprintf(made, sizeof made, "019b1b48-9420-7e45-8172-%012x", n);
        tt_case_number(made, digits, number);
        for (unsigned i = 0; i < digits; i++) {
            memcpy(slip, number, sizeof slip);
            for (char c = '0'; c <= '9'; c++) {
                slip[i] = c;
                assert_int_equal(tt_case_number_read(slip, read),
                                 c == number[i] ? TT_NUMBER_READ : TT_NUMBER_WRONG_LETTER);
            }
            for (unsigned k = 0; k < i; k++) {
                memcpy(slip, number, sizeof slip);
                slip[i] = number[k];
                slip[k] = number[i];
                assert_int_equal(tt_case_number_read(slip, read),
                                 number[i] == number[k] ? TT_NUMBER_READ : TT_NUMBER_WRONG_LETTER);
            }
        }
    }
}

typedef struct told {
    char number[TT_CASE_NUMBER_SIZE];
    uint32_t of;
} told;

static int by_number(const void *a, const void *b)
{
    return strcmp(((const told *)a)->number, ((const told *)b)->number);
}

/* [count] how many digits each needs, from all numbers side by side. */
static uint8_t *digits_needed(arena *a, const char *const *ids, uint32_t count)
{
    uint8_t *needed = ARENA_ARRAY(a, uint8_t, count);
    told *all = ARENA_ARRAY(a, told, count);
    for (uint32_t i = 0; i < count; i++) needed[i] = 12;
    for (unsigned digits = 12; digits >= 6; digits -= 3) {
        for (uint32_t i = 0; i < count; i++) {
            tt_case_number(ids[i], digits, all[i].number);
            all[i].of = i;
        }
        qsort(all, count, sizeof *all, by_number);
        for (uint32_t i = 0; i < count; i++)
            if ((i == 0 || by_number(&all[i - 1], &all[i]) != 0) &&
                (i + 1 == count || by_number(&all[i], &all[i + 1]) != 0))
                needed[all[i].of] = (uint8_t)digits;
    }
    return needed;
}

/* 20,000 cases, one of which came twice: no two are told the same number, and few need a longer
 * one. */
static void a_large_folder_has_a_number_for_each(void **state)
{
    (void)state;
    enum { CASES = 20000 };
    arena *a = test_arena();
    const char **ids = ARENA_ARRAY(a, const char *, CASES);
    uint8_t *digits = ARENA_ARRAY(a, uint8_t, CASES);
    unsigned longer = 0;
    for (uint32_t i = 0; i < CASES; i++)
        ids[i] = str_printf(a, "019b1b48-9420-7e45-8172-%012x", i * 7919).p;
    ids[CASES - 1] = ids[0];
    assert_int_equal(tt_case_number_digits(ids, CASES, digits), TT_OK);
    for (uint32_t i = 0; i < CASES; i++) longer += digits[i] > 6;
    /* of 20,000² / 2 pairs one in a million shares six digits: 200 pairs, 400 cases */
    assert_in_range(longer, 200, 700);
    assert_memory_equal(digits, digits_needed(a, ids, CASES), CASES);
    assert_int_equal(digits[0], 12);
    assert_int_equal(digits[CASES - 1], 12);
    assert_int_equal(tt_case_number_digits(ids, 0, digits), TT_OK);
    arena_free(a);
}

static void ids_are_told_from_other_names(void **state)
{
    (void)state;
    assert_true(tt_is_case_id(id));
    assert_false(tt_is_case_id("no-case"));
    assert_false(tt_is_case_id("019b1b48-9420-7e45-8172-00002235A41d"));
    assert_false(tt_is_case_id("019b1b48x9420-7e45-8172-00002235a41d"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_number_that_was_told_stays),
        cmocka_unit_test(what_people_type_is_read),
        cmocka_unit_test(a_slip_changes_the_letter),
        cmocka_unit_test(a_large_folder_has_a_number_for_each),
        cmocka_unit_test(ids_are_told_from_other_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
