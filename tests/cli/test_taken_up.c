/* A case that is there, taken up by somebody who says little, by a script, by two at once of whom
 * one is in danger, and one whose first record is lost. */
#include "run_telltale.h"

#include "window.h"

static int keep_case(void **state)
{
    (void)state;
    return sh("rm -rf kept told.yaml && printf 'no\\nit keeps short cycling\\nyes\\nstop\\n' | $T "
              "ask $WELL "
              "--cases kept --plain --name east >out 2>err; test $? = 3 && sed -n 's/^Case number: "
              "//p' out >number && test -s number") != 0;
}

static int take_up(const char *lines, const char *more)
{
    return sh("printf '%s' | $T ask --case $(cat number) --cases kept --plain %s >out 2>err", lines,
              more);
}

static unsigned records(void)
{
    assert_int_equal(sh("cat kept/*/*/*/*.jsonl | wc -l >count"), 0);
    char *text = contents("count");
    const unsigned count = (unsigned)strtoul(text, NULL, 10);
    free(text);
    return count;
}

/* A script that only looks leaves no trace; one that brings answers leaves these. */
static void a_script_writes_what_it_brings(void **state)
{
    (void)state;
    const unsigned before = records();
    assert_int_equal(take_up("", "--no-input"), 3);
    assert_int_equal(records(), before);
    assert_int_equal(sh("echo 'smoke: no' >told.yaml"), 0);
    assert_int_equal(take_up("", "--no-input --answers told.yaml"), 3);
    assert_true(records() > before);
    assert_holds("out", "Is there smoke at the pump? No");
}

/* What a case was begun as it stays: practice can't be made of it, nor taken from it. */
static void a_site_may_be_named_where_none_was(void **state)
{
    (void)state;
    assert_int_equal(take_up("no\\nstop\\n", "--site none.yaml"), 66);
    assert_holds("err", "none.yaml");
    assert_int_equal(take_up("no\\nstop\\n", "--practice"), 3);
}

/* Danger can't wait for who has the case open. */
static void danger_is_heard_before_it_is_said_who_has_it(void **state)
{
    (void)state;
    char *number = contents("number");
    number[strcspn(number, "\n")] = 0;
    const char *const words[] = {"ask", "--case", number, "--cases", "kept", NULL};
    window *first = window_open(&(window_plan){.words = words, .rows = 60, .columns = 100});
    window_await(first, "Is there smoke at the pump?");
    window_await_prompt(first, 1);
    window *second = window_open(&(window_plan){.words = words, .rows = 60, .columns = 100});
    window_await(second, "Only look at it");
    window_await_prompt(second, 1);
    window_type(second, "danger");
    window_await(second, "STOP. Nothing else is done until this is safe.");
    window_close(second);
    window_type(first, "stop");
    window_await_end(first);
    window_close(first);
    free(number);
    assert_int_equal(sh("grep -q '\"kind\":\"danger\"' kept/*/*/*/*.jsonl"), 0);
}

/* Each of its records names the one before: what is left without the first is told as that. */
static void a_case_without_its_beginning_says_so(void **state)
{
    (void)state;
    assert_int_equal(sh("for f in kept/*/*/*/*.jsonl; do sed -i 1d $f; done"), 0);
    assert_int_equal(take_up("no\\nstop\\n", ""), 65);
    assert_holds("err", "does not say which book it is about. Name it: telltale ask BOOK --case");
    assert_int_equal(sh("$T sheet $(cat number) --cases kept >out 2>err"), 65);
    assert_holds("err", "Name it: telltale sheet CASE BOOK, or telltale ask BOOK --case CASE");
    assert_int_equal(sh("$T sheet $(cat number) $WELL --cases kept >out 2>err"), 0);
    assert_holds("out", "The pump starts and stops");
    assert_int_equal(
        sh("printf 'no\\nstop\\n' | $T ask $WELL --case $(cat number) --cases kept --plain "
           ">out 2>err"),
        3);
    assert_holds("out", "The tank has lost its air cushion");
    assert_false(holds("out", "PRACTICE")); /* nobody knows, so it is taken for real */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_script_writes_what_it_brings, keep_case),
        cmocka_unit_test_setup(a_site_may_be_named_where_none_was, keep_case),
        cmocka_unit_test_setup(danger_is_heard_before_it_is_said_who_has_it, keep_case),
        cmocka_unit_test_setup(a_case_without_its_beginning_says_so, keep_case),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
