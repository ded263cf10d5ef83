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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(both_are_in_the_file_and_its_comments_stay, fresh),
        cmocka_unit_test_setup(what_is_not_usual_is_asked_for_twice, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
