/* Fixes that lock out: what is locked is shown while danger stands, whoever was interrupted and
 * whoever comes anew begins at isolating, and putting back does so too. What an attendant must not
 * look at is not asked of them. */
#include "one_desk.h"
#include "small_book.h"
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/value.h"

static const char yaml[] =
    "book:\n  title: Pump\n  edition: 1\n  roles: [{hand: {authorised: yes}}, {fitter: "
    "{authorised: yes}}]\n"
    "questions:\n"
    "  look:\n    ask: How does it look?\n    answers: {good: Good, bad: Bad, odd: Odd}\n    "
    "usual: good\n"
    "  gauge:\n    ask: What does the gauge inside read?\n    reading: pressure\n    unit: psi\n   "
    " plausible: 0 to 100 psi\n    role: fitter\n"
    "symptoms:\n"
    "  bad-look:\n    text: It looks bad\n    heard: [it looks bad]\n    when: {look: bad}\n    "
    "shown-by: {wear: 90 %}\n    otherwise: 1 %\n"
    "  odd-look:\n    text: It looks odd\n    heard: [it looks odd]\n    when: {look: odd}\n    "
    "shown-by: {slack: 90 %}\n    otherwise: 1 %\n"
    "  low:\n    text: The gauge is low\n    when: {gauge: below 20 psi}\n    shown-by: {wear: 60 "
    "%}\n    otherwise: 5 %\n"
    "causes:\n"
    "  wear:\n    text: It is worn\n    how-often: common\n"
    "  slack:\n    text: It is slack\n    how-often: common\n"
    "fixes:\n"
    "  renew:\n    text: Turn the worn ring\n    steps:\n      - Open the lid.\n      - Turn the "
    "ring.\n    cures: {wear: 90 %}\n    takes: 5 min\n    role: hand\n"
    "    harm:\n      from: [hot-surface]\n      unprotected: {worst: marginal, chance: remote}\n  "
    "    protected: {worst: negligible, chance: improbable}\n"
    "    protect: [Gloves]\n    isolate:\n      - Switch off at the box.\n      - Hang your lock "
    "on it.\n    put-back: Turn the ring back.\n    look-again: [look, gauge]\n"
    "  tighten:\n    text: Tighten the belt\n    cures: {slack: 90 %}\n    takes: 5 min\n    role: "
    "hand\n    harm: none\n    put-back: not needed\n";

static const char morning[] = DESK_MORNING;

typedef one_desk scene;

static int set_up(void **state)
{
    scene *s = one_desk_new(small_book(yaml));
    say_it_is_safe(&s->east, "no");
    choose(&s->east, "bad-look");
    const tt_turn *turn = turn_of(&s->east);
    if (turn->kind == TT_TURN_REVIEW) turn = choose(&s->east, "right");
    assert_turn(turn, TT_TURN_BEFORE_FIX);
    assert_string_equal(turn->subject, "renew");
    *state = s;
    return 0;
}

static void lock_both(told_talk *t)
{
    assert_string_equal(choose(t, "begin")->prompt, "Switch off at the box.");
    assert_string_equal(choose(t, "done")->prompt, "Hang your lock on it.");
    assert_string_equal(choose(t, "done")->prompt, "Open the lid.");
}

static void the_danger_page_lists_what_is_locked(void **state)
{
    scene *s = *state;
    lock_both(&s->east);
    const tt_turn *turn = choose(&s->east, "danger");
    assert_string_equal(turn_locked_title(turn),
                        "Turn the worn ring: leave the locks on. Done so far:");
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Switch off at the box."));
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Hang your lock on it."));
    assert_false(turn_tells(turn, TT_PART_LOCKED, "Open the lid."));
    say_it_is_safe(&s->east, "no");
    assert_turn(turn_of(&s->east), TT_TURN_BEFORE_FIX);
    assert_string_equal(choose(&s->east, "begin")->prompt, "Switch off at the box.");
}

