/* Danger in a talk: nothing unknown counts as safe, a sitting asks anew, and no way round it is
 * open. */
#include "book_folder.h"
#include "one_desk.h"
#include "small_book.h"
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char next_day[] = "2026-11-30T09:00:00+01:00";

typedef one_desk scene;

static told_talk come_again(scene *s, const char *writer, const char *how)
{
    return talk_open(s->b, s->f, writer, NULL, how, next_day);
}

static void not_knowing_stops(void **state)
{
    static const char *const replies[] = {"unsure", "cannot", "uncertain", "spraying"};
    scene *s = *state;
    for (size_t i = 0; i < sizeof replies / sizeof replies[0]; i++) {
        const tt_turn *turn = choose(&s->east, replies[i]);
        assert_turn(turn, TT_TURN_STOP);
        assert_false(turn->gate_open);
        assert_false(turn_offers(turn, "close"));
        assert_turn(choose(&s->east, "safe-now"), TT_TURN_DANGER);
    }
    assert_turn(choose(&s->east, "safe"), TT_TURN_COMPLAINT);
}

static bool news_tell(const tt_turn *turn, const char *words)
{
    for (uint32_t i = 0; i < turn->news_count; i++)
        for (uint32_t k = 0; k < turn->news[i].item_count; k++)
            if (strstr(turn->news[i].items[k], words) != NULL) return true;
    return false;
}

/* Who presses on a wound is not sent away from it; and what somebody acts on is no mistake: it is
 * over one day, which is asked about. Of what is told anew it may be one. */
static void who_helps_stays_and_says_when_it_is_over(void **state)
{
    static const char *const said[] = {"my hand is bleeding", "se corto la mano",
                                       "he cut his finger"};
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        scene *s = *state;
        reach_foam_fix(&s->east);
        const tt_turn *turn = type(&s->east, said[i]);
        assert_turn(turn, TT_TURN_STOP);
        assert_true(turn_tells(turn, TT_PART_DO, "Press hard on the wound"));
        assert_true(turn_offers(turn, "mistaken"));
        turn = choose(&s->east, "wait");
        assert_true(news_tell(turn, "Go on with what stands here"));
        assert_false(news_tell(turn, "Stay away"));
        assert_false(turn_offers(turn, "mistaken"));
        assert_true(turn_offers(turn, "safe-now"));
        assert_true(turn_offers(type(&s->east, "there is fire"), "mistaken"));
        choose(&s->east, "wait");
        assert_turn(choose(&s->east, "safe-now"), TT_TURN_DANGER);
        assert_turn(choose(&s->east, "safe"), TT_TURN_BEFORE_FIX);
        one_desk_end(state);
        foam_desk(state);
    }
    scene *s = *state;
    choose(&s->east, "spraying");
    assert_true(news_tell(choose(&s->east, "wait"), "Stay away"));
}

/* Whatever the person is in the middle of, and whether it was touched or said. */
static void danger_waits_for_no_page(void **state)
{
    static const char *const pages[] = {"known",  "why",  "cautions", "?",
                                        "change", "hold", "hand over"};
    static const char said[] = "there is fire and somebody is hurt";
    scene *s = *state;
    reach_foam_fix(&s->east);
    for (size_t i = 0; i < 2 * sizeof pages / sizeof pages[0]; i++) {
        choose(&s->east, pages[i / 2]);
        assert_int_not_equal(turn_of(&s->east)->kind, TT_TURN_BEFORE_FIX);
        const bool note =
            turn_of(&s->east)->kind == TT_TURN_NOTE || turn_of(&s->east)->kind == TT_TURN_TO;
        if (i % 2 == 0)
            choose(&s->east, "danger");
        else
            type(&s->east, said);
        if (turn_of(&s->east)->kind == TT_TURN_HELP_OR_DANGER && note)
            choose(&s->east, "danger"); /* a note may speak of what is over */
        assert_turn(turn_of(&s->east), TT_TURN_STOP);
        assert_turn(choose(&s->east, "mistaken"), TT_TURN_DANGER);
        choose(&s->east, "safe");
        if (turn_of(&s->east)->kind == TT_TURN_CHANGE) choose(&s->east, "none");
        assert_turn(turn_of(&s->east), TT_TURN_BEFORE_FIX);
    }
}

