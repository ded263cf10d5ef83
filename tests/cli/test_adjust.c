/* A fix that changes a setting step by step, as a person goes through it; and nothing of it lost.
 */
#include "run_telltale.h"

#include "cut_short.h"

#define BEGIN "no\nstiff foam\n1\n52"
/* Each step asks two questions again. */
#define BETTER "\n2\n1\nno"

static int fresh(void **state)
{
    (void)state;
    setenv("AIR", TT_SOURCE_DIR "/tests/cli/regulator", 1);
    return sh("rm -rf cases air && mkdir cases && cp -r $AIR air");
}

static int session(const char *lines)
{
    return sh("printf '%s\\n' | $T ask air --cases cases >out 2>err", lines);
}

static void note_number(void)
{
    assert_int_equal(sh("sed -n 's/^Case number: //p' out | head -1 >number && test -s number"), 0);
}

static int resume(const char *lines)
{
    return sh("printf '%s\\n' | $T ask --cases cases --case \"$(cat number)\" >out 2>err", lines);
}

/* Byte offset of a text in "out", which must be there after `from`. */
static long place_after(long from, const char *part)
{
    char *text = contents("out"), *found = strstr(text + from, part);
    if (found == NULL) print_error("\"%s\" is not there in:\n%s\n", part, text + from);
    assert_non_null(found);
    long place = found - text;
    free(text);
    return place;
}

/* These stand in "out" in this order. */
static void assert_in_order(const char *const *parts)
{
    for (long at = 0; *parts != NULL; parts++) at = place_after(at, *parts) + 1;
}

static void steps_are_shown_one_at_a_time(void **state)
{
    (void)state;
    assert_int_equal(session(BEGIN BETTER BETTER "\\n2\\nyes"), 3);
    assert_in_order((const char *const[]){
        "What does the gauge at the foam air regulator read?",
        "Try this: Lower the foam air step by step", "Danger from:", "Safety glasses",
        "Turn the knob", "Step 1 of at most 3: set it from 52 psi to 47 psi.",
        "Afterwards look again:\n  - How does the foam look?", "did it help?",
        "Once more:\nHow does the foam look?", "Does the hose swell?",
        "It was found at 52 psi.\nStep 2 of at most 3: set it from 47 psi to 42 psi.",
        "did it help?", "Step 3 of at most 3: set it from 42 psi to 37 psi.", "did it help?",
        "Before anything else is tried, put this back:\n  Set the regulator back to 52 psi.\n"
        "  It was found at 52 psi and stands at 37 psi.",
        "Is it put back?\n  1. Yes, it is at 52 psi again\n  2. I can't put it back\n",
        "Try this: Change the foamer; the air stands at 52 psi", NULL});
    assert_int_equal(sh("grep -c 'Danger from' out | grep -qx 1"), 0);
    assert_int_equal(sh("test -s err"), 1);
}

static void the_last_page_says_what_is_different(void **state)
{
    (void)state;
    assert_int_equal(session(BEGIN BETTER "\\n1"), 0);
    assert_in_order((const char *const[]){
        "The trouble is gone. What helped: Lower the foam air step by step",
        "What was tried:", "Different from before:\n  - What does the gauge at the foam air regulator read? 52 psi found, 42 psi left",
        "What does the gauge at the foam air regulator read? 42 psi (as a fix left it)",
        "The case is closed.", NULL});
    assert_false(holds("out", "put this back"));
    assert_false(holds("out", "See that this was put back"));
}

static void no_change_is_put_back_before_anything_else(void **state)
{
    (void)state;
    assert_int_equal(session(BEGIN BETTER "\\n3\\nknown\\n1\\nstop"), 3);
    assert_in_order((const char *const[]){"Step 2 of at most 3", "put this back:", "> known",
                                          "Not yet worth it:", "put this back:", "> 1",
                                          "Try this: Change the foamer", NULL});
    assert_holds("out",
                 "Lower the foam air step by step: the trouble was not gone; put back as found");
    assert_false(holds("out", "Different from before"));
    assert_false(holds("out",
                       "(as a fix left it)\n  - How does the foam look? Stiff, it breaks off "
                       "in lumps\nCase number"));
}

static void a_step_that_can_not_be_done_ends_it(void **state)
{
    (void)state;
    assert_int_equal(session(BEGIN "\\n4"), 3);
    assert_false(holds("out", "put this back"));
    assert_holds("out", "Try this: Change the foamer");
    assert_int_equal(session(BEGIN BETTER "\\n4\\n1\\nstop"), 3);
    assert_in_order((const char *const[]){"put this back", "Try this: Change the foamer",
                                          "could not be done; put back as found", NULL});
}

