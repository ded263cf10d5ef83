/* A case as one file, as a page hands it out: taken in by `ask --case FILE`, gone on with, handed
 * back into the file, and taken in again. */
#include "run_telltale.h"

static void write_case(const char *name)
{
    static const char id[] = "019b1b48-9420-7e45-8172-00002235a41d";
    assert_int_equal(sh("rm -rf theirs ours twice"), 0);
    assert_int_equal(
        sh("printf '%%s\\n' "
           "'{\"begin\":{\"case\":\"%s\",\"writer\":\"phone\",\"now\":\"2026-11-29T09:00:00Z\"}}' "
           "'{\"choice\":\"no\"}' '{\"word\":\"stop\"}' | $T ask $WELL --json --cases theirs "
           ">/dev/null",
           id),
        3);
    assert_int_equal(sh("cat theirs/*/*/%s/phone.jsonl > %s", id, name), 0);
}

static void it_goes_on_and_comes_back(void **state)
{
    (void)state;
    write_case("case.jsonl");
    assert_int_equal(sh("cp case.jsonl before.jsonl"), 0);
    assert_int_equal(sh("printf 'no\\nstop\\n' | $T ask --case case.jsonl --cases ours --name desk "
                        "--plain >out 2>err"),
                     3);
    /* all that was there, and what the desk has added as a writer of its own */
    assert_int_equal(sh("grep -cFxf before.jsonl case.jsonl >same; test \"$(cat same)\" = \"$(wc "
                        "-l <before.jsonl)\""),
                     0);
    assert_int_equal(sh("test \"$(wc -l <case.jsonl)\" -gt \"$(wc -l <before.jsonl)\""), 0);
    assert_int_equal(sh("grep -q '\"by\":\"desk\"' case.jsonl"), 0);
    assert_int_equal(sh("test $(ls ours/*/*/*/*.jsonl | wc -l) = 2"), 0);
}

static void it_is_not_taken_twice(void **state)
{
    (void)state;
    write_case("case.jsonl");
    assert_int_equal(sh("for i in 1 2; do cp case.jsonl again.jsonl; printf 'stop\\n' | $T ask "
                        "--case again.jsonl --cases twice --plain >out; done"),
                     3);
    assert_int_equal(sh("cmp twice/*/*/*/phone.jsonl case.jsonl"), 0);
}

static void what_is_no_case_is_said(void **state)
{
    (void)state;
    assert_int_equal(sh("echo '{\"case\":1}' >odd.jsonl; $T ask --case odd.jsonl --cases none "
                        "</dev/null >out 2>err"),
                     65);
    assert_int_equal(sh("grep -q 'line 1 is left out: it names no case' err && grep -q 'there is "
                        "no case in it' err"),
                     0);
    assert_int_equal(sh("test ! -e none"), 0);
}

/* A writer's name becomes a file's. */
static void a_writer_leads_nowhere_else(void **state)
{
    (void)state;
    write_case("case.jsonl");
    assert_int_equal(
        sh("sed 's/\"writer\":\"phone\"/\"writer\":\"..\\/..\\/x\"/' case.jsonl >sly.jsonl; "
           "$T ask --case sly.jsonl --cases sly </dev/null >out 2>err"),
        65);
    assert_int_equal(sh("grep -q 'name can.t be one' err && test ! -e sly"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_goes_on_and_comes_back),
        cmocka_unit_test(it_is_not_taken_twice),
        cmocka_unit_test(what_is_no_case_is_said),
        cmocka_unit_test(a_writer_leads_nowhere_else),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
