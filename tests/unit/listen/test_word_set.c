/* Words known, and what a slip of the pen was meant to be. */
#include "listen/word_set.h"
#include "test_sources.h"
#include "testing.h"

static void a_word_is_there_once(void **state)
{
    (void)state;
    arena *a = test_arena();
    word_set s = word_set_new(a);
    char word[] = "foam";
    const word_entry *foam = word_set_add(&s, (str){word, 4});
    word[0] = 'r'; /* its text was copied */
    assert_ptr_equal(word_set_add(&s, STR("foam")), foam);
    assert_int_equal(word_set_add(&s, STR("dry"))->id, 1);
    assert_int_equal(s.count, 2);
    assert_ptr_equal(word_set_find(&s, STR("foam")), foam);
    assert_null(word_set_find(&s, STR("foa")));
    word_set_add_all(&s, STR("foam is wet"));
    assert_int_equal(s.count, 4);
    arena_free(a);
}

/* More words than a set has room for at first. */
static void many_words_are_found_again(void **state)
{
    (void)state;
    enum { MANY = 5000 };
    arena *a = test_arena();
    word_set s = word_set_new(a);
    for (int i = 0; i < MANY; i++) word_set_add(&s, str_printf(a, "w%d", i));
    for (int i = 0; i < MANY; i++)
        assert_int_equal(word_set_find(&s, str_printf(a, "w%d", i))->id, i);
    assert_null(word_set_find(&s, str_printf(a, "w%d", MANY)));
    arena_free(a);
}

static void assert_near(const word_set *s, arena *a, const char *slip, const char *meant)
{
    const word_entry *e = word_set_near(s, a, str_of(slip));
    if ((e == NULL) != (meant == NULL)) print_message("%s\n", slip);
    if (meant == NULL)
        assert_null(e);
    else
        assert_str(e->text, meant);
}

static void a_slip_is_near_and_begins_alike(void **state)
{
    (void)state;
    arena *a = test_arena();
    word_set s = word_set_new(a);
    word_set_add_all(&s, STR("dry brush conveyor pressure"));
    assert_int_equal(slip_allowed(3), 0);
    assert_int_equal(slip_allowed(4), 1);
    assert_int_equal(slip_allowed(7), 1);
    assert_int_equal(slip_allowed(8), 2);
    assert_near(&s, a, "brsh", "brush");
    assert_near(&s, a, "rbush", "brush"); /* the first two changed places */
    assert_near(&s, a, "crush", NULL);
    assert_near(&s, a, "brxxh", NULL);
    assert_near(&s, a, "convayer", "conveyor");
    assert_near(&s, a, "dri", NULL); /* too short for a slip */
    assert_near(&s, a, "pressssssure", NULL);
    arena_free(a);
}

static void of_two_as_near_the_preferred_is_meant(void **state)
{
    (void)state;
    arena *a = test_arena();
    word_set s = word_set_new(a);
    word_set_add(&s, STR("smoky"));
    word_set_add(&s, STR("smoke"))->preferred = true;
    assert_near(&s, a, "smokx", "smoke");
    assert_near(&s, a, "smoky", "smoky"); /* what is nearer comes first all the same */
    arena_free(a);
}

static void endings_of_plurals_are_forms(void **state)
{
    (void)state;
    arena *a = test_arena();
    word_set s = word_set_new(a);
    word_set_add_all(&s, STR("hose brush leaks gas"));
    assert_str(word_set_form(&s, a, STR("hoses"))->text, "hose");
    assert_str(word_set_form(&s, a, STR("brushes"))->text, "brush");
    assert_str(word_set_form(&s, a, STR("leak"))->text, "leaks");
    assert_str(word_set_form(&s, a, STR("gas"))->text, "gas");
    assert_null(word_set_form(&s, a, STR("ga")));
    assert_null(word_set_form(&s, a, STR("hosen")));
    arena_free(a);
}

static void the_next_word_of_a_plain_text(void **state)
{
    (void)state;
    size_t at = 0;
    str word;
    assert_true(plain_next(STR("foam is dry"), &at, &word));
    assert_str(word, "foam");
    assert_true(plain_next(STR("foam is dry"), &at, &word));
    assert_true(plain_next(STR("foam is dry"), &at, &word));
    assert_str(word, "dry");
    assert_false(plain_next(STR("foam is dry"), &at, &word));
    at = 0;
    assert_false(plain_next(STR(""), &at, &word));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_word_is_there_once),
        cmocka_unit_test(many_words_are_found_again),
        cmocka_unit_test(a_slip_is_near_and_begins_alike),
        cmocka_unit_test(of_two_as_near_the_preferred_is_meant),
        cmocka_unit_test(endings_of_plurals_are_forms),
        cmocka_unit_test(the_next_word_of_a_plain_text),
    };
    return cmocka_run_group_tests_name("word_set", tests, NULL, NULL);
}
