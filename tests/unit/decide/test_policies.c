/* What comes next, row by row of the table behind the gate. */
#include "testing.h"

#include "open_gate.h"
#include "told_case.h"

static const char book[] =
    "book: {title: Line, roles: [helper, mender], not-listed: 1 %}\n"
    "kinds:\n"
    "  row:\n"
    "    one: row\n"
    "    ask: Which rows are there?\n"
    "site:\n"
    "  units:\n"
    "    row: {left: {text: left row}, right: {text: right row}}\n"
    "questions:\n"
    "  danger: {ask: Danger, about: today, safe: [no]}\n"
    "  frost: {ask: Frost, about: today, early: yes}\n"
    "  dry:\n"
    "    for-each: row\n"
    "    ask: Is {row} dry?\n"
    "    usual: no\n"
    "  sound: {ask: Sound, usual: no}\n"
    "  gauge:\n"
    "    ask: What does the gauge read?\n"
    "    reading: pressure\n"
    "    unit: psi\n"
    "    plausible: 0 to 100 psi\n"
    "    usual: 20 to 40 psi\n"
    "symptoms:\n"
    "  row-dry:\n"
    "    for-each: row\n"
    "    text: The row is dry\n"
    "    when: {dry: yes}\n"
    "    heard: [dry row]\n"
    "    shown-by: {blocked: usually, low: usually}\n"
    "  loud: {text: Loud, when: {sound: yes}, heard: [loud], shown-by: {worn: always}}\n"
    "  weak:\n"
    "    text: The pressure is low\n"
    "    when: {gauge: below 20 psi}\n"
    "    heard: [weak]\n"
    "    shown-by: {low: almost always}\n"
    "causes:\n"
    "  blocked: {text: Blocked, how-often: common}\n"
    "  low: {text: Low, how-often: common}\n"
    "  worn: {text: Worn, how-often: common}\n"
    "fixes:\n"
    "  swap:\n"
    "    text: Swap the pump\n"
    "    role: helper\n    cures: {worn: usually}\n"
    "    takes: 2 min\n"
    "    harm: none\n"
    "    put-back: Put the old one back\n"
    "    look-again: [sound, gauge, danger]\n"
    "  grease: {text: Grease, role: helper, cures: {worn: often}, takes: 1 min, harm: none, "
    "put-back: Wipe}\n"
    "  raise:\n"
    "    text: Raise the pressure\n"
    "    role: helper\n    cures: {low: usually}\n"
    "    takes: 2 min\n"
    "    harm: none\n"
    "    adjust: {reading: gauge, by: 5 psi, within: 5 to 40 psi, at-most: 2 times}\n"
    "    look-again: [sound]\n"
    "    put-back: Set it back\n";

/* Danger is ruled out, and there is no frost. */
static told_case begin(const tt_options *options)
{
    told_case t = told_new(book, options);
    open_gate(t.c);
    told_answer(&t, "frost", "no");
    return t;
}

static void early_facts_come_right_behind_the_gate(void **state)
{
    (void)state;
    told_case t = told_new(book, &(tt_options){.role = TT_NONE, .asks_complaint = true});
    told_asks(&t, "danger", TT_BY_GATE);
    told_answer(&t, "danger", "no");
    told_asks(&t, "frost", TT_BY_EARLY);
    assert_true(told_look(&t)->next.first);
    told_answer(&t, "frost", "unsure");
    told_comes(&t, TT_COMPLAINT, TT_BY_COMPLAINT);
    assert_int_equal(told_look(&t)->next.question, TT_NONE); /* none of the book's */
    assert_int_equal(told_look(&t)->next.quantity, TT_NONE);
    told_free(&t);
}

