/* Two desks on one case: views that are behind, news that comes late, in another order or at a bad
 * moment, and both ending it. */
#include "book_folder.h"
#include "one_desk.h"
#include "talk_kit.h"
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/value.h"

static const char morning[] = "2026-11-29T09:00:00+01:00";

typedef struct scene {
    tt_book *b;
    record_folder *f;
    told_talk east, west;
} scene;

static int set_up(void **state)
{
    scene *s = malloc(sizeof *s);
    assert_non_null(s);
    s->b = book_folder("rules/foam-line");
    s->f = record_folder_new();
    s->east = talk_open(s->b, s->f, "east", NULL, NULL, morning);
    choose(&s->east, "safe");
    s->west = talk_open(s->b, s->f, "west", NULL, "join", morning);
    choose(&s->west, "safe");
    talk_news_of_others(&s->east);
    *state = s;
    return 0;
}

static int tear_down(void **state)
{
    scene *s = *state;
    talk_close(&s->west);
    talk_close(&s->east);
    record_folder_free(s->f);
    tt_book_free(s->b);
    free(s);
    return 0;
}

static void reach_fix(told_talk *t)
{
    hear_hiss(t);
    assert_turn(read_off(t, 55, "psi"), TT_TURN_BEFORE_FIX);
}

static void both_see_all(scene *s)
{
    talk_news_of_others(&s->east);
    talk_news_of_others(&s->west);
}

/* ---- danger ---- */

static void a_new_danger_brings_the_page_back_before_the_answer(void **state)
{
    scene *s = *state;
    choose(&s->east, "danger");
    assert_turn(choose(&s->east, "mistaken"), TT_TURN_DANGER);
    choose(&s->west, "change");
    choose(&s->west, "answer-danger");
    choose(&s->west, "burnt");
    talk_news_of_others(&s->east);
    assert_turn(turn_of(&s->east), TT_TURN_STOP); /* east has not seen this one */
}

static void news_that_tell_no_danger_leave_the_question_there(void **state)
{
    scene *s = *state;
    choose(&s->east, "danger");
    assert_turn(choose(&s->east, "mistaken"), TT_TURN_DANGER);
    choose(&s->west, "foam-too-dry");
    talk_news_of_others(&s->east);
    assert_turn(turn_of(&s->east), TT_TURN_DANGER);
}

static void the_page_stays_as_it_is_when_somebody_unaware_says_safe(void **state)
{
    scene *s = *state;
    assert_turn(type(&s->east, "i got soap in my eyes"), TT_TURN_STOP);
    const char *first_aid = "Rinse";
    assert_true(turn_tells(turn_of(&s->east), TT_PART_DO, first_aid));
    choose(&s->west, "change"); /* west has not heard of it */
    choose(&s->west, "answer-danger");
    choose(&s->west, "safe");
    talk_news_of_others(&s->east);
    assert_turn(turn_of(&s->east), TT_TURN_STOP);
    assert_true(turn_tells(turn_of(&s->east), TT_PART_DO, first_aid));
}

static void the_page_stays_as_it_is_when_the_answer_is_unsure(void **state)
{
    scene *s = *state;
    type(&s->east, "i got soap in my eyes");
    choose(&s->east, "mistaken");
    const tt_turn *turn = choose(&s->east, "unsure");
    assert_turn(turn, TT_TURN_STOP);
    assert_true(turn_tells(turn, TT_PART_DO, "Rinse"));
}

/* ---- news at a bad moment ---- */

static void there_is_no_next_turn_before_a_reply_is_kept(void **state)
{
    scene *s = *state;
    const tt_record *records;
    uint32_t count;
    choose(&s->west, "foam-too-dry");
    const uint32_t number = turn_of(&s->east)->number;
    assert_int_equal(
        tt_talk_hear(s->east.talk, &(tt_heard){.choice = "danger"}, morning, &records, &count),
        TT_OK);
    assert_int_equal(count, 1);
    talk_news_of_others(&s->east);
    assert_int_equal(turn_of(&s->east)->number, number);
    assert_string_equal(records[0].kind, "danger"); /* still there to be kept */
    assert_int_equal(tt_talk_kept(s->east.talk, true), TT_OK);
    assert_turn(turn_of(&s->east), TT_TURN_STOP);
    assert_true(turn_tells(turn_of(&s->east), TT_PART_NOTE, "dry"));
}

