/* The way through a fix, and what is kept of it: one thing after the other, the reading before and
 * after, back, could not, worse. */
#include "book_folder.h"
#include "one_desk.h"
#include "testing.h"

#include <stdlib.h>

#include "base/value.h"

typedef one_desk scene;

static int set_up(void **state)
{
    const int begun = foam_desk(state);
    scene *s = *state;
    reach_foam_fix(&s->east);
    return begun;
}

static const tt_turn *do_all(told_talk *t)
{
    const tt_turn *turn = choose(t, "begin");
    while (turn->kind == TT_TURN_FIX_STEP) turn = choose(t, "done");
    return turn;
}

static void what_hurts_and_what_to_wear_come_before_the_first_thing_to_do(void **state)
{
    scene *s = *state;
    const tt_turn *turn = turn_of(&s->east);
    assert_true(turn_tells(turn, TT_PART_HAZARDS, "pressure"));
    assert_true(turn_tells(turn, TT_PART_WEAR, "Goggles"));
    turn = choose(&s->east, "begin");
    assert_int_equal(turn->step, 1);
    assert_true(turn_tells(turn, TT_PART_WEAR, "Goggles")); /* and with each of them */
}

/* Asked for the reading after the fix, the person says what they see. */
static void worse_is_heard_where_the_reading_is_asked(void **state)
{
    scene *s = *state;
    assert_turn(do_all(&s->east), TT_TURN_LOOK_AGAIN);
    assert_turn(type(&s->east, "it got worse"), TT_TURN_DANGER);
    assert_string_equal(value_text(last_record(s->f, "tried")->data, "outcome"), "worse");
    assert_false(turn_of(&s->east)->gate_open);
}

static void the_last_page_shows_the_reading_before_and_after(void **state)
{
    scene *s = *state;
    const tt_turn *turn = do_all(&s->east);
    assert_turn(turn, TT_TURN_LOOK_AGAIN);
    assert_string_equal(turn->subject, "foam-air");
    assert_turn(read_off(&s->east, 30, "psi"), TT_TURN_OUTCOME);
    choose(&s->east, "gone");
    turn = choose(&s->east, "yes");
    assert_turn(turn, TT_TURN_END);
    assert_string_equal(turn->how, "gone");
    assert_true(turn_tells(turn, TT_PART_BEFORE_AFTER, "55 psi before, 30 psi after"));
    assert_true(turn_tells(turn, TT_PART_DIFFERENT, "55 psi before, 30 psi after"));
    assert_false(turn_tells(turn, TT_PART_DIFFERENT, "done"));
    assert_int_equal(turn->measured_count, 1);
    assert_string_equal(turn->measured[0].name, "foam-air-to-mark");
    assert_string_equal(turn->measured[0].before, "55 psi");
    assert_string_equal(turn->measured[0].after, "30 psi");
    const tt_record *measured = last_record(s->f, "measured");
    assert_non_null(measured);
    assert_string_equal(value_text(measured->data, "when"), "after");
}

static void what_was_read_stays_once_it_is_put_back(void **state)
{
    scene *s = *state;
    do_all(&s->east);
    read_off(&s->east, 44, "psi");
    choose(&s->east, "no-change");
    const tt_measured *all;
    uint32_t count;
    assert_int_equal(tt_talk_measured(s->east.talk, &all, &count), TT_OK);
    assert_int_equal(count, 1);
    assert_string_equal(all[0].before, "55 psi");
    assert_string_equal(all[0].after, "44 psi");
    while (turn_of(&s->east)->kind == TT_TURN_PUT_BACK ||
           turn_of(&s->east)->kind == TT_TURN_FIX_STEP)
        choose(&s->east, turn_of(&s->east)->kind == TT_TURN_FIX_STEP  ? "done"
                         : turn_offers(turn_of(&s->east), "put-back") ? "put-back"
                                                                      : "begin");
    assert_int_equal(tt_talk_measured(s->east.talk, &all, &count), TT_OK);
    assert_string_equal(all[0].after, "44 psi"); /* also once it is as it was found */
}

static void a_reading_that_is_none_is_asked_again(void **state)
{
    scene *s = *state;
    do_all(&s->east);
    const tt_turn *turn = read_off(&s->east, 30, "minutes");
    assert_turn(turn, TT_TURN_LOOK_AGAIN);
    assert_string_not_equal(turn->wrong, "");
    assert_null(last_record(s->f, "measured"));
}

static void done_says_that_it_is_done_and_not_that_it_helped(void **state)
{
    scene *s = *state;
    assert_turn(type(&s->east, "ok"), TT_TURN_FIX_STEP);
    const uint32_t first = turn_of(&s->east)->step;
    type(&s->east, "begin"); /* so it is not done yet */
    assert_turn(turn_of(&s->east), TT_TURN_FIX_STEP);
    assert_int_equal(turn_of(&s->east)->step, first);
    while (turn_of(&s->east)->kind == TT_TURN_FIX_STEP) type(&s->east, "done");
    read_off(&s->east, 30, "psi");
    static const char *const unclear[] = {"done", "ok", "listo", "finished"};
    for (size_t i = 0; i < sizeof unclear / sizeof unclear[0]; i++) {
        const tt_turn *turn = type(&s->east, unclear[i]);
        assert_turn(turn, TT_TURN_OUTCOME);
        assert_string_equal(turn->wrong_code, "not-understood");
    }
    type(&s->east, "fixed");
    assert_string_equal(value_text(last_record(s->f, "tried")->data, "outcome"), "gone");
}

