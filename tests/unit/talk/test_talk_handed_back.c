/* Work of whoever was called, handed back half done to one who may not do it: nothing of it is
 * undone, given back or gone on with by them. */
#include "one_desk.h"
#include "small_book.h"
#include "testing.h"
#include "two_jobs.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char yaml[] =
    "book:\n  title: Pump\n  edition: 1\n  roles: [hand, {fitter: {authorised: yes}}]\n"
    "questions:\n"
    "  look:\n    ask: How does it look?\n    answers: {good: Good, bad: Bad, weak: Weak}\n    "
    "usual: good\n"
    "  strength:\n    ask: How strong is it?\n    reading: pressure\n    unit: psi\n    plausible: "
    "0 to 100 psi\n"
    "symptoms:\n"
    "  bad-look:\n    text: It looks bad\n    heard: [it looks bad]\n    when: {look: bad}\n    "
    "shown-by: {wear: 90 %}\n    otherwise: 1 %\n"
    "  weak-look:\n    text: It looks weak\n    heard: [it looks weak]\n    when: {look: weak}\n   "
    " shown-by: {weakness: 90 %}\n    otherwise: 1 %\n"
    "causes:\n"
    "  wear:\n    text: It is worn\n    how-often: common\n"
    "  weakness:\n    text: It is set too weak\n    how-often: common\n"
    "procedures:\n"
    "  lock:\n    energies: [pressure]\n    tell: Tell everybody.\n    isolate: [\"Hang your lock "
    "on the main valve.\"]\n    release: [\"Let the air out.\"]\n"
    "    prove: [\"See the gauge at 0.\"]\n    restore: [\"Take your own lock off.\", \"Open the "
    "main valve slowly.\"]\n"
    "fixes:\n"
    "  renew:\n    text: Renew the ring\n    steps:\n      - Open the lid.\n      - Turn the "
    "ring.\n    cures: {wear: 90 %}\n    takes: 30 min\n    role: fitter\n"
    "    harm:\n      from: [pressure]\n      unprotected: {worst: critical, chance: occasional}\n "
    "     protected: {worst: marginal, chance: improbable}\n"
    "    protect: [Goggles]\n    procedure: lock\n    put-back: Put the old ring back.\n    "
    "look-again: [look]\n"
    "  set-stronger:\n    text: Set it stronger\n    cures: {weakness: 90 %}\n    takes: 5 min\n   "
    " role: fitter\n    harm: none\n    put-back: Set it back to {strength as found}.\n"
    "    adjust: {reading: strength, by: 5 psi, within: 0 to 60 psi, at-most: 5 times}\n    "
    "look-again: [look]\n";

/* Two under one lockout, of which the second is the fitter's alone. */
static const two_jobs jobs = {.roles = "[{hand: {authorised: yes}}, {fitter: {authorised: yes}}]",
                              .renew = "    role: hand\n    protect: [Gloves]\n",
                              .tighten = "    role: fitter\n    protect: [Gloves]\n"
                                         "    steps: [\"Open the lid.\", \"Turn the screw.\"]\n"};

static const char later[] = "2026-11-29T09:10:00+01:00";

/* The fitter's case, at the first fix. */
static told_talk fitters_case_of(one_desk **desk, tt_book *book, const char *complaint)
{
    *desk = one_desk_new(book);
    told_talk fitter = talk_open((*desk)->b, (*desk)->f, "fitter", "fitter", "join", DESK_MORNING);
    say_it_is_safe(&fitter, "no");
    const tt_turn *turn = choose(&fitter, complaint);
    while (turn->kind == TT_TURN_REVIEW) turn = choose(&fitter, "right");
    if (turn->kind == TT_TURN_QUESTION) turn = read_off(&fitter, 20, "psi");
    while (turn->kind == TT_TURN_REVIEW) turn = choose(&fitter, "right");
    assert_turn(turn, TT_TURN_BEFORE_FIX);
    return fitter;
}

static told_talk fitters_case(one_desk **desk, const char *complaint)
{
    return fitters_case_of(desk, small_book(yaml), complaint);
}

/* At the same device; at another they begin anew, and see what was begun when they open it. */
static told_talk hands_turn(one_desk *desk)
{
    told_talk hand = talk_open(desk->b, desk->f, "fitter", NULL, "resume", later);
    say_it_is_safe(&hand, "no");
    while (turn_of(&hand)->kind == TT_TURN_REVIEW) choose(&hand, "right");
    return hand;
}

static bool turn_says(const tt_turn *turn, const char *words)
{
    for (uint32_t i = 0; i < turn->part_count; i++)
        for (uint32_t k = 0; k < turn->parts[i].item_count; k++)
            if (strstr(turn->parts[i].items[k], words) != NULL) return true;
    return strstr(turn->prompt, words) != NULL;
}

static void end(one_desk *desk, told_talk *hand)
{
    talk_close(hand);
    void *state = desk;
    one_desk_end(&state);
}

