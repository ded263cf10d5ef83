/* What hangs on what, and a kind of which there is one alone. */
#include "read_kit.h"

#define BOOK \
    "book:\n  title: T\n  roles: [helper]\n" \
    "kinds:\n  pump:\n    one: pump\n    ask: Which?\n    unnamed: the pump\n" \
    "  tap:\n    hangs-on: pump\n    one: tap\n    ask: Which?\n" \
    "questions:\n" \
    "  gauge:\n    for-each: pump\n    ask: What does it read?\n    reading: pressure\n    unit: " \
    "psi\n" \
    "  mark:\n    for-each: pump\n    ask: What is its mark?\n    reading: pressure\n    unit: " \
    "psi\n    about: the site\n" \
    "  hum:\n    for-each: pump\n    ask: Does {pump} hum?\n" \
    "  stream:\n    for-each: tap\n    ask: Does {tap} run?\n" \
    "symptoms:\n" \
    "  low:\n    for-each: pump\n    text: It reads low\n    when: {gauge: below mark}\n    " \
    "heard: [it is low]\n" \
    "    shown-by: {worn: usually, left-open of any tap: often}\n" \
    "  weak:\n    for-each: tap\n    text: \"{tap} is weak\"\n    when: {stream: no, hum: yes}\n " \
    "   shown-by: {worn: usually, left-open: often}\n" \
    "causes:\n" \
    "  worn:\n    for-each: pump\n    text: It is worn\n    how-often: 6\n" \
    "  left-open:\n    for-each: tap\n    text: \"{tap} is open\"\n" \
    "rules:\n" \
    "  both-hum:\n    when: {hum of every pump: yes}\n    then: {likelier: {worn of any pump: 2 " \
    "times}}\n"
#define TAPS(kitchen, lawn) "    tap:\n      kitchen: {" kitchen "}\n      lawn: {" lawn "}\n"
#define TWO \
    "site:\n  units:\n    pump:\n      cellar: {text: the pump in the cellar, mark: 40 psi}\n    " \
    "  shed: {mark: 20 psi}\n" TAPS("hangs-on: cellar", "hangs-on: shed")

static const book *read_or_fail(kit *k, const char *text)
{
    kit_begin(k);
    const book *b = kit_read_text(k, text);
    if (b == NULL) fail_msg("%s", kit_said(k));
    return b;
}

static const symptom *symptom_of(const book *b, const char *name)
{
    const uint32_t id = book_symptom(b, str_of(name));
    if (id == NO_ID) fail_msg("there is no symptom '%s'", name);
    return &b->symptoms[id];
}

static void assert_shown_by(const book *b, const char *symptom, const char *one, const char *other)
{
    const struct symptom *s = symptom_of(b, symptom);
    const uint32_t first = book_cause(b, str_of(one)), second = book_cause(b, str_of(other));
    assert_int_not_equal(first, NO_ID);
    assert_int_not_equal(second, NO_ID);
    assert_int_equal(s->shown_by_count, 2);
    for (uint32_t i = 0; i < 2; i++)
        assert_true(s->shown_by[i].cause == first || s->shown_by[i].cause == second);
}

static void test_a_bare_name_means_what_it_hangs_on(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, BOOK TWO);
    assert_shown_by(b, "weak of kitchen", "worn of cellar", "left-open of kitchen");
    assert_shown_by(b, "weak of lawn", "worn of shed", "left-open of lawn");
    assert_shown_by(b, "low of cellar", "worn of cellar", "left-open of kitchen");
    assert_shown_by(b, "low of shed", "worn of shed", "left-open of lawn");
    const cond *when = symptom_of(b, "weak of lawn")->when;
    bool asks_own = false;
    for (uint32_t i = 0; i < when->count; i++)
        asks_own |= str_is(b->questions[when->parts[i]->subject].id.name, "hum of shed");
    assert_true(asks_own);
    kit_end(&k);
}

static void test_where_there_are_several_texts_begin_with_theirs(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, BOOK TWO);
    const symptom *low = symptom_of(b, "low of cellar");
    assert_text(texts_for(&low->text, STR("en")), "The pump in the cellar: It reads low");
    assert_text(texts_for(&low->of_any, STR("en")),
                "It reads low"); /* a complaint is told before its piece */
    assert_text(texts_for(&b->questions[book_question(b, STR("gauge of shed"))].ask, STR("en")),
                "Shed: What does it read?");
    assert_text(texts_for(&b->questions[book_question(b, STR("hum of shed"))].ask, STR("en")),
                "Does shed hum?");
    assert_text(texts_for(&b->questions[book_question(b, STR("stream of lawn"))].ask, STR("en")),
                "Does lawn run?");
    assert_true(b->causes[book_cause(b, STR("worn of shed"))].how_often == 3);
    kit_end(&k);
}

