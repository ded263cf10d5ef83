/* A case as the public face gives it: on a small book of a house well, invented here. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "telltale.h"

static const char manifest[] =
    "book:\n"
    "  title: House well\n"
    "  roles: [householder, technician, {electrician: {authorised: yes}}]\n"
    "  cautions:\n"
    "    - Water and electricity stand close together here.\n";

static const char questions[] = "questions:\n"
                                "  smell:\n"
                                "    ask: Does it smell burnt?\n"
                                "    safe: [no]\n"
                                "    usual: no\n"
                                "  pump-sound:\n"
                                "    ask: What do you hear at the pump?\n"
                                "    answers:\n"
                                "      nothing: Nothing at all\n"
                                "      steady: A steady run\n"
                                "      rapid: It starts and stops every few seconds\n"
                                "    usual: steady\n"
                                "  tank-gauge:\n"
                                "    ask: What does the gauge at the tank read?\n"
                                "    reading: pressure\n"
                                "    unit: psi\n"
                                "    plausible: 0 to 150 psi\n"
                                "    usual: 30 to 60 psi\n"
                                "  season:\n"
                                "    ask: Is it late summer?\n"
                                "    about: today\n"
                                "  damp:\n"
                                "    ask: Is the ground wet along the pipe?\n"
                                "    usual: no\n"
                                "    only-when: {season: no}\n";

static const char more_questions[] = "questions:\n"
                                     "  tap-shut:\n"
                                     "    ask: Can the tap behind the tank be shut?\n"
                                     "    about: today\n";

static const char symptoms[] = "symptoms:\n"
                               "  short-cycling:\n"
                               "    when: {pump-sound: rapid}\n"
                               "    heard:\n"
                               "      - short cycling\n"
                               "      - /on (and|then) off/\n"
                               "    shown-by: {tank-waterlogged: almost always, leak: seldom}\n"
                               "    otherwise: rarely\n"
                               "  dead:\n"
                               "    when: {pump-sound: nothing}\n"
                               "    heard: [dead pump]\n"
                               "    shown-by: {no-power: always}\n"
                               "  low-pressure:\n"
                               "    text: The pressure is low\n"
                               "    when: {tank-gauge: below 20 psi}\n"
                               "    heard: [low pressure]\n"
                               "    shown-by: {leak: often, no-power: usually}\n"
                               "  wet-ground:\n"
                               "    text: The ground is wet\n"
                               "    when: {damp: yes}\n"
                               "    shown-by: {leak: usually}\n"
                               "  burnt:\n"
                               "    text: It smells burnt\n"
                               "    when: {smell: yes}\n"
                               "    shown-by: {no-power: sometimes}\n"
                               "    otherwise: never\n";

static const char causes[] = "causes:\n"
                             "  tank-waterlogged:\n"
                             "    text: The tank has lost its air\n"
                             "    how-often: common\n"
                             "  leak:\n"
                             "    text: Water leaks away\n"
                             "    how-often: occasional\n"
                             "  no-power:\n"
                             "    text: The pump has no power\n"
                             "    how-often: occasional\n";

static const char fixes[] = "fixes:\n"
                            "  recharge:\n"
                            "    text: Charge the tank with air\n"
                            "    role: householder\n    cures: {tank-waterlogged: usually}\n"
                            "    harm: none\n"
                            "    takes: 20 min\n"
                            "    put-back: Let the air out again\n"
                            "  close-leak:\n"
                            "    text: Close the leak\n"
                            "    only-when: {tap-shut: yes}\n"
                            "    role: householder\n    cures: {leak: usually}\n"
                            "    harm: none\n"
                            "    takes: 30 min\n"
                            "    put-back: not needed\n"
                            "  rewire:\n"
                            "    text: Mend the supply\n"
                            "    cures: {no-power: almost always}\n"
                            "    role: electrician\n"
                            "    takes: 30 min\n"
                            "    harm:\n"
                            "      from: [electricity]\n"
                            "      unprotected: {worst: catastrophic, chance: occasional}\n"
                            "      protected: {worst: critical, chance: improbable}\n"
                            "    protect:\n"
                            "      - Insulated gloves\n"
                            "    procedure: lock-the-breaker\n"
                            "    put-back: not needed\n"
                            "procedures:\n"
                            "  lock-the-breaker:\n"
                            "    energies: [electricity]\n"
                            "    tell: Tell everybody\n"
                            "    isolate: Lock the breaker\n"
                            "    release: Wait five minutes\n"
                            "    prove: Measure that no voltage is left\n"
                            "    restore: Take off your own lock\n";

static const char rules[] = "conclusions:\n"
                            "  dry-well:\n"
                            "    text: The well may be dry\n"
                            "rules:\n"
                            "  late:\n"
                            "    when: {season: yes}\n"
                            "    then:\n"
                            "      set: {dry-well: yes}\n"
                            "      likelier: {leak: 3 times}\n"
                            "  dry:\n"
                            "    when: {dry-well: yes, pump-sound: steady}\n"
                            "    then:\n"
                            "      caution: Do not let the pump run dry.\n"
                            "  burning:\n"
                            "    when: {smell: yes}\n"
                            "    then:\n"
                            "      stop: Switch off at the breaker and keep away.\n"
                            "      call: electrician\n";

static const char cases[] = "cases:\n"
                            "  cycling:\n"
                            "    answers: {pump-sound: rapid, smell: no}\n"
                            "    expect: {leading-cause: tank-waterlogged, first-fix: recharge}\n"
                            "  wrong-on-purpose:\n"
                            "    answers: {pump-sound: nothing}\n"
                            "    expect: {leading-cause: leak}\n";

#define SOURCE(name, text) \
    { \
        name, text, sizeof text - 1 \
    }
static const tt_source in_order[] = {
    SOURCE("a.yaml", manifest), SOURCE("b.yaml", questions),      SOURCE("c.yaml", symptoms),
    SOURCE("d.yaml", causes),   SOURCE("e.yaml", fixes),          SOURCE("f.yaml", rules),
    SOURCE("g.yaml", cases),    SOURCE("h.yaml", more_questions),
};
static const tt_source shuffled[] = {
    SOURCE("1.yaml", rules),     SOURCE("2.yaml", cases),          SOURCE("3.yaml", causes),
    SOURCE("4.yaml", manifest),  SOURCE("5.yaml", fixes),          SOURCE("6.yaml", symptoms),
    SOURCE("7.yaml", questions), SOURCE("8.yaml", more_questions),
};

static tt_book *load(const tt_source *files)
{
    tt_book *book;
    tt_report *report;
    tt_status status = tt_book_load(files, sizeof in_order / sizeof *in_order, &book, &report);
    if (status != TT_OK) print_error("%s\n", report == NULL ? "no memory" : tt_report_text(report));
    assert_int_equal(status, TT_OK);
    tt_report_free(report);
    return book;
}

/* Both hold the bytes of the files; each place that is told is found in them. */
static void a_report_outlives_its_book(void **state)
{
    (void)state;
    static const char odd[] = "questions:\n  odd:\n    ask: Say how it is\n";
    enum { COUNT = sizeof in_order / sizeof *in_order };
    tt_source files[COUNT + 1];
    memcpy(files, in_order, sizeof in_order);
    files[COUNT] = (tt_source)SOURCE("i.yaml", odd);
    tt_book *book;
    tt_report *report;
    assert_int_equal(tt_book_load(files, COUNT + 1, &book, &report), TT_OK);
    assert_int_equal(tt_book_doubts(book, report), TT_OK);
    tt_book_free(book);
    bool told = false;
    for (uint32_t i = 0; i < tt_report_count(report); i++) {
        const tt_fault f = tt_report_fault(report, i);
        told |= strcmp(f.file, "i.yaml") == 0 && f.line == 3 && f.column == 10;
    }
    if (!told) fail_msg("nothing is said of it:\n%s", tt_report_text(report));
    tt_report_free(report);
}

