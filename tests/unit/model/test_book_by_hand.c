/* What a book answers, of books that were put together here: this room needs no reader. */
#include "test_sources.h"
#include "testing.h"

#include "model/book.h"
#include "model/hazard_words.h"

/* ---- texts ---- */

static void test_language_look_up(void **state)
{
    (void)state;
    text_item items[] = {
        {STR("en"), STR("plain")}, {STR("de"), STR("german")}, {STR("de-CH"), STR("swiss")}};
    texts t = {.items = items, .count = 3, .at = span_nowhere()};
    assert_str(texts_for(&t, STR("de-CH-1996")), "swiss");
    assert_str(texts_for(&t, STR("DE-at")), "german");
    assert_str(texts_for(&t, STR("de-x-home")), "german");
    assert_str(texts_for(&t, STR("fr")), "plain");
    texts none = {0};
    assert_str(texts_for(&none, STR("en")), "");
}

static void check_insert(const char *inside, const char *name, const char *when, const char *unit)
{
    insert in = insert_parts(str_of(inside));
    assert_true(str_is(in.name, name) && str_is(in.when, when) && str_is(in.unit, unit));
}

static void test_inserts_have_parts(void **state)
{
    (void)state;
    check_insert("gauge", "gauge", "", "");
    check_insert("gauge, psi", "gauge", "", "psi");
    check_insert("gauge as found", "gauge", "found", "");
    check_insert("gauge of left as left,1 in N", "gauge of left", "left", "1 in N");
    check_insert("as found", "as found", "", "");
}

/* ---- words ---- */

static void test_words_for_numbers_rise(void **state)
{
    (void)state;
    for (uint32_t i = 1; i < CHANCE_WORDS; i++)
        assert_true(chance_of_word(i) > chance_of_word(i - 1));
    assert_string_equal(chance_word(CHANCE_RARELY), "rarely");
    assert_string_equal(chance_word(CHANCE_ALWAYS), "always");
    double share, before = 0;
    for (uint32_t i = 0; i < OFTEN_WORDS; i++, before = share) {
        assert_true(often_word(i, &share)[0] != '\0');
        assert_true(share > before);
    }
}

static void test_each_hazard_and_energy_has_one_name(void **state)
{
    (void)state;
    for (uint32_t i = 0; i < HAZARD_COUNT; i++) {
        assert_ptr_equal(hazard_name((hazard)i), hazard_names[i]);
        for (uint32_t k = 0; k < i; k++) assert_string_not_equal(hazard_names[i], hazard_names[k]);
    }
    for (uint32_t i = 0; i < ENERGY_COUNT; i++) {
        assert_ptr_equal(energy_name((energy)i), energy_names[i]);
        for (uint32_t k = 0; k < i; k++) assert_string_not_equal(energy_names[i], energy_names[k]);
    }
    assert_null(hazard_names[HAZARD_COUNT]);
    assert_null(energy_names[ENERGY_COUNT]);
}

/* What is told of, unless that hazard is named, a piece is called so, or it is not to be done. */
static void test_words_of_danger(void **state)
{
    static const struct {
        const char *text, *word;
    } told[] = {{"Climb up to the lamp.", "climb"}, {"Nobody may climb up.", NULL},
                {"Open the acid pump.", NULL},      {"Wear gloves. Pour bleach.", "bleach"},
                {"Climbers know.", NULL},           {"Don't touch. Use a ladder.", "ladder"}};
    (void)state;
    text_item called = {STR("en"), STR("the acid pump")};
    piece pump = {.text = {.items = &called, .count = 1}};
    const book b = {.pieces = &pump, .piece_count = 1};
    bool named[HAZARD_COUNT] = {false};
    const hazard_ear ear = hazard_ear_ready();
    for (size_t i = 0; i < sizeof told / sizeof *told; i++) {
        text_item item = {STR("en"), str_of(told[i].text)};
        const texts t = {.items = &item, .count = 1};
        const char *word = hazard_word(&ear, &b, &t, named);
        if (told[i].word == NULL)
            assert_null(word);
        else
            assert_string_equal(word, told[i].word);
    }
    text_item item = {STR("en"), STR("Climb up.")};
    const texts t = {.items = &item, .count = 1};
    named[HAZARD_HEIGHT] = true;
    assert_null(hazard_word(&ear, &b, &t, named));
}

/* Of each word that is looked for at all it is asked first what it begins with: by itself, behind
 * other words, in great letters, beside signs, and as the end of a longer word. */
