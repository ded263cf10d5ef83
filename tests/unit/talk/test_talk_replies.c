/* Replies in words that stand for a choice, at each kind of turn: a yes or a no means what was
 * asked, and what was not asked is not taken for it. */
#include "book_folder.h"
#include "one_desk.h"
#include "testing.h"
#include "two_jobs.h"

#include <string.h>

#include "base/value.h"

typedef one_desk scene;

#define JOB "    role: hand\n    protect: [Gloves]\n"

static int at_two_jobs(void **state)
{
    scene *s = one_desk_new(two_jobs_book(
        &(two_jobs){.roles = "[{hand: {authorised: yes}}]", .renew = JOB, .tighten = JOB}));
    say_it_is_safe(&s->east, "no");
    choose(&s->east, "bad-look");
    if (turn_of(&s->east)->kind == TT_TURN_REVIEW) choose(&s->east, "right");
    assert_turn(turn_of(&s->east), TT_TURN_BEFORE_FIX);
    *state = s;
    return 0;
}

static const tt_turn *to_outcome(told_talk *t)
{
    const tt_turn *turn = turn_of(t);
    if (turn->kind == TT_TURN_BEFORE_FIX) turn = choose(t, "begin");
    while (turn->kind == TT_TURN_FIX_STEP) turn = choose(t, "done");
    if (turn->kind == TT_TURN_BEFORE_FIX) turn = choose(t, "alone");
    while (turn->kind == TT_TURN_FIX_STEP) turn = choose(t, "done");
    assert_turn(turn, TT_TURN_OUTCOME);
    return turn;
}

static const char *outcome_of(const scene *s)
{
    const tt_record *r = last_record(s->f, "tried");
    return r != NULL ? value_text(r->data, "outcome") : "";
}

/* What came of it, in the words that people have for it. */
static void an_outcome_is_heard_in_words(void **state)
{
    static const char *const said[][2] = {{"a bit better", "better"},
                                          {"it got worse", "worse"},
                                          {"i could not do it", "could-not"},
                                          {"nothing changed", "no-change"},
                                          {"it is gone", "gone"},
                                          {"un poco mejor", "better"},
                                          {"esta peor", "worse"},
                                          {"no, worse", "worse"},
                                          {"no, esta peor", "worse"},
                                          {"not better, worse", "worse"},
                                          {"no pude hacerlo", "could-not"},
                                          {"didn't manage", "could-not"},
                                          {"i did not try it", "could-not"},
                                          {"no lo hice", "could-not"},
                                          {"did not help at all", "no-change"},
                                          {"yes but the same", ""},
                                          {"no worse", ""},
                                          {"good", ""}};
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        assert_int_equal(at_two_jobs(state), 0);
        scene *s = *state;
        to_outcome(&s->east);
        type(&s->east, said[i][0]);
        if (strcmp(outcome_of(s), said[i][1]) != 0) fail_msg("%s: %s", said[i][0], outcome_of(s));
        one_desk_end(state);
    }
    assert_int_equal(at_two_jobs(state), 0);
}

/* On the way what can't be done is heard so; what is not done yet leaves the step as it is. */
static void a_step_that_can_not_be_done_is_heard(void **state)
{
    static const char *const said[][2] = {{"i couldnt do that", "could-not"},
                                          {"no pude hacerlo", "could-not"},
                                          {"not done", ""},
                                          {"did not help", ""}};
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        assert_int_equal(at_two_jobs(state), 0);
        scene *s = *state;
        const tt_turn *turn = choose(&s->east, "begin");
        while (turn->kind == TT_TURN_FIX_STEP && turn->step + 1 < turn->steps)
            turn = choose(&s->east, "done");
        type(&s->east, said[i][0]);
        if (strcmp(outcome_of(s), said[i][1]) != 0) fail_msg("%s: %s", said[i][0], outcome_of(s));
        one_desk_end(state);
    }
    assert_int_equal(at_two_jobs(state), 0);
}

