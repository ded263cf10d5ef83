/* Danger at every prompt: whatever page is open, note half written, or answer to be changed, it
 * comes first. */
#include "book_folder.h"
#include "one_desk.h"
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/value.h"

static const char morning[] = DESK_MORNING;

typedef one_desk scene;

/* ---- pages, notes, menus ---- */

static const char *const places[] = {"known", "why",       "?",      "cautions",
                                     "hold",  "hand over", "change", "review"};
enum { PLACES = sizeof places / sizeof places[0] };

static void at_every_place_a_touch_brings_the_danger_page(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    for (size_t i = 0; i < PLACES; i++) {
        choose(&s->east, places[i]);
        assert_turn(choose(&s->east, "danger"), TT_TURN_STOP);
        say_it_is_safe(&s->east, "safe");
        while (turn_of(&s->east)->kind == TT_TURN_CHANGE) choose(&s->east, "none");
        assert_turn(turn_of(&s->east), TT_TURN_BEFORE_FIX);
    }
}

static void at_every_page_and_menu_grave_words_bring_it_too(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    for (size_t i = 0; i < PLACES; i++) {
        choose(&s->east, places[i]);
        const tt_turn_kind kind = turn_of(&s->east)->kind;
        if (kind == TT_TURN_NOTE || kind == TT_TURN_TO) {
            choose(&s->east, "back");
            continue;
        }
        assert_turn(type(&s->east, "his hand is caught in the brush"), TT_TURN_STOP);
        say_it_is_safe(&s->east, "safe");
        while (turn_of(&s->east)->kind == TT_TURN_CHANGE) choose(&s->east, "none");
    }
}

static void at_a_page_words_of_danger_bring_the_question(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    choose(&s->east, "known");
    assert_turn(type(&s->east, "it smells of gas"), TT_TURN_DANGER);
    assert_turn(choose(&s->east, "safe"), TT_TURN_BEFORE_FIX);
}

static void danger_of_others_closes_a_page_and_a_note(void **state)
{
    static const char *const open[] = {"known", "hold", "hand over"};
    scene *s = *state;
    reach_foam_fix(&s->east);
    told_talk west = talk_open(s->b, s->f, "west", NULL, "join", morning);
    for (size_t i = 0; i < sizeof open / sizeof open[0]; i++) {
        choose(&s->east, open[i]);
        talk_news_of_others(&west);
        choose(&west, "danger");
        talk_news_of_others(&s->east);
        assert_turn(turn_of(&s->east), TT_TURN_STOP);
        assert_true(turn_tells(turn_of(&s->east), TT_PART_KINDS, "told of danger"));
        assert_false(
            turn_tells(turn_of(&s->east), TT_PART_KINDS, "told of danger:")); /* no words */
        say_it_is_safe(&s->east, "safe");
    }
    talk_close(&west);
}

/* ---- notes ---- */

static void the_word_itself_is_no_note(void **state)
{
    scene *s = *state;
    choose(&s->east, "hold");
    assert_turn(type(&s->east, "danger"), TT_TURN_STOP);
    assert_null(last_record(s->f, "hold"));
}

static void a_note_that_tells_of_somebody_hurt_asks_and_then_leaves(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    choose(&s->east, "hold");
    const tt_turn *turn = type(&s->east, "somebody is bleeding");
    assert_turn(turn, TT_TURN_HELP_OR_DANGER);
    assert_string_equal(value_text(last_record(s->f, "hold")->data, "note"),
                        "somebody is bleeding");
    turn = choose(&s->east, "go-on");
    assert_turn(turn, TT_TURN_END);
    assert_string_equal(turn->how, "stopped");
}

static void a_note_that_tells_of_somebody_hurt_may_be_meant(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    choose(&s->east, "hold");
    type(&s->east, "somebody is bleeding");
    assert_turn(choose(&s->east, "danger"), TT_TURN_STOP);
    say_it_is_safe(&s->east, "safe");
    assert_turn(turn_of(&s->east), TT_TURN_COMPLAINT); /* who is in danger has not left */
}

/* ---- words ---- */

static void no_words_are_lost_while_the_page_stands(void **state)
{
    scene *s = *state;
    choose(&s->east, "danger");
    assert_turn(type(&s->east, "there are sparks at the box"), TT_TURN_STOP);
    const tt_record *said = last_record(s->f, "said");
    assert_non_null(said);
    assert_string_equal(value_text(said->data, "words"), "there are sparks at the box");
}

