/* What did not help is put back before anything else is tried, unless somebody says to leave it;
 * the last page says what is different from before. */
#include "run_telltale.h"

static int fresh(void **state)
{
    (void)state;
    return sh("rm -rf cases && mkdir cases");
}

/* The reading is not known, the answers are right, the fix is begun and done, the reading is not
 * known afterwards either. */
#define FIX_DONE \
    "no\\nshort " \
    "cycling\\n1\\nunsure\\nright\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone" \
    "\\ndone\\nunsure"
#define FIX_FAILED FIX_DONE "\\nNo change"
/* The pump runs again by then, so it is locked, drained and proved once more, the air is let out,
 * and it is given back. */
#define MADE_SAFE "\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone"
#define ASKED \
    "Charge the tank with air: the trouble is not gone. Before anything else is tried, put it " \
    "back:"

static int session(const char *lines)
{
    int status =
        sh("printf '%s\\n' | $T ask $WELL --cases cases --as technician >out 2>err", lines);
    sh("sed -n 's/^Case number: //p' out | head -1 >number");
    return status;
}

static int resume(const char *lines)
{
    return sh("printf '%s\\n' | $T ask --cases cases --case \"$(cat number)\" >out 2>err", lines);
}

static void it_is_asked_before_anything_else(void **state)
{
    (void)state;
    assert_int_equal(session(FIX_FAILED MADE_SAFE "\\n1"), 3);
    char *text = contents("out");
    const char
        *asked = strstr(text, ASKED),
        *choices = strstr(
            text,
            "Is it put back?\n 1  Yes, it is as it was found\n 2  No, leave it as it is now\n");
    assert_non_null(asked);
    assert_non_null(choices);
    assert_true(asked < choices);
    assert_non_null(strstr(choices, "Question 4"));
    free(text);
    assert_int_equal(sh("tail -n 2 cases/*/*/*/*.jsonl | head -n 1 | grep -q "
                        "'\"kind\":\"put-back\",\"data\":{\"fix\":\"recharge-tank\"'"),
                     0);
}

static void what_was_put_back_is_not_told_to_be_put_back(void **state)
{
    (void)state;
    assert_int_equal(session(FIX_FAILED MADE_SAFE "\\n1\\nstop"), 3);
    assert_holds("out", "  - Charge the tank with air: no change; put back as found\n");
    assert_false(holds("out", "See that this was put back"));
    assert_int_equal(resume(""), 3);
    assert_holds("out", "Charge the tank with air: put back\n");
    assert_false(holds("out", ASKED));
}

static void who_says_so_leaves_it_and_is_told_at_the_end(void **state)
{
    (void)state;
    assert_int_equal(session(FIX_FAILED "\\n2\\nstop"), 3);
    assert_holds("out", "Is the floor behind the tank wet?");
    assert_holds("out", "See that this was put back:\n  - Let the air out again. (after: Charge "
                        "the tank with air)\n");
    assert_int_equal(resume(""), 3);
    assert_holds("out", "To be put back: Let the air out again.");
    assert_false(holds("out", ASKED));
}

static void left_at_the_prompt_it_is_asked_again(void **state)
{
    (void)state;
    assert_int_equal(session(FIX_FAILED), 3);
    assert_holds("out", ASKED);
    assert_int_equal(resume("no" MADE_SAFE "\\n1"), 3);
    assert_holds("out", ASKED);
    assert_holds("out", "Danger from:"); /* whoever comes has not read it yet */
    assert_holds("out", "Is the floor behind the tank wet?");
}

static void back_takes_either_answer_back(void **state)
{
    (void)state;
    assert_int_equal(session(FIX_FAILED "\\n2\\nback\\nback\\n1"), 0);
    assert_int_equal(sh("grep -c 'the trouble is not gone. Before anything else' out | grep -qx 2"),
                     0);
    assert_holds("out", "The trouble is gone.");
    assert_int_equal(fresh(state), 0);
    assert_int_equal(session(FIX_FAILED MADE_SAFE "\\n1\\nback\\n1\\nstop"), 3);
    assert_int_equal(sh("grep -c 'the trouble is not gone. Before anything else' out | grep -qx 3"),
                     0);
    assert_holds("out", "put back as found");
}

static void nothing_is_kept_and_it_is_asked_all_the_same(void **state)
{
    (void)state;
    assert_int_equal(sh("printf '%s\\n' | $T ask $WELL --unsaved >out 2>err",
                        FIX_FAILED MADE_SAFE "\\n1\\nstop"),
                     3);
    assert_holds("out", "put back as found");
}

static void the_last_page_tells_what_is_different(void **state)
{
    (void)state;
    assert_int_equal(session(FIX_DONE "\\n1\\n1"), 0);
    assert_holds("out", "Different from before:\n  - Charge the tank with air: done\n");
    assert_int_equal(fresh(state), 0);
    assert_int_equal(session(FIX_FAILED MADE_SAFE "\\n1\\nstop"), 3);
    assert_false(holds("out", "Different from before"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(it_is_asked_before_anything_else, fresh),
        cmocka_unit_test_setup(what_was_put_back_is_not_told_to_be_put_back, fresh),
        cmocka_unit_test_setup(who_says_so_leaves_it_and_is_told_at_the_end, fresh),
        cmocka_unit_test_setup(left_at_the_prompt_it_is_asked_again, fresh),
        cmocka_unit_test_setup(back_takes_either_answer_back, fresh),
        cmocka_unit_test_setup(nothing_is_kept_and_it_is_asked_all_the_same, fresh),
        cmocka_unit_test_setup(the_last_page_tells_what_is_different, fresh),
    };
    return cmocka_run_group_tests_name("put back", tests, NULL, NULL);
}
