/* Words of a case: what is filled into them, what a typed answer is taken for, and what is said of
 * one that can't be taken. And calls that name what is not there. */
#include <string.h>

#include "testing.h"
#include "told_case.h"

/* Invented here: a boiler. */
static const char rules[] =
    "book:\n  title: Boiler\n  roles: [anybody]\n"
    "questions:\n"
    "  noise:\n    ask: How does it sound?\n"
    "    answers: {hum: 'It hums', click: 'It clicks', knock: 'It knocks'}\n    usual: hum\n"
    "  gauge:\n    ask: What does the gauge read?\n    reading: pressure\n    unit: psi\n"
    "    plausible: 0 to 100 psi\n    usual: 20 to 30 psi\n"
    "  turns:\n    ask: How many turns?\n    count: turns\n    plausible: 0 to 90\n    usual: 3 to "
    "5\n"
    "symptoms:\n"
    "  noisy:\n    text: It is noisy\n    when: {noise: click}\n    shown-by: {worn: often}\n"
    "  low:\n    text: The gauge is low\n    when: {gauge: below 15 psi}\n    shown-by: {worn: "
    "often}\n"
    "causes:\n  worn:\n    text: The valve is worn\n"
    "fixes:\n"
    "  valve:\n    text: \"Turn to {{A}} at once, {gauge, bar}, {gauge}, {noise}\"\n    role: "
    "anybody\n    cures: {worn: often}\n    takes: 5 min\n    harm: none\n    put-back: "
    "impossible\n";

static const char *fix_text(told_case *t)
{
    tt_fix_plan plan;
    assert_int_equal(tt_fix_show(t->c, told_fix(t, "valve"), &plan), TT_OK);
    return plan.text;
}

static void what_is_known_is_filled_in(void **state)
{
    (void)state;
    told_case t = told_new(rules, NULL);
    assert_string_equal(fix_text(&t),
                        "Turn to {A} at once, not read yet, not read yet, not read yet");
    told_answer(&t, "gauge", "29");
    told_answer(&t, "noise", "unsure");
    assert_string_equal(fix_text(&t), "Turn to {A} at once, 1.999 bar, 29 psi, not read yet");
    told_answer(&t, "noise", "click");
    assert_string_equal(fix_text(&t), "Turn to {A} at once, 1.999 bar, 29 psi, It clicks");
    told_free(&t);
}

/* ---- typed ---- */

typedef struct typed_reply {
    const char *question, *words;
    bool taken;
    const char *why; /* part of what is said; "": nothing */
} typed_reply;

static void assert_typed(const typed_reply *all, size_t count)
{
    told_case t = told_new(rules, NULL);
    for (size_t i = 0; i < count; i++) {
        tt_reply reply;
        const char *why;
        const tt_status status =
            tt_reply_read(t.c, told_question(&t, all[i].question), all[i].words, &reply, &why);
        const bool said = *all[i].why == 0 ? *why == 0 : strstr(why, all[i].why) != NULL;
        if ((status == TT_OK) != all[i].taken || !said) fail_msg("%s: %s", all[i].words, why);
    }
    told_free(&t);
}

static void what_may_be_several_answers_is_asked_back(void **state)
{
    static const typed_reply all[] = {
        {"noise", "it hums or it clicks", false, "1, It hums; 2, It clicks."},
        {"noise", "hums and knocks", false, "1, It hums; 3, It knocks."},
        {"noise", "not clicks", true, ""},
        {"noise", "12", false, "from 1 to 3"}};
    (void)state;
    assert_typed(all, sizeof all / sizeof *all);
}

static void a_reading_has_a_unit_that_fits_or_none(void **state)
{
    static const typed_reply all[] = {{"gauge", "25 psi", true, ""},
                                      {"gauge", "1,7 bar", true, "1.7 bar is 24.66 psi."},
                                      {"gauge", "25 litre", false, "'litre' does not fit here"},
                                      {"gauge", "25 furlong", false, "'furlong' does not fit here"},
                                      {"gauge", "1 in 3", false, "the one number"},
                                      {"gauge", "400", false, "can't be right"},
                                      {"gauge", "4", false, "far from what is usual"}};
    (void)state;
    assert_typed(all, sizeof all / sizeof *all);
}

