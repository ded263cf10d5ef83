/* A book that uses the whole language, and the one on the language page: every value where it
 * belongs. */
#include "read_kit.h"

#include <math.h>

static kit shared;

static int set_up(void **state)
{
    (void)state;
    kit_begin(&shared);
    if (!kit_add_file(&shared, STR("full.yaml"))) return -1;
    if (kit_read(&shared) == NULL || faults_warnings(shared.list) > 0)
        print_error("%s\n", kit_said(&shared));
    return shared.book == NULL;
}

static int tear_down(void **state)
{
    (void)state;
    kit_end(&shared);
    return 0;
}

static const question *question_named(const char *name)
{
    uint32_t id = book_question(shared.book, str_of(name));
    assert_int_not_equal(id, NO_ID);
    return &shared.book->questions[id];
}

static const symptom *symptom_named(const char *name)
{
    uint32_t id = book_symptom(shared.book, str_of(name));
    assert_int_not_equal(id, NO_ID);
    return &shared.book->symptoms[id];
}

static const rule *rule_named(const char *name)
{
    for (uint32_t i = 0; i < shared.book->rule_count; i++)
        if (str_is(shared.book->rules[i].id.name, name)) return &shared.book->rules[i];
    fail_msg("no rule %s", name);
    return NULL;
}

static str words(texts t)
{
    return t.count == 0 ? STR("") : t.items[0].text;
}

static void test_a_book_of_every_kind_has_no_fault(void **state)
{
    (void)state;
    assert_int_equal(faults_errors(shared.list), 0);
    assert_int_equal(faults_warnings(shared.list), 0);
}

static void test_manifest(void **state)
{
    (void)state;
    const book *b = shared.book;
    assert_text(b->edition, "2026-03");
    assert_text(b->language, "de");
    assert_int_equal(b->title.count, 2);
    assert_text(b->title.items[0].language, "de");
    assert_text(texts_for(&b->title, STR("en-GB")), "Small pump");
    assert_text(texts_for(&b->title, STR("fr")), "Kleine Pumpe");
    assert_int_equal(b->role_count, 3);
    assert_int_equal(book_role(b, STR("technician")), 1);
    assert_near(b->not_listed, 0.02);
    assert_near(b->two_faults, 0.04);
    assert_near(b->call_minutes, 90);
    assert_int_equal(b->cautions.count, 1);
    assert_text(texts_for(&b->cautions.items[0], STR("en")),
                "Water and current: keep {{dry}} hands.");
    static const double worth[] = {0.05, 0.05, 0.25, 0.40}, price[] = {0, 15, 30, 120};
    for (int i = 0; i < 4; i++) {
        assert_near(b->worth_trying[i], worth[i]);
        assert_near(b->price[i], price[i]);
    }
}

static void test_choice_question(void **state)
{
    (void)state;
    const question *q = question_named("drip");
    assert_int_equal(q->kind, QUESTION_CHOICE);
    assert_false(q->yes_no);
    assert_int_equal(q->answer_count, 3);
    assert_text(q->answers[0].id.name, "dry");
    assert_text(q->answers[1].id.name, "little");
    assert_text(q->answers[2].id.name, "much");
    assert_int_equal(q->shown_order[0], 2);
    assert_int_equal(q->shown_order[1], 1);
    assert_int_equal(q->shown_order[2], 0);
    assert_text(q->answers[2].heard.items[0].plain, "pouring");
    assert_non_null(q->answers[2].heard.items[1].pattern);
    assert_true(q->has_usual);
    assert_int_equal(q->usual_answer, 0);
    assert_near(q->minutes, 3);
    assert_int_equal(q->role, 1);
    assert_near(q->read_right, 0.9);
    assert_text(words(q->look), "Look beneath the pump.");
    assert_text(words(q->say), "Would you look beneath the pump?");
    assert_int_equal(q->about, ABOUT_FAULT);
    assert_false(q->harm.any);
}

static void test_yes_no_question(void **state)
{
    (void)state;
    const question *q = question_named("running");
    assert_true(q->yes_no);
    assert_true(q->gate);
    assert_int_equal(q->safe_answers, 1 << 1); /* no, yes */
    assert_int_equal(q->answer_count, 2);
    assert_text(q->answers[0].id.name, "no");
    assert_text(q->answers[q->shown_order[0]].id.name, "yes");
    assert_text(texts_for(&q->answers[1].text, STR("en")), "Yes");
    assert_text(texts_for(&q->answers[1].text, STR("es-MX")), "S\xC3\xAD");
    assert_int_equal(q->usual_answer, 1);
    assert_near(q->minutes, 1);
    assert_int_equal(q->role, 0);
    assert_near(q->read_right, 0.95);
}

