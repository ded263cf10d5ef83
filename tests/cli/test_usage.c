/* Verbs, options, help and exit statuses: what a person or a script meets first. */
#include <signal.h>

#include "run_telltale.h"

#include "window.h"

static const char *const verbs[] = {"ask",   "rank",     "check", "try",   "rehearse",
                                    "sheet", "handbook", "new",   "bench", "help"};
enum { VERBS = sizeof verbs / sizeof verbs[0] };

static void help_is_one_text(void **state)
{
    (void)state;
    for (unsigned i = 0; i < VERBS; i++) {
        assert_int_equal(sh("$T help %s >one 2>err", verbs[i]), 0);
        assert_int_equal(sh("$T %s --help >two 2>>err", verbs[i]), 0);
        assert_int_equal(sh("$T -h %s >three 2>>err", verbs[i]), 0);
        assert_same("one", "two");
        assert_same("one", "three");
        assert_holds("one", "Example\n    telltale ");
        assert_int_equal(sh("test -s err"), 1);
    }
    assert_int_equal(sh("$T --help >one && $T help >two && $T -h >three"), 0);
    assert_same("one", "two");
    assert_same("one", "three");
    for (unsigned i = 0; i < VERBS; i++) assert_holds("one", verbs[i]);
}

/* Of all verbs, as the program itself names them: one that takes no word has a usage too. */
static void each_verb_says_how_it_is_called(void **state)
{
    (void)state;
    assert_int_equal(sh("$T help | sed -n '/^Verbs/,/^$/s/^  \\([a-z]*\\) .*/\\1/p' >verbs"), 0);
    for (unsigned i = 0; i < VERBS; i++) assert_holds("verbs", verbs[i]);
    assert_holds("verbs", "settings");
    assert_int_equal(
        sh("while read -r v; do $T help $v | head -1 | "
           "LC_ALL=C grep -qxE \"telltale $v ([][A-Z]+ )*\\[OPTIONS\\]\" || exit 1; done <verbs"),
        0);
}

static void version_is_name_and_number(void **state)
{
    (void)state;
    assert_int_equal(sh("$T --version >one && $T -V >two && $T ask --version >three"), 0);
    assert_int_equal(sh("grep -qEx 'telltale [0-9]+\\.[0-9]+\\.[0-9]+' one"), 0);
    assert_same("one", "two");
    assert_same("one", "three");
}

static void nothing_said_to_a_program_is_a_mistake(void **state)
{
    (void)state;
    assert_int_equal(sh("$T </dev/null >out 2>err"), 2);
    assert_holds("err", "telltale help");
    assert_int_equal(sh("test -s out"), 1);
}

static void slips_get_a_suggestion(void **state)
{
    (void)state;
    assert_int_equal(sh("$T chekc $WELL >out 2>err"), 2);
    assert_holds("err", "Did you mean check?");
    assert_int_equal(sh("$T rank $WELL a.yaml --jsno >out 2>err"), 2);
    assert_holds("err", "Did you mean --json?");
    assert_int_equal(sh("$T xyzzy >out 2>err"), 2);
    assert_holds("err", "there is no verb xyzzy");
    assert_int_equal(sh("test \"$(wc -l <err)\" = 1"), 0);
    assert_int_equal(sh("$T che $WELL 2>err"), 2);
}

/* An option is named as it was typed, however many bytes its letter has. */
static void a_wrong_option_is_named_whole(void **state)
{
    static const char *const typed[] = {"-q", "-qh", "-é", "-qé", "--=x", "--none"};
    (void)state;
    for (size_t i = 0; i < sizeof typed / sizeof *typed; i++) {
        char said[100];
        snprintf(said, sizeof said, "there is no option %s.", typed[i]);
        setenv("TYPED", typed[i], 1);
        assert_int_equal(sh("$T check well \"$TYPED\" more 2>err"), 2);
        assert_holds("err", said);
    }
}

static void words_are_counted(void **state)
{
    (void)state;
    assert_int_equal(sh("$T check 2>err"), 2);
    assert_holds("err", "telltale check BOOK");
    assert_int_equal(sh("$T check $WELL more 2>err"), 2);
    assert_holds("err", "more");
    assert_int_equal(sh("$T check $WELL --as technician 2>err"), 2);
    assert_holds("err", "--as is no option of check");
    assert_int_equal(sh("$T ask $WELL --as 2>err"), 2);
    assert_holds("err", "--as ROLE");
}

