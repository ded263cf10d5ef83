/* `rehearse`: what it says, that nothing but book, seed and options counts, and what it
 * refuses. */
#include "run_telltale.h"

#include "window.h"

#include <jansson.h>
#include <signal.h>

static void it_says_what_an_author_wants_to_know(void **state)
{
    (void)state;
    assert_int_equal(sh("$T rehearse $WELL --calls 60 >out 2>err"), 0);
    assert_holds("out", "House well, edition 3\n60 made-up calls as householder, seed 1.\n");
    assert_holds("out",
                 "When the first fix is begun, or somebody is called, the right cause\n  leads: ");
    assert_holds("out", "  is among the first three: ");
    assert_false(holds("out", "At the end"));
    assert_holds("out", "Against what could be done at best, in 60 calls\n"
                        "  minutes over those of somebody who knows what is wrong: ");
    assert_holds("out", "with every answer known before: ");
    assert_holds("out", "Calls with one cause: ");
    assert_holds("out", "How the calls end\n  cured: ");
    assert_holds("out",
                 "Asking in the order of the names, until it would fix or call\n  questions: ");
    assert_holds("out", "  minutes more: ");
    assert_holds("out", "Handed over, and played on to the end with whoever is called: ");
    assert_holds("out", "  minutes worked by all: ");
    assert_holds("out", "  minutes of waiting: ");
    assert_holds("out", "Minutes worked in a call, waiting aside\n  as householder, in 60 calls: ");
    assert_holds("out", "  as technician, in ");
    assert_holds("out", "  changes of place: ");
    assert_holds("out", "The fewest causes that hold 90 % of the chances, at the first fix\n");
    assert_holds("out", " once in twenty.");
    assert_holds("out", "Fixes in 100 calls that could not have helped\n  low risk: ");
    assert_holds("out", "Safest first costs, against that\n  minutes a call: ");
    assert_holds("out", " calls, mean ");
    assert_holds("out", "Taken for each other most often, at the first fix\n  ");
    assert_holds("out", "tells them apart best: ");
    assert_holds("out", "too few calls to tell");
    assert_holds("out", "For 2 points up or down play about ");
    assert_int_equal(sh("test -s err"), 1); /* not a terminal: nothing while one waits */
}

static void one_seed_is_one_result(void **state)
{
    (void)state;
    const char *options = "--calls 43 --seed 9 --misread 5 --numbers-off 30";
    for (int threads = 1; threads <= 3; threads++)
        assert_int_equal(
            sh("$T rehearse $WELL %s --json --threads %d >by%d", options, threads, threads), 0);
    assert_same("by1", "by2");
    assert_same("by1", "by3");
    assert_int_equal(sh("$T rehearse %s $WELL --json >again", options), 0);
    assert_same("by1", "again");
    assert_int_equal(sh("$T rehearse $WELL --calls 43 --seed 10 --json >other && cmp -s by1 other"),
                     1);
}

static double number_at(const char *file, const char *part, const char *key, const char *inner)
{
    json_t *all = json_load_file(file, 0, NULL);
    assert_non_null(all);
    json_t *at = json_object_get(json_object_get(all, part), key);
    if (inner != NULL) at = json_object_get(at, inner);
    assert_true(json_is_number(at));
    double number = json_number_value(at);
    json_decref(all);
    return number;
}

static void options_reach_the_calls(void **state)
{
    (void)state;
    assert_int_equal(sh("$T rehearse $WELL --calls 300 --json >plain"), 0);
    assert_int_equal(sh("$T rehearse $WELL --calls 300 --misread '40 %%' --json >misread"), 0);
    assert_int_equal(sh("$T rehearse $WELL --calls 300 --as technician --json >technician"), 0);
    assert_true(number_at("misread", "options", "misread", NULL) == 0.4);
    assert_true(number_at("misread", "all", "leads", "share") <
                number_at("plain", "all", "leads", "share"));
    assert_true(number_at("technician", "all", "cured", "share") >
                number_at("plain", "all", "cured", "share"));
    assert_int_equal(sh("$T rehearse $WELL --calls 60 --misread 5 --numbers-off 30%% >words"), 0);
    assert_holds("words", "5 % more answers are wrong than the book says.");
    assert_holds("words", "The book's numbers are off by up to 30 %.");
    assert_int_equal(sh("$T rehearse $WELL --calls 300 --sensitivity >words"), 0);
    assert_holds("words", "Numbers of the book that move the minutes of a call most");
    assert_holds("words", "  recharge-tank cures tank-waterlogged: usually\n    below ");
}

