/* `ask --telephone`: what is read aloud, and what callers say without being asked. */
#include "run_telltale.h"

#include "turn_client.h"

#define AIR "'" TT_SOURCE_DIR "/tests/cli/regulator'" /* a path may hold spaces */

static int call(const char *lines, const char *more)
{
    return sh("printf '%s\\n' | $T ask --telephone --cases cases %s >out 2>err", lines, more);
}

static void questions_are_read_aloud(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nnone of these\\nunsure", "$WELL"), 3);
    assert_holds("out", "Say: \"Is there smoke at the pump?\"");
    assert_holds("out",
                 "\"Is it: Nothing at all; It starts and stops every few seconds; A steady run; "
                 "or It stops and never starts?\"");
    assert_holds("out", "  Stand beside it for one minute. Touch nothing.");
}

/* 1 minute for the question, 5 for a fix that helps with 74 %, 20 for one with 10 %: 6.7. */
static void minutes_to_expect_are_shown(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nstiff foam\\n1", AIR), 3);
    assert_holds("out", "Question 2; expect about 7 minutes more, or longer");
}

static void several_answers_count_once_said_back(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nstiff foam, air 45 psi, hose no\\n1\\n1\\nknown", AIR), 3);
    assert_holds("out",
                 "Say back:\n  - What does the gauge at the foam air regulator read? 45 psi\n"
                 "  - Does the hose swell? No\nIs that right?");
    assert_holds("out", "Is it this: The foam is too stiff?");
    assert_holds("out",
                 "  - What does the gauge at the foam air regulator read? "
                 "45 psi\n  - How does the foam look? Stiff, it breaks off in lumps\n"
                 "  - Does the hose swell? No\n");
}

static void what_is_not_right_does_not_count(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nair 45 psi, hose no\\n2\\nknown", AIR), 3);
    assert_false(holds("out", "What is known so far:\n  - What does the gauge"));
    assert_int_equal(call("no\\nair 45 psi, hose no\\n3\\nknown", AIR), 3);
    assert_holds("out", "  - Does the hose swell? No\n");
    assert_int_equal(call("no\\nair 45 psi, hose no\\n4\\nknown", AIR), 3);
    assert_holds(
        "out",
        "  - What does the gauge at the foam air regulator read? 45 psi");
    assert_false(holds("out", "  - Does the hose swell? No\n\nWhat it points to"));
}

static void what_was_not_understood_is_told(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nair 45 psi, it rains\\n1", AIR), 3);
    assert_holds("out", "Not understood, or it fits several questions: it rains");
    assert_int_equal(
        call("no\\nstiff foam\\n1\\nair 45 psi, hose 3, hose no, hose yes\\n1\\nknown", AIR), 3);
    assert_holds("out", "Not understood, or it fits several questions: hose 3, hose yes");
    assert_holds("out", "  - Does the hose swell? No\n");
}

static void readings_keep_sign_decimals_and_unit(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nair is at 3,5 bar; hose is no\\n1\\nknown", AIR), 3);
    assert_holds(
        "out",
        "  - What does the gauge at the foam air regulator read? 3.5 bar (3.5 bar is 50.76 psi.)");
    assert_holds("out", "  - Does the hose swell? No");
    assert_int_equal(call("no\\nair -5 psi", AIR), 3);
    assert_false(holds("out", "Say back:"));
}

static void an_answer_to_the_question_may_come_with_others(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nhose\\nno, air 50\\n1\\nknown", AIR), 3);
    assert_holds("out", "Say: \"Does the hose swell?\"");
    assert_holds("out",
                 "Say back:\n  - Does the hose swell? No\n  - What does the gauge at the foam air "
                 "regulator read? 50 psi");
}

static void danger_comes_before_any_other_question(void **state)
{
    (void)state;
    assert_int_equal(call("tank gauge\\nno\\n45", "$WELL"), 3);
    char *text = contents("out");
    const char *danger = strstr(text, "Say: \"Is there smoke"),
               *again = strstr(danger + 1, "Say: \"Is there smoke"),
               *gauge = strstr(text, "Say: \"What does the gauge at the tank");
    assert_non_null(again);
    assert_true(again < gauge);
    free(text);
}

static void a_stop_is_seen_at_once(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nfoam stiff, hose yes\\n1\\n1", AIR), 1);
    assert_holds("out", "STOP: Shut the air off and keep away from the hose.");
}

static void at_a_fix_more_may_be_said_too(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nstiff foam, air 52\\n1\\n1\\nhose swells no\\n1\\nknown", AIR), 3);
    assert_holds("out", "Say back:\n  - Does the hose swell? No\n");
}

static void what_was_said_is_kept_as_answers(void **state)
{
    (void)state;
    sh("rm -rf cases");
    assert_int_equal(call("no\\nair 45 psi, hose no\\n1\\nstop", AIR), 3);
    assert_int_equal(sh("test $(cat cases/*/*/*/*.jsonl | grep -c '\"kind\":\"answer\"') -eq 3"),
                     0);
}

static void without_the_option_a_line_is_one_answer(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf 'no\\nstiff foam\\n1\\nair 45 psi, hose no\\n' | $T ask %s --unsaved >out 2>err",
           AIR),
        3);
    assert_false(holds("out", "Say back:"));
    assert_false(holds("out", "Say: "));
}

static void programs_may_pass_on_what_callers_say(void **state)
{
    (void)state;
    turn_client c;
    client_begin(&c, AIR " --telephone --unsaved");
    client_answer(&c, json_pack("{s:s}", "answer", "no"));
    client_answer(&c, json_pack("{s:s}", "answer", "air 45 psi, hose no"));
    assert_true(client_is(&c, "heard"));
    assert_int_equal(json_array_size(json_object_get(c.turn, "heard")), 2);
    client_answer(&c, json_pack("{s:i}", "choice", 1));
    assert_true(client_is(&c, "complaint"));
    client_end(&c);
}

/* Numbers of cases are few enough to meet. */
static int without_old_cases(void **state)
{
    (void)state;
    return sh("rm -rf cases");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(questions_are_read_aloud),
        cmocka_unit_test(minutes_to_expect_are_shown),
        cmocka_unit_test(several_answers_count_once_said_back),
        cmocka_unit_test(what_is_not_right_does_not_count),
        cmocka_unit_test(what_was_not_understood_is_told),
        cmocka_unit_test(readings_keep_sign_decimals_and_unit),
        cmocka_unit_test(an_answer_to_the_question_may_come_with_others),
        cmocka_unit_test(danger_comes_before_any_other_question),
        cmocka_unit_test(a_stop_is_seen_at_once),
        cmocka_unit_test(at_a_fix_more_may_be_said_too),
        cmocka_unit_test(what_was_said_is_kept_as_answers),
        cmocka_unit_test(without_the_option_a_line_is_one_answer),
        cmocka_unit_test(programs_may_pass_on_what_callers_say),
    };
    return cmocka_run_group_tests_name("cli telephone", tests, without_old_cases, NULL);
}
