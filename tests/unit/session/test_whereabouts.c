/* Where whoever asks is: two questions that tell as much, at two places far apart. */
#include "open_gate.h"
#include "small_book.h"
#include "telltale.h"
#include "testing.h"

#define SIGN(name, cause) \
    "  " name "-seen:\n    text: Sign of " cause "\n    when: {" name \
    ": yes}\n    shown-by: {" cause ": often}\n"
#define FIX(name, cause) \
    "  " name ":\n    text: Do it\n    role: hand\n    takes: 60 min\n    cures: {" cause \
    ": 90 %}\n    harm: none\n    put-back: not " \
    "needed\n"

static const char book[] =
    "book: {title: Mixer, roles: [hand], walk: 20 min}\n"
    "places:\n  attic: {text: the attic}\n  yard: {text: the yard}\n"
    "questions:\n"
    "  hum: {ask: Hum, place: attic}\n"
    "  smell: {ask: Smell, place: yard}\n"
    "  flow: {ask: Flow, reading: rate, unit: cars/h, place: yard}\n"
    "quantities:\n"
    "  doubled:\n    text: Twice the flow\n    formula: flow * 2\n    unit: cars/h\n    usual: 0 "
    "to 50 cars/h\n"
    "symptoms:\n" SIGN("hum", "worn")
        SIGN("smell", "burnt") "  much:\n    text: Much\n    when: {doubled: above 50 cars/h}\n    "
                               "shown-by: {worn: 50 %, burnt: 50 %}\n"
                               "causes:\n  worn: {text: Worn}\n  burnt: {text: Burnt}\n"
                               "fixes:\n" FIX("renew", "worn") FIX("rewind", "burnt");

static void tell(tt_case *c, uint32_t question, const char *number)
{
    tt_reply reply;
    const char *why;
    if (tt_reply_read(c, question, number, &reply, &why) != TT_OK) fail_msg("%s", why);
    assert_int_equal(tt_answer(c, question, &reply), TT_OK);
}

/* `told`: null if nothing is. */
static void assert_asks_after(const char *told, const char *number, const char *asked)
{
    tt_book *b = small_book(book);
    tt_case *c;
    const tt_view *v;
    tt_question q;
    assert_int_equal(tt_case_new(b, NULL, &c), TT_OK);
    open_gate(c);
    if (told != NULL) tell(c, tt_question_find(b, told), number);
    assert_int_equal(tt_look(c, &v), TT_OK);
    assert_int_equal(tt_question_show(c, v->next.question, &q), TT_OK);
    assert_string_equal(q.name, asked);
    tt_case_free(c);
    tt_book_free(b);
}

static void what_tells_as_much_is_asked_where_one_is(void **state)
{
    (void)state;
    assert_asks_after("flow", "20", "smell");
}

static void whoever_tells_a_quantity_is_where_it_is_read(void **state)
{
    (void)state;
    assert_asks_after("doubled", "40", "smell");
}

static void nobody_knows_where_somebody_is_who_told_nothing(void **state)
{
    (void)state;
    assert_asks_after(NULL, NULL, "hum");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_tells_as_much_is_asked_where_one_is),
        cmocka_unit_test(whoever_tells_a_quantity_is_where_it_is_read),
        cmocka_unit_test(nobody_knows_where_somebody_is_who_told_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
