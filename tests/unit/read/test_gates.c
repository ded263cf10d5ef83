/* What rules out danger before a case goes on: the questions with `safe`, what is asked before
 * them, and the engine's own. */
#include "read_kit.h"

#define HEAD "book:\n  title: T\n  roles: [helper, technician]\n"
#define REST "  drip:\n    ask: Does it drip?\n" SIGNS("drip: yes")
#define SIGNS(when) \
    "symptoms:\n  drips:\n    text: It drips\n    when: {" when \
    "}\n    shown-by: {worn-seal: often}\n" \
    "causes:\n  worn-seal:\n    text: The seal is worn\n"

static const question *asked(const book *b, const char *name)
{
    uint32_t id = book_question(b, str_of(name));
    if (id == NO_ID) fail_msg("there is no question '%s'", name);
    return &b->questions[id];
}

static void test_safe_answers_are_a_mask_in_name_order(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(
        &k, HEAD "questions:\n"
                 "  danger:\n    ask: Danger?\n    about: today\n    safe: [quiet, dust]\n"
                 "    answers:\n      quiet: None\n      fire: Fire\n      dust: Dust\n      gas: "
                 "Gas\n" REST);
    const question *q = asked(b, "danger");
    assert_true(q->gate && !q->ours && !q->early);
    assert_int_equal(q->safe_answers, 1 << 0 | 1 << 3); /* dust, fire, gas, quiet */
    assert_true(answer_is_safe(q, 3));
    assert_false(answer_is_safe(q, 1));
    assert_false(asked(b, "drip")->gate);
    assert_int_equal(b->our_gate, NO_ID);
    assert_int_equal(b->question_count, b->named_questions);
    assert_null(strstr(kit_said(&k), "[T417]")); /* it is of use by itself */
    kit_end(&k);
}

static void test_one_safe_answer_needs_no_list(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b =
        kit_read_text(&k, HEAD "questions:\n  smoke:\n    ask: Smoke?\n    safe: no\n" REST);
    assert_int_equal(asked(b, "smoke")->safe_answers, 1 << 0);
    kit_end(&k);
}

static void test_of_a_reading_a_range_is_safe(void **state)
{
    static const struct {
        const char *range;
        double safe, not_safe;
    } ranges[] = {{"below 20 psi", 19, 20},
                  {"at most 20 psi", 20, 21},
                  {"above 20 psi", 21, 20},
                  {"5 to 20 psi", 5, 4},
                  {"below 1 bar", 14.5, 14.6}};
    (void)state;
    for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++) {
        kit k;
        kit_begin(&k);
        const book *b = kit_read_text(
            &k,
            str_printf(
                k.keep,
                HEAD "questions:\n  gauge:\n    ask: Gauge?\n    reading: pressure\n    unit: psi\n"
                     "    plausible: 0 to 100 psi\n    safe: %s\n" REST,
                ranges[i].range)
                .p);
        const question *q = asked(b, "gauge");
        assert_true(q->gate);
        assert_true(reading_is_safe(q, ranges[i].safe, ranges[i].safe));
        assert_false(reading_is_safe(q, ranges[i].not_safe, ranges[i].not_safe));
        kit_end(&k);
    }
}

/* Some of what may be read must be safe, and some not: else it rules nothing out, or no case could
 * go on. */
