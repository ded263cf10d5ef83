/* A fix by procedures, line by line in the order of 29 CFR 1910.147 (c)(9), (d), (e): told,
 * isolated, let go, proved; then the work; then given back, by the site's own names where it has
 * some. What did not help is made safe again before it is put back. */
#include "one_desk.h"
#include "small_book.h"
#include "testing.h"

#include <stdlib.h>
#include <string.h>

#include "base/value.h"

static const char yaml[] =
    "book:\n  title: Pump\n  edition: 1\n  roles: [{hand: {authorised: yes}}]\n"
    "questions:\n"
    "  look:\n    ask: How does it look?\n    answers: {good: Good, bad: Bad, odd: Odd}\n    "
    "usual: "
    "good\n"
    "symptoms:\n"
    "  bad-look:\n    text: It looks bad\n    heard: [it looks bad]\n    when: {look: bad}\n    "
    "shown-by: {wear: 90 %}\n    otherwise: 1 %\n"
    "causes:\n"
    "  wear:\n    text: It is worn\n    how-often: common\n"
    "  slack:\n    text: It is slack\n    how-often: rare\n"
    "procedures:\n"
    "  lock-power:\n    energies: [electricity]\n    tell: Tell the desk.\n"
    "    isolate: Switch off at the box\n    release: Wait five minutes\n    prove: Press start\n"
    "    restore: Take off your lock\n    wear: [Gloves]\n"
    "  lock-water:\n    energies: [pressure]\n    tell: Tell the kitchen.\n"
    "    isolate: Shut the valve\n    release: Open the drain\n    prove: Read the gauge\n"
    "    restore: Open the valve\n"
    "fixes:\n"
    "  renew:\n    text: Turn the ring\n    steps:\n      - Open the lid.\n      - Turn it.\n"
    "    once-running: Watch it run\n"
    "    cures: {wear: 90 %}\n    takes: 5 min\n    role: hand\n"
    "    harm:\n      from: [electricity, pressure]\n      unprotected: {worst: marginal, chance: "
    "remote}\n      protected: {worst: negligible, chance: improbable}\n"
    "    procedure: [lock-power, lock-water]\n    put-back: Turn it back\n    look-again: [look]\n";

static const char *const before[] = {"Tell the desk.", "Tell the kitchen.", "Switch off at the box",
                                     "Shut the valve", "Wait five minutes", "Open the drain",
                                     "Press start",    "Read the gauge",    NULL};
static const char *const work[] = {"Open the lid.", "Turn it.", NULL};
static const char *const after[] = {"Open the valve", "Take off your lock", NULL};

typedef one_desk scene;

static int set_up(void **state)
{
    scene *s = one_desk_new(small_book(yaml));
    say_it_is_safe(&s->east, "no");
    choose(&s->east, "bad-look");
    if (turn_of(&s->east)->kind == TT_TURN_REVIEW) choose(&s->east, "right");
    assert_turn(turn_of(&s->east), TT_TURN_BEFORE_FIX);
    *state = s;
    return 0;
}

static void all_of_it(told_talk *t)
{
    choose(t, "begin");
    goes_through(t, before);
    goes_through(t, work);
    goes_through(t, after);
    goes_through(t, (const char *const[]){"Watch it run", NULL});
    assert_turn(turn_of(t), TT_TURN_OUTCOME);
}

static void it_is_isolated_proved_and_given_back(void **state)
{
    scene *s = *state;
    assert_true(turn_tells(turn_of(&s->east), TT_PART_WEAR, "Gloves"));
    all_of_it(&s->east);
    assert_turn(choose(&s->east, "gone"), TT_TURN_CAUSE);
}

static void the_whole_of_it_is_shown_before(void **state)
{
    scene *s = *state;
    const tt_turn *turn = choose(&s->east, "whole");
    assert_turn(turn, TT_TURN_PROCEDURE);
    assert_true(turn_tells(turn, TT_PART_ANNOUNCE, "Tell the kitchen."));
    assert_true(turn_tells(turn, TT_PART_ISOLATE, "Shut the valve"));
    assert_true(turn_tells(turn, TT_PART_RELEASE, "Open the drain"));
    assert_true(turn_tells(turn, TT_PART_PROVE, "Read the gauge"));
    assert_true(turn_tells(turn, TT_PART_STEP, "Turn it."));
    assert_true(turn_tells(turn, TT_PART_RESTORE, "Take off your lock"));
    assert_turn(choose(&s->east, "go-on"), TT_TURN_BEFORE_FIX);
}

