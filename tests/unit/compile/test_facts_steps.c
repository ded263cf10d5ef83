/* Rules that read facts together are weighed in all combinations of these, and a book of few bytes
 * could stand for days of that: how much it is, is counted first. */
#include "testing.h"

#include "base/arena.h"
#include "base/str.h"
#include "compile/facts.h"
#include "telltale.h"

/* TOGETHER facts have as many combinations as one sum goes over. Each takes TOGETHER steps, for
 * each of the facts once, and the table a quarter of one for each rule. */
enum { TOGETHER = 12, RULES = TOGETHER - 1 };
enum {
    STEPS = FACTS_COMBINATIONS_MAX * TOGETHER * TOGETHER + FACTS_COMBINATIONS_MAX * RULES / 4,
    FIT = FACTS_STEPS_MAX / STEPS
};

_Static_assert(1 << TOGETHER == FACTS_COMBINATIONS_MAX, "or it is no table");

static str book_of(arena *keep, uint32_t causes)
{
    text_builder b = {.keep = keep};
    text_add(&b, STR("book: {title: Made, roles: [op]}\nquestions:\n  q: {ask: 'Is it low?'}\n"));
    for (uint32_t i = 0; i < TOGETHER; i++)
        text_addf(&b, "  w%u: {ask: 'Is it %u?', about: today}\n", i, i);
    text_add(&b, STR("symptoms:\n  s: {text: Low, when: {q: yes}, shown-by: {c0: often}}\n"
                     "causes:\n"));
    for (uint32_t c = 0; c < causes; c++) text_addf(&b, "  c%u: {text: 'Cause %u'}\n", c, c);
    text_add(&b, STR("rules:\n"));
    for (uint32_t c = 0; c < causes; c++)
        for (uint32_t i = 1; i < TOGETHER; i++)
            text_addf(&b,
                      "  r%u-%u: {when: {w0: yes, w%u: yes}, then: {likelier: {c%u: 2 times}}}\n",
                      c, i, i, c);
    return text_done(&b);
}

static tt_status load(uint32_t causes, tt_report **report)
{
    arena *a = arena_new(NULL, NULL);
    const str bytes = book_of(a, causes);
    const tt_source file = {"made.yaml", bytes.p, bytes.n};
    tt_book *book = NULL;
    const tt_status status = tt_book_load(&file, 1, &book, report);
    tt_book_free(book);
    arena_free(a);
    return status;
}

static void as_much_as_fits_is_weighed(void **state)
{
    (void)state;
    tt_report *report = NULL;
    assert_int_equal(load(FIT, &report), TT_OK);
    tt_report_free(report);
}

static void more_is_refused_by_name(void **state)
{
    (void)state;
    tt_report *report = NULL;
    assert_int_equal(load(FIT + 1, &report), TT_FAULTY);
    assert_int_equal(tt_report_errors(report), 1);
    const tt_fault f = tt_report_fault(report, 0);
    assert_string_equal(f.code, "T511");
    assert_string_equal(f.text, "Rules read more facts together than can be weighed: 11 of them "
                                "move 'c0', and read 12 facts that hang together.");
    assert_string_equal(f.help, "Begin here, and let each rule read fewer facts, or facts that no "
                                "other rule of the same cause reads.");
    tt_report_free(report);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_much_as_fits_is_weighed),
        cmocka_unit_test(more_is_refused_by_name),
    };
    return cmocka_run_group_tests_name("facts steps", tests, NULL, NULL);
}
