/* What the bench tells of two looks at a book, in lines and as a page: what moved, what is new,
 * what is there no longer, and no more of it than somebody reads. */
#include <math.h>

#include "drier_book.h"
#include "face/bench_face.h"

enum { MANY = 14 };

static book_look look_of(case_look *cases, uint32_t count, uint32_t passed)
{
    tt_report *report;
    tt_book *book = drier_book(&report);
    return (book_look){.keep = host_arena(),
                       .loads = true,
                       .book = book,
                       .info = tt_book_describe(book),
                       .report = report,
                       .cases = cases,
                       .count = count,
                       .passed = passed};
}

static void look_end(book_look *look)
{
    tt_book_free(look->book);
    tt_report_free(look->report);
    arena_free(look->keep);
}

static case_look before_cases[] = {{"cured", "cases.yaml:3", "", "Worn", .5, {NULL, 0}},
                                   {"gone", "cases.yaml:9", "", "Worn", .5, {NULL, 0}},
                                   {"same", "cases.yaml:15", "", "Worn", .25, {NULL, 0}},
                                   {"shifted", "cases.yaml:21", "", "Worn", .5, {NULL, 0}}},
                 now_cases[] = {
                     {"added", "cases.yaml:1", "", "Loose", .75, {NULL, 0}},
                     {"cured", "cases.yaml:3", "it leads to Loose", "Loose", .6, {NULL, 0}},
                     {"same", "cases.yaml:15", "", "Worn", .25, {NULL, 0}},
                     {"shifted", "cases.yaml:21", "", "Worn", .7, {NULL, 0}}};

static void each_move_in_a_line(void **state)
{
    (void)state;
    book_look before = look_of(before_cases, 4, 4), now = look_of(now_cases, 4, 3);
    const bench_told told = {1, &now, &before};
    shown_text *s = show_at(0);
    bench_say_cases(s->on.out, &told);
    const char *text = shown(s);
    assert_shows(text, "Cases: 3 of 4 came out as expected.\n"
                       "  cured (cases.yaml:3): it leads to Loose\n");
    assert_shows(text,
                 "  cured: Worn led with 50 %, now Loose with 60 %\n    now not as expected\n");
    assert_shows(text, "  added, new: Loose leads with 75 %, as expected\n");
    assert_shows(text, "  gone is there no longer\n");
    assert_shows(text, "  shifted: Worn leads, with 50 % before, now 70 %\n");
    assert_shows_not(text, "same");
    shown_free(s);
    look_end(&before);
    look_end(&now);
}

static void each_move_on_a_page(void **state)
{
    (void)state;
    static const paper_kind *const kinds[] = {&paper_of_html, &paper_of_text};
    book_look before = look_of(before_cases, 4, 4), now = look_of(now_cases, 4, 3);
    const bench_told told = {1, &now, &before};
    for (size_t i = 0; i < 2; i++) {
        shown_text *s = show_at(0);
        bench_on_paper(s->on.out, kinds[i], now.keep, "folder", &told);
        const char *text = shown(s);
        assert_shows(text, "What has moved since the last save");
        assert_shows(text, "there no longer");
        assert_shows(text, "it leads to Loose");
        assert_shows(text, "70 %");
        assert_shows_not(text, "Nothing has moved since the last save.");
        shown_free(s);
    }
    look_end(&before);
    look_end(&now);
}

static void nothing_moved_is_said(void **state)
{
    (void)state;
    book_look before = look_of(now_cases, 4, 3), now = look_of(now_cases, 4, 3);
    const bench_told told = {1, &now, &before};
    shown_text *s = show_at(0);
    bench_on_paper(s->on.out, &paper_of_text, now.keep, "folder", &told);
    assert_shows(shown(s), "Nothing has moved since the last save.");
    shown_free(s);
    look_end(&before);
    look_end(&now);
}

/* Nobody reads a hundred lines after each save. */
static void many_are_counted(void **state)
{
    (void)state;
    case_look old[MANY], new[MANY];
    static char names[MANY][8];
    for (unsigned i = 0; i < MANY; i++) {
        snprintf(names[i], sizeof names[i], "case-%02u", i);
        old[i] = (case_look){names[i], "cases.yaml:1", "", "Worn", .5, {NULL, 0}};
        new[i] = (case_look){names[i], "cases.yaml:1", "it leads to Loose", "Loose", .5, {NULL, 0}};
    }
    book_look before = look_of(old, MANY, MANY), now = look_of(new, MANY, 0);
    shown_text *s = show_at(0);
    bench_say_cases(s->on.out, &(bench_told){1, &now, &before});
    const char *text = shown(s), *more = strstr(text, "  and 2 more\n");
    assert_non_null(more);
    assert_shows(more + 1, "  and 2 more\n"); /* of those that failed, and of what moved */
    assert_shows_not(text, "case-13");
    shown_free(s);
    look_end(&before);
    look_end(&now);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_move_in_a_line),
        cmocka_unit_test(each_move_on_a_page),
        cmocka_unit_test(nothing_moved_is_said),
        cmocka_unit_test(many_are_counted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
