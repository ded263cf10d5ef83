/* A case in one line, and in a few, as whoever reads the list or the board needs it: whose it is,
 * since when, what it was. Each row is one case; the words are those that stand in its line. */
#include <locale.h>
#include <math.h>
#include <time.h>

#include "cases/case_store.h"
#include "face/cases.h"
#include "shown_text.h"
#include "summary/case_apart.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

#define OR_EMPTY(name) \
    if (says.name == NULL) says.name = "";

/* What a row leaves out is not known. */
static case_summary made(tt_case_summary says)
{
    TT_SUMMARY_TEXTS(OR_EMPTY)
    if (says.minutes == 0) says.minutes = NAN;
    static char folder[] = "kept/here";
    return (case_summary){.number = "000001A", .folder = folder, .says = says};
}

static const char *line_of(arena *keep, tt_case_summary says, const char *name)
{
    case_reader r = {.name = name, .in = TO_AUTHORS};
    const case_summary c = made(says);
    assert_true(tt_moment_read("2026-11-29T12:00:00Z", &r.now));
    return case_line(keep, &c, &r);
}

#define SAYS(...) ((tt_case_summary){__VA_ARGS__})

/* A board is read in a hurry: each row is the whole line. */
static void a_line_says_whose_it_is(void **state)
{
    (void)state;
    char here[WRITER_SIZE];
    writer_of_this_machine(here);
    const struct {
        const char *reader, *line;
        tt_case_summary says;
    } rows[] = {
        {"", "000001A  no site said: trouble not said yet. Left by somebody, 09:00",
         SAYS(.since = "2026-11-29T09:00:00Z", .writer = "elsewhere")},
        {"", "000001A  Pump house: it drips. With east desk since 09:00",
         SAYS(.title = "Pump house", .said = "it drips", .held = true, .person = "east desk",
              .since = "2026-11-29T09:00:00Z")},
        {"", "000001A  North: It leaks. Yours, since 2026-11-28 09:00",
         SAYS(.site = "North", .title = "Pump house", .complaint = "It leaks",
              .complaint_name = "leaks", .last = "2026-11-28T09:00:00Z", .writer = here)},
        {"east desk", "000001A  no site said: leaks. Yours, since 09:00",
         SAYS(.complaint_name = "leaks", .person = "East Desk", .writer = here,
              .since = "2026-11-29T09:00:00Z")},
        {"west desk", "000001A  no site said: leaks. Left by East Desk, 09:00",
         SAYS(.complaint_name = "leaks", .person = "East Desk", .writer = here,
              .since = "2026-11-29T09:00:00Z")},
        {"West Desk", "000001A  no site said: a round. For you, since 09:00: look at the valve",
         SAYS(.kind = TT_KIND_ROUND, .to = "west desk", .to_text = "west desk",
              .note = "look at the valve", .since = "2026-11-29T09:00:00Z")},
        {"west desk",
         "000001A  no site said: a record of what is good. For The fitter, since 09:00",
         SAYS(.kind = TT_KIND_RECORD, .to = "fitter", .to_text = "The fitter",
              .since = "2026-11-29T09:00:00Z")},
        {"", "000001A  no site said: trouble not said yet. Nobody's, since 09:00",
         SAYS(.state = TT_CASE_ON_HOLD, .since = "2026-11-29T09:00:00Z")},
        {"", "000001A  no site said: trouble not said yet. Waiting for somebody, since 09:00",
         SAYS(.state = TT_CASE_WAITING, .since = "2026-11-29T09:00:00Z")},
        {"", "000001A  no site said: trouble not said yet. Waiting for The fitter until 15:00",
         SAYS(.state = TT_CASE_WAITING, .to = "fitter", .to_text = "The fitter",
              .until = "2026-11-29T15:00:00Z")},
        {"", "000001A  no site said: trouble not said yet. DANGER. With somebody since 09:00",
         SAYS(.danger = true, .held = true, .since = "2026-11-29T09:00:00Z")},
        {"", "000001A  no site said: It leaks. closed, the trouble is gone, 11:00: A worn seal",
         SAYS(.state = TT_CASE_CLOSED, .complaint = "It leaks", .cause = "A worn seal",
              .cause_name = "seal", .ended = "2026-11-29T11:00:00Z")},
        {"", "000001A  no site said: It leaks. closed, the trouble is gone, 11:00: seal",
         SAYS(.state = TT_CASE_CLOSED, .complaint = "It leaks", .cause_name = "seal",
              .ended = "2026-11-29T11:00:00Z")},
        {"", "000001A  no site said: It leaks. closed, the trouble is gone, 11:00",
         SAYS(.state = TT_CASE_CLOSED, .complaint = "It leaks", .cause = "A worn seal",
              .disputed = true, .note = "of no use any more", .ended = "2026-11-29T11:00:00Z")},
        {"", "000001A  no site said: trouble not said yet. with nothing in it that can be read",
         SAYS(.state = TT_CASE_UNREADABLE)},
        {"", "000001A  no site said: trouble not said yet. Nobody's, since the other day",
         SAYS(.state = TT_CASE_ON_HOLD, .since = "the other day")},
        {"", "000001A  no site said: trouble not said yet. Nobody's, since an unknown time",
         SAYS(.state = TT_CASE_ON_HOLD)},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        arena *keep = host_arena();
        const char *line = line_of(keep, rows[i].says, rows[i].reader);
        if (strcmp(line, rows[i].line) != 0)
            fail_msg("row %zu:\n%s\nand not\n%s", i, line, rows[i].line);
        arena_free(keep);
    }
}