static void which_piece_comes_before_anything_about_the_complaint(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    uint32_t left = tt_symptom_find(t.book, "row-dry of left"),
             right = tt_symptom_find(t.book, "row-dry of right");
    assert_int_equal(tt_complain_somewhere(t.c, left), TT_OK);
    told_comes(&t, TT_PIECE, TT_BY_PIECE);
    assert_int_equal(told_look(&t)->symptom, left);
    assert_string_equal(tt_kind_show(t.book, told_look(&t)->kind, NULL).name, "row");
    assert_int_equal(tt_complain(t.c, right), TT_OK);
    assert_int_not_equal(told_look(&t)->step, TT_PIECE);
    assert_int_equal(told_look(&t)->focus_count, 1);
    assert_int_equal(tt_undo(t.c), TT_OK);
    told_comes(&t, TT_PIECE, TT_BY_PIECE);
    const uint32_t both[] = {0, 1}; /* it may be either */
    assert_int_equal(tt_focus(t.c, both, 2), TT_OK);
    assert_int_not_equal(told_look(&t)->step, TT_PIECE);
    assert_int_equal(tt_complain_somewhere(t.c, tt_symptom_find(t.book, "loud")),
                     TT_OK); /* of no piece: a complaint like any */
    assert_int_not_equal(told_look(&t)->step, TT_PIECE);
    told_free(&t);
}

static void what_is_not_settled_comes_before_fixes_and_behind_danger(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    told_answer(&t, "sound", "yes");
    assert_int_equal(tt_unsettled(t.c, told_question(&t, "sound")), TT_OK);
    told_comes(&t, TT_SETTLE, TT_BY_UNSETTLED);
    assert_int_equal(told_look(&t)->next.question, told_question(&t, "sound"));
    assert_int_equal(told_look(&t)->fix, TT_NONE);
    assert_int_equal(tt_sitting(t.c), TT_OK);
    told_asks(&t, "danger", TT_BY_GATE);
    open_gate(t.c);
    told_comes(&t, TT_SETTLE, TT_BY_UNSETTLED);
    told_answer(&t, "sound", "yes");
    assert_int_equal(told_look(&t)->step, TT_FIX);
    assert_int_equal(told_tried(&t, "grease", TT_GONE), TT_OK);
    assert_int_equal(tt_unsettled_fix(t.c, told_fix(&t, "grease")), TT_OK);
    told_comes(&t, TT_SETTLE, TT_BY_UNSETTLED); /* one of them says that the trouble is not gone */
    assert_int_equal(told_look(&t)->fix, told_fix(&t, "grease"));
    assert_int_equal(told_look(&t)->next.question, TT_NONE);
    assert_int_equal(told_tried(&t, "grease", TT_NO_CHANGE), TT_OK);
    told_offers(&t, TT_PUT_BACK, "grease");
    told_free(&t);
}

static void what_did_not_help_is_put_back_the_last_first(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    told_answer(&t, "sound", "yes");
    assert_int_equal(told_tried(&t, "swap", TT_NO_CHANGE), TT_OK);
    assert_int_equal(told_tried(&t, "grease", TT_NO_CHANGE), TT_OK);
    told_offers(&t, TT_PUT_BACK, "grease");
    assert_int_equal(told_look(&t)->policy, TT_BY_PUT_BACK);
    assert_int_equal(tt_put_back(t.c, told_fix(&t, "grease")), TT_OK);
    assert_int_equal(tt_put_back(t.c, told_fix(&t, "grease")), TT_NOT_NOW);
    told_offers(&t, TT_PUT_BACK, "swap");
    assert_int_equal(tt_left_so(t.c, told_fix(&t, "swap")), TT_OK);
    assert_int_not_equal(told_look(&t)->step, TT_PUT_BACK);
    const tt_tried *tried;
    uint32_t count;
    assert_int_equal(tt_tried_fixes(t.c, &tried, &count), TT_OK);
    assert_true(tried[0].left_so && *tried[0].put_back != '\0' && tried[1].was_put_back);
    assert_int_equal(tt_undo(t.c), TT_OK);
    told_offers(&t, TT_PUT_BACK, "swap");
    assert_int_equal(tt_left_so(t.c, told_fix(&t, "raise")), TT_NOT_NOW);
    told_free(&t);
}

static void a_setting_that_can_not_be_put_back_is_for_somebody_else(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    told_answer(&t, "gauge", "10");
    assert_int_equal(told_tried(&t, "raise", TT_NO_CHANGE), TT_OK);
    told_offers(&t, TT_PUT_BACK, "raise");
    assert_int_equal(tt_left_so(t.c, told_fix(&t, "raise")), TT_NOT_NOW);
    assert_int_equal(told_tried(&t, "raise", TT_COULD_NOT), TT_OK);
    told_comes(&t, TT_CALL, TT_BY_PUT_BACK);
    assert_string_equal(told_look(&t)->call_role, "mender");
    told_free(&t);
}