static void the_same_words_ask_once_in_a_sitting_and_again_in_the_next(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    assert_turn(type(&s->east, "it smells of gas"), TT_TURN_DANGER);
    choose(&s->east, "safe");
    const tt_turn *turn = type(&s->east, "it smells of gas");
    assert_turn(turn, TT_TURN_COMPLAINT);
    assert_string_equal(turn->wrong_code,
                        "not-understood"); /* and it is said that they served nothing */
    told_talk later = talk_open(s->b, s->f, "east", NULL, "resume", "2026-11-30T09:00:00+01:00");
    choose(&later, "safe");
    assert_turn(type(&later, "it smells of gas"), TT_TURN_DANGER);
    talk_close(&later);
}

static void enter_at_the_danger_question_rules_nothing_out(void **state)
{
    static const char *const typed[] = {"",   "   ",     "?!",     "0",
                                        "99", "perhaps", "\x1b[A", "\xff\xfe"};
    scene *s = *state;
    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++) {
        const tt_turn *turn = type(&s->east, typed[i]);
        assert_false(turn->gate_open);
        assert_true(turn->kind == TT_TURN_DANGER || turn->kind == TT_TURN_STOP);
        if (turn->kind == TT_TURN_STOP)
            choose(&s->east, turn_offers(turn, "mistaken") ? "mistaken" : "safe-now");
    }
}

/* ---- nothing unsafe is taken back, and nothing is offered meanwhile ---- */

static const char *first_to_do(const tt_turn *turn)
{
    uint32_t i = 0;
    while (i < turn->part_count && turn->parts[i].kind != TT_PART_DO) i++;
    assert_true(i < turn->part_count);
    return turn->parts[i].items[0];
}

static void back_takes_no_danger_back(void **state)
{
    scene *s = *state;
    const tt_turn *turn = choose(&s->east, "burnt");
    char page[400];
    snprintf(page, sizeof page, "%s", first_to_do(turn));
    turn = choose(&s->east, "back");
    assert_turn(turn, TT_TURN_STOP);
    assert_string_equal(turn->wrong_code, "nothing-back");
    assert_string_equal(first_to_do(turn), page); /* what the rule says of this danger stays */
    assert_null(last_record(s->f, "back"));
}

static void a_changed_answer_about_danger_is_a_danger_question(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    choose(&s->east, "change");
    const tt_turn *turn = choose(&s->east, "answer-danger");
    assert_turn(turn, TT_TURN_DANGER);
    assert_true(turn->dangerous);
    assert_turn(type(&s->east, "perhaps"), TT_TURN_STOP);
}

static void what_is_known_says_that_fixes_are_held(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    const char *const held = "Nothing is to be tried until danger is ruled out";
    const tt_turn *turn = choose(&s->east, "known");
    for (uint32_t i = 0; i < turn->part_count; i++) assert_null(strstr(turn->parts[i].title, held));
    choose(&s->east, "go-on");
    type(&s->east, "it smells of gas");
    for (int pass = 0; pass < 2; pass++) { /* asked, and then shut */
        turn = choose(&s->east, "known");
        uint32_t lists = 0;
        for (uint32_t i = 0; i < turn->part_count; i++) {
            if (turn->parts[i].kind != TT_PART_FIXES) continue;
            assert_non_null(strstr(turn->parts[i].title, held));
            lists++;
        }
        assert_int_equal(lists, 1);
        choose(&s->east, "go-on");
        if (pass == 0) choose(&s->east, "danger");
    }
}

/* ---- pauses, and what is half done ---- */

static void a_pause_inside_a_fix_forgets_no_lock(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    char first[200];
    snprintf(first, sizeof first, "%s", choose(&s->east, "begin")->prompt);
    snprintf(s->east.now, sizeof s->east.now, "%s", "2026-11-29T13:00:00+01:00");
    assert_turn(choose(&s->east, "done"), TT_TURN_DANGER);
    assert_true(turn_tells(choose(&s->east, "burnt"), TT_PART_LOCKED, first));
    choose(&s->east, "safe-now");
    assert_turn(choose(&s->east, "safe"), TT_TURN_BEFORE_FIX); /* and it begins again */
    assert_true(turn_tells(choose(&s->east, "danger"), TT_PART_LOCKED,
                           first)); /* until it does, it is still so */
}

static void a_clock_that_was_set_back_tells_nothing(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    snprintf(s->east.now, sizeof s->east.now, "%s", "2026-11-29T07:00:00+01:00");
    assert_turn(choose(&s->east, "foam-too-dry"), TT_TURN_DANGER);
}

/* ---- closed cases ---- */

static void cure(told_talk *t)
{
    reach_foam_fix(t);
    const tt_turn *turn = choose(t, "begin");
    while (turn->kind == TT_TURN_FIX_STEP) turn = choose(t, "done");
    while (turn->kind == TT_TURN_LOOK_AGAIN) turn = read_off(t, 30, "psi");
    choose(t, "gone");
    assert_turn(choose(t, "yes"), TT_TURN_END);
}

