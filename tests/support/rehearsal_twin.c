#include "rehearsal_twin.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

#include "open_gate.h"

#define BOOK_FOR(roles, first, second) \
    "book:\n" \
    "  title: Two causes\n" \
    "  roles: [" roles "]\n" \
    "  not-listed: 10 %\n" \
    "  two-faults: 0 %\n" \
    "  call-out: 60 minutes\n" \
    "questions:\n" \
    "  cold:\n" \
    "    ask: Is it cold?\n" \
    "    about: today\n" \
    "    takes: 0.1 min\n" \
    "    shares: {yes: 25 %, no: 75 %}\n" \
    "  lamp:\n" \
    "    ask: Is the lamp dark?\n" \
    "    takes: 1 min\n" \
    "    read-right: 90 %\n" \
    "  hum:\n" \
    "    ask: How does it hum?\n" \
    "    takes: 2 min\n" \
    "    read-right: 80 %\n" \
    "    answers:\n" \
    "      loud: Loudly\n" \
    "      soft: Softly\n" \
    "      still: Not at all\n" \
    "symptoms:\n" \
    "  dark:\n" \
    "    text: The lamp is dark\n" \
    "    when: {lamp: yes}\n" \
    "    heard: [dark]\n" \
    "    shown-by: {apples: 80 %, bananas: 30 %}\n" \
    "    otherwise: 10 %\n" \
    "  loud:\n" \
    "    when: {hum: loud}\n" \
    "    heard: [loud]\n" \
    "    shown-by: {bananas: 70 %}\n" \
    "    otherwise: 10 %\n" \
    "causes:\n" \
    "  apples: {text: Apples, how-often: 3}\n" \
    "  bananas: {text: Bananas, how-often: 1}\n" \
    "fixes:\n" \
    "  fix-apples:\n" \
    "    text: Fix the apples\n" \
    "    role: " first "\n    cures: {apples: 90 %}\n" \
    "    takes: 5 min\n" \
    "    harm: none\n" \
    "    put-back: not needed\n" \
    "  fix-bananas:\n" \
    "    text: Fix the bananas\n" \
    "    role: " second "\n    cures: {bananas: 80 %}\n" \
    "    takes: 8 min\n" \
    "    harm:\n" \
    "      from: [slips]\n" \
    "      unprotected: {worst: critical, chance: occasional}\n" \
    "      protected: {worst: marginal, chance: remote}\n" \
    "    protect: [Goggles]\n" \
    "    put-back: not needed\n" \
    "rules:\n" \
    "  frost:\n" \
    "    when: {cold: yes}\n" \
    "    then:\n" \
    "      likelier: {bananas: 4 times}\n"

const char twin_book[] = BOOK_FOR("anybody", "anybody", "anybody");
const char twin_book_of_two[] = BOOK_FOR("helper, fitter", "helper", "fitter");

enum { NOT_LISTED, APPLES, BANANAS, HYPOTHESES };
enum { LAMP_STATES = 2, HUM_STATES = 3 }; /* no, yes; loud, soft, still */
#define LAMP_RIGHT .9
#define HUM_RIGHT  .8

/* ---- the model by hand ---- */

const twin_numbers twin_as_written = {3, 1, .8, .3, .1, .7, .1, .9, .8};

static double prior_of(const twin_numbers *n, int hypothesis, int cold)
{
    double bananas = n->bananas * (cold ? 4 : 1);
    if (hypothesis == NOT_LISTED) return .1;
    return .9 * (hypothesis == APPLES ? n->apples : bananas) / (n->apples + bananas);
}

/* Not listed: half as with any other cause, half as with the mean cause. */
static const double rightly = .95; /* fixes of a book that says nothing of it */

static double sign_chance(const twin_numbers *n, int hypothesis, double apples, double bananas,
                          double otherwise)
{
    const double share = n->apples / (n->apples + n->bananas);
    return hypothesis == APPLES    ? apples
           : hypothesis == BANANAS ? bananas
                                   : .5 * otherwise + .5 * (share * apples + (1 - share) * bananas);
}

static double lamp_chance(const twin_numbers *n, int hypothesis, int lamp)
{
    double dark = sign_chance(n, hypothesis, n->dark_apples, n->dark_bananas, n->dark_otherwise);
    return lamp == 1 ? dark : 1 - dark;
}