static void what_can_not_be_put_back_is_told_to_others(void **state)
{
    (void)state;
    assert_int_equal(session(BEGIN BETTER "\\n3\\n2\\n1"), 1);
    assert_in_order((const char *const[]){
        "Nothing else is tried until this is put back: Set the regulator back to 52 psi.",
        "Call: technician.", "Different from before:\n  - What does the gauge at the foam air regulator read? 52 psi found, 42 psi left",
        "See that this was put back:\n  - Set the regulator back to 52 psi.",
        "1. Close the case\n  2. It is put back now", "The case is closed.", NULL});
    assert_int_equal(session(BEGIN BETTER "\\n3\\n2\\n2\\nstop"), 3);
    assert_holds("out", "Try this: Change the foamer");
}

static void a_stop_says_what_was_left(void **state)
{
    (void)state;
    assert_int_equal(session(BEGIN "\\n2\\n1\\nyes\\n1"), 1);
    assert_in_order((const char *const[]){"STOP: Shut the air off", "Call: technician.",
                                          "Different from before:\n  - What does the gauge at the foam air regulator read? 52 psi found, 47 "
                                          "psi left",
                                          "Close the case", NULL});
    assert_false(holds("out", "It is put back now"));
}

static void back_goes_through_every_step(void **state)
{
    (void)state;
    assert_int_equal(
        session(BEGIN BETTER "\\n3\\nback\\n2\\nback\\nback\\nno\\n3\\n1\\nback\\nstop"), 3);
    assert_in_order((const char *const[]){
        "put this back:", "> back\n\nOne step back.",
        "It was found at 52 psi.\nStep 2 of at most 3: set it from 47 psi to 42 psi.", "> 2",
        "Once more:\nHow does the foam look?", "> back", "Step 2 of at most 3", "> back", "hose",
        NULL});
}

static void what_a_fix_set_is_no_answer_to_change(void **state)
{
    (void)state;
    assert_int_equal(session(BEGIN BETTER "\\nchange\\nstop"), 3);
    long list = place_after(0, "Which answer was wrong?");
    char *text = contents("out");
    assert_null(strstr(text + list, "regulator read? 47 psi\n  2."));
    free(text);
    assert_true(place_after(list, "1. Does the hose swell? No\n  2. How does the foam look?") > list);
}

static void left_in_the_middle_it_says_what_is_open(void **state)
{
    (void)state;
    assert_int_equal(session(BEGIN BETTER "\\nstop"), 3);
    assert_in_order((const char *const[]){
        "What was tried:\n  - Lower the foam air step by step: better, but not gone; not finished",
        "Different from before:\n  - What does the gauge at the foam air regulator read? 52 psi found, 47 psi left",
        "See that this was put back:\n  - Set the regulator back to 52 psi.", NULL});
}

static void one_record_a_step(void **state)
{
    (void)state;
    assert_int_equal(session(BEGIN BETTER "\\n3\\n1\\nstop"), 3);
    sh("cat cases/*/*/*/*.jsonl >lines");
    sh("sed -E 's/.*,\"kind\":\"([^\"]*)\",\"data\".*/\\1/' lines | tr '\\n' ' ' >kinds");
    assert_holds("kinds", "begin answer complaint answer tried answer answer tried put-back stop ");
    assert_holds("lines",
                 "\"kind\":\"tried\",\"data\":{\"fix\":\"lower-air\",\"outcome\":\"better\","
                 "\"text\":\"Lower the foam air step by step\",\"set\":{\"from\":52,\"to\":47,\"reading\":\"foam-air\",\"unit\":\"psi\"}}}");
    assert_holds("lines", "\"outcome\":\"no-change\",\"text\":\"Lower the foam air step by step\",\"set\":{\"from\":47,\"to\":42,\"reading\":\"foam-air\",\"unit\":\"psi\"}}}");
    assert_holds("lines",
                 "\"kind\":\"put-back\",\"data\":{\"fix\":\"lower-air\",\"set\":{\"from\":42,"
                 "\"to\":52,\"reading\":\"foam-air\",\"unit\":\"psi\"}}}");
}

/* `shown` stands there when it is killed. */
static void start_and_kill(const char *lines, const char *shown)
{
    cut_case_short("air", lines, shown, SIGKILL);
    note_number();
}

static void killed_between_steps_it_goes_on_there(void **state)
{
    (void)state;
    start_and_kill(BEGIN BETTER, "Step 2 of at most 3");
    assert_int_equal(resume("3\\n1\\n1"), 0);
    assert_in_order((const char *const[]){
        "Lower the foam air step by step: better, but not gone, not finished; different from before: What does the gauge at the foam air regulator read? 52 psi found, 47 psi left; to be put back: Set the regulator back to 52 psi.", "Danger from:",
        "It was found at 52 psi.\nStep 2 of at most 3: set it from 47 psi to 42 psi.",
        "put this back:", "It was found at 52 psi and stands at 42 psi.",
        "Try this: Change the foamer; the air stands at 52 psi", "The trouble is gone.", NULL});
    assert_int_equal(sh("head -7 cases/*/*/*/*.jsonl | cmp - before"), 0);
}

