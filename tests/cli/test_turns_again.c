/* `ask --json`: what was said is enough to have it again: byte for byte, in turns and in records,
 * and the same as at a terminal. */
#include "run_telltale.h"

#include <jansson.h>

#include "turn_client.h"

static const char begun_so[] =
    "{\"version\":2,\"begin\":{\"case\":\"019b1b48-9420-7e45-8172-00002235a41d\",\"writer\":\"desk-"
    "3\",\"now\":\"2026-11-29T09:12:00+01:00\"}}\n";
static const char went_on[] =
    "{\"choice\":\"no\"}\n{\"answer\":\"it goes on and "
    "off\",\"now\":\"2026-11-29T09:13:00+01:00\"}\n{\"choice\":1}\n{\"reading\":12}\n"
    "{\"choice\":\"right\"}\n{\"choice\":\"begin\"}\n{\"chioce\":1}\n{\"word\":\"danger\"}\n{"
    "\"word\":\"stop\"}\n";

static void a_conversation_is_played_again_byte_for_byte(void **state)
{
    (void)state;
    FILE *lines = fopen("lines", "w");
    assert_non_null(lines);
    fprintf(lines, "%s%s", begun_so, went_on);
    fclose(lines);
    for (unsigned i = 1; i <= 2; i++)
        assert_int_equal(sh("rm -rf cases; $T ask $WELL --cases cases --name east --json <lines "
                            ">out%u 2>err; status=$?; "
                            "mv cases/*/*/*/desk-3.jsonl records%u && exit $status",
                            i, i),
                         3);
    assert_same("out1", "out2");
    assert_same("records1", "records2");
    assert_holds("out1", "\"case\":\"781936K\"");
    assert_holds("records1", "2026-11-29T09:13:00");
    assert_int_equal(sh("test $(grep -c '\"turn\":1,' out1) = 2"),
                     0); /* begun, its first turn came anew */
}

static void who_begins_a_case_that_is_there_is_refused(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf cases"), 0);
    FILE *lines = fopen("lines", "w");
    assert_non_null(lines);
    fprintf(lines, "%s%s", begun_so, went_on);
    fclose(lines);
    assert_int_equal(sh("$T ask $WELL --cases cases --json <lines >out 2>err"), 3);
    assert_int_equal(sh("$T ask $WELL --cases cases --json <lines >out 2>err"), 73);
    assert_int_equal(sh("$T ask --case 781936K --cases cases --json <lines >out 2>err"), 3);
    assert_holds("out", "\"begin-too-late\"");
}

/* All records, without what differs from case to case. */
#define RECORDS \
    "cat %s/*/*/*/*.jsonl | sed -E 's/.*\"kind\"/\"kind\"/; s/\"number\":\"[^\"]*\"//g; " \
    "s/\"(hash|previous|before|time)\":\"[^\"]*\"//g; s/\"lamport\":[0-9]+//g' >%s"

static void both_leave_the_same_records(void **state)
{
    static const char *const typed[] = {
        "no",  "it goes on and off", "1", "why", "go on", "back", "2", "2", "45 psi", "unsure",
        "stop"};
    (void)state;
    turn_client c;
    sh("rm -rf by-hand by-program");
    FILE *lines = fopen("lines", "w");
    assert_non_null(lines);
    client_begin(&c, "$WELL --cases by-program");
    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++) {
        fprintf(lines, "%s\n", typed[i]);
        client_answer(&c, json_pack("{s:s}", "answer", typed[i]));
    }
    fclose(lines);
    assert_int_equal(client_end(&c), 3);
    assert_int_equal(sh("$T ask $WELL --cases by-hand <lines >out 2>err"), 3);
    sh(RECORDS, "by-hand", "a");
    sh(RECORDS, "by-program", "b");
    assert_holds("a", "\"stop\"");
    assert_same("a", "b");
}

int main(void)
{
    setenv("WELL", WELL, 1);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_conversation_is_played_again_byte_for_byte),
        cmocka_unit_test(who_begins_a_case_that_is_there_is_refused),
        cmocka_unit_test(both_leave_the_same_records),
    };
    return cmocka_run_group_tests_name("cli turns again", tests, NULL, NULL);
}
