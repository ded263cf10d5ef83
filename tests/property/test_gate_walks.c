/* Random calls of two people who misread, doubt, take back, come and go, and say that there is
 * danger: nothing is offered while danger is not ruled out, and nothing above the role of who asks.
 *
 * What is safe is judged by a twin that goes through the whole history in the words of
 * docs/decision.md each time, and knows nothing of how the engine keeps count. */
#include <stdio.h>

#include "luck.h"
#include "testing.h"

#include "rule_kit.h"
#include "told_case.h"

enum { CALLS = 10000, ACTS = 24, SPEAKERS = 2, GATES = 2, QUESTIONS = 6, FIXES = 4 };

static const char book[] =
    "book: {title: Line, roles: [helper, mender], not-listed: 1 %}\n"
    "questions:\n"
    "  danger:\n"
    "    ask: Danger\n"
    "    about: today\n"
    "    answers: {safe: Safe, leak: Leak, smoke: Smoke}\n"
    "    safe: [safe]\n"
    "  gas: {ask: Gas, safe: [no], only-when: {indoors: yes}}\n"
    "  indoors: {ask: Indoors, about: the site}\n"
    "  sound: {ask: Sound, usual: no}\n"
    "  lamp: {ask: Lamp, usual: no}\n"
    "  gauge: {ask: Gauge, reading: pressure, unit: psi, plausible: 0 to 100 psi, usual: 20 to 40 "
    "psi}\n"
    "symptoms:\n"
    "  loud: {text: Loud, when: {sound: yes}, heard: [loud], shown-by: {worn: often}}\n"
    "  dark: {text: Dark, when: {lamp: yes}, heard: [dark], shown-by: {wire: usually}}\n"
    "  weak: {text: Weak, when: {gauge: below 20 psi}, heard: [weak], shown-by: {low: often, worn: "
    "sometimes}}\n"
    "causes:\n"
    "  low: {text: Low, how-often: common}\n"
    "  wire: {text: Wire, how-often: common}\n"
    "  worn: {text: Worn, how-often: common}\n"
    "fixes:\n"
    "  grease: {text: Grease, role: helper, cures: {worn: often}, takes: 1 min, harm: none, "
    "put-back: Wipe}\n"
    "  raise:\n"
    "    text: Raise\n"
    "    role: helper\n    cures: {low: usually}\n"
    "    takes: 2 min\n"
    "    harm: none\n"
    "    adjust: {reading: gauge, by: 5 psi, within: 5 to 40 psi, at-most: 3 times}\n"
    "    look-again: [sound, danger]\n"
    "    put-back: Set it back\n"
    "  swap: {text: Swap, role: helper, cures: {worn: usually}, takes: 5 min, harm: none, "
    "put-back: "
    "Return, "
    "look-again: [danger, gas, gauge]}\n"
    "  wiring: {text: Wiring, role: mender, cures: {wire: always, worn: usually}, takes: 1 min, "
    "harm: none, put-back: not needed}\n"
    "rules:\n"
    "  fire:\n"
    "    when: {danger: smoke}\n"
    "    then: {stop: Leave}\n"
    "  flicker:\n"
    "    when: {lamp: yes}\n"
    "    then:\n"
    "      caution:\n"
    "        signal: warning\n"
    "        holds: [swap]\n"
    "        text: Mind the lamp\n";

static const char *const names[QUESTIONS] = {"danger", "gas",  "indoors",
                                             "sound",  "lamp", "gauge"}; /* the gates first */
static const char *const fixes[FIXES] = {"grease", "raise", "swap", "wiring"};
enum { DANGER, GAS, INDOORS };

typedef enum told_kind {
    SAID_SAFE,
    SAID_UNSAFE,
    SAID_DANGER,
    ASKS_AGAIN,
    SITTING,
    FACT,
    OTHER_STEP
} told_kind;
typedef struct told {
    told_kind kind;
    uint32_t who;      /* SPEAKERS: asks all of them */
    uint32_t question; /* QUESTIONS: all gates */
    bool indoors;      /* FACT: not known to be out of doors */
    uint32_t knew;     /* SAID_SAFE: the dangers with numbers below this */
    bool step;
} told;

typedef struct walk {
    told_case t;
    uint32_t questions[QUESTIONS], fixes[FIXES];
    told history[4 * ACTS];
    uint32_t count, who;
    uint64_t luck;
} walk;

static uint32_t luck(walk *w, uint32_t below)
{
    return luck_below(&w->luck, below);
}

