#include "rehearsal_twin.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

#include "open_gate.h"

const char twin_book[] = "book:\n"
                         "  title: Two causes\n"
                         "  roles: [anybody]\n"
                         "  not-listed: 10 %\n"
                         "  two-faults: 0 %\n"
                         "  call-out: 60 minutes\n"
                         "questions:\n"
                         "  cold:\n"
                         "    ask: Is it cold?\n"
                         "    about: today\n"
                         "    takes: 0.1 min\n"
                         "    shares: {yes: 25 %, no: 75 %}\n"
                         "  lamp:\n"
                         "    ask: Is the lamp dark?\n"
                         "    takes: 1 min\n"
                         "    read-right: 90 %\n"
                         "  hum:\n"
                         "    ask: How does it hum?\n"
                         "    takes: 2 min\n"
                         "    read-right: 80 %\n"
                         "    answers:\n"
                         "      loud: Loudly\n"
                         "      soft: Softly\n"
                         "      still: Not at all\n"
                         "symptoms:\n"
                         "  dark:\n"
                         "    text: The lamp is dark\n"
                         "    when: {lamp: yes}\n"
                         "    heard: [dark]\n"
                         "    shown-by: {apples: 80 %, bananas: 30 %}\n"
                         "    otherwise: 10 %\n"
                         "  loud:\n"
                         "    when: {hum: loud}\n"
                         "    heard: [loud]\n"
                         "    shown-by: {bananas: 70 %}\n"
                         "    otherwise: 10 %\n"
                         "causes:\n"
                         "  apples: {text: Apples, how-often: 3}\n"
                         "  bananas: {text: Bananas, how-often: 1}\n"
                         "fixes:\n"
                         "  fix-apples:\n"
                         "    text: Fix the apples\n"
                         "    role: anybody\n    cures: {apples: 90 %}\n"
                         "    takes: 5 min\n"
                         "    harm: none\n"
                         "    put-back: not needed\n"
                         "  fix-bananas:\n"
                         "    text: Fix the bananas\n"
                         "    role: anybody\n    cures: {bananas: 80 %}\n"
                         "    takes: 8 min\n"
                         "    harm:\n"
                         "      from: [slips]\n"
                         "      unprotected: {worst: critical, chance: occasional}\n"
                         "      protected: {worst: marginal, chance: remote}\n"
                         "    protect: [Goggles]\n"
                         "    put-back: not needed\n"
                         "rules:\n"
                         "  frost:\n"
                         "    when: {cold: yes}\n"
                         "    then:\n"
                         "      likelier: {bananas: 4 times}\n";

enum { NOT_LISTED, APPLES, BANANAS, HYPOTHESES };
enum { LAMP_STATES = 2, HUM_STATES = 3 }; /* no, yes; loud, soft, still */
#define LAMP_RIGHT .9
#define HUM_RIGHT  .8

/* ---- the model by hand ---- */

static double prior_of(int hypothesis, int cold)
{
    double bananas = cold ? 4 : 1;
    if (hypothesis == NOT_LISTED) return .1;
    return .9 * (hypothesis == APPLES ? 3 : bananas) / (3 + bananas);
}

/* Not listed: half as with any other cause, half as with the mean cause, apples being three in
 * four. */
static double lamp_chance(int hypothesis, int lamp)
{
    static const double dark[] = {.5 * .1 + .5 * (.75 * .8 + .25 * .3), .8, .3};
    return lamp == 1 ? dark[hypothesis] : 1 - dark[hypothesis];
}

static double hum_chance(int hypothesis, int hum)
{
    static const double loud[] = {.5 * .1 + .5 * (.75 * .1 + .25 * .7), .1, .7};
    return hum == 0 ? loud[hypothesis] : (1 - loud[hypothesis]) / 2;
}

static double seen_chance(int states, double right, int is, int seen)
{
    return is == seen ? right : (1 - right) / (states - 1);
}

/* ---- going through it ---- */

typedef struct twin {
    const tt_book *book;
    tt_case *c;
    uint32_t cold_question, lamp_question, fix_apples;
    double misread;
    twin_sums total;
} twin;