static void one_s_own_take_over_read_again_is_nobody_else_s(void **state)
{
    scene *s = *state;
    told_talk third = talk_open(s->b, s->f, "third", NULL, "take-over", morning);
    assert_int_equal(tt_talk_take(third.talk, last_record(s->f, "resume"), 1), TT_OK);
    assert_turn(turn_of(&third), TT_TURN_DANGER);
    assert_turn(choose(&third, "safe"), TT_TURN_COMPLAINT);
    talk_close(&third);
}

/* East's words are heard, and not confirmed yet, when somebody takes the case over. */
static void what_was_said_is_kept_and_comes_back_after_a_take_over(void **state)
{
    scene *s = *state;
    assert_turn(type(&s->east, "dry foam"), TT_TURN_CONFIRM);
    assert_string_equal(value_text(last_record(s->f, "said")->data, "words"), "dry foam");
    told_talk third = talk_open(s->b, s->f, "third", NULL, "take-over", morning);
    talk_news_of_others(&s->east);
    assert_turn(turn_of(&s->east), TT_TURN_TAKEN_OVER);
    choose(&s->east, "known");
    assert_turn(choose(&s->east, "go-on"), TT_TURN_TAKEN_OVER);
    assert_turn(choose(&s->east, "go-on"), TT_TURN_CONFIRM);
    talk_close(&third);
}

/* ---- back ---- */

static void back_takes_nothing_of_somebody_else(void **state)
{
    scene *s = *state;
    choose(&s->east, "foam-too-dry");
    talk_news_of_others(&s->west);
    read_off(&s->west, 55, "psi");
    talk_news_of_others(&s->east);
    const tt_turn *turn = choose(&s->east, "back");
    assert_string_equal(turn->wrong_code, "nothing-back");
    assert_null(last_record(s->f, "back"));
    assert_turn(choose(&s->west, "back"), TT_TURN_QUESTION); /* whose it is may */
    assert_non_null(last_record(s->f, "back"));
}

/* ---- fixes ---- */

static void a_fix_that_another_begins_leaves_one_s_own_way_alone(void **state)
{
    scene *s = *state;
    reach_fix(&s->east);
    choose(&s->east, "begin");
    choose(&s->east, "done");
    assert_int_equal(turn_of(&s->east)->step, 2);
    talk_news_of_others(&s->west);
    choose(&s->west, "begin");
    talk_news_of_others(&s->east);
    assert_turn(turn_of(&s->east), TT_TURN_FIX_STEP);
    assert_int_equal(turn_of(&s->east)->step, 2);
    assert_int_equal(turn_of(&s->west)->step, 1);
}

static void whoever_takes_over_is_told_what_was_begun(void **state)
{
    scene *s = *state;
    reach_fix(&s->east);
    char first[200];
    snprintf(first, sizeof first, "%s", choose(&s->east, "begin")->prompt);
    choose(&s->east, "done");
    told_talk third = talk_open(s->b, s->f, "third", NULL, "take-over", morning);
    assert_true(turn_tells(turn_of(&third), TT_PART_LOCKED, first));
    talk_close(&third);
}

/* What was gone back before is not told as done: it may be a lock. */
static void whoever_takes_over_is_told_what_was_not_begun(void **state)
{
    scene *s = *state;
    reach_fix(&s->east);
    choose(&s->east, "begin");
    choose(&s->east, "back");
    assert_string_equal(value_text(last_record(s->f, "step")->data, "how"), "not-begun");
    told_talk third = talk_open(s->b, s->f, "third", NULL, "take-over", morning);
    assert_true(turn_tells(turn_of(&third), TT_PART_LOCKED, "went back before: "));
    assert_false(turn_tells(turn_of(&third), TT_PART_LOCKED, "done: "));
    talk_close(&third);
}