static void senseless_options_are_refused(void **state)
{
    (void)state;
    static const char *const wrong[] = {"--calls 0",        "--calls -3",        "--calls ten",
                                        "--calls 1e3",      "--seed 1.5",        "--threads 0",
                                        "--threads 65",     "--misread 101",     "--misread five",
                                        "--numbers-off -1", "--numbers-off 100", "--calls ''"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        assert_int_equal(sh("$T rehearse $WELL %s >out 2>err", wrong[i]), 2);
        assert_int_equal(sh("test -s out"), 1);
        assert_holds("err", "write a ");
    }
    assert_int_equal(sh("$T rehearse $WELL --as nobody 2>err"), 2);
    assert_holds("err", "householder");
    assert_int_equal(sh("$T rehearse nowhere 2>err"), 66);
    assert_int_equal(sh("$T try $WELL --calls 5 2>err"), 2);
}

/* Two hundred calls on a terminal of 40 columns, with what goes elsewhere; what it has shown is in
 * "told". */
static void rehearse_on_a_terminal(const char *more)
{
    char command[1024];
    snprintf(command, sizeof command, "'" TT_PROGRAM "' rehearse '" WELL "' --calls 200 %s", more);
    const char *const words[] = {"-c", command, NULL};
    window *w = window_open(&(window_plan){
        .program = "/bin/sh", .words = words, .rows = 24, .columns = 40, .copy = "told"});
    window_await_end(w);
    assert_in_range(widest_line(window_text(w)), 10, 40);
    assert_int_equal(window_close(w), 0);
}

/* On a narrow terminal every line fits, and each tenth is told on one of its own. */
static void narrow_terminals_are_enough(void **state)
{
    (void)state;
    rehearse_on_a_terminal("2>err");
    rehearse_on_a_terminal("--json >json");
    assert_holds("told", "10 % of 200 calls");
    assert_holds("told", "90 % of 200 calls");
    assert_false(holds("told", "100 %"));
}

/* ---- in pieces ---- */

static void parts_add_up_to_the_whole(void **state)
{
    (void)state;
    const char *how = "--as technician --seed 4 --misread 5 --sensitivity";
    assert_int_equal(sh("$T rehearse $WELL --calls 43 %s --json >whole", how), 0);
    assert_int_equal(sh("$T rehearse $WELL --calls 1..10 --threads 1 %s >a", how), 0);
    assert_int_equal(sh("$T rehearse $WELL --calls 11..42 --threads 3 %s >b", how), 0);
    assert_int_equal(sh("$T rehearse $WELL --calls 43..43 %s --into c", how), 0);
    assert_int_equal(sh("$T rehearse $WELL --add c a b --json >sum"), 0);
    assert_same("whole", "sum");
    assert_int_equal(sh("$T rehearse $WELL --add a --add c b >words"), 0);
    assert_holds("words", "43 made-up calls as technician, seed 4.");
    assert_int_equal(sh("$T rehearse $WELL --add a --json >some && cmp -s some whole"), 1);
    assert_int_equal(sh("echo mine >mine; $T rehearse $WELL --calls 1..2 --into mine 2>err"), 73);
    assert_int_equal(sh("$T rehearse $WELL --calls 1..2 --into c && grep -q '\"last\": 2' c"), 0);
}

