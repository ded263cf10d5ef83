/* A trend is not known yet, so nothing that rests on it holds or fails, and nothing is moved by it.
 */
#include <math.h>

#include "base/arena.h"
#include "base/str.h"
#include "small_book.h"
#include "test_sources.h"
#include "testing.h"

#define FOLDER TT_SOURCE_DIR "/tests/unit/session/trending"

/* The book without what the two marks hold between them. */
static str without(arena *keep, str text, const char *from, const char *to)
{
    const size_t at = str_find(text, str_of(from)), end = str_find(text, str_of(to));
    assert_true(at < end && end != SIZE_MAX);
    return str_printf(keep, "%.*s%.*s", (int)at, text.p, (int)(text.n - end), text.p + end);
}

/* Its warnings, doubts included. */
static uint32_t warnings_of(const char *yaml)
{
    const tt_source source = {"book.yaml", yaml, strlen(yaml)};
    tt_book *b;
    tt_report *report;
    assert_int_equal(tt_book_load(&source, 1, &b, &report), TT_OK);
    assert_int_equal(tt_book_doubts(b, report), TT_OK);
    const uint32_t count = tt_report_warnings(report);
    if (count > 0) print_message("%s", tt_report_text(report));
    tt_report_free(report);
    tt_book_free(b);
    return count;
}

static void answer(tt_case *c, const tt_book *b, const char *question, double number)
{
    const tt_reply reply = {.kind = TT_NUMBER, .number = number};
    assert_int_equal(tt_answer(c, tt_question_find(b, question), &reply), TT_OK);
}

static double chance_of(const tt_view *v, const char *cause)
{
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (v->causes[i].name != NULL && strcmp(v->causes[i].name, cause) == 0)
            return v->causes[i].chance;
    fail_msg("there is no cause '%s'", cause);
    return 0;
}

static void nobody_is_asked_and_nothing_moves(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const str text = file_bytes(keep, FOLDER "/book.yaml");
    const str plain = without(keep, text, "  air-creeps:\n", "  knocking:\n");
    const char *const books[] = {str_copy(keep, text).p, plain.p};
    double chances[2];
    for (int i = 0; i < 2; i++) {
        tt_book *b = small_book(books[i]);
        tt_case *c;
        const tt_view *v;
        assert_int_equal(tt_case_new(b, &(tt_options){0}, &c), TT_OK);
        answer(c, b, "air of east", 50);
        answer(c, b, "air of west", 30);
        assert_int_equal(tt_look(c, &v), TT_OK);
        chances[i] = chance_of(v, "regulator of east");
        assert_int_equal(v->caution_count, 0);
        for (uint32_t f = 0; f < v->fact_count; f++) assert_null(strstr(v->facts[f].name, "trend"));
        assert_true(v->next.question == TT_NONE ||
                    v->next.question != tt_question_find(b, "knocks"));
        tt_case_free(c);
        tt_book_free(b);
    }
    assert_true(chances[0] > 0.5 && fabs(chances[0] - chances[1]) < 1e-12);
    arena_free(keep);
}

/* It can come to hold later, so it is no condition that never does. */
static void nobody_doubts_it(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const str text = file_bytes(keep, FOLDER "/book.yaml");
    assert_int_equal(warnings_of(str_copy(keep, text).p), 0);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nobody_is_asked_and_nothing_moves),
        cmocka_unit_test(nobody_doubts_it),
    };
    return cmocka_run_group_tests_name("trend", tests, NULL, NULL);
}
