/* A second look: asked for before what can't be undone, kept beside the first, told, and taken
 * back; and two answers that don't fit together. */
#include <stdio.h>
#include <string.h>

#include "base/value.h"
#include "small_book.h"
#include "talk_kit.h"
#include "testing.h"

#define NOW "2026-11-29T10:00:00+00:00"

static const char rules[] =
    "book:\n  title: Pump\n  roles: [anybody]\n  two-faults: 0 %\n"
    "instruments:\n"
    "  gauge:\n    text: the gauge on the pump\n    wrong: 3 %\n    another: the spare gauge\n"
    "questions:\n"
    "  dial:\n    ask: Does the gauge stand in the green?\n    instrument: gauge\n    takes: 1 "
    "min\n"
    "  seal:\n    ask: Is the seal wet?\n    takes: 1 min\n"
    "symptoms:\n"
    "  off:\n    text: The gauge is off\n    when: {dial: no}\n    shown-by: {worn: 90 %}\n"
    "    otherwise: 5 %\n"
    "  wet:\n    text: The seal is wet\n    when: {seal: yes}\n    shown-by: {torn: 90 %}\n"
    "    otherwise: 5 %\n"
    "causes:\n"
    "  worn:\n    text: The wheel is worn\n  torn:\n    text: The seal is torn\n    how-often: 2\n"
    "fixes:\n"
    "  wheel:\n    text: Change the wheel\n    role: anybody\n    takes: 90 min\n"
    "    cures: {worn: 90 %}\n    harm: none\n    put-back: impossible\n"
    "  new-seal:\n    text: Change the seal\n    role: anybody\n    takes: 60 min\n"
    "    cures: {torn: 90 %}\n    harm: none\n    put-back: impossible\n";

static const tt_turn *to_second_look(told_talk *t)
{
    const tt_turn *turn = turn_of(t);
    for (unsigned i = 0; i < 6 && turn->kind != TT_TURN_LOOK_AGAIN; i++)
        turn = choose(t, turn->kind == TT_TURN_COMPLAINT ? "none" : "no");
    assert_turn(turn, TT_TURN_LOOK_AGAIN);
    assert_string_equal(turn->subject, "dial");
    return turn;
}

static void both_looks_are_kept(void **state)
{
    (void)state;
    tt_book *b = small_book(rules);
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "w1", "anybody", NULL, NOW);
    const tt_turn *turn = to_second_look(&t);
    assert_true(turn_tells(turn, TT_PART_NOTE, "worth a second look"));
    assert_true(turn_tells(turn, TT_PART_LOOK, "Use the spare gauge."));
    choose(&t, "yes");
    const tt_record *kept = last_record(f, "again");
    assert_non_null(kept);
    assert_string_equal(value_text(kept->data, "instrument"), "another");
    assert_string_equal(value_text(last_record(f, "answer")->data, "question"), "seal");
    turn = choose(&t, "known");
    assert_true(turn_tells(turn, TT_PART_KINDS, "(seen before: No)"));
    choose(&t, "go-on");
    turn = choose(&t, "back");
    assert_turn(turn, TT_TURN_LOOK_AGAIN);
    assert_string_equal(turn->subject, "dial");
    turn = choose(&t, "unsure"); /* leaves the first look as it is, and is not asked for again */
    assert_true(turn->kind != TT_TURN_LOOK_AGAIN || !turn_tells(turn, TT_PART_LOOK, "spare"));
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

static void a_case_taken_up_has_both(void **state)
{
    (void)state;
    tt_book *b = small_book(rules);
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "w1", "anybody", NULL, NOW);
    to_second_look(&t);
    choose(&t, "yes");
    const tt_turn *turn = turn_of(&t);
    char first[200], second[200];
    snprintf(first, sizeof first, "%s", turn->leading[0].text);
    talk_close(&t);
    t = talk_open(b, f, "w1", "anybody", "resume", NOW);
    snprintf(second, sizeof second, "%s", turn_of(&t)->leading[0].text);
    assert_string_equal(first, second);
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(both_looks_are_kept),
        cmocka_unit_test(a_case_taken_up_has_both),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