/* ---- the twin ---- */

static bool is_about(const told *x, uint32_t gate)
{
    return x->question == gate || x->question == QUESTIONS;
}

static bool gas_may_apply(const walk *w, bool *asked)
{
    bool applies = true;
    *asked = false;
    for (uint32_t i = 0; i < w->count; i++) {
        if (w->history[i].kind != FACT) continue;
        applies = w->history[i].indoors;
        *asked = true;
    }
    return applies;
}

/* A safe answer at `safe` ends the danger at `danger`, which has this number. */
static bool ends(const walk *w, uint32_t safe, uint32_t danger, uint32_t number, uint32_t gate)
{
    const told *x = &w->history[safe];
    return safe > danger && x->kind == SAID_SAFE && x->question == gate && x->knew > number;
}

static bool any_ends(const walk *w, uint32_t danger, uint32_t number, uint32_t gate)
{
    for (uint32_t i = danger; i < w->count; i++)
        if (ends(w, i, danger, number, gate)) return true;
    return false;
}

static bool danger_stands(const walk *w, const bool *applies)
{
    for (uint32_t i = 0, number = 0; i < w->count; i++) {
        const told *x = &w->history[i];
        if (x->kind != SAID_UNSAFE && x->kind != SAID_DANGER) continue;
        for (uint32_t g = 0; g < GATES; g++)
            if (is_about(x, g) && (applies[g] || x->kind == SAID_UNSAFE) &&
                !any_ends(w, i, number, g))
                return true;
        number++;
    }
    return false;
}

/* The last word of `who` on this gate question is a safe answer, in their sitting, and they knew of
 * every danger. */
static bool has_answered(const walk *w, uint32_t who, uint32_t gate)
{
    bool safe = false;
    uint32_t dangers = 0, must_know = 0; /* those below this number */
    for (uint32_t i = 0; i < w->count; i++) {
        const told *x = &w->history[i];
        bool theirs = x->who == who || x->who == SPEAKERS;
        if (x->kind == SAID_UNSAFE || x->kind == SAID_DANGER) {
            dangers++;
            if (!is_about(x, gate)) continue;
            safe = false;
            must_know = dangers;
        }
        if (theirs && (x->kind == SITTING || x->kind == ASKS_AGAIN) && is_about(x, gate))
            safe = false;
        if (theirs && x->kind == SAID_SAFE && x->question == gate) safe = x->knew >= must_know;
    }
    return safe;
}

static bool is_open(const walk *w)
{
    bool asked, applies[GATES] = {true, gas_may_apply(w, &asked)};
    if (!asked || danger_stands(w, applies)) return false;
    for (uint32_t g = 0; g < GATES; g++)
        if (applies[g] && !has_answered(w, w->who, g)) return false;
    return true;
}

static uint32_t dangers_of(const walk *w)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < w->count; i++)
        count += w->history[i].kind == SAID_UNSAFE || w->history[i].kind == SAID_DANGER;
    return count;
}

/* ---- what people do ---- */

static void note(walk *w, told x)
{
    assert_true(w->count < sizeof w->history / sizeof *w->history);
    w->history[w->count++] = x;
}

static tt_reply random_reply(walk *w, uint32_t question, bool safely)
{
    if (safely && question < GATES)
        return (tt_reply){.kind = TT_ANSWER, .option = 0}; /* "safe" and "no" are shown first */
    uint32_t way = luck(w, 8);
    if (way == 0) return (tt_reply){.kind = TT_UNSURE};
    if (way == 1) return (tt_reply){.kind = TT_CANNOT};
    if (question == QUESTIONS - 1) return (tt_reply){.kind = TT_NUMBER, .number = 5 + luck(w, 40)};
    if (way == 2) return (tt_reply){.kind = TT_NOT, .not_options = 1};
    return (tt_reply){.kind = TT_ANSWER, .option = luck(w, question == DANGER ? 3 : 2)};
}

/* "Not yes" is no. */
static bool says_no(const walk *w, uint32_t question, const tt_reply *reply)
{
    tt_question shown;
    assert_int_equal(tt_question_show(w->t.c, w->questions[question], &shown), TT_OK);
    if (reply->kind == TT_NOT) return strcmp(shown.options[0].name, "yes") == 0;
    return reply->kind == TT_ANSWER && strcmp(shown.options[reply->option].name, "no") == 0;
}