static void test_a_range_has_two_sides(void **state)
{
    static const struct {
        const char *plausible, *safe, *wrong; /* null: it has both */
    } ranges[] = {
        {"plausible: 0 to 100 psi", "below 20 psi", NULL},
        {"plausible: 0 to 100 psi", "at most 0 psi", NULL},
        {"plausible: 0 to 100 psi", "below 0 psi", "No answer"},
        {"plausible: 0 to 100 psi", "at least 100 psi", NULL},
        {"plausible: 0 to 100 psi", "above 100 psi", "No answer"},
        {"plausible: 0 to 100 psi", "0 to 99 psi", NULL},
        {"plausible: 0 to 100 psi", "1 to 100 psi", NULL},
        {"plausible: 0 to 100 psi", "0 to 100 psi", "Whatever is answered"},
        {"plausible: 0 to 100 psi", "-5 to 200 psi", "Whatever is answered"},
        {"plausible: 0 to 100 psi", "below 100 psi", NULL},
        {"plausible: 0 to 100 psi", "at most 100 psi", "Whatever is answered"},
        {"plausible: 0 to 100 psi", "above 0 psi", NULL},
        {"plausible: 0 to 100 psi", "at least 0 psi", "Whatever is answered"},
        {"plausible: 0 to 100 psi", "150 to 200 psi", "No answer"},
        {"plausible: 0 to 100 psi", "-20 to -10 psi", "No answer"},
        {"takes: 1 min", "below 20 psi", NULL}, /* as far as anybody knows */
        {"takes: 1 min", "above 20 psi", NULL},
        {"takes: 1 min", "5 to 20 psi", NULL},
    };
    (void)state;
    for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++) {
        kit k;
        kit_begin(&k);
        kit_add(&k, STR("rules.yaml"),
                str_printf(k.keep,
                           HEAD "questions:\n  gauge:\n    ask: Gauge?\n    reading: pressure\n"
                                "    unit: psi\n    %s\n    safe: %s\n" REST,
                           ranges[i].plausible, ranges[i].safe));
        const bool good = kit_read(&k) != NULL;
        const char *said = kit_said(&k);
        if (good != (ranges[i].wrong == NULL) || (!good && strstr(said, ranges[i].wrong) == NULL))
            fail_msg("safe: %s with %s:\n%s", ranges[i].safe, ranges[i].plausible, said);
        kit_end(&k);
    }
}

/* A count is never below nothing, said or not. */
static void test_a_count_has_two_sides(void **state)
{
    static const struct {
        const char *safe;
        bool good;
    } ranges[] = {{"at most 0", true},
                  {"below 3", true},
                  {"at least 0", false},
                  {"below 0", false},
                  {"above 2", true}};
    (void)state;
    for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++) {
        kit k;
        kit_begin(&k);
        kit_add(&k, STR("rules.yaml"),
                str_printf(k.keep,
                           HEAD "questions:\n  inside:\n    ask: Who is inside?\n    count: "
                                "people\n    safe: %s\n" REST,
                           ranges[i].safe));
        if ((kit_read(&k) != NULL) != ranges[i].good)
            fail_msg("safe: %s:\n%s", ranges[i].safe, kit_said(&k));
        kit_end(&k);
    }
}

static void test_early_is_a_fact(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(
        &k, HEAD "questions:\n  season:\n    ask: Winter?\n    about: today\n    early: yes\n"
                 "  smoke:\n    ask: Smoke?\n    safe: [no]\n    early: no\n" REST);
    assert_true(asked(b, "season")->early);
    assert_false(asked(b, "smoke")->early);
    kit_end(&k);
}

/* What a gate question waits for comes before it, also by way of others, quantities by their
 * readings. */
static void test_facts_come_before_the_gate_question_that_waits_for_them(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(
        &k, HEAD "questions:\n  gas:\n    ask: Gas?\n    safe: [no]\n    only-when: {heating: gas, "
                 "tank-share: above 2 psi}\n"
                 "  heating:\n    ask: By what is it heated?\n    about: the site\n    answers:\n  "
                 "    gas: Gas\n      oil: Oil\n    only-when: {has-heater: yes}\n"
                 "  has-heater:\n    ask: Is there a heater?\n    about: the site\n"
                 "  tank-set:\n    ask: At what is the tank set?\n    reading: pressure\n    unit: "
                 "psi\n    about: the site\n"
                 "  smoke:\n    ask: Smoke?\n    safe: [no]\n"
                 "quantities:\n  tank-share:\n    text: Half of the tank's pressure\n    formula: "
                 "tank-set / 2\n    unit: psi\n"
                 "rules:\n  cold:\n    when: {tank-share: above 3 psi}\n    then:\n      caution: "
                 "Cold.\n" SIGNS("smoke: yes"));
    const question *gas = asked(b, "gas");
    assert_int_equal(gas->facts_first.count, 3);
    assert_int_equal(gas->facts_first.items[0], book_question(b, STR("has-heater")));
    assert_int_equal(gas->facts_first.items[1], book_question(b, STR("heating")));
    assert_int_equal(gas->facts_first.items[2], book_question(b, STR("tank-set")));
    assert_int_equal(asked(b, "smoke")->facts_first.count, 0);
    kit_end(&k);
}

