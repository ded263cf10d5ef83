/* The sheet of a round, and of a record of what is good: nobody has said that something is wrong,
 * so it points to no cause and says of no trouble that it is gone. */
#include "run_telltale.h"

#define ROUNDS TT_SOURCE_DIR "/tests/unit/talk/rounds"
#define FOAM   TT_SOURCE_DIR "/rules/foam-line"

static void assert_lacks(const char *path, const char *part)
{
    if (holds(path, part)) fail_msg("%s has \"%s\"", path, part);
}

static void sheet(const char *how)
{
    assert_int_equal(sh("$T sheet $(ls -d kept/*/*/*) %s >sheet 2>err", how), 0);
    assert_int_equal(sh("test -s err"), 1);
}

static void assert_no_trouble(void)
{
    static const char *const of_faults[] = {"trouble", "What is wrong", "points to", "pointed to",
                                            "Causes",  "Parts",         "Fixes left"};
    for (size_t i = 0; i < sizeof of_faults / sizeof *of_faults; i++)
        assert_lacks("sheet", of_faults[i]);
}

static void go_round(const char *lines, int status)
{
    assert_int_equal(
        sh("rm -rf kept && printf 'site:\\n  title: North\\n  answers:\\n    air-set: 30 "
           "psi\\n' >rounds.yaml && printf '%s' | $T round '" ROUNDS
           "' --cases kept --plain --site rounds.yaml --every daily --name north "
           ">out 2>err",
           lines),
        status);
}

static void a_round_points_to_nothing(void **state)
{
    (void)state;
    go_round("no\\neven\\n31\\nyes\\nclose\\n", 0);
    sheet("--plain");
    assert_no_trouble();
    assert_holds("sheet", "State: Closed: it is done\n");
    assert_holds("sheet", "What comes next\n---------------\n\nNothing: the round was gone to its "
                          "end.\n");
    assert_holds("sheet", "31 psi");
    sheet("--json");
    assert_holds("sheet", "\"kind\": \"round\"");
    assert_holds("sheet", "\"closed\": \"done\"");
    sheet("--plain --language es");
    assert_holds("sheet", "Cerrado: está hecho");
    assert_holds("sheet", "Nada: la ronda se hizo hasta el final.");
}

static void a_round_under_way_says_what_is_asked_next(void **state)
{
    (void)state;
    go_round("no\\neven\\nstop\\n", 3);
    sheet("--plain");
    assert_no_trouble();
    assert_holds("sheet", "State: Open\n");
    assert_holds("sheet", ">>> Ask: ");
}

static void a_record_points_to_nothing(void **state)
{
    (void)state;
    assert_int_equal(
        sh("rm -rf kept && cp '" FOAM "/site.yaml' site.yaml && "
           "printf 'no\\n31 psi\\n4 gal/min\\n42 psi\\n1\\nclose\\n' | $T record '" FOAM
           "' --as technician --cases kept --plain --site site.yaml --name north >out 2>err"),
        0);
    sheet("--plain");
    assert_no_trouble();
    assert_holds("sheet", "Nothing: what is good is recorded.");
    sheet("--json");
    assert_holds("sheet", "\"kind\": \"record\"");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_round_points_to_nothing),
        cmocka_unit_test(a_round_under_way_says_what_is_asked_next),
        cmocka_unit_test(a_record_points_to_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