/* What was answered before it is not taken back behind its page. */
static void back_takes_nothing_from_the_danger_page(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    const uint32_t before = s->f->count;
    const char *const said[] = {"there is fire", "danger"};
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        assert_turn(type(&s->east, said[i]), TT_TURN_STOP);
        const tt_turn *turn = type(&s->east, "back");
        assert_turn(turn, TT_TURN_STOP);
        assert_string_equal(turn->wrong_code, "nothing-back");
        choose(&s->east, "mistaken");
        assert_turn(choose(&s->east, "safe"), TT_TURN_BEFORE_FIX); /* as before */
    }
    for (uint32_t i = before; i < s->f->count; i++)
        assert_string_not_equal(s->f->records[i].kind, "back");
}

static void the_danger_page_stays(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    assert_turn(choose(&s->east, "danger"), TT_TURN_STOP);
    assert_turn(choose(&s->east, "wait"), TT_TURN_STOP);
    choose(&s->east, "known");
    assert_turn(choose(&s->east, "go-on"), TT_TURN_STOP);
    assert_turn(choose(&s->east, "safe-now"), TT_TURN_DANGER);
    assert_turn(choose(&s->east, "safe"), TT_TURN_BEFORE_FIX);
}

static void a_sitting_asks_anew_and_back_stops_there(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    told_talk later = come_again(s, "east", "resume");
    assert_turn(turn_of(&later), TT_TURN_DANGER);
    const tt_turn *turn = choose(&later, "back"); /* yesterday's answers stay */
    assert_turn(turn, TT_TURN_DANGER);
    assert_string_equal(turn->wrong_code, "nothing-back");
    choose(&later, "safe");
    turn = choose(&later, "back");
    assert_turn(turn, TT_TURN_DANGER);
    turn = choose(&later, "change");
    turn = choose(&later, "back");
    assert_turn(turn, TT_TURN_DANGER);
    assert_false(turn->gate_open);
    talk_close(&later);
}

static void yesterdays_reading_is_read_again_before_a_fix(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    told_talk later = come_again(s, "east", "resume");
    const tt_turn *turn = choose(&later, "safe");
    assert_turn(turn, TT_TURN_QUESTION);
    assert_string_equal(turn->subject, "foam-air");
    assert_turn(read_off(&later, 55, "psi"), TT_TURN_BEFORE_FIX);
    talk_close(&later);
}

static void reopening_asks_about_danger_first(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    const tt_turn *turn = choose(&s->east, "begin");
    while (turn->kind == TT_TURN_FIX_STEP) turn = choose(&s->east, "done");
    while (turn->kind == TT_TURN_LOOK_AGAIN) turn = read_off(&s->east, 30, "psi");
    turn = choose(&s->east, "gone");
    assert_turn(turn, TT_TURN_CAUSE);
    assert_turn(choose(&s->east, "yes"), TT_TURN_END);
    static const char *const ways[] = {"reopen", "came-back"};
    for (size_t i = 0; i < 2; i++) {
        const uint32_t before = s->f->count;
        told_talk later = come_again(s, "west", "resume");
        assert_turn(turn_of(&later), TT_TURN_CLOSED);
        turn = choose(&later, ways[i]);
        assert_turn(turn, TT_TURN_DANGER);
        assert_false(turn->gate_open);
        talk_close(&later);
        s->f->count = before;
    }
}

static void a_time_that_cant_be_read_counts_as_long_ago(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    for (uint32_t i = 0; i < s->f->count; i++) s->f->records[i].time = "last year";
    told_talk later = come_again(s, "east", "resume");
    assert_turn(turn_of(&later), TT_TURN_DANGER);
    assert_string_equal(choose(&later, "safe")->subject, "foam-air");
    talk_close(&later);
}

