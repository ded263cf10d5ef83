/* All that is said in one breath: nothing of it is lost, what is doubtful is asked back, and what
 * was understood is said back. */
#include "book_folder.h"
#include "one_desk.h"
#include "testing.h"

#include <stdlib.h>

#include "base/value.h"

static const char morning[] = DESK_MORNING;

typedef one_desk scene;

static uint32_t records_of(const record_folder *f, const char *kind)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < f->count; i++) count += strcmp(f->records[i].kind, kind) == 0;
    return count;
}

static bool answered(const record_folder *f, const char *question)
{
    for (uint32_t i = 0; i < f->count; i++) {
        const char *about = value_text(f->records[i].data, "question");
        if (about != NULL && strcmp(about, question) == 0) return true;
    }
    return false;
}

static bool news_say(const tt_turn *turn, const char *words)
{
    for (uint32_t i = 0; i < turn->news_count; i++)
        for (uint32_t k = 0; k < turn->news[i].item_count; k++)
            if (strstr(turn->news[i].items[k], words) != NULL) return true;
    return false;
}

static void complaint_and_two_readings(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    const tt_turn *turn = type(&s->east, "the foam is dry, foam air 55 psi, pump air 42");
    assert_turn(turn, TT_TURN_CONFIRM);
    assert_string_equal(turn->subject, "foam-too-dry");
    assert_true(answered(s->f, "foam-air") && answered(s->f, "pump-air"));
    assert_true(news_say(turn, "55 psi") && news_say(turn, "42 psi"));
    turn = type(&s->east, "yes"); /* nearly enough to set the air: a last look, or that */
    assert_true(turn->kind == TT_TURN_QUESTION || turn->kind == TT_TURN_BEFORE_FIX);
    assert_int_equal(records_of(s->f, "complaint"), 1);
}

/* What is in the hose is told of no question; "died" is a letter from "diez", and no ten psi. */
static void what_only_sounds_like_an_answer_is_none(void **state)
{
    static const char *const said[] = {"hose full of slime", "la manguera está llena de lama",
                                       "hose full of goo", "soap pump died this morning",
                                       "la bomba no dies nada"};
    scene *s = *state;
    choose(&s->east, "safe");
    const uint32_t answers = records_of(s->f, "answer");
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        type(&s->east, said[i]);
        if (records_of(s->f, "answer") != answers) fail_msg("%s: an answer", said[i]);
    }
}

static void what_the_pump_and_the_water_do_is_a_complaint(void **state)
{
    static const char *const said[][2] = {{"pump is dead", "pump-stopped"},
                                          {"la bomba no jala", "pump-stopped"},
                                          {"el agua llega con poca presión", "water-reads-low"},
                                          {"the water has hardly any pressure", "water-reads-low"}};
    scene *s = *state;
    choose(&s->east, "safe");
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        const tt_turn *turn = type(&s->east, said[i][0]);
        assert_turn(turn, TT_TURN_CONFIRM);
        assert_string_equal(turn->subject, said[i][1]);
        type(&s->east, "no");
    }
}

static void a_number_that_could_be_two_gauges_is_asked_back(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    type(&s->east, "foam is dry and air 55");
    const tt_turn *turn = type(&s->east, "yes");
    assert_turn(turn, TT_TURN_ASK_BACK);
    assert_true(turn_offers(turn, "foam-air") && turn_offers(turn, "pump-air"));
    assert_false(answered(s->f, "foam-air") || answered(s->f, "pump-air"));
    assert_true(news_say(type(&s->east, "the foam one"), "55 psi"));
    assert_true(answered(s->f, "foam-air"));
    assert_false(answered(s->f, "pump-air"));
}

static void asked_back_and_none_of_them(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    type(&s->east, "foam is dry and air 55");
    type(&s->east, "yes");
    choose(&s->east, "none");
    assert_false(answered(s->f, "foam-air") || answered(s->f, "pump-air"));
    assert_string_equal(value_text(last_record(s->f, "said")->data, "words"),
                        "foam is dry and air 55");
}

static void several_complaints_are_confirmed_one_by_one(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    assert_string_equal(type(&s->east, "foam too wet and also roof streaky")->subject,
                        "foam-too-wet");
    const tt_turn *turn = type(&s->east, "yes");
    assert_turn(turn, TT_TURN_CONFIRM);
    assert_string_equal(turn->subject, "streaks-on-roof");
    type(&s->east, "yes");
    assert_int_equal(records_of(s->f, "complaint"), 2);
}

static void a_reading_in_another_answer(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    hear_hiss(&s->east);
    const tt_turn *turn = turn_of(&s->east);
    assert_turn(turn, TT_TURN_QUESTION);
    assert_string_equal(turn->subject, "foam-air");
    turn = type(&s->east, "55, and the pump air is 30");
    assert_true(answered(s->f, "foam-air") && answered(s->f, "pump-air"));
    assert_true(news_say(turn, "30 psi"));
}

