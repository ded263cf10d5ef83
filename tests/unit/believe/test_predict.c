/* Predictions that are kept, and beliefs whose tables change under them. */
#include <math.h>

#include "believe/belief.h"
#include "net_kit.h"
#include "small_book.h"
#include "testing.h"

/* In another arena, so that the first may go. */
static void a_copy_is_all_its_own(void **state)
{
    (void)state;
    net_kit *k = net_kit_new();
    const uint32_t p = net_kit_finding(k, "p", 2);
    const uint32_t a = net_kit_cause(k, "a", 1);
    net_kit_cause(k, "b", 1);
    net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, p, 1), 0.1), a, 0.8);
    const belief *b = belief_new(k->keep, net_kit_build(k), 1);
    const double *weights[] = {NULL};
    const prediction first = belief_predict(k->keep, b, &(evidence){.weights = weights}, p),
                     copy = prediction_copy(k->scratch, &first);
    assert_int_equal(copy.states, 2);
    assert_int_equal(copy.listed_count, 1);
    assert_true(copy.listed != first.listed && copy.rows != first.rows);
    assert_true(copy.base != first.base && copy.other != first.other);
    assert_int_equal(copy.listed[0], a);
    assert_memory_equal(copy.rows, first.rows, 2 * sizeof *copy.rows);
    assert_memory_equal(copy.base, first.base, 2 * sizeof *copy.base);
    assert_memory_equal(copy.other, first.other, 2 * sizeof *copy.other);
    net_kit_free(k);
}

/* The look shows the seal, or both, where the pump is old; what two of them show together depends
 * on that as well. */
static const char two_faults[] =
    "book: {title: Pump, roles: [anybody], two-faults: 40 %}\n"
    "questions:\n"
    "  age: {ask: Age, about: today, answers: {old: Old, new: New}, shares: {old: 30 %, new: 70 "
    "%}}\n"
    "  drip: {ask: Drips, usual: no}\n"
    "symptoms:\n"
    "  drips: {text: Drips, when: {drip: yes, age: old}, shown-by: {seal: 80 %, hose: 60 %, "
    "joint: 30 %}}\n"
    "causes:\n"
    "  seal: {text: Seal}\n"
    "  hose: {text: Hose}\n"
    "  joint: {text: Joint}\n";

static void answer(tt_case *c, const tt_book *book, const char *question)
{
    const tt_reply first = {.kind = TT_ANSWER, .option = 0};
    assert_int_equal(tt_answer(c, tt_question_find(book, question), &first), TT_OK);
}

static const tt_view *look(tt_case *c)
{
    const tt_view *v;
    assert_int_equal(tt_look(c, &v), TT_OK);
    return v;
}

static void a_fact_told_later_says_the_same_of_two_faults(void **state)
{
    (void)state;
    tt_book *book = small_book(two_faults);
    tt_case *before, *after;
    assert_int_equal(tt_case_new(book, NULL, &before), TT_OK);
    assert_int_equal(tt_case_new(book, NULL, &after), TT_OK);
    answer(before, book, "age");
    look(before);
    answer(before, book, "drip");
    answer(after, book, "drip");
    look(after);
    answer(after, book, "age");
    const tt_view *one = look(before), *other = look(after);
    assert_true(one->two_faults > 0);
    assert_true(fabs(one->two_faults - other->two_faults) < 1e-12);
    assert_int_equal(one->cause_count, other->cause_count);
    for (uint32_t i = 0; i < one->cause_count; i++)
        assert_true(fabs(one->causes[i].chance - other->causes[i].chance) < 1e-12);
    tt_case_free(before);
    tt_case_free(after);
    tt_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_copy_is_all_its_own),
        cmocka_unit_test(a_fact_told_later_says_the_same_of_two_faults),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