/* Facts before gate questions are kept with each of them, so there is a bound on all together. */
static void test_many_facts_before_many_gate_questions_are_too_many(void **state)
{
    (void)state;
    for (unsigned gates = 100; gates <= 140;
         gates += 40) { /* of 150 facts each: 15,000 and 21,000 */
        kit k;
        kit_begin(&k);
        text_builder b = {.keep = k.scratch};
        text_add(&b, STR(HEAD "questions:\n"));
        for (unsigned i = 0; i < 150; i++) {
            text_addf(&b, "  f%u:\n    ask: F?\n    about: today\n", i);
            if (i > 0) text_addf(&b, "    only-when: {f%u: yes}\n", i - 1);
        }
        for (unsigned i = 0; i < gates; i++)
            text_addf(&b, "  g%u:\n    ask: G?\n    safe: [no]\n    only-when: {f149: yes}\n", i);
        text_add(&b, STR(REST));
        kit_add(&k, STR("rules.yaml"), text_done(&b));
        kit_read(&k);
        assert_int_equal(faults_errors(k.list), gates > 100);
        if (gates > 100)
            assert_non_null(
                strstr(kit_said(&k), "facts to ask before danger is ruled out. [T226]"));
        kit_end(&k);
    }
}

/* ---- the engine's own ---- */

static void test_a_book_without_a_gate_question_gets_ours(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(&k, HEAD "questions:\n" REST);
    assert_null(strstr(kit_said(&k), "danger-now"));
    const question *q = asked(b, "danger-now");
    assert_int_equal(b->our_gate, (uint32_t)(q - b->questions));
    assert_int_equal(b->named_questions, 1);
    assert_int_equal(b->question_count, 2);
    assert_true(q->ours && q->gate && q->yes_no && !q->early);
    assert_int_equal(q->about, ABOUT_TODAY);
    assert_false(q->harm.any);
    assert_null(q->only_when);
    assert_int_equal(q->role, 0);
    assert_near(q->minutes, 0.5);
    assert_text(q->answers[0].id.name, "no");
    assert_true(answer_is_safe(q, 0) && !answer_is_safe(q, 1));
    assert_text(texts_for(&q->ask, STR("en")), "Is anything dangerous going on right now?");
    assert_text(texts_for(&q->ask, STR("es-MX")), "¿Hay algo peligroso en este momento?");
    assert_text(texts_for(&q->ask, STR("fr")), "Is anything dangerous going on right now?");
    kit_end(&k);
}

static void test_ours_speaks_the_books_language_first(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(&k, HEAD "  language: es\nquestions:\n" REST);
    assert_text(asked(b, "danger-now")->ask.items[0].language, "es");
    kit_end(&k);
}

