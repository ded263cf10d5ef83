/* `compare`: what it says of two editions of a book, of cases that were kept, and what it refuses.
 */
#include "run_telltale.h"

#include "window.h"

static void make_newer(void)
{
    assert_int_equal(
        sh("rm -rf newer && cp -r $WELL newer && "
           "sed -i 's/tank-waterlogged: almost always, leak-after-tank: seldom/tank-waterlogged: "
           "rarely, leak-after-tank: usually/' newer/parts/faults.yml && "
           "! cmp -s newer/parts/faults.yml $WELL/parts/faults.yml"),
        0);
}

static void the_same_moves_nothing(void **state)
{
    (void)state;
    assert_int_equal(sh("$T compare $WELL $WELL --calls 5 >out 2>err"), 0);
    assert_holds("out", "Entries that differ: 0.\n");
    assert_holds("out", "Worked cases: 0 of 2 come out otherwise.\n");
    assert_holds("out", "Made-up calls: 0 of 5 come out otherwise.\n");
    assert_int_equal(sh("test -s err"), 1);
}

static void a_changed_number_is_named(void **state)
{
    (void)state;
    make_newer();
    assert_int_equal(sh("$T compare $WELL newer --calls 0 >out 2>err"), 0);
    assert_holds("out", "Entries that differ: 1.\n");
    assert_holds("out", "Worked cases: 1 of 2 come out otherwise.\n");
    assert_holds("out", "  waterlogged (");
    assert_holds("out", "leads: leak-after-tank, ");
    assert_holds("out", "; before: tank-waterlogged, ");
    assert_holds("out", "does not come out as expected now, and did before");
    assert_holds("out", "by: symptoms short-cycling\n");
    assert_false(holds("out", "Made-up calls"));
}

static void cases_that_were_kept_are_played_with_both(void **state)
{
    (void)state;
    make_newer();
    assert_int_equal(sh("rm -rf kept; printf 'no\\nshort cycling\\n1\\nstop\\n' | $T ask $WELL "
                        "--cases kept >said 2>&1;"
                        "printf 'no\\nsilent\\n1\\nstop\\n' | $T ask $WELL --cases kept >said 2>&1;"
                        "$T compare $WELL newer --cases kept --calls 0 >out 2>err"),
                     0);
    assert_holds("out", "Cases that were kept: 1 of 2 come out otherwise.\n");
    assert_holds("out", "  Case ");
    assert_int_equal(sh("$T compare $WELL newer --cases nowhere 2>err"), 66);
}

static void wrong_books_and_options_are_refused(void **state)
{
    (void)state;
    assert_int_equal(
        sh("mkdir -p bad && echo 'causes: 1' >bad/a.yaml; $T compare $WELL bad >out 2>err"), 65);
    assert_holds("err", "bad can't be used before this is mended");
    assert_int_equal(sh("test -s out"), 1);
    assert_int_equal(sh("$T compare $WELL nowhere 2>err"), 66);
    assert_int_equal(sh("$T compare $WELL 2>err"), 2);
    assert_int_equal(sh("$T compare $WELL $WELL --calls ten 2>err"), 2);
    assert_holds("err", "write a whole number");
}

static void narrow_terminals_are_enough(void **state)
{
    (void)state;
    make_newer();
    const char *const words[] = {"-c", "'" TT_PROGRAM "' compare '" WELL "' newer --calls 20",
                                 NULL};
    window *w = window_open(
        &(window_plan){.program = "/bin/sh", .words = words, .rows = 60, .columns = 40});
    window_await_end(w);
    assert_in_range(widest_line(window_text(w)), 10, 40);
    assert_int_equal(window_close(w), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_moves_nothing),
        cmocka_unit_test(a_changed_number_is_named),
        cmocka_unit_test(cases_that_were_kept_are_played_with_both),
        cmocka_unit_test(wrong_books_and_options_are_refused),
        cmocka_unit_test(narrow_terminals_are_enough),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
