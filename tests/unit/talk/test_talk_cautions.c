/* A caution of some hazards stands before each question and fix with one of them, and nowhere else.
 */
#include "small_book.h"
#include "talk_kit.h"
#include "testing.h"

static const char rules[] =
    "book:\n  title: T\n  roles: [helper]\n"
    "  cautions:\n    - Know where the stop button is.\n"
    "    - text: Keep your face away.\n      from: [pressure, chemicals]\n"
    "questions:\n"
    "  danger:\n    ask: Danger?\n    about: today\n    safe: [no]\n"
    "  drip:\n    ask: Does it drip?\n    because: Drops tell where it is open.\n"
    "  tap:\n    ask: What comes out of the tap?\n"
    "    answers: {much: Much, little: Little}\n"
    "    harm:\n      from: [chemicals]\n      unprotected: {worst: marginal, chance: remote}\n"
    "      protected: {worst: negligible, chance: improbable}\n    protect: [Goggles]\n"
    "symptoms:\n"
    "  drips:\n    text: It drips\n    when: {drip: yes}\n    heard: [it drips]\n    shown-by: "
    "{worn: often, torn: often}\n"
    "  little:\n    text: Little\n    when: {tap: little}\n    shown-by: {worn: almost always, "
    "torn: rarely}\n"
    "causes:\n  torn:\n    text: Torn\n  worn:\n    text: Worn\n"
    "fixes:\n  renew:\n    text: Renew\n    role: helper\n    takes: 90 min\n    cures: {worn: "
    "usually}\n    harm: none\n    put-back: not needed\n";

static void a_caution_stands_before_its_hazards(void **state)
{
    (void)state;
    tt_book *b = small_book(rules);
    const tt_book_info info = tt_book_describe(b);
    assert_int_equal(info.caution_count, 1);
    assert_int_equal(info.hazard_caution_count, 1);
    assert_string_equal(info.hazard_cautions[0], "Keep your face away.");
    tt_case *c;
    tt_question q;
    assert_int_equal(tt_case_new(b, &(tt_options){.role = TT_NONE}, &c), TT_OK);
    assert_int_equal(tt_question_show(c, tt_question_find(b, "drip"), &q), TT_OK);
    assert_int_equal(q.safety.caution_count, 0);
    assert_string_equal(q.because, "Drops tell where it is open.");
    assert_int_equal(tt_question_show(c, tt_question_find(b, "tap"), &q), TT_OK);
    assert_int_equal(q.safety.caution_count, 1);
    tt_case_free(c);
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", NULL, NULL, "2026-11-29T09:00:00+01:00");
    choose(&t, "no");
    choose(&t, "drips");
    unsigned seen = 0;
    for (unsigned turns = 0; turns < 4 && turn_of(&t)->kind == TT_TURN_QUESTION; turns++) {
        const bool tap = strcmp(turn_of(&t)->subject, "tap") == 0;
        assert_int_equal(turn_tells(turn_of(&t), TT_PART_CAUTION, "Keep your face away."), tap);
        seen += tap;
        choose(&t, "unsure");
    }
    assert_int_equal(seen, 1);
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

static void why_says_first_why_it_is_asked(void **state)
{
    (void)state;
    tt_book *b = small_book(rules);
    tt_case *c;
    const tt_reason *reasons;
    uint32_t count;
    assert_int_equal(tt_case_new(b, &(tt_options){.role = TT_NONE}, &c), TT_OK);
    assert_int_equal(tt_why_asked(c, tt_question_find(b, "drip"), &reasons, &count), TT_OK);
    assert_true(count > 0);
    assert_string_equal(reasons[0].text, "Drops tell where it is open.");
    tt_case_free(c);
    tt_book_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_caution_stands_before_its_hazards),
        cmocka_unit_test(why_says_first_why_it_is_asked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
