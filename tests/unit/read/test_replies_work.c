/* Names in an answers file that the book doesn't know are looked up, not compared with all of its
 * questions: only so many are told with what may have been meant. */
#include "testing.h"

#include "base/arena.h"
#include "base/str.h"
#include "telltale.h"
#include "work.h"

enum { QUESTIONS = 4000, TOLD = 5000, TIMES = 4 };

static tt_book *book_of(arena *a, uint32_t questions)
{
    text_builder b = {.keep = a};
    text_add(&b, STR("book: {title: Made, roles: [op]}\nquestions:\n"));
    for (uint32_t i = 0; i < questions; i++) text_addf(&b, "  q%u: {ask: 'Is %u low?'}\n", i, i);
    text_add(&b, STR("symptoms:\n  s: {text: Low, when: {q0: yes}, shown-by: {c: often}}\n"
                     "causes:\n  c: {text: Cause}\n"));
    const str bytes = text_done(&b);
    const tt_source file = {"made.yaml", bytes.p, bytes.n};
    tt_book *book = NULL;
    tt_report *report = NULL;
    if (tt_book_load(&file, 1, &book, &report) != TT_OK) fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    return book;
}

static uint64_t work_of(uint32_t n)
{
    arena *a = arena_new(NULL, NULL);
    tt_book *book = book_of(a, QUESTIONS);
    tt_case *c = NULL;
    tt_report *report = NULL;
    text_builder b = {.keep = a};
    text_add(&b, STR("answers:\n"));
    for (uint32_t i = 0; i < n; i++) text_addf(&b, "  x%u: yes\n", i);
    const str bytes = text_done(&b);
    const tt_source file = {"answers.yaml", bytes.p, bytes.n};
    assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
    const uint64_t before = work_done();
    assert_int_equal(tt_answers_load(c, &file, &report), TT_FAULTY);
    const uint64_t work = work_done() - before;
    assert_int_equal(tt_report_errors(report), n);
    tt_report_free(report);
    tt_case_free(c);
    tt_book_free(book);
    arena_free(a);
    return work;
}

static void a_name_more_is_a_look_up_more(void **state)
{
    (void)state;
    const uint64_t part = work_of(TOLD), whole = work_of(TIMES * TOLD);
    const uint64_t each = (whole - part) / ((TIMES - 1) * TOLD);
    if (each > QUESTIONS / 2) fail_msg("%llu steps a name", (unsigned long long)each);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_name_more_is_a_look_up_more)};
    return cmocka_run_group_tests_name("replies work", tests, NULL, NULL);
}