static tt_case *begin(const tt_book *book, const char *role)
{
    tt_case *c;
    tt_options options = {.role = role == NULL ? TT_NONE : tt_role_find(book, role)};
    assert_int_equal(tt_case_new(book, &options, &c), TT_OK);
    return c;
}

static void say(const tt_book *book, tt_case *c, const char *question, const char *typed)
{
    tt_reply reply;
    const char *why;
    uint32_t q = tt_question_find(book, question);
    assert_int_not_equal(q, TT_NONE);
    assert_int_equal(tt_reply_read(c, q, typed, &reply, &why), TT_OK);
    assert_int_equal(tt_answer(c, q, &reply), TT_OK);
}

static const tt_view *look(tt_case *c)
{
    const tt_view *v;
    assert_int_equal(tt_look(c, &v), TT_OK);
    return v;
}

static double chance_of(const tt_view *v, const char *cause)
{
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (v->causes[i].name == NULL ? cause == NULL
                                      : cause != NULL && strcmp(v->causes[i].name, cause) == 0)
            return v->causes[i].chance;
    fail_msg("no cause %s", cause);
    return 0;
}

static const tt_fix *fix_named(const tt_view *v, const char *name)
{
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (strcmp(v->fixes[i].name, name) == 0) return &v->fixes[i];
    return NULL;
}