/* Where a number stands for several. Times come from files, and may be no times at all. */
static void cases_are_told_apart(void **state)
{
    (void)state;
    static const struct {
        const char *began, *line;
    } rows[] = {{"2026-11-29T09:00:00Z", "000001A        North: It leaks, 2026-11-29 09:00"},
                {"soon", "000001A        North: It leaks, soon"},
                {"", "000001A        North: It leaks, "}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        arena *keep = host_arena();
        const case_summary c =
            made(SAYS(.began = rows[i].began, .site = "North", .complaint = "It leaks"));
        assert_string_equal(case_apart(keep, &c), rows[i].line);
        arena_free(keep);
    }
}

/* What was said of who called, in one line; nothing of what was not. */
static void a_caller_in_one_line(void **state)
{
    (void)state;
    arena *keep = host_arena();
    const case_contact all = {"east gate", "555 0100", "812"}, ticket = {"", "", "812"},
                       none = {"", "", ""};
    assert_string_equal(contact_words(keep, TO_AUTHORS, &all), "east gate, 555 0100, ticket 812");
    assert_string_equal(contact_words(keep, TO_AUTHORS, &ticket), "ticket 812");
    assert_string_equal(contact_words(keep, TO_AUTHORS, &none), "");
    arena_free(keep);
}

/* In full, as the list shows it; without the command to go on, whose place is the reader's own. */
static shown_text *told(tt_case_summary says, unsigned left_out)
{
    static char program[] = "telltale", root[] = "/kept", cases[] = "";
    const way_back way = {program, root, cases};
    case_summary c = made(says);
    c.left_out = left_out;
    shown_text *s = show_at(0);
    assert_int_equal(print_cases(&s->on, &way, &(case_list){.cases = &c, .count = 1}, false),
                     EXIT_DONE);
    return s;
}

static void assert_told(tt_case_summary says, unsigned left_out, const char *whole)
{
    shown_text *s = told(says, left_out);
    const char *text = shown(s);
    if (strncmp(text, whole, strlen(whole)) != 0) fail_msg("%s\nand not\n%s", text, whole);
    shown_free(s);
}