static void test_reading_and_count(void **state)
{
    (void)state;
    const question *q = question_named("gauge");
    assert_int_equal(q->kind, QUESTION_READING);
    assert_text(q->measures, "pressure");
    assert_text(q->in.text, "psi");
    assert_true(q->has_plausible);
    assert_near(q->plausible_high, 100);
    assert_near(q->usual_low, 30);
    assert_near(q->usual_high, 60);
    assert_near(q->read_right, 0.98);
    const cond *c = q->only_when;
    assert_int_equal(c->kind, COND_ALL);
    assert_int_equal(c->count, 2);
    assert_int_equal(c->parts[0]->kind, COND_ANSWER); /* drip before running */
    assert_int_equal(c->parts[0]->answers, 3);        /* dry, little */
    assert_int_equal(c->parts[1]->answers, 2);        /* yes */
    q = question_named("drops");
    assert_int_equal(q->kind, QUESTION_COUNT);
    assert_int_equal(q->in.text.n, 0);
    assert_near(q->usual_low, 0);
    assert_near(q->usual_high, 0);
}

static void test_facts(void **state)
{
    (void)state;
    const question *q = question_named("season");
    assert_int_equal(q->about, ABOUT_TODAY);
    assert_near(q->read_right, 1);
    for (uint32_t i = 0; i < q->answer_count; i++)
        assert_near(q->answers[i].share, str_is(q->answers[i].id.name, "summer") ? 0.4 : 0.2);
    assert_int_equal(question_named("second-pump")->about, ABOUT_SITE);
    assert_near(question_named("second-pump")->answers[0].share, 0.5);
}

static void test_harm_of_a_question(void **state)
{
    (void)state;
    const question *q = question_named("seal");
    assert_true(q->harm.any);
    assert_true(q->harm.hazards[HAZARD_ELECTRICITY] && q->harm.hazards[HAZARD_MOVING_PARTS]);
    assert_false(q->harm.hazards[HAZARD_PRESSURE]);
    assert_int_equal(q->harm.unprotected_worst, HARM_CRITICAL);
    assert_int_equal(q->harm.protected_chance, CHANCE_IMPROBABLE);
    assert_int_equal(q->harm.isolate.count, 1);
    assert_int_equal(q->undo.kind, PUT_BACK_TEXT);
    assert_text(words(q->undo.text), "Close the pump.");
}

static void test_symptom_on_one_answer(void **state)
{
    (void)state;
    const symptom *s = symptom_named("drips");
    assert_true(s->rests_on_one);
    assert_int_equal(s->one_question, book_question(shared.book, STR("drip")));
    assert_int_equal(s->one_answer, 2);
    assert_int_equal(s->text.count, 0);
    assert_int_equal(s->heard.count, 2);
    assert_int_equal(s->shown_by_count, 2);
    assert_int_equal(s->shown_by[0].cause, book_cause(shared.book, STR("loose-nut")));
    assert_near(s->shown_by[0].chance, 0.7);
    assert_near(s->shown_by[1].chance, 0.95);
    assert_near(s->otherwise, 0.01);
    assert_false(symptom_named("weak")->rests_on_one);
    assert_near(symptom_named("weak")->otherwise, 0.05);
    assert_near(symptom_named("silent")->otherwise, 0.005);
    assert_near(symptom_named("weak")->shown_by[1].chance,
                0.65); /* `often` as the manifest has it */
}

static void test_symptom_made_by_confirms(void **state)
{
    (void)state;
    const symptom *s = symptom_named("seal-torn-confirmed");
    assert_true(s->from_confirms && s->rests_on_one);
    assert_int_equal(s->when->answers, 1);
    assert_int_equal(s->shown_by_count, 1);
    assert_int_equal(s->shown_by[0].cause, book_cause(shared.book, STR("worn-seal")));
    assert_near(s->shown_by[0].chance, 0.99);
    assert_near(s->otherwise, 1e-5);
    assert_near(shared.book->questions[s->one_question].wrongly_confirmed, 0.002);
}

