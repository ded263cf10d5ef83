/* An utterance as words: where each stands, what parts clauses, and where reading ends. */
#include "listen/said.h"
#include "test_sources.h"
#include "testing.h"

static void words_know_their_places(void **state)
{
    (void)state;
    arena *a = test_arena();
    const said s = said_read(a, STR("Won't st\xC3\xA1rt, 45psi!"));
    assert_int_equal(s.count, 3);
    assert_str(s.words[0].plain, "wont");
    assert_str(s.words[1].plain, "start");
    assert_str(str_slice(s.text, s.words[1].from, s.words[1].to), "st\xC3\xA1rt");
    assert_str(s.words[2].plain, "45psi");
    assert_true(s.words[2].number && !s.words[0].number);
    assert_false(s.cut);
    arena_free(a);
}

static void commas_pause_and_full_stops_stop(void **state)
{
    (void)state;
    arena *a = test_arena();
    const said s = said_read(a, STR("no, dry. wet (foam) 3,5 1.5 well; so"));
    assert_int_equal(s.count, 10);
    assert_true(s.words[1].pause && !s.words[1].stop);
    assert_true(s.words[2].stop && !s.words[2].pause);
    assert_true(s.words[3].pause);
    assert_true(s.words[4].pause);                     /* the bracket closes */
    assert_false(s.words[5].pause || s.words[5].stop); /* 3,5 is one number */
    assert_false(s.words[7].pause || s.words[7].stop); /* so is 1.5 */
    assert_true(s.words[9].stop);
    arena_free(a);
}

/* "4 gal/min" is one amount, "dry/stiff" are two words for it. */
static void a_slash_before_a_time_parts_nothing(void **state)
{
    (void)state;
    arena *a = test_arena();
    const said s = said_read(a, STR("4 gal/min 15 L/min 60 cars/h dry/stiff gal / min"));
    static const bool pauses[] = {false, false, false, false, false, false, false,
                                  false, false, false, true,  false, true};
    assert_int_equal(s.count, sizeof pauses / sizeof pauses[0]);
    for (uint32_t i = 0; i < s.count; i++) assert_int_equal(s.words[i].pause, pauses[i]);
    arena_free(a);
}

static void what_is_no_word_is_none(void **state)
{
    (void)state;
    arena *a = test_arena();
    assert_int_equal(said_read(a, STR("")).count, 0);
    assert_int_equal(said_read(a, STR(" ... !? \t -- ")).count, 0);
    const said s = said_read(a, STR("a\x01\x1B[31mb"));
    for (size_t i = 0; i < s.text.n; i++) assert_true((unsigned char)s.text.p[i] >= ' ');
    arena_free(a);
}

static void a_part_is_as_it_was_said(void **state)
{
    (void)state;
    arena *a = test_arena();
    const said s = said_read(a, STR("The foam, is  Dry."));
    assert_str(said_part(&s, 1, 4), "foam, is  Dry");
    assert_str(said_part(&s, 2, 2), "");
    assert_str(said_part(&s, 3, 1), "");
    arena_free(a);
}

static void reading_ends_and_says_so(void **state)
{
    (void)state;
    arena *a = test_arena();
    char line[2 * SAID_WORDS_MAX + 8];
    for (size_t i = 0; i < sizeof line; i += 2) memcpy(line + i, "a ", 2);
    const said all = said_read(a, (str){line, 2 * SAID_WORDS_MAX}),
               more = said_read(a, (str){line, 2 * SAID_WORDS_MAX + 2});
    assert_int_equal(all.count, SAID_WORDS_MAX);
    assert_false(all.cut);
    assert_int_equal(more.count, SAID_WORDS_MAX);
    assert_true(more.cut);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_know_their_places),
        cmocka_unit_test(commas_pause_and_full_stops_stop),
        cmocka_unit_test(a_slash_before_a_time_parts_nothing),
        cmocka_unit_test(what_is_no_word_is_none),
        cmocka_unit_test(a_part_is_as_it_was_said),
        cmocka_unit_test(reading_ends_and_says_so),
    };
    return cmocka_run_group_tests_name("said", tests, NULL, NULL);
}