/* At what isolates: a question is no "done", and what is no reply may be that it did not hold. */
static void words_at_a_lock_are_no_done(void **state)
{
    static const char *const doubts[] = {"it still runs", "done but it still runs",
                                         "the needle stays at 20", "sigue con presion",
                                         "nothing moved, i think"};
    scene *s = *state;
    const tt_turn *turn = choose(&s->east, "begin");
    assert_string_equal(turn->prompt, "Switch off at the box.");
    turn = type(&s->east, "done?");
    assert_turn(turn, TT_TURN_FIX_STEP);
    assert_string_equal(turn->prompt, "Switch off at the box.");
    assert_string_equal(type(&s->east, "done")->prompt, "Hang your lock on it.");
    for (size_t i = 0; i < sizeof doubts / sizeof doubts[0]; i++) {
        assert_turn(type(&s->east, doubts[i]), TT_TURN_DANGER);
        say_it_is_safe(&s->east, "no");
        turn = turn_of(&s->east);
        if (turn->kind == TT_TURN_BEFORE_FIX) turn = choose(&s->east, "begin");
        assert_string_equal(turn->prompt, "Switch off at the box."); /* from the beginning */
        type(&s->east, "done");
    }
}

/* The same words again, once danger is ruled out: still about this step. */
static void words_said_twice_at_a_lock_answer_nothing_else(void **state)
{
    static const char *const doubts[] = {"it is not off", "no está cortado", "i cant find the box"};
    scene *s = *state;
    for (size_t i = 0; i < sizeof doubts / sizeof doubts[0]; i++) {
        choose(&s->east, "begin");
        assert_turn(type(&s->east, doubts[i]), TT_TURN_DANGER);
        say_it_is_safe(&s->east, "no");
        if (turn_of(&s->east)->kind == TT_TURN_BEFORE_FIX) choose(&s->east, "begin");
        const tt_turn *turn = type(&s->east, doubts[i]);
        assert_turn(turn, TT_TURN_FIX_STEP);
        assert_string_equal(turn->prompt, "Switch off at the box.");
        assert_true(turn_tells(turn, TT_PART_NOTE, doubts[i]));
        choose(&s->east, "back");
    }
}

/* At a step of the work too: "it looks good" is an answer of this book, and not to this. */
static void words_at_a_step_are_about_that_step(void **state)
{
    static const char *const undone[] = {"it does not look good",
                                         "no se ve bien",
                                         "done, but it does not turn",
                                         "listo, pero falta algo",
                                         "not sure which lid it is",
                                         "done, the guard is not off yet",
                                         "it wont open"};
    scene *s = *state;
    lock_both(&s->east);
    for (size_t i = 0; i < sizeof undone / sizeof undone[0]; i++) {
        const tt_turn *turn = type(&s->east, undone[i]);
        assert_turn(turn, TT_TURN_FIX_STEP);
        assert_string_equal(turn->prompt, "Open the lid.");
        assert_true(turn_tells(turn, TT_PART_NOTE, undone[i]));
    }
    assert_string_equal(type(&s->east, "done, no problem")->prompt, "Turn the ring.");
}

static void with_a_lock_still_on_nothing_is_gone(void **state)
{
    static const char *const unfinished[] = {
        "yes, lock still on", "yes, my padlock is on it", "si, falta el candado",
        "it is gone, the lid is still open", "my lock is still on it"};
    scene *s = *state;
    lock_both(&s->east);
    const tt_turn *turn = turn_of(&s->east);
    while (turn->kind == TT_TURN_FIX_STEP) turn = choose(&s->east, "done");
    for (size_t i = 0; i < sizeof unfinished / sizeof unfinished[0]; i++) {
        turn = type(&s->east, unfinished[i]);
        assert_turn(turn, TT_TURN_OUTCOME);
        assert_true(turn_tells(turn, TT_PART_NOTE, unfinished[i]));
    }
    assert_turn(type(&s->east, "yes, all locks are off"), TT_TURN_CAUSE);
}

static void with_a_guard_off_danger_is_asked_and_nothing_is_gone(void **state)
{
    scene *s = *state;
    lock_both(&s->east);
    while (turn_of(&s->east)->kind == TT_TURN_FIX_STEP) choose(&s->east, "done");
    assert_turn(type(&s->east, "gone, but the guard is off"), TT_TURN_DANGER);
    say_it_is_safe(&s->east, "no");
    assert_turn(turn_of(&s->east), TT_TURN_BEFORE_FIX);
}

static void what_has_not_helped_is_heard_with_more(void **state)
{
    scene *s = *state;
    lock_both(&s->east);
    const tt_turn *turn = turn_of(&s->east);
    while (turn->kind == TT_TURN_FIX_STEP) turn = choose(&s->east, "done");
    assert_turn(type(&s->east, "no, still the same"), TT_TURN_PUT_BACK);
}