static bool is_safe(const walk *w, uint32_t question, const tt_reply *reply)
{
    tt_question shown;
    assert_int_equal(tt_question_show(w->t.c, w->questions[question], &shown), TT_OK);
    const char *said = reply->kind == TT_ANSWER ? shown.options[reply->option].name : "";
    return strcmp(said, question == DANGER ? "safe" : "no") == 0;
}

static void answer(walk *w, uint32_t question, bool safely)
{
    tt_reply reply = random_reply(w, question, safely);
    tt_question shown;
    assert_int_equal(tt_question_show(w->t.c, w->questions[question], &shown), TT_OK);
    if (safely && question < GATES)
        while (!is_safe(w, question, &reply)) reply.option++;
    bool unaware = luck(w, 6) == 0;
    uint32_t all = dangers_of(w), knew = unaware && all > 0 ? luck(w, all) : all;
    tt_status status = unaware ? tt_answer_unaware(w->t.c, w->questions[question], &reply, knew)
                               : tt_answer(w->t.c, w->questions[question], &reply);
    assert_int_equal(status, TT_OK);
    told x = {.kind = OTHER_STEP, .who = w->who, .question = question, .knew = knew, .step = true};
    if (question < GATES) x.kind = is_safe(w, question, &reply) ? SAID_SAFE : SAID_UNSAFE;
    if (question == INDOORS) x.kind = FACT;
    if (question == INDOORS) x.indoors = !says_no(w, question, &reply);
    note(w, x);
}

/* What the fix wants to be looked at again. */
static void ask_again_after(walk *w, uint32_t fix, tt_outcome outcome)
{
    if (outcome == TT_WORSE)
        note(w, (told){.kind = ASKS_AGAIN, .who = w->who, .question = QUESTIONS});
    if (outcome != TT_WORSE && outcome != TT_BETTER) return;
    if (fix == 1 || fix == 2)
        note(w, (told){.kind = ASKS_AGAIN, .who = SPEAKERS, .question = DANGER});
    if (fix == 2) note(w, (told){.kind = ASKS_AGAIN, .who = SPEAKERS, .question = GAS});
}

static void report(walk *w, const tt_view *v)
{
    uint32_t fix = luck(w, FIXES);
    for (uint32_t i = 0; v->fix != TT_NONE && i < FIXES; i++)
        if (w->fixes[i] == v->fix) fix = i;
    tt_outcome outcome = (tt_outcome)luck(w, 5);
    if (tt_fix_tried(w->t.c, w->fixes[fix], outcome) != TT_OK) return;
    note(w, (told){.kind = OTHER_STEP, .who = w->who, .question = QUESTIONS + 1, .step = true});
    ask_again_after(w, fix, outcome);
}

/* The step, and what followed from it. */
static void take_back(walk *w)
{
    uint32_t last = w->count;
    while (last > 0 && !w->history[last - 1].step) last--;
    bool may =
        last > 0 && w->history[last - 1].who == w->who && w->history[last - 1].kind != SAID_UNSAFE;
    for (uint32_t i = last; i < w->count; i++)
        may &= w->history[i].kind != SAID_DANGER &&
               !(w->history[i].kind == SITTING && w->history[i].who == w->who);
    assert_int_equal(tt_undo(w->t.c), may ? TT_OK : TT_NOT_NOW);
    if (!may) return;
    uint32_t kept = last - 1;
    bool reported = w->history[kept].kind == OTHER_STEP;
    for (uint32_t i = last; i < w->count; i++) {
        reported &= w->history[i].kind == ASKS_AGAIN && w->history[i].knew == 0;
        if (!reported) w->history[kept++] = w->history[i];
    }
    w->count = kept;
}

static void say_something(walk *w)
{
    switch (luck(w, 8)) {
    case 0:
        assert_int_equal(tt_danger_said(w->t.c), TT_OK);
        note(w, (told){.kind = SAID_DANGER, .who = w->who, .question = QUESTIONS});
        return;
    case 1:
        assert_int_equal(tt_recheck(w->t.c), TT_OK);
        note(w, (told){.kind = ASKS_AGAIN, .who = w->who, .question = QUESTIONS, .knew = 1});
        return;
    case 2:
    case 3:
        assert_int_equal(tt_sitting(w->t.c), TT_OK);
        note(w, (told){.kind = SITTING, .who = w->who, .question = QUESTIONS});
        return;
    default:
        w->who = luck(w, SPEAKERS);
        tt_speaker(w->t.c, w->who);
        return;
    }
}

static void try_step(walk *w, tt_status status)
{
    if (status == TT_OK)
        note(w, (told){.kind = OTHER_STEP, .who = w->who, .question = QUESTIONS + 1, .step = true});
}

