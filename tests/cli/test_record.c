/* What is good is written into one site file by two people at a time: nothing of either is lost
 * unseen, and what stands around it stays. */
#include "run_telltale.h"

#include "window.h"

#define FOAM TT_SOURCE_DIR "/rules/foam-line"

static int fresh(void **state)
{
    (void)state;
    return sh(
        "rm -rf cases && mkdir cases && sed 's/^    foam-air-set:/    # tap it first\\n&/' " FOAM
        "/site.yaml >site.yaml");
}

/* Up to the question whether it is good. */
static window *record_as(const char *name, const char *air, const char *pump)
{
    const char *const words[] = {"record",  FOAM,    "--as",   "technician", "--site", "site.yaml",
                                 "--cases", "cases", "--name", name,         NULL};
    window *w = window_open(&(window_plan){.words = words, .copy = name});
    window_type_lines(w, "no");
    window_type_lines(w, air);
    window_type_lines(w, "4 gal/min");
    window_type_lines(w, pump);
    window_await(w, "Is this what good looks like here?");
    window_await_next_prompt(w);
    return w;
}

static void keep(window *w)
{
    window_type(w, "1");
    window_await(w, "Written into ");
    window_await_end(w);
}

static void both_are_in_the_file_and_its_comments_stay(void **state)
{
    (void)state;
    window *east = record_as("east", "31 psi", "42 psi"),
           *west = record_as("west", "30 psi", "43 psi");
    keep(east);
    keep(west);
    assert_non_null(strstr(window_text(west), "Somebody else has changed that file meanwhile"));
    assert_non_null(strstr(window_text(west),
                           "foam-air-set: somebody else has just recorded 31 psi; "
                           "now 30 psi stands there."));
    assert_null(strstr(window_text(west), "pump-air-set: somebody else"));
    assert_null(strstr(window_text(east), "somebody else"));
    assert_int_equal(window_close(east), 0);
    assert_int_equal(window_close(west), 0);
    assert_holds("site.yaml", "    # tap it first\n    foam-air-set: {value: 30 psi");
    assert_holds("site.yaml", "    pump-air-set: {value: 43 psi");
    assert_int_equal(sh("$T check " FOAM " --site site.yaml >out"), 0);
}

static void what_is_not_usual_is_asked_for_twice(void **state)
{
    (void)state;
    window *w = record_as("east", "45 psi\n45 psi", "42 psi");
    assert_non_null(
        strstr(window_text(w), "45 psi is not usual here: 20 psi \xE2\x80\x93 40 psi."));
    assert_int_equal(window_close(w), 3);
    assert_int_equal(sh("grep -c '45 psi' site.yaml >out"), 1);
}

/* What was read is on the last page, to be written down by hand; the file is left as it is. */
static void assert_by_hand(window *w)
{
    window_type(w, "1");
    window_await(w, "foam-air-set: {value: 31 psi, day: ");
    window_await(w, "pump-air-set: {value: 42 psi, day: ");
    window_await_end(w);
    assert_null(strstr(window_text(w), "Written into "));
    assert_int_equal(window_close(w), 0);
}

static void what_can_not_go_into_the_file_is_told(void **state)
{
    (void)state;
    window *w = record_as("east", "31 psi", "42 psi");
    assert_int_equal(sh("rm site.yaml"), 0);
    assert_by_hand(w);
    assert_int_equal(sh("test ! -e site.yaml"), 0);
    fresh(NULL);
    w = record_as("east", "31 psi", "42 psi");
    assert_int_equal(sh("echo 'site: [' >site.yaml && cp site.yaml broken"), 0);
    assert_by_hand(w);
    assert_same("site.yaml", "broken");
}

/* A change that leaves the file as long as it was is one all the same. */
static void a_change_of_a_letter_is_seen(void **state)
{
    (void)state;
    window *w = record_as("east", "31 psi", "42 psi");
    assert_int_equal(sh("sed -i 's/tap it first/tap it twice/' site.yaml"), 0);
    keep(w);
    assert_non_null(strstr(window_text(w), "Somebody else has changed that file meanwhile"));
    assert_null(strstr(window_text(w), "somebody else has just recorded"));
    assert_int_equal(window_close(w), 0);
    assert_holds("site.yaml", "    # tap it twice\n    foam-air-set: {value: 31 psi");
}

static void who_may_not_record_is_told_who_may(void **state)
{
    (void)state;
    assert_int_equal(sh("$T record " FOAM " --site site.yaml --plain </dev/null >out 2>err"), 2);
    assert_holds("err", "what is good is recorded by a higher role than attendant: add --as ");
    assert_holds("err", " or --as ");
    assert_int_equal(
        sh("$T record " FOAM " --as attendant --site site.yaml --plain </dev/null >out 2>err"), 2);
    assert_int_equal(sh("$T record " FOAM " --as technician --plain </dev/null >out 2>err"), 2);
    assert_holds("err", "what is good goes into the file of a site: name it with --site");
    assert_int_equal(
        sh("$T round " FOAM " --site site.yaml --every hour --plain </dev/null >out 2>err"), 2);
    assert_holds("err", "--every hour: a round is daily, weekly or monthly");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(both_are_in_the_file_and_its_comments_stay, fresh),
        cmocka_unit_test_setup(what_can_not_go_into_the_file_is_told, fresh),
        cmocka_unit_test_setup(a_change_of_a_letter_is_seen, fresh),
        cmocka_unit_test_setup(who_may_not_record_is_told_who_may, fresh),
        cmocka_unit_test_setup(what_is_not_usual_is_asked_for_twice, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
