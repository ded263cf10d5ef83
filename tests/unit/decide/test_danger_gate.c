/* The danger gate: what opens it, what shuts it and for whom, and what ends that. */
#include <stdio.h>

#include "testing.h"

#include "decide/decide.h"
#include "small_book.h"
#include "told_case.h"

static const char pump[] =
    "book:\n"
    "  title: Pump\n"
    "  roles: [helper, mender]\n"
    "  stop-text: Stand back.\n"
    "  not-listed: 1 %\n"
    "questions:\n"
    "  danger:\n"
    "    ask: Is anything dangerous?\n"
    "    about: today\n"
    "    answers: {safe: No, smoke: Smoke, leak: Leak, strange: Strange}\n"
    "    safe: [safe]\n"
    "  gas:\n"
    "    ask: What does the gas meter read?\n"
    "    about: today\n"
    "    reading: ratio\n"
    "    unit: \"%\"\n"
    "    plausible: 0 % to 100 %\n"
    "    safe: below 10 %\n"
    "    only-when: {has-gas: yes}\n"
    "  has-gas: {ask: Gas, about: the site}\n"
    "  sound: {ask: Humming, usual: no}\n"
    "  lamp: {ask: Lamp, usual: no}\n"
    "symptoms:\n"
    "  hums: {text: Hums, when: {sound: yes}, heard: [hums], shown-by: {worn: almost always, "
    "stuck: rarely}}\n"
    "causes:\n"
    "  worn: {text: Worn, how-often: common}\n"
    "  stuck: {text: Stuck, how-often: rare}\n"
    "fixes:\n"
    "  turn: {text: Turn, role: helper, cures: {worn: usually}, takes: 3 min, harm: none, "
    "put-back: Back}\n"
    "rules:\n"
    "  fire:\n"
    "    when: {danger: smoke}\n"
    "    then: {stop: Leave, call: mender}\n"
    "  red:\n"
    "    when: {lamp: yes}\n"
    "    then: {stop: Halt}\n";

static told_case begin(void)
{
    return told_new(pump, NULL);
}

/* All that the gate asks here, and the sign of the fault. */
static void rule_out(told_case *t)
{
    told_answer(t, "danger", "safe");
    told_answer(t, "has-gas", "no");
    told_answer(t, "sound", "yes");
}

static void it_comes_first_and_holds_every_fix(void **state)
{
    (void)state;
    told_case t = begin();
    told_answer(&t, "sound", "yes");
    told_asks(&t, "danger", TT_BY_GATE);
    told_gate(&t, TT_GATE_ASK, "danger");
    assert_true(told_look(&t)->next.first);
    told_answer(&t, "danger", "safe");
    told_asks(&t, "has-gas", TT_BY_GATE);
    told_gate(&t, TT_GATE_ASK, "has-gas");
    told_answer(&t, "has-gas", "no");
    told_gate(&t, TT_GATE_OPEN, NULL);
    told_offers(&t, TT_FIX, "turn");
    assert_int_equal(told_look(&t)->policy, TT_BY_BALANCED);
    told_free(&t);
}

/* Whoever doesn't want to know what comes next sees the same gate, and the same fixes held. */
static void seen_alone_it_is_the_same(void **state)
{
    (void)state;
    static const char *const said[][2] = {
        {"sound", "yes"}, {"danger", "safe"}, {"has-gas", "no"}, {"danger", "smoke"}};
    told_case t = begin();
    for (uint32_t i = 0; i < sizeof said / sizeof *said; i++) {
        const tt_view *v;
        told_answer(&t, said[i][0], said[i][1]);
        assert_int_equal(look_at_gate(t.c, &v), TT_OK);
        const tt_gate alone = v->gate;
        const tt_standing standing = v->fixes[0].standing;
        const bool held = v->fixes[0].held;
        v = told_look(&t);
        assert_int_equal(alone.state, v->gate.state);
        assert_int_equal(alone.question, v->gate.question);
        assert_int_equal(standing, v->fixes[0].standing);
        assert_int_equal(held, v->fixes[0].held);
        assert_int_equal(look_at_gate(t.c, &v), TT_OK); /* what was decided stays */
        assert_int_equal(v->gate.state, alone.state);
    }
    told_free(&t);
}

