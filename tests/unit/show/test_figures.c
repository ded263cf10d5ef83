/* Figures as people say them. */
#include "testing.h"

#include "show/figures.h"
#include "test_sources.h"

static void chances_are_whole_numbers(void **state)
{
    (void)state;
    static const struct {
        double chance;
        const char *words, *in_words;
    } rows[] = {{0, "under 1 %", "unlikely"},        {0.0099, "under 1 %", "unlikely"},
                {0.01, "1 %", "unlikely"},           {0.05, "5 %", "a small chance"},
                {0.2, "20 %", "a fair chance"},      {0.5, "50 %", "likely"},
                {0.8, "80 %", "very likely"},        {0.99, "99 %", "very likely"},
                {0.991, "over 99 %", "very likely"}, {1, "over 99 %", "very likely"},
                {0.344, "34 %", "a fair chance"}};
    arena *a = test_arena();
    for (unsigned i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_string_equal(percent_words(a, TONGUE_EN, rows[i].chance), rows[i].words);
        assert_string_equal(chance_words(TONGUE_EN, rows[i].chance), rows[i].in_words);
    }
    arena_free(a);
}

static void minutes_are_rounded_as_people_round_them(void **state)
{
    (void)state;
    static const struct {
        double minutes;
        const char *words;
    } rows[] = {{0, "under a minute"},    {0.99, "under a minute"}, {1, "about a minute"},
                {1.5, "about 2 minutes"}, {59, "about 59 minutes"}, {60, "about an hour"},
                {67, "about an hour"},    {75, "about 1 h 15 min"}, {119, "about 2 hours"},
                {600, "about 10 hours"}};
    arena *a = test_arena();
    for (unsigned i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_string_equal(minutes_words_of(a, TONGUE_EN, rows[i].minutes), rows[i].words);
    arena_free(a);
}

static void every_outcome_has_words(void **state)
{
    (void)state;
    for (int outcome = TT_GONE; outcome <= TT_WORSE; outcome++) {
        assert_true(*outcome_words(TONGUE_EN, (tt_outcome)outcome) != 0);
        for (int other = TT_GONE; other < outcome; other++)
            assert_string_not_equal(outcome_words(TONGUE_EN, (tt_outcome)outcome),
                                    outcome_words(TONGUE_EN, (tt_outcome)other));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(chances_are_whole_numbers),
        cmocka_unit_test(minutes_are_rounded_as_people_round_them),
        cmocka_unit_test(every_outcome_has_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