static double hum_chance(const twin_numbers *n, int hypothesis, int hum)
{
    double loud = sign_chance(n, hypothesis, n->loud_otherwise, n->loud_bananas, n->loud_otherwise);
    return hum == 0 ? loud : (1 - loud) / 2;
}

static double seen_chance(int states, double right, int is, int seen)
{
    return is == seen ? right : (1 - right) / (states - 1);
}

/* ---- going through it ---- */

typedef struct told {
    enum { TOLD_ANSWER, TOLD_COMPLAINT, TOLD_OUTCOME } kind;
    uint32_t subject, option;
    tt_outcome outcome;
} told;

typedef struct twin {
    const tt_book *book;
    tt_case *c;
    told told[64]; /* all that the case was told, to tell it to whoever is called */
    uint32_t told_count;
    bool two_roles;
    const twin_numbers *numbers; /* of the world; the book keeps its own */
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
    bool over; /* somebody else is at work: */
    double minutes_over;
} course;

static bool is_truth(const tt_cause *cause, int hypothesis)
{
    static const char *const names[] = {NULL, "apples", "bananas"};
    if (cause->name == NULL || hypothesis == NOT_LISTED)
        return cause->name == NULL && hypothesis == NOT_LISTED;
    return strcmp(cause->name, names[hypothesis]) == 0;
}

/* With single faults the chances of the first of them add up. */
static void count_set(twin *t, const course *x, const tt_view *v)
{
    double mass = 0;
    bool held = false;
    uint32_t i = 0;
    for (; i < v->cause_count && mass < .9; i++) {
        mass += v->causes[i].chance;
        held |= is_truth(&v->causes[i], x->hypothesis);
    }
    t->total.set_said += x->chance * mass;
    t->total.set_held += x->chance * held;
    t->total.set_causes += x->chance * i;
}

/* The first ranking counts. */
static void rank(twin *t, course *x, const tt_view *v)
{
    if (x->ranked) return;
    x->ranked = true;
    x->leads = is_truth(&v->causes[0], x->hypothesis);
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (is_truth(&v->causes[i], x->hypothesis)) x->truth = v->causes[i].chance;
    count_set(t, x, v);
}

static void finish_over(twin *t, const course *x, bool cured)
{
    twin_sums *s = &t->total;
    s->over += x->chance;
    s->over_cured += x->chance * cured;
    s->before += x->chance * x->minutes;
    s->after += x->chance * x->minutes_over;
}

