/* What the program does with texts and numbers that people or other programs give it, in tables:
 * each row is one rule that a header of cli/host states. */
#include <locale.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "host/descriptor_set.h"
#include "host/fold_letters.h"
#include "host/line_input.h"
#include "host/plain_text.h"
#include "host/read_number.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static void tags_are_told_by_their_letters(void **state)
{
    static const struct {
        const char *text;
        bool is;
    } rows[] = {
        {"en", true},         {"gsw", true},           {"de-CH", true},      {"zh-Hant-TW", true},
        {"de-CH-1996", true}, {"sl-rozaj-1994", true}, {"e", false},         {"engl", false},
        {"", false},          {"e1", false},           {"en-", false},       {"en--x", false},
        {"en_US", false},     {"en-abcdefghi", false}, {"en-a b", false},    {"1n", false},
        {"en-CH-", false},    {"en-abcdefgh", true},   {"english-US", false}};
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++)
        if (is_language_tag(rows[i].text) != rows[i].is)
            fail_msg("%s is%s taken for a tag", rows[i].text, rows[i].is ? " not" : "");
}

/* RFC 3629: no longer form than needed, no surrogates, nothing behind U+10FFFF. */
static void what_is_no_utf_8_is_replaced(void **state)
{
    static const struct {
        const char *bytes;
        uint32_t point;
    } rows[] = {{"\xF4\x8F\xBF\xBF", 0x10FFFF},
                {"\xEE\x80\x80", 0xE000},
                {"\xED\x9F\xBF", 0xD7FF},
                {"\xF0\x90\x80\x80", 0x10000},
                {"\xF4\x90\x80\x80", 0xFFFD},
                {"\xE0\x80\x80", 0xFFFD},
                {"\xF0\x80\x80\x80", 0xFFFD},
                {"\xED\xBF\xBF", 0xFFFD},
                {"\xF5\x80\x80\x80", 0xFFFD},
                {"\x80", 0xFFFD},
                {"\xC2", 0xFFFD},
                {"\xE2\x28\xA1", 0xFFFD}};
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        const char *at = rows[i].bytes;
        assert_int_equal(next_code_point(&at), rows[i].point);
        assert_int_equal(at - rows[i].bytes, rows[i].point == 0xFFFD ? 1 : strlen(rows[i].bytes));
    }
}

static void what_misleads_the_eye_goes(void **state)
{
    static const char *const unsafe[] = {"\xD8\x9C",     "\xEF\xBB\xBF", "\xE2\x80\xA8",
                                         "\xE2\x80\xA9", "\xE2\x80\x8E", "\xE2\x80\x8F",
                                         "\xE2\x80\xAA", "\xE2\x80\xAE", "\xE2\x81\xA6",
                                         "\xE2\x81\xA9", "\x1B[12;3",    "\x1B[1~",
                                         "\x1B"},
                             *const safe[] = {"\xE2\x80\x8D",
                                              "\xE2\x80\x90",
                                              "\xE2\x80\xAF",
                                              "\xE2\x81\xA5",
                                              "\xE2\x81\xAA",
                                              "\xD8\x9B",
                                              "\n"};
    (void)state;
    for (size_t i = 0; i < COUNT(unsafe); i++) {
        char *clean = clean_text(unsafe[i]);
        assert_string_equal(clean, "");
        free(clean);
    }
    for (size_t i = 0; i < COUNT(safe); i++) {
        char *clean = clean_text(safe[i]);
        assert_string_equal(clean, safe[i]);
        free(clean);
    }
    char *clean = clean_text("\x1B[\xC3\xA9"
                             "e"); /* the sequence goes on to its letter */
    assert_string_equal(clean, "");
    free(clean);
    assert_int_equal(display_width("\x07x", 2), 2); /* what has no width counts as one */
}

/* Letters of any length; a letter whose small one is of ASCII stays: U+212A is no k. */
static void letters_fold_in_every_length(void **state)
{
    static const char *const rows[][2] = {{"ABC xyz @[`{", "abc xyz @[`{"},
                                          {"\xC3\x84\xD0\x96", "\xC3\xA4\xD0\xB6"},
                                          {"\xE1\xB8\x80\xE2\xB0\x80", "\xE1\xB8\x81\xE2\xB0\xB0"},
                                          {"\xF0\x90\x90\x80", "\xF0\x90\x90\xA8"},
                                          {"\xE2\x84\xAA", "\xE2\x84\xAA"}};
    (void)state;
    assert_non_null(setlocale(LC_CTYPE, "C.UTF-8"));
    for (size_t i = 0; i < COUNT(rows); i++) {
        char *folded = fold_letters(rows[i][0]);
        assert_string_equal(folded, rows[i][1]);
        free(folded);
    }
    assert_false(text_holds(NULL, "a"));
    assert_true(text_holds("A North House", "north"));
    assert_null(folded_part(NULL));
}