static void test_conditions(void **state)
{
    (void)state;
    const cond *c = symptom_named("weak")->when;
    assert_int_equal(c->parts[0]->kind, COND_RANGE);
    assert_true(isinf(c->parts[0]->low) && c->parts[0]->low < 0);
    assert_near(c->parts[0]->high, 20);
    assert_false(c->parts[0]->high_in);

    c = symptom_named("unsteady")->when;
    assert_int_equal(c->kind, COND_ANY);
    assert_int_equal(c->count, 3);
    const cond *first = c->parts[0]; /* drops, weak */
    assert_int_equal(first->kind, COND_ALL);
    assert_true(first->parts[0]->low_in);
    assert_near(first->parts[0]->low, 20);
    assert_int_equal(first->parts[1]->kind, COND_SYMPTOM);
    assert_int_equal(c->parts[1]->parts[0]->answers, 6); /* little, much */
    const cond *between = c->parts[1]->parts[1];
    assert_true(between->low_in && between->high_in);
    assert_near(between->low, 60);
    assert_near(between->high, 70);
    assert_near(c->parts[2]->low, 5);
    assert_near(c->parts[2]->high, 5);

    c = symptom_named("silent")->when; /* cold, running, weak */
    assert_int_equal(c->parts[0]->kind, COND_CONCLUSION);
    assert_int_equal(c->parts[0]->answers, 1);
    assert_int_equal(c->parts[2]->kind, COND_NOT);
    assert_int_equal(c->parts[2]->parts[0]->kind, COND_SYMPTOM);
}

static void test_conditions_of_rules(void **state)
{
    (void)state;
    const cond *c = rule_named("watched")->when;
    assert_int_equal(c->kind, COND_AT_LEAST);
    assert_int_equal(c->number, 2);
    assert_int_equal(c->count, 3);
    assert_int_equal(c->parts[0]->kind, COND_KNOWN);
    assert_int_equal(c->parts[1]->kind, COND_NOT);
    assert_int_equal(c->parts[1]->parts[0]->kind, COND_KNOWN);
    assert_false(c->parts[2]->low_in);
    assert_int_equal(rule_named("mild")->when->kind, COND_NONE);
}

static void test_causes(void **state)
{
    (void)state;
    const book *b = shared.book;
    const cause *c = &b->causes[book_cause(b, STR("worn-seal"))];
    assert_near(c->how_often, 5);
    assert_text(words(c->part), "The pump");
    assert_text(words(c->means), "Water gets past the shaft.");
    assert_int_equal(c->spare_parts.count, 1);
    assert_int_equal(c->confirmed_by, 1);
    assert_int_equal(c->brought_on_by.count, 1);
    assert_int_equal(c->brought_on_by.items[0], book_cause(b, STR("loose-nut")));
    c = &b->causes[book_cause(b, STR("loose-nut"))];
    assert_text(words(c->text),
                "A nut is loose, or off"); /* a sentence in quotes may stand inside { } */
    assert_near(c->how_often, 0.25);
    assert_int_equal(c->never_with.items[0], book_cause(b, STR("no-power")));
    assert_int_equal(b->causes[book_cause(b, STR("no-power"))].confirmed_by, NO_ID);
}

/* One procedure after the other; the last one is given back first. Lines of its own come last. */
static void test_procedures_of_a_fix(void **state)
{
    (void)state;
    const book *b = shared.book;
    const safety *s = &b->fixes[book_fix(b, STR("new-seal"))].harm;
    assert_int_equal(s->procedure_count, 2);
    assert_text(b->procedures[s->procedures[0]].id.name, "lock-the-breaker");
    assert_text(words(s->tell.items[1]), "Tell the kitchen.");
    assert_text(words(s->isolate.items[0]), "Lock the breaker.");
    assert_text(words(s->isolate.items[1]), "Shut the valve.");
    assert_text(words(s->isolate.items[2]), "Tie the lever back.");
    assert_text(words(s->release.items[0]), "Wait until it stands still.");
    assert_text(words(s->prove.items[1]), "Look at the gauge.");
    assert_text(words(s->restore.items[0]), "Open the valve.");
    assert_text(words(s->restore.items[1]), "Take off your own lock.");
    assert_text(words(s->protect.items[2]), "Helmet");
    assert_true(s->by_hand);
    assert_true(safety_isolates(s));
}

