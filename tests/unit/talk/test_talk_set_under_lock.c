/* A setting that is changed step by step under a lockout: given back after each step, made safe
 * again before the next one and before it is put back; and what can't be put back. */
#include "one_desk.h"
#include "small_book.h"
#include "testing.h"

#include <stdio.h>
#include <string.h>

#include "base/value.h"

typedef one_desk scene;

/* Invented here: a governor that is set with the engine stopped and locked. */
static const char rules[] =
    "book:\n  title: Governor\n  edition: 1\n  roles: [{hand: {authorised: yes}}, fitter]\n"
    "questions:\n"
    "  run:\n    ask: How does it run?\n    answers: {even: Evenly, slow: Slowly}\n    usual: "
    "even\n"
    "  gap:\n    ask: How wide is the gap at the governor?\n    reading: length\n    unit: mm\n"
    "    plausible: 0 to 20 mm\n"
    "symptoms:\n"
    "  runs-slowly:\n    text: It runs too slowly\n    heard: [runs slow]\n    when: {run: slow}\n"
    "    shown-by: {gap-wide: 90 %}\n    otherwise: 1 %\n"
    "causes:\n  gap-wide:\n    text: The gap is too wide\n    how-often: common\n"
    "  other-wear:\n    text: Something in it is worn\n    how-often: rare\n"
    "procedures:\n"
    "  lock:\n    energies: [moving-parts]\n    tell: Tell the desk.\n    isolate: Lock the switch "
    "off\n"
    "    release: Let it come to rest\n    prove: Press start\n    restore: Take off your lock\n"
    "fixes:\n"
    "  narrow:\n    text: Narrow the gap\n    cures: {gap-wide: 80 %}\n    takes: 5 min\n"
    "    role: hand\n"
    "    adjust: {reading: gap, by: -2 mm, within: 2 to 12 mm, at-most: 3 times}\n"
    "    put-back: Set the gap to {gap as found} again\n    look-again: [run]\n"
    "    harm:\n      from: [moving-parts]\n      unprotected: {worst: marginal, chance: remote}\n"
    "      protected: {worst: negligible, chance: improbable}\n    procedure: lock\n";

static int set_up(void **state)
{
    scene *s = one_desk_new(small_book(rules));
    say_it_is_safe(&s->east, "no");
    choose(&s->east, "runs-slowly");
    assert_string_equal(turn_of(&s->east)->subject, "gap");
    const tt_turn *turn = read_off(&s->east, 8, "mm");
    if (turn->kind == TT_TURN_REVIEW) turn = choose(&s->east, "right");
    assert_turn(turn, TT_TURN_BEFORE_FIX);
    *state = s;
    return 0;
}

#define LOCKED "Tell the desk.", "Lock the switch off", "Let it come to rest", "Press start"

static void first_step_is_done(told_talk *t)
{
    choose(t, "begin");
    GOES_THROUGH(t, LOCKED, "Set it from 8 mm to 6 mm.", "Take off your lock");
    assert_turn(turn_of(t), TT_TURN_OUTCOME);
}

static const tt_turn *begin_to_put_back(told_talk *t)
{
    first_step_is_done(t);
    assert_turn(choose(t, "no-change"), TT_TURN_PUT_BACK);
    assert_true(turn_tells(turn_of(t), TT_PART_CHANGE, "It was found at 8 mm and stands at 6 mm."));
    choose(t, "begin");
    GOES_THROUGH(t, LOCKED);
    return turn_of(t);
}

static double number_in(const tt_record *r, const char *key)
{
    double number;
    assert_non_null(r);
    assert_true(value_number(value_get(r->data, "set"), key, &number));
    return number;
}

static void it_is_made_safe_and_set_back(void **state)
{
    scene *s = *state;
    begin_to_put_back(&s->east);
    GOES_THROUGH(&s->east, "Set the gap to 8 mm again", "Take off your lock");
    assert_turn(turn_of(&s->east), TT_TURN_PUT_BACK);
    assert_true(turn_offers(turn_of(&s->east), "put-back"));
    assert_turn(choose(&s->east, "put-back"), TT_TURN_CALL);
    assert_true(number_in(last_record(s->f, "put-back"), "from") == 6);
    assert_true(number_in(last_record(s->f, "put-back"), "to") == 8);
}

