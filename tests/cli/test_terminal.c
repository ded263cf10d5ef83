/* `ask` on a terminal of 24 rows and 40 columns: pages no higher than the screen, what matters on
 * each of them, Enter, colour, and lines that would steer a terminal. What is asked and said is in
 * the transcripts. */
#include "luck.h"
#include "run_telltale.h"

#include "window.h"

enum { ROWS = 24, COLUMNS = 40 };

static window *open_small(const char *const *words)
{
    return window_open(&(window_plan){.words = words, .rows = ROWS, .columns = COLUMNS});
}

/* ---- thirty calls ---- */

static const char *const books[] = {TT_SOURCE_DIR "/rules/foam-line",
                                    TT_SOURCE_DIR "/rules/dosing-and-pumping", WELL,
                                    TT_SOURCE_DIR "/tests/cli/regulator"};

static bool shows(const char *page, const char *text)
{
    return strstr(page, text) != NULL;
}

/* Does the page lead through a fix? Its heading tells which thing of how many. */
static bool is_fix_step(const char *page)
{
    for (const char *colon = strchr(page, ':'); colon != NULL; colon = strchr(colon + 1, ':')) {
        unsigned which, of;
        if (sscanf(colon, ": %u of %u", &which, &of) == 2)
            return true; /* also where the row ends within it */
    }
    return false;
}

static void page_is_in_order(const char *page)
{
    const unsigned rows =
        rows_of_text(page, COLUMNS); /* the line that was typed last stands above it */
    if (rows > ROWS + 1 || widest_line(page) > COLUMNS) fail_msg("%u rows:\n%s", rows, page);
    if (!shows(page, "PRACTICE: the example site")) fail_msg("no practice:\n%s", page);
    if (!shows(page, "danger") || !shows(page, "stop"))
        fail_msg("no danger, or no stop:\n%s", page);
    if (is_fix_step(page) && !shows(page, "1  Done") && !shows(page, "Enter: more"))
        fail_msg("no way on:\n%s", page);
}

/* Mostly what goes on, and nothing that would end the call: fixes, danger and pages to read are met
 * in thirty of them. */
static const char *next_line(uint64_t *state, const char *page, unsigned turn)
{
    static const char *const others[] = {"2",      "3",      "4",        "unsure", "known",
                                         "why",    "back",   "40",       "what?",  "cautions",
                                         "danger", "change", "no change"};
    if (shows(page, "Enter: more")) return luck_below(state, 4) > 0 ? "" : "known";
    if (shows(page, "Enter: ")) return "";
    if (shows(page, "I do this now, and wait")) return "2";
    if (shows(page, "Yes, the trouble is gone"))
        return luck_below(state, 2) > 0 ? "no change" : "worse";
    if (turn == 0 || luck_below(state, 3) > 0)
        return shows(page, "Type the number") ? "40" : shows(page, "Is there smoke") ? "2" : "1";
    return others[luck_below(state, sizeof others / sizeof others[0])];
}

static unsigned fix_steps, longer;

static void play(const char *book, uint64_t seed)
{
    enum { TURNS = 45 };
    window *w = open_small((const char *const[]){"ask", book, "--unsaved", "--practice", NULL});
    window_await_prompt(w, 1);
    for (unsigned turn = 0; turn < TURNS && !shows(window_page(w), "I called them, and wait");
         turn++) {
        page_is_in_order(window_page(w));
        fix_steps += is_fix_step(window_page(w));
        longer += shows(window_page(w), "Enter: more");
        window_type(w, next_line(&seed, window_page(w), turn));
        window_await_next_prompt(w);
    }
    page_is_in_order(window_page(w));
    window_type(w, ":stop");
    window_await(w, "Nothing of this case is kept.");
    assert_int_equal(window_close(w), 3);
}

static void thirty_calls_stay_on_the_screen(void **state)
{
    (void)state;
    for (unsigned i = 0; i < 30; i++) play(books[i % 4], 100 + i);
    if (fix_steps < 20 || longer < 20)
        fail_msg("only %u steps and %u pages of several", fix_steps, longer);
}