static void what_decides_whether_it_applies_comes_before_it(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    told_answer(&t, "has-gas", "yes");
    told_gate(&t, TT_GATE_ASK, "gas");
    told_answer(&t, "gas", "9");
    told_gate(&t, TT_GATE_OPEN, NULL);
    told_answer(&t, "gas", "10");
    told_gate(&t, TT_GATE_SHUT, "gas");
    told_answer(&t, "gas", "0");
    told_gate(&t, TT_GATE_OPEN, NULL);
    told_free(&t);
    t = begin(); /* whether it applies can't be known: then it does */
    rule_out(&t);
    told_answer(&t, "has-gas", "unsure");
    told_gate(&t, TT_GATE_ASK, "gas");
    told_free(&t);
}

static void nothing_but_exactly_safe_counts(void **state)
{
    (void)state;
    told_case t = begin();
    const uint32_t danger = told_question(&t, "danger");
    static const double sure[] = {1, 0, 0, 0};
    tt_question shown;
    assert_int_equal(tt_question_show(t.c, danger, &shown), TT_OK);
    assert_true(shown.gate);
    assert_int_equal(shown.safe_options, 1);
    const tt_reply unsafe[] = {
        {.kind = TT_UNSURE},
        {.kind = TT_CANNOT},
        {.kind = TT_ANSWER, .option = 3},
        {.kind = TT_NOT, .not_options = 14}, /* all but the safe one */
        {.kind = TT_LIKELY, .weights = sure},
    };
    for (size_t i = 0; i < sizeof unsafe / sizeof *unsafe; i++) {
        rule_out(&t);
        told_gate(&t, TT_GATE_OPEN, NULL);
        assert_int_equal(tt_answer(t.c, danger, &unsafe[i]), TT_OK);
        told_gate(&t, TT_GATE_SHUT, "danger");
        told_comes(&t, TT_STOP, TT_BY_GATE);
        assert_string_equal(told_look(&t)->stop_text, "Stand back.");
        assert_string_equal(told_look(&t)->call_role, "mender");
        assert_int_equal(told_look(&t)->next.question, TT_NONE);
        assert_int_equal(tt_dangers(t.c), i + 1);
    }
    told_free(&t);
}

static void a_rule_that_stops_says_its_own(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    told_answer(&t, "danger", "smoke");
    told_gate(&t, TT_GATE_SHUT, "danger");
    assert_string_equal(told_look(&t)->gate.stop_text, "Leave");
    assert_string_equal(told_look(&t)->gate.call_role, "mender");
    told_answer(&t, "danger", "safe");
    told_answer(&t, "lamp", "yes"); /* no gate question: its other answer ends it */
    told_gate(&t, TT_GATE_SHUT, NULL);
    assert_string_equal(told_look(&t)->stop_text, "Halt");
    told_answer(&t, "lamp", "no");
    told_gate(&t, TT_GATE_OPEN, NULL);
    told_free(&t);
}

/* ---- who opens it ---- */

static void every_sitting_asks_anew(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    assert_int_equal(tt_sitting(t.c), TT_OK);
    told_gate(&t, TT_GATE_ASK, "danger");
    assert_int_equal(tt_undo(t.c), TT_NOT_NOW);
    told_answer(&t, "danger", "safe");
    told_gate(&t, TT_GATE_OPEN, NULL); /* facts stay known */
    assert_int_equal(tt_undo(t.c), TT_OK);
    told_gate(&t, TT_GATE_ASK, "danger");
    assert_int_equal(tt_undo(t.c), TT_NOT_NOW);
    told_answer(&t, "danger", "safe");
    assert_int_equal(tt_recheck(t.c), TT_OK);
    told_gate(&t, TT_GATE_ASK, "danger");
    told_answer(&t, "danger", "safe");
    assert_int_equal(tt_retract(t.c, told_question(&t, "danger")), TT_OK);
    told_gate(&t, TT_GATE_ASK, "danger");
    told_free(&t);
}