/* "25 psi", said of another gauge, is no 25 turns. */
static void a_count_has_no_unit_of_what_is_measured(void **state)
{
    static const typed_reply all[] = {{"turns", "4", true, ""},
                                      {"turns", "4 turns", true, ""},
                                      {"turns", "4 pieces", true, ""},
                                      {"turns", "4 times", true, ""},
                                      {"turns", "4 psi", false, "without 'psi'"},
                                      {"turns", "it is 4 psi", false, "without 'psi'"},
                                      {"turns", "4 min", false, "without 'min'"},
                                      {"turns", "4.5", false, "whole number"},
                                      {"turns", "-1", false, "can't be right"},
                                      {"turns", "a few", false, "not a number"}};
    (void)state;
    assert_typed(all, sizeof all / sizeof *all);
}

/* ---- calls ---- */

/* A number of a question, fix, symptom or cause that is not there is refused, and changes nothing.
 */
static void what_is_not_there_is_refused(void **state)
{
    (void)state;
    told_case t = told_new(rules, NULL);
    const uint32_t none = 9999, noise = told_question(&t, "noise"),
                   gauge = told_question(&t, "gauge");
    const tt_reply reply = {.kind = TT_UNSURE};
    const char *words;
    double number;
    tt_walked walked;
    tt_why_fix waits;
    told_answer(&t, "gauge", "29");
    const uint32_t facts = told_look(&t)->fact_count;
    assert_int_equal(tt_reading_number(t.c, none, 3, "psi", &number), TT_FAULTY);
    assert_int_equal(tt_reading_number(t.c, noise, 3, NULL, &number), TT_FAULTY);
    assert_int_equal(tt_reading_number(t.c, gauge, 3, "litre", &number), TT_FAULTY);
    assert_int_equal(tt_reading_number(t.c, gauge, 3, "no-unit", &number), TT_FAULTY);
    assert_int_equal(tt_reading_number(t.c, gauge, 3, "", &number), TT_OK);
    assert_true(number == 3);
    assert_int_equal(tt_reading_number(t.c, gauge, 3, NULL, &number), TT_OK);
    assert_true(number == 3);
    assert_int_equal(tt_reading_text(t.c, none, 3, &words), TT_FAULTY);
    assert_int_equal(tt_reading_text(t.c, noise, 3, &words), TT_FAULTY);
    assert_int_equal(tt_good_look(t.c, none, &walked), TT_FAULTY);
    assert_int_equal(tt_answer(t.c, none, &reply), TT_FAULTY);
    assert_int_equal(tt_answer_again(t.c, none, &reply, TT_LOOK_AGAIN), TT_FAULTY);
    assert_int_equal(tt_reply_fits(t.c, none, &reply), TT_FAULTY);
    assert_int_equal(tt_retract(t.c, none), TT_FAULTY);
    assert_int_equal(tt_stale(t.c, none), TT_FAULTY);
    assert_int_equal(tt_trend_told(t.c, none, TT_RISING), TT_FAULTY);
    assert_int_equal(tt_left_so(t.c, none), TT_FAULTY);
    assert_int_equal(tt_came_back(t.c, none), TT_FAULTY);
    assert_int_equal(tt_why_fix_waits(t.c, none, &waits), TT_NOT_NOW);
    assert_int_equal(tt_symptom_at(t.book, none, 0), TT_NONE);
    assert_int_equal(tt_symptom_at(t.book, 0, none), TT_NONE);
    assert_int_equal(told_look(&t)->fact_count, facts);
    told_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_known_is_filled_in),
        cmocka_unit_test(what_may_be_several_answers_is_asked_back),
        cmocka_unit_test(a_reading_has_a_unit_that_fits_or_none),
        cmocka_unit_test(a_count_has_no_unit_of_what_is_measured),
        cmocka_unit_test(what_is_not_there_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