static void options_stand_anywhere(void **state)
{
    (void)state;
    assert_int_equal(sh("echo 'pump-sound: rapid' >a.yaml"), 0);
    assert_int_equal(sh("$T rank $WELL a.yaml --json >one"), 0);
    assert_int_equal(sh("$T --json rank $WELL a.yaml >two"), 0);
    assert_int_equal(sh("POSIXLY_CORRECT=1 $T rank $WELL --json -- a.yaml >three"), 0);
    assert_int_equal(sh("$T rank --json $WELL - <a.yaml >four"), 0);
    assert_same("one", "two");
    assert_same("one", "three");
    assert_same("one", "four");
}

static void check_tells_good_from_bad(void **state)
{
    (void)state;
    assert_int_equal(sh("$T check $WELL >out 2>err"), 0);
    assert_holds("out", "No faults.");
    assert_int_equal(sh("rm -rf bad && cp -r $WELL bad && printf 'questions:\\n  smoke:\\n    ask: "
                        "Twice?\\n' >bad/more.yaml"),
                     0);
    assert_int_equal(sh("$T check bad >out 2>err"), 1);
    assert_holds("out", "more.yaml:2");
    assert_int_equal(sh("$T check bad --json >out 2>err"), 1);
    assert_holds("out", "\"severity\":\"error\"");
    assert_int_equal(sh("$T rank bad /dev/null >out 2>err"), 65);
    assert_holds("err", "more.yaml:2");
    assert_int_equal(sh("test -s out"), 1);
    assert_int_equal(sh("$T ask bad </dev/null >out 2>err"), 65);
}

static void what_is_missing_is_named(void **state)
{
    (void)state;
    assert_int_equal(sh("$T check ./nowhere 2>err"), 66);
    assert_holds("err", "./nowhere");
    assert_int_equal(sh("$T rank $WELL nowhere.yaml 2>err"), 66);
    assert_int_equal(sh("mkdir -p empty && $T check empty 2>err"), 66);
    assert_int_equal(sh("$T check $WELL/book.yaml 2>err"), 66);
    assert_int_equal(sh("$T ask $WELL --as plumber </dev/null 2>err"), 2);
    assert_holds("err", "householder, technician");
    assert_int_equal(sh("$T ask $WELL --language '../x' </dev/null 2>err"), 2);
}

static void ask_needs_a_book(void **state)
{
    (void)state;
    assert_int_equal(
        sh("$T ask </dev/null >out 2>err; s=$?; [ $s = 3 ] || grep -q 'telltale ask BOOK' err"), 0);
    assert_int_equal(
        sh("rm -rf foam-line && cp -r $WELL foam-line && $T ask --unsaved </dev/null >out 2>err"),
        3);
    assert_holds("out", "House well");
    assert_int_equal(sh("rm -r foam-line"), 0);
}

static void nothing_outside_the_folder_is_read(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf inside outside && cp -r $WELL inside && mkdir outside"), 0);
    assert_int_equal(sh("echo 'broken: [' >outside/evil.yaml"), 0);
    assert_int_equal(
        sh("ln -s ../outside/evil.yaml inside/link.yaml && ln -s ../outside inside/folder.d"), 0);
    assert_int_equal(sh("mkfifo inside/pipe.yaml"), 0);
    assert_int_equal(sh("$T check inside >out 2>err"), 0);
    assert_holds("err", "link.yaml: left out, it is a link");
    assert_holds("err", "pipe.yaml: left out");
    assert_int_equal(sh("touch \"inside/$(printf 'a\\033[31mb').yaml\""), 0);
    assert_int_equal(sh("$T check inside >out 2>err"), 65);
    assert_int_equal(sh("LC_ALL=C grep -q \"$(printf '\\033')\" err"), 1);
}