static void a_setting_worse_is_put_back_once_danger_is_ruled_out(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    told_answer(&t, "gauge", "10");
    told_answer(&t, "sound", "no");
    assert_int_equal(told_tried(&t, "raise", TT_WORSE), TT_OK);
    told_asks(&t, "danger", TT_BY_GATE);
    open_gate(t.c);
    told_offers(&t, TT_PUT_BACK, "raise");
    assert_int_equal(tt_put_back(t.c, told_fix(&t, "raise")), TT_OK);
    told_asks(&t, "sound", TT_BY_LOOK_AGAIN);
    const tt_tried *tried;
    uint32_t count;
    assert_int_equal(tt_tried_fixes(t.c, &tried, &count), TT_OK);
    assert_true(count == 1 && tried[0].outcome == TT_WORSE && tried[0].was_put_back);
    told_free(&t);
}

static void steps_of_a_setting_follow_each_other(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    told_answer(&t, "gauge", "10");
    told_answer(&t, "sound", "no");
    told_offers(&t, TT_FIX, "raise");
    assert_int_equal(told_tried(&t, "raise", TT_BETTER), TT_OK);
    told_asks(&t, "sound", TT_BY_ADJUSTING);
    assert_string_equal(told_look(&t)->next.reason, "The last step may have changed it.");
    told_answer(&t, "sound", "no");
    told_comes(&t, TT_FIX, TT_BY_ADJUSTING);
    assert_int_equal(tt_stale(t.c, told_question(&t, "gauge")), TT_OK); /* left over night */
    told_asks(&t, "gauge", TT_BY_ADJUSTING);
    assert_string_equal(told_look(&t)->next.reason,
                        "It was read long ago, and the next step starts from it.");
    told_answer(&t, "gauge", "12");
    tt_fix_plan plan;
    assert_int_equal(tt_fix_show(t.c, told_fix(&t, "raise"), &plan), TT_OK);
    assert_true(plan.adjust.from == 12);
    told_free(&t);
}

static void while_a_setting_is_changed_nothing_else_is_offered(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    told_answer(&t, "sound", "yes");
    told_answer(&t, "gauge", "10");
    assert_true(told_look(&t)->fixes[0].standing < TT_NOT_YET);
    assert_int_equal(told_tried(&t, "raise", TT_BETTER), TT_OK);
    const tt_view *v = told_look(&t);
    assert_int_equal(v->fix_count, 3);
    for (uint32_t i = 0; i < v->fix_count; i++)
        assert_true(v->fixes[i].fix == told_fix(&t, "raise") || v->fixes[i].standing >= TT_NOT_YET);
    told_free(&t);
}

/* Also where it was told before anything else. */
static void what_was_done_first_of_all_is_put_back(void **state)
{
    (void)state;
    told_case t = told_new(book, NULL);
    assert_int_equal(told_tried(&t, "grease", TT_NO_CHANGE), TT_OK);
    open_gate(t.c);
    told_answer(&t, "frost", "no");
    told_offers(&t, TT_PUT_BACK, "grease");
    told_free(&t);
}

/* Whether a question applies may rest on a fact: that is asked in its place, and then it or not. */
static void what_a_question_needs_is_asked_before_it(void **state)
{
    static const char pump[] =
        "book: {title: Pump, roles: [helper], not-listed: 1 %}\n"
        "questions:\n"
        "  danger: {ask: Danger, about: today, safe: [no]}\n"
        "  heated: {ask: Heated, about: the site}\n"
        "  frost: {ask: Frost, about: today, early: yes, only-when: {heated: "
        "no}}\n"
        "  drips: {ask: Drips, usual: no}\n"
        "symptoms:\n"
        "  dripping: {text: Drips, when: {drips: yes}, shown-by: {worn: often}}\n"
        "causes:\n"
        "  worn: {text: Worn, how-often: common}\n"
        "  frozen: {text: Frozen, how-often: rare}\n"
        "rules:\n"
        "  cold: {when: {frost: yes}, then: {likelier: {frozen: 9 times}}}\n"
        "fixes:\n"
        "  renew: {text: Renew, role: helper, cures: {worn: usually}, takes: 90 "
        "min, harm: none, put-back: not needed}\n";
    (void)state;
    for (int heated = 0; heated < 2; heated++) {
        told_case t = told_new(pump, NULL);
        open_gate(t.c);
        told_asks(&t, "heated", TT_BY_EARLY);
        told_answer(&t, "heated", heated ? "yes" : "no");
        if (heated)
            assert_int_not_equal(told_look(&t)->policy, TT_BY_EARLY);
        else
            told_asks(&t, "frost", TT_BY_EARLY);
        told_free(&t);
    }
}