static void a_case_in_full(void **state)
{
    (void)state;
    char here[WRITER_SIZE];
    writer_of_this_machine(here);
    assert_told(SAYS(.kind = TT_KIND_ROUND, .every = TT_DAILY, .state = TT_CASE_CLOSED,
                     .began = "2026-11-29T09:00:00Z", .ended = "2026-11-29T09:00:30Z",
                     .minutes = .5, .title = "Pump house"),
                0,
                "\nCase 000001A, done\n  Kind: daily round\n  Began: 2026-11-29 09:00\n"
                "  Book: Pump house\n  Ended: 2026-11-29 09:00, after under a minute\n");
    assert_told(SAYS(.kind = TT_KIND_RECORD, .state = TT_CASE_OPEN, .said = "as it should be",
                     .writer = here, .since = "2026-11-29T09:00:00Z", .held = true),
                0,
                "\nCase 000001A, open\n  Kind: record\n  Complaint: as it should be\n"
                "  With: somebody at this computer, since 2026-11-29 09:00\n");
    assert_told(SAYS(.state = TT_CASE_WAITING, .complaint = "It leaks", .said = "it drips",
                     .writer = "elsewhere", .place = "the gate", .since = "2026-11-29T09:00:00Z",
                     .to_text = "The fitter", .until = "2026-11-29T15:00:00Z",
                     .note = "bring a seal", .stands_is = TT_STANDS_STEP,
                     .stands = "Closed the valve"),
                0,
                "\nCase 000001A, waiting for somebody who was called\n"
                "  Complaint: It leaks (said: it drips)\n"
                "  Left by: elsewhere (the gate), 2026-11-29 09:00\n  For: The fitter\n"
                "  Until: 2026-11-29 15:00\n  Note: bring a seal\n  Last step: Closed the valve\n"
                "  Answers: 0. Fixes tried: 0\n");
    assert_told(SAYS(.complaint_name = "leaks", .writer = "elsewhere", .person = "east desk",
                     .since = "", .stands_is = TT_STANDS_NEXT, .stands = "Look at the valve"),
                0,
                "\nCase 000001A, open\n  Complaint: leaks\n"
                "  Left by: east desk, an unknown time\n  Next: Look at the valve\n");
    assert_told(SAYS(.complaint = "It leaks"), 0,
                "\nCase 000001A, open\n  Complaint: It leaks\n  Answers: 0. Fixes tried: 0\n");
    assert_told(SAYS(.state = TT_CASE_CLOSED, .ended = "soon", .cause_name = "seal"), 2,
                "\nCase 000001A, closed, the trouble is gone\n  Ended: soon\n"
                "  Cause: seal (likely)\n  Left out: 2 lines that can't be used, in kept/here\n");
    assert_told(SAYS(.state = TT_CASE_UNREADABLE), 0,
                "\nCase 000001A, with nothing in it that can be read\n  Folder: kept/here\n");
}

/* What a cause is called, and whether it may be relied on. */
static void a_cause_as_sure_as_it_is(void **state)
{
    (void)state;
    static const struct {
        const char *cause, *line;
        bool confirmed, disputed;
        tt_case_state state;
    } rows[] = {
        {"A worn seal", "  Cause: A worn seal (confirmed)\n", true, false, TT_CASE_CLOSED},
        {"A worn seal", "  Cause: A worn seal (likely)\n", false, false, TT_CASE_CALLED},
        {"A worn seal", "  Cause: to settle, different ones were named\n", false, true,
         TT_CASE_CLOSED},
        {"", "  Cause: not kept\n", false, false, TT_CASE_CLOSED},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        shown_text *s = told(SAYS(.state = rows[i].state, .cause = rows[i].cause,
                                  .confirmed = rows[i].confirmed, .disputed = rows[i].disputed,
                                  .ended = "2026-11-29T11:00:00Z", .minutes = 120),
                             0);
        assert_shows(shown(s), rows[i].line);
        shown_free(s);
    }
    shown_text *s = told(SAYS(.state = TT_CASE_CALLED, .ended = "2026-11-29T11:00:00Z"), 0);
    assert_shows_not(shown(s), "Cause");
    shown_free(s);
}

static void a_span_as_people_say_it(void **state)
{
    (void)state;
    static const struct {
        double minutes;
        const char *words;
    } rows[] = {{.9, "after under a minute\n"}, {4.5, "after 4.5 min\n"},
                {12.4, "after 12 min\n"},       {59.4, "after 59 min\n"},
                {125, "after 2 h 5 min\n"},     {3 * 24 * 60 + 4 * 60, "after 3 d 4 h\n"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        shown_text *s = told(SAYS(.state = TT_CASE_CLOSED, .minutes = rows[i].minutes), 0);
        assert_shows(shown(s), rows[i].words);
        shown_free(s);
    }
}

static void the_list_of_all_counts_what_is_done_apart(void **state)
{
    (void)state;
    shown_text *s = show_at(0);
    cases_counts counts = {.all = 3, .done = 1, .left_out = 4};
    counts.states[TT_CASE_CLOSED] = 1;
    counts.states[TT_CASE_OPEN] = 2;
    print_counts(&s->on, &counts);
    assert_string_equal(shown(s), "\nCases: 3\n  - open: 2\n  - done: 1\n"
                                  "Lines that can't be used: 4\n");
    shown_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_line_says_whose_it_is),
        cmocka_unit_test(cases_are_told_apart),
        cmocka_unit_test(a_caller_in_one_line),
        cmocka_unit_test(a_case_in_full),
        cmocka_unit_test(a_cause_as_sure_as_it_is),
        cmocka_unit_test(a_span_as_people_say_it),
        cmocka_unit_test(the_list_of_all_counts_what_is_done_apart),
    };
    setenv("TZ", "UTC", 1);
    tzset();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