static void without_what_is_worn_it_is_not_done(void **state)
{
    static const char *const lacks[] = {"i have no gloves", "no hay guantes", "my gloves are torn"};
    scene *s = *state;
    for (size_t i = 0; i < sizeof lacks / sizeof lacks[0]; i++) {
        const tt_turn *turn = type(&s->east, lacks[i]);
        assert_int_not_equal(turn->kind, TT_TURN_FIX_STEP);
        assert_false(turn->kind == TT_TURN_BEFORE_FIX && strcmp(turn->subject, "renew") == 0);
        turn = choose(&s->east, "back");
        assert_turn(turn, TT_TURN_BEFORE_FIX);
        assert_string_equal(turn->subject, "renew");
    }
    choose(&s->east, "begin");
    assert_int_not_equal(type(&s->east, "my lock does not fit")->kind, TT_TURN_FIX_STEP);
}

static void taken_up_again_it_is_still_listed(void **state)
{
    scene *s = *state;
    lock_both(&s->east);
    told_talk later = talk_open(s->b, s->f, "east", NULL, "resume", "2026-11-30T09:00:00+01:00");
    assert_true(turn_tells(turn_of(&later), TT_PART_LOCKED, "Hang your lock on it."));
    assert_true(turn_tells(choose(&later, "danger"), TT_PART_LOCKED, "Hang your lock on it."));
    talk_close(&later);
}

static const tt_turn *go_through(told_talk *t)
{
    const tt_turn *turn = choose(t, "begin");
    while (turn->kind == TT_TURN_FIX_STEP) turn = choose(t, "done");
    return turn;
}

/* The reading that the fix is about is the fitter's to take. */
static void nobody_is_asked_what_is_not_theirs_to_look_at(void **state)
{
    scene *s = *state;
    const tt_turn *turn = go_through(&s->east);
    assert_turn(turn, TT_TURN_OUTCOME);
    told_talk fitter = talk_open(s->b, s->f, "fitter", "fitter", "take-over", morning);
    say_it_is_safe(&fitter, "no");
    turn = turn_of(&fitter);
    while (turn->kind == TT_TURN_REVIEW) turn = choose(&fitter, "right");
    assert_string_equal(turn->subject, "gauge"); /* what it was before */
    talk_close(&fitter);
}

static void whoever_puts_it_back_at_once_has_it_locked_still(void **state)
{
    scene *s = *state;
    go_through(&s->east);
    const tt_turn *turn = choose(&s->east, "no-change");
    assert_turn(turn, TT_TURN_PUT_BACK);
    assert_false(turn_tells(turn, TT_PART_ISOLATE, "Switch off at the box."));
}

static void after_danger_putting_back_begins_at_isolating(void **state)
{
    scene *s = *state;
    go_through(&s->east);
    choose(&s->east, "no-change");
    choose(&s->east, "danger");
    say_it_is_safe(&s->east, "no");
    assert_turn(turn_of(&s->east), TT_TURN_PUT_BACK);
    assert_true(turn_tells(turn_of(&s->east), TT_PART_ISOLATE, "Switch off at the box."));
}

static void after_worse_putting_back_begins_at_isolating(void **state)
{
    scene *s = *state;
    lock_both(&s->east);
    assert_turn(choose(&s->east, "worse"), TT_TURN_DANGER);
    say_it_is_safe(&s->east, "no");
    assert_turn(turn_of(&s->east), TT_TURN_PUT_BACK);
    assert_true(turn_tells(turn_of(&s->east), TT_PART_ISOLATE, "Hang your lock on it."));
    choose(&s->east, "put-back");
    assert_turn(turn_of(&s->east), TT_TURN_LOOK_AGAIN); /* and then all is looked at afresh */
    assert_string_equal(turn_of(&s->east)->subject, "look");
}

static void worse_with_danger_leaves_it_locked_and_calls(void **state)
{
    scene *s = *state;
    lock_both(&s->east);
    choose(&s->east, "worse");
    const tt_turn *turn = choose(&s->east, "yes");
    assert_turn(turn, TT_TURN_STOP);
    assert_false(turn_offers(turn, "put-back"));
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Hang your lock on it."));
}