static void only_words_that_are_short_are_suggested(void **state)
{
    static const char *const words[] = {"a-name-that-is-longer-than-anybody-would-type-by-hand",
                                        "ab"};
    (void)state;
    assert_string_equal(nearest_word("abc", words, 2), "ab");
    assert_null(nearest_word(words[0], words, 2));
    assert_null(nearest_word("b", words, 2)); /* all of it would be another */
}

static void percent_is_read_whole_or_not_at_all(void **state)
{
    static const struct {
        const char *text;
        double is; /* less than nothing: it is refused */
    } rows[] = {{"50", .5},   {"50%", .5},    {"50 %", .5},  {"0", 0},
                {"100 %", 1}, {"2.5%", .025}, {"101", -1},   {"-1", -1},
                {"", -1},     {"50%%", -1},   {"1.2.3", -1}, {".5", -1},
                {"5e1", -1},  {"50 % 2", -1}, {"%", -1},     {"50  %", .5}};
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        double got = -1;
        const bool read = percent_number(rows[i].text, &got);
        if (read != (rows[i].is >= 0)) fail_msg("%s: %d", rows[i].text, read);
        if (read) assert_true(got > rows[i].is - 1e-9 && got < rows[i].is + 1e-9);
    }
}

static void whole_numbers_keep_their_bounds(void **state)
{
    static const struct {
        const char *text;
        uint64_t least, most;
        bool is;
    } rows[] = {{"7", 1, 7, true},
                {"8", 1, 7, false},
                {"0", 1, 7, false},
                {"", 0, 7, false},
                {"+7", 0, 7, false},
                {"7x", 0, 7, false},
                {"18446744073709551615", 0, UINT64_MAX, true},
                {"18446744073709551616", 0, UINT64_MAX, false}};
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        uint64_t got;
        if (whole_number(rows[i].text, rows[i].least, rows[i].most, &got) != rows[i].is)
            fail_msg("%s", rows[i].text);
    }
}

/* ---- lines ---- */

static line_got next_of(line_input *input, const char *expected)
{
    char *line;
    const line_got got = line_input_next(input, &line);
    if (expected != NULL) assert_string_equal(line, expected);
    free(line);
    return got;
}

/* Bytes of nothing don't end a line, and nothing of it is lost. */
static void a_line_may_hold_bytes_of_nothing(void **state)
{
    int ends[2];
    line_input input;
    (void)state;
    assert_int_equal(pipe(ends), 0);
    assert_int_equal(write(ends[1], "no\0 wa\0ter\nlast", 15), 15);
    close(ends[1]);
    line_input_begin(&input, ends[0]);
    assert_int_equal(next_of(&input, "no water"), GOT_LINE);
    assert_int_equal(next_of(&input, "last"), GOT_LINE);
    assert_int_equal(next_of(&input, NULL), GOT_END);
    assert_int_equal(next_of(&input, NULL), GOT_END);
    close(ends[0]);
}

/* It can be waited for, and reading fails. */
static void what_cannot_be_read_is_a_failure(void **state)
{
    int ends[2];
    line_input input;
    (void)state;
    assert_int_equal(pipe(ends), 0);
    line_input_begin(&input, ends[1]); /* the end that is written to */
    close(ends[0]);
    close(ends[1]);
    assert_int_equal(next_of(&input, NULL), GOT_FAILURE);
}

static void sets_hold_only_so_many_descriptors(void **state)
{
    (void)state;
    assert_true(can_wait_for(0));
    assert_false(can_wait_for(-1));
    assert_false(can_wait_for(FD_SETSIZE));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tags_are_told_by_their_letters),
        cmocka_unit_test(what_is_no_utf_8_is_replaced),
        cmocka_unit_test(what_misleads_the_eye_goes),
        cmocka_unit_test(letters_fold_in_every_length),
        cmocka_unit_test(only_words_that_are_short_are_suggested),
        cmocka_unit_test(percent_is_read_whole_or_not_at_all),
        cmocka_unit_test(whole_numbers_keep_their_bounds),
        cmocka_unit_test(a_line_may_hold_bytes_of_nothing),
        cmocka_unit_test(what_cannot_be_read_is_a_failure),
        cmocka_unit_test(sets_hold_only_so_many_descriptors),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
