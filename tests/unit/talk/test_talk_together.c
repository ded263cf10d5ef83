/* Two fixes under one lockout: the second is asked of while everything is still locked, with its
 * own dangers; then all is given back once, and one answer is for both. */
#include "one_desk.h"
#include "testing.h"
#include "two_jobs.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/value.h"

#define JOB(worn) "    role: hand\n    protect: [" worn "]\n"
#define RING      JOB("Gloves") "    once-running: Watch the ring\n"
#define SCREW     JOB("Goggles") "    once-running: Watch the screw\n"
#define ONE_HAND  .roles = "[{hand: {authorised: yes}}]"
/* Readings that a fix may be about. */
#define GAUGES \
    "  gap:\n    ask: How wide is the gap?\n    reading: length\n    unit: mm\n    usual: 0 to 9 " \
    "mm\n  play:\n    ask: How much play is there?\n    reading: length\n    unit: mm\n    " \
    "usual: " \
    "0 to 9 mm\n"

static const char morning[] = DESK_MORNING;

typedef one_desk scene;

static void rule_danger_out(told_talk *t)
{
    say_it_is_safe(t, "no");
    if (turn_of(t)->kind == TT_TURN_REVIEW) choose(t, "right");
}

static int set_up_with(void **state, const two_jobs *jobs)
{
    scene *s = one_desk_new(two_jobs_book(jobs));
    rule_danger_out(&s->east);
    choose(&s->east, "bad-look");
    if (turn_of(&s->east)->kind == TT_TURN_REVIEW) choose(&s->east, "right");
    while (turn_of(&s->east)->kind == TT_TURN_QUESTION)
        read_off(&s->east, 5, "mm"); /* before the fix */
    if (turn_of(&s->east)->kind == TT_TURN_REVIEW) choose(&s->east, "right");
    assert_turn(turn_of(&s->east), TT_TURN_BEFORE_FIX);
    *state = s;
    return 0;
}

static int set_up(void **state)
{
    return set_up_with(state, &(two_jobs){ONE_HAND, .renew = RING, .tighten = SCREW});
}

static int set_up_two_readings(void **state)
{
    return set_up_with(state, &(two_jobs){ONE_HAND, GAUGES, RING "    look-again: [gap]\n",
                                          SCREW "    look-again: [play]\n"});
}

static int set_up_one_reading(void **state)
{
    return set_up_with(state, &(two_jobs){ONE_HAND, GAUGES, RING "    look-again: [gap]\n",
                                          SCREW "    look-again: [gap]\n"});
}

static int set_up_steps(void **state)
{
    return set_up_with(state, &(two_jobs){ONE_HAND, .renew = RING,
                                          .tighten = SCREW "    steps: ['Open the clip', 'Turn the "
                                                           "screw']\n"});
}

/* The first is done, and everything is still locked. */
static void first_is_done(told_talk *t)
{
    assert_string_equal(turn_of(t)->subject, "renew");
    assert_string_equal(turn_of(t)->together, "tighten");
    choose(t, "begin");
    GOES_THROUGH(t, "Tell the desk.", "Switch off at the box", "Wait five minutes", "Press start",
                 "Turn the ring");
    assert_turn(turn_of(t), TT_TURN_BEFORE_FIX);
    assert_string_equal(turn_of(t)->subject, "tighten");
    assert_string_equal(turn_of(t)->together, "renew");
}

static void all_is_given_back(told_talk *t)
{
    first_is_done(t);
    choose(t, "together");
    assert_true(turn_tells(turn_of(t), TT_PART_WEAR, "Goggles"));
    GOES_THROUGH(t, "Tighten the screw", "Take off your lock", "Watch the ring", "Watch the screw");
}

static void both_are_done(told_talk *t)
{
    all_is_given_back(t);
    assert_turn(turn_of(t), TT_TURN_OUTCOME);
    assert_string_equal(turn_of(t)->together, "tighten");
}

static const char *text_of(const tt_record *r, const char *key)
{
    assert_non_null(r);
    const char *text = value_text(r->data, key);
    return text != NULL ? text : "";
}

