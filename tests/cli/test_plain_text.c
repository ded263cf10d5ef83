/* Cleaning, measuring and comparing text: what stands between a file or a keyboard and the
 * terminal. */
#include "run_telltale.h"

#include <locale.h>

#include "host/line_input.h"
#include "host/plain_text.h"
#include "host/screen.h"

static void assert_cleaned(const char *text, const char *expected)
{
    char *clean = clean_text(text);
    assert_string_equal(clean, expected);
    free(clean);
}

static void what_steers_a_terminal_goes(void **state)
{
    (void)state;
    assert_cleaned("plain \xC3\xA9 \xE2\x9C\x93 \xF0\x9F\x9A\x97\n",
                   "plain \xC3\xA9 \xE2\x9C\x93 \xF0\x9F\x9A\x97\n");
    assert_cleaned("\x1B[31mred\x1B[0m", "red");
    assert_cleaned("a\x1B[", "a");
    assert_cleaned("a\x1B", "a");
    assert_cleaned("bell\x07 del\x7F c1\xC2\x9B"
                   "5m tab\there",
                   "bell del c15m tab here");
    assert_cleaned("bidi\xE2\x80\xAE\xE2\x81\xA6 bom\xEF\xBB\xBF sep\xE2\x80\xA8", "bidi bom sep");
    assert_cleaned("bad\xFF\xC0\xAF\xED\xA0\x80",
                   "bad\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");
    assert_cleaned("cut\xE2\x80", "cut\xEF\xBF\xBD\xEF\xBF\xBD");
    assert_true(is_clean_name("foam line\xC3\xA9.yaml"));
    assert_false(is_clean_name("a\nb.yaml"));
    assert_false(is_clean_name("a\x1B[2J.yaml"));
    assert_false(is_clean_name("a\xFF.yaml"));
}

static void widths_are_cells(void **state)
{
    (void)state;
    assert_non_null(setlocale(LC_CTYPE, "C.UTF-8"));
    assert_int_equal(display_width("foam", 4), 4);
    assert_int_equal(display_width("\xC3\xA9", 2), 1);
    assert_int_equal(display_width("e\xCC\x81", 3), 1);
    assert_int_equal(display_width("\xE6\xB3\xA1", 3), 2);
}

static void slips_find_their_word(void **state)
{
    (void)state;
    static const char *const words[] = {"ask", "rank", "check", "try", "help"};
    assert_string_equal(nearest_word("chekc", words, 5), "check");
    assert_string_equal(nearest_word("rnak", words, 5), "rank");
    assert_string_equal(nearest_word("hlep", words, 5), "help");
    assert_null(nearest_word("xyzzy", words, 5));
    assert_null(nearest_word("", words, 5));
    char long_word[200];
    memset(long_word, 'c', sizeof long_word);
    long_word[199] = 0;
    assert_null(nearest_word(long_word, words, 5));
}

static void shells_get_one_word(void **state)
{
    (void)state;
    static const char *const names[] = {"rules/foam-line", "two words", "it's", "$HOME", "", "a;b"};
    for (unsigned i = 0; i < sizeof names / sizeof names[0]; i++) {
        char *word = shell_word(names[i]);
        assert_int_equal(sh("printf %%s %s >word", word), 0);
        char *got = contents("word");
        assert_string_equal(got, names[i]);
        free(got);
        free(word);
    }
}

static void folding_is_for_comparing(void **state)
{
    (void)state;
    char *folded = fold_text("  No   CHANGE \t");
    assert_string_equal(folded, "no change");
    free(folded);
}

static void room_grows_as_needed(void **state)
{
    (void)state;
    int *numbers = NULL;
    for (int i = 0; i < 1000; i++) {
        numbers = room_for_one(numbers, (size_t)i, sizeof *numbers);
        numbers[i] = i;
    }
    for (int i = 0; i < 1000; i++) assert_int_equal(numbers[i], i);
    free(numbers);
}

static void long_texts_wrap_with_their_indent(void **state)
{
    (void)state;
    FILE *out = fopen("wrapped", "wb");
    assert_non_null(out);
    screen s = {.out = out, .width = 20};
    say_item(&s, "  1. ", "%s", "one two three four five six\nseven");
    say(&s, "%s", "averyveryverylongwordindeed and more");
    fclose(out);
    char *got = contents("wrapped");
    assert_string_equal(got, "  1. one two three\n     four five six\n     "
                             "seven\naveryveryverylongwordindeed\nand more\n");
    free(got);
}

static void lines_come_one_by_one(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'one\\n\\n  two \\033[1m\\r\\nlast' >lines"), 0);
    FILE *file = fopen("lines", "rb");
    assert_non_null(file);
    line_input input;
    char *line;
    static const char *const expected[] = {"one", "", "two", "last"};
    line_input_begin(&input, fileno(file));
    for (unsigned i = 0; i < 4; i++) {
        assert_int_equal(line_input_next(&input, &line), GOT_LINE);
        assert_string_equal(line, expected[i]);
        free(line);
    }
    assert_int_equal(line_input_next(&input, &line), GOT_END);
    fclose(file);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_steers_a_terminal_goes),
        cmocka_unit_test(widths_are_cells),
        cmocka_unit_test(slips_find_their_word),
        cmocka_unit_test(shells_get_one_word),
        cmocka_unit_test(folding_is_for_comparing),
        cmocka_unit_test(room_grows_as_needed),
        cmocka_unit_test(long_texts_wrap_with_their_indent),
        cmocka_unit_test(lines_come_one_by_one),
    };
    return cmocka_run_group_tests_name("plain text", tests, NULL, NULL);
}