static void danger_comes_first_and_stops(void **state)
{
    tt_book *book = *state;
    tt_case *c = begin(book, NULL);
    const tt_view *v = look(c);
    assert_int_equal(v->step, TT_ASK);
    assert_int_equal(v->next.question, tt_question_find(book, "smell"));
    assert_true(v->next.first);
    say(book, c, "smell", "yes");
    v = look(c);
    assert_int_equal(v->step, TT_STOP);
    assert_string_equal(v->call_role, "electrician");
    assert_int_equal(v->next.question, TT_NONE);
    for (uint32_t i = 0; i < v->fix_count; i++) assert_true(v->fixes[i].standing >= TT_NOT_YET);
    assert_string_equal(v->stop_text, "Switch off at the breaker and keep away.");
    tt_case_free(c);
}

static void chances_sum_to_one_and_lead_to_a_fix(void **state)
{
    tt_book *book = *state;
    tt_case *c = begin(book, NULL);
    say(book, c, "smell", "no");
    say(book, c, "pump-sound", "it starts and stops every few seconds");
    const tt_view *v = look(c);
    double sum = 0;
    for (uint32_t i = 0; i < v->cause_count; i++) sum += v->causes[i].chance;
    assert_true(sum > 1 - 1e-12 && sum < 1 + 1e-12);
    assert_string_equal(v->causes[0].name, "tank-waterlogged");
    assert_true(fix_named(v, "recharge")->standing == TT_LIKELY_FIX);
    assert_true(fix_named(v, "rewire")->standing == TT_OTHER_ROLE);
    assert_string_equal(fix_named(v, "rewire")->risk,
                        "medium"); /* critical, improbable: MIL-STD-882E Table III, 2E */
    tt_case_free(c);
}

static void order_of_answers_and_files_changes_nothing(void **state)
{
    tt_book *book = *state, *other = load(shuffled);
    tt_case *a = begin(book, NULL), *b = begin(other, NULL);
    say(book, a, "pump-sound", "rapid");
    say(book, a, "tank-gauge", "15 psi");
    say(book, a, "season", "yes");
    say(other, b, "season", "yes");
    say(other, b, "tank-gauge", "15");
    say(other, b, "pump-sound", "3");
    const tt_view *x = look(a), *y = look(b);
    assert_int_equal(x->cause_count, y->cause_count);
    for (uint32_t i = 0; i < x->cause_count; i++) {
        assert_memory_equal(&x->causes[i].chance, &y->causes[i].chance, sizeof(double));
        assert_string_equal(x->causes[i].text, y->causes[i].text);
    }
    assert_int_equal(x->next.question, y->next.question);
    tt_case_free(a);
    tt_case_free(b);
    tt_book_free(other);
}