static void choices_are_taken_by_number(void **state)
{
    static const char *const second[] = {"2", "#2", "2.", "2)", "#2)"};
    scene *s = *state;
    for (size_t i = 0; i < sizeof second / sizeof *second; i++) {
        to_outcome(&s->east);
        type(&s->east, second[i]);
        assert_string_equal(outcome_of(s), "better");
        choose(&s->east, "back");
    }
    static const char *const none[] = {"0", "9", "#", "2 2", "#2x", "2 bar", "20000"};
    const uint32_t before = s->f->count;
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        type(&s->east, none[i]);
        assert_turn(turn_of(&s->east), TT_TURN_OUTCOME);
    }
    for (uint32_t i = before; i < s->f->count; i++)
        assert_string_equal(s->f->records[i].kind, "said");
}

/* Also where the word of ours is sent with the colon that makes it one. */
static void not_sure_and_can_not_answer_a_question(void **state)
{
    static const char *const ids[][2] = {
        {"unsure", "unsure"}, {":unsure", "unsure"}, {"cannot", "cannot"}, {":cannot", "cannot"}};
    scene *s = *state;
    choose(&s->east, "safe");
    choose(&s->east, "foam-too-dry");
    for (size_t i = 0; i < sizeof ids / sizeof *ids; i++) {
        assert_turn(turn_of(&s->east), TT_TURN_QUESTION);
        choose(&s->east, ids[i][0]);
        assert_string_equal(turn_of(&s->east)->wrong_code, "");
        const tt_value *reply = value_get(last_record(s->f, "answer")->data, "reply");
        assert_string_equal(value_text(reply, "kind"), ids[i][1]);
        choose(&s->east, "back");
    }
    choose(&s->east, ":sure");
    assert_string_equal(turn_of(&s->east)->wrong_code, "no-such-choice");
}

/* Whoever wants to begin has not said yet what is wrong. */
static void begin_is_no_yes_to_what_was_meant(void **state)
{
    static const char *const said[] = {"begin", "empezar", "go on"};
    scene *s = *state;
    choose(&s->east, "safe");
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        assert_turn(type(&s->east, "foam dry"), TT_TURN_CONFIRM);
        type(&s->east, said[i]);
        assert_null(last_record(s->f, "complaint"));
    }
    if (turn_of(&s->east)->kind != TT_TURN_CONFIRM) type(&s->east, "foam dry");
    type(&s->east, "ok");
    assert_non_null(last_record(s->f, "complaint"));
}

static void yes_begins_to_put_back(void **state)
{
    static const char *const agrees[] = {"yes", "si", "done"};
    for (size_t i = 0; i < sizeof agrees / sizeof *agrees; i++) {
        assert_int_equal(at_two_jobs(state), 0);
        scene *s = *state;
        to_outcome(&s->east);
        assert_turn(choose(&s->east, "no-change"), TT_TURN_PUT_BACK);
        assert_false(turn_offers(turn_of(&s->east), "put-back"));
        assert_turn(type(&s->east, agrees[i]), TT_TURN_FIX_STEP);
        assert_string_equal(turn_of(&s->east)->prompt, "Tell the desk.");
        one_desk_end(state);
    }
    assert_int_equal(at_two_jobs(state), 0);
}

static void asked_back_not_knowing_is_none_of_them(void **state)
{
    static const char *const said[] = {"no", "not sure", "skip"};
    scene *s = *state;
    choose(&s->east, "safe");
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        type(&s->east, "air 55");
        assert_turn(turn_of(&s->east), TT_TURN_ASK_BACK);
        type(&s->east, said[i]);
        assert_turn(turn_of(&s->east), TT_TURN_COMPLAINT);
        const tt_record *r = last_record(s->f, "answer");
        assert_string_equal(value_text(r->data, "question"), "danger");
    }
}

#define AT(name, where) cmocka_unit_test_setup_teardown(name, where, one_desk_end)
int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(an_outcome_is_heard_in_words, one_desk_end),
        cmocka_unit_test_teardown(a_step_that_can_not_be_done_is_heard, one_desk_end),
        AT(choices_are_taken_by_number, at_two_jobs),
        AT(not_sure_and_can_not_answer_a_question, foam_desk),
        AT(begin_is_no_yes_to_what_was_meant, foam_desk),
        cmocka_unit_test_teardown(yes_begins_to_put_back, one_desk_end),
        AT(asked_back_not_knowing_is_none_of_them, foam_desk),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
