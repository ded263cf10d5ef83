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

/* Words that name what is wrong choose the book that knows it, and are its first complaint. */
static void what_is_wrong_chooses_the_book(void **state)
{
    (void)state;
    static const struct {
        const char *language, *said, *title, *heard, *confirm;
    } calls[] = {
        {"en", "foam is dry", "Foam application in a conveyor wash\n", "Heard: “foam is dry”.",
         "The foam is too dry"},
        {"es", "la espuma sale seca", "autolavado de transportador",
         "Entendido: “la espuma sale seca”.", "La espuma está muy seca"},
        {"en", "engine turns too slowly to start", "Standby generator set\n",
         "Heard: “engine turns too slowly to start”.", "The engine turns too slowly to start"},
        {"en", "the ejector pulls no vacuum", "Dosing and pumping\n",
         "Heard: “the ejector pulls no vacuum”.", "vacuum"},
    };
    for (size_t i = 0; i < sizeof calls / sizeof calls[0]; i++) {
        need_a_shelf();
        window *w = window_open(
            &(window_plan){.words = (const char *const[]){"ask", "--practice", "--unsaved",
                                                          "--language", calls[i].language, NULL},
                           .rows = 60,
                           .columns = 100});
        window_type_lines(w, calls[i].said);
        window_await(w, calls[i].title);
        window_await(w, calls[i].heard);
        window_type_lines(w, "no");
        window_await(w, calls[i].confirm);
        window_type_lines(w, ":stop");
        assert_int_equal(window_close(w), 3);
    }
}

/* Where several know it, these come first. */
static void where_several_books_know_it_one_is_asked_for(void **state)
{
    (void)state;
    window *w = at_a_terminal((const char *const[]){"ask", "--practice", "--unsaved", NULL});
    window_type_lines(w, "the chlorine feeder gives little");
    window_await(w, " 1  Dosing and pumping\n");
    window_type_lines(w, "1");
    window_await(w, "Heard: “the chlorine feeder gives");
    window_type_lines(w, ":stop");
    window_close(w);
}

/* What no book knows is kept, and heard by the one that is chosen; a reply that fits nothing, and a
 * number that is not there, are not. */
static void what_no_book_knows_is_kept(void **state)
{
    (void)state;
    window *w = at_a_terminal((const char *const[]){"ask", "--practice", "--cases", "cases", NULL});
    window_type_lines(w, "no");
    window_await(w, "That is none of these.");
    window_type_lines(w, "qwerty zzz");
    window_await(w, "Heard: “qwerty zzz”, but not what it");
    window_await(w, "words are kept.");
    window_type_lines(w, "1");
    window_await(w, "Heard: “qwerty zzz”.");
    window_type_lines(w, "\nno");
    window_type_lines(w, ":stop");
    assert_int_equal(window_close(w), 3);
    assert_int_equal(sh("grep -q '\"words\":\"qwerty zzz\"' cases/*/*/*/*.jsonl"), 0);
    assert_int_equal(sh("grep -q '\"words\":\"no' cases/*/*/*/*.jsonl"), 1);
}

static void danger_at_the_shelf_brings_its_page(void **state)
{
    (void)state;
    static const char *const said[] = {"a man is caught in the brush", "hay fuego",
                                       "the foam is dry and somebody is bleeding"};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        window *w = at_a_terminal((const char *const[]){"ask", "--practice", "--unsaved", NULL});
        window_type_lines(w, said[i]);
        window_await(w, "DANGER\n");
        assert_null(strstr(window_page(w), "What is it about?"));
        window_type_lines(w, ":stop");
        window_close(w);
    }
}

/* Where open cases are offered it begins a new one; the board takes it as a new call. */
static void what_is_wrong_begins_a_new_case(void **state)
{
    (void)state;
    need_a_shelf();
    assert_int_equal(
        sh("printf 'no\nqwerty\nstop\n' | $T ask foam-line --practice --cases cases >out "
           "2>&1"),
        3);
    window *w = at_a_terminal((const char *const[]){"ask", "--cases", "cases", NULL});
    window_await(w, "Is it about one of these cases?");
    window_type_lines(w, "zzz zzz");
    window_await(w, "Heard: “zzz zzz”, but not what it");
    window_type_lines(w, "engine turns too slowly to start");
    window_await(w, "Standby generator set");
    window_await(w, "Heard: “zzz zzz. engine");
    window_type_lines(w, "stop");
    window_close(w);
    assert_int_equal(
        sh("printf 'foam is dry\nno\nboard\nstop\n' | $T desk --plain --practice --cases "
           "cases >out 2>&1"),
        0);
    assert_holds("out", "Heard: “foam is dry”.");
    w = at_a_terminal((const char *const[]){"ask", "--cases", "cases", NULL});
    window_type_lines(w, "there is a fire");
    window_await(w, "DANGER\n");
    window_type_lines(w, ":stop");
    window_close(w);
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
        cmocka_unit_test_setup(what_is_wrong_chooses_the_book, fresh),
        cmocka_unit_test_setup(where_several_books_know_it_one_is_asked_for, fresh),
        cmocka_unit_test_setup(what_no_book_knows_is_kept, fresh),
        cmocka_unit_test_setup(danger_at_the_shelf_brings_its_page, fresh),
        cmocka_unit_test_setup(what_is_wrong_begins_a_new_case, fresh),
        cmocka_unit_test_setup(enter_alone_takes_the_foam_line, fresh),
        cmocka_unit_test_setup(whoever_stops_there_begins_no_case, fresh),
        cmocka_unit_test_setup(a_script_is_not_asked, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
