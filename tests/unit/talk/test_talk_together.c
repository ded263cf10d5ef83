/* Two fixes under one lockout: the second is asked of while everything is still locked, with its
 * own dangers; then all is given back once, and one answer is for both. */
#include "small_book.h"
#include "talk_kit.h"
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/value.h"

#define HARM(worn) \
    "    role: hand\n    procedure: lock\n    protect: [" worn "]\n" \
    "    harm:\n      from: [electricity]\n      unprotected: {worst: marginal, chance: remote}\n" \
    "      protected: {worst: negligible, chance: improbable}\n"

static const char yaml[] =
    "book:\n  title: Pump\n  edition: 1\n  roles: [{hand: {authorised: yes}}]\n"
    "questions:\n"
    "  look:\n    ask: How does it look?\n    answers: {good: Good, bad: Bad}\n    usual: good\n"
    "symptoms:\n"
    "  bad-look:\n    text: It looks bad\n    heard: [it looks bad]\n    when: {look: bad}\n"
    "    shown-by: {wear: 90 %, slack: 90 %}\n    otherwise: 1 %\n"
    "causes:\n  wear:\n    text: It is worn\n  slack:\n    text: It is slack\n"
    "procedures:\n"
    "  lock:\n    takes: 30 min\n    energies: [electricity]\n    tell: Tell the desk.\n"
    "    isolate: Switch off at the box\n    release: Wait five minutes\n    prove: Press start\n"
    "    restore: Take off your lock\n"
    "fixes:\n"
    "  renew:\n    text: Turn the ring\n    once-running: Watch the ring\n"
    "    cures: {wear: 90 %}\n    takes: 35 min\n    put-back: Turn the ring back\n" HARM(
        "Gloves") "  tighten:\n    text: Tighten the screw\n    once-running: Watch the screw\n"
                  "    cures: {slack: 90 %}\n    takes: 36 min\n    put-back: Loosen the "
                  "screw\n" HARM("Goggles");

/* The same, with a reading that each is about. */
static const char *measured_book(const char *of_ring, const char *of_screw)
{
    static char text[sizeof yaml + 512];
    static const char readings[] = "  gap:\n    ask: How wide is the gap?\n    reading: length\n   "
                                   " unit: mm\n    usual: 0 to 9 mm\n"
                                   "  play:\n    ask: How much play is there?\n    reading: "
                                   "length\n    unit: mm\n    usual: 0 to 9 mm\n";
    const char *at = strstr(yaml, "symptoms:\n"), *ring = strstr(yaml, "    cures: {wear"),
               *screw = strstr(yaml, "    cures: {slack");
    snprintf(text, sizeof text, "%.*s%s%.*s    look-again: [%s]\n%.*s    look-again: [%s]\n%s",
             (int)(at - yaml), yaml, readings, (int)(ring - at), at, of_ring, (int)(screw - ring),
             ring, of_screw, screw);
    return text;
}

static const char morning[] = "2026-11-29T09:00:00+01:00";

typedef struct scene {
    tt_book *b;
    record_folder *f;
    told_talk east;
} scene;

static void rule_danger_out(told_talk *t)
{
    if (turn_of(t)->kind == TT_TURN_STOP)
        choose(t, turn_offers(turn_of(t), "mistaken") ? "mistaken" : "safe-now");
    assert_turn(turn_of(t), TT_TURN_DANGER);
    choose(t, "no");
    if (turn_of(t)->kind == TT_TURN_REVIEW) choose(t, "right");
}

static int set_up_with(void **state, const char *book)
{
    scene *s = malloc(sizeof *s);
    assert_non_null(s);
    s->b = small_book(book);
    s->f = record_folder_new();
    s->east = talk_open(s->b, s->f, "east", NULL, NULL, morning);
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
    return set_up_with(state, yaml);
}

static int set_up_two_readings(void **state)
{
    return set_up_with(state, measured_book("gap", "play"));
}

static int set_up_one_reading(void **state)
{
    return set_up_with(state, measured_book("gap", "gap"));
}

static int tear_down(void **state)
{
    scene *s = *state;
    talk_close(&s->east);
    record_folder_free(s->f);
    tt_book_free(s->b);
    free(s);
    return 0;
}

static void goes_through(told_talk *t, const char *const *lines)
{
    for (; *lines != NULL; lines++) {
        assert_turn(turn_of(t), TT_TURN_FIX_STEP);
        assert_string_equal(turn_of(t)->prompt, *lines);
        choose(t, "done");
    }
}
#define GOES_THROUGH(t, ...) goes_through((t), (const char *const[]){__VA_ARGS__, NULL})

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

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

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
                                        set_up_two_readings, tear_down),
        cmocka_unit_test_setup_teardown(a_reading_that_both_are_about_is_taken_once,
                                        set_up_one_reading, tear_down),
        TEST(whoever_wants_it_gives_back_first),
        TEST(the_second_that_cannot_be_done_is_left),
        TEST(a_talk_taken_up_begins_at_the_top_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