static void what_did_not_help_is_made_safe_before_it_is_put_back(void **state)
{
    scene *s = *state;
    all_of_it(&s->east);
    const tt_turn *turn = choose(&s->east, "no-change");
    assert_turn(turn, TT_TURN_PUT_BACK);
    assert_false(turn_offers(turn, "put-back"));
    choose(&s->east, "begin");
    goes_through(&s->east, before);
    goes_through(&s->east, (const char *const[]){"Turn it back", NULL});
    goes_through(&s->east, after);
    assert_turn(turn_of(&s->east), TT_TURN_PUT_BACK);
    assert_true(turn_offers(turn_of(&s->east), "put-back"));
    choose(&s->east, "put-back");
    assert_true(turn_of(&s->east)->kind != TT_TURN_PUT_BACK);
}

static void danger_in_putting_back_begins_it_again(void **state)
{
    scene *s = *state;
    all_of_it(&s->east);
    choose(&s->east, "no-change");
    choose(&s->east, "begin");
    for (int i = 0; i < 4; i++) choose(&s->east, "done");
    const tt_turn *turn = choose(&s->east, "danger");
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Shut the valve"));
    say_it_is_safe(&s->east, "no");
    assert_turn(turn_of(&s->east), TT_TURN_PUT_BACK);
    choose(&s->east, "begin");
    assert_string_equal(turn_of(&s->east)->prompt, before[0]);
}

static void who_can_not_go_on_gives_it_back_as_the_procedure_says(void **state)
{
    scene *s = *state;
    choose(&s->east, "begin");
    goes_through(&s->east, before);
    choose(&s->east, "done");
    const tt_turn *turn = choose(&s->east, "could-not");
    bool undone = false, given_back = false, relocked = false;
    for (uint32_t i = 0; i < turn->news_count; i++) {
        undone = undone || strcmp(turn->news[i].items[0], "Open the lid.") == 0;
        given_back = given_back || strcmp(turn->news[i].items[0], "Take off your lock") == 0;
        relocked = relocked || strcmp(turn->news[i].items[0], "Switch off at the box") == 0;
    }
    assert_true(undone && given_back && !relocked);
}

static void puts_back_up_to(told_talk *t, const char *line)
{
    all_of_it(t);
    choose(t, "no-change");
    choose(t, "begin");
    while (strcmp(turn_of(t)->prompt, line) != 0) {
        assert_turn(turn_of(t), TT_TURN_FIX_STEP);
        choose(t, "done");
    }
}

/* It stays as it is, and that is kept; what was isolated for it is given back. */
static void who_can_not_put_it_back_gives_back_what_is_locked(void **state)
{
    scene *s = *state;
    puts_back_up_to(&s->east, "Turn it back");
    const tt_turn *turn = choose(&s->east, "could-not");
    assert_turn(turn, TT_TURN_CALL);
    assert_true(turn_tells(turn, TT_PART_RESTORE, "Take off your lock"));
    assert_true(turn_tells(turn, TT_PART_RESTORE, "Open the valve"));
    assert_string_equal(value_text(last_record(s->f, "left")->data, "fix"), "renew");
    assert_string_equal(choose(&s->east, "back")->prompt, "Turn it back");
    choose(&s->east, "could-not");
    turn = choose(&s->east, "danger"); /* it is over: of its lock nothing is told any more */
    for (uint32_t i = 0; i < turn->part_count; i++)
        assert_int_not_equal(turn->parts[i].kind, TT_PART_LOCKED);
}

static void before_anything_is_isolated_nothing_is_given_back(void **state)
{
    scene *s = *state;
    puts_back_up_to(&s->east, before[0]);
    const tt_turn *turn = choose(&s->east, "could-not");
    assert_turn(turn, TT_TURN_CALL);
    assert_false(turn_tells(turn, TT_PART_RESTORE, ""));
    assert_non_null(last_record(s->f, "left"));
}

/* "Undo these: turn it back" would turn it once more. */
static void what_was_put_back_is_not_said_to_be_undone(void **state)
{
    scene *s = *state;
    puts_back_up_to(&s->east, "Take off your lock");
    const tt_turn *turn = choose(&s->east, "could-not");
    assert_turn(turn, TT_TURN_CALL);
    for (uint32_t i = 0; i < turn->news_count; i++)
        assert_string_not_equal(turn->news[i].items[0], "Turn it back");
    assert_true(turn_tells(turn, TT_PART_RESTORE, "Take off your lock"));
}

static void once_given_back_nothing_is_said_to_be_locked(void **state)
{
    scene *s = *state;
    all_of_it(&s->east);
    const tt_turn *turn = choose(&s->east, "danger");
    assert_false(turn_tells(turn, TT_PART_LOCKED, "Switch off at the box"));
    assert_true(turn_tells(turn, TT_PART_LOCKED, "Turn it."));
}

