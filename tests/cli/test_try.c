/* `try`: what it says of worked cases, and why one of them comes out as it does. */
#include "run_telltale.h"

#include "window.h"

#include <jansson.h>

/* The well with a case that expects another cause. */
static void make_wrong_book(void)
{
    assert_int_equal(
        sh("rm -rf wrong && cp -r $WELL wrong && sed -i 's/leading-cause: tank-waterlogged, "
           "first/leading-cause: leak-after-tank, first/' wrong/parts/cases.yaml && "
           "grep -q 'leading-cause: leak-after-tank' wrong/parts/cases.yaml"),
        0);
}

static void all_of_them(void **state)
{
    (void)state;
    assert_int_equal(sh("$T try $WELL >out 2>err"), 0);
    assert_holds("out", "worked cases came out as expected.");
    assert_int_equal(sh("test -s err"), 1);
}

static void one_by_name_says_why(void **state)
{
    (void)state;
    assert_int_equal(sh("$T try $WELL waterlogged >out 2>err"), 0);
    assert_holds("out", "waterlogged (parts/cases.yaml:");
    assert_holds("out", "came out as expected.");
    assert_holds("out", "Why rather ");
    assert_holds("out", "How often it happens, before any answer");
    assert_holds("out", " all together, ");
    assert_holds("out", "What alone would turn it:");
    assert_int_equal(sh("$T try $WELL waterloged >out 2>err"), 2);
    assert_holds("err", "the book has no worked case waterloged. Did you mean waterlogged?");
    assert_int_equal(sh("test -s out"), 1);
    assert_int_equal(sh("$T try $WELL something-else-altogether 2>err"), 2);
    assert_holds("err", "the book has no worked case something-else-altogether, but ");
}

static void a_case_that_fails_says_why_at_once(void **state)
{
    (void)state;
    make_wrong_book();
    assert_int_equal(sh("$T try wrong >all 2>err"), 1);
    assert_holds("all", "FAILED waterlogged (parts/cases.yaml:");
    assert_holds("all", "leading cause: expected leak-after-tank, got tank-waterlogged");
    assert_holds("all", "What alone would bring it forward:");
    assert_int_equal(sh("$T try wrong waterlogged >one 2>err"), 1);
    assert_int_equal(sh("head -c $(wc -c <one) all | cmp - one"), 0);
    assert_int_equal(sh("$T try wrong --json >all.json 2>err"), 1);
    json_t *all = json_load_file("all.json", 0, NULL), *cases = json_object_get(all, "cases"), *one;
    size_t i, told = 0;
    json_array_foreach(cases, i, one)
    {
        const bool passed = json_is_true(json_object_get(one, "passed"));
        assert_int_equal(json_object_get(one, "because") != NULL, !passed);
        told += !passed;
    }
    assert_int_equal(told, 1);
    json_decref(all);
}

static void rank_says_why_when_asked(void **state)
{
    (void)state;
    assert_int_equal(sh("echo 'pump-sound: rapid' >answers.yaml; $T rank $WELL answers.yaml "
                        ">plain; $T rank $WELL answers.yaml --why >why"),
                     0);
    assert_int_equal(sh("head -c $(wc -c <plain) why | cmp - plain"), 0);
    assert_holds("why", "Why rather ");
    assert_false(holds("plain", "Why rather "));
    assert_int_equal(sh("$T rank $WELL answers.yaml --why --json >why.json; $T rank $WELL "
                        "answers.yaml --json >plain.json"),
                     0);
    json_t *why = json_load_file("why.json", 0, NULL),
           *plain = json_load_file("plain.json", 0, NULL);
    assert_true(why != NULL && plain != NULL && json_object_get(plain, "why") == NULL);
    json_t *w = json_object_get(why, "why"), *bars = json_object_get(w, "bars");
    double sum = 0;
    for (size_t i = 0; i < json_array_size(bars); i++)
        sum += json_number_value(json_object_get(json_array_get(bars, i), "decibels"));
    assert_true(json_array_size(bars) > 1);
    double difference = sum - json_number_value(json_object_get(w, "decibels"));
    assert_true(difference < 1e-7 && difference > -1e-7);
    json_object_del(why, "why");
    assert_true(json_equal(why, plain));
    json_decref(why);
    json_decref(plain);
    assert_int_equal(sh("$T try $WELL --why 2>err"), 2);
}

static void numbers_that_no_case_holds_are_named(void **state)
{
    (void)state;
    assert_int_equal(sh("$T try $WELL --held >out 2>err"), 0);
    assert_holds("out",
                 "numbers are held: if one is turned round, some worked case comes out otherwise.");
    assert_holds("out", "No worked case would notice:\n  - shown-by of ");
    assert_holds(
        "out",
        "  - shown-by of wet-floor, leak-after-tank: usually, turned to never (parts/faults.yml:");
    assert_false(holds("out", "shown-by of short-cycling, tank-waterlogged"));
    assert_int_equal(sh("$T try $WELL --held --json >numbers 2>err"), 0);
    json_t *all = json_load_file("numbers", 0, NULL), *numbers = json_object_get(all, "numbers"),
           *n;
    size_t i, held = 0;
    json_array_foreach(numbers, i, n) held += json_is_string(json_object_get(n, "by"));
    assert_int_equal(json_integer_value(json_object_get(all, "held")), held);
    assert_int_equal(json_integer_value(json_object_get(all, "count")), json_array_size(numbers));
    assert_true(held > 0 && held < json_array_size(numbers));
    json_decref(all);
    assert_int_equal(sh("$T try $WELL waterlogged --held 2>err"), 2);
    assert_holds("err", "leave out waterlogged");
    assert_int_equal(sh("$T try $WELL --junit --held 2>err"), 2);
}

static void a_report_for_servers(void **state)
{
    (void)state;
    make_wrong_book();
    assert_int_equal(
        sh("sed -i 's/title: .*/title: \"Wells <\\&> pumps\"/' wrong/book.yaml; $T try "
           "wrong --junit >out 2>err"),
        1);
    assert_holds("out", "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuites tests=\"2\" "
                        "failures=\"1\" errors=\"0\">\n");
    assert_holds("out", "  <testsuite name=\"Wells &lt;&amp;&gt; pumps\" tests=\"2\" "
                        "failures=\"1\" errors=\"0\" skipped=\"0\">\n");
    assert_holds("out", " name=\"dark\" file=\"parts/cases.yaml\" line=\"");
    assert_holds(
        "out", "<failure message=\"leading cause: expected leak-after-tank, got tank-waterlogged");
    assert_int_equal(sh("$T try $WELL --junit >out 2>err"), 0);
    assert_holds("out", " failures=\"0\"");
    assert_false(holds("out", "<failure"));
}

/* On 40 columns every line fits. */
static void narrow_terminals_are_enough(void **state)
{
    (void)state;
    make_wrong_book();
    const char *const words[] = {"-c", "'" TT_PROGRAM "' try wrong", NULL};
    window *w = window_open(
        &(window_plan){.program = "/bin/sh", .words = words, .rows = 60, .columns = 40});
    window_await_end(w);
    assert_in_range(widest_line(window_text(w)), 10, 40);
    assert_int_equal(window_close(w), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_of_them),
        cmocka_unit_test(one_by_name_says_why),
        cmocka_unit_test(a_case_that_fails_says_why_at_once),
        cmocka_unit_test(rank_says_why_when_asked),
        cmocka_unit_test(numbers_that_no_case_holds_are_named),
        cmocka_unit_test(a_report_for_servers),
        cmocka_unit_test(narrow_terminals_are_enough),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
