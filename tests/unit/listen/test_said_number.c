/* Numbers in figures and words, in English and Spanish, with the units behind them. */
#include "ear_kit.h"
#include "listen/listener.h"
#include "test_sources.h"
#include "testing.h"

static struct {
    arena *a;
    word_set language;
    phrasebook words;
} f;

static int set_up(void **state)
{
    (void)state;
    f.a = test_arena();
    f.language = word_set_new(f.a);
    f.words = number_words_new(f.a, f.a, &f.language);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    arena_free(f.a);
    return 0;
}

static said_numbers numbers(const char *line, said *s)
{
    *s = said_read(f.a, str_of(line));
    return said_numbers_find(&f.words, f.a, s, 0, s->count);
}

static void assert_number(const char *line, const char *figures)
{
    said s;
    const said_numbers all = numbers(line, &s);
    if (all.count != 1) print_message("%s: %u numbers\n", line, all.count);
    assert_int_equal(all.count, 1);
    assert_str(all.items[0].figures, figures);
}

static void in_words(void **state)
{
    (void)state;
    assert_number("forty five", "45");
    assert_number("it reads forty-five psi", "45");
    assert_number("cuarenta y cinco", "45");
    assert_number("one hundred twenty", "120");
    assert_number("thirty two and a half", "32.5");
    assert_number("veintiseis", "26");
    assert_number("zero", "0");
    assert_number("about 40", "40");
    assert_number("40 and a half", "40.5");
    assert_number("32,5", "32,5");
    assert_number("1:50", "1:50");
}

static void one_alone_is_no_reading(void **state)
{
    (void)state;
    said s;
    assert_number("the pump one reads 45", "45");
    assert_int_equal(numbers("the second one is dry", &s).count, 0);
    assert_int_equal(numbers("", &s).count, 0);
}

static void several_and_vague_ones(void **state)
{
    (void)state;
    said s;
    said_numbers all = numbers("45 and then thirty", &s);
    assert_int_equal(all.count, 2);
    assert_str(all.items[1].figures, "30");
    assert_false(all.items[0].vague || all.items[1].vague);
    all = numbers("40 or 50", &s);
    assert_true(all.items[0].vague && all.items[1].vague);
    assert_true(numbers("forty something", &s).items[0].vague);
}

static void a_number_takes_its_unit_along(void **state)
{
    (void)state;
    said s;
    str typed, bad;
    unit psi, celsius;
    uint32_t end;
    assert_int_equal(unit_read(f.a, STR("psi"), NULL, &psi, &bad), UNIT_FOUND);
    assert_int_equal(unit_read(f.a, STR("degC"), NULL, &celsius, &bad), UNIT_FOUND);
    const said_number n = numbers("forty five pounds now", &s).items[0];
    assert_int_equal(said_amount(f.a, &s, &n, s.count, &psi, &typed, &end), AMOUNT_FITS);
    assert_str(typed, "45 psi");
    assert_int_equal(end, 3);
    const said_number bar = numbers("3 bar", &s).items[0];
    assert_int_equal(said_amount(f.a, &s, &bar, s.count, &psi, &typed, &end), AMOUNT_FITS);
    assert_str(typed, "3 bar");
    assert_int_equal(said_amount(f.a, &s, &bar, s.count, &celsius, &typed, &end), AMOUNT_ELSEWHERE);
    const said_number bare = numbers("45", &s).items[0];
    assert_int_equal(said_amount(f.a, &s, &bare, s.count, &psi, &typed, &end), AMOUNT_BARE);
    assert_str(typed, "45");
}

static void assert_choice(const char *line, uint32_t wanted)
{
    const said s = said_read(f.a, str_of(line));
    const uint32_t got = said_choice(&f.words, f.a, &s);
    if (got != wanted) print_message("%s\n", line);
    assert_int_equal(got, wanted);
}

static void a_choice_by_its_number(void **state)
{
    (void)state;
    assert_choice("5)", 5);
    assert_choice("#2", 2);
    assert_choice("two", 2);
    assert_choice("number 3", 3);
    assert_choice("3 4", 0);
    assert_choice("1.5", 0);
    assert_choice("65", 0);
    assert_choice("0", 0);
    assert_choice("3 psi", 0);
    assert_choice("", 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(in_words),
        cmocka_unit_test(one_alone_is_no_reading),
        cmocka_unit_test(several_and_vague_ones),
        cmocka_unit_test(a_number_takes_its_unit_along),
        cmocka_unit_test(a_choice_by_its_number),
    };
    return cmocka_run_group_tests_name("said_number", tests, set_up, tear_down);
}
