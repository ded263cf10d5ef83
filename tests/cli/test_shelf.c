/* The books that come with the program: all of them are in order, and on a terminal one is
 * chosen where none is named. */
#include "run_telltale.h"

#include "books/shelf.h"
#include "skips.h"
#include "window.h"

#define SHIPPED TT_SOURCE_DIR "/rules"

static int fresh(void **state)
{
    (void)state;
    setenv("SHIPPED", SHIPPED, 1);
    return sh("rm -rf shelf out err cases");
}

/* No faults, and in every worked case what its author expects. */
static void every_shipped_book_is_in_order(void **state)
{
    (void)state;
    assert_int_equal(sh("ls -d $SHIPPED/*/ >folders && test $(wc -l <folders) -ge 2"), 0);
    int status = sh("while read -r book; do"
                    "  $T check \"$book\" >out 2>err && grep -qx 'No faults.' out &&"
                    "  $T try \"$book\" >out 2>err &&"
                    "  grep -q 'worked cases came out as expected.' out || exit 1; done <folders");
    if (status != 0) fail_msg("%s%s", contents("out"), contents("err"));
}

static void every_shipped_book_is_on_the_shelf(void **state)
{
    (void)state;
    shelf s = shelf_read(SHIPPED, "foam-line");
    assert_int_equal(sh("test $(ls -d $SHIPPED/*/ | wc -l) = %u", s.count), 0);
    assert_string_equal(s.titles[0], "Foam application in a conveyor wash");
    assert_string_equal(s.paths[0], SHIPPED "/foam-line");
    assert_string_equal(s.titles[1], "Dosing and pumping");
    shelf_free(&s);
    assert_int_equal(s.count, 0);
}

static void what_is_no_book_is_left_out(void **state)
{
    (void)state;
    assert_int_equal(sh("mkdir -p shelf/broken shelf/.hidden && cp -r $WELL shelf/well && cp -r "
                        "$WELL shelf/a-well && cp $WELL/book.yaml shelf/.hidden && echo 'x: [' "
                        ">shelf/broken/a.yaml && echo note >shelf/note.yaml"),
                     0);
    shelf s = shelf_read("shelf", "well");
    assert_int_equal(s.count, 2);
    assert_string_equal(s.paths[0], "shelf/well");
    assert_string_equal(s.paths[1], "shelf/a-well");
    assert_string_equal(s.titles[0], "House well");
    shelf_free(&s);
    s = shelf_read("nowhere", "well");
    assert_int_equal(s.count, 0);
    shelf_free(&s);
}

/* The program that is tested may have been built for another place: ./tests/run builds it for this
 * checkout. */
static void need_a_shelf(void)
{
    if (sh("$T check dosing-and-pumping >out 2>&1") == 0) return;
    skip_since("which book is meant: none in " TELLTALE_RULES_DIR
               " (the build's TELLTALE_RULES_DIR)");
}

/* `telltale` with these words on a terminal. */
static window *at_a_terminal(const char *const *words)
{
    need_a_shelf();
    return window_open(&(window_plan){.words = words, .rows = 24, .columns = 40});
}

static void on_a_terminal_one_is_chosen(void **state)
{
    (void)state;
    window *w = at_a_terminal((const char *const[]){"ask", "--unsaved", NULL});
    window_await(w, " 1  Foam application in a conveyor wash\n");
    window_await(w, " 2  Dosing and pumping\n");
    window_type_lines(w, "7");
    window_await(w, "That is none of these.");
    window_type_lines(w, "dosing");
    window_await(w, "Danger first:");
    window_type_lines(w, "cautions");
    window_await(w, "Chlorine gas can kill.");
    window_type_lines(w, ":stop");
    assert_int_equal(window_close(w), 3);
}

static void enter_alone_takes_the_foam_line(void **state)
{
    (void)state;
    window *w = at_a_terminal(NULL);
    window_type_lines(w, "");
    window_await(w, "Foam application in a conveyor wash\n");
    window_await(w, "Danger first:");
    window_type_lines(w, "stop");
    assert_int_equal(window_close(w), 3);
}

static void whoever_stops_there_begins_no_case(void **state)
{
    (void)state;
    window *w = at_a_terminal((const char *const[]){"ask", "--cases", "cases", NULL});
    window_type_lines(w, "stop");
    window_await(w, "No case was begun.");
    assert_int_equal(window_close(w), 3);
    assert_int_equal(sh("test -e cases"), 1);
}

static void a_script_is_not_asked(void **state)
{
    (void)state;
    need_a_shelf();
    assert_int_equal(sh("echo 2 | $T ask --unsaved >out 2>err"), 3);
    assert_holds("out", "Foam application in a conveyor wash");
    assert_false(holds("out", "What is it about?"));
    window *w = at_a_terminal((const char *const[]){"ask", "--unsaved", "--no-input", NULL});
    window_await_end(w);
    assert_null(strstr(window_text(w), "What is it about?"));
    assert_non_null(strstr(window_text(w), "Is anything dangerous going on right"));
    assert_int_equal(window_close(w), 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(every_shipped_book_is_in_order, fresh),
        cmocka_unit_test_setup(every_shipped_book_is_on_the_shelf, fresh),
        cmocka_unit_test_setup(what_is_no_book_is_left_out, fresh),
        cmocka_unit_test_setup(on_a_terminal_one_is_chosen, fresh),
        cmocka_unit_test_setup(enter_alone_takes_the_foam_line, fresh),
        cmocka_unit_test_setup(whoever_stops_there_begins_no_case, fresh),
        cmocka_unit_test_setup(a_script_is_not_asked, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
