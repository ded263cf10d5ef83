/* A site's story told from what is in it, in words at several widths and as a page: how a reading
 * moves, what is missing, more marks than there is room for, and what there is none of. */
#include <math.h>

#include "drier_book.h"
#include "face/history.h"
#include "paper/history_page.h"

#define DAY(n) 20000.0 + (n)

static char *words_of(const tt_site_story *story, unsigned width, bool plain)
{
    shown_text *s = show_at(width);
    print_history_words(&s->on, plain, story);
    char *text = strdup(shown(s));
    shown_free(s);
    assert_non_null(text);
    return text;
}

static char *page_of(const tt_site_story *story, const paper_kind *kind)
{
    shown_text *s = show_at(0);
    static char folder[] = "/books/drier";
    const opened_book book = {.book = drier_book(NULL), .folder = folder, .revision = "0123abcd"};
    arena *keep = host_arena();
    history_on_paper(s->on.out, kind, keep, &book, story);
    char *text = strdup(shown(s));
    shown_free(s);
    arena_free(keep);
    tt_book_free(book.book);
    assert_non_null(text);
    return text;
}

static void assert_both(const tt_site_story *story, const char *part)
{
    char *words = words_of(story, 0, false), *page = page_of(story, &paper_of_text);
    assert_shows(words, part);
    assert_shows(page, part);
    free(words);
    free(page);
}

static void assert_neither(const tt_site_story *story, const char *part)
{
    char *words = words_of(story, 0, false), *page = page_of(story, &paper_of_text);
    assert_shows_not(words, part);
    assert_shows_not(page, part);
    free(words);
    free(page);
}

/* What a row leaves out is not known. */
static tt_series whole_series(tt_series s)
{
    const char **texts[] = {&s.unit,         &s.good_words,    &s.good_day, &s.per_week,
                            &s.jumped_after, &s.jumped_before, &s.why};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (*texts[i] == NULL) *texts[i] = "";
    s.name = "air";
    s.text = "The air";
    return s;
}

#define UNREAD(...) whole_series((tt_series){__VA_ARGS__})

static const tt_point two[] = {
    {"2026-11-01T08:00:00Z", "30 psi", DAY(0), 30, false, false, "000001A"},
    {"2026-11-29T08:00:00Z", "44 psi", DAY(28), 44, true, false, "000002B"}};

static tt_site_story of_series(const tt_series *s, uint32_t count)
{
    return (tt_site_story){.language = "en",
                           .book = "Drier",
                           .site = "North",
                           .from = "2026-11-01",
                           .to = "2026-11-29",
                           .series = s,
                           .series_count = count};
}

/* ---- how it moves ---- */