static void undo_change_and_retraction_are_exact(void **state)
{
    tt_book *book = *state;
    tt_case *c = begin(book, NULL);
    say(book, c, "pump-sound", "steady");
    double before = chance_of(look(c), "leak");
    say(book, c, "tank-gauge", "10");
    assert_true(chance_of(look(c), "leak") > before);
    assert_int_equal(tt_undo(c), TT_OK);
    double after = chance_of(look(c), "leak");
    assert_memory_equal(&before, &after, sizeof before);
    say(book, c, "tank-gauge", "10");
    assert_int_equal(tt_retract(c, tt_question_find(book, "tank-gauge")), TT_OK);
    after = chance_of(look(c), "leak");
    assert_memory_equal(&before, &after, sizeof before);
    say(book, c, "pump-sound", "rapid");
    say(book, c, "pump-sound", "steady");
    after = chance_of(look(c), "leak");
    assert_memory_equal(&before, &after, sizeof before);
    tt_case_free(c);
}

static void rules_chain_and_move_the_prior(void **state)
{
    tt_book *book = *state;
    tt_case *c = begin(book, NULL);
    say(book, c, "pump-sound", "steady");
    double before = chance_of(look(c), "leak");
    say(book, c, "season", "yes");
    const tt_view *v = look(c);
    assert_true(chance_of(v, "leak") > before);
    assert_int_equal(v->caution_count, 1);
    assert_string_equal(v->cautions[0].rule, "dry");
    tt_case_free(c);
}

static void a_question_waits_for_the_fact_it_needs(void **state)
{
    tt_book *book = *state;
    tt_case *c = begin(book, NULL);
    say(book, c, "season", "yes");
    for (int i = 0; i < 20 && look(c)->step == TT_ASK; i++) {
        uint32_t q = look(c)->next.question;
        assert_int_not_equal(q, tt_question_find(book, "damp"));
        assert_int_equal(tt_answer(c, q, &(tt_reply){.kind = TT_UNSURE}), TT_OK);
    }
    tt_case_free(c);
}

static void failed_fix_lowers_its_cause_and_is_put_back(void **state)
{
    tt_book *book = *state;
    tt_case *c = begin(book, NULL);
    say(book, c, "pump-sound", "rapid");
    double before = chance_of(look(c), "tank-waterlogged");
    assert_int_equal(tt_fix_tried(c, tt_fix_find(book, "recharge"), TT_NO_CHANGE), TT_OK);
    const tt_view *v = look(c);
    assert_true(chance_of(v, "tank-waterlogged") < before);
    assert_null(fix_named(v, "recharge"));
    const tt_tried *tried;
    uint32_t count;
    assert_int_equal(tt_tried_fixes(c, &tried, &count), TT_OK);
    assert_int_equal(count, 1);
    assert_string_equal(tried[0].put_back, "Let the air out again");
    tt_case_free(c);
}

static tt_tried only_tried(tt_case *c)
{
    const tt_tried *tried;
    uint32_t count;
    assert_int_equal(tt_tried_fixes(c, &tried, &count), TT_OK);
    assert_int_equal(count, 1);
    return tried[0];
}

/* Putting it back is no outcome: nothing is learned of the causes from it. */
static void put_back_once_after_no_change(void **state)
{
    tt_book *book = *state;
    tt_case *c = begin(book, NULL);
    uint32_t fix = tt_fix_find(book, "recharge");
    say(book, c, "pump-sound", "rapid");
    assert_int_equal(tt_put_back(c, fix), TT_NOT_NOW);
    assert_int_equal(tt_fix_tried(c, fix, TT_NO_CHANGE), TT_OK);
    double before = chance_of(look(c), "tank-waterlogged");
    assert_int_equal(tt_put_back(c, fix), TT_OK);
    assert_true(chance_of(look(c), "tank-waterlogged") == before);
    assert_true(only_tried(c).was_put_back);
    assert_string_equal(only_tried(c).put_back, "");
    assert_int_equal(only_tried(c).outcome, TT_NO_CHANGE);
    assert_int_equal(tt_put_back(c, fix), TT_NOT_NOW);
    assert_int_equal(tt_undo(c), TT_OK);
    assert_false(only_tried(c).was_put_back);
    assert_string_equal(only_tried(c).put_back, "Let the air out again");
    assert_int_equal(tt_undo(c), TT_OK);
    assert_int_equal(tt_fix_tried(c, fix, TT_BETTER), TT_OK);
    assert_int_equal(tt_put_back(c, fix), TT_NOT_NOW);
    tt_case_free(c);
}