static void its_own_dangers_are_shown_before_the_second(void **state)
{
    scene *s = *state;
    first_is_done(&s->east);
    assert_true(turn_tells(turn_of(&s->east), TT_PART_WEAR, "Goggles"));
    assert_true(turn_tells(turn_of(&s->east), TT_PART_NOTE, "Loosen the screw"));
    assert_true(turn_tells(turn_of(&s->east), TT_PART_NOTE, "the lockout counts once"));
}

static void one_answer_is_kept_for_both(void **state)
{
    scene *s = *state;
    both_are_done(&s->east);
    choose(&s->east, "no-change");
    assert_string_equal(text_of(last_record(s->f, "fix-begun"), "with"), "tighten");
    assert_string_equal(text_of(last_record(s->f, "tried"), "fix"), "renew");
    assert_string_equal(text_of(last_record(s->f, "tried"), "with"), "tighten");
}

/* The last one done first. */
static void what_was_in_vain_is_put_back_both_of_it(void **state)
{
    scene *s = *state;
    both_are_done(&s->east);
    const tt_turn *turn = choose(&s->east, "no-change");
    assert_turn(turn, TT_TURN_PUT_BACK);
    assert_string_equal(turn->subject, "tighten");
    turn = choose(&s->east, "leave");
    assert_turn(turn, TT_TURN_PUT_BACK);
    assert_string_equal(turn->subject, "renew");
}

static void worse_asks_danger_and_puts_both_back(void **state)
{
    scene *s = *state;
    both_are_done(&s->east);
    choose(&s->east, "worse");
    rule_danger_out(&s->east);
    assert_turn(turn_of(&s->east), TT_TURN_PUT_BACK);
    assert_string_equal(turn_of(&s->east)->subject, "tighten");
    choose(&s->east, "leave");
    assert_string_equal(turn_of(&s->east)->subject, "renew");
}

static void the_cause_is_what_either_cures(void **state)
{
    scene *s = *state;
    both_are_done(&s->east);
    assert_turn(choose(&s->east, "gone"), TT_TURN_CAUSE);
    const char *cause = text_of(last_record(s->f, "close"), "cause");
    assert_true(strcmp(cause, "wear") == 0 || strcmp(cause, "slack") == 0);
}

static void back_takes_the_answer_for_both(void **state)
{
    scene *s = *state;
    both_are_done(&s->east);
    choose(&s->east, "no-change");
    choose(&s->east, "back");
    assert_turn(turn_of(&s->east), TT_TURN_OUTCOME);
    assert_string_equal(turn_of(&s->east)->together, "tighten");
}

static void whoever_wants_it_gives_back_first(void **state)
{
    scene *s = *state;
    first_is_done(&s->east);
    choose(&s->east, "alone");
    GOES_THROUGH(&s->east, "Take off your lock", "Watch the ring");
    assert_turn(turn_of(&s->east), TT_TURN_OUTCOME);
    choose(&s->east, "no-change");
    assert_string_equal(text_of(last_record(s->f, "tried"), "with"), "");
}

/* Its own steps are undone, and the first is given back and tried out. */
static void the_second_that_cannot_be_done_is_left(void **state)
{
    scene *s = *state;
    first_is_done(&s->east);
    choose(&s->east, "together");
    choose(&s->east, "could-not");
    assert_string_equal(text_of(last_record(s->f, "tried"), "fix"), "tighten");
    assert_string_equal(text_of(last_record(s->f, "tried"), "outcome"), "could-not");
    GOES_THROUGH(&s->east, "Take off your lock", "Watch the ring");
    assert_turn(turn_of(&s->east), TT_TURN_OUTCOME);
    assert_string_equal(turn_of(&s->east)->subject, "renew");
    assert_string_equal(turn_of(&s->east)->together, "");
}