/* Each is refused with what to do instead, and nothing is printed. */
static void assert_refused(const char *words, int status, const char *why)
{
    assert_int_equal(sh("$T rehearse %s >out 2>err", words), status);
    assert_int_equal(sh("test -s out"), 1);
    assert_holds("err", why);
}

static void parts_of_something_else_are_refused(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf well && cp -r $WELL well && for i in 1..5 5..9; do "
                        "$T rehearse well --calls $i >$i; done; "
                        "$T rehearse well --calls 6..9 --seed 2 >seed && "
                        "$T rehearse well --calls 6..9 --as technician >role && "
                        "$T rehearse well --calls 6..9 --misread 5 >misread && "
                        "$T rehearse well --calls 6..9 --numbers-off 5 >off && "
                        "sed 's/\"version\": 1/\"version\": 9/' 1..5 >version && "
                        "sed '30s/[0-9]/7&/' 1..5 >damaged && head -c 300 1..5 >cut && "
                        "sed 's/\"last\": 5/\"last\": 6/' 1..5 >longer"),
                     0);
    assert_refused("well --add 1..5 5..9", 65, "5..9 holds calls 5 to 9, and 1..5 calls 1 to 5");
    assert_refused("well --add 1..5 1..5", 65, "count twice");
    assert_refused("well --add 1..5 seed", 65, "another --seed than 1..5");
    assert_refused("well --add 1..5 role", 65, "another --as than 1..5");
    assert_refused("well --add 1..5 misread", 65, "another --misread");
    assert_refused("well --add 1..5 off", 65, "another --numbers-off");
    assert_refused("well --add version", 65, "another version of telltale");
    assert_refused("well --add damaged", 65, "its counts are not those that were written");
    assert_refused("well --add longer", 65, "its counts are not those that were written");
    assert_refused("well --add cut", 65, "it is no JSON");
    assert_refused("well --add well/book.yaml", 65, "A part is what rehearse writes with");
    assert_refused("well --add nowhere", 66, "nowhere");
    assert_refused("well --add", 2, "needs the files of the parts");
    assert_refused("well 1..5", 2, "write --add in front");
    assert_refused("well --add 1..5 --seed 1", 2, "leave out --seed");
    assert_refused("well --sensitivity --numbers-off 5", 2, "give one of them");
    assert_refused("well --calls 5..1", 2, "such as 1001..2000");
    assert_refused("well --calls 0..5", 2, "such as 1001..2000");
    assert_refused("well --calls 3..", 2, "such as 1001..2000");
    assert_int_equal(sh("echo '# one line more' >>well/book.yaml"), 0);
    assert_refused("well --add 1..5", 65, "as it was before a change");
}

/* Whoever presses Ctrl-C is told how to go on, and no half of a result comes out. */
static void stopped_it_leaves_nothing_half_done(void **state)
{
    (void)state;
    const char *const words[] = {"rehearse", WELL, "--calls", "20000", "--threads", "2", NULL};
    window *w = window_open(&(window_plan){.words = words, .rows = 24, .columns = 100});
    window_await(w, "10 % of 20000 calls");
    window_type_bytes(w, "\003", 1);
    window_await_end(w);
    assert_non_null(
        strstr(window_text(w), " of 20000 calls, and nothing of them is kept. --calls 1.."));
    assert_null(strstr(window_text(w), "made-up calls as"));
    assert_int_equal(window_close(w), 128 + SIGINT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_says_what_an_author_wants_to_know),
        cmocka_unit_test(one_seed_is_one_result),
        cmocka_unit_test(options_reach_the_calls),
        cmocka_unit_test(senseless_options_are_refused),
        cmocka_unit_test(narrow_terminals_are_enough),
        cmocka_unit_test(parts_add_up_to_the_whole),
        cmocka_unit_test(parts_of_something_else_are_refused),
        cmocka_unit_test(stopped_it_leaves_nothing_half_done),
    };
    return cmocka_run_group_tests_name("rehearse", tests, NULL, NULL);
}
