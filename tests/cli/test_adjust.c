/* A fix that changes a setting step by step, as the program keeps it; how a person goes through it
 * stands in unit/talk/test_talk_adjust. */
#include "run_telltale.h"

/* Danger is ruled out, the complaint, the reading, and the fix up to its outcome. */
#define BEGIN "no\\nstiff foam\\n1\\n52\\nbegin\\ndone\\ndone\\n"

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

/* Cut anywhere, the steps that are whole still count. */
static void cut_at_any_byte_it_can_be_read(void **state)
{
    (void)state;
    session(BEGIN "no change\\nput-back");
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
    session(BEGIN "better\\nstiff\\nno\\nstop");
    note_number();
    sh("sed -i 's/by: -5 psi/by: -4 psi/' air/book.yaml");
    assert_int_equal(resume("1\\ngo-on\\nbegin\\ndone\\nstop"), 3);
    assert_in_order((const char *const[]){"It was set from 52 to 47; see how it stands now.",
                                          "The rules have changed", "Step 1 of at most 3.",
                                          "Set it from 52 psi to 48 psi.", NULL});
    sh("cp $AIR/book.yaml air/ && sed -i '/^    adjust:/d; s/ as found, psi}/}/' "
       "air/book.yaml");
    assert_int_equal(resume("1\\ngo-on\\nstop"), 3);
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
        cmocka_unit_test_setup(cut_at_any_byte_it_can_be_read, fresh),
        cmocka_unit_test_setup(other_rules_take_no_step_for_theirs, fresh),
        cmocka_unit_test_setup(rank_asks_for_the_reading_first, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