/* Better: what may have changed is asked once, also what was answered; danger before the rest. */
static void after_better_all_is_looked_at_again(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    told_answer(&t, "sound", "yes");
    told_answer(&t, "gauge", "30");
    assert_int_equal(told_tried(&t, "swap", TT_BETTER), TT_OK);
    told_asks(&t, "danger", TT_BY_GATE);
    open_gate(t.c);
    told_asks(&t, "gauge", TT_BY_LOOK_AGAIN);
    told_answer(&t, "gauge", "30");
    told_asks(&t, "sound", TT_BY_LOOK_AGAIN);
    told_answer(&t, "sound", "unsure");
    assert_int_not_equal(told_look(&t)->policy, TT_BY_LOOK_AGAIN);
    told_free(&t);
}

static void after_no_change_nothing_is_looked_at_again(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    told_answer(&t, "sound", "yes");
    assert_int_equal(told_tried(&t, "swap", TT_NO_CHANGE), TT_OK);
    assert_int_equal(tt_put_back(t.c, told_fix(&t, "swap")), TT_OK);
    assert_int_not_equal(told_look(&t)->policy, TT_BY_LOOK_AGAIN);
    told_gate(&t, TT_GATE_OPEN, NULL);
    told_free(&t);
}

static void a_fix_waits_for_the_reading_it_starts_from(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    tt_fix_plan plan;
    assert_int_equal(tt_complain(t.c, tt_symptom_find(t.book, "row-dry of left")), TT_OK);
    assert_int_equal(tt_fix_show(t.c, told_fix(&t, "raise"), &plan), TT_OK);
    assert_int_equal(plan.about, told_question(&t, "gauge"));
    assert_false(plan.about_known);
    for (int i = 0;
         i < 9 && told_look(&t)->policy == TT_BY_BALANCED && told_look(&t)->step == TT_ASK; i++)
        assert_int_equal(tt_answer(t.c, told_look(&t)->next.question,
                                   &(tt_reply){.kind = TT_ANSWER, .option = 1}),
                         TT_OK);
    told_asks(&t, "gauge", TT_BY_READING);
    told_answer(&t, "gauge", "10");
    assert_int_equal(tt_fix_show(t.c, told_fix(&t, "raise"), &plan), TT_OK);
    assert_true(plan.about_known);
    told_free(&t);
}

/* The fix rests on a speed that both are read for: one tells of the day, the other of the fault. */
static const char line[] = "book: {title: Line, roles: [helper], not-listed: 1 %}\n"
                           "questions:\n"
                           "  danger: {ask: Danger, about: today, safe: [no]}\n"
                           "  rate: {ask: Rate, reading: rate, unit: cars/h}\n"
                           "  pitch: {ask: Pitch, about: today, reading: length, unit: ft}\n"
                           "quantities:\n"
                           "  speed:\n"
                           "    text: Line speed\n"
                           "    formula: rate * pitch\n"
                           "    unit: ft/min\n"
                           "    usual: 25 to 45 ft/min\n"
                           "symptoms:\n"
                           "  fast:\n"
                           "    text: Too fast\n"
                           "    when: {speed: above 45 ft/min}\n"
                           "    shown-by: {too-fast: almost always}\n"
                           "causes:\n"
                           "  too-fast: {text: Fast}\n"
                           "fixes:\n"
                           "  slow: {text: Brake, role: helper, cures: {too-fast: usually}, "
                           "takes: 1 min, harm: none, put-back: Back}\n";