/* It stands where it stands, which whoever comes is told; what was locked for it is given back. */
static void what_can_not_be_set_back_stays_and_is_told(void **state)
{
    scene *s = *state;
    begin_to_put_back(&s->east);
    const tt_turn *turn = choose(&s->east, "could-not");
    assert_turn(turn, TT_TURN_CALL);
    assert_true(turn_tells(turn, TT_PART_RESTORE, "Take off your lock"));
    assert_true(turn_tells(turn, TT_PART_KINDS, "8 mm"));
    assert_string_equal(value_text(last_record(s->f, "tried")->data, "outcome"), "could-not");
    told_talk west = talk_open(s->b, s->f, "west", NULL, "take-over", DESK_MORNING);
    assert_true(turn_tells(turn_of(&west), TT_PART_PUT_BACK, "Set the gap to 8 mm again"));
    talk_close(&west);
}

static void each_step_is_made_safe_anew(void **state)
{
    scene *s = *state;
    first_step_is_done(&s->east);
    const tt_turn *turn = choose(&s->east, "better");
    while (turn->kind == TT_TURN_LOOK_AGAIN) turn = choose(&s->east, "slow");
    assert_turn(turn, TT_TURN_BEFORE_FIX);
    choose(&s->east, "begin");
    GOES_THROUGH(&s->east, LOCKED, "Set it from 6 mm to 4 mm.", "Take off your lock");
}

static void danger_while_it_is_set_lists_what_was_done(void **state)
{
    scene *s = *state;
    choose(&s->east, "begin");
    GOES_THROUGH(&s->east, LOCKED, "Set it from 8 mm to 6 mm.");
    const tt_turn *turn = choose(&s->east, "danger");
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Lock the switch off"));
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Set it from 8 mm to 6 mm."));
    say_it_is_safe(&s->east, "no");
    turn = choose(&s->east, "begin");
    assert_string_equal(turn->prompt, "Tell the desk.");
}

/* In vain, with danger before it is put back: where it was found, and where it stands. */
static void danger_before_it_is_put_back_lists_the_setting(void **state)
{
    scene *s = *state;
    first_step_is_done(&s->east);
    choose(&s->east, "better");
    const tt_turn *turn = choose(&s->east, "danger");
    assert_turn(turn, TT_TURN_STOP);
    assert_true(turn_tells(turn, TT_PART_LOCKED, "8 mm"));
    assert_false(turn_tells(turn, TT_PART_LOCKED, "Lock the switch off")); /* given back */
}

/* Isolated by a line that names no way back; open at the look after the first step, in vain. */
static scene *isolated_without_a_way_back(void **state)
{
    static const char end[] = "    harm:\n      from: [moving-parts]";
    char text[sizeof rules + 200];
    (void)state;
    const char *at = strstr(rules, end);
    assert_non_null(at);
    snprintf(
        text, sizeof text,
        "%.*s    harm:\n      from: [hot-surface]\n      unprotected: {worst: marginal, chance: "
        "remote}\n      protected: {worst: negligible, chance: improbable}\n    protect: "
        "[Gloves]\n    isolate: [\"Shut the fuel valve.\"]\n",
        (int)(at - rules), rules);
    scene *s = one_desk_new(small_book(text));
    *state = s;
    say_it_is_safe(&s->east, "no");
    choose(&s->east, "runs-slowly");
    const tt_turn *turn = read_off(&s->east, 8, "mm");
    if (turn->kind == TT_TURN_REVIEW) choose(&s->east, "right");
    choose(&s->east, "begin");
    GOES_THROUGH(&s->east, "Shut the fuel valve.", "Set it from 8 mm to 6 mm.");
    return s;
}

static void fuel_stays_shut(scene *s, const char *found)
{
    const tt_turn *turn = choose(&s->east, "danger");
    assert_turn(turn, TT_TURN_STOP);
    assert_true(strstr(turn_locked_title(turn), "leave the locks on") != NULL);
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Shut the fuel valve."));
    assert_true(turn_tells(turn, TT_PART_LOCKED, found));
}

static void what_has_no_way_back_stays_locked_between_steps(void **state)
{
    scene *s = isolated_without_a_way_back(state);
    const tt_turn *turn = choose(&s->east, "better");
    while (turn->kind == TT_TURN_LOOK_AGAIN) turn = choose(&s->east, "slow");
    fuel_stays_shut(s, "8 mm");
}

