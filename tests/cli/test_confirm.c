/* Was that the cause? Asked once when the trouble is gone, kept with the case, and never a
 * hindrance. */
#include "run_telltale.h"

static const char cured[] = "no\\nit goes on and "
                            "off\\n1\\nunsure\\nright\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\n"
                            "done\\ndone\\ndone\\ndone\\nunsure\\n1";

/* Types these lines after `before` in a new folder of cases; output in "out". */
static int session(const char *lines)
{
    sh("rm -rf cases");
    return sh("printf '%s\\n%s\\n' | $T ask --cases cases $WELL >out 2>err", cured, lines);
}

static int again(const char *lines, const char *more)
{
    return sh("printf '%s\\n' | $T ask --cases cases --case cases/*/*/* %s >out 2>err", lines,
              more);
}

/* How the last record begins that says how it ended; words for the names in it may follow. */
static void assert_last(const char *kind, const char *data)
{
    char wanted[256];
    assert_int_equal(
        sh("grep -hE '\"kind\":\"(confirm|tried|close)\"' cases/*/*/*/*.jsonl | tail -n 1 >last"),
        0);
    snprintf(wanted, sizeof wanted, "\"kind\":\"%s\",\"data\":%.*s", kind, (int)strlen(data) - 1,
             data);
    assert_holds("last", wanted);
}

static void what_was_said_is_the_last_record(void **state)
{
    (void)state;
    assert_int_equal(session("1"), 0);
    assert_holds("out", "Was that the cause: The tank has lost its air cushion?\n 1  Yes\n");
    assert_last("confirm", "{\"how\":\"yes\",\"cause\":\"tank-waterlogged\"}");
    session("2\\nleak-after-tank");
    assert_last("confirm", "{\"how\":\"other\",\"cause\":\"leak-after-tank\"}");
    session("2\\n3");
    assert_last("confirm", "{\"how\":\"not-listed\",\"cause\":\"something-not-listed\"}");
    session("3");
    assert_last("confirm", "{\"how\":\"unsure\",\"cause\":null}");
    session("2\\nnot sure");
    assert_last("confirm", "{\"how\":\"unsure\",\"cause\":null}");
    assert_holds("out", "The case is closed.");
}

static void who_leaves_has_closed_the_case_all_the_same(void **state)
{
    (void)state;
    assert_int_equal(
        sh("rm -rf cases; printf '%s\\n' | $T ask --cases cases $WELL >out 2>err", cured), 0);
    assert_last("close", "{\"how\":\"gone\"}");
    assert_int_equal(session("stop"), 0);
    assert_holds("out", "The case is closed.");
}

static void it_may_be_said_later(void **state)
{
    (void)state;
    session("3");
    assert_int_equal(again("say-cause\\n1", ""), 0);
    assert_last("confirm", "{\"how\":\"yes\",\"cause\":\"tank-waterlogged\"}");
    assert_int_equal(again("1", ""), 0);
    assert_last("confirm", "{\"how\":\"yes\",\"cause\":\"tank-waterlogged\"}");
    assert_false(holds("out", "Was that the cause"));
}

static void back_opens_the_case_again(void **state)
{
    (void)state;
    assert_int_equal(session("back\\n3"), 3);
    assert_holds("out", "One step back.");
    assert_last("tried", "{\"fix\":\"recharge-tank\",\"outcome\":\"no-change\"}");
}

static void nothing_is_asked_where_nothing_is_kept(void **state)
{
    (void)state;
    assert_int_equal(sh("printf '%s\\n' | $T ask --unsaved $WELL >out 2>err", cured), 0);
    assert_false(holds("out", "Was that the cause"));
}

static void who_may_not_confirm_is_not_asked(void **state)
{
    (void)state;
    sh("rm -rf cases strict; cp -r $WELL strict; sed -i 's/^    how-often: common/&\\n    "
       "confirmed-by: "
       "technician/' strict/parts/faults.yml");
    assert_int_equal(sh("printf '%s\\n1\\n' | $T ask --cases cases strict >out 2>err", cured), 0);
    assert_holds("out", "Whether that was the cause is for the technician to say");
    assert_last("close", "{\"how\":\"gone\"}");
    assert_int_equal(again("say-cause\\n1", "--as technician"), 0);
    assert_last("confirm", "{\"how\":\"yes\",\"cause\":\"tank-waterlogged\"}");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_was_said_is_the_last_record),
        cmocka_unit_test(who_leaves_has_closed_the_case_all_the_same),
        cmocka_unit_test(it_may_be_said_later),
        cmocka_unit_test(back_opens_the_case_again),
        cmocka_unit_test(nothing_is_asked_where_nothing_is_kept),
        cmocka_unit_test(who_may_not_confirm_is_not_asked),
    };
    return cmocka_run_group_tests_name("confirm", tests, NULL, NULL);
}
