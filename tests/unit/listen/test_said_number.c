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
    assert_number("1:50 and a half", "1:50"); /* of a ratio nothing is half */
}

static void hundreds(void **state)
{
    (void)state;
    assert_number("one hundred and five", "105");
    assert_number("one hundred and twenty five psi", "125");
    assert_number("a hundred and forty", "140");
    assert_number("four hundred fifty", "450");
    assert_number("quinientos cincuenta y cinco", "555");
    assert_number("nine hundred and ninety nine and a half", "999.5");
    assert_number("ciento cinco", "105");
    said s;
    assert_int_equal(numbers("three hundred two hundred", &s).count, 2);
    assert_int_equal(numbers("forty and thirty", &s).count, 2);
    assert_int_equal(numbers("forty zero", &s).count, 2);
    assert_int_equal(numbers("forty twelve", &s).count, 2);
    assert_int_equal(numbers("ten five", &s).count, 2);
    assert_number("one hundred twelve", "112");
    assert_number("forty and", "40");
}

/* A sign that is not heard is a reading on the other side of nothing. */
static void below_nothing(void **state)
{
    (void)state;
    assert_number("-5", "-5");
    assert_number("it reads -5 now", "-5");
    assert_number("\xE2\x88\x92"
                  "5 degF",
                  "-5");
    assert_number("minus five", "-5");
    assert_number("menos cuarenta y cinco", "-45");
    assert_number("negative 2.5", "-2.5");
    assert_number("- 5", "-5");
    assert_number("(-5)", "-5");
    assert_number("reading:-5", "-5");
    assert_number("p=-5", "-5");
    assert_number("marca menos cinco", "-5");
    assert_number("mas o menos cinco", "5");
    assert_number("pump-5", "5");
    assert_number("20-30", "20-30");
    assert_number("78 over here", "78");
    assert_number("78 under the glass", "78");
    said s;
    static const char *const unclear[] = {"mucho menos 40", "ya bajo, menos 40",
                                          "a little less - 40"};
    for (size_t i = 0; i < sizeof unclear / sizeof *unclear; i++) {
        const said_numbers one = numbers(unclear[i], &s);
        assert_int_equal(one.count, 1);
        if (!one.items[0].vague) fail_msg("'%s' is heard as a reading", unclear[i]);
    }
    const said_numbers both = numbers("10 - 20", &s);
    assert_int_equal(both.count, 2);
    assert_str(both.items[1].figures, "20");
}

/* What is put together in ways that are not known is none of its parts: it is asked back. */
static void parts_of_a_number_are_no_number(void **state)
{
    (void)state;
    static const char *const said_so[] = {"one thousand two hundred",
                                          "one thousand and five",
                                          "12 thousand",
                                          "mil doscientos",
                                          "mil y cinco",
                                          "doce mil",
                                          "5 mil 200",
                                          "dos coma cinco",
                                          "zero point two",
                                          "four point seven",
                                          "three quarters",
                                          "tres cuartos"};
    for (size_t i = 0; i < sizeof said_so / sizeof *said_so; i++) {
        said s;
        const said_numbers all = numbers(said_so[i], &s);
        for (uint32_t k = 0; k < all.count; k++)
            if (!all.items[k].vague)
                fail_msg("'%s' is heard as %.*s", said_so[i], STR_ARG(all.items[k].figures));
    }
    assert_number("5 mil", "5"); /* thousandths of an inch */
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
    all = numbers("40 or so, and the other 50", &s);
    assert_int_equal(all.count, 2);
    assert_false(all.items[1].vague);
    assert_true(numbers("forty something", &s).items[0].vague);
    assert_true(numbers("forty and something", &s).items[0].vague);
}

/* A bound, or a number that is denied, is no reading; what is denied before a pause is another
 * thing, and "no" by itself answers. */
static void what_is_no_reading(void **state)
{
    (void)state;
    static const struct {
        const char *line;
        bool vague;
    } said_so[] = {
        {"78 under", true},           {"no marca 20", true},  {"it is not dry, it reads 20", false},
        {"it is not dry. 20", false}, {"no it is 20", false}, {"no the 20", false},
        {"no its 20", false},         {"it is not 20", true}, {"5 mil de grosor", false}};
    said s;
    assert_true(numbers("five below zero", &s).items[0].vague);
    for (size_t i = 0; i < sizeof said_so / sizeof *said_so; i++) {
        const said_numbers all = numbers(said_so[i].line, &s);
        assert_int_equal(all.count, 1);
        if (all.items[0].vague != said_so[i].vague) fail_msg("'%s'", said_so[i].line);
    }
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
    assert_choice("0.5", 0);
    assert_choice("2x", 0);
    assert_choice("3 psi", 0);
    assert_choice("", 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(in_words),
        cmocka_unit_test(hundreds),
        cmocka_unit_test(below_nothing),
        cmocka_unit_test(parts_of_a_number_are_no_number),
        cmocka_unit_test(one_alone_is_no_reading),
        cmocka_unit_test(several_and_vague_ones),
        cmocka_unit_test(what_is_no_reading),
        cmocka_unit_test(a_number_takes_its_unit_along),
        cmocka_unit_test(a_choice_by_its_number),
    };
    return cmocka_run_group_tests_name("said_number", tests, set_up, tear_down);
}
