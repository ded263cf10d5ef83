/* A case that is told on top of what it knew, and looked at now and then, stands where one stands
 * that works everything out anew at each word: to the last bit. */
#include <string.h>

#include "luck.h"
#include "testing.h"
#include "told_case.h"

enum { CALLS = 300, ACTS = 40, SPEAKERS = 2 };

static const char book[] =
    "book: {title: Line, roles: [helper], not-listed: 1 %, two-faults: 5 %}\n"
    "questions:\n"
    "  danger: {ask: Danger, about: today, answers: {safe: Safe, leak: Leak}, safe: [safe]}\n"
    "  sound: {ask: Sound, usual: no}\n"
    "  gauge: {ask: Gauge, reading: pressure, unit: psi, plausible: 0 to 100 psi, usual: 20 to 40 "
    "psi}\n"
    "  inlet: {ask: Inlet, reading: pressure, unit: psi, plausible: 0 to 100 psi}\n"
    "quantities:\n"
    "  drop: {text: Drop, formula: inlet - gauge, unit: psi}\n"
    "symptoms:\n"
    "  loud: {text: Loud, when: {sound: yes}, shown-by: {worn: often}}\n"
    "  weak: {text: Weak, when: {gauge: below 20 psi}, shown-by: {low: often, worn: sometimes}}\n"
    "  lossy: {text: Lossy, when: {drop: above 10 psi}, shown-by: {worn: often}}\n"
    "causes:\n"
    "  low: {text: Low, how-often: common}\n"
    "  worn: {text: Worn, how-often: common}\n"
    "  loose: {text: Loose, how-often: common}\n"
    "fixes:\n"
    "  grease: {text: Grease, role: helper, cures: {worn: often}, takes: 1 min, harm: none, "
    "put-back: Wipe}\n"
    "  raise:\n"
    "    text: Raise\n    role: helper\n    cures: {low: usually}\n    takes: 2 min\n"
    "    harm: none\n"
    "    adjust: {reading: gauge, by: 5 psi, within: 5 to 40 psi, at-most: 3 times}\n"
    "    look-again: [sound, danger]\n    put-back: Set it back\n"
    "  swap: {text: Swap, role: helper, cures: {worn: usually, loose: often}, takes: 5 min, "
    "harm: none, put-back: Return, look-again: [danger, gauge]}\n";

/* One act, drawn alike for both. */
typedef struct act {
    uint32_t what, subject, amount;
} act;

static act draw(uint64_t *random)
{
    return (act){luck_below(random, 12), luck_below(random, 64), luck_below(random, 60)};
}

static tt_status answer(told_case *t, const act *a, bool again)
{
    static const char *const names[] = {"danger", "sound", "gauge", "inlet"};
    const uint32_t which = a->subject % 4, question = told_question(t, names[which]);
    tt_reply r = {.kind = TT_NUMBER, .number = a->amount};
    if (which < 2) r = (tt_reply){.kind = TT_ANSWER, .option = a->amount % 2};
    if (which == 0) r.option = a->amount % 8 == 0;
    if (a->subject % 7 == 6) r = (tt_reply){.kind = TT_UNSURE};
    if (!again) return tt_answer(t->c, question, &r);
    return tt_answer_again(t->c, question, &r, a->amount % 2 ? TT_LOOK_ANOTHER : TT_LOOK_AGAIN);
}

static tt_status tell(told_case *t, const act *a)
{
    static const char *const names[] = {"grease", "raise", "swap"};
    const uint32_t fix = told_fix(t, names[a->subject % 3]);
    switch (a->what) {
    case 0:
        return tt_undo(t->c);
    case 1:
        return tt_retract(t->c, told_question(t, a->subject % 2 ? "gauge" : "drop"));
    case 2:
        return tt_put_back(t->c, fix);
    case 3:
        return tt_left_so(t->c, fix);
    case 4:
        return tt_came_back(t->c, fix);
    case 5:
    case 6:
    case 7:
        return tt_fix_tried(t->c, fix, (tt_outcome)(a->amount % 5));
    case 8:
        if (a->amount % 4 == 0) tt_speaker(t->c, a->subject % SPEAKERS);
        return tt_sitting(t->c);
    case 9:
        return answer(t, a, true);
    default:
        return answer(t, a, false);
    }
}

/* Nothing that was known is used again. */
static void forget(told_case *t, uint32_t speaker)
{
    tt_speaker(t->c, speaker + 1);
    tt_speaker(t->c, speaker);
}

static void assert_alike(told_case *one, told_case *twin)
{
    const tt_view *a = told_look(one), *b = told_look(twin);
    assert_int_equal(a->cause_count, b->cause_count);
    for (uint32_t i = 0; i < a->cause_count; i++) {
        assert_true((a->causes[i].name == NULL) == (b->causes[i].name == NULL));
        assert_memory_equal(&a->causes[i].chance, &b->causes[i].chance, sizeof(double));
    }
    assert_memory_equal(&a->two_faults, &b->two_faults, sizeof(double));
    assert_int_equal(a->step, b->step);
    assert_int_equal(a->fix, b->fix);
    assert_int_equal(a->gate.state, b->gate.state);
    assert_int_equal(a->fix_count, b->fix_count);
    for (uint32_t i = 0; i < a->fix_count; i++) assert_int_equal(a->fixes[i].fix, b->fixes[i].fix);
}

static void told_on_top_is_told_anew(void **state)
{
    (void)state;
    uint64_t random = 41;
    uint32_t outcomes = 0, undone = 0;
    for (uint32_t call = 0; call < CALLS; call++) {
        told_case one = told_new(book, NULL), twin = told_new(book, NULL);
        uint32_t speaker = 0;
        for (uint32_t i = 0; i < ACTS; i++) {
            const act a = draw(&random);
            forget(&twin, speaker);
            if (a.what == 8 && a.amount % 4 == 0) speaker = a.subject % SPEAKERS;
            const tt_status status = tell(&one, &a);
            assert_int_equal(tell(&twin, &a), status);
            outcomes += status == TT_OK && a.what >= 4 && a.what <= 7;
            undone += status == TT_OK && a.what == 0;
            if (luck_below(&random, 3) > 0) continue;
            forget(&twin, speaker);
            assert_alike(&one, &twin);
        }
        told_free(&one);
        told_free(&twin);
    }
    assert_true(outcomes > CALLS && undone > CALLS / 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(told_on_top_is_told_anew)};
    return cmocka_run_group_tests_name("standing twin", tests, NULL, NULL);
}