static void a_reading_that_something_is_reckoned_from_is_read_again_too(void **state)
{
    static const char *const readings[] = {"rate", "pitch"};
    (void)state;
    told_case t = told_new(line, NULL);
    told_answer(&t, "danger", "no");
    told_answer(&t, "rate", "60");
    told_answer(&t, "pitch", "60");
    told_offers(&t, TT_FIX, "slow");
    for (int i = 0; i < 2; i++) {
        assert_int_equal(tt_stale(t.c, told_question(&t, readings[i])), TT_OK);
        told_asks(&t, readings[i], TT_BY_READING);
        told_answer(&t, readings[i], "60");
        told_offers(&t, TT_FIX, "slow");
    }
    told_free(&t);
}

static void what_was_read_long_ago_is_read_again_before_a_fix_rests_on_it(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    told_answer(&t, "sound", "yes");
    told_offers(&t, TT_FIX, "grease");
    double before = told_chance(&t, "worn");
    assert_int_equal(tt_stale(t.c, told_question(&t, "sound")), TT_OK);
    double after = told_chance(&t, "worn");
    assert_memory_equal(&before, &after, sizeof before); /* it stays evidence */
    told_asks(&t, "sound", TT_BY_READING);
    told_answer(&t, "sound", "yes");
    told_offers(&t, TT_FIX, "grease");
    tt_fix_plan plan;
    assert_int_equal(tt_fix_show(t.c, told_fix(&t, "swap"), &plan), TT_OK);
    assert_int_equal(plan.about,
                     told_question(&t, "gauge")); /* the first reading to be looked at again */
    assert_int_equal(tt_fix_show(t.c, told_fix(&t, "grease"), &plan), TT_OK);
    assert_int_equal(plan.about, TT_NONE);
    told_free(&t);
}

static void what_is_wrong_is_asked_for_only_if_wanted_and_once(void **state)
{
    (void)state;
    told_case t = begin(NULL);
    assert_int_not_equal(told_look(&t)->step, TT_COMPLAINT);
    told_free(&t);
    const tt_options asks = {.role = TT_NONE, .asks_complaint = true};
    t = begin(&asks);
    told_comes(&t, TT_COMPLAINT, TT_BY_COMPLAINT);
    told_answer(&t, "sound", "yes"); /* an answer is no complaint */
    told_comes(&t, TT_COMPLAINT, TT_BY_COMPLAINT);
    assert_int_equal(tt_no_complaint(t.c), TT_OK);
    told_comes(&t, TT_FIX, TT_BY_BALANCED);
    assert_int_equal(tt_undo(t.c), TT_OK);
    assert_int_equal(tt_complain(t.c, tt_symptom_find(t.book, "loud")), TT_OK);
    told_comes(&t, TT_FIX, TT_BY_BALANCED);
    assert_int_equal(told_tried(&t, "grease", TT_GONE), TT_OK);
    told_comes(&t, TT_CLOSED, TT_BY_CLOSE);
    told_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(early_facts_come_right_behind_the_gate),
        cmocka_unit_test(which_piece_comes_before_anything_about_the_complaint),
        cmocka_unit_test(what_is_not_settled_comes_before_fixes_and_behind_danger),
        cmocka_unit_test(what_did_not_help_is_put_back_the_last_first),
        cmocka_unit_test(a_setting_that_can_not_be_put_back_is_for_somebody_else),
        cmocka_unit_test(a_setting_worse_is_put_back_once_danger_is_ruled_out),
        cmocka_unit_test(steps_of_a_setting_follow_each_other),
        cmocka_unit_test(while_a_setting_is_changed_nothing_else_is_offered),
        cmocka_unit_test(what_was_done_first_of_all_is_put_back),
        cmocka_unit_test(what_a_question_needs_is_asked_before_it),
        cmocka_unit_test(after_better_all_is_looked_at_again),
        cmocka_unit_test(after_no_change_nothing_is_looked_at_again),
        cmocka_unit_test(a_fix_waits_for_the_reading_it_starts_from),
        cmocka_unit_test(a_reading_that_something_is_reckoned_from_is_read_again_too),
        cmocka_unit_test(what_was_read_long_ago_is_read_again_before_a_fix_rests_on_it),
        cmocka_unit_test(what_is_wrong_is_asked_for_only_if_wanted_and_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
