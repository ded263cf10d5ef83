#include "testing.h"

#include "base/pattern.h"
#include "base/unicode.h"
#include "test_sources.h"

/* How many of the author's words are found, both sides as written. */
static size_t found(const char *words, const char *said, size_t *all)
{
    arena *a = test_arena();
    size_t n = words_found(unicode_plain(a, str_of(words)), unicode_plain(a, str_of(said)), all);
    arena_free(a);
    return n;
}

static bool fits(const char *words, const char *said)
{
    size_t all;
    return found(words, said, &all) == all;
}

static void words_in_order(void **state)
{
    (void)state;
    assert_true(fits("short cycling", "It's short-cycling!"));
    assert_true(fits("no foam", "there is no foam on the left"));
    assert_true(fits("pump starts", "the PUMP only just starts"));
    assert_false(fits("foam stiff", "stiff foam"));
    assert_false(fits("no foam", "foam"));
    assert_false(fits("foam", ""));
    assert_false(fits("air", "the pairs")); /* whole words */
}

static void few_words_between(void **state)
{
    (void)state;
    assert_true(fits("pump rattles", "pump one two three rattles"));
    assert_false(fits("pump rattles", "pump one two three four rattles"));
    /* a later pump is near enough */
    assert_true(fits("pump rattles", "pump one two three four pump rattles"));
}

static void counting(void **state)
{
    (void)state;
    size_t all = 99;
    assert_int_equal(found("left brush does not turn", "brush does not", &all), 3);
    assert_int_equal(all, 5);
    assert_int_equal(found("a b c d", "a d b c", &all), 3);
    assert_int_equal(found("a a a", "a", &all), 1);
    assert_int_equal(all, 3);
    assert_int_equal(found("", "anything", &all), 0);
    assert_int_equal(all, 0);
}

static void endings(void **state)
{
    (void)state;
    assert_true(fits("brush worn", "brushes worn"));
    assert_true(fits("brushes", "brush"));
    assert_true(fits("pump starts", "pump start"));
    assert_false(fits("gas", "gases are")); /* too short to tell an ending */
    assert_false(fits("a", "as"));
    assert_false(fits("heat", "heater"));
}

static void slips(void **state)
{
    (void)state;
    assert_true(fits("whistling", "whisling")); /* missing */
    assert_true(fits("rattling", "rattlling")); /* too many */
    assert_true(fits("rattling", "rattlimg"));  /* wrong */
    assert_true(fits("rattling", "ratlting"));  /* swapped */
    assert_true(fits("cartridge", "catrridge"));
    assert_false(fits("rattling", "battling")); /* never the first letter */
    assert_false(fits("rattling", "ratltign")); /* two slips */
    assert_false(fits("water", "wafer"));       /* short words: exactly */
    assert_false(fits("100000", "100001"));     /* numbers: exactly */
    assert_false(fits("whistle", "whisk"));
}

static void long_texts(void **state)
{
    (void)state;
    arena *a = test_arena();
    text_builder b = {.keep = a};
    for (int i = 0; i < 5000; i++) text_add(&b, STR("a "));
    str many = str_trim(text_done(&b));
    size_t all;
    assert_true(words_found(many, many, &all) <= 64);
    assert_int_equal(all, 5000);
    assert_int_equal(words_found(STR("a a"), many, &all), 2);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_in_order), cmocka_unit_test(few_words_between),
        cmocka_unit_test(counting),       cmocka_unit_test(endings),
        cmocka_unit_test(slips),          cmocka_unit_test(long_texts),
    };
    return cmocka_run_group_tests_name("loose words", tests, NULL, NULL);
}
