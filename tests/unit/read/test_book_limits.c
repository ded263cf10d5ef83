/* Of what a case would have to look at in pairs there may be so many and no more: with one more the
 * book is refused, by name. */
#include <string.h>

#include "testing.h"

#include "base/arena.h"
#include "base/str.h"
#include "read/reader_state.h"
#include "telltale.h"

typedef void (*maker)(text_builder *b, uint32_t n);

static void add_fix(text_builder *b, char row, uint32_t i)
{
    text_addf(b, "  %c%u: {text: 'Fix', ", row, i);
    if (i > 0) text_addf(b, "after: %c%u, ", row, i - 1);
    text_add(b, STR("takes: 1 min, cures: {c: often}, harm: none, role: op, "
                    "put-back: not needed}\n"));
}

static void places(text_builder *b, uint32_t n)
{
    text_add(b, STR("places:\n"));
    for (uint32_t i = 0; i < n; i++) text_addf(b, "  l%u: {text: 'the place %u'}\n", i, i);
}

/* The last one waits for n. */
static void fixes_in_a_row(text_builder *b, uint32_t n)
{
    text_add(b, STR("fixes:\n"));
    for (uint32_t i = 0; i <= n; i++) add_fix(b, 'f', i);
}

/* As many rows as wait n times together: a row of k fixes waits k (k - 1) / 2 times. */
static void fixes_in_rows(text_builder *b, uint32_t n)
{
    text_add(b, STR("fixes:\n"));
    for (char row = 'a'; n > 0; row++) {
        uint32_t length = FIRST_FIXES_MAX;
        while (length * (length - 1) / 2 > n) length--;
        n -= length * (length - 1) / 2;
        for (uint32_t i = 0; i < length; i++) add_fix(b, row, i);
    }
}

/* Few letters, each of which stands for a pattern of some 20 KB. */
static void large_patterns(text_builder *b, uint32_t n)
{
    text_add(b, STR("emergencies:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(
            b,
            "  e%u: {text: Danger, heard: ['/(\\w+ ?){1,500}x%u/'], do: [Run], source: invented}\n",
            i, i);
}

/* Each piece has n, one of them a fix with many steps. */
static void nodes_for_each_piece(text_builder *b, uint32_t n)
{
    enum { OTHERS = 13 }; /* than steps, which two lists hold */
    const uint32_t half = OTHERS + (n - OTHERS) / 2;
    text_add(b, STR("  d: {for-each: k, text: D}\nkinds: {k: {one: k, ask: 'Which?'}}\nfixes:\n"
                    "  f: {for-each: k, text: F, cures: {d: often}, harm: none, role: op, "
                    "put-back: not needed, steps: ["));
    for (uint32_t i = OTHERS; i < n; i++)
        text_addf(b, "%s'{k} %u'", i == OTHERS ? "" : i == half ? "], once-running: [" : ", ", i);
    text_add(b, STR("]}\nsite:\n  units:\n    k:\n"));
    for (uint32_t i = 0; i < PIECES_MAX; i++) text_addf(b, "      p%u: {}\n", i);
}

static void danger_phrases(text_builder *b, uint32_t n)
{
    text_add(b, STR("emergencies:\n"));
    for (uint32_t i = 0; i < n; i++) {
        if (i % LIST_ITEMS_MAX == 0)
            text_addf(b, "  e%u:\n    text: It bursts\n    do: ['Get away.']\n    heard:\n", i);
        text_addf(b, "      - it bursts %u times\n", i);
    }
}

/* Beside the one that there always is; two and two have the same level. */
static void roles(text_builder *b, uint32_t n)
{
    for (uint32_t i = 1; i < n; i++)
        text_addf(b, ", %sr%u%s", i % 2 == 1 ? "[" : "", i, i % 2 == 0 || i + 1 == n ? "]" : "");
}

static tt_status loaded(str text, tt_report **report)
{
    const tt_source file = {"made.yaml", text.p, text.n};
    tt_book *book = NULL;
    const tt_status status = tt_book_load(&file, 1, &book, report);
    tt_book_free(book);
    return status;
}

static tt_status load(maker make, uint32_t n, tt_report **report)
{
    arena *a = arena_new(NULL, NULL);
    text_builder b = {.keep = a};
    text_add(&b, STR("book: {title: Made, roles: [op"));
    if (make == roles) roles(&b, n);
    text_add(&b, STR("]}\nquestions:\n  q: {ask: 'Is it low?'}\n"
                     "symptoms:\n  s: {text: Low, when: {q: yes}, shown-by: {c: often}}\n"
                     "causes:\n  c: {text: Cause}\n"));
    if (make != roles) make(&b, n);
    const tt_status status = loaded(text_done(&b), report);
    arena_free(a);
    return status;
}

static void holds_to(maker make, uint32_t most, const char *told)
{
    tt_report *report = NULL;
    const tt_status status = load(make, most, &report);
    if (status != TT_OK) fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    assert_int_equal(load(make, most + 1, &report), TT_FAULTY);
    assert_int_equal(tt_report_errors(report), 1);
    const tt_fault f = tt_report_fault(report, 0);
    assert_string_equal(f.code, "T226");
    assert_string_equal(f.text, told);
    assert_true(*f.help != 0);
    tt_report_free(report);
}

static void so_many_places(void **state)
{
    (void)state;
    holds_to(places, PLACES_MAX, "There are more than 500 places.");
}

static void so_many_before_one_fix(void **state)
{
    (void)state;
    holds_to(fixes_in_a_row, FIRST_FIXES_MAX,
             "'f101' waits for more than 100 other fixes, all counted.");
}

static void so_many_before_all_fixes(void **state)
{
    (void)state;
    holds_to(fixes_in_rows, WAITING_FIXES_MAX,
             "With this fix, fixes wait for others more than 10000 times, those of each "
             "piece of equipment counted.");
}

/* How much a pattern fills is the library's affair, so the place of the limit is not known. */
static void so_much_of_patterns(void **state)
{
    (void)state;
    tt_report *report = NULL;
    if (load(large_patterns, 20, &report) != TT_OK) fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    assert_int_equal(load(large_patterns, 1000, &report), TT_FAULTY);
    assert_int_equal(tt_report_errors(report), 1); /* said once, not of each that is left */
    assert_string_equal(tt_report_fault(report, 0).code, "T226");
    assert_non_null(strstr(tt_report_fault(report, 0).text, "fill more than 8388608 bytes"));
    assert_int_equal(tt_report_doubts(report), TT_OK); /* nor found again entry by entry */
    tt_report_free(report);
}

static void so_much_for_each_piece(void **state)
{
    (void)state;
    holds_to(
        nodes_for_each_piece, GROUND_NODES_MAX / PIECES_MAX,
        "Written out for each piece of equipment, the book has more than 200000 entries, items "
        "and texts.");
}

static void so_many_roles(void **state)
{
    (void)state;
    holds_to(roles, ROLES_MAX, "There are more than 20 roles.");
}

static void so_many_phrases_of_danger(void **state)
{
    (void)state;
    holds_to(danger_phrases, DANGER_PHRASES_MAX,
             "With these there are more than 2000 phrases that tell of danger.");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(so_many_places),
        cmocka_unit_test(so_many_before_one_fix),
        cmocka_unit_test(so_many_before_all_fixes),
        cmocka_unit_test(so_much_of_patterns),
        cmocka_unit_test(so_much_for_each_piece),
        cmocka_unit_test(so_many_roles),
        cmocka_unit_test(so_many_phrases_of_danger),
    };
    return cmocka_run_group_tests_name("book limits", tests, NULL, NULL);
}