static void back_goes_back_one_thing_at_a_time(void **state)
{
    scene *s = *state;
    choose(&s->east, "begin");
    choose(&s->east, "done");
    assert_int_equal(turn_of(&s->east)->step, 2);
    assert_int_equal(choose(&s->east, "back")->step, 1);
}

static void a_menu_is_left_without_a_change(void **state)
{
    scene *s = *state;
    const uint32_t before = s->f->count;
    assert_turn(choose(&s->east, "change"), TT_TURN_CHANGE);
    assert_turn(choose(&s->east, "back"), TT_TURN_BEFORE_FIX);
    assert_turn(choose(&s->east, "change"), TT_TURN_CHANGE);
    assert_turn(choose(&s->east, "none"), TT_TURN_BEFORE_FIX);
    assert_int_equal(s->f->count, before);
}

/* A page over a menu is closed, not the menu with it. */
static void back_from_a_page_is_to_the_menu_under_it(void **state)
{
    scene *s = *state;
    choose(&s->east, "change");
    assert_turn(choose(&s->east, "known"), TT_TURN_KNOWN);
    assert_turn(choose(&s->east, "back"), TT_TURN_CHANGE);
    assert_turn(choose(&s->east, "back"), TT_TURN_BEFORE_FIX);
}

static void the_last_page_says_what_helped(void **state)
{
    scene *s = *state;
    do_all(&s->east);
    read_off(&s->east, 30, "psi");
    choose(&s->east, "gone");
    const tt_turn *turn = choose(&s->east, "yes");
    assert_turn(turn, TT_TURN_END);
    assert_true(turn_tells(turn, TT_PART_NOTE, "The trouble is gone. What helped: "));
    assert_true(turn_tells(turn, TT_PART_NOTE, "What it most likely was: "));
}

static void whoever_stops_is_told_what_it_points_to(void **state)
{
    scene *s = *state;
    const tt_turn *turn = choose(&s->east, "stop");
    assert_turn(turn, TT_TURN_END);
    assert_true(turn_tells(turn, TT_PART_CAUSES, "%"));
}

static void a_changed_answer_is_said_back_with_the_old_one(void **state)
{
    scene *s = *state;
    choose(&s->east, "change");
    assert_turn(choose(&s->east, "foam-air"), TT_TURN_QUESTION);
    const tt_turn *turn = read_off(&s->east, 50, "psi");
    assert_true(turn_tells(turn, TT_PART_NOTE, "55 psi"));
    assert_true(turn_tells(turn, TT_PART_NOTE, "50 psi"));
}

static void what_could_not_be_finished_is_undone_the_last_first(void **state)
{
    scene *s = *state;
    const tt_turn *turn = choose(&s->east, "begin");
    const char first[] = "Write down what the gauge reads";
    assert_true(strstr(turn->prompt, first) != NULL);
    choose(&s->east, "done");
    turn = choose(&s->east, "could-not");
    assert_true(turn_tells(turn, TT_PART_PUT_BACK, first));
    assert_string_equal(value_text(last_record(s->f, "tried")->data, "outcome"), "could-not");
}

static void worse_in_the_middle_is_kept_and_counts_as_no_help(void **state)
{
    scene *s = *state;
    choose(&s->east, "begin");
    choose(&s->east, "worse");
    assert_string_equal(value_text(last_record(s->f, "tried")->data, "outcome"), "worse");
    assert_turn(turn_of(&s->east), TT_TURN_DANGER);
    assert_turn(choose(&s->east, "back"),
                TT_TURN_DANGER); /* a slip is taken back, and danger is asked about all the same */
    assert_turn(choose(&s->east, "safe"), TT_TURN_BEFORE_FIX);
}

static void the_same_call_is_told_in_the_same_words(void **state)
{
    scene *s = *state;
    record_folder *again = record_folder_new();
    told_talk twin = talk_open(s->b, again, "east", NULL, NULL, "2026-11-29T09:00:00+01:00");
    choose(&twin, "safe");
    hear_hiss(&twin);
    const tt_turn *one = read_off(&twin, 55, "psi"), *other = turn_of(&s->east);
    assert_string_equal(one->prompt, other->prompt);
    assert_int_equal(one->part_count, other->part_count);
    for (uint32_t i = 0; i < one->part_count; i++)
        for (uint32_t k = 0; k < one->parts[i].item_count; k++)
            assert_string_equal(one->parts[i].items[k], other->parts[i].items[k]);
    assert_int_equal(again->count, s->f->count);
    talk_close(&twin);
    record_folder_free(again);
}