static void each_speaker_answers_their_own(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    tt_speaker(t.c, 1);
    told_gate(&t, TT_GATE_ASK, "danger");
    assert_int_equal(tt_undo(t.c), TT_NOT_NOW); /* the last step was another's */
    told_answer(&t, "danger", "safe");
    told_gate(&t, TT_GATE_OPEN, NULL);
    tt_speaker(t.c, 0);
    told_gate(&t, TT_GATE_OPEN, NULL);
    assert_int_equal(tt_sitting(t.c), TT_OK);
    tt_speaker(t.c, 1);
    told_gate(&t, TT_GATE_OPEN, NULL);
    told_free(&t);
}

static const char at_a_site[] =
    "book: {title: Pump, roles: [helper]}\n"
    "questions:\n"
    "  danger: {ask: Danger, about: today, safe: [no]}\n"
    "  calm: {ask: Calm, safe: [yes]}\n"
    "symptoms:\n"
    "  all-calm: {text: Calm, when: {calm: yes}, heard: [calm], shown-by: {worn: often}}\n"
    "  not-calm: {text: Shaking, when: {calm: no}, heard: [shakes], shown-by: {worn: rarely}}\n"
    "causes:\n"
    "  worn: {text: Worn}\n"
    "fixes:\n"
    "  turn: {text: Turn, role: helper, cures: {worn: usually}, takes: 3 min, harm: none, "
    "put-back: not needed}\n";

static const char *fact(told_case *t, const char *name)
{
    const tt_view *v = told_look(t);
    for (uint32_t i = 0; i < v->fact_count; i++)
        if (strcmp(v->facts[i].name, name) == 0) return v->facts[i].value;
    return "not known";
}

static void a_complaint_opens_nothing_but_may_shut_it(void **state)
{
    (void)state;
    told_case t = told_new(at_a_site, NULL);
    told_answer(&t, "danger", "no");
    assert_int_equal(tt_complain(t.c, tt_symptom_find(t.book, "all-calm")), TT_OK);
    told_gate(&t, TT_GATE_ASK, "calm");
    assert_int_equal(tt_complain(t.c, tt_symptom_find(t.book, "not-calm")), TT_OK);
    told_gate(&t, TT_GATE_SHUT, "calm");
    assert_int_equal(tt_complain(t.c, tt_symptom_find(t.book, "all-calm")), TT_OK);
    told_gate(&t, TT_GATE_SHUT, "calm");
    assert_string_equal(fact(&t, "calm"), "no");
    told_answer(&t, "calm", "yes");
    told_gate(&t, TT_GATE_OPEN, NULL);
    told_free(&t);
}

static void a_file_of_answers_is_somebodys_word(void **state)
{
    (void)state;
    told_case t = begin();
    static const char answers[] = "danger: safe\nhas-gas: no\nsound: yes\n";
    tt_report *report;
    const tt_source file = {"a.yaml", answers, sizeof answers - 1};
    assert_int_equal(tt_answers_load(t.c, &file, &report), TT_OK);
    tt_report_free(report);
    told_gate(&t, TT_GATE_OPEN, NULL);
    told_free(&t);
}

static void load(told_case *t, const char *answers, uint32_t first_unseen)
{
    tt_report *report;
    const tt_source file = {"a.yaml", answers, strlen(answers)};
    assert_int_equal(tt_answers_load_unaware(t->c, &file, first_unseen, &report), TT_OK);
    tt_report_free(report);
}

/* A file ends only the dangers that whoever wrote it knew of. */
static void a_file_from_before_a_danger_ends_it_not(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    assert_int_equal(tt_danger_said(t.c), TT_OK);
    load(&t, "danger: safe\n", 0);
    told_gate(&t, TT_GATE_SHUT, "danger");
    load(&t, "danger: safe\n", 1);
    told_gate(&t, TT_GATE_OPEN, NULL);
    told_free(&t);
}

/* Of four worked cases one says nothing of danger, one what it is, and one that it is asked about.
 */