static void whoever_takes_over_is_told_the_trouble_and_what_it_points_to(void **state)
{
    scene *s = *state;
    reach_fix(&s->east);
    told_talk third = talk_open(s->b, s->f, "third", NULL, "take-over", morning);
    assert_true(turn_tells(turn_of(&third), TT_PART_NOTE, "Trouble: "));
    assert_true(turn_tells(turn_of(&third), TT_PART_NOTE, "Points to: "));
    talk_close(&third);
}

/* ---- both end it ---- */

static const tt_turn *cure(told_talk *t)
{
    const tt_turn *turn = choose(t, "begin");
    while (turn->kind == TT_TURN_FIX_STEP) turn = choose(t, "done");
    while (turn->kind == TT_TURN_LOOK_AGAIN) turn = read_off(t, 30, "psi");
    return choose(t, "gone");
}

static void two_who_close_it_at_once_agree(void **state)
{
    scene *s = *state;
    reach_fix(&s->east);
    talk_news_of_others(&s->west);
    assert_turn(cure(&s->east), TT_TURN_CAUSE);
    assert_turn(cure(&s->west), TT_TURN_CAUSE);
    both_see_all(s);
    assert_turn(turn_of(&s->east), TT_TURN_CAUSE);
    assert_turn(turn_of(&s->west), TT_TURN_CAUSE);
    assert_turn(choose(&s->east, "yes"), TT_TURN_END);
    assert_turn(choose(&s->west, "yes"), TT_TURN_END);
}

static tt_case_state listed_as(const record_folder *f)
{
    tt_journal *j;
    tt_case_summary summary;
    assert_int_equal(tt_journal_new(f->records, f->count, NULL, &j), TT_OK);
    assert_int_equal(tt_journal_summary(j, &summary), TT_OK);
    tt_journal_free(j);
    return summary.state;
}

/* West says that it is gone, and has not heard of the smoke that east answered. */
static void whoever_has_not_heard_of_an_unsafe_answer_closes_nothing(void **state)
{
    scene *s = *state;
    reach_fix(&s->east);
    talk_news_of_others(&s->west);
    choose(&s->east, "change");
    choose(&s->east, "answer-danger");
    assert_turn(choose(&s->east, "burnt"), TT_TURN_STOP);
    assert_true(value_truth(last_record(s->f, "answer")->data, "danger"));
    assert_turn(cure(&s->west), TT_TURN_CAUSE);
    choose(&s->west, "yes");
    assert_string_equal(value_text(last_record(s->f, "close")->data, "how"), "gone");
    assert_int_equal(listed_as(s->f), TT_CASE_OPEN);
    both_see_all(s);
    assert_turn(turn_of(&s->east), TT_TURN_STOP);
    assert_false(turn_of(&s->west)->gate_open);
}

static void both_reports_are_taken_back_when_it_is_opened_again(void **state)
{
    scene *s = *state;
    two_who_close_it_at_once_agree(state);
    told_talk third = talk_open(s->b, s->f, "third", NULL, "resume", morning);
    assert_turn(choose(&third, "reopen"), TT_TURN_DANGER);
    assert_int_equal(value_get(last_record(s->f, "back")->data, "steps")->count, 2);
    assert_turn(choose(&third, "safe"), TT_TURN_BEFORE_FIX);
    talk_close(&third);
}

static void it_came_back_is_said_of_what_had_helped(void **state)
{
    scene *s = *state;
    reach_fix(&s->east);
    talk_news_of_others(&s->west);
    choose(&s->west, "could-not"); /* later in the order, and it did not help */
    char cured[80];
    snprintf(cured, sizeof cured, "%s", turn_of(&s->east)->subject);
    assert_turn(cure(&s->east), TT_TURN_CAUSE);
    choose(&s->east, "yes");
    told_talk third = talk_open(s->b, s->f, "third", NULL, "resume", morning);
    assert_turn(choose(&third, "reopen"), TT_TURN_DANGER);
    assert_null(last_record(s->f, "back")); /* two told differently what came of it: that is to be
                                               settled, and nothing taken back */
    const tt_turn *turn = choose(&third, "safe");
    assert_turn(turn, TT_TURN_SETTLE);
    const uint32_t gone = strstr(turn->choices[0].text, "gone") != NULL ? 0 : 1;
    assert_turn(choose(&third, turn->choices[gone].id), TT_TURN_CLOSED);
    choose(&third, "came-back");
    assert_string_equal(value_text(last_record(s->f, "came-back")->data, "fix"), cured);
    assert_turn(choose(&third, "back"), TT_TURN_DANGER); /* its sitting begins there */
    assert_true(choose(&third, "safe")->kind != TT_TURN_CLOSED);
    talk_close(&third);
}

