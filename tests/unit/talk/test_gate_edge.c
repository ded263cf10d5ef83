/* A reading that rules danger out up to a limit: at the limit itself it does not, where the book
 * leaves it out, neither in the case nor in what may be taken back, nor for whoever takes it up. */
#include "testing.h"

#include <stdio.h>

#include "small_book.h"
#include "talk_kit.h"

/* %s: what is safe. */
static const char text[] =
    "book: {title: Shaft, roles: [helper], not-listed: 2 %%}\n"
    "questions:\n"
    "  gas:\n"
    "    ask: What does the gas meter read?\n"
    "    about: today\n"
    "    reading: ratio\n"
    "    unit: \"%%\"\n"
    "    plausible: 0 %% to 100 %%\n"
    "    safe: %s\n"
    "  sound: {ask: Humming, usual: no}\n"
    "symptoms:\n"
    "  hums: {text: Hums, when: {sound: yes}, heard: [hums], shown-by: {worn: "
    "almost always}}\n"
    "causes:\n"
    "  worn: {text: Worn, how-often: common}\n"
    "fixes:\n"
    "  turn: {text: Turn, role: helper, cures: {worn: usually}, takes: 3 min, "
    "harm: none, put-back: Back}\n";

static tt_book *shaft(const char *safe)
{
    char all[2048];
    snprintf(all, sizeof all, text, safe);
    return small_book(all);
}

static bool is_open(const told_talk *t)
{
    return turn_of(t)->gate_open;
}

/* After this reading the gate is open or not, for whoever said it and for who takes the case up;
 * and if it is not, nothing said before opens it by being taken back. */
static void reads(const char *safe, double percent, bool open)
{
    tt_book *b = shaft(safe);
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", "helper", NULL, "2026-11-20T10:00:00+00:00");
    read_off(&t, percent, "%");
    if (is_open(&t) != open) fail_msg("safe: %s, %g %%: %s", safe, percent, open ? "shut" : "open");
    if (!open) {
        assert_turn(turn_of(&t), TT_TURN_STOP);
        type(&t, "back"); /* danger is not taken back */
        assert_turn(turn_of(&t), TT_TURN_STOP);
        assert_string_equal(turn_of(&t)->wrong_code, "nothing-back");
        assert_false(is_open(&t));
    }
    talk_close(&t);
    t = talk_open(b, f, "west", "helper", "take-over", "2026-11-20T10:05:00+00:00");
    assert_false(is_open(&t)); /* west has ruled nothing out yet */
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

static void an_end_is_safe_where_the_book_says_so(void **state)
{
    (void)state;
    reads("below 10 %", 9.9, true);
    reads("below 10 %", 10, false);
    reads("at most 10 %", 10, true);
    reads("at most 10 %", 10.1, false);
    reads("above 10 %", 10, false);
    reads("above 10 %", 10.1, true);
    reads("at least 10 %", 10, true);
    reads("at least 10 %", 9.9, false);
    reads("5 % to 10 %", 5, true);
    reads("5 % to 10 %", 10, true);
    reads("5 % to 10 %", 4.9, false);
}

/* Told once, danger by a reading ends by a safe reading alone, not by one at the limit. */
static void at_the_limit_no_danger_is_forgotten(void **state)
{
    (void)state;
    tt_book *b = shaft("below 10 %");
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", "helper", NULL, "2026-11-20T10:00:00+00:00");
    read_off(&t, 40, "%");
    assert_turn(turn_of(&t), TT_TURN_STOP);
    choose(&t, "safe-now");
    read_off(&t, 10, "%");
    assert_turn(turn_of(&t), TT_TURN_STOP);
    assert_false(is_open(&t));
    choose(&t, "safe-now");
    read_off(&t, 9, "%");
    assert_true(is_open(&t));
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

static void ends_are_told_to_programs(void **state)
{
    static const struct {
        const char *safe;
        bool low_in, high_in;
    } rows[] = {{"below 10 %", false, false},
                {"at most 10 %", false, true},
                {"above 10 %", false, false},
                {"at least 10 %", true, false},
                {"5 % to 10 %", true, true}};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        tt_book *b = shaft(rows[i].safe);
        tt_case *c;
        tt_question q;
        assert_int_equal(tt_case_new(b, NULL, &c), TT_OK);
        assert_int_equal(tt_question_show(c, tt_question_find(b, "gas"), &q), TT_OK);
        assert_true(q.gate);
        assert_int_equal(q.safe_low_in, rows[i].low_in);
        assert_int_equal(q.safe_high_in, rows[i].high_in);
        tt_case_free(c);
        tt_book_free(b);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_end_is_safe_where_the_book_says_so),
        cmocka_unit_test(at_the_limit_no_danger_is_forgotten),
        cmocka_unit_test(ends_are_told_to_programs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