static void a_lock_of_another_is_left_on(void **state)
{
    (void)state;
    one_desk *desk;
    told_talk fitter = fitters_case(&desk, "bad-look");
    choose(&fitter, "begin");
    while (turn_of(&fitter)->kind == TT_TURN_FIX_STEP &&
           strcmp(turn_of(&fitter)->prompt, "Turn the ring.") != 0)
        choose(&fitter, "done");
    assert_string_equal(turn_of(&fitter)->prompt, "Turn the ring."); /* the lid is open */
    talk_close(&fitter);
    told_talk hand = hands_turn(desk);
    const tt_turn *turn = turn_of(&hand);
    assert_turn(turn, TT_TURN_CALL);
    assert_true(turn_says(turn, "Somebody else's work stands open there."));
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Hang your lock on the main valve."));
    assert_false(turn_says(turn, "Take your own lock off"));
    assert_false(turn_says(turn, "Open the main valve"));
    turn = choose(&hand, "wait");
    assert_false(turn_says(turn, "Take your own lock off"));
    end(desk, &hand);
}

static void what_another_changed_is_theirs_to_put_back(void **state)
{
    (void)state;
    one_desk *desk;
    told_talk fitter = fitters_case(&desk, "bad-look");
    const tt_turn *turn = choose(&fitter, "begin");
    while (turn->kind == TT_TURN_FIX_STEP) turn = choose(&fitter, "done");
    while (turn->kind == TT_TURN_LOOK_AGAIN) turn = choose(&fitter, "bad");
    assert_turn(turn, TT_TURN_OUTCOME);
    assert_turn(choose(&fitter, "no-change"), TT_TURN_PUT_BACK);
    talk_close(&fitter);
    told_talk hand = hands_turn(desk);
    turn = turn_of(&hand);
    assert_turn(turn, TT_TURN_CALL);
    assert_false(turn_offers(turn, "put-back"));
    assert_true(turn_says(turn, "Put the old ring back.")); /* told to whoever comes */
    assert_false(turn_tells(turn, TT_PART_PUT_BACK, "Put the old ring back."));
    end(desk, &hand);
}

/* Their own job was begun too, but what stands open is not theirs. */
static void the_second_job_of_another_is_left_as_it_is(void **state)
{
    (void)state;
    one_desk *desk;
    told_talk fitter = fitters_case_of(&desk, two_jobs_book(&jobs), "bad-look");
    choose(&fitter, "begin");
    while (turn_of(&fitter)->kind == TT_TURN_FIX_STEP) choose(&fitter, "done");
    assert_turn(turn_of(&fitter), TT_TURN_BEFORE_FIX);
    const tt_turn *turn = choose(&fitter, "together");
    while (turn->kind == TT_TURN_FIX_STEP && strcmp(turn->prompt, "Turn the screw.") != 0)
        turn = choose(&fitter, "done");
    assert_string_equal(turn->prompt, "Turn the screw."); /* the lid is open */
    talk_close(&fitter);
    told_talk hand = hands_turn(desk);
    turn = turn_of(&hand);
    assert_turn(turn, TT_TURN_BEFORE_FIX);
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Open the lid."));
    assert_false(turn_says(turn, "Take off your lock"));
    assert_false(turn_tells(turn, TT_PART_PUT_BACK, "Open the lid."));
    turn = choose(&hand, "could-not");
    assert_string_equal(turn->wrong, "");
    assert_turn(turn, TT_TURN_CALL);
    assert_false(turn_says(turn, "Take off your lock"));
    assert_false(turn_tells(turn, TT_PART_PUT_BACK, "Open the lid."));
    end(desk, &hand);
}

static void a_setting_of_another_is_not_gone_on_with(void **state)
{
    (void)state;
    one_desk *desk;
    told_talk fitter = fitters_case(&desk, "weak-look");
    const tt_turn *turn = choose(&fitter, "begin");
    while (turn->kind == TT_TURN_FIX_STEP) turn = choose(&fitter, "done");
    if (turn->kind == TT_TURN_LOOK_AGAIN) turn = read_off(&fitter, 25, "psi");
    assert_turn(turn, TT_TURN_OUTCOME);
    turn = choose(&fitter, "better");
    talk_close(&fitter);
    told_talk hand = hands_turn(desk);
    turn = turn_of(&hand);
    if (turn->kind == TT_TURN_LOOK_AGAIN || turn->kind == TT_TURN_QUESTION)
        turn = choose(&hand, "weak");
    assert_turn(turn, TT_TURN_CALL);
    end(desk, &hand);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_lock_of_another_is_left_on),
        cmocka_unit_test(what_another_changed_is_theirs_to_put_back),
        cmocka_unit_test(the_second_job_of_another_is_left_as_it_is),
        cmocka_unit_test(a_setting_of_another_is_not_gone_on_with),
    };
    return cmocka_run_group_tests_name("handed back half done", tests, NULL, NULL);
}