static void each_movement_in_words(void **state)
{
    (void)state;
    const struct {
        tt_series s;
        const char *has, *lacks;
    } rows[] = {
        {UNREAD(.points = two, .point_count = 2, .trend = TT_RISING, .trend_known = true,
                .beyond = true, .per_week = "2 psi"),
         "It has crept up, about 2 psi a week.", "kept steady"},
        {UNREAD(.points = two, .point_count = 2, .trend = TT_FALLING, .trend_known = true,
                .per_week = "2 psi"),
         "It has crept down, about 2 psi a week.", "beyond its good value."},
        {UNREAD(.points = two, .point_count = 2, .trend = TT_JUMP, .trend_known = true,
                .jumped_after = "2026-11-03", .jumped_before = "2026-11-04"),
         "It jumped, between 2026-11-03 and 2026-11-04.", "crept"},
        {UNREAD(.points = two, .point_count = 2, .trend = TT_STEADY, .trend_known = true),
         "Lately it has kept steady.", "crept"},
        {UNREAD(.points = two, .point_count = 2, .trend = TT_RISING, .beyond = true,
                .per_week = "2 psi"),
         "That is beyond its good value.", "crept"},
        {UNREAD(.points = two, .point_count = 1), "Read once: 30 psi on 2026-11-01.", "steady"},
        {UNREAD(.points = two, .point_count = 1, .reckoned = true),
         "One value: 30 psi on 2026-11-01.", "Read once"},
        {UNREAD(.points = two, .point_count = 2, .reckoned = true),
         "2 values, from 30 psi to 44 psi.", "2 readings"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const tt_site_story story = of_series(&rows[i].s, 1);
        assert_both(&story, rows[i].has);
        char *words = words_of(&story, 0, true); /* the legend speaks of all there may be */
        assert_shows_not(words, rows[i].lacks);
        free(words);
    }
}

static void what_is_good_as_far_as_it_is_known(void **state)
{
    (void)state;
    tt_series s = UNREAD(.points = two, .point_count = 2, .may_have_good = true);
    assert_both(&(tt_site_story){.language = "en",
                                 .book = "Drier",
                                 .site = "",
                                 .from = "",
                                 .to = "",
                                 .series = &s,
                                 .series_count = 1},
                "Nothing says what is good here: `record` writes it down.");
    s.has_good = true;
    s.good = 31;
    s.good_words = "31 psi";
    tt_site_story story = of_series(&s, 1);
    assert_both(&story, "Good: 31 psi.");
    s.good_day = "2026-11-03";
    assert_both(&story, "Good: 31 psi, found on 2026-11-03.");
}

/* ---- what is missing ---- */

static void what_nobody_told_is_asked_for(void **state)
{
    (void)state;
    static const tt_untold missing[] = {{0, "drum", "What does a drum cost?", true},
                                        {1, "cars", "How many cars?", false}};
    const tt_series all[] = {UNREAD(.unit = "psi"),
                             UNREAD(.reckoned = true, .missing = missing, .missing_count = 2),
                             UNREAD(.reckoned = true, .why = "divided by nothing")};
    const tt_site_story story = of_series(all, 3);
    assert_both(&story, "Nobody has read it yet.");
    assert_both(&story, "- What does a drum cost?");
    assert_both(&story, "- How many cars?\n");
    assert_both(&story, "It has no value: divided by nothing");
    assert_neither(&story, "How it stands");
}

/* ---- cases, faults, rounds ---- */

static tt_past_case past_case(tt_case_summary says)
{
    says.began = "2026-11-03T08:00:00Z";
    if (says.complaint == NULL) says.complaint = "";
    if (says.cause == NULL) says.cause = "";
    return (tt_past_case){
        .number = "000001A", .fix = "", .fix_text = "", .came_back = "", .says = says};
}

#define CASE(...) past_case((tt_case_summary){__VA_ARGS__})

static void faults_as_they_ended(void **state)
{
    (void)state;
    tt_past_case cases[] = {CASE(.state = TT_CASE_CLOSED, .complaint = "It is weak",
                                 .cause = "Worn", .confirmed = true),
                            CASE(.state = TT_CASE_OPEN, .cause = "Loose"),
                            CASE(.kind = TT_KIND_ROUND, .complaint = "none of a round"),
                            CASE(.kind = TT_KIND_RECORD)};
    cases[0].came_back = "2026-11-05T08:00:00Z";
    cases[0].fix_text = "Swap it";
    static const tt_returned back[] = {
        {"weak", "It is weak", 2, "2026-11-03T08:00:00Z", "2026-11-05T08:00:00Z", 1.6, "swap",
         "Swap it", true},
        {"hums", "It hums", 3, "2026-11-03T08:00:00Z", "2026-11-05T08:00:00Z", NAN, "", "", false}};
    tt_site_story story = of_series(NULL, 0);
    story.cases = cases;
    story.case_count = 4;
    story.returned = back;
    story.returned_count = 2;
    char *words = words_of(&story, 0, false), *page = page_of(&story, &paper_of_text);
    assert_shows(words, "- 2026-11-03, case 000001A: It is weak\n"
                        "  It was, and somebody has made sure: Worn\n  What helped: Swap it\n"
                        "  It helped, and came back: 2026-11-05\n");
    assert_shows(words, "- 2026-11-03, case 000001A: no complaint was told\n  open\n"
                        "  It was: Loose\n");
    assert_shows(words, "- It is weak: 2 times, 2026-11-03 to 2026-11-05.\n"
                        "  2 days before the last time, this had helped: Swap it\n"
                        "- It hums: 3 times, 2026-11-03 to 2026-11-05.\n"
                        "  Nothing had helped before it came the last time.\n");
    assert_shows_not(words, "none of a round");
    assert_shows(page, "  Trouble: no complaint was told\n  How it stands: open\n");
    assert_shows(page, "  What had helped before: Swap it\n  Days it held: 2\n");
    assert_shows(words, "No round of this site is kept yet.");
    assert_shows(page, "No round of this site is kept yet.");
    free(words);
    free(page);
    story.case_count = 0;
    assert_both(&story, "No case of this site is kept here yet.");
    story.cases = &cases[2];
    story.case_count = 1;
    story.returned_count = 0;
    story.rounds = 1;
    assert_both(&story, "No fault is kept of this site.");
    assert_both(&story, "No trouble has come more than once.");
    assert_both(&story, "A round was gone on each day.");
}

enum { MONTHS = 26 };

/* Two years of gaps are enough on a screen; the page has all. */
static void old_gaps_are_counted(void **state)
{
    (void)state;
    static char names[MONTHS][24];
    tt_gap_month months[MONTHS];
    for (int i = 0; i < MONTHS; i++) {
        snprintf(names[i], sizeof names[i], "%04d-%02d", 2024 + i / 12, i % 12 + 1);
        months[i] = (tt_gap_month){names[i], "03", 1};
    }
    const tt_past_case one = CASE(.kind = TT_KIND_ROUND);
    tt_site_story story = of_series(NULL, 0);
    story.site = "";
    story.cases = &one;
    story.case_count = 1;
    story.rounds = 1;
    story.gap_count = story.gap_month_count = MONTHS;
    story.gap_months = months;
    char *words = words_of(&story, 0, false), *page = page_of(&story, &paper_of_text);
    assert_shows(words, "Drier: what it was like over time\n");
    assert_shows(page, "Drier: what it was like over time\n");
    assert_shows(words, "- and 2 months before\n- 2024-03: 03. Days: 1.\n");
    assert_shows_not(words, "2024-02");
    assert_shows(page, "- 2024-01\n");
    free(words);
    free(page);
}

/* ---- lines and pictures ---- */

enum { MARKS = 105 };

static tt_mark mark(tt_mark_kind kind, double days)
{
    return (tt_mark){kind, "2026-11-03T08:00:00Z", "Swap it", days, "000001A", "east"};
}

/* The numbers of marks stand in rows above the field, as many as there is room for; those before
 * the first reading and behind the last have no line. */
static void marks_have_their_numbers(void **state)
{
    (void)state;
    tt_mark marks[MARKS];
    for (int i = 0; i < MARKS; i++) marks[i] = mark(TT_MARK_FIX, DAY(3 + 0.01 * i));
    marks[0] = mark(TT_MARK_FIX, DAY(-3));
    marks[1] = mark(TT_MARK_SET, DAY(5));
    marks[MARKS - 1] = mark(TT_MARK_FIX, DAY(40));
    marks[MARKS - 2] = mark(TT_MARK_FIX, DAY(20));
    const tt_series s = UNREAD(.points = two, .point_count = 2, .marks = marks, .mark_count = MARKS,
                               .may_have_good = true, .has_good = true, .good = 37,
                               .good_words = "37 psi", .good_day = "2026-11-03");
    const tt_site_story story = of_series(&s, 1);
    char *page = page_of(&story, &paper_of_html), *words = words_of(&story, 80, false);
    const char *picture = strstr(page, "<svg class=\"course\"");
    assert_non_null(picture);
    char *drawn = strndup(picture, (size_t)(strstr(picture, "</svg>") - picture));
    assert_shows(drawn, ">104</text>");    /* far from the others: there is room */
    assert_shows_not(drawn, ">50</text>"); /* in a crowd: its line has no number */
    assert_shows_not(drawn, ">1</text>");
    assert_shows_not(drawn, ">105</text>");
    assert_shows(drawn, ">2</text>");
    assert_shows(drawn, ">37 psi</text>");
    assert_shows(drawn, "class=\"level\"");
    assert_shows(words, "f");
    free(drawn);
    free(page);
    free(words);
}

/* All readings on one day, or all the same: there is a picture all the same. */
static void a_picture_of_little(void **state)
{
    (void)state;
    static const tt_point same[] = {
        {"2026-11-01T08:00:00Z", "0 psi", DAY(0), 0, false, false, "000001A"},
        {"2026-11-01T08:00:00Z", "0 psi", DAY(0), 0, false, false, "000001A"}};
    const tt_series all[] = {UNREAD(.points = same, .point_count = 2),
                             UNREAD(.points = same, .point_count = 1), UNREAD(.unit = "s")};
    const tt_site_story story = of_series(all, 3);
    char *page = page_of(&story, &paper_of_html), *words = words_of(&story, 80, false);
    assert_shows(page, "2026-11-01");
    assert_shows_not(page, "nan");
    assert_shows_not(page, "inf");
    assert_shows(words, "▅"); /* in the middle: there is no low and no high */
    free(page);
    free(words);
}

/* Over many years the ticks are years. */
static void ticks_of_years(void **state)
{
    (void)state;
    const tt_point far[] = {
        {"2016-11-01T08:00:00Z", "30 psi", DAY(0), 30, false, false, "000001A"},
        {"2026-11-29T08:00:00Z", "30.2 psi", DAY(3680), 30.2, true, false, "000002B"}};
    unsigned ticks[2];
    for (int years = 0; years < 2; years++) {
        const tt_series s = UNREAD(.points = years ? far : two, .point_count = 2, .has_good = true,
                                   .good = 30.1, .good_words = "30.1 psi");
        const tt_site_story story = of_series(&s, 1);
        char *page = page_of(&story, &paper_of_html);
        ticks[years] = 0;
        for (const char *at = page; (at = strstr(at, "class=\"axis\"")) != NULL; at++)
            ticks[years]++;
        free(page);
    }
    assert_int_equal(ticks[0], 1);  /* 2024-10-04 and 28 days: the first of November */
    assert_int_equal(ticks[1], 10); /* ten first days of January, and not 120 of months */
}

/* On a screen of a few columns nothing is drawn; on a wider one the ends stand beside the line. */
static void lines_at_any_width(void **state)
{
    (void)state;
    const tt_series s = UNREAD(.points = two, .point_count = 2);
    const tt_site_story story = of_series(&s, 1);
    char *none = words_of(&story, 13, false), *bare = words_of(&story, 20, false),
         *whole = words_of(&story, 80, false), *plain = words_of(&story, 80, true);
    assert_shows_not(none, "█");
    assert_shows_not(none, "Beneath a line");
    assert_shows(bare, "\n    ▁              █\n                   !\n");
    assert_shows(whole, "\n    30 psi ▁");
    assert_shows(whole, "█ 44 psi\n");
    assert_shows_not(plain, "█");
    free(none);
    free(bare);
    free(whole);
    free(plain);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_movement_in_words),
        cmocka_unit_test(what_is_good_as_far_as_it_is_known),
        cmocka_unit_test(what_nobody_told_is_asked_for),
        cmocka_unit_test(faults_as_they_ended),
        cmocka_unit_test(old_gaps_are_counted),
        cmocka_unit_test(marks_have_their_numbers),
        cmocka_unit_test(a_picture_of_little),
        cmocka_unit_test(ticks_of_years),
        cmocka_unit_test(lines_at_any_width),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