typedef struct course { /* of a call, up to here */
    double chance;
    int hypothesis, cold, lamp, hum;
    int lamp_seen, hum_seen; /* at the first look; -1: that is over, the next look is a new one */
    double minutes, questions, fixes, needless_low, needless_medium;
    bool ranked, leads;
    double truth;
} course;

static bool is_truth(const tt_cause *cause, int hypothesis)
{
    static const char *const names[] = {NULL, "apples", "bananas"};
    if (cause->name == NULL || hypothesis == NOT_LISTED)
        return cause->name == NULL && hypothesis == NOT_LISTED;
    return strcmp(cause->name, names[hypothesis]) == 0;
}

/* The first ranking counts. Says whether the truth leads now. */
static bool rank(course *x, const tt_view *v)
{
    bool leads = is_truth(&v->causes[0], x->hypothesis);
    if (x->ranked) return leads;
    x->ranked = true;
    x->leads = leads;
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (is_truth(&v->causes[i], x->hypothesis)) x->truth = v->causes[i].chance;
    return leads;
}

static void finish(twin *t, const course *x, bool cured, bool leads_last)
{
    twin_sums *s = &t->total;
    s->all += x->chance;
    s->leads += x->chance * x->leads;
    s->leads_last += x->chance * leads_last;
    s->cured += x->chance * cured;
    s->called += x->chance * !cured;
    s->minutes += x->chance * (x->minutes + (cured ? 0 : 60));
    s->questions += x->chance * x->questions;
    s->fixes += x->chance * x->fixes;
    s->surprise += x->chance * -log2(x->truth);
    s->needless_low += x->chance * x->needless_low;
    s->needless_medium += x->chance * x->needless_medium;
    if (x->hypothesis != NOT_LISTED) return;
    s->not_listed += x->chance;
    s->not_listed_blamed += x->chance * !x->leads;
}

static void go_on(twin *t, course x);

static void answer(twin *t, course x, uint32_t question, uint32_t option)
{
    assert_int_equal(tt_answer(t->c, question, &(tt_reply){.kind = TT_ANSWER, .option = option}),
                     TT_OK);
    go_on(t, x);
    assert_int_equal(tt_undo(t->c), TT_OK);
}

/* The option that a state is, found by its name: lamp and cold have no, yes; hum loud, soft, still.
 */
static uint32_t option_of(twin *t, uint32_t question, int state)
{
    static const char *const yes_no[] = {"no", "yes"}, *const hums[] = {"loud", "soft", "still"};
    tt_question shown;
    assert_int_equal(tt_question_show(t->c, question, &shown), TT_OK);
    const char *name = shown.option_count == 2 ? yes_no[state] : hums[state];
    for (uint32_t i = 0; i < shown.option_count; i++)
        if (strcmp(shown.options[i].name, name) == 0) return i;
    fail_msg("%s has no answer %s", shown.name, name);
    return 0;
}

static void ask(twin *t, course x, uint32_t question, double minutes)
{
    x.minutes += minutes;
    x.questions += 1;
    if (question == t->cold_question) {
        answer(t, x, question, option_of(t, question, x.cold));
        return;
    }
    bool lamp = question == t->lamp_question;
    int states = lamp ? LAMP_STATES : HUM_STATES, is = lamp ? x.lamp : x.hum,
        *seen = lamp ? &x.lamp_seen : &x.hum_seen;
    double right = (lamp ? LAMP_RIGHT : HUM_RIGHT) - t->misread;
    int first = *seen;
    *seen = -1;
    for (int s = 0; s < states; s++) {
        course y = x;
        if (first >= 0 && s != first) continue;
        if (first < 0) y.chance *= seen_chance(states, right, is, s);
        answer(t, y, question, option_of(t, question, s));
    }
}

static void tried(twin *t, course x, uint32_t fix, tt_outcome outcome, double chance, bool leads)
{
    x.chance *= chance;
    if (chance == 0) return;
    if (outcome == TT_GONE) {
        finish(t, &x, true, leads);
        return;
    }
    assert_int_equal(tt_fix_tried(t->c, fix, outcome), TT_OK);
    go_on(t, x);
    assert_int_equal(tt_undo(t->c), TT_OK);
}

