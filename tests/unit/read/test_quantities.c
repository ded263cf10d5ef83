/* Quantities as they are read: named ones, and those that comparisons make. */
#include "read_kit.h"

#include <math.h>

static const book *read_book(kit *k)
{
    kit_begin(k);
    assert_true(kit_add_file(k, STR("quantities.yaml")));
    const book *b = kit_read(k);
    if (b == NULL) fail_msg("%s", kit_said(k));
    return b;
}

static const question *quantity(const book *b, const char *name)
{
    for (uint32_t i = 0; i < b->question_count; i++)
        if (str_is(b->questions[i].id.name, name)) return &b->questions[i];
    fail_msg("no quantity '%s'", name);
    return NULL;
}

static const cond *when_of(const book *b, const char *symptom)
{
    uint32_t symptom_id = book_symptom(b, str_of(symptom));
    return b->symptoms[symptom_id].when;
}

static void assert_subject(const book *b, const cond *c, const char *name)
{
    assert_int_equal(c->kind, COND_RANGE);
    assert_text(b->questions[c->subject].id.name, name);
}

static void assert_beneath(const book *b, const char *name, const char *const *wanted,
                           uint32_t count)
{
    const ids *beneath = &quantity(b, name)->beneath;
    assert_int_equal(beneath->count, count);
    for (uint32_t i = 0; i < count; i++)
        assert_text(b->questions[beneath->items[i]].id.name, wanted[i]);
}

static void named_ones_stand_among_the_questions(void **state)
{
    (void)state;
    kit k;
    const book *b = read_book(&k);
    const question *speed = quantity(b, "speed"), *target = quantity(b, "target");
    assert_int_equal(book_question(b, STR("speed")), (uint32_t)(speed - b->questions));
    assert_int_equal(speed->kind, QUESTION_QUANTITY);
    assert_text(speed->in.text, "ft/min");
    assert_text(texts_for(&speed->ask, b->language), "Line speed");
    assert_true(speed->has_usual);
    assert_near(speed->usual_low, 20);
    assert_int_equal(speed->case_count, 1);
    assert_null(speed->cases[0].when);
    assert_int_equal(target->case_count, 3);
    assert_int_equal(target->cases[0].when->kind, COND_ALL);
    assert_subject(b, target->cases[1].when, "speed");
    assert_null(target->cases[2].when);
    kit_end(&k);
}

static void each_knows_the_readings_beneath_it(void **state)
{
    (void)state;
    static const char *const speed[] = {"pitch", "rate"}, *const target[] = {"gauge-set", "pitch",
                                                                             "rate", "winter"};
    kit k;
    const book *b = read_book(&k);
    assert_beneath(b, "speed", speed, 2);
    assert_beneath(b, "double-speed", speed, 2);
    assert_beneath(b, "target", target, 4);
    assert_near(quantity(b, "double-speed")->read_right, 0.9 * 0.8);
    assert_int_equal(quantity(b, "speed")->about, ABOUT_FAULT);
    kit_end(&k);
}

static void they_are_reckoned_after_what_they_need(void **state)
{
    (void)state;
    kit k;
    const book *b = read_book(&k);
    uint32_t place[64] = {0}, quantities = 0;
    assert_true(b->question_count < 64);
    for (uint32_t i = 0; i < b->reckon_count; i++) place[b->reckon_order[i]] = i + 1;
    for (uint32_t q = 0; q < b->question_count; q++) {
        const question *one = &b->questions[q];
        quantities += one->kind == QUESTION_QUANTITY;
        assert_int_equal(place[q] > 0, one->kind == QUESTION_QUANTITY);
        for (uint32_t c = 0; c < one->case_count; c++) {
            uint32_t count;
            const uint32_t *needs = formula_subjects(one->cases[c].is, &count);
            for (uint32_t i = 0; i < count; i++) assert_true(place[needs[i]] < place[q]);
        }
    }
    assert_int_equal(quantities, b->reckon_count);
    kit_end(&k);
}

static void comparisons_with_one_set_point_share_one_quantity(void **state)
{
    (void)state;
    kit k;
    const book *b = read_book(&k);
    const cond *high = when_of(b, "high"), *low = when_of(b, "low"),
               *off = when_of(b, "off")->parts[0];
    assert_subject(b, high, "gauge - gauge-set");
    assert_int_equal(low->subject, high->subject);
    assert_int_equal(off->subject, high->subject);
    assert_true(high->subject >= b->named_questions);
    assert_near(high->low, 5);
    assert_false(high->low_in);
    assert_true(fabs(low->high + 0.2 * 100000 / 6894.757293168361) < 1e-12);
    assert_near(off->low, -3);
    assert_near(off->high, 3);
    assert_true(off->low_in && off->high_in);
    const question *made = &b->questions[high->subject];
    assert_true(made->made && made->has_usual);
    assert_text(b->questions[made->judged].id.name, "gauge");
    assert_text(texts_for(&made->ask, b->language), "Gauge minus gauge set");
    kit_end(&k);
}

static void two_set_points_at_the_ends_are_two_conditions(void **state)
{
    (void)state;
    kit k;
    const book *b = read_book(&k);
    const cond *c = when_of(b, "between");
    assert_int_equal(c->kind, COND_ALL);
    assert_int_equal(c->count, 2);
    assert_subject(b, c->parts[0], "gauge - gauge-set");
    assert_subject(b, c->parts[1], "gauge - target");
    assert_near(c->parts[0]->low, 0);
    assert_true(c->parts[0]->low_in && isinf(c->parts[0]->high) && !c->parts[0]->high_in);
    assert_near(c->parts[1]->high, 0);
    assert_true(c->parts[1]->high_in && isinf(c->parts[1]->low) && !c->parts[1]->low_in);
    kit_end(&k);
}