static void test_fixes(void **state)
{
    (void)state;
    const book *b = shared.book;
    const fix *f = &b->fixes[book_fix(b, STR("new-seal"))];
    assert_int_equal(f->steps.count, 2);
    assert_text(words(f->steps.items[0]), "Read {gauge} first.");
    assert_near(f->cures[0].chance, 0.85);
    assert_near(f->minutes, 25);
    assert_int_equal(f->role, 1);
    assert_int_equal(f->harm.protect.count, 3); /* its own two, and the helmet of the procedure */
    assert_int_equal(f->harm.isolate.count, 3);
    assert_int_equal(f->harm.unprotected_worst, HARM_CATASTROPHIC);
    assert_int_equal(f->undo.kind, PUT_BACK_IMPOSSIBLE);
    assert_int_equal(f->only_when->kind, COND_KNOWN);
    assert_int_equal(f->look_again.count, 2);
    assert_int_equal(f->look_again.items[0], book_question(b, STR("drip")));
    assert_int_equal(f->parts.count, 1);
    assert_near(f->cost.amount, 40);
    assert_text(f->cost.currency, "USD");
    f = &b->fixes[book_fix(b, STR("power"))];
    assert_near(f->minutes, 2);
    assert_int_equal(f->undo.kind, PUT_BACK_NOT_NEEDED);
    assert_false(f->harm.any);
    assert_string_equal(hazard_name(HAZARD_HOT_WATER), "hot-water");
}

static void test_adjusting_fixes(void **state)
{
    (void)state;
    const book *b = shared.book;
    const fix *f = &b->fixes[book_fix(b, STR("lower"))];
    assert_int_equal(f->adjust.reading, book_question(b, STR("gauge")));
    assert_true(f->adjust.step == -2.5 && f->adjust.low == 20 && f->adjust.high == 60);
    assert_int_equal(f->adjust.at_most, 2);
    assert_int_equal(b->fixes[book_fix(b, STR("power"))].adjust.reading, NO_ID);
}

static void test_rules(void **state)
{
    (void)state;
    const rule *frost = rule_named("frost");
    assert_int_equal(frost->set_count, 1);
    assert_int_equal(frost->sets[0].answer, 0); /* hard */
    assert_int_equal(frost->factor_count, 2);
    assert_near(frost->factors[0].factor, 0.25);
    assert_near(frost->factors[1].factor, 3);
    assert_true(frost->has_caution);
    assert_int_equal(frost->signal, SIGNAL_CAUTION);
    assert_int_equal(frost->call, NO_ID);
    const rule *danger = rule_named("danger");
    assert_near(danger->factors[0].factor, 0);
    assert_int_equal(danger->signal, SIGNAL_DANGER);
    assert_text(words(danger->caution), "Water near current.");
    assert_true(danger->stops);
    assert_int_equal(danger->call, 2);
    const rule *watched = rule_named("watched");
    assert_int_equal(watched->skip_questions.count, 1);
    assert_int_equal(watched->skip_fixes.count, 1);
    assert_false(watched->stops || watched->has_caution);
}

static const reply *reply_to(const worked_case *c, const char *name)
{
    for (uint32_t i = 0; i < c->reply_count; i++)
        if (c->replies[i].question == book_question(shared.book, str_of(name)))
            return &c->replies[i];
    fail_msg("no reply to %s", name);
    return NULL;
}

static void test_worked_cases(void **state)
{
    (void)state;
    const book *b = shared.book;
    const worked_case *c = &b->cases[0];
    assert_text(c->id.name, "torn");
    assert_int_equal(c->role, 1);
    assert_int_equal(c->complaint, book_symptom(b, STR("drips")));
    assert_int_equal(c->reply_count, 6);
    for (uint32_t i = 1; i < c->reply_count; i++)
        assert_true(c->replies[i - 1].question < c->replies[i].question);
    const reply *drip = reply_to(c, "drip");
    assert_int_equal(drip->kind, REPLY_LIKELY);
    assert_near(drip->weights[0], 0);
    assert_near(drip->weights[1], 0.3);
    assert_near(drip->weights[2], 0.7);
    assert_near(reply_to(c, "gauge")->number, 12.5);
    assert_int_equal(reply_to(c, "seal")->kind, REPLY_ANSWER);
    assert_int_equal(reply_to(c, "running")->kind, REPLY_UNSURE);
    assert_int_equal(reply_to(c, "season")->excluded, 9); /* autumn, winter */
    assert_int_equal(reply_to(c, "second-pump")->excluded, 2);
    assert_int_equal(c->leading_cause, book_cause(b, STR("worn-seal")));
    assert_int_equal(c->among.count, 1);
    assert_int_equal(c->among.items[0], CAUSE_NOT_LISTED);
    assert_int_equal(c->among_count, 2);
    assert_int_equal(c->first_fix, book_fix(b, STR("new-seal")));
    assert_int_equal(c->next_question, book_question(b, STR("drops")));
    assert_int_equal(c->never_asked.count, 2);
    assert_int_equal(c->caution_rule, NO_ID);
    assert_true(str_is(b->rules[b->cases[1].stop_rule].id.name, "danger"));
}