static void what_has_no_way_back_stays_locked_before_it_is_put_back(void **state)
{
    scene *s = isolated_without_a_way_back(state);
    assert_turn(choose(&s->east, "no-change"), TT_TURN_PUT_BACK);
    fuel_stays_shut(s, "8 mm");
}

/* ---- rules that have changed since ---- */

static tt_book *with_steps_of(const char *by)
{
    char text[sizeof rules + 8];
    const char *at = strstr(rules, "by: -2 mm");
    assert_non_null(at);
    snprintf(text, sizeof text, "%.*sby: %s%s", (int)(at - rules), rules, by,
             at + strlen("by: -2 mm"));
    return small_book(text);
}

/* Steps of another size are not those that were taken: left out, and where it was set is said. */
static void steps_of_other_rules_are_not_taken_for_these(void **state)
{
    scene *s = *state;
    first_step_is_done(&s->east);
    choose(&s->east, "no-change");
    tt_book *other = with_steps_of("-3 mm");
    told_talk later = talk_open(other, s->f, "east", NULL, "resume", DESK_MORNING);
    assert_true(turn_tells(turn_of(&later), TT_PART_NOTE, "tried narrow"));
    assert_true(turn_tells(turn_of(&later), TT_PART_NOTE, "It was set from 8 to 6"));
    talk_close(&later);
    tt_book_free(other);
}

static void the_same_rules_take_them(void **state)
{
    scene *s = *state;
    first_step_is_done(&s->east);
    choose(&s->east, "no-change");
    tt_book *same = with_steps_of("-0.2 cm");
    told_talk later = talk_open(same, s->f, "east", NULL, "resume", DESK_MORNING);
    assert_false(turn_tells(turn_of(&later), TT_PART_NOTE, "It was set from"));
    say_it_is_safe(&later, "no");
    assert_turn(turn_of(&later), TT_TURN_PUT_BACK);
    talk_close(&later);
    tt_book_free(same);
}

/* What was put back by rules with other steps: they don't know what was done. */
static void put_back_by_other_rules_is_said(void **state)
{
    scene *s = *state;
    begin_to_put_back(&s->east);
    while (turn_of(&s->east)->kind == TT_TURN_FIX_STEP) choose(&s->east, "done");
    choose(&s->east, "put-back");
    tt_book *other = with_steps_of("-3 mm");
    told_talk later = talk_open(other, s->f, "east", NULL, "resume", DESK_MORNING);
    assert_true(turn_tells(turn_of(&later), TT_PART_NOTE, "It was set from 8 to 6"));
    assert_true(turn_tells(turn_of(&later), TT_PART_NOTE, "It was set from 6 to 8"));
    talk_close(&later);
    tt_book_free(other);
}

static void the_history_tells_the_settings(void **state)
{
    scene *s = *state;
    tt_history all;
    begin_to_put_back(&s->east);
    while (turn_of(&s->east)->kind == TT_TURN_FIX_STEP) choose(&s->east, "done");
    choose(&s->east, "put-back");
    assert_int_equal(tt_talk_history(s->east.talk, &all), TT_OK);
    bool set = false, back = false;
    for (uint32_t i = 0; i < all.count; i++) {
        set =
            set || (strcmp(all.items[i].from, "8 mm") == 0 && strcmp(all.items[i].to, "6 mm") == 0);
        back = back ||
               (strcmp(all.items[i].from, "6 mm") == 0 && strcmp(all.items[i].to, "8 mm") == 0);
    }
    assert_true(set && back);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, one_desk_end)
int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(it_is_made_safe_and_set_back),
        TEST(what_can_not_be_set_back_stays_and_is_told),
        TEST(each_step_is_made_safe_anew),
        TEST(danger_while_it_is_set_lists_what_was_done),
        TEST(danger_before_it_is_put_back_lists_the_setting),
        cmocka_unit_test_teardown(what_has_no_way_back_stays_locked_between_steps, one_desk_end),
        cmocka_unit_test_teardown(what_has_no_way_back_stays_locked_before_it_is_put_back,
                                  one_desk_end),
        TEST(steps_of_other_rules_are_not_taken_for_these),
        TEST(the_same_rules_take_them),
        TEST(put_back_by_other_rules_is_said),
        TEST(the_history_tells_the_settings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