static void a_worked_case_that_says_nothing_of_danger_is_about_none(void **state)
{
    (void)state;
    static const char cases[] =
        "cases:\n"
        "  plain:\n"
        "    answers: {sound: yes, has-gas: yes}\n"
        "    expect: {first-fix: turn}\n"
        "  burning:\n"
        "    answers: {sound: yes, danger: smoke}\n"
        "    expect: {stop: fire}\n"
        "  unsaid:\n"
        "    answers: {sound: yes}\n"
        "    expect: {next: danger}\n"
        "  wrong: # danger is known as none here, so it is not what comes next\n"
        "    answers: {sound: yes, danger: safe}\n"
        "    expect: {next: danger}\n";
    char text[sizeof pump + sizeof cases];
    snprintf(text, sizeof text, "%s%s", pump, cases);
    tt_book *with_cases = small_book(text);
    tt_trials trials;
    assert_int_equal(tt_try(with_cases, &trials), TT_OK);
    assert_int_equal(trials.count, 4);
    for (uint32_t i = 0; i < trials.count; i++)
        assert_int_equal(trials.items[i].passed, strcmp(trials.items[i].name, "wrong") != 0);
    tt_book_free(with_cases);
}

/* ---- what ends a danger ---- */

static void a_danger_is_for_all_and_ends_by_who_knew_of_it(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    tt_speaker(t.c, 1);
    told_answer(&t, "danger", "smoke");
    told_gate(&t, TT_GATE_SHUT, "danger");
    tt_speaker(t.c, 0);
    told_gate(&t, TT_GATE_SHUT, "danger");
    const uint32_t danger = told_question(&t, "danger");
    const tt_reply safe = told_reply(&t, "danger", "safe");
    assert_int_equal(tt_answer_unaware(t.c, danger, &safe, 0), TT_OK);
    told_gate(&t, TT_GATE_SHUT, "danger");                  /* it knew of nothing */
    assert_string_equal(told_look(&t)->stop_text, "Leave"); /* and the fact is still smoke */
    assert_int_equal(tt_answer_unaware(t.c, danger, &safe, 1), TT_OK);
    told_gate(&t, TT_GATE_OPEN, NULL); /* it knew of danger 0, and there is no other */
    tt_speaker(t.c, 1);
    told_gate(&t, TT_GATE_ASK, "danger"); /* who told it gives their own */
    told_answer(&t, "danger", "safe");
    told_gate(&t, TT_GATE_OPEN, NULL);
    told_free(&t);
}

static void an_answer_of_before_the_danger_is_no_answer_to_it(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    tt_speaker(t.c, 1);
    told_answer(&t, "danger", "leak");
    told_answer(&t, "danger", "safe");
    told_gate(&t, TT_GATE_OPEN, NULL);
    tt_speaker(t.c, 0);
    told_gate(&t, TT_GATE_ASK, "danger");
    told_free(&t);
}

static void danger_said_ends_by_all_that_applies(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    told_answer(&t, "has-gas", "yes");
    told_answer(&t, "gas", "0");
    told_gate(&t, TT_GATE_OPEN, NULL);
    assert_int_equal(tt_danger_said(t.c), TT_OK);
    told_gate(&t, TT_GATE_SHUT, "danger");
    assert_string_equal(told_look(&t)->stop_text, "Stand back.");
    told_answer(&t, "danger", "safe");
    told_gate(&t, TT_GATE_SHUT, "gas");
    told_answer(&t, "gas", "0");
    told_gate(&t, TT_GATE_OPEN, NULL);
    assert_int_equal(tt_dangers(t.c), 1);
    told_free(&t);
}

static void nothing_takes_a_danger_back(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    told_answer(&t, "danger", "leak");
    assert_int_equal(tt_undo(t.c), TT_NOT_NOW);
    assert_int_equal(tt_retract(t.c, told_question(&t, "danger")), TT_NOT_NOW);
    told_answer(&t, "danger", "safe");
    assert_int_equal(tt_undo(t.c), TT_OK);
    told_gate(&t, TT_GATE_SHUT, "danger");
    told_answer(&t, "danger", "safe");
    assert_int_equal(tt_danger_said(t.c), TT_OK);
    assert_int_equal(tt_undo(t.c), TT_NOT_NOW);
    told_gate(&t, TT_GATE_SHUT, "danger");
    told_free(&t);
}

/* ---- fixes ---- */