static void taken_up_by_another_it_begins_again_at_the_top(void **state)
{
    scene *s = *state;
    choose(&s->east, "begin");
    choose(&s->east, "done");
    told_talk west = talk_open(s->b, s->f, "west", NULL, "take-over", "2026-11-29T09:05:00+01:00");
    choose(&west, "safe");
    assert_turn(turn_of(&west), TT_TURN_BEFORE_FIX);
    assert_int_equal(choose(&west, "begin")->step, 1);
    talk_news_of_others(&s->east);
    assert_turn(turn_of(&s->east), TT_TURN_TAKEN_OVER);
    talk_close(&west);
}

/* ---- keeping ---- */

static void what_can_t_be_kept_counts_and_is_said_on_every_turn(void **state)
{
    scene *s = *state;
    const tt_record *records;
    uint32_t count;
    assert_int_equal(
        tt_talk_hear(s->east.talk, &(tt_heard){.choice = "begin"}, s->east.now, &records, &count),
        TT_OK);
    assert_true(count > 0);
    assert_int_equal(
        tt_talk_hear(s->east.talk, &(tt_heard){.choice = "done"}, s->east.now, &records, &count),
        TT_NOT_NOW);
    assert_int_equal(tt_talk_kept(s->east.talk, false), TT_OK);
    assert_turn(turn_of(&s->east), TT_TURN_FIX_STEP);
    assert_string_equal(turn_of(&s->east)->wrong_code, "not-kept");
    assert_false(turn_of(&s->east)->kept);
    assert_false(choose(&s->east, "done")->kept);
    assert_non_null(
        strstr(choose(&s->east, "stop")->prompt, "Not all that was said could be kept"));
}

static void a_reply_to_another_turn_changes_nothing(void **state)
{
    scene *s = *state;
    const tt_record *records;
    uint32_t count;
    const uint32_t number = turn_of(&s->east)->number;
    assert_int_equal(tt_talk_hear(s->east.talk, &(tt_heard){.turn = number - 1, .choice = "begin"},
                                  s->east.now, &records, &count),
                     TT_NOT_NOW);
    assert_int_equal(turn_of(&s->east)->number, number);
    assert_turn(turn_of(&s->east), TT_TURN_BEFORE_FIX);
}

/* A thousand calls in one process, over one book. */
static void a_thousand_talks_share_a_book(void **state)
{
    enum { TALKS = 1000 };
    scene *s = *state;
    tt_talk **talks = calloc(TALKS, sizeof *talks);
    assert_non_null(talks);
    const tt_record *records;
    uint32_t count;
    const tt_talk_options options = {.writer = "desk", .kept = true};
    for (uint32_t i = 0; i < TALKS; i++) {
        assert_int_equal(tt_talk_new(s->b, &options, &talks[i]), TT_OK);
        assert_int_equal(tt_talk_begin(talks[i], "2026-11-29T09:00:00Z", &records, &count), TT_OK);
        assert_int_equal(count, 0); /* nothing is kept of a call in which nothing was said */
    }
    for (uint32_t i = 0; i < TALKS; i++) {
        const char *answer = i % 2 == 0 ? "safe" : "burnt";
        assert_int_equal(tt_talk_hear(talks[i], &(tt_heard){.choice = answer},
                                      "2026-11-29T09:00:00Z", &records, &count),
                         TT_OK);
        assert_int_equal(count, 2);
        assert_int_equal(tt_talk_kept(talks[i], true), TT_OK);
    }
    for (uint32_t i = 0; i < TALKS; i++) {
        assert_turn(tt_talk_turn(talks[i]), i % 2 == 0 ? TT_TURN_COMPLAINT : TT_TURN_STOP);
        tt_talk_free(talks[i]);
    }
    free(talks);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, one_desk_end)
int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(what_hurts_and_what_to_wear_come_before_the_first_thing_to_do),
        TEST(worse_is_heard_where_the_reading_is_asked),
        TEST(the_last_page_shows_the_reading_before_and_after),
        TEST(what_was_read_stays_once_it_is_put_back),
        TEST(a_reading_that_is_none_is_asked_again),
        TEST(done_says_that_it_is_done_and_not_that_it_helped),
        TEST(back_goes_back_one_thing_at_a_time),
        TEST(a_menu_is_left_without_a_change),
        TEST(back_from_a_page_is_to_the_menu_under_it),
        TEST(the_last_page_says_what_helped),
        TEST(whoever_stops_is_told_what_it_points_to),
        TEST(a_changed_answer_is_said_back_with_the_old_one),
        TEST(what_could_not_be_finished_is_undone_the_last_first),
        TEST(worse_in_the_middle_is_kept_and_counts_as_no_help),
        TEST(the_same_call_is_told_in_the_same_words),
        TEST(taken_up_by_another_it_begins_again_at_the_top),
        TEST(what_can_t_be_kept_counts_and_is_said_on_every_turn),
        TEST(a_reply_to_another_turn_changes_nothing),
        TEST(a_thousand_talks_share_a_book),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