/* Of the second only what was done of it; the first stays done. */
static void the_second_is_left_in_the_middle(void **state)
{
    scene *s = *state;
    first_is_done(&s->east);
    choose(&s->east, "together");
    GOES_THROUGH(&s->east, "Open the clip");
    assert_string_equal(turn_of(&s->east)->prompt, "Turn the screw");
    const tt_turn *turn = choose(&s->east, "could-not");
    assert_string_equal(turn->wrong, "");
    const tt_turn_part *undo = NULL;
    for (uint32_t i = 0; i < turn->news_count; i++)
        if (turn->news[i].kind == TT_PART_PUT_BACK) undo = &turn->news[i];
    assert_non_null(undo);
    assert_int_equal(undo->item_count, 1);
    assert_string_equal(undo->items[0], "Open the clip");
    assert_string_equal(text_of(last_record(s->f, "tried"), "fix"), "tighten");
    GOES_THROUGH(&s->east, "Take off your lock", "Watch the ring");
    assert_string_equal(turn_of(&s->east)->subject, "renew");
}

static void a_talk_taken_up_begins_at_the_top_again(void **state)
{
    scene *s = *state;
    first_is_done(&s->east);
    choose(&s->east, "together");
    told_talk again = talk_open(s->b, s->f, "east", NULL, "resume", morning);
    rule_danger_out(&again);
    assert_turn(turn_of(&again), TT_TURN_BEFORE_FIX);
    assert_string_equal(turn_of(&again)->subject, "renew");
    choose(&again, "begin");
    GOES_THROUGH(&again, "Tell the desk.", "Switch off at the box");
    talk_close(&again);
}

static void assert_measured(told_talk *t, uint32_t i, const char *fix, const char *before,
                            const char *after)
{
    const tt_measured *all;
    uint32_t count;
    assert_int_equal(tt_talk_measured(t->talk, &all, &count), TT_OK);
    assert_true(i < count);
    assert_string_equal(all[i].name, fix);
    assert_string_equal(all[i].before, before);
    assert_string_equal(all[i].after, after);
}

static void each_takes_its_reading_before_and_after(void **state)
{
    scene *s = *state;
    all_is_given_back(&s->east);
    assert_turn(turn_of(&s->east), TT_TURN_LOOK_AGAIN);
    assert_string_equal(turn_of(&s->east)->subject, "gap");
    assert_turn(read_off(&s->east, 1, "mm"), TT_TURN_LOOK_AGAIN);
    assert_string_equal(turn_of(&s->east)->subject, "play");
    assert_turn(read_off(&s->east, 2, "mm"), TT_TURN_OUTCOME);
    choose(&s->east, "no-change");
    assert_measured(&s->east, 0, "renew", "5 mm", "1 mm");
    assert_measured(&s->east, 1, "tighten", "5 mm", "2 mm");
}

static void a_reading_that_both_are_about_is_taken_once(void **state)
{
    scene *s = *state;
    all_is_given_back(&s->east);
    assert_turn(read_off(&s->east, 1, "mm"), TT_TURN_OUTCOME);
    choose(&s->east, "no-change");
    assert_measured(&s->east, 0, "renew", "5 mm", "1 mm");
    assert_measured(&s->east, 1, "tighten", "5 mm", "1 mm");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, one_desk_end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(its_own_dangers_are_shown_before_the_second),
        TEST(one_answer_is_kept_for_both),
        TEST(what_was_in_vain_is_put_back_both_of_it),
        TEST(worse_asks_danger_and_puts_both_back),
        TEST(the_cause_is_what_either_cures),
        TEST(back_takes_the_answer_for_both),
        cmocka_unit_test_setup_teardown(each_takes_its_reading_before_and_after,
                                        set_up_two_readings, one_desk_end),
        cmocka_unit_test_setup_teardown(a_reading_that_both_are_about_is_taken_once,
                                        set_up_one_reading, one_desk_end),
        TEST(whoever_wants_it_gives_back_first),
        TEST(the_second_that_cannot_be_done_is_left),
        cmocka_unit_test_setup_teardown(the_second_is_left_in_the_middle, set_up_steps,
                                        one_desk_end),
        TEST(a_talk_taken_up_begins_at_the_top_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