/* The fact counts for no cause; it is asked because a fix worth trying waits for it. */
static void a_fix_that_waits_has_its_fact_asked(void **state)
{
    tt_book *book = *state;
    tt_case *c = begin(book, NULL);
    say(book, c, "smell", "no");
    say(book, c, "pump-sound", "steady");
    say(book, c, "tank-gauge", "10");
    say(book, c, "season", "no");
    say(book, c, "damp", "yes");
    const tt_view *v = look(c);
    assert_true(fix_named(v, "close-leak")->standing == TT_NOT_YET);
    while (v->step == TT_FIX) {
        assert_int_equal(tt_fix_tried(c, v->fix, TT_NO_CHANGE), TT_OK);
        v = look(c);
    }
    assert_int_equal(v->step, TT_ASK);
    assert_int_equal(v->next.question, tt_question_find(book, "tap-shut"));
    say(book, c, "tap-shut", "yes");
    v = look(c);
    assert_int_equal(v->step, TT_FIX);
    assert_int_equal(v->fix, tt_fix_find(book, "close-leak"));
    tt_case_free(c);
}

static void better_shows_pairs_and_asks_again(void **state)
{
    tt_book *book = *state;
    tt_case *c = begin(book, NULL);
    say(book, c, "pump-sound", "rapid");
    look(c);
    assert_int_equal(tt_fix_tried(c, tt_fix_find(book, "recharge"), TT_BETTER), TT_OK);
    const tt_view *v = look(c);
    assert_true(v->pairs_matter);
    bool stale = false;
    for (uint32_t i = 0; i < v->fact_count; i++) stale |= v->facts[i].stale;
    assert_true(stale);
    assert_int_equal(tt_fix_tried(c, tt_fix_find(book, "close-leak"), TT_GONE), TT_OK);
    assert_int_equal(look(c)->step, TT_CLOSED);
    tt_case_free(c);
}

static void complaints_are_heard_in_own_words(void **state)
{
    tt_book *book = *state;
    tt_complaint *heard;
    uint32_t count;
    assert_int_equal(
        tt_complaints_heard(book, "The pump goes ON then OFF all the time", &heard, &count), TT_OK);
    assert_int_equal(count, 1);
    assert_string_equal(heard[0].name, "short-cycling");
    tt_case *c = begin(book, NULL);
    assert_int_equal(tt_complain(c, heard[0].symptom), TT_OK);
    free(heard);
    assert_string_equal(look(c)->causes[0].name, "tank-waterlogged");
    tt_case_free(c);
    assert_int_equal(tt_complaints(book, &heard, &count), TT_OK);
    assert_int_equal(count, 3);
    free(heard);
}

