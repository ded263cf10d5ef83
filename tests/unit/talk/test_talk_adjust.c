/* A fix that changes a setting step by step, and what did not help put back, as a person goes
 * through it; and nothing of it lost. */
#include "book_folder.h"
#include "one_desk.h"
#include "testing.h"

#include <stdlib.h>

#include "base/value.h"

static const char later_on[] = "2026-11-29T09:05:00+01:00";

typedef one_desk scene;

static scene *scene_of(const char *folder)
{
    scene *s = one_desk_new(book_folder(folder));
    choose(&s->east, "no");
    return s;
}

static int at_the_regulator(void **state)
{
    scene *s = *state = scene_of("tests/cli/regulator");
    choose(&s->east, "stiff-foam");
    assert_turn(read_off(&s->east, 52, "psi"), TT_TURN_BEFORE_FIX);
    return 0;
}

/* Begins, or goes on with, the fix that is shown, up to the question whether it helped. */
static const tt_turn *do_it(told_talk *t)
{
    if (turn_of(t)->kind == TT_TURN_REVIEW) choose(t, "right");
    if (turn_of(t)->kind == TT_TURN_BEFORE_FIX) choose(t, "begin");
    while (turn_of(t)->kind == TT_TURN_FIX_STEP) choose(t, "done");
    return turn_of(t);
}

/* Better, and all is looked at again: still stiff, the hose does not swell. */
static const tt_turn *say_better(told_talk *t)
{
    choose(t, "better");
    while (turn_of(t)->kind == TT_TURN_LOOK_AGAIN)
        choose(t, strcmp(turn_of(t)->subject, "hose") == 0 ? "no" : "stiff");
    return turn_of(t);
}

static void steps_come_one_at_a_time(void **state)
{
    scene *s = *state;
    choose(&s->east, "begin");
    while (strncmp(turn_of(&s->east)->prompt, "Set it", 6) != 0) choose(&s->east, "done");
    assert_string_equal(turn_of(&s->east)->prompt, "Set it from 52 psi to 47 psi.");
    assert_true(turn_tells(turn_of(&s->east), TT_PART_CHANGE,
                           "Step 1 of at most 3. It was found at 52 psi."));
    assert_turn(do_it(&s->east), TT_TURN_OUTCOME);
    say_better(&s->east);
    assert_turn(choose(&s->east, "begin"), TT_TURN_FIX_STEP);
    assert_string_equal(turn_of(&s->east)->prompt,
                        "Set it from 47 psi to 42 psi."); /* what is isolated stays so */
    assert_int_equal(turn_of(&s->east)->steps, 1);
}

static void the_last_step_leads_back(void **state)
{
    scene *s = *state;
    do_it(&s->east);
    say_better(&s->east);
    do_it(&s->east);
    say_better(&s->east);
    do_it(&s->east);
    const tt_turn *turn = say_better(&s->east);
    assert_turn(turn, TT_TURN_PUT_BACK);
    assert_true(turn_tells(turn, TT_PART_CHANGE, "It was found at 52 psi and stands at 37 psi."));
    turn = choose(&s->east, "put-back");
    assert_string_equal(turn->subject, "new-foamer");
}

static void it_helped_and_the_last_page_says_what_is_different(void **state)
{
    scene *s = *state;
    do_it(&s->east);
    say_better(&s->east);
    do_it(&s->east);
    choose(&s->east, "gone");
    const tt_turn *turn = choose(&s->east, "yes");
    assert_turn(turn, TT_TURN_END);
    assert_true(turn_tells(turn, TT_PART_DIFFERENT, "52 psi found, 42 psi left"));
    assert_false(turn_tells(turn, TT_PART_PUT_BACK, "52 psi"));
}

static void no_change_is_put_back_before_anything_else(void **state)
{
    scene *s = *state;
    do_it(&s->east);
    say_better(&s->east);
    do_it(&s->east);
    assert_turn(choose(&s->east, "no-change"), TT_TURN_PUT_BACK);
    choose(&s->east, "known");
    assert_turn(choose(&s->east, "go-on"), TT_TURN_PUT_BACK);
    assert_string_equal(choose(&s->east, "put-back")->subject, "new-foamer");
    const tt_turn *turn = choose(&s->east, "known");
    assert_true(turn_tells(turn, TT_PART_TRIED, "the trouble was not gone; put back as found"));
    assert_false(turn_tells(turn, TT_PART_DIFFERENT, "psi"));
    assert_int_equal(turn->measured_count, 1);
    assert_int_equal(turn->measured[0].question, TT_NONE); /* it stands where it stood */
    assert_string_equal(turn->measured[0].before, "");
}

