/* A program that asks for what the book doesn't have, or gives what can't be an answer, is refused,
 * and the case stays as it was. */
#include "testing.h"

#include <math.h>

#include "small_book.h"
#include "telltale.h"
#include "telltale_author.h"
#include "telltale_rounds.h"

static const char text[] =
    "book: {title: Pump, roles: [helper]}\n"
    "questions:\n"
    "  drip: {ask: Drips, answers: {much: Much, little: Little, dry: Dry}, usual: dry}\n"
    "  gauge: {ask: Gauge, reading: pressure, unit: psi, plausible: 0 to 100 psi, usual: 40 to 50 "
    "psi}\n"
    "  strokes: {ask: Strokes, count: strokes, plausible: 0 to 9, usual: 2 to 3}\n"
    "symptoms:\n"
    "  drips: {text: Drips, when: {drip: much}, shown-by: {worn-seal: often}}\n"
    "  low: {text: Low, when: {gauge: below 40 psi}, shown-by: {set-low: often}}\n"
    "  slow: {text: Slow, when: {strokes: below 2}, shown-by: {set-low: often}}\n"
    "causes: {worn-seal: {text: Worn}, set-low: {text: Low}}\n"
    "fixes:\n"
    "  new-seal: {text: Seal, takes: 5 min, role: helper, cures: {worn-seal: usually}, harm: none, "
    "put-back: not needed}\n";

typedef struct kit {
    tt_book *book;
    tt_case *c;
    uint32_t drip, gauge;
} kit;

static int begin(void **state)
{
    static kit k;
    k.book = small_book(text);
    assert_int_equal(tt_case_new(k.book, NULL, &k.c), TT_OK);
    k.drip = tt_question_find(k.book, "drip");
    k.gauge = tt_question_find(k.book, "gauge");
    *state = &k;
    return 0;
}

static int end(void **state)
{
    kit *k = *state;
    /* nothing that was refused is there to be undone */
    assert_int_equal(tt_undo(k->c), TT_NOT_NOW);
    tt_case_free(k->c);
    tt_book_free(k->book);
    return 0;
}

static void what_the_book_does_not_have_is_refused(void **state)
{
    kit *k = *state;
    tt_case *c = k->c;
    const uint32_t none = 1000;
    const tt_reply reply = {.kind = TT_UNSURE};
    tt_question q;
    tt_fix_plan plan;
    tt_reply read;
    const char *said;
    assert_int_equal(tt_answer(c, none, &reply), TT_FAULTY);
    assert_int_equal(tt_answer_again(c, none, &reply, TT_LOOK_AGAIN), TT_FAULTY);
    assert_int_equal(tt_answer_unaware(c, none, &reply, 0), TT_FAULTY);
    assert_int_equal(tt_retract(c, none), TT_FAULTY);
    assert_int_equal(tt_stale(c, none), TT_FAULTY);
    assert_int_equal(tt_unsettled(c, none), TT_FAULTY);
    assert_int_equal(tt_reply_fits(c, none, &reply), TT_FAULTY);
    assert_int_equal(tt_reply_read(c, none, "much", &read, &said), TT_FAULTY);
    assert_int_equal(tt_complain(c, none), TT_FAULTY);
    assert_int_equal(tt_complain_somewhere(c, none), TT_FAULTY);
    assert_int_equal(tt_focus(c, &none, 1), TT_FAULTY);
    assert_int_equal(tt_focus(c, NULL, 0), TT_FAULTY);
    assert_int_equal(tt_fix_tried(c, none, TT_GONE), TT_FAULTY);
    assert_int_equal(tt_fixes_tried(c, 0, none, TT_GONE), TT_FAULTY);
    assert_int_equal(tt_fixes_tried(c, 0, 0, TT_GONE), TT_FAULTY);
    assert_int_equal(tt_put_back(c, none), TT_FAULTY);
    assert_int_equal(tt_left_so(c, none), TT_FAULTY);
    assert_int_equal(tt_came_back(c, none), TT_FAULTY);
    assert_int_equal(tt_unsettled_fix(c, none), TT_FAULTY);
    assert_int_equal(tt_question_show(c, none, &q), TT_FAULTY);
    assert_int_equal(tt_fix_show(c, none, &plan), TT_FAULTY);
    assert_int_equal(tt_reading_text(c, none, 1, &said), TT_FAULTY);
}

static void a_role_that_the_book_does_not_have_begins_no_case(void **state)
{
    kit *k = *state;
    tt_case *c;
    assert_int_equal(tt_case_new(k->book, &(tt_options){.role = 7}, &c), TT_FAULTY);
    assert_null(c);
}

/* Each is refused by the question it is given to, and a look at it says so before. */
static void what_can_not_be_an_answer_is_refused(void **state)
{
    kit *k = *state;
    static const double nothing[] = {0, 0, 0}, below[] = {1, -1, 1}, endless[] = {1, INFINITY, 1},
                        no_number[] = {1, NAN, 1}, some[] = {1, 2, 0};
    const struct {
        uint32_t question;
        tt_reply reply;
    } wrong[] = {
        {k->drip, {.kind = TT_ANSWER, .option = 3}},
        {k->drip, {.kind = TT_NUMBER, .number = 1}},
        {k->drip, {.kind = TT_NOT, .not_options = 0}},
        {k->drip, {.kind = TT_NOT, .not_options = 7}},
        {k->drip, {.kind = TT_LIKELY, .weights = NULL}},
        {k->drip, {.kind = TT_LIKELY, .weights = nothing}},
        {k->drip, {.kind = TT_LIKELY, .weights = below}},
        {k->drip, {.kind = TT_LIKELY, .weights = endless}},
        {k->drip, {.kind = TT_LIKELY, .weights = no_number}},
        {k->gauge, {.kind = TT_ANSWER, .option = 0}},
        {k->gauge, {.kind = TT_NOT, .not_options = 1}},
        {k->gauge, {.kind = TT_LIKELY, .weights = some}},
        {k->gauge, {.kind = TT_NUMBER, .number = 40, .unit = "min"}},
        {k->gauge, {.kind = TT_NUMBER, .number = 40, .unit = "psx"}},
        {k->gauge, {.kind = TT_NUMBER, .number = NAN}},
        {k->gauge, {.kind = TT_NUMBER, .number = INFINITY}},
        {tt_question_find(k->book, "strokes"), {.kind = TT_NUMBER, .number = NAN}},
        {tt_question_find(k->book, "strokes"), {.kind = TT_NUMBER, .number = 2.5}},
        {tt_question_find(k->book, "strokes"), {.kind = TT_NUMBER, .number = -1}},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        assert_int_equal(tt_reply_fits(k->c, wrong[i].question, &wrong[i].reply), TT_FAULTY);
        assert_int_equal(tt_answer(k->c, wrong[i].question, &wrong[i].reply), TT_FAULTY);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_the_book_does_not_have_is_refused, begin, end),
        cmocka_unit_test_setup_teardown(a_role_that_the_book_does_not_have_begins_no_case, begin,
                                        end),
        cmocka_unit_test_setup_teardown(what_can_not_be_an_answer_is_refused, begin, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