static void test_words_of_danger_wherever_they_begin(void **state)
{
    static const char *const words[] = {"live",      "terminal box", "capacitor", "acid",
                                        "fumes",     "ladder",       "jack up",   "fan blade",
                                        "saw",       "weld",         "crawl",     "into the pit",
                                        "corriente", "ácido",        "sosa",      "cloro",
                                        "andamio",   "resorte",      "soldar",    "hirviendo"},
                             *const frames[] = {"%s",     "%s there", "Is it so: %s", "(%s)",
                                                "1 %s 2", "\n%s.",    "a x-%s"};
    (void)state;
    arena *a = test_arena();
    const hazard_ear ear = hazard_ear_ready();
    const book b = {0};
    const bool named[HAZARD_COUNT] = {false};
    for (size_t w = 0; w < sizeof words / sizeof *words; w++)
        for (size_t f = 0; f < sizeof frames / sizeof *frames; f++) {
            const str text = str_printf(a, frames[f], words[w]),
                      within = str_printf(a, frames[f], str_printf(a, "q%s", words[w]).p);
            text_item great = {STR("en"), str_copy(a, text)}, item = {STR("en"), text},
                      longer = {STR("en"), within};
            for (char *c = (char *)great.text.p; *c != '\0'; c++)
                if (*c >= 'a' && *c <= 'z') *c = (char)(*c - 'a' + 'A');
            assert_string_equal(hazard_word(&ear, &b, &(texts){.items = &item, .count = 1}, named),
                                words[w]);
            assert_string_equal(hazard_word(&ear, &b, &(texts){.items = &great, .count = 1}, named),
                                words[w]);
            assert_null(hazard_word(&ear, &b, &(texts){.items = &longer, .count = 1}, named));
        }
    arena_free(a);
}

/* ---- roles, places, numbers ---- */

/* A mender and a driver beside each other above a helper; of them the mender isolates. */
static void test_who_may_do_what(void **state)
{
    enum { DRIVER, HELPER, MENDER };
    (void)state;
    const label roles[] = {
        {.name = STR("driver")}, {.name = STR("helper")}, {.name = STR("mender")}};
    const uint32_t level[] = {1, 0, 1};
    const bool authorised[] = {false, false, true};
    const book b = {.roles = roles, .role_level = level, .authorised = authorised, .role_count = 3};
    texts line = {0};
    const safety locks = {.isolate = {.items = &line, .count = 1}}, plain = {0};
    assert_true(book_may(&b, MENDER, HELPER));
    assert_false(book_may(&b, HELPER, MENDER));
    assert_false(book_may(&b, MENDER, DRIVER));
    assert_false(book_may_work(&b, HELPER, HELPER, &locks));
    assert_true(book_may_work(&b, HELPER, HELPER, &plain));
    assert_int_equal(book_role_for(&b, HELPER, &locks), MENDER);
    assert_int_equal(book_role_for(&b, DRIVER, &locks), DRIVER); /* nobody may: as it is */
    assert_int_equal(book_role(&b, STR("helper")), HELPER);
    assert_int_equal(book_role(&b, STR("painter")), NO_ID);
}

/* One of the two tells how far it is; where none does, it is as far as the book says of all. */
static void test_how_far_it_is(void **state)
{
    enum { ATTIC, CELLAR, YARD };
    (void)state;
    const spot_walk walks[] = {{.to = ATTIC, .minutes = 90}};
    const spot places[] = {[YARD] = {.walks = walks, .walk_count = 1}};
    const book b = {.places = places, .place_count = 3, .walk_minutes = 4};
    assert_true(book_walk(&b, YARD, ATTIC) == 90 && book_walk(&b, ATTIC, YARD) == 90);
    assert_true(book_walk(&b, CELLAR, ATTIC) == 4);
    assert_true(book_walk(&b, ATTIC, ATTIC) == 0);
    assert_ptr_equal(walk_between(places, YARD, ATTIC), walks);
    assert_null(walk_between(places, ATTIC, YARD));
}

static void test_a_number_that_rounding_moved_lies_on_the_end(void **state)
{
    (void)state;
    cond c = {.low = 1, .high = 2, .low_in = true, .high_in = false};
    assert_true(interval_holds(&c, 1, 1) && interval_holds(&c, 1.5, 1.5));
    assert_false(interval_holds(&c, 2, 2));
    assert_true(interval_holds(&c, 1 - 1e-15, 1));
    assert_false(interval_holds(&c, 2 - 1e-15, 2));
    assert_false(interval_holds(&c, 0.99, 1));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_language_look_up),
        cmocka_unit_test(test_inserts_have_parts),
        cmocka_unit_test(test_words_for_numbers_rise),
        cmocka_unit_test(test_each_hazard_and_energy_has_one_name),
        cmocka_unit_test(test_words_of_danger),
        cmocka_unit_test(test_words_of_danger_wherever_they_begin),
        cmocka_unit_test(test_who_may_do_what),
        cmocka_unit_test(test_how_far_it_is),
        cmocka_unit_test(test_a_number_that_rounding_moved_lies_on_the_end),
    };
    return cmocka_run_group_tests_name("a book by hand", tests, NULL, NULL);
}