static void wrong_answers_say_what_to_type(void **state)
{
    tt_book *book = *state;
    tt_case *c = begin(book, NULL);
    tt_reply reply;
    const char *why;
    uint32_t gauge = tt_question_find(book, "tank-gauge"),
             sound = tt_question_find(book, "pump-sound");
    assert_int_equal(tt_reply_read(c, gauge, "400 psi", &reply, &why), TT_FAULTY);
    assert_string_equal(
        why, "400 psi can't be right: it lies between 0 psi and 150 psi. Please read it again.");
    assert_int_equal(tt_reply_read(c, gauge, "3 bar", &reply, &why), TT_OK);
    assert_string_equal(why, "3 bar is 43.51 psi.");
    assert_true(reply.number == 3); /* kept as it was said */
    assert_string_equal(reply.unit, "bar");
    assert_int_equal(tt_reply_read(c, gauge, "3 ft", &reply, &why), TT_FAULTY);
    assert_string_equal(why, "'ft' does not fit here. Type it such as 30 psi; other units are fine "
                             "too, such as psi, bar, kPa.");
    /* A digit of a menu, or a reading in another unit, typed at a gauge. */
    assert_int_equal(tt_reply_read(c, gauge, "3", &reply, &why), TT_FAULTY);
    assert_string_equal(why, "3 psi is far from what is usual here, 30 psi to 60 psi. If it is "
                             "right, type it with its unit: 3 psi.");
    assert_int_equal(tt_reply_read(c, gauge, "3 psi", &reply, &why), TT_OK);
    assert_int_equal(tt_reply_read(c, gauge, "0", &reply, &why), TT_OK);
    assert_int_equal(tt_reply_read(c, sound, "7", &reply, &why), TT_FAULTY);
    assert_string_equal(
        why, "That is none of the answers. Type a number from 1 to 3, or the words beside it.");
    assert_int_equal(tt_reply_read(c, sound, "not rapid", &reply, &why), TT_OK);
    assert_int_equal(reply.kind, TT_NOT);
    assert_int_equal(tt_reply_read(c, gauge, "12,5", &reply, &why), TT_OK);
    assert_true(reply.number == 12.5);
    tt_case_free(c);
}

static void worked_cases_pass_and_fail_as_they_should(void **state)
{
    tt_trials trials;
    assert_int_equal(tt_try(*state, &trials), TT_OK);
    assert_int_equal(trials.count, 2);
    assert_int_equal(trials.passed, 1);
    assert_true(trials.items[0].passed);
    assert_string_equal(trials.items[1].why, "leading cause: expected leak, got no-power");
    assert_true(trials.unused_count > 0);
}

static void why_adds_up(void **state)
{
    tt_book *book = *state;
    tt_case *c = begin(book, NULL);
    say(book, c, "pump-sound", "rapid");
    tt_why why;
    uint32_t count;
    assert_int_equal(tt_why_cause(c, 0, TT_NONE, &why), TT_OK);
    assert_int_equal(why.bar_count, 3); /* how often, what is not told of the place, the answer */
    const double odds = 10 * log10(why.cause.chance / why.rival.chance);
    double sum = 0;
    for (uint32_t i = 0; i < why.bar_count; i++) sum += why.bars[i].decibels;
    assert_true(fabs(sum - odds) < 1e-9);
    const tt_reason *reasons;
    assert_int_equal(tt_why_asked(c, tt_question_find(book, "tank-gauge"), &reasons, &count),
                     TT_OK);
    assert_int_equal(count, 5); /* below 20, at least 20, each with its figure; the place */
    for (uint32_t i = 0; i < count; i++) {
        const bool figures =
            strstr(reasons[i].text, ".yaml") != NULL || strstr(reasons[i].text, "of 100") != NULL;
        assert_int_equal(reasons[i].for_authors, figures);
    }
    tt_case_free(c);
}

static int set_up(void **state)
{
    *state = load(in_order);
    return 0;
}

static int tear_down(void **state)
{
    tt_book_free(*state);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_report_outlives_its_book),
        cmocka_unit_test(danger_comes_first_and_stops),
        cmocka_unit_test(chances_sum_to_one_and_lead_to_a_fix),
        cmocka_unit_test(order_of_answers_and_files_changes_nothing),
        cmocka_unit_test(undo_change_and_retraction_are_exact),
        cmocka_unit_test(rules_chain_and_move_the_prior),
        cmocka_unit_test(a_question_waits_for_the_fact_it_needs),
        cmocka_unit_test(failed_fix_lowers_its_cause_and_is_put_back),
        cmocka_unit_test(put_back_once_after_no_change),
        cmocka_unit_test(a_fix_that_waits_has_its_fact_asked),
        cmocka_unit_test(better_shows_pairs_and_asks_again),
        cmocka_unit_test(complaints_are_heard_in_own_words),
        cmocka_unit_test(wrong_answers_say_what_to_type),
        cmocka_unit_test(worked_cases_pass_and_fail_as_they_should),
        cmocka_unit_test(why_adds_up),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