static void danger_in_a_closed_case_stops_and_it_is_closed_again(void **state)
{
    scene *s = *state;
    cure(&s->east);
    told_talk west = talk_open(s->b, s->f, "west", NULL, "resume", morning);
    assert_turn(turn_of(&west), TT_TURN_CLOSED);
    assert_turn(choose(&west, "danger"), TT_TURN_STOP);
    choose(&west, "mistaken");
    assert_turn(choose(&west, "safe"), TT_TURN_CLOSED);
    const uint32_t before = s->f->count;
    assert_turn(choose(&west, "leave"), TT_TURN_END);
    assert_int_equal(s->f->count, before + 1);
    assert_string_equal(value_text(last_record(s->f, "close")->data, "how"), "gone");
    talk_close(&west);
}

static void what_the_cause_was_can_be_told_from_a_desk(void **state)
{
    scene *s = *state;
    cure(&s->east);
    told_talk west = talk_open(s->b, s->f, "west", NULL, "resume", "2026-11-30T09:00:00+01:00");
    assert_turn(choose(&west, "say-cause"),
                TT_TURN_CAUSE); /* nothing is to be done at the equipment */
    talk_close(&west);
}

static void reopening_takes_back_what_closed_it_and_nothing_else(void **state)
{
    scene *s = *state;
    cure(&s->east);
    told_talk west = talk_open(s->b, s->f, "west", NULL, "resume", morning);
    choose(&west, "reopen");
    const tt_value *steps = value_get(last_record(s->f, "back")->data, "steps");
    assert_int_equal(steps->count, 1);
    assert_turn(choose(&west, "safe"), TT_TURN_BEFORE_FIX);
    talk_close(&west);
}

static void close_by_calling(scene *s)
{
    reach_foam_fix(&s->east);
    const tt_turn *turn = choose(&s->east, "could-not");
    for (int i = 0; i < 200 && turn->kind != TT_TURN_CALL; i++)
        turn = choose(&s->east, turn->kind == TT_TURN_REVIEW       ? "right"
                                : turn->kind == TT_TURN_BEFORE_FIX ? "could-not"
                                                                   : "cannot");
    assert_turn(turn, TT_TURN_CALL);
    assert_turn(choose(&s->east, "close"), TT_TURN_END);
}

static void a_case_that_was_closed_by_calling_is_only_opened(void **state)
{
    scene *s = *state;
    close_by_calling(s);
    told_talk west = talk_open(s->b, s->f, "west", NULL, "resume", morning);
    assert_turn(choose(&west, "reopen"), TT_TURN_DANGER);
    assert_null(last_record(s->f, "back"));
    assert_turn(choose(&west, "safe"), TT_TURN_CALL);
    talk_close(&west);
}

/* Called in vain here; what it was is said from a desk, and nothing is to be done at the equipment.
 */
static void whoever_was_called_tells_what_it_was(void **state)
{
    scene *s = *state;
    close_by_calling(s);
    told_talk west = talk_open(s->b, s->f, "west", NULL, "resume", morning);
    assert_turn(choose(&west, "say-cause"), TT_TURN_CAUSE);
    assert_turn(choose(&west, "back"), TT_TURN_CLOSED);
    const tt_turn *turn = choose(&west, "say-cause");
    const char *first = turn->choices[0].id;
    assert_turn(choose(&west, first), TT_TURN_END);
    assert_string_equal(value_text(last_record(s->f, "confirm")->data, "cause"), first);
    talk_close(&west);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, foam_desk, one_desk_end)
int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(at_every_place_a_touch_brings_the_danger_page),
        TEST(at_every_page_and_menu_grave_words_bring_it_too),
        TEST(at_a_page_words_of_danger_bring_the_question),
        TEST(danger_of_others_closes_a_page_and_a_note),
        TEST(the_word_itself_is_no_note),
        TEST(a_note_that_tells_of_somebody_hurt_asks_and_then_leaves),
        TEST(a_note_that_tells_of_somebody_hurt_may_be_meant),
        TEST(no_words_are_lost_while_the_page_stands),
        TEST(the_same_words_ask_once_in_a_sitting_and_again_in_the_next),
        TEST(enter_at_the_danger_question_rules_nothing_out),
        TEST(back_takes_no_danger_back),
        TEST(a_changed_answer_about_danger_is_a_danger_question),
        TEST(what_is_known_says_that_fixes_are_held),
        TEST(a_pause_inside_a_fix_forgets_no_lock),
        TEST(a_clock_that_was_set_back_tells_nothing),
        TEST(danger_in_a_closed_case_stops_and_it_is_closed_again),
        TEST(what_the_cause_was_can_be_told_from_a_desk),
        TEST(reopening_takes_back_what_closed_it_and_nothing_else),
        TEST(a_case_that_was_closed_by_calling_is_only_opened),
        TEST(whoever_was_called_tells_what_it_was),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