static void half_an_hour_without_a_word_asks_anew(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    snprintf(s->east.now, sizeof s->east.now, "%s", "2026-11-29T09:29:00+01:00");
    assert_turn(choose(&s->east, "foam-too-dry"), TT_TURN_QUESTION);
    choose(&s->east, "hiss");
    choose(&s->east, "even");
    snprintf(s->east.now, sizeof s->east.now, "%s",
             "2026-11-29T08:59:30Z"); /* the same clock, told otherwise */
    assert_turn(read_off(&s->east, 55, "psi"), TT_TURN_DANGER);
    assert_turn(choose(&s->east, "safe"), TT_TURN_BEFORE_FIX);
    assert_non_null(last_record(s->f, "sitting"));
}

static void worse_asks_about_danger_then_puts_back(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    choose(&s->east, "begin");
    const tt_turn *turn = choose(&s->east, "worse");
    assert_turn(turn, TT_TURN_DANGER);
    turn = choose(&s->east, "safe");
    assert_true(turn->gate_open);
    assert_true(turn->kind == TT_TURN_PUT_BACK || turn->kind == TT_TURN_LOOK_AGAIN);
}

static void danger_inside_a_fix_lists_what_is_done_and_begins_it_again(void **state)
{
    scene *s = *state;
    reach_foam_fix(&s->east);
    const tt_turn *turn = choose(&s->east, "begin");
    char first[200];
    snprintf(first, sizeof first, "%s", turn->prompt);
    choose(&s->east, "done");
    turn = choose(&s->east, "danger");
    assert_turn(turn, TT_TURN_STOP);
    assert_true(turn_tells(turn, TT_PART_LOCKED, first));
    /* no lock is spoken of where none was hung on */
    assert_non_null(strstr(turn_locked_title(turn), ": leave it as it is now."));
    choose(&s->east, "mistaken");
    assert_turn(choose(&s->east, "safe"), TT_TURN_BEFORE_FIX);
    assert_string_equal(choose(&s->east, "begin")->prompt, first);
}

static void what_one_saw_shuts_it_for_all_and_each_answers_their_own(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    told_talk west = come_again(s, "west", "join");
    choose(&west, "burnt");
    talk_news_of_others(&s->east);
    assert_turn(turn_of(&s->east), TT_TURN_STOP);
    choose(&s->east, "safe-now");
    assert_true(choose(&s->east, "safe")->gate_open);
    talk_news_of_others(&west);
    assert_false(turn_of(&west)->gate_open);
    assert_turn(turn_of(&west), TT_TURN_DANGER);
    talk_close(&west);
}

/* It was said by somebody who had not heard of the smoke. */
static void a_safe_answer_of_the_unaware_ends_nothing(void **state)
{
    scene *s = *state;
    told_talk west = come_again(s, "west", "join");
    choose(&west, "burnt");
    choose(&s->east, "safe");
    talk_news_of_others(&west);
    assert_turn(turn_of(&west), TT_TURN_STOP);
    talk_news_of_others(&s->east);
    assert_false(turn_of(&s->east)->gate_open);
    talk_close(&west);
}

/* Whoever is asked once more is told what of their words it was. */
static void the_question_says_which_words_it_asks_for(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    const tt_turn *turn = type(&s->east, "it smells of chlorine");
    assert_turn(turn, TT_TURN_DANGER);
    assert_true(turn_tells(turn, TT_PART_NOTE, "it smells of chlorine"));
}

/* The ear reads so many words; the rest may tell of anything. */
static void what_is_too_long_to_be_read_asks_about_danger(void **state)
{
    enum { TIMES = 450 };
    scene *s = *state;
    char line[TIMES * 10 + 1] = "";
    for (int i = 0; i < TIMES; i++) memcpy(line + 10 * i, "dry foam, ", 10);
    choose(&s->east, "safe");
    assert_turn(type(&s->east, line), TT_TURN_DANGER);
    assert_false(turn_of(&s->east)->gate_open);
    assert_turn(choose(&s->east, "safe"), TT_TURN_CONFIRM); /* what was read of it is not lost */
    choose(&s->east, "hold");
    assert_turn(turn_of(&s->east), TT_TURN_NOTE);
    assert_turn(type(&s->east, line), TT_TURN_HELP_OR_DANGER);
}

