/* Who only looks may read all that is known and leave, says nothing, and is heard when it is
 * danger. */
#include "one_desk.h"
#include "testing.h"

#include <stdio.h>
#include <string.h>

typedef one_desk scene;

static told_talk look(scene *s)
{
    reach_foam_fix(&s->east);
    const tt_talk_options options = {
        .writer = "west", .number = "000001A", .kept = true, .look_only = true, .how = "resume"};
    return talk_open_with(s->b, s->f, &options, DESK_MORNING);
}

static void every_page_may_be_turned(void **state)
{
    static const struct {
        const char *word;
        tt_turn_kind page;
    } pages[] = {{"why", TT_TURN_WHY},
                 {"known", TT_TURN_KNOWN},
                 {"cautions", TT_TURN_CAUTIONS},
                 {"?", TT_TURN_WORDS}};
    scene *s = *state;
    told_talk west = look(s);
    for (size_t i = 0; i < sizeof pages / sizeof *pages; i++) {
        assert_turn(choose(&west, pages[i].word), pages[i].page);
        assert_string_equal(turn_of(&west)->wrong, "");
    }
    assert_turn(type(&west, "why"), TT_TURN_WHY);
    assert_turn(choose(&west, "stop"), TT_TURN_END);
    talk_close(&west);
}

/* Behind another page it is asked of the question, as if that had been on the screen. */
static void why_is_asked_of_the_question(void **state)
{
    scene *s = *state;
    told_talk west = look(s);
    char first[400];
    uint32_t count;
    const tt_turn *turn = choose(&west, "why");
    assert_int_equal(turn->parts[0].item_count > 0, 1);
    snprintf(first, sizeof first, "%s %s", turn->prompt, turn->parts[0].items[0]);
    count = turn->parts[0].item_count;
    choose(&west, "known");
    turn = choose(&west, "why");
    char again[400];
    snprintf(again, sizeof again, "%s %s", turn->prompt, turn->parts[0].items[0]);
    assert_string_equal(again, first);
    assert_int_equal(turn->parts[0].item_count, count);
    talk_close(&west);
}

static void what_would_change_the_case_is_not_taken(void **state)
{
    static const char *const words[] = {"change", "hold", "hand over", "begin", "unsure"};
    scene *s = *state;
    told_talk west = look(s);
    const uint32_t kept = s->f->count;
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        assert_string_equal(choose(&west, words[i])->wrong_code, "look-only");
        assert_string_equal(type(&west, words[i])->wrong_code, "look-only");
    }
    assert_string_equal(read_off(&west, 30, "psi")->wrong_code, "look-only");
    assert_int_equal(s->f->count, kept);
    talk_close(&west);
}

/* It goes nowhere but into this talk, whose page it shows. */
static void danger_is_heard(void **state)
{
    scene *s = *state;
    told_talk west = look(s);
    const uint32_t kept = s->f->count;
    assert_true(turn_of(&west)->kept);
    assert_turn(type(&west, "somebody is bleeding"), TT_TURN_STOP);
    assert_false(turn_of(&west)->kept);
    assert_true(turn_tells(turn_of(&west), TT_PART_CALL, "emergency number"));
    assert_int_equal(s->f->count, kept);
    talk_close(&west);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(every_page_may_be_turned, foam_desk, one_desk_end),
        cmocka_unit_test_setup_teardown(why_is_asked_of_the_question, foam_desk, one_desk_end),
        cmocka_unit_test_setup_teardown(what_would_change_the_case_is_not_taken, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(danger_is_heard, foam_desk, one_desk_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