/* ---- in any order ---- */

static void describe(const tt_turn *turn, char *out, size_t size)
{
    size_t at = (size_t)snprintf(out, size, "%s|%s|%d|", tt_turn_kind_name(turn->kind),
                                 turn->prompt, turn->gate_open);
    for (uint32_t i = 0; i < turn->choice_count && at < size; i++)
        at += (size_t)snprintf(out + at, size - at, "%s=%s|", turn->choices[i].id,
                               turn->choices[i].text);
    for (uint32_t i = 0; i < turn->part_count; i++)
        for (uint32_t k = 0; k < turn->parts[i].item_count && at < size; k++)
            at += (size_t)snprintf(out + at, size - at, "%s;", turn->parts[i].items[k]);
    for (uint32_t i = 0; i < turn->news_count; i++)
        for (uint32_t k = 0; k < turn->news[i].item_count && at < size; k++)
            at += (size_t)snprintf(out + at, size - at, "%s;", turn->news[i].items[k]);
}

static void the_same_records_give_the_same_turns_in_whatever_order_they_came(void **state)
{
    enum { SIZE = 20000, ORDERS = 12 };
    scene *s = *state;
    reach_fix(&s->east);
    talk_news_of_others(&s->west);
    choose(&s->east, "begin");
    choose(&s->west, "danger");
    choose(&s->east, "done");
    both_see_all(s);
    record_folder *mixed = record_folder_new();
    char *first = malloc(SIZE), *other = malloc(SIZE);
    assert_true(first != NULL && other != NULL);
    for (uint32_t order = 0; order < ORDERS; order++) {
        mixed->count = s->f->count;
        for (uint32_t i = 0; i < mixed->count; i++)
            mixed->records[i] = s->f->records[(i * 7 + order) % mixed->count];
        if (mixed->count % 7 == 0)
            for (uint32_t i = 0; i < mixed->count; i++)
                mixed->records[i] = s->f->records[mixed->count - 1 - i];
        told_talk third = talk_open(s->b, mixed, "third", NULL, "join", morning);
        describe(turn_of(&third), order == 0 ? first : other, SIZE);
        if (order > 0) assert_string_equal(first, other);
        choose(&third, "known");
        choose(&third, "go-on");
        choose(&third, "mistaken");
        describe(choose(&third, "safe"), other, SIZE);
        talk_close(&third);
    }
    free(first);
    free(other);
    record_folder_free(mixed);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_new_danger_brings_the_page_back_before_the_answer),
        TEST(news_that_tell_no_danger_leave_the_question_there),
        TEST(the_page_stays_as_it_is_when_somebody_unaware_says_safe),
        TEST(the_page_stays_as_it_is_when_the_answer_is_unsure),
        TEST(there_is_no_next_turn_before_a_reply_is_kept),
        TEST(one_s_own_take_over_read_again_is_nobody_else_s),
        TEST(what_was_said_is_kept_and_comes_back_after_a_take_over),
        TEST(back_takes_nothing_of_somebody_else),
        TEST(a_fix_that_another_begins_leaves_one_s_own_way_alone),
        TEST(whoever_takes_over_is_told_what_was_begun),
        TEST(whoever_takes_over_is_told_what_was_not_begun),
        TEST(whoever_takes_over_is_told_the_trouble_and_what_it_points_to),
        TEST(two_who_close_it_at_once_agree),
        TEST(whoever_has_not_heard_of_an_unsafe_answer_closes_nothing),
        TEST(both_reports_are_taken_back_when_it_is_opened_again),
        TEST(it_came_back_is_said_of_what_had_helped),
        TEST(the_same_records_give_the_same_turns_in_whatever_order_they_came),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