/* A gate question that may not be asked leaves room for calls in which nobody asks about danger. */
static void test_ours_stands_in_where_the_books_own_may_not_be_asked(void **state)
{
    static const char *const sometimes[] = {
        "questions:\n  cold:\n    ask: Cold?\n    about: today\n  ice:\n    ask: Ice?\n    safe: "
        "[no]\n    only-when: {cold: yes}\n",
        "kinds:\n  tank:\n    one: tank\n    ask: Which?\nsite:\n  units:\n    tank:\n      "
        "north:\n        text: the north tank\n"
        "questions:\n  fumes:\n    for-each: tank\n    ask: Fumes at {tank}?\n    safe: [no]\n",
    };
    (void)state;
    for (size_t i = 0; i < sizeof sometimes / sizeof *sometimes; i++) {
        kit k;
        kit_begin(&k);
        const book *b = kit_read_text(&k, str_printf(k.keep, HEAD "%s" REST, sometimes[i]).p);
        assert_true(asked(b, "danger-now")->ours);
        kit_end(&k);
    }
}

static void test_a_name_that_the_author_took_stays_his(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(
        &k,
        HEAD "conclusions:\n  danger-now-2:\n    text: Two\nquestions:\n  danger-now:\n    ask: "
             "Mine?\n" REST
             "rules:\n  r:\n    when: {drip: yes}\n    then:\n      set: {danger-now-2: yes}\n");
    assert_false(asked(b, "danger-now")->ours);
    assert_true(asked(b, "danger-now-3")->ours);
    kit_end(&k);
}

/* Made quantities come behind it, and keep their subject. */
static void test_ours_stands_between_named_and_made_questions(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b =
        kit_read_text(&k, HEAD "questions:\n  drip:\n    ask: Does it drip?\n  gauge:\n    ask: "
                               "Gauge?\n    reading: pressure\n    unit: psi\n"
                               "  set-point:\n    ask: Set to?\n    reading: pressure\n    unit: "
                               "psi\n    about: the site\n"
                               "symptoms:\n  high:\n    text: Too high\n    when: {gauge: above "
                               "set-point + 2 psi}\n    shown-by: {worn-seal: often}\n"
                               "causes:\n  worn-seal:\n    text: The seal is worn\n");
    assert_int_equal(b->named_questions, 3);
    assert_int_equal(b->our_gate, 3);
    assert_int_equal(b->question_count, 5);
    assert_true(b->questions[4].made);
    assert_int_equal(b->symptoms[0].when->subject, 4);
    kit_end(&k);
}

static void test_cases_may_answer_ours_and_expect_it(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(
        &k, HEAD "questions:\n" REST "cases:\n  a:\n    answers: {danger-now: yes, drip: yes}\n"
                 "    expect: {next: danger-now, never-asked: [danger-now]}\n");
    const worked_case *c = &b->cases[0];
    assert_int_equal(c->reply_count, 2);
    assert_int_equal(c->replies[1].question, b->our_gate);
    assert_int_equal(c->replies[1].answer, 1);
    assert_int_equal(c->next_question, b->our_gate);
    assert_int_equal(c->never_asked.items[0], b->our_gate);
    kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_safe_answers_are_a_mask_in_name_order),
        cmocka_unit_test(test_one_safe_answer_needs_no_list),
        cmocka_unit_test(test_of_a_reading_a_range_is_safe),
        cmocka_unit_test(test_a_range_has_two_sides),
        cmocka_unit_test(test_a_count_has_two_sides),
        cmocka_unit_test(test_early_is_a_fact),
        cmocka_unit_test(test_facts_come_before_the_gate_question_that_waits_for_them),
        cmocka_unit_test(test_many_facts_before_many_gate_questions_are_too_many),
        cmocka_unit_test(test_a_book_without_a_gate_question_gets_ours),
        cmocka_unit_test(test_ours_speaks_the_books_language_first),
        cmocka_unit_test(test_ours_stands_in_where_the_books_own_may_not_be_asked),
        cmocka_unit_test(test_a_name_that_the_author_took_stays_his),
        cmocka_unit_test(test_ours_stands_between_named_and_made_questions),
        cmocka_unit_test(test_cases_may_answer_ours_and_expect_it),
    };
    return cmocka_run_group_tests_name("gate questions", tests, NULL, NULL);
}