static void finish(twin *t, const course *x, bool cured)
{
    twin_sums *s = &t->total;
    s->all += x->chance;
    s->leads += x->chance * x->leads;
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

static void note_told(twin *t, told what)
{
    assert_true(t->told_count < sizeof t->told / sizeof t->told[0]);
    t->told[t->told_count++] = what;
}

static void tell_again(const twin *t, tt_case *c)
{
    for (uint32_t i = 0; i < t->told_count; i++) {
        const told *x = &t->told[i];
        const tt_reply reply = {.kind = TT_ANSWER, .option = x->option};
        assert_int_equal(x->kind == TOLD_ANSWER      ? tt_answer(c, x->subject, &reply)
                         : x->kind == TOLD_COMPLAINT ? tt_complain(c, x->subject)
                                                     : tt_fix_tried(c, x->subject, x->outcome),
                         TT_OK);
    }
}

/* A case of whoever is called, who is told all of it, and rules out danger: half a minute. */
static void hand_over(twin *t, course x)
{
    tt_case *before = t->c;
    assert_int_equal(tt_case_new(t->book, &(tt_options){.role = 1}, &t->c), TT_OK);
    open_gate(t->c);
    tell_again(t, t->c);
    tt_speaker(t->c, 1);
    assert_int_equal(tt_sitting(t->c), TT_OK);
    open_gate(t->c);
    x.over = true;
    x.minutes_over = .5;
    go_on(t, x);
    tt_case_free(t->c);
    t->c = before;
}

static void answer(twin *t, course x, uint32_t question, uint32_t option)
{
    assert_int_equal(tt_answer(t->c, question, &(tt_reply){.kind = TT_ANSWER, .option = option}),
                     TT_OK);
    note_told(t, (told){.kind = TOLD_ANSWER, .subject = question, .option = option});
    go_on(t, x);
    t->told_count--;
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
    *(x.over ? &x.minutes_over : &x.minutes) += minutes;
    x.questions += x.over ? 0 : 1;
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

static void tried(twin *t, course x, uint32_t fix, tt_outcome outcome, double chance)
{
    x.chance *= chance;
    if (chance == 0) return;
    if (outcome == TT_GONE) {
        (x.over ? finish_over : finish)(t, &x, true);
        return;
    }
    assert_int_equal(tt_fix_tried(t->c, fix, outcome), TT_OK);
    note_told(t, (told){.kind = TOLD_OUTCOME, .subject = fix, .outcome = outcome});
    go_on(t, x);
    t->told_count--;
    assert_int_equal(tt_undo(t->c), TT_OK);
}

static void try_fix(twin *t, course x, uint32_t fix)
{
    bool apples = fix == t->fix_apples, helps = x.hypothesis == (apples ? APPLES : BANANAS);
    double gone = !helps   ? 0
                  : apples ? rightly * t->numbers->cure_apples
                           : rightly * t->numbers->cure_bananas,
           better = helps ? .10 : .02;
    *(x.over ? &x.minutes_over : &x.minutes) += apples ? 5 : 8;
    x.fixes += x.over ? 0 : 1;
    if (apples)
        x.needless_low += !helps && !x.over;
    else
        x.needless_medium += !helps && !x.over;
    tried(t, x, fix, TT_GONE, gone);
    tried(t, x, fix, TT_BETTER, (1 - gone) * better);
    tried(t, x, fix, TT_NO_CHANGE, (1 - gone) * (1 - better));
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
    if (!x.over) rank(t, &x, v);
    if (v->step == TT_FIX) {
        try_fix(t, x, v->fix);
        return;
    }
    (x.over ? finish_over : finish)(t, &x, false);
    if (t->two_roles && !x.over) hand_over(t, x);
}

static void complain(twin *t, course x, const char *symptom, double share)
{
    x.chance *= share;
    if (strcmp(symptom, "dark") == 0)
        x.lamp_seen = -1;
    else
        x.hum_seen = -1;
    const uint32_t which = tt_symptom_find(t->book, symptom);
    assert_int_equal(tt_complain(t->c, which), TT_OK);
    note_told(t, (told){.kind = TOLD_COMPLAINT, .subject = which});
    go_on(t, x);
    t->told_count--;
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
            x.chance = (x.cold ? .25 : .75) * prior_of(t->numbers, x.hypothesis, x.cold) *
                       lamp_chance(t->numbers, x.hypothesis, x.lamp) *
                       hum_chance(t->numbers, x.hypothesis, x.hum);
            all_seen(t, x);
        }
}

/* Knowing what is wrong: the fix that cures it, if this role may do it, then calling. */
static double clairvoyant_minutes(const twin *t, int hypothesis)
{
    if (hypothesis == NOT_LISTED || (hypothesis == BANANAS && t->two_roles)) return .5 + 60;
    return .5 + (hypothesis == APPLES ? 5 + (1 - rightly * .9) * 60 : 8 + (1 - rightly * .8) * 60);
}

twin_sums twin_of_rehearsal(const tt_book *book, double misread)
{
    return twin_in_world(book, misread, &twin_as_written);
}

twin_sums twin_in_world(const tt_book *book, double misread, const twin_numbers *numbers)
{
    twin t = {.book = book,
              .misread = misread,
              .numbers = numbers,
              .two_roles = tt_role_find(book, "fitter") != TT_NONE};
    assert_int_equal(tt_case_new(book, NULL, &t.c), TT_OK);
    open_gate(t.c); /* our own question: half a minute */
    t.cold_question = tt_question_find(book, "cold");
    t.lamp_question = tt_question_find(book, "lamp");
    t.fix_apples = tt_fix_find(book, "fix-apples");
    course x = {.questions = 1, .minutes = .5};
    for (x.cold = 0; x.cold < 2; x.cold++)
        for (x.hypothesis = 0; x.hypothesis < HYPOTHESES; x.hypothesis++) {
            t.total.clairvoyant += (x.cold ? .25 : .75) *
                                   prior_of(t.numbers, x.hypothesis, x.cold) *
                                   clairvoyant_minutes(&t, x.hypothesis);
            all_shown(&t, x);
        }
    tt_case_free(t.c);
    return t.total;
}