/* Their eyes may have been hit: what to do for eyes is told at once. */
static void whoever_says_they_cannot_see_is_told_to_rinse(void **state)
{
    scene *s = *state;
    const tt_turn *turn = type(&s->east, "i cant see");
    assert_turn(turn, TT_TURN_STOP);
    assert_true(turn_tells(turn, TT_PART_DO, "Rinse"));
}

/* Where in the turn the part with this title stands, or -1. */
static int place_of(const tt_turn *turn, tt_part_kind kind, const char *title)
{
    for (uint32_t i = 0; i < turn->part_count; i++)
        if (turn->parts[i].kind == kind && strcmp(turn->parts[i].title, title) == 0) return (int)i;
    return -1;
}

static void two_dangers_are_both_told_the_most_urgent_first(void **state)
{
    static const char *const said[] = {"there is smoke and he is trapped in the brush",
                                       "he is trapped in the brush, there is smoke",
                                       "hay humo y está atrapado en el cepillo"};
    static const char caught[] = "Somebody is caught in a machine",
                      fire[] = "Something burns or smokes";
    scene *s = *state;
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        const tt_turn *turn = type(&s->east, said[i]);
        assert_turn(turn, TT_TURN_STOP);
        const int own = place_of(turn, TT_PART_DO, ""), first = place_of(turn, TT_PART_DO, caught);
        assert_true(own >= 0 && own < first); /* whoever helps is safe first */
        assert_true(first >= 0 && first < place_of(turn, TT_PART_DO, fire));
        assert_true(place_of(turn, TT_PART_DO, fire) <
                    place_of(turn, TT_PART_FIRST_AID, "Somebody is caught in a machine. Then:"));
        assert_true(place_of(turn, TT_PART_FIRST_AID, "Something burns or smokes. Then:") >= 0);
        assert_int_equal(place_of(turn, TT_PART_DO, "Somebody is hurt"), -1);
        choose(&s->east, "mistaken");
        choose(&s->east, "safe");
    }
}

/* What was told first is not over because something else is told, for those who join either. */
static void a_danger_stays_beside_the_next(void **state)
{
    scene *s = *state;
    type(&s->east, "there is smoke");
    const tt_turn *turn = type(&s->east, "acid in his eyes");
    assert_true(place_of(turn, TT_PART_DO, "Something burns or smokes") >= 0);
    assert_true(place_of(turn, TT_PART_DO, "Product is in somebody's eyes") >= 0);
    told_talk later = come_again(s, "east", "resume");
    assert_true(place_of(turn_of(&later), TT_PART_DO, "Something burns or smokes") >= 0);
    choose(&later, "mistaken");
    choose(&later, "safe");
    turn = type(&later, "he is bleeding");
    assert_int_equal(place_of(turn, TT_PART_DO, "Something burns or smokes"), -1);
    talk_close(&later);
}

static void danger_comes_before_what_is_to_be_settled(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    told_talk west = come_again(s, "west", "join");
    choose(&west, "safe");
    choose(&s->east, "foam-too-dry");
    choose(&west, "foam-too-dry");
    choose(&s->east, "hiss");
    choose(&west, "soft");
    told_talk third = come_again(s, "third", "join");
    assert_turn(turn_of(&third), TT_TURN_DANGER);
    assert_turn(choose(&third, "safe"), TT_TURN_SETTLE);
    talk_close(&third);
    talk_close(&west);
}

static void whoever_leaves_in_danger_is_told_whom_to_call(void **state)
{
    scene *s = *state;
    choose(&s->east, "burnt");
    const tt_turn *turn = choose(&s->east, "stop");
    assert_turn(turn, TT_TURN_END);
    assert_true(turn->dangerous);
    assert_true(turn_tells(turn, TT_PART_CALL, "emergency number"));
    assert_true(turn_tells(turn, TT_PART_DO, ""));
    assert_false(turn_tells(turn, TT_PART_CAUSES, ""));
}

