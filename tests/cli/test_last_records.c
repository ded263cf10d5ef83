/* A record that is changed later is noticed, the last one of a file too: the next writer's record
 * names it, and a closed case ends with a seal. */
#include "run_telltale.h"

#define CURED \
    "no\\nshort " \
    "cycling\\n1\\nunsure\\nright\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone" \
    "\\ndone\\nunsure\\ngone\\n1\\n"

static int fresh(void **state)
{
    (void)state;
    return sh("rm -rf cases out err && mkdir cases");
}

static void begin(const char *lines, int status)
{
    assert_int_equal(
        sh("printf '%s' | $T ask $WELL --cases cases --json --name east >out 2>err", lines),
        status);
}

/* As two desks have it: each in a file of its own. A program says as whom it writes. */
static void two_write(void)
{
    assert_int_equal(sh("printf '%%s\\n' '{\"version\":2,\"begin\":{\"writer\":\"east\"}}' "
                        "'{\"choice\":\"no\"}' "
                        "'{\"choice\":\"short-cycling\"}' '{\"word\":\"stop\"}' | $T ask $WELL "
                        "--cases cases --json >out 2>err"),
                     3);
    assert_int_equal(
        sh("$T cases cases --json | sed 's/.*\"case\":\"\\([^\"]*\\).*/\\1/' >number && "
           "printf 'no\\nstop\\n' | $T ask --case $(cat number) --cases cases >out 2>err && exit "
           "9; test ! -s err"),
        0);
}

static int read_it(void)
{
    return sh("$T ask --case $(cat number) --cases cases --no-input >out 2>err");
}

static void the_next_writer_names_the_last(void **state)
{
    (void)state;
    two_write();
    assert_int_equal(read_it(), 3);
    assert_int_equal(sh("test ! -s err && grep -q '\"seen\":{\"east\":4},\"ends\":{\"east\":\"' "
                        "$(ls cases/*/*/*/*.jsonl | grep -v east)"),
                     0);
    assert_int_equal(sh("test $(cat cases/*/*/*/*.jsonl | grep -c '\"ends\"') = 1"), 0); /* once */
    assert_int_equal(
        sh("sed -i "
           "'$s/\"kind\":\"stop\",\"data\":{[^}]*}/\"kind\":\"stop\",\"data\":{\"next\":\"go "
           "home\"}/' cases/*/*/*/east.jsonl"),
        0);
    assert_int_equal(read_it(), 3);
    assert_holds("err",
                 "east.jsonl, record 4 is not as somebody else has read it: it was changed since");
}

/* Files that come one after the other, by rsync or git, are no forgery. */
static void what_has_not_arrived_is_not_told_of(void **state)
{
    (void)state;
    two_write();
    assert_int_equal(sh("sed -i '$d' cases/*/*/*/east.jsonl"), 0);
    assert_int_equal(read_it(), 3);
    assert_int_equal(sh("! grep -q 'somebody else' err"), 0);
}

static void a_closed_case_is_sealed(void **state)
{
    (void)state;
    assert_int_equal(sh("printf '" CURED "' | $T ask $WELL --cases cases >out 2>err"), 0);
    assert_int_equal(sh("tail -1 cases/*/*/*/*.jsonl | grep -q '\"kind\":\"seal\",\"data\":{}}$'"),
                     0);
    assert_int_equal(
        sh("$T cases cases --json | sed 's/.*\"case\":\"\\([^\"]*\\).*/\\1/' >number && "
           "$T cases cases --state closed >out 2>err && test ! -s err && grep -q 'Cases: 1' out"),
        0);
    assert_int_equal(sh("$T sheet $(cat number) --cases cases >out 2>err && test ! -s err && ! "
                        "grep -qi seal out"),
                     0);
    assert_int_equal(sh("sed -i '/\"kind\":\"confirm\"/s/tank-waterlogged/leak-after-tank/' "
                        "cases/*/*/*/*.jsonl"),
                     0);
    assert_int_equal(read_it(), 3);
    assert_holds("err", "does not follow from the one before");
}

static void one_that_is_open_is_not_sealed(void **state)
{
    (void)state;
    begin("{\"choice\":\"no\"}\\n{\"word\":\"stop\"}\\n", 3);
    assert_int_equal(sh("! grep -q '\"seal\"' -r cases"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(the_next_writer_names_the_last, fresh),
        cmocka_unit_test_setup(what_has_not_arrived_is_not_told_of, fresh),
        cmocka_unit_test_setup(a_closed_case_is_sealed, fresh),
        cmocka_unit_test_setup(one_that_is_open_is_not_sealed, fresh),
    };
    return cmocka_run_group_tests_name("last records", tests, NULL, NULL);
}