static void try_counts_and_names(void **state)
{
    (void)state;
    assert_int_equal(sh("$T try $WELL >out"), 0);
    assert_holds("out", "All 2 worked cases");
    assert_holds("out", "burning");
    assert_int_equal(sh("rm -rf wrong && cp -r $WELL wrong && sed -i s/reset-breaker}/find-leak}/ "
                        "wrong/parts/cases.yaml"),
                     0);
    assert_int_equal(sh("$T try wrong >out"), 1);
    assert_holds("out", "FAILED dark (");
    assert_holds("out", "1 of 2 worked cases");
    assert_int_equal(sh("$T try wrong --json >out"), 1);
    assert_holds("out", "\"passed\": 1");
}

/* A row of a chart: each of its causes has to be among the first. */
static void a_row_of_a_chart_is_one_case(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf chart && cp -r $WELL chart"), 0);
    assert_int_equal(
        sh("printf 'cases:\\n  row:\\n    answers: {smoke: no, pump-sound: rapid}\\n    "
           "expect: {among-first: {count: 2, cause: [leak-after-tank, "
           "tank-waterlogged]}}\\n' >chart/row.yaml; $T try chart >out 2>err"),
        0);
    assert_int_equal(
        sh("sed -i 's/leak-after-tank/breaker-off/' chart/row.yaml; $T try chart >out"), 1);
    assert_holds("out", "among the first: expected breaker-off, got tank-waterlogged");
    assert_false(holds("out", "expected tank-waterlogged"));
}

static void a_full_disk_is_noticed(void **state)
{
    (void)state;
    assert_int_equal(sh("test -c /dev/full"), 0);
    assert_int_equal(sh("$T help >/dev/full 2>err"), 74);
    assert_holds("err", "could not be written");
    assert_int_equal(sh("$T check $WELL >/dev/full 2>err"), 74);
    assert_int_equal(sh("echo silent | $T ask $WELL --unsaved >/dev/full 2>err"), 74);
}

/* Nobody has the other end of the pipe any more when the program begins. */
static void a_reader_may_leave(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -f pipe && mkfifo pipe && (trap '' PIPE; exec 3<>pipe 4>pipe 3>&-; $T "
                        "help >&4 2>err)"),
                     141);
    assert_int_equal(sh("test -s err"), 1);
}

/* A failed assertion ends it with ABRT; here it comes from outside, while it waits at a prompt.
 * Sanitizers have a word of their own. */
static void a_fault_of_its_own_says_whom_to_tell(void **state)
{
    (void)state;
    assert_int_equal(sh("$T help >out && $T --version >version"), 0);
    assert_holds("out", "A fault of the program itself? Tell " TELLTALE_BUG_ADDRESS);
    window *w = window_open(&(window_plan){
        .words = (const char *const[]){"ask", WELL, "--unsaved", NULL}, .rows = 24, .columns = 80});
    window_await(w, "Danger first");
    window_signal(w, SIGABRT);
    window_await_end(w);
    const bool told =
        strstr(window_text(w), "this is a fault of the program itself, not yours. What was said in "
                               "a case is kept, unless it was --unsaved.") != NULL;
    assert_true(told && strstr(window_text(w), TELLTALE_BUG_ADDRESS) != NULL);
    assert_int_equal(window_close(w), 128 + SIGABRT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(help_is_one_text),
        cmocka_unit_test(each_verb_says_how_it_is_called),
        cmocka_unit_test(version_is_name_and_number),
        cmocka_unit_test(nothing_said_to_a_program_is_a_mistake),
        cmocka_unit_test(slips_get_a_suggestion),
        cmocka_unit_test(a_wrong_option_is_named_whole),
        cmocka_unit_test(words_are_counted),
        cmocka_unit_test(options_stand_anywhere),
        cmocka_unit_test(check_tells_good_from_bad),
        cmocka_unit_test(what_is_missing_is_named),
        cmocka_unit_test(ask_needs_a_book),
        cmocka_unit_test(nothing_outside_the_folder_is_read),
        cmocka_unit_test(try_counts_and_names),
        cmocka_unit_test(a_row_of_a_chart_is_one_case),
        cmocka_unit_test(a_full_disk_is_noticed),
        cmocka_unit_test(a_reader_may_leave),
        cmocka_unit_test(a_fault_of_its_own_says_whom_to_tell),
    };
    return cmocka_run_group_tests_name("usage", tests, NULL, NULL);
}