static void danger_is_the_first_word_of_every_turn(void **state)
{
    scene *s = *state;
    static const char *const way[] = {"safe", "foam-too-dry", "why",    "go-on", "known", "go-on",
                                      "?",    "go-on",        "change", "back",  "hold"};
    for (size_t i = 0; i < sizeof way / sizeof way[0]; i++) {
        const tt_turn *turn = turn_of(&s->east);
        assert_true(turn->word_count > 0);
        assert_string_equal(turn->words[0].id, "danger");
        choose(&s->east, way[i]);
    }
}

/* One thing to do a line, in Spanish too, where a sentence begins with an accent or a mark. */
static void each_sentence_of_a_stop_is_a_line(void **state)
{
    static const char rules[] =
        "book: {title: Hose, roles: [hand, fitter]}\n"
        "questions:\n  swells: {ask: 'Does the hose swell?'}\n"
        "symptoms:\n  swelling: {text: 'It swells', when: {swells: yes}, shown-by: {old: often}}\n"
        "causes:\n  old: {text: 'The hose is old'}\n"
        "fixes:\n  new: {text: 'Change it', role: fitter, cures: {old: often}, harm: none,\n"
        "         takes: 5 min, put-back: impossible}\n"
        "rules:\n  swollen:\n    when: {swells: yes}\n    then:\n"
        "      stop: 'Shut valve no. 0 off and no. 9 too. \302\241Fuera! \303\211l avisa aprox. "
        "en un minuto. Keep away. '\n      call: fitter\n";
    static const char *const lines[] = {"Shut valve no. 0 off and no. 9 too.", "\302\241Fuera!",
                                        "\303\211l avisa aprox. en un minuto.", "Keep away."};
    scene *s = one_desk_new(small_book(rules));
    *state = s;
    say_it_is_safe(&s->east, "no");
    const tt_given swells = {.question = "swells", .choice = "yes"};
    const tt_turn *turn = hand_in(&s->east, &(tt_heard){.given = &swells, .given_count = 1});
    assert_turn(turn, TT_TURN_STOP);
    uint32_t at = 0;
    while (turn->parts[at].kind != TT_PART_DO) at++;
    assert_int_equal(turn->parts[at].item_count, sizeof lines / sizeof *lines);
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        assert_string_equal(turn->parts[at].items[i], lines[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(not_knowing_stops, foam_desk, one_desk_end),
        cmocka_unit_test_setup_teardown(back_takes_nothing_from_the_danger_page, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(who_helps_stays_and_says_when_it_is_over, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(danger_waits_for_no_page, foam_desk, one_desk_end),
        cmocka_unit_test_setup_teardown(the_danger_page_stays, foam_desk, one_desk_end),
        cmocka_unit_test_setup_teardown(a_sitting_asks_anew_and_back_stops_there, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(yesterdays_reading_is_read_again_before_a_fix, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(reopening_asks_about_danger_first, foam_desk, one_desk_end),
        cmocka_unit_test_setup_teardown(a_time_that_cant_be_read_counts_as_long_ago, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(half_an_hour_without_a_word_asks_anew, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(worse_asks_about_danger_then_puts_back, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(danger_inside_a_fix_lists_what_is_done_and_begins_it_again,
                                        foam_desk, one_desk_end),
        cmocka_unit_test_setup_teardown(what_one_saw_shuts_it_for_all_and_each_answers_their_own,
                                        foam_desk, one_desk_end),
        cmocka_unit_test_setup_teardown(a_safe_answer_of_the_unaware_ends_nothing, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(what_is_too_long_to_be_read_asks_about_danger, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(whoever_says_they_cannot_see_is_told_to_rinse, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(two_dangers_are_both_told_the_most_urgent_first, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(a_danger_stays_beside_the_next, foam_desk, one_desk_end),
        cmocka_unit_test_setup_teardown(danger_comes_before_what_is_to_be_settled, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(whoever_leaves_in_danger_is_told_whom_to_call, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(the_question_says_which_words_it_asks_for, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_teardown(each_sentence_of_a_stop_is_a_line, one_desk_end),
        cmocka_unit_test_setup_teardown(danger_is_the_first_word_of_every_turn, foam_desk,
                                        one_desk_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