static void try_fix(twin *t, course x, uint32_t fix, bool leads)
{
    bool apples = fix == t->fix_apples, helps = x.hypothesis == (apples ? APPLES : BANANAS);
    double gone = !helps ? 0 : apples ? .9 : .8, better = helps ? .10 : .02;
    x.minutes += apples ? 5 : 8;
    x.fixes += 1;
    if (apples)
        x.needless_low += !helps;
    else
        x.needless_medium += !helps;
    tried(t, x, fix, TT_GONE, gone, leads);
    tried(t, x, fix, TT_BETTER, (1 - gone) * better, leads);
    tried(t, x, fix, TT_NO_CHANGE, (1 - gone) * (1 - better), leads);
}

static void go_on(twin *t, course x)
{
    const tt_view *v;
    assert_int_equal(tt_look(t->c, &v), TT_OK);
    if (v->step == TT_ASK) {
        ask(t, x, v->next.question, v->next.minutes);
        return;
    }
    assert_true(v->step == TT_FIX || v->step == TT_CALL);
    bool leads = rank(&x, v);
    if (v->step == TT_FIX)
        try_fix(t, x, v->fix, leads);
    else
        finish(t, &x, false, leads);
}

static void complain(twin *t, course x, const char *symptom, double share)
{
    x.chance *= share;
    if (strcmp(symptom, "dark") == 0)
        x.lamp_seen = -1;
    else
        x.hum_seen = -1;
    assert_int_equal(tt_complain(t->c, tt_symptom_find(t->book, symptom)), TT_OK);
    go_on(t, x);
    assert_int_equal(tt_undo(t->c), TT_OK);
}

/* One of the complaints that seem true, each as likely as the others. */
static void begin(twin *t, course x)
{
    bool dark = x.lamp_seen == 1, loud = x.hum_seen == 0;
    double share = dark && loud ? .5 : 1;
    if (!dark && !loud) go_on(t, x);
    if (dark) complain(t, x, "dark", share);
    if (loud) complain(t, x, "loud", share);
}

static void all_seen(twin *t, course x)
{
    double chance = x.chance;
    for (x.lamp_seen = 0; x.lamp_seen < LAMP_STATES; x.lamp_seen++)
        for (x.hum_seen = 0; x.hum_seen < HUM_STATES; x.hum_seen++) {
            x.chance = chance *
                       seen_chance(LAMP_STATES, LAMP_RIGHT - t->misread, x.lamp, x.lamp_seen) *
                       seen_chance(HUM_STATES, HUM_RIGHT - t->misread, x.hum, x.hum_seen);
            begin(t, x);
        }
}

static void all_shown(twin *t, course x)
{
    for (x.lamp = 0; x.lamp < LAMP_STATES; x.lamp++)
        for (x.hum = 0; x.hum < HUM_STATES; x.hum++) {
            x.chance = (x.cold ? .25 : .75) * prior_of(x.hypothesis, x.cold) *
                       lamp_chance(x.hypothesis, x.lamp) * hum_chance(x.hypothesis, x.hum);
            all_seen(t, x);
        }
}

twin_sums twin_of_rehearsal(const tt_book *book, double misread)
{
    twin t = {.book = book, .misread = misread};
    assert_int_equal(tt_case_new(book, NULL, &t.c), TT_OK);
    open_gate(t.c); /* our own question: half a minute */
    t.cold_question = tt_question_find(book, "cold");
    t.lamp_question = tt_question_find(book, "lamp");
    t.fix_apples = tt_fix_find(book, "fix-apples");
    course x = {.questions = 1, .minutes = .5};
    for (x.cold = 0; x.cold < 2; x.cold++)
        for (x.hypothesis = 0; x.hypothesis < HYPOTHESES; x.hypothesis++) all_shown(&t, x);
    tt_case_free(t.c);
    return t.total;
}
