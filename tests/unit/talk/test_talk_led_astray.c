/* Somebody who goes about it the dangerous way, and says so wherever the talk just stands: each
 * time danger is asked about, or its page comes, before anything else is done. The hazards are
 * those that an attendant can be led into at a foam line. */
#include "one_desk.h"
#include "testing.h"

#include <stdlib.h>

typedef one_desk scene;

static const char *const said[] = {"done, I took the fitting off under pressure",
                                   "I loosened the hose, product is coming out",
                                   "water pushes back in the hose, I push it back on",
                                   "the bowl has product, I drained the bowl",
                                   "I am standing in front of the car",
                                   "I went under the arch while cars come",
                                   "I reached under the cover, it runs",
                                   "I put it back myself inside the tunnel",
                                   "I cut off his lock",
                                   "the doors are shut and the exhaust fills the tunnel",
                                   "a car is on top of somebody",
                                   "I climbed on the arch",
                                   "the label does not match and I changed it",
                                   "lifting the drum by myself",
                                   "afloje el tubo y tiene presion",
                                   "puse la manguera otra vez con la presión puesta",
                                   "estoy parado enfrente del carro",
                                   "me meto al tunel",
                                   "corte su candado",
                                   "cierro las puertas con carros adentro",
                                   "purgue el vaso",
                                   "me subí al arco"};
enum { SAID = sizeof said / sizeof said[0] };

/* ---- where the talk stands ---- */

static void at_a_question(told_talk *t)
{
    choose(t, "safe");
    choose(t, "foam-too-dry");
}

static void at_a_gauge(told_talk *t)
{
    choose(t, "safe");
    hear_hiss(t);
}

static void before_a_fix(told_talk *t)
{
    reach_foam_fix(t);
}

static void at_a_step(told_talk *t)
{
    reach_foam_fix(t);
    assert_turn(choose(t, "begin"), TT_TURN_FIX_STEP);
}

static void at_the_gauge_after_it(told_talk *t)
{
    at_a_step(t);
    while (turn_of(t)->kind == TT_TURN_FIX_STEP) choose(t, "done");
    assert_turn(turn_of(t), TT_TURN_LOOK_AGAIN);
}

static void at_its_outcome(told_talk *t)
{
    at_the_gauge_after_it(t);
    assert_turn(read_off(t, 30, "psi"), TT_TURN_OUTCOME);
}

static void at_putting_back(told_talk *t)
{
    at_its_outcome(t);
    assert_turn(choose(t, "no-change"), TT_TURN_PUT_BACK);
}

static void at_what_is_known(told_talk *t)
{
    at_a_question(t);
    choose(t, "known");
}

static void at_which_answer_was_wrong(told_talk *t)
{
    at_a_question(t);
    choose(t, "change");
}

static void at_is_it_this(told_talk *t)
{
    choose(t, "safe");
    assert_turn(type(t, "foam is dry like cream"), TT_TURN_CONFIRM);
}

static void at_what_it_was(told_talk *t)
{
    at_its_outcome(t);
    choose(t, "gone");
}

static const struct {
    const char *name;
    void (*go)(told_talk *t);
} places[] = {{"question", at_a_question},
              {"gauge", at_a_gauge},
              {"before a fix", before_a_fix},
              {"step", at_a_step},
              {"gauge after a fix", at_the_gauge_after_it},
              {"outcome", at_its_outcome},
              {"putting back", at_putting_back},
              {"what is known", at_what_is_known},
              {"which answer was wrong", at_which_answer_was_wrong},
              {"is it this", at_is_it_this},
              {"what it was", at_what_it_was}};

static bool is_about_danger(const tt_turn *turn)
{
    return turn->kind == TT_TURN_DANGER || turn->kind == TT_TURN_STOP;
}

/* Each at every place would take long: they go round. */
static void danger_comes_first_wherever_it_is_said(void **state)
{
    scene *s = *state;
    for (size_t p = 0; p < sizeof places / sizeof places[0]; p++)
        for (size_t i = p % 3; i < SAID; i += 3) {
            places[p].go(&s->east);
            const tt_turn *turn = type(&s->east, said[i]);
            if (!is_about_danger(turn) || turn_offers_fix(turn) || turn->gate_open)
                fail_msg("%s: “%s” leads to %s", places[p].name, said[i],
                         tt_turn_kind_name(turn->kind));
            one_desk_end(state);
            foam_desk(state);
            s = *state;
        }
}

/* The trouble is gone, and only what it was is still asked: danger is asked all the same, and then
 * that. */
static void after_the_end_too(void **state)
{
    scene *s = *state;
    at_what_it_was(&s->east);
    const tt_turn_kind before = turn_of(&s->east)->kind;
    assert_true(before == TT_TURN_CAUSE);
    assert_turn(type(&s->east, "I loosened the hose, product is coming out"), TT_TURN_DANGER);
    assert_turn(choose(&s->east, "safe"), before);
    assert_turn(type(&s->east, "a car is on top of somebody"), TT_TURN_STOP);
}

/* Neither going back, nor another answer, nor a number, nor another day, nor another person opens
 * what danger has shut. */
static void nothing_but_its_question_opens_it(void **state)
{
    static const char *const tried[] = {"back", "known",     "change", "55 psi",      "done",
                                        "gone", "no-change", "worse",  "foam is dry", "listo"};
    scene *s = *state;
    at_a_step(&s->east);
    type(&s->east, "I cut off his lock");
    choose(&s->east, "unsure");
    for (size_t i = 0; i < sizeof tried / sizeof tried[0]; i++) {
        const tt_turn *turn = type(&s->east, tried[i]);
        if (turn->gate_open || turn_offers_fix(turn)) fail_msg("“%s” opens it", tried[i]);
    }
    told_talk next_day = talk_open(s->b, s->f, "east", NULL, "resume", "2026-11-30T09:00:00+01:00");
    assert_false(turn_of(&next_day)->gate_open || turn_offers_fix(turn_of(&next_day)));
    told_talk other = talk_open(s->b, s->f, "west", NULL, "join", "2026-11-30T09:05:00+01:00");
    assert_false(turn_of(&other)->gate_open || turn_offers_fix(turn_of(&other)));
    talk_close(&other);
    talk_close(&next_day);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, foam_desk, one_desk_end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(danger_comes_first_wherever_it_is_said),
        TEST(after_the_end_too),
        TEST(nothing_but_its_question_opens_it),
    };
    return cmocka_run_group_tests_name("led_astray", tests, NULL, NULL);
}