static void killed_while_looking_again_it_still_looks(void **state)
{
    (void)state;
    start_and_kill(BEGIN "\n2\n1", "Question 3");
    assert_int_equal(resume("no\\n1"), 0);
    assert_in_order((const char *const[]){"not finished", "Does the hose swell?", "> no",
                                          "Step 2 of at most 3", "The trouble is gone.", NULL});
}

static void killed_before_it_was_put_back_it_asks_again(void **state)
{
    (void)state;
    start_and_kill(BEGIN "\n3", "Is it put back");
    assert_int_equal(resume("1"), 3);
    assert_in_order((const char *const[]){
        "put this back:", "It was found at 52 psi and stands at 47 psi.",
        "Danger from:", "Is it put back?", "Try this: Change the foamer", NULL});
}

/* Cut anywhere, the steps that are whole still count. */
static void cut_at_any_byte_it_can_be_read(void **state)
{
    (void)state;
    session(BEGIN BETTER "\\n3\\n1");
    note_number();
    assert_int_equal(
        sh("f=$(ls cases/*/*/*/*.jsonl); cp $f whole; n=$(wc -c <whole); at=$(head -1 whole | wc "
           "-c);"
           " while [ $at -lt $n ]; do head -c $at whole >$f;"
           " $T ask --cases cases --case $(cat number) </dev/null >out 2>err; [ $? = 3 ] || exit 1;"
           " at=$((at + 37)); done"),
        0);
}

/* What was really set stays told, though the rules would set it otherwise now. */
static void other_rules_take_no_step_for_theirs(void **state)
{
    (void)state;
    session(BEGIN BETTER "\\nstop");
    note_number();
    sh("sed -i 's/by: -5 psi/by: -4 psi/' air/book.yaml");
    assert_int_equal(resume("1\\nstop"), 3);
    assert_in_order((const char *const[]){
        "Left out, because the rules no longer know it: tried lower-air\n"
        "  It was set from 52 to 47; see how it stands now.",
        "The rules have changed", "Step 1 of at most 3: set it from 52 psi to 48 psi.", NULL});
    sh("cp $AIR/book.yaml air/ && sed -i '/^    adjust:/d; s/ as found, psi}/}/' "
       "air/book.yaml");
    assert_int_equal(resume("1\\nstop"), 3);
    assert_holds("out", "It was set from 52 to 47; see how it stands now.");
}

static void rank_asks_for_the_reading_first(void **state)
{
    (void)state;
    sh("echo 'danger-now: no\nfoam-look: stiff' >a.yaml");
    assert_int_equal(sh("$T rank air a.yaml --json >out"), 0);
    assert_in_order((const char *const[]){"\"next\": {\n    \"question\": \"foam-air\"",
                                          "\"name\": \"lower-air\"", "\"standing\": \"likely\"",
                                          "\"do_next\": \"ask\"", NULL});
    sh("echo 'foam-air: 52 psi' >>a.yaml");
    assert_int_equal(sh("$T rank air a.yaml --json >out"), 0);
    assert_holds("out", "\"do_next\": \"fix\"");
    sh("echo 'danger-now: no\nfoam-look: stiff\nfoam-air: 35 psi' >a.yaml");
    assert_int_equal(sh("$T rank air a.yaml --json >out"), 0);
    assert_false(holds("out", "lower-air"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(steps_are_shown_one_at_a_time, fresh),
        cmocka_unit_test_setup(the_last_page_says_what_is_different, fresh),
        cmocka_unit_test_setup(no_change_is_put_back_before_anything_else, fresh),
        cmocka_unit_test_setup(a_step_that_can_not_be_done_ends_it, fresh),
        cmocka_unit_test_setup(what_can_not_be_put_back_is_told_to_others, fresh),
        cmocka_unit_test_setup(a_stop_says_what_was_left, fresh),
        cmocka_unit_test_setup(back_goes_through_every_step, fresh),
        cmocka_unit_test_setup(what_a_fix_set_is_no_answer_to_change, fresh),
        cmocka_unit_test_setup(left_in_the_middle_it_says_what_is_open, fresh),
        cmocka_unit_test_setup(one_record_a_step, fresh),
        cmocka_unit_test_setup(killed_between_steps_it_goes_on_there, fresh),
        cmocka_unit_test_setup(killed_while_looking_again_it_still_looks, fresh),
        cmocka_unit_test_setup(killed_before_it_was_put_back_it_asks_again, fresh),
        cmocka_unit_test_setup(cut_at_any_byte_it_can_be_read, fresh),
        cmocka_unit_test_setup(other_rules_take_no_step_for_theirs, fresh),
        cmocka_unit_test_setup(rank_asks_for_the_reading_first, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