/* ---- the language page's own example ---- */

static str mini_of_the_page(kit *k)
{
    str page = kit_file(k, TT_SOURCE_DIR "/docs/language.md");
    str mark = STR("```yaml example=mini/book.yaml\n");
    size_t from = str_find(page, mark);
    assert_int_not_equal(from, SIZE_MAX);
    page = str_slice(page, from + mark.n, page.n);
    return str_slice(page, 0, str_find(page, STR("\n```\n")) + 1);
}

static void test_the_example_of_the_language_page(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    kit_add(&k, STR("book.yaml"), mini_of_the_page(&k));
    const book *b = kit_read(&k);
    if (b == NULL || faults_warnings(k.list) > 0) print_error("%s\n", kit_said(&k));
    assert_non_null(b);
    assert_int_equal(faults_warnings(k.list), 0);
    assert_int_equal(b->named_questions, 2);
    assert_int_equal(b->symptom_count, 2);
    const symptom *s = &b->symptoms[book_symptom(b, STR("short-cycling"))];
    assert_true(s->rests_on_one);
    assert_near(s->shown_by[0].chance, 0.15);
    assert_near(s->shown_by[1].chance, 0.95);
    const fix *f = &b->fixes[book_fix(b, STR("recharge-tank"))];
    assert_text(words(f->harm.protect.items[0]), "Safety glasses");
    assert_int_equal(b->cases[0].first_fix, book_fix(b, STR("recharge-tank")));
    kit_end(&k);
}

/* ---- answers files ---- */

static void test_answers_file(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    source given = {
        STR("answers.yaml"),
        STR("running: yes\ngauge: -0.5e1 psi\n\"drip\": {\"not\": [\"dry\"]}\ndrops: 7\n")};
    sources only = {&given, 1};
    const node **root = load_sources(k.keep, k.scratch, &only, k.list);
    told_file told = {.count = 9};
    const reply *r = replies_read(k.keep, k.scratch, shared.book, root[0], k.list, &told);
    assert_int_equal(faults_errors(k.list), 1); /* -0.5e1 is no plain number */
    assert_int_equal(told.count, 3);
    assert_int_equal(r[0].kind, REPLY_NOT);
    assert_near(r[1].number, 7);
    assert_int_equal(r[2].answer, 1);
    replies_read(k.keep, k.scratch, shared.book, NULL, k.list, &told);
    assert_int_equal(told.count, 0);
    kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_book_of_every_kind_has_no_fault),
        cmocka_unit_test(test_manifest),
        cmocka_unit_test(test_choice_question),
        cmocka_unit_test(test_yes_no_question),
        cmocka_unit_test(test_reading_and_count),
        cmocka_unit_test(test_facts),
        cmocka_unit_test(test_harm_of_a_question),
        cmocka_unit_test(test_symptom_on_one_answer),
        cmocka_unit_test(test_symptom_made_by_confirms),
        cmocka_unit_test(test_conditions),
        cmocka_unit_test(test_conditions_of_rules),
        cmocka_unit_test(test_causes),
        cmocka_unit_test(test_procedures_of_a_fix),
        cmocka_unit_test(test_fixes),
        cmocka_unit_test(test_adjusting_fixes),
        cmocka_unit_test(test_rules),
        cmocka_unit_test(test_worked_cases),
        cmocka_unit_test(test_the_example_of_the_language_page),
        cmocka_unit_test(test_answers_file),
    };
    return cmocka_run_group_tests_name("reading a book", tests, set_up, tear_down);
}