static void a_report_is_kept_though_nothing_is_offered(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    told_offers(&t, TT_FIX, "turn");
    tt_speaker(t.c, 1);
    assert_int_equal(tt_danger_said(t.c), TT_OK);
    tt_speaker(t.c, 0);
    assert_int_equal(told_tried(&t, "turn", TT_NO_CHANGE), TT_OK);
    told_comes(&t, TT_STOP, TT_BY_GATE);
    told_answer(&t, "danger", "safe");
    told_offers(&t, TT_PUT_BACK, "turn");
    told_free(&t);
}

static void worse_asks_about_danger_once_more(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    double before = told_chance(&t, "worn");
    assert_int_equal(told_tried(&t, "turn", TT_WORSE), TT_OK);
    told_gate(&t, TT_GATE_ASK, "danger");
    double worse = told_chance(&t, "worn");
    assert_true(worse < before);
    told_answer(&t, "danger", "safe");
    told_offers(&t, TT_PUT_BACK, "turn");
    assert_int_equal(tt_put_back(t.c, told_fix(&t, "turn")), TT_OK);
    assert_int_not_equal(told_look(&t)->step, TT_PUT_BACK);
    told_free(&t);
    t = begin(); /* as evidence it is a fix that did not help */
    rule_out(&t);
    assert_int_equal(told_tried(&t, "turn", TT_NO_CHANGE), TT_OK);
    double same = told_chance(&t, "worn");
    assert_memory_equal(&same, &worse, sizeof same);
    told_free(&t);
}

static void a_closed_case_needs_no_answer_until_the_trouble_comes_back(void **state)
{
    (void)state;
    told_case t = begin();
    rule_out(&t);
    assert_int_equal(told_tried(&t, "turn", TT_GONE), TT_OK);
    told_comes(&t, TT_CLOSED, TT_BY_CLOSE);
    assert_int_equal(tt_sitting(t.c), TT_OK);
    told_comes(&t, TT_CLOSED, TT_BY_CLOSE);
    told_gate(&t, TT_GATE_ASK, "danger");
    assert_int_equal(tt_danger_said(t.c), TT_OK);
    told_comes(&t, TT_STOP, TT_BY_GATE);
    told_answer(&t, "danger", "safe");
    double cured = told_chance(&t, "worn");
    assert_int_equal(tt_came_back(t.c, told_fix(&t, "turn")), TT_OK);
    assert_int_equal(tt_came_back(t.c, told_fix(&t, "turn")), TT_NOT_NOW);
    assert_true(told_chance(&t, "worn") < cured);
    assert_int_not_equal(told_look(&t)->step, TT_CLOSED);
    const tt_tried *tried;
    uint32_t count;
    assert_int_equal(tt_tried_fixes(t.c, &tried, &count), TT_OK);
    assert_int_equal(count, 1);
    assert_true(tried[0].came_back && tried[0].outcome == TT_GONE && *tried[0].put_back == '\0');
    assert_int_equal(tt_undo(t.c), TT_OK);
    told_comes(&t, TT_CLOSED, TT_BY_CLOSE);
    told_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_comes_first_and_holds_every_fix),
        cmocka_unit_test(seen_alone_it_is_the_same),
        cmocka_unit_test(what_decides_whether_it_applies_comes_before_it),
        cmocka_unit_test(nothing_but_exactly_safe_counts),
        cmocka_unit_test(a_rule_that_stops_says_its_own),
        cmocka_unit_test(every_sitting_asks_anew),
        cmocka_unit_test(each_speaker_answers_their_own),
        cmocka_unit_test(a_complaint_opens_nothing_but_may_shut_it),
        cmocka_unit_test(a_file_of_answers_is_somebodys_word),
        cmocka_unit_test(a_file_from_before_a_danger_ends_it_not),
        cmocka_unit_test(a_worked_case_that_says_nothing_of_danger_is_about_none),
        cmocka_unit_test(a_danger_is_for_all_and_ends_by_who_knew_of_it),
        cmocka_unit_test(an_answer_of_before_the_danger_is_no_answer_to_it),
        cmocka_unit_test(danger_said_ends_by_all_that_applies),
        cmocka_unit_test(nothing_takes_a_danger_back),
        cmocka_unit_test(a_report_is_kept_though_nothing_is_offered),
        cmocka_unit_test(worse_asks_about_danger_once_more),
        cmocka_unit_test(a_closed_case_needs_no_answer_until_the_trouble_comes_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