static void a_correction_says_the_old_answer_back(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    hear_hiss(&s->east);
    read_off(&s->east, 55, "psi");
    const tt_turn *turn = type(&s->east, "sorry, the foam air is 35 psi");
    assert_true(news_say(turn, "55 psi") && news_say(turn, "35 psi"));
}

static void no_and_what_it_is_instead(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    assert_string_equal(type(&s->east, "roof streaky")->subject, "streaks-on-roof");
    const tt_turn *turn = type(&s->east, "no, the foam is too wet and pump air is 30");
    assert_turn(turn, TT_TURN_CONFIRM);
    assert_string_equal(turn->subject, "foam-too-wet");
    assert_true(answered(s->f, "pump-air"));
    assert_int_equal(records_of(s->f, "complaint"), 0);
}

static void beside_the_answer_about_danger(void **state)
{
    scene *s = *state;
    const tt_turn *turn = type(&s->east, "no. foam dry, foam air 55");
    assert_true(turn->gate_open);
    assert_turn(turn, TT_TURN_CONFIRM);
    assert_true(answered(s->f, "foam-air"));
}

/* The danger comes first; the rest is not lost. */
static void with_danger_in_it(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    const tt_turn *turn = type(&s->east, "stiff foam, foam air 45 psi, a hose sprays");
    assert_turn(turn, TT_TURN_DANGER);
    assert_false(turn->gate_open);
    assert_true(answered(s->f, "foam-air"));
    turn = choose(&s->east, "safe");
    assert_turn(turn, TT_TURN_CONFIRM);
    assert_string_equal(turn->subject, "foam-too-dry");
}

static void an_answer_to_another_question_that_was_not_asked(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    type(&s->east, "they changed the drum yesterday");
    assert_true(answered(s->f, "drum-changed"));
}

static void words_that_serve_nothing_are_kept(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    const tt_turn *turn = type(&s->east, "foam air 55 psi, the boss comes at noon");
    assert_true(answered(s->f, "foam-air"));
    assert_true(news_say(turn, "the boss comes at noon"));
    assert_string_equal(value_text(last_record(s->f, "said")->data, "words"),
                        "foam air 55 psi, the boss comes at noon");
}

/* Impossible: said, kept in the words, no answer. */
static void what_can_not_be_is_no_answer(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    const tt_turn *turn = type(&s->east, "foam dry, foam air 400 psi");
    assert_turn(turn, TT_TURN_CONFIRM);
    assert_false(answered(s->f, "foam-air"));
    assert_true(news_say(turn, "400 psi"));
    assert_non_null(last_record(s->f, "said"));
}

/* One step back takes all of one breath. */
static void back_takes_what_came_together(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    type(&s->east, "foam air 55 psi, pump air 42");
    choose(&s->east, "back");
    const tt_view *v = NULL;
    tt_look(tt_talk_case(s->east.talk), &v);
    const uint32_t foam_air = tt_question_find(s->b, "foam-air"),
                   pump_air = tt_question_find(s->b, "pump-air");
    for (uint32_t i = 0; i < v->fact_count; i++)
        assert_true(v->facts[i].question != foam_air && v->facts[i].question != pump_air);
}

/* Agreeing is not having done it: what is to be locked is locked only when somebody says so. */
static void ok_is_not_done(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    hear_hiss(&s->east);
    read_off(&s->east, 55, "psi");
    assert_turn(type(&s->east, "ok"), TT_TURN_FIX_STEP);
    const uint32_t step = turn_of(&s->east)->step;
    assert_int_equal(type(&s->east, "ok")->step, step);
    assert_int_equal(type(&s->east, "listo")->step, step + 1);
}

/* The air is set; the gauge reads so much then, and it is asked what came of it. */
static void fix_done(scene *s, const char *reading)
{
    choose(&s->east, "safe");
    hear_hiss(&s->east);
    read_off(&s->east, 55, "psi");
    choose(&s->east, "begin");
    while (turn_of(&s->east)->kind == TT_TURN_FIX_STEP) choose(&s->east, "done");
    while (turn_of(&s->east)->kind == TT_TURN_LOOK_AGAIN) type(&s->east, reading);
    assert_turn(turn_of(&s->east), TT_TURN_OUTCOME);
}

static void gone(scene *s)
{
    fix_done(s, "32");
    assert_turn(choose(&s->east, "gone"), TT_TURN_CAUSE);
}

/* Whoever stops while danger stands goes with what to do in it, also where the trouble itself was
 * over. */
static void danger_after_it_was_gone_leaves_it_open(void **state)
{
    scene *s = *state;
    gone(s);
    assert_turn(choose(&s->east, "danger"), TT_TURN_STOP);
    const tt_turn *turn = choose(&s->east, "stop");
    assert_turn(turn, TT_TURN_END);
    assert_string_equal(turn->how, "stopped");
    assert_true(turn_tells(turn, TT_PART_DO, ""));
    assert_int_equal(records_of(s->f, "close"), 1);
}

/* Somebody is asked something else when the last page is there: whatever else they say changes
 * nothing, danger does. */
