/* Numbers, units, chances, minutes and ranges as authors write them. */
#include "read_kit.h"

#include "read/reader.h"

/* A reader with nothing but room: amounts need no book. */
static reader room_of(kit *k)
{
    return (reader){.keep = k->keep, .scratch = k->scratch, .list = k->list};
}

static unit unit_of(kit *k, const char *text)
{
    unit u;
    str bad;
    assert_int_equal(unit_read(k->keep, str_of(text), NULL, &u, &bad), UNIT_FOUND);
    return u;
}

static void test_amounts(void **state)
{
    static const struct {
        const char *text, *unit;
        amount_found found;
        double number;
    } table[] = {
        {"20 psi", "psi", AMOUNT_FOUND, 20},
        {"20psi", "psi", AMOUNT_FOUND, 20},
        {"-2.5 degF", "degF", AMOUNT_FOUND, -2.5},
        {" 7 ", "", AMOUNT_FOUND, 7},
        {"0.50 gal/min", "gal/min", AMOUNT_FOUND, 0.5},
        {"3 %", "%", AMOUNT_FOUND, 3},
        {"20 bar", "bar", AMOUNT_FOUND, 20},
        {"2000 mbar", "bar", AMOUNT_FOUND, 2},
        {"2,5 psi", "psi", AMOUNT_FOUND, 2.5},
        {"20", "psi", AMOUNT_NO_UNIT, 20},
        {"20 ft", "psi", AMOUNT_OTHER_KIND, 0},
        {"20 psi more", "psi", AMOUNT_UNKNOWN_UNIT, 0},
        {"1,500 psi", "psi", AMOUNT_UNCLEAR, 0},
        {"psi", "psi", AMOUNT_NO_NUMBER, 0},
        {"", "", AMOUNT_NO_NUMBER, 0},
        {"--2 psi", "psi", AMOUNT_NO_NUMBER, 0},
        {"nan psi", "psi", AMOUNT_NO_NUMBER, 0},
    };
    (void)state;
    kit k;
    kit_begin(&k);
    reader r = room_of(&k);
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        double number = 0;
        amount_slip slip;
        const unit wanted = unit_of(&k, table[i].unit);
        amount_in(&r, str_of(table[i].text), &wanted, &number, &slip);
        if (slip.found != table[i].found) fail_msg("'%s' reads as %d", table[i].text, slip.found);
        if (slip.found == AMOUNT_FOUND) assert_near(number, table[i].number);
    }
    kit_end(&k);
}

static void test_ranges(void **state)
{
    static const struct {
        const char *text;
        range_state state;
    } table[] = {
        {"20 to 40 psi", RANGE_READ},        {"20 psi to 40 psi", RANGE_READ},
        {"1 bar to 40 psi", RANGE_READ},     {"-5 to -1 psi", RANGE_READ},
        {"20 to 20 psi", RANGE_READ},        {"40 to 20 psi", RANGE_BACKWARDS},
        {"20-40 psi", RANGE_NONE},           {"20 psi", RANGE_NONE},
        {"20 to 40", RANGE_BAD_AMOUNT},      {"20 ft to 40 psi", RANGE_BAD_AMOUNT},
        {"low to 40 psi", RANGE_BAD_AMOUNT}, {"20 to 40 to 60 psi", RANGE_BAD_AMOUNT},
    };
    (void)state;
    kit k;
    kit_begin(&k);
    reader r = room_of(&k);
    const unit psi = unit_of(&k, "psi");
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        double low, high;
        amount_slip slip;
        range_state read = range_of(&r, str_of(table[i].text), &psi, &low, &high, &slip);
        if (read != table[i].state) fail_msg("'%s' reads as %d", table[i].text, read);
    }
    kit_end(&k);
}

static void test_chances(void **state)
{
    static const struct {
        const char *text;
        double chance;
    } good[] = {{"70 %", 0.7}, {"70%", 0.7}, {"0.7", 0.7},     {"7 of 10", 0.7},
                {"1", 1},      {"0", 0},     {"0.5 %", 0.005}, {"1 of 3", 1.0 / 3}};
    static const char *const bad[] = {"possible", "%",          "seven of 10", "1 of 0",
                                      "1 of -2",  "70 percent", "1/3",         ""};
    (void)state;
    double chance;
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
        assert_true(chance_of(str_of(good[i].text), &chance));
        assert_near(chance, good[i].chance);
    }
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        if (chance_of(str_of(bad[i]), &chance)) fail_msg("'%s' reads as a chance", bad[i]);
}

static void test_words_are_worth_what_the_table_says(void **state)
{
    (void)state;
    reader r = {0};
    default_word_chances(&r);
    assert_near(chance_rarely(&r), 0.05);
    assert_near(chance_always(&r), 0.99);
    for (uint32_t i = 0; i < CHANCE_WORDS; i++) assert_true(r.word_chance[i] == chance_of_word(i));
}

static void test_high_risk(void **state)
{
    (void)state; /* MIL-STD-882E, Table III: 1A 1B 1C 2A 2B */
    static const char *const high = "hhh...hh................";
    for (int worst = 0; worst < 4; worst++)
        for (int chance = 0; chance < 6; chance++)
            assert_int_equal(harm_is_high((harm_worst)worst, (harm_chance)chance),
                             high[worst * 6 + chance] == 'h');
}

static void test_languages(void **state)
{
    static const char *const good[] = {"en",      "de-CH", "pt-BR",          "zh-Hans-CN",
                                       "sr-Latn", "gsw",   "en-u-co-phonebk"};
    static const char *const bad[] = {"",      "e",  "english",        "en-",  "-en",
                                      "en_GB", "e1", "en-toolongpart", "de CH"};
    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof *good; i++)
        if (!is_language(str_of(good[i]))) fail_msg("'%s' is a language tag", good[i]);
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        if (is_language(str_of(bad[i]))) fail_msg("'%s' is no language tag", bad[i]);
}

/* Nothing can be written of high risk, and it is never the one that is tried sooner. */
static void test_high_risk_counts_for_no_less_than_serious(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(
        &k, "book:\n  title: T\n  roles: [helper]\n  worth-trying: {serious: 60 %}\n"
            "  prices: {medium: 130 min, serious: 150 min}\ncauses:\n  a:\n    text: A\n");
    if (b == NULL) fail_msg("%s", kit_said(&k));
    static const double worth[] = {0.05, 0.05, 0.60, 0.60}, price[] = {0, 130, 150, 150};
    for (int i = 0; i < 4; i++) {
        assert_near(b->worth_trying[i], worth[i]);
        assert_near(b->price[i], price[i]);
    }
    kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_amounts),
        cmocka_unit_test(test_ranges),
        cmocka_unit_test(test_chances),
        cmocka_unit_test(test_words_are_worth_what_the_table_says),
        cmocka_unit_test(test_high_risk),
        cmocka_unit_test(test_languages),
        cmocka_unit_test(test_high_risk_counts_for_no_less_than_serious),
    };
    return cmocka_run_group_tests_name("values in rules", tests, NULL, NULL);
}
