/* `ask --telephone`: what is read aloud to a caller; what is heard of them is the same as anywhere
 * else (unit/listen, unit/talk). */
#include "run_telltale.h"

#define AIR "'" TT_SOURCE_DIR "/tests/cli/regulator'" /* a path may hold spaces */

static int call(const char *lines, const char *more)
{
    return sh("printf '%s\\n' | $T ask --telephone --cases cases %s >out 2>err", lines, more);
}

static void questions_are_read_aloud(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nnone of these\\nunsure", "$WELL"), 3);
    assert_holds("out", "Say: “Is there smoke at the pump?”");
    assert_holds("out", "“Is it: Nothing at all; It starts and stops every few seconds; A steady "
                        "run; or It stops and never starts?”");
    assert_holds("out", "Stand beside it for one minute. Touch nothing.");
}

/* 1 minute for the question, 5 for the fix that leads. */
static void minutes_to_expect_are_shown(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nstiff foam\\n1", AIR), 3);
    assert_holds("out", "Question 2, about 6 minutes left");
}

static void what_leads_stands_above_for_the_agent(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nstiff foam\\n1", AIR), 3);
    assert_holds("out", "Leading: The foam air is set too high (");
}

static void danger_said_by_a_caller_stops_the_call(void **state)
{
    (void)state;
    assert_int_equal(call("no\\nthe man is caught in the brush", AIR), 3);
    assert_holds("out", "DANGER");
    assert_holds("out", "STOP. Nothing else is done until this is safe.");
    assert_int_equal(call("no\\nfoam stiff, and a hose sprays\\nyes", AIR), 3);
    assert_holds("out", "So first:");
}

/* What the desk types for itself is nothing to say. */
static void what_is_for_the_desk_is_not_read_out(void **state)
{
    (void)state;
    static const char *const words[] = {"known", "why",       "?",       "change",
                                        "hold",  "hand over", "cautions"};
    static const char *const said[] = {"Go on when", "Which answer", "To whom", "A note",
                                       "Stopped"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        char lines[64];
        snprintf(lines, sizeof lines, "no\\nstiff foam\\n1\\n%s", words[i]);
        assert_int_equal(call(lines, AIR), 3);
        for (size_t k = 0; k < sizeof said / sizeof said[0]; k++) {
            char read_out[64];
            snprintf(read_out, sizeof read_out, "Say: “%s", said[k]);
            assert_false(holds("out", read_out));
        }
    }
    assert_holds("out", "Stopped. The case stays open.");
    assert_int_equal(call("no\\nstiff foam\\n1\\nchange", AIR), 3);
    assert_holds("out", "\nWhich answer was wrong?");
    assert_int_equal(call("", ""), 3); /* no book: which is the desk's to choose */
    assert_false(holds("out", "Say: “Which"));
}

/* Taken up again it is a call still. */
static void a_case_stays_a_call(void **state)
{
    (void)state;
    sh("rm -rf cases");
    assert_int_equal(call("no\\nstiff foam\\n1\\nstop", AIR), 3);
    assert_int_equal(sh("printf no | $T ask --cases cases --case cases/*/*/* >out 2>err"), 3);
    assert_holds("out", "Say: “");
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
        cmocka_unit_test(what_is_for_the_desk_is_not_read_out),
        cmocka_unit_test(minutes_to_expect_are_shown),
        cmocka_unit_test(what_leads_stands_above_for_the_agent),
        cmocka_unit_test(danger_said_by_a_caller_stops_the_call),
        cmocka_unit_test(a_case_stays_a_call),
    };
    return cmocka_run_group_tests_name("cli telephone", tests, without_old_cases, NULL);
}