/* Whoever reads the other language is told at which piece, too. */
static void test_a_language_that_does_not_name_the_piece_begins_with_it(void **state)
{
    (void)state;
    kit k;
    const book *b =
        read_or_fail(&k, BOOK TWO "fixes:\n  oil:\n    for-each: pump\n    text:\n"
                                  "      en: \"Oil {pump}\"\n      es: Ponga aceite\n"
                                  "    cures: {worn: often}\n    role: helper\n    harm: none\n"
                                  "    put-back: not needed\n");
    const uint32_t oil = book_fix(b, STR("oil of shed"));
    assert_int_not_equal(oil, NO_ID);
    assert_text(texts_for(&b->fixes[oil].text, STR("en")), "Oil shed");
    assert_text(texts_for(&b->fixes[oil].text, STR("es")), "Shed: Ponga aceite");
    kit_end(&k);
}

/* Whether the site names the one or not: nothing but what it is called differs. */
static void test_one_alone_keeps_bare_names(void **state)
{
    (void)state;
    static const char *const sites[] = {
        "site:\n  units:\n" TAPS("", "") "  answers: {mark: 40 psi}\n",
        "site:\n  units:\n    pump:\n      cellar: {text: the old pump}\n" TAPS(
            "hangs-on: cellar", "") "  answers: {mark: 40 psi}\n"};
    static const char *const hums[] = {"Does the pump hum?", "Does the old pump hum?"};
    for (int i = 0; i < 2; i++) {
        kit k;
        char text[4096];
        snprintf(text, sizeof text, "%s%s", BOOK, sites[i]);
        const book *b = read_or_fail(&k, text);
        assert_shown_by(b, "weak of lawn", "worn", "left-open of lawn");
        const symptom *low = symptom_of(b, "low");
        assert_int_equal(low->shown_by_count, 3);
        assert_int_equal(low->of.piece, NO_ID);
        assert_text(texts_for(&low->text, STR("en")), "It reads low");
        assert_text(texts_for(&b->questions[book_question(b, STR("hum"))].ask, STR("en")), hums[i]);
        assert_true(b->causes[book_cause(b, STR("worn"))].how_often == 6);
        assert_int_equal(b->site_answer_count, 1);
        kit_end(&k);
    }
}

static void test_facts_of_one_alone_stand_under_answers(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    assert_null(kit_read_text(
        &k, BOOK "site:\n  units:\n    pump:\n      cellar: {mark: 40 psi}\n" TAPS("", "")));
    assert_non_null(strstr(kit_said(&k), "Put 'mark' under 'answers' of the site."));
    kit_end(&k);
}

/* The second is dropped, and then the first seems to be alone: only that is told. */
static void test_one_that_stands_twice_is_told_alone(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    assert_null(kit_read_text(
        &k, BOOK "site:\n  units:\n    pump:\n      cellar: {mark: 40 psi}\n"
                 "      cellar: {mark: 20 psi}\n" TAPS("hangs-on: cellar", "hangs-on: shed")));
    assert_non_null(strstr(kit_said(&k), "'cellar' stands twice in the same map"));
    assert_null(strstr(kit_said(&k), "is no fact of this piece"));
    assert_null(strstr(kit_said(&k), "The site has no"));
    kit_end(&k);
}

/* A case about a tap speaks of its pump by bare names. */
static void test_a_case_about_a_tap_names_its_pump(void **state)
{
    (void)state;
    kit k;
    const book *b =
        read_or_fail(&k, BOOK TWO "cases:\n  one:\n    at: [lawn]\n    answers: {gauge: 10 psi, "
                                  "stream: no}\n    expect: {leading-cause: worn}\n");
    assert_int_equal(b->cases[0].leading_cause, book_cause(b, STR("worn of shed")));
    bool told = false;
    for (uint32_t i = 0; i < b->cases[0].reply_count; i++)
        told |= b->cases[0].replies[i].question == book_question(b, STR("gauge of shed"));
    assert_true(told);
    kit_end(&k);
}

/* Two stand in where no site is: the first tap on the first pump. */
static void test_stand_ins_hang_too(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, BOOK);
    assert_shown_by(b, "weak of tap-1", "worn of pump-1", "left-open of tap-1");
    assert_shown_by(b, "weak of tap-2", "worn of pump-2", "left-open of tap-2");
    kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_bare_name_means_what_it_hangs_on),
        cmocka_unit_test(test_where_there_are_several_texts_begin_with_theirs),
        cmocka_unit_test(test_a_language_that_does_not_name_the_piece_begins_with_it),
        cmocka_unit_test(test_one_alone_keeps_bare_names),
        cmocka_unit_test(test_facts_of_one_alone_stand_under_answers),
        cmocka_unit_test(test_one_that_stands_twice_is_told_alone),
        cmocka_unit_test(test_a_case_about_a_tap_names_its_pump),
        cmocka_unit_test(test_stand_ins_hang_too),
    };
    return cmocka_run_group_tests_name("what hangs on what", tests, NULL, NULL);
}