/* Begun anew, and danger again before the first lock is looked at: it hangs there still. */
static void begun_anew_what_is_locked_is_still_listed(void **state)
{
    scene *s = *state;
    lock_both(&s->east);
    choose(&s->east, "done"); /* the lid is open */
    choose(&s->east, "danger");
    say_it_is_safe(&s->east, "no");
    const tt_turn *turn = choose(&s->east, "begin");
    assert_string_equal(turn->prompt, "Switch off at the box.");
    turn = choose(&s->east, "danger");
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Hang your lock on it."));
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Open the lid."));
    say_it_is_safe(&s->east, "no");
    choose(&s->east, "begin");
    choose(&s->east, "back"); /* not begun anew after all */
    turn = choose(&s->east, "danger");
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Open the lid."));
    say_it_is_safe(&s->east, "no");
    choose(&s->east, "begin");
    turn = choose(&s->east, "could-not");
    assert_true(turn_tells(turn, TT_PART_PUT_BACK, "Open the lid."));
    assert_true(turn_tells(turn, TT_PART_PUT_BACK, "Hang your lock on it."));
    turn = choose(&s->east, "danger");
    for (uint32_t i = 0; i < turn->part_count; i++)
        assert_int_not_equal(turn->parts[i].kind, TT_PART_LOCKED);
}

static void another_desk_begins_at_isolating_when_it_puts_back(void **state)
{
    scene *s = *state;
    told_talk west = talk_open(s->b, s->f, "west", NULL, "join", morning);
    say_it_is_safe(&west, "no");
    go_through(&s->east);
    choose(&s->east, "no-change");
    talk_news_of_others(&west);
    assert_turn(turn_of(&west), TT_TURN_PUT_BACK);
    assert_true(turn_tells(turn_of(&west), TT_PART_ISOLATE, "Switch off at the box."));
    talk_close(&west);
}

static void a_fix_that_an_answer_overtakes_is_undone_first(void **state)
{
    scene *s = *state;
    lock_both(&s->east);
    choose(&s->east, "change");
    choose(&s->east, "look");
    const tt_turn *turn = choose(&s->east, "odd");
    assert_turn(turn, TT_TURN_BEFORE_FIX);
    assert_string_equal(turn->subject, "tighten");
    assert_true(turn_tells(turn, TT_PART_PUT_BACK, "Hang your lock on it."));
    turn = choose(&s->east, "back"); /* takes the answer back, not a step of what is not shown */
    assert_turn(turn, TT_TURN_FIX_STEP);
    assert_string_equal(turn->prompt, "Open the lid.");
}

static void back_at_the_first_thing_is_not_begun(void **state)
{
    scene *s = *state;
    choose(&s->east, "begin");
    assert_turn(choose(&s->east, "back"), TT_TURN_BEFORE_FIX);
    assert_null(last_record(s->f, "back")); /* no answer is lost */
}

static void who_is_called_may_say_that_it_is_safe_now(void **state)
{
    scene *s = *state;
    lock_both(&s->east);
    assert_false(turn_offers(choose(&s->east, "danger"), "made-safe"));
    told_talk fitter = talk_open(s->b, s->f, "fitter", "fitter", "join", morning);
    assert_true(turn_offers(turn_of(&fitter), "made-safe"));
    assert_turn(choose(&fitter, "made-safe"), TT_TURN_END);
    talk_close(&fitter);
    told_talk later = talk_open(s->b, s->f, "west", NULL, "resume", morning);
    assert_turn(turn_of(&later), TT_TURN_CLOSED);
    assert_turn(choose(&later, "reopen"), TT_TURN_STOP); /* who opens it answers for it */
    talk_close(&later);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, one_desk_end)
int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(words_at_a_lock_are_no_done),
        TEST(words_said_twice_at_a_lock_answer_nothing_else),
        TEST(words_at_a_step_are_about_that_step),
        TEST(with_a_lock_still_on_nothing_is_gone),
        TEST(with_a_guard_off_danger_is_asked_and_nothing_is_gone),
        TEST(what_has_not_helped_is_heard_with_more),
        TEST(without_what_is_worn_it_is_not_done),
        TEST(the_danger_page_lists_what_is_locked),
        TEST(taken_up_again_it_is_still_listed),
        TEST(nobody_is_asked_what_is_not_theirs_to_look_at),
        TEST(whoever_puts_it_back_at_once_has_it_locked_still),
        TEST(after_danger_putting_back_begins_at_isolating),
        TEST(after_worse_putting_back_begins_at_isolating),
        TEST(worse_with_danger_leaves_it_locked_and_calls),
        TEST(begun_anew_what_is_locked_is_still_listed),
        TEST(another_desk_begins_at_isolating_when_it_puts_back),
        TEST(a_fix_that_an_answer_overtakes_is_undone_first),
        TEST(back_at_the_first_thing_is_not_begun),
        TEST(who_is_called_may_say_that_it_is_safe_now),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
