/* With what, how regularly and why one looks; what comes and goes; what it costs. */
#include "read_kit.h"

static const char text[] =
    "book:\n  title: T\n  roles: [helper, mender]\n  minute-costs: {mender: 1.25 EUR}\n"
    "instruments:\n  gauge:\n    text: the gauge\n    wrong: 2 %\n  eye:\n    text: a lamp\n"
    "questions:\n"
    "  set-to:\n    ask: Set to?\n    reading: pressure\n    unit: bar\n    about: the site\n"
    "  reads:\n    ask: Reads?\n    because: It drives all.\n    reading: pressure\n    unit: psi\n"
    "    instrument: gauge\n    round: weekly\n    good: set-to\n"
    "  drip:\n    ask: Does it drip?\n"
    "symptoms:\n  low:\n    text: Low\n    when: {reads: below 3 psi}\n"
    "    shown-by: {worn: {chance: often, comes-and-goes: 30 %}, torn: usually}\n"
    "causes:\n  torn:\n    text: Torn\n  worn:\n    text: Worn\n"
    "fixes:\n  mend:\n    text: Mend\n    role: mender\n    cost: 40 EUR\n    cures: {worn: "
    "usually}\n"
    "    harm: none\n    put-back: not needed\n"
    "  wait:\n    text: Wait\n    role: helper\n    cures: {torn: rarely}\n    harm: none\n"
    "    put-back: not needed\n";

static const question *asked(const book *b, const char *name)
{
    const uint32_t id = book_question(b, str_of(name));
    assert_int_not_equal(id, NO_ID);
    return &b->questions[id];
}

static void test_what_a_question_is_answered_with(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(&k, text);
    if (b == NULL) fail_msg("%s", kit_said(&k));
    const question *reads = asked(b, "reads"), *drip = asked(b, "drip");
    assert_text(texts_for(&reads->because, STR("en")), "It drives all.");
    assert_text(b->instruments[reads->instrument].id.name, "gauge");
    assert_near(b->instruments[reads->instrument].wrong, 0.02);
    assert_int_equal(reads->round, ROUND_WEEKLY);
    assert_int_equal(reads->good, book_question(b, STR("set-to")));
    assert_int_equal(drip->instrument, NO_ID);
    assert_int_equal(drip->good, NO_ID);
    assert_int_equal(drip->round, ROUND_NONE);
    kit_end(&k);
}

static void test_a_sign_comes_and_goes_or_stays(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(&k, text);
    const symptom *low = &b->symptoms[book_symptom(b, STR("low"))];
    assert_int_equal(low->shown_by_count, 2);
    assert_near(low->shown_by[0].chance, 0.85);
    assert_near(low->shown_by[0].looks, 1);
    assert_near(low->shown_by[1].chance, 0.70);
    assert_near(low->shown_by[1].looks, 0.30);
    kit_end(&k);
}

static void test_costs_are_money(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(&k, text);
    assert_near(b->fixes[book_fix(b, STR("mend"))].cost.amount, 40);
    assert_text(b->fixes[book_fix(b, STR("mend"))].cost.currency, "EUR");
    assert_int_equal(b->fixes[book_fix(b, STR("wait"))].cost.currency.n, 0);
    assert_near(b->minute_costs[book_role(b, STR("mender"))].amount, 1.25);
    assert_int_equal(b->minute_costs[book_role(b, STR("helper"))].currency.n, 0);
    kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_a_question_is_answered_with),
        cmocka_unit_test(test_a_sign_comes_and_goes_or_stays),
        cmocka_unit_test(test_costs_are_money),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
