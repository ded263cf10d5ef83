/* The language of a case changes at any prompt, by words or by a reply of its own, and stays so for
 * whoever goes on. */
#include "book_folder.h"
#include "one_desk.h"
#include "testing.h"

#include <string.h>

#include "base/value.h"

static const char morning[] = DESK_MORNING;

typedef one_desk scene;

static void speaks(const tt_turn *turn, const char *language)
{
    assert_string_equal(turn->language, language);
    assert_string_equal(turn->wrong, "");
}

static void words_switch_it(void **state)
{
    scene *s = *state;
    static const struct {
        const char *words, *language;
    } rows[] = {{"español", "es"},
                {"english", "en"},
                {"¿Habla español?", "es"},
                {"Do you speak English?", "en"},
                {"en espanol por favor", "es"},
                {"English please", "en"},
                {"no hablo inglés", "es"},
                {":english", "en"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const tt_turn *turn = type(&s->east, rows[i].words);
        speaks(turn, rows[i].language);
        assert_turn(turn, TT_TURN_DANGER);
        assert_false(turn->gate_open); /* nothing is answered by it */
        assert_string_equal(value_text(last_record(s->f, "language")->data, "language"),
                            rows[i].language);
    }
}

static void at_every_place_it_changes_and_the_place_stays(void **state)
{
    static const char *const places[] = {"",     "known",     "why",    "?",
                                         "hold", "hand over", "change", "danger"};
    scene *s = *state;
    reach_foam_fix(&s->east);
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        if (*places[i] != 0) choose(&s->east, places[i]);
        const tt_turn_kind kind = turn_of(&s->east)->kind;
        speaks(type(&s->east, "español"), "es");
        assert_turn(turn_of(&s->east), kind);
        speaks(type(&s->east, "english"), "en");
        assert_turn(turn_of(&s->east), kind);
        if (kind == TT_TURN_STOP)
            say_it_is_safe(&s->east, "safe");
        else if (kind != TT_TURN_BEFORE_FIX)
            choose(&s->east, turn_offers(turn_of(&s->east), "go-on") ? "go-on" : "back");
        while (turn_of(&s->east)->kind == TT_TURN_CHANGE) choose(&s->east, "none");
        assert_turn(turn_of(&s->east), TT_TURN_BEFORE_FIX);
    }
}

static void in_the_middle_of_a_fix_no_step_is_lost(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    const tt_turn *turn = choose(&s->east, "begin");
    for (int i = 0; i < 2 && turn->kind == TT_TURN_FIX_STEP; i++) turn = choose(&s->east, "done");
    const tt_turn_kind kind = turn->kind;
    const uint32_t step = turn->step;
    turn = type(&s->east, "español");
    assert_turn(turn, kind);
    assert_int_equal(turn->step, step);
}

static void a_program_says_it_with_a_tag(void **state)
{
    scene *s = *state;
    const tt_record *keep;
    uint32_t count;
    assert_int_equal(
        tt_talk_hear(s->east.talk, &(tt_heard){.language = "es-MX"}, morning, &keep, &count),
        TT_OK);
    assert_true(count > 0);
    assert_string_equal(keep[count - 1].kind, "language");
    assert_string_equal(value_text(keep[count - 1].data, "language"), "es-MX");
    assert_int_equal(tt_talk_kept(s->east.talk, true), TT_OK);
    speaks(turn_of(&s->east), "es-MX");
    assert_string_equal(turn_of(&s->east)->choices[0].text, "No, nada de eso");
}

static void whoever_takes_it_over_goes_on_in_it(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    type(&s->east, "español");
    told_talk west = talk_open(s->b, s->f, "west", NULL, "take-over", morning);
    speaks(turn_of(&west), "es");
    type(&west, "english");
    told_talk north = talk_open(s->b, s->f, "north", NULL, "join", morning);
    speaks(turn_of(&north), "en");
    const tt_talk_options asked = {
        .writer = "south", .language = "es", .kept = true, .how = "join"};
    told_talk south = talk_open_with(s->b, s->f, &asked, morning);
    speaks(turn_of(&south), "es"); /* who says so comes first */
    talk_news_of_others(&s->east);
    speaks(turn_of(&s->east), "es"); /* what others ask for is theirs, as long as one is there */
    talk_close(&south);
    talk_close(&north);
    talk_close(&west);
}

static void an_older_case_speaks_as_it_began(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    assert_null(last_record(s->f, "language"));
    told_talk west = talk_open(s->b, s->f, "west", NULL, "resume", morning);
    speaks(turn_of(&west), "en");
    talk_close(&west);
}

static void back_takes_no_language_back(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    type(&s->east, "español");
    const tt_turn *turn = type(&s->east, "atrás");
    assert_turn(turn, TT_TURN_DANGER);
    speaks(turn, "es");
}

static void a_language_that_is_no_reply_is_none(void **state)
{
    scene *s = *state;
    assert_null(tt_language_asked("the display says Spanish"));
    assert_null(tt_language_asked(""));
    assert_string_equal(tt_language_asked("ESPAÑOL"), "es");
    choose(&s->east, "safe");
    speaks(type(&s->east, "foam is dry, the sign is in Spanish"), "en");
    assert_null(last_record(s->f, "language"));
}

static void the_words_page_tells_of_the_other_in_its_own(void **state)
{
    scene *s = *state;
    assert_true(turn_tells(choose(&s->east, "?"), TT_PART_WORDS, "español: hablar español"));
    assert_true(turn_tells(type(&s->east, "español"), TT_PART_WORDS, "english: speak English"));
}

static void whoever_is_called_is_named_in_it(void **state)
{
    scene *s = *state;
    const tt_turn *turn = choose(&s->east, "burnt");
    assert_true(turn_tells(turn, TT_PART_CALL, "licensed electrician"));
    assert_true(turn_tells(type(&s->east, "español"), TT_PART_CALL, "electricista con licencia"));
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, foam_desk, one_desk_end)
int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(words_switch_it),
        TEST(at_every_place_it_changes_and_the_place_stays),
        TEST(in_the_middle_of_a_fix_no_step_is_lost),
        TEST(a_program_says_it_with_a_tag),
        TEST(whoever_takes_it_over_goes_on_in_it),
        TEST(an_older_case_speaks_as_it_began),
        TEST(back_takes_no_language_back),
        TEST(a_language_that_is_no_reply_is_none),
        TEST(whoever_is_called_is_named_in_it),
        TEST(the_words_page_tells_of_the_other_in_its_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