static void temperatures_differ_by_an_interval_and_dilutions_by_a_share(void **state)
{
    (void)state;
    kit k;
    const book *b = read_book(&k);
    const cond *cold = when_of(b, "cold"), *thin = when_of(b, "thin"), *weak = when_of(b, "weak");
    assert_subject(b, cold, "water - water-set");
    assert_int_equal(b->questions[cold->subject].in.form, UNIT_PLAIN);
    assert_near(cold->high, -10);
    assert_subject(b, thin, "mix - mix-set");
    assert_text(b->questions[thin->subject].in.text, "%");
    assert_near(thin->high, -0.5);
    assert_subject(b, weak, "mix");
    assert_near(weak->low, 1.0 / 401);
    assert_near(weak->high, 1.0 / 121);
    assert_true(weak->low_in && weak->high_in);
    kit_end(&k);
}

static void looking_again_at_one_is_looking_at_its_readings(void **state)
{
    (void)state;
    static const char *const wanted[] = {"gauge", "pitch", "rate"};
    kit k;
    const book *b = read_book(&k);
    const ids *again = &b->fixes[0].look_again;
    assert_int_equal(again->count, 3);
    for (int i = 0; i < 3; i++) assert_text(b->questions[again->items[i]].id.name, wanted[i]);
    kit_end(&k);
}

static void the_site_s_units_come_before_the_book_s(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    assert_true(kit_add_file(&k, STR("quantities.yaml")));
    k.site = (source){STR("site.yaml"), str_of("site:\n  show: [kPa, L/min]\n")};
    const book *b = kit_read(&k);
    assert_non_null(b);
    static const char *const wanted[] = {"kPa", "L/min", "m"};
    assert_int_equal(b->shown_unit_count, 3);
    for (int i = 0; i < 3; i++) assert_text(b->shown_units[i].text, wanted[i]);
    assert_text(book_shown_unit(b, &quantity(b, "gauge")->in).text, "kPa");
    assert_text(book_shown_unit(b, &quantity(b, "pitch")->in).text, "m");
    assert_text(book_shown_unit(b, &quantity(b, "rate")->in).text, "cars/h");
    kit_end(&k);
}

/* ---- bounds ---- */

static const char *read_chain(kit *k, uint32_t length)
{
    kit_begin(k);
    text_builder b = {.keep = k->keep};
    text_add(&b, STR("book:\n  title: T\n  roles: [helper]\nquestions:\n  r:\n    ask: R?\n    "
                     "reading: length\n    unit: ft\n"
                     "quantities:\n  q0: {text: Q, formula: r, unit: ft}\n"));
    for (uint32_t i = 1; i < length; i++)
        text_addf(&b, "  q%u: {text: Q, formula: q%u * 2, unit: ft}\n", i, i - 1);
    text_addf(&b,
              "symptoms:\n  s:\n    text: S\n    when: {q%u: above 2 ft}\n    shown-by: {c: "
              "often}\ncauses:\n  c: {text: C}\n",
              length - 1);
    kit_add(k, STR("rules.yaml"), text_done(&b));
    kit_read(k);
    return kit_said(k);
}

static void a_chain_of_quantities_has_an_end(void **state)
{
    (void)state;
    kit k;
    assert_null(strstr(read_chain(&k, 250), "error"));
    kit_end(&k);
    const char *said = read_chain(&k, 2000);
    assert_non_null(
        strstr(said, "there are more than 250 quantities resting on each other. [T226]"));
    assert_non_null(strstr(said, "\n1 error"));
    kit_end(&k);
}

/* Each of many quantities takes in every reading: the whole is bounded, and said once. */
static void readings_beneath_quantities_are_bounded_in_all(void **state)
{
    (void)state;
    enum { WIDTH = 200, MANY = 1200 };
    kit k;
    kit_begin(&k);
    text_builder b = {.keep = k.keep};
    text_add(&b,
             STR("book:\n  title: T\n  roles: [helper]\ncauses:\n  c: {text: C}\nquestions:\n"));
    for (uint32_t i = 0; i < WIDTH; i++)
        text_addf(&b, "  r%u: {ask: R, reading: length, unit: ft}\n", i);
    text_add(&b,
             STR("quantities:\n  all-of-them:\n    text: Q\n    unit: ft\n    formula: sum(r0"));
    for (uint32_t i = 1; i < WIDTH; i++) text_addf(&b, ", r%u", i);
    text_add(&b, STR(")\n"));
    for (uint32_t i = 0; i < MANY; i++)
        text_addf(&b, "  q%u: {text: Q, unit: ft, formula: all-of-them}\n", i);
    kit_add(&k, STR("rules.yaml"), text_done(&b));
    assert_null(kit_read(&k));
    assert_int_equal(faults_errors(k.list), 1);
    assert_non_null(
        strstr(kit_said(&k), "more than 100000 readings beneath quantities, all counted. [T226]"));
    kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(named_ones_stand_among_the_questions),
        cmocka_unit_test(each_knows_the_readings_beneath_it),
        cmocka_unit_test(they_are_reckoned_after_what_they_need),
        cmocka_unit_test(comparisons_with_one_set_point_share_one_quantity),
        cmocka_unit_test(two_set_points_at_the_ends_are_two_conditions),
        cmocka_unit_test(temperatures_differ_by_an_interval_and_dilutions_by_a_share),
        cmocka_unit_test(looking_again_at_one_is_looking_at_its_readings),
        cmocka_unit_test(the_site_s_units_come_before_the_book_s),
        cmocka_unit_test(a_chain_of_quantities_has_an_end),
        cmocka_unit_test(readings_beneath_quantities_are_bounded_in_all),
    };
    return cmocka_run_group_tests_name("quantities", tests, NULL, NULL);
}