static void retract(walk *w)
{
    uint32_t question = luck(w, QUESTIONS);
    if (question == INDOORS || tt_retract(w->t.c, w->questions[question]) != TT_OK) return;
    told_kind kind = question < GATES ? ASKS_AGAIN : OTHER_STEP;
    note(w, (told){.kind = kind, .who = w->who, .question = question, .knew = 1, .step = true});
}

static void answer_what_is_asked(walk *w, const tt_view *v)
{
    uint32_t wanted = v->gate.state == TT_GATE_OPEN ? v->next.question : v->gate.question;
    for (uint32_t i = 0; i < QUESTIONS; i++)
        if (w->questions[i] == wanted) answer(w, i, luck(w, 10) > 0);
}

static void act(walk *w)
{
    const tt_view *v = told_look(&w->t);
    uint32_t way = luck(w, 20), fix = luck(w, FIXES);
    if (way < 9)
        answer_what_is_asked(w, v);
    else if (way < 11)
        answer(w, luck(w, QUESTIONS), false);
    else if (way < 14)
        report(w, v);
    else if (way == 14)
        try_step(w, tt_put_back(w->t.c, v->fix != TT_NONE ? v->fix : w->fixes[fix]));
    else if (way == 15)
        try_step(w, luck(w, 2) == 0 ? tt_left_so(w->t.c, w->fixes[fix])
                                    : tt_came_back(w->t.c, w->fixes[fix]));
    else if (way == 16)
        take_back(w);
    else if (way == 17)
        retract(w);
    else
        say_something(w);
}

/* ---- what is counted ---- */

typedef struct counts {
    unsigned long looks, open, offered, shut, above, held, standing;
} counts;

static bool caution_stands(const tt_view *v)
{
    for (uint32_t i = 0; i < v->caution_count; i++)
        if (strcmp(v->cautions[i].rule, "flicker") == 0) return true;
    return false;
}

static void count_offers(walk *w, counts *all)
{
    const tt_view *v = told_look(&w->t);
    bool open = is_open(w), offered = v->step == TT_FIX || v->step == TT_PUT_BACK;
    all->looks++;
    all->open += open;
    all->offered += offered;
    all->shut += offered && !open;
    for (uint32_t i = 0; i < v->fix_count; i++) all->shut += !open && !v->fixes[i].held;
    all->above += v->step == TT_FIX && v->fix == w->fixes[3];
    assert_int_equal(v->gate.state == TT_GATE_OPEN,
                     open); /* and what may be done is not held back */
    if (!caution_stands(v)) return;
    all->standing++;
    for (uint32_t i = 0; i < v->fix_count; i++) all->held += v->fixes[i].fix == w->fixes[2];
    all->held += v->step == TT_FIX && v->fix == w->fixes[2];
}

static void play(walk *w, counts *all)
{
    w->count = w->who = 0;
    for (int i = 0; i < ACTS; i++) {
        count_offers(w, all);
        act(w);
    }
    count_offers(w, all);
}

static void nothing_is_offered_before_danger_is_ruled_out(void **state)
{
    (void)state;
    walk w = {.luck = 42};
    counts all = {0};
    w.t = told_new(book, NULL);
    for (uint32_t i = 0; i < QUESTIONS; i++) w.questions[i] = told_question(&w.t, names[i]);
    for (uint32_t i = 0; i < FIXES; i++) w.fixes[i] = told_fix(&w.t, fixes[i]);
    for (int call = 0; call < CALLS; call++) {
        tt_case_free(w.t.c);
        assert_int_equal(tt_case_new(w.t.book, &(tt_options){.role = 0}, &w.t.c), TT_OK);
        play(&w, &all);
    }
    printf("%d calls, %lu looks, the gate open in %lu of them, a fix offered in %lu\n", CALLS,
           all.looks, all.open, all.offered);
    printf("a fix offered with the gate shut: %lu\n", all.shut);
    printf("a fix above the role: %lu\n", all.above);
    printf("a fix while a caution holds it: %lu of %lu looks at which it stood\n", all.held,
           all.standing);
    assert_int_equal(all.held, 0);
    assert_true(all.standing > all.looks / 100);
    assert_int_equal(all.shut, 0);
    assert_int_equal(all.above, 0);
    /* both were met often */
    assert_true(all.offered > all.looks / 20 && all.looks - all.open > all.looks / 20);
    told_free(&w.t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_offered_before_danger_is_ruled_out)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