/* ---- pages ---- */

/* The trouble's list is higher than the screen: its end, with what is asked, is on the last page.
 */
static void enter_leads_on_and_an_answer_is_taken_at_once(void **state)
{
    (void)state;
    window *w = open_small((const char *const[]){"ask", TT_SOURCE_DIR "/rules/foam-line",
                                                 "--unsaved", "--practice", NULL});
    window_type_lines(w, "1");
    window_await(w, " 1  The front stays bare\n");
    window_await(w, "Enter: more. Or type: danger, stop\n");
    window_type_lines(w, "");
    window_await(w, "What is wrong?");
    window_await(w, "27  None of these\n");
    window_type_lines(w, "");
    window_await(w, "Enter: more");
    window_type_lines(w, "12");
    window_await(w, "Question 2");
    window_type_lines(w, "stop");
    assert_int_equal(window_close(w), 3);
}

/* "no", before the question about danger has come: it is shown, and asked. Danger itself is heard
 * on any page. */
static void an_unread_question_about_danger_is_not_answered(void **state)
{
    (void)state;
    static const char *const round[] = {"round", TT_SOURCE_DIR "/rules/foam-line", "--unsaved",
                                        "--practice", NULL};
    const window_plan narrow = {.words = round, .rows = 24, .columns = 40};
    window *w = window_open(&narrow);
    window_await(w, "Enter: more. Or type: danger, stop\n");
    assert_null(strstr(window_page(w), "Is anything dangerous"));
    window_type_lines(w, "no");
    window_await(w, "First read the question about danger");
    window_await(w, "Is anything dangerous going on");
    window_type_lines(w, "no");
    window_await(w, "Question 1");
    window_type_lines(w, "stop");
    window_close(w);
    w = window_open(&narrow);
    window_await(w, "Enter: more. Or type: danger, stop\n");
    window_type_lines(w, "there is smoke");
    window_await(w, "Something burns or smokes");
    window_type_lines(w, "stop");
    window_close(w);
}

static void a_resized_screen_counts_from_the_next_turn(void **state)
{
    (void)state;
    window *w = open_small((const char *const[]){"ask", TT_SOURCE_DIR "/rules/foam-line",
                                                 "--unsaved", "--practice", NULL});
    window_await_prompt(w, 1);
    window_resize(w, 50, 100);
    window_type(w, "1");
    window_await(w, "27  None of these\n");
    assert_null(strstr(window_page(w), "Enter: more"));
    window_type(w, "stop");
    assert_int_equal(window_close(w), 3);
}

static void plain_has_no_pages(void **state)
{
    (void)state;
    window *w = open_small((const char *const[]){"ask", TT_SOURCE_DIR "/rules/foam-line",
                                                 "--unsaved", "--practice", "--plain", NULL});
    window_type_lines(w, "1");
    window_await(w, "\n 1  The front stays bare\n");
    window_await(w, "\n27  None of these\n");
    window_type_lines(w, "stop");
    window_await_end(w);
    assert_null(strchr(window_raw(w), '\033'));
    assert_int_equal(window_close(w), 3);
}

/* ---- colour ---- */

static bool is_coloured(const char *const *words, const char *const *environment)
{
    window *w = window_open(&(window_plan){
        .words = words, .environment = environment, .rows = ROWS, .columns = COLUMNS});
    window_type_lines(w, "yes\nstop"); /* the danger page */
    window_await_end(w);
    const bool coloured = strchr(window_raw(w), '\033') != NULL;
    assert_non_null(
        strstr(window_text(w), "DANGER: Something burns.")); /* the word is there either way */
    assert_int_equal(window_close(w), 3);
    return coloured;
}

