/* An utterance as a row of phrases: the longest counts, hidden words say nothing, slips are
 * forgiven in what nobody uses otherwise. */
#include "listen/phrasebook.h"
#include "test_sources.h"
#include "testing.h"

enum { HURT = 1, NEVER = 2, TIP = 4 };

typedef struct fixture {
    arena *a;
    word_set language;
    phrasebook p;
} fixture;

static fixture new_book(void)
{
    fixture f = {.a = test_arena()};
    f.language = word_set_new(f.a);
    word_set_add_all(&f.language, STR("hand hard sand valve"));
    return f;
}

static phrase_items read(fixture *f, said *s, const char *line)
{
    *s = said_read(f->a, str_of(line));
    return phrasebook_read(&f->p, f->a, f->a, s);
}

static void the_longest_phrase_counts(void **state)
{
    (void)state;
    fixture f = new_book();
    said s;
    f.p = phrasebook_new(f.a, &f.language, NULL);
    phrasebook_add_all(&f.p, f.a, "not|not at all|no", NEVER);
    phrasebook_add(&f.p, STR("at"), TIP);
    phrase_items all = read(&f, &s, "not at all, not at home");
    assert_int_equal(all.count, 4);
    assert_int_equal(all.items[0].end, 3);
    assert_int_equal(all.items[0].tags, NEVER);
    assert_int_equal(all.items[1].tags, NEVER);
    assert_int_equal(all.items[2].tags, TIP);
    assert_false(all.items[3].found);
    all = read(&f, &s, "not. at all"); /* no phrase goes on behind a full stop */
    assert_int_equal(all.items[0].end, 1);
    arena_free(f.a);
}

static void tags_are_joined_and_hidden_words_say_nothing(void **state)
{
    (void)state;
    fixture f = new_book();
    said s;
    f.p = phrasebook_new(f.a, &f.language, NULL);
    phrasebook_add(&f.p, STR("hand"), HURT);
    phrasebook_add(&f.p, STR("hand"), TIP);
    phrasebook_add(&f.p, STR("hand valve"), 0);
    phrase_items all = read(&f, &s, "hand, hand valve");
    assert_int_equal(all.count, 2);
    assert_int_equal(all.items[0].tags, HURT | TIP);
    assert_true(all.items[1].found);
    assert_int_equal(all.items[1].tags, 0);
    arena_free(f.a);
}

static void slips_are_forgiven_in_what_is_no_word(void **state)
{
    (void)state;
    fixture f = new_book();
    said s;
    f.p = phrasebook_new(f.a, &f.language, NULL);
    phrasebook_add_all(&f.p, f.a, "hart|trapped", HURT);
    phrase_items all = read(&f, &s, "traped hard");
    assert_true(all.items[0].slip && all.items[0].tags == HURT);
    assert_false(all.items[1].found);                  /* people do say "hard" */
    assert_true(read(&f, &s, "harts").items[0].found); /* a plural is no slip */
    assert_false(read(&f, &s, "harts").items[0].slip);
    arena_free(f.a);
}

static bool hurts(uint64_t tags)
{
    return (tags & HURT) != 0;
}

static void of_two_words_the_wanted_one_is_meant(void **state)
{
    (void)state;
    fixture f = new_book();
    said s;
    f.p = phrasebook_new(f.a, &f.language, NULL);
    phrasebook_add(&f.p, STR("smoky"), TIP);
    phrasebook_add(&f.p, STR("smoke"), HURT);
    assert_int_equal(read(&f, &s, "smokx").items[0].tags, TIP); /* the first */
    phrasebook_prefer(&f.p, hurts);
    assert_int_equal(read(&f, &s, "smokx").items[0].tags, HURT);
    arena_free(f.a);
}

static void a_slot_is_the_callers(void **state)
{
    (void)state;
    fixture f = new_book();
    said s;
    f.p = phrasebook_new(f.a, NULL, NULL);
    uint64_t *slot = phrasebook_slot(&f.p, STR("two words"));
    assert_int_equal(*slot, 0);
    *slot = 77;
    assert_ptr_equal(phrasebook_slot(&f.p, STR("two words")), slot);
    assert_int_equal(read(&f, &s, "two words").items[0].tags, 77);
    assert_int_equal(read(&f, &s, "").count, 0);
    arena_free(f.a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_longest_phrase_counts),
        cmocka_unit_test(tags_are_joined_and_hidden_words_say_nothing),
        cmocka_unit_test(slips_are_forgiven_in_what_is_no_word),
        cmocka_unit_test(of_two_words_the_wanted_one_is_meant),
        cmocka_unit_test(a_slot_is_the_callers),
    };
    return cmocka_run_group_tests_name("phrasebook", tests, NULL, NULL);
}