/* Step by step: to the page that offers it, then to what came of the fix. */
static void back_from_putting_back_leads_to_the_outcome(void **state)
{
    enum { MOST_BACK = 30 };
    for (unsigned steps = 0; steps < 4; steps++) {
        scene *s = *state;
        all_of_it(&s->east);
        assert_turn(choose(&s->east, "no-change"), TT_TURN_PUT_BACK);
        choose(&s->east, "begin");
        for (unsigned i = 0; i < steps; i++) choose(&s->east, "done");
        for (unsigned i = steps; i > 0; i--)
            assert_string_equal(choose(&s->east, "back")->prompt, before[i - 1]);
        assert_turn(choose(&s->east, "back"), TT_TURN_PUT_BACK);
        assert_turn(choose(&s->east, "back"), TT_TURN_OUTCOME);
        assert_turn(choose(&s->east, "back"), TT_TURN_FIX_STEP);
        assert_string_equal(turn_of(&s->east)->prompt, "Watch it run");
        const tt_turn *turn = turn_of(&s->east);
        for (unsigned i = 0; i < MOST_BACK && turn->kind == TT_TURN_FIX_STEP; i++)
            turn = choose(&s->east, "back");
        assert_turn(turn, TT_TURN_BEFORE_FIX); /* and never to the outcome again */
        one_desk_end(state);
        set_up(state);
    }
}

static const char read_after[] =
    "book:\n  title: Pump\n  edition: 1\n  roles: [{hand: {authorised: yes}}]\n"
    "questions:\n"
    "  gap:\n    ask: How wide is the gap?\n    reading: length\n    unit: mm\n"
    "    plausible: 0 to 20 mm\n"
    "symptoms:\n"
    "  wide:\n    text: The gap is wide\n    heard: [wide gap]\n    when: {gap: above 9 mm}\n"
    "    shown-by: {wear: 90 %}\n    otherwise: 1 %\n"
    "causes:\n  wear:\n    text: It is worn\n    how-often: common\n"
    "procedures:\n"
    "  lock:\n    energies: [moving-parts]\n    tell: Tell the desk.\n"
    "    isolate: Lock the switch off\n    release: Let it come to rest\n    prove: Press start\n"
    "    restore: Take off your lock\n"
    "fixes:\n"
    "  renew:\n    text: Turn the ring\n    cures: {wear: 90 %}\n    takes: 5 min\n"
    "    role: hand\n    put-back: Turn it back\n    look-again: [gap]\n"
    "    harm:\n      from: [moving-parts]\n      unprotected: {worst: marginal, chance: remote}\n"
    "      protected: {worst: negligible, chance: improbable}\n    procedure: lock\n";

/* What was read after the fix is not read anew by putting it back. */
static void what_was_read_stays_on_the_way_back(void **state)
{
    one_desk_end(state);
    scene *s = *state = one_desk_new(small_book(read_after));
    say_it_is_safe(&s->east, "no");
    const tt_turn *turn = choose(&s->east, "wide");
    if (turn->kind == TT_TURN_QUESTION) turn = read_off(&s->east, 12, "mm");
    while (turn->kind == TT_TURN_REVIEW) turn = choose(&s->east, "right");
    assert_turn(turn, TT_TURN_BEFORE_FIX);
    for (turn = choose(&s->east, "begin"); turn->kind == TT_TURN_FIX_STEP;)
        turn = choose(&s->east, "done");
    assert_turn(turn, TT_TURN_LOOK_AGAIN);
    assert_turn(read_off(&s->east, 11, "mm"), TT_TURN_OUTCOME);
    choose(&s->east, "no-change");
    const char *const on_the_way[] = {"begin", "done", "back", "back", "back"};
    for (size_t i = 0; i < sizeof on_the_way / sizeof *on_the_way; i++) {
        const tt_measured *all;
        uint32_t count;
        choose(&s->east, on_the_way[i]);
        assert_int_equal(tt_talk_measured(s->east.talk, &all, &count), TT_OK);
        assert_int_equal(count, i < 4 ? 1 : 0); /* the outcome is taken back at last */
        if (count > 0) assert_string_equal(all[0].after, "11 mm");
    }
    assert_turn(turn_of(&s->east), TT_TURN_OUTCOME);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, one_desk_end)
int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(it_is_isolated_proved_and_given_back),
        TEST(the_whole_of_it_is_shown_before),
        TEST(what_did_not_help_is_made_safe_before_it_is_put_back),
        TEST(danger_in_putting_back_begins_it_again),
        TEST(who_can_not_go_on_gives_it_back_as_the_procedure_says),
        TEST(who_can_not_put_it_back_gives_back_what_is_locked),
        TEST(before_anything_is_isolated_nothing_is_given_back),
        TEST(what_was_put_back_is_not_said_to_be_undone),
        TEST(once_given_back_nothing_is_said_to_be_locked),
        TEST(back_from_putting_back_leads_to_the_outcome),
        TEST(what_was_read_stays_on_the_way_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