static void colour_is_never_alone_and_can_be_refused(void **state)
{
    static const char *const by_itself[] = {"ask", WELL, "--unsaved", NULL},
                             *const always[] = {"ask", WELL, "--unsaved", "--color=always", NULL},
                             *const never[] = {"ask", WELL, "--unsaved", "--color", "never", NULL},
                             *const no[] = {"ask", WELL, "--unsaved", "--no-color", NULL};
    static const char *const able[] = {"TERM=xterm", "NO_COLOR", NULL},
                             *const dumb[] = {"TERM=dumb", "NO_COLOR", NULL},
                             *const refused[] = {"TERM=xterm", "NO_COLOR=1", NULL},
                             *const forced[] = {"TERM=dumb", "NO_COLOR", "FORCE_COLOR=1", NULL},
                             *const both[] = {"TERM=xterm", "NO_COLOR=1", "FORCE_COLOR=1", NULL};
    (void)state;
    assert_true(is_coloured(by_itself, able));
    assert_false(is_coloured(by_itself, dumb));
    assert_false(is_coloured(by_itself, refused));
    assert_true(is_coloured(always, refused));
    assert_false(is_coloured(never, able));
    assert_true(is_coloured(by_itself, forced));
    assert_false(is_coloured(by_itself, both));
    assert_false(is_coloured(no, forced));
    assert_int_equal(sh("$T ask $WELL --no-color --color=always </dev/null 2>err"), 2);
    assert_holds("err", "--color and --no-color don't go together");
    assert_int_equal(sh("printf 'yes\\nstop\\n' | $T ask $WELL --unsaved >out; LC_ALL=C grep -q "
                        "\"$(printf '\\033')\" out"),
                     1);
    assert_int_equal(sh("$T ask $WELL --color=sometimes 2>err"), 2);
    assert_holds("err", "--color is auto, always or never");
}

/* ---- open cases ---- */

static void ask_alone_offers_the_open_cases(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf cases .local && printf 'no\\nshort cycling\\n1\\nstop\\n' | $T ask "
                        "$WELL --cases cases >out"),
                     3);
    window *w = open_small((const char *const[]){"ask", "--cases", "cases", NULL});
    window_await(w, "Is it about one of these cases?");
    window_await(w, " 1  No, a new case\n");
    window_await(w, "House well: The pump");
    window_type(w, "2");
    window_await(w, "What was done last:");
    window_await(w, "Is there smoke at the pump?");
    window_type_lines(w, "no\nstop");
    assert_int_equal(window_close(w), 3);
}

/* ---- lines ---- */

static void what_is_typed_steers_no_terminal(void **state)
{
    (void)state;
    assert_int_equal(
        sh("rm -rf cases; printf 'no\\n\\033[2Jshort\\033]0;x\\007 "
           "cycling\\342\\200\\256\\n1\\nstop\\n' | $T ask $WELL --cases cases >out 2>err"),
        3);
    assert_int_equal(
        sh("LC_ALL=C tr -d '\\342\\200\\234\\235' <out | LC_ALL=C grep -q '[^[:print:][:space:]]'"),
        1);
    assert_int_equal(sh("! LC_ALL=C grep -q '[^ -~]' cases/*/*/*/*.jsonl"), 0);
}

static void a_long_line_is_survived(void **state)
{
    (void)state;
    assert_int_equal(sh("(echo no; head -c 100000 /dev/zero | tr '\\0' x; printf '\\n4\\n') | $T "
                        "ask $WELL --unsaved >out 2>err"),
                     3);
    assert_holds("out", "That line is too long. Say it in fewer words.");
    assert_holds("out", "What do you hear at the pump?");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(thirty_calls_stay_on_the_screen),
        cmocka_unit_test(enter_leads_on_and_an_answer_is_taken_at_once),
        cmocka_unit_test(a_resized_screen_counts_from_the_next_turn),
        cmocka_unit_test(an_unread_question_about_danger_is_not_answered),
        cmocka_unit_test(plain_has_no_pages),
        cmocka_unit_test(colour_is_never_alone_and_can_be_refused),
        cmocka_unit_test(ask_alone_offers_the_open_cases),
        cmocka_unit_test(what_is_typed_steers_no_terminal),
        cmocka_unit_test(a_long_line_is_survived),
    };
    return cmocka_run_group_tests_name("terminal", tests, NULL, NULL);
}
