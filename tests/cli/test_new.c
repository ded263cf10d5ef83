/* new: the small book that the program makes works as it stands, and takes nobody's place. */
#include "run_telltale.h"

#include <signal.h>

#include "kill_points.h"
#include "skips.h"

static void it_works_as_it_stands(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf made && $T new made >out 2>err"), 0);
    assert_holds("out", "telltale check made");
    assert_int_equal(sh("test -s err"), 1);
    assert_int_equal(sh("$T check made --strict >out 2>err"), 0);
    assert_holds("out", "No faults.");
    assert_int_equal(sh("$T try made >out 2>err"), 0);
    assert_false(holds("out", "No worked case touches"));
    assert_int_equal(
        sh("for f in made/*; do cmp $f '" TT_SOURCE_DIR "/cli/sample/'${f#made/} || exit 1; done"),
        0);
    assert_int_equal(
        sh("test $(ls made | wc -l) = $(ls '" TT_SOURCE_DIR "/cli/sample/'*.yaml | wc -l)"), 0);
}

static void it_leads_through_a_case(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf made && $T new made >out && printf '1\\n1\\nthe bread has a dry "
                        "crust\\n1\\n1\\n1\\n' | "
                        "$T ask made --unsaved --plain >out 2>err"),
                     3);
    assert_holds("out", "1. The water pan is empty (");
    assert_holds("out", "Try this: Fill the water pan");
}

/* Each file says in plain words what it is for; with no comment nothing of the rules is lost. */
static void it_teaches(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf made && $T new made >out && for f in made/*; do head -c 2 $f | "
                        "grep -q '# ' || exit 1; done"),
                     0);
}

static void a_folder_with_something_is_left_alone(void **state)
{
    (void)state;
    assert_int_equal(
        sh("rm -rf full && mkdir full && echo mine >full/.hidden && $T new full >out 2>err"), 73);
    assert_holds("err", "full: there is something in this folder already");
    assert_int_equal(sh("test \"$(ls -A full)\" = .hidden && test ! -s out"), 0);
    assert_int_equal(sh("echo mine >file; $T new file 2>err"), 66);
    assert_holds("err", "file");
    assert_int_equal(sh("$T new nowhere/made 2>err"), 73);
    assert_holds("err", "nowhere: there is no such folder");
    assert_int_equal(sh("$T new '' 2>err"), 2);
    assert_int_equal(sh("$T new 2>err"), 2);
}

static void an_empty_folder_is_filled(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf 'my book' && mkdir 'my book' && $T new 'my book/' >out"), 0);
    assert_holds("out", "telltale check 'my book'");
    assert_int_equal(sh("$T check 'my book' >out"), 0);
}

/* What could not be written whole is taken back. */
static void half_a_book_is_none(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf half && (ulimit -f 3; $T new half 2>err)"), 73);
    assert_int_equal(sh("test -e half"), 1);
}

/* Whatever ends the program: there is no book, or there is all of it. */
static void killed_at_any_call_it_leaves_a_book_or_none(void **state)
{
    static const char *const words[] = {"new", "killed", NULL};
    const counted_run run = {.words = words, .shown = "shown"};
    (void)state;
    if (!can_count_calls())
        skip_since("a killed 'new': this machine lets nobody trace his own children (ptrace)");
    int status = 128 + SIGKILL;
    unsigned none = 0, whole = 0;
    for (unsigned n = 1; status == 128 + SIGKILL; n++) {
        assert_int_equal(sh("rm -rf killed killed.*.new"), 0);
        status = run_until_call(&run, n);
        const bool there = sh("test -e killed") == 0;
        none += !there;
        whole += there;
        if (there)
            assert_int_equal(sh("diff -r killed '" TT_SOURCE_DIR "/cli/sample' | grep -v "
                                "'^Only in .*sample' >out; test ! -s out"),
                             0);
    }
    assert_int_equal(status, 0);
    assert_true(none > 3 && whole > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_works_as_it_stands),
        cmocka_unit_test(it_leads_through_a_case),
        cmocka_unit_test(it_teaches),
        cmocka_unit_test(a_folder_with_something_is_left_alone),
        cmocka_unit_test(an_empty_folder_is_filled),
        cmocka_unit_test(half_a_book_is_none),
        cmocka_unit_test(killed_at_any_call_it_leaves_a_book_or_none),
    };
    return cmocka_run_group_tests_name("new", tests, NULL, NULL);
}