static void what_can_t_be_put_back_is_told_to_whom_is_called(void **state)
{
    scene *s = *state;
    do_it(&s->east);
    choose(&s->east, "no-change");
    const tt_turn *turn = choose(&s->east, "could-not");
    assert_turn(turn, TT_TURN_CALL);
    assert_true(strstr(turn->prompt, "52 psi") != NULL);
    assert_true(turn_tells(turn, TT_PART_DIFFERENT, "52 psi found, 47 psi left"));
    assert_int_equal(turn->measured_count, 1);
    assert_string_equal(turn->measured[0].before, "52 psi");
    assert_string_equal(turn->measured[0].after, "47 psi");
    assert_string_equal(turn->choices[0].id, "wait");
    assert_string_equal(choose(&s->east, "put-back")->subject, "new-foamer");
}

static void back_takes_an_outcome_and_what_came_with_it(void **state)
{
    scene *s = *state;
    do_it(&s->east);
    choose(&s->east, "no-change");
    choose(&s->east, "back");
    assert_string_equal(turn_of(&s->east)->subject, "lower-air");
    assert_true(turn_offers_fix(turn_of(&s->east)));
    assert_turn(do_it(&s->east), TT_TURN_OUTCOME);
}

static void taken_up_in_the_middle_it_goes_on_there(void **state)
{
    scene *s = *state;
    do_it(&s->east);
    say_better(&s->east);
    told_talk again = talk_open(s->b, s->f, "east", NULL, "resume", later_on);
    assert_true(turn_tells(turn_of(&again), TT_PART_KINDS, "hose"));
    const tt_turn *turn = choose(&again, "no");
    assert_turn(turn, TT_TURN_BEFORE_FIX);
    assert_string_equal(turn->subject, "lower-air");
    choose(&again, "begin");
    while (strncmp(turn_of(&again)->prompt, "Set it", 6) != 0)
        choose(&again, "done"); /* from isolating on: a new sitting */
    assert_string_equal(turn_of(&again)->prompt, "Set it from 47 psi to 42 psi.");
    talk_close(&again);
}

static void a_step_is_kept_with_what_it_set(void **state)
{
    scene *s = *state;
    do_it(&s->east);
    choose(&s->east, "no-change");
    choose(&s->east, "put-back");
    double from = 0, to = 0;
    const tt_value *set = value_get(last_record(s->f, "tried")->data, "set");
    assert_true(value_number(set, "from", &from) && value_number(set, "to", &to) && from == 52 &&
                to == 47);
    set = value_get(last_record(s->f, "put-back")->data, "set");
    assert_true(value_number(set, "from", &from) && value_number(set, "to", &to) && from == 47 &&
                to == 52);
    assert_string_equal(value_text(set, "unit"), "psi");
}

static void what_a_fix_set_is_no_answer_to_change(void **state)
{
    scene *s = *state;
    do_it(&s->east);
    say_better(&s->east);
    const tt_turn *turn = choose(&s->east, "change");
    assert_turn(turn, TT_TURN_CHANGE);
    assert_false(turn_offers(turn, "foam-air"));
    assert_true(turn_offers(turn, "hose"));
}

#define AT_REGULATOR(name) cmocka_unit_test_setup_teardown(name, at_the_regulator, one_desk_end)
int main(void)
{
    const struct CMUnitTest tests[] = {
        AT_REGULATOR(steps_come_one_at_a_time),
        AT_REGULATOR(the_last_step_leads_back),
        AT_REGULATOR(it_helped_and_the_last_page_says_what_is_different),
        AT_REGULATOR(no_change_is_put_back_before_anything_else),
        AT_REGULATOR(what_can_t_be_put_back_is_told_to_whom_is_called),
        AT_REGULATOR(back_takes_an_outcome_and_what_came_with_it),
        AT_REGULATOR(taken_up_in_the_middle_it_goes_on_there),
        AT_REGULATOR(a_step_is_kept_with_what_it_set),
        AT_REGULATOR(what_a_fix_set_is_no_answer_to_change),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