static void danger_after_the_last_page_opens_the_case(void **state)
{
    scene *s = *state;
    gone(s);
    assert_turn(choose(&s->east, "yes"), TT_TURN_END);
    const tt_turn *turn = type(&s->east, "nice weather");
    assert_turn(turn, TT_TURN_END);
    assert_string_equal(turn->how, "gone");
    assert_turn(type(&s->east, "somebody is hurt"), TT_TURN_STOP);
    choose(&s->east, "mistaken");
    assert_turn(choose(&s->east, "safe"), TT_TURN_CLOSED);
    assert_turn(choose(&s->east, "leave"), TT_TURN_END);
    assert_turn(type(&s->east, "there is smoke, maybe"), TT_TURN_STOP);
    choose(&s->east, "mistaken");
    choose(&s->east, "safe");
    assert_turn(choose(&s->east, "leave"), TT_TURN_END);
    assert_turn(type(&s->east, "help me please"), TT_TURN_HELP_OR_DANGER);
    assert_turn(choose(&s->east, "danger"), TT_TURN_STOP);
}

/* It was none: then the case is closed again, in its records as in words. */
static void no_danger_after_it_was_gone_closes_it_again(void **state)
{
    scene *s = *state;
    gone(s);
    choose(&s->east, "danger");
    choose(&s->east, "mistaken");
    assert_turn(choose(&s->east, "safe"), TT_TURN_CAUSE);
    const tt_turn *turn = choose(&s->east, "yes");
    assert_turn(turn, TT_TURN_END);
    assert_string_equal(turn->how, "gone");
    assert_int_equal(records_of(s->f, "close"), 2);
}

/* What stands beside it is kept. */
static void worse_and_why(void **state)
{
    scene *s = *state;
    fix_done(s, "50");
    type(&s->east, "no change, the boss comes at noon");
    assert_non_null(last_record(s->f, "tried"));
    assert_string_equal(value_text(last_record(s->f, "said")->data, "words"),
                        "the boss comes at noon");
}

/* "It is leaking coolant" is no pressure test of the radiator, which is a technician's: whoever
 * only says so would be told to put a cap back that nobody opened. */
static void what_only_others_may_look_at_is_no_answer(void **state)
{
    (void)state;
    tt_book *b = book_folder("rules/standby-generator");
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", NULL, NULL, morning);
    choose(&t, "safe");
    const tt_turn *turn = type(&t, "it is leaking coolant");
    assert_turn(turn, TT_TURN_CONFIRM);
    assert_string_equal(turn->subject, "coolant-on-the-floor");
    assert_false(answered(f, "pressure-test"));
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

/* Smoke may be fire, so that comes first; if it is none, nobody has to say it twice. */
static void what_was_no_danger_is_heard_as_what_it_says(void **state)
{
    (void)state;
    tt_book *b = book_folder("rules/standby-generator");
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", NULL, NULL, morning);
    choose(&t, "safe");
    assert_turn(type(&t, "black smoke from the exhaust"), TT_TURN_STOP);
    assert_turn(choose(&t, "mistaken"), TT_TURN_DANGER);
    const tt_turn *turn = choose(&t, "safe");
    assert_turn(turn, TT_TURN_CONFIRM);
    assert_string_equal(turn->subject, "black-smoke");
    assert_turn(type(&t, "yes"), TT_TURN_QUESTION);
    assert_turn(type(&t, "somebody is bleeding badly"), TT_TURN_STOP);
    assert_turn(choose(&t, "mistaken"), TT_TURN_DANGER);
    assert_turn(choose(&t, "safe"), TT_TURN_QUESTION);
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

#define IN_SCENE(test) cmocka_unit_test_setup_teardown(test, foam_desk, one_desk_end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_SCENE(complaint_and_two_readings),
        IN_SCENE(what_only_sounds_like_an_answer_is_none),
        IN_SCENE(what_the_pump_and_the_water_do_is_a_complaint),
        IN_SCENE(a_number_that_could_be_two_gauges_is_asked_back),
        IN_SCENE(asked_back_and_none_of_them),
        IN_SCENE(several_complaints_are_confirmed_one_by_one),
        IN_SCENE(a_reading_in_another_answer),
        IN_SCENE(a_correction_says_the_old_answer_back),
        IN_SCENE(no_and_what_it_is_instead),
        IN_SCENE(beside_the_answer_about_danger),
        IN_SCENE(with_danger_in_it),
        IN_SCENE(an_answer_to_another_question_that_was_not_asked),
        IN_SCENE(words_that_serve_nothing_are_kept),
        IN_SCENE(what_can_not_be_is_no_answer),
        IN_SCENE(back_takes_what_came_together),
        IN_SCENE(ok_is_not_done),
        IN_SCENE(worse_and_why),
        IN_SCENE(danger_after_it_was_gone_leaves_it_open),
        IN_SCENE(danger_after_the_last_page_opens_the_case),
        IN_SCENE(no_danger_after_it_was_gone_closes_it_again),
        cmocka_unit_test(what_only_others_may_look_at_is_no_answer),
        cmocka_unit_test(what_was_no_danger_is_heard_as_what_it_says),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
