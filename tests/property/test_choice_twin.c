/* The next step against its plain twin, on random problems with every rule in force. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "choice_twin.h"
#include "choose/choose.h"
#include "luck.h"

enum {
    CAUSES = 9,
    FIXES = 7,
    QUESTIONS = 6,
    STATES = 3,
    SHORT = 4,
    CALLEES = 3,
    PLACES = 3,
    PROBLEMS = 1200,
};

typedef struct random_problem {
    choice_input in;
    fix_option fixes[FIXES];
    char names[FIXES][8];
    net_rate cures[FIXES][CAUSES];
    uint32_t after[FIXES][2];
    double walk[PLACES * PLACES];
    question_option questions[QUESTIONS];
    prediction seen[QUESTIONS];
    double base[QUESTIONS][STATES], other[QUESTIONS][STATES], rows[QUESTIONS][CAUSES * STATES];
    uint32_t listed[QUESTIONS][CAUSES];
    double w[CAUSES + 1];
    callee callees[CALLEES];
    bool theirs[CALLEES][FIXES];
    double bits[QUESTIONS]; /* each tells */
} random_problem;

static void draw_row(uint64_t *random, uint32_t states, double *row)
{
    double total = 0;
    for (uint32_t y = 0; y < states; y++) total += row[y] = .02 + pow(luck_share(random), 3);
    for (uint32_t y = 0; y < states; y++) row[y] /= total;
}

/* Or nowhere in particular. */
static uint32_t draw_place(uint64_t *random)
{
    uint32_t place = luck_below(random, PLACES + 1);
    return place == PLACES ? NO_PLACE : place;
}

static void draw_walks(random_problem *p, uint64_t *random)
{
    for (uint32_t from = 0; from < PLACES; from++)
        for (uint32_t to = 0; to < from; to++)
            p->walk[from * PLACES + to] = p->walk[to * PLACES + from] = 6 * luck_share(random);
    if (luck_share(random) < .8) p->in.walk = p->walk;
    p->in.place_count = PLACES;
    p->in.here = draw_place(random);
}

static void draw_question(random_problem *p, uint32_t q, uint64_t *random)
{
    uint32_t states = 2 + luck_below(random, STATES - 1), count = 0;
    draw_row(random, states, p->base[q]);
    draw_row(random, states, p->other[q]);
    for (uint32_t c = 0; c < CAUSES; c++) {
        if (luck_share(random) < .5) continue;
        draw_row(random, states, &p->rows[q][count * states]);
        p->listed[q][count++] = c;
    }
    p->seen[q] = (prediction){.states = states,
                              .base = p->base[q],
                              .other = p->other[q],
                              .listed_count = count,
                              .listed = p->listed[q],
                              .rows = p->rows[q]};
    p->questions[q] = (question_option){.minutes = 10 * luck_share(random), .seen = &p->seen[q]};
    p->questions[q].place = draw_place(random);
}

static void draw_fix(random_problem *p, uint32_t f, uint64_t *random)
{
    fix_option *fix = &p->fixes[f];
    snprintf(p->names[f], sizeof p->names[f], "f%u", f % 100);
    *fix = (fix_option){
        .name = str_of(p->names[f]), .minutes = 1 + 40 * luck_share(random), .cures = p->cures[f]};
    fix->level = (risk_level)luck_below(random, 4);
    fix->cannot_undo = fix->level < RISK_HIGH && luck_share(random) < .2;
    fix->open = luck_share(random) < .7;
    fix->needs_parts = luck_share(random) < .5;
    fix->place = draw_place(random);
    fix->set_up = luck_below(random, 3); /* 0: by itself */
    fix->set_up_minutes = fix->set_up == NO_SET_UP ? 0 : fix->minutes * luck_share(random);
    fix->after = p->after[f];
    for (uint32_t first = f > 2 ? f - 2 : 0; first < f; first++)
        if (luck_share(random) < .15) p->after[f][fix->after_count++] = first;
    for (uint32_t c = 0; c < CAUSES; c++)
        if (c % FIXES == f || luck_share(random) < .15)
            p->cures[f][fix->cure_count++] = (net_rate){c, .3 + .7 * luck_share(random)};
}

/* Up to three people who may be called, some of them beside each other. */
static void draw_callees(random_problem *p, uint64_t *random)
{
    uint32_t level = 1;
    p->in.sends = luck_share(random) < .7;
    p->in.callees = p->callees;
    p->in.callee_count = luck_below(random, CALLEES + 1);
    for (uint32_t i = 0; i < p->in.callee_count; i++) {
        for (uint32_t f = 0; f < FIXES; f++)
            p->theirs[i][f] = p->fixes[f].level < RISK_HIGH && luck_share(random) < .6;
        p->callees[i] = (callee){level, p->theirs[i], luck_share(random) < .5};
        level += luck_share(random) < .7;
    }
}

static void draw(random_problem *p, uint64_t *random)
{
    *p = (random_problem){
        .in = {.cause_count = CAUSES, .fix_count = FIXES, .question_count = QUESTIONS}};
    p->in.fixes = p->fixes;
    p->in.questions = p->questions;
    p->in.rules = choice_rules_default;
    p->in.rules.short_list = SHORT;
    p->in.rules.soonest = luck_share(random) < .2;
    p->in.rules.call_minutes = 20 + 220 * luck_share(random);
    draw_walks(p, random);
    double total = 0;
    for (uint32_t h = 0; h <= CAUSES; h++) total += p->w[h] = pow(luck_share(random), 4);
    for (uint32_t h = 0; h <= CAUSES; h++) p->w[h] /= total;
    for (uint32_t f = 0; f < FIXES; f++) draw_fix(p, f, random);
    for (uint32_t q = 0; q < QUESTIONS; q++) draw_question(p, q, random);
    draw_callees(p, random);
    for (uint32_t q = 0; q < QUESTIONS; q++)
        p->bits[q] = prediction_gain(&p->seen[q], p->w, CAUSES, NULL);
}

/* The best `SHORT` by bits per minute, as bits, and the very best. */
static uint32_t plain_short_list(const random_problem *p, uint32_t *best)
{
    uint32_t listed = 0;
    for (int i = 0; i < SHORT; i++) {
        uint32_t top = UINT32_MAX;
        double top_score = -1;
        for (uint32_t q = 0; q < QUESTIONS; q++) {
            const double ways = 2 * choose_walk(&p->in, p->in.here, p->questions[q].place),
                         counts = ways > 0 ? .6 : 1,
                         score = counts * p->bits[q] / (fmax(.1, p->questions[q].minutes) + ways);
            if (listed >> q & 1 || score <= top_score) continue;
            top = q;
            top_score = score;
        }
        if (i == 0) *best = top;
        listed |= UINT32_C(1) << top;
    }
    return listed;
}

typedef struct tally {
    int steps[3], settled, together, asked_on, for_callee;
} tally;

static void near(double found, double expected)
{
    if (isinf(expected) && found == expected) return;
    if (!(fabs(found - expected) <= 1e-11 * fmax(1, fabs(expected))))
        fail_msg("%.17g, expected %.17g", found, expected);
}

/* Minutes of fix f where q's answers make it not worth trying, less q's own. */
static double plain_settling(const random_problem *p, uint32_t f, uint32_t q)
{
    choice_input there = p->in;
    const fix_option *fix = &p->fixes[f];
    const double worth = p->in.rules.worth_trying[fix->level + (fix->cannot_undo ? 1 : 0)];
    there.here = fix->place;
    double saved = -fmax(.1, p->questions[q].minutes);
    for (uint32_t y = 0; y < p->seen[q].states; y++) {
        double after[CAUSES + 1], failed[CAUSES + 1], total = 0, left = 0;
        twin_answer(&p->in, q, y, p->w, after);
        twin_fail(&p->in, f, after, failed);
        for (uint32_t h = 0; h <= CAUSES; h++) total += after[h];
        for (uint32_t h = 0; h <= CAUSES; h++) left += failed[h];
        if (total - left < worth * total) saved += twin_cost(&there, f, after);
    }
    return saved;
}

static uint32_t plain_settler(const random_problem *p, uint32_t f)
{
    uint32_t best = UINT32_MAX;
    double most = 0;
    for (uint32_t q = 0; q < QUESTIONS; q++) {
        if (p->in.walk == NULL || p->fixes[f].place == NO_PLACE) continue;
        if (p->questions[q].place != p->fixes[f].place || plain_settling(p, f, q) <= most) continue;
        most = plain_settling(p, f, q);
        best = q;
    }
    return best;
}

/* The first fix and its partner, one outcome for both; INFINITY: it has none. */
static double plain_both(const random_problem *p, arena *scratch, const twin_outlook *o, uint32_t f)
{
    const uint32_t g = twin_partner(&p->in, scratch, p->w, 0, f, NULL, ~UINT32_C(0));
    if (g == UINT32_MAX) return INFINITY;
    double left[CAUSES + 1], both[CAUSES + 1];
    twin_fail(&p->in, f, p->w, left);
    twin_fail(&p->in, g, left, both);
    choice_input there = p->in;
    there.here = choose_stand(&p->in, there.here, p->fixes[f].place);
    there.here = choose_stand(&p->in, there.here, p->fixes[g].place);
    const twin_course failed = {UINT32_C(1) << f | UINT32_C(1) << g, 0};
    return twin_cost(&p->in, f, p->w) + twin_cost_under(&p->in, f, g, p->w) +
           twin_value(&there, scratch, o, both, failed, 1);
}

static double minutes_from_here(const random_problem *p, uint32_t q)
{
    return fmax(.1, p->questions[q].minutes) +
           choose_walk(&p->in, p->in.here, p->questions[q].place);
}

/* Taking away half of what is not known costs less than knowing the cause saves. */
static bool plain_worth_asking_on(const random_problem *p, arena *scratch, const twin_outlook *o,
                                  uint32_t q)
{
    const twin_course start = {0, 0};
    double entropy = 0, saves = 0;
    for (uint32_t h = 0; h <= CAUSES; h++)
        if (p->w[h] > 0) entropy -= p->w[h] * log2(p->w[h]);
    for (uint32_t h = 1; h <= CAUSES; h++) {
        double only[CAUSES + 1] = {0};
        only[h] = 1;
        saves += p->w[h] * (twin_call(&p->in, scratch, o, only, 0, 0) -
                            twin_fix_value(&p->in, scratch, o, only, start, 0));
    }
    return p->bits[q] / minutes_from_here(p, q) * saves > entropy / 2;
}

/* No answer leads to a fix of one's own that is better than calling. */
static bool plain_for_callee(const random_problem *p, arena *scratch, const twin_outlook *o,
                             uint32_t q)
{
    const twin_course start = {0, 0};
    choice_input there = p->in;
    there.here = choose_stand(&p->in, p->in.here, p->questions[q].place);
    bool calls = p->in.callee_count > 0;
    for (uint32_t y = 0; y < p->seen[q].states; y++) {
        double after[CAUSES + 1];
        twin_answer(&p->in, q, y, p->w, after);
        calls &= twin_fix_value(&there, scratch, o, after, start, 0) >=
                 twin_call(&there, scratch, o, after, 0, 0);
    }
    return calls;
}

/* What is worked out once for predictions that are kept spares work, and changes no bit. */
static void compare_prepared(const random_problem *p, arena *scratch, const choice *c)
{
    random_problem kept = *p;
    kept.in.questions = kept.questions;
    for (uint32_t q = 0; q < QUESTIONS; q++) {
        kept.questions[q].seen = &kept.seen[q];
        prediction_prepare(scratch, &kept.seen[q]);
    }
    const choice k = choose_step(&kept.in, scratch, p->w);
    assert_int_equal(k.step, c->step);
    assert_int_equal(k.question, c->question);
    assert_int_equal(k.fix, c->fix);
    assert_true(k.bits == c->bits && k.value_ask == c->value_ask);
    assert_true(k.value_fix == c->value_fix && k.value_call == c->value_call);
}

static void compare(const random_problem *p, arena *scratch, tally *t)
{
    const twin_course start = {0, 0};
    uint32_t first = 0, best = 0;
    twin_outlook o = {p->w, plain_short_list(p, &best), p->in.walk, p->in.here}, alone = o;
    alone.listed = 0;
    near(choose_fix_value(&p->in, scratch, p->w, &first),
         twin_fix_value(&p->in, scratch, &alone, p->w, start, 0));
    assert_int_equal(first, twin_first(&p->in, scratch, p->w, start));
    for (uint32_t q = 0; q < QUESTIONS; q++)
        near(choose_ask_once(&p->in, scratch, p->w, q),
             twin_ask(&p->in, scratch, &o, p->w, q, start, 0));

    choice c = choose_step(&p->in, scratch, p->w);
    compare_prepared(p, scratch, &c);
    double fix = INFINITY, left[CAUSES + 1];
    uint32_t with = UINT32_MAX;
    if (first != UINT32_MAX) {
        twin_fail(&p->in, first, p->w, left);
        twin_course failed = {UINT32_C(1) << first, 0};
        choice_input there = p->in;
        there.here = choose_stand(&p->in, p->in.here, p->fixes[first].place);
        fix = twin_cost(&p->in, first, p->w) + twin_value(&there, scratch, &o, left, failed, 1);
        const double both = plain_both(p, scratch, &o, first);
        if (both < fix) with = twin_partner(&p->in, scratch, p->w, 0, first, NULL, ~UINT32_C(0));
        fix = fmin(fix, both);
    }
    const double ask = twin_ask(&p->in, scratch, &o, p->w, best, start, 1),
                 call = twin_call(&p->in, scratch, &o, p->w, 0, 2);
    const bool fixes = ask >= fmin(fix, call) && fix <= call;
    const uint32_t settler = fixes ? plain_settler(p, first) : UINT32_MAX;
    assert_int_equal(c.fix, first);
    assert_int_equal(c.with, with);
    t->together += with != UINT32_MAX;
    assert_int_equal(c.settles, settler != UINT32_MAX);
    assert_int_equal(c.question, c.settles ? settler : best);
    near(c.value_fix, fix);
    near(c.value_ask, twin_ask(&p->in, scratch, &o, p->w, c.question, start, 1));
    near(c.value_call, call);
    const bool asks_on = !fixes && ask >= fmin(fix, call) && first == UINT32_MAX &&
                         plain_worth_asking_on(p, scratch, &o, best);
    if (fixes)
        assert_int_equal(c.step, c.settles ? STEP_ASK : STEP_FIX);
    else
        assert_int_equal(c.step, ask < fmin(fix, call) || asks_on ? STEP_ASK : STEP_CALL);
    assert_int_equal(c.for_callee, c.step == STEP_ASK && !c.settles &&
                                       plain_for_callee(p, scratch, &o, c.question));
    t->steps[c.step]++;
    t->settled += c.settles;
    t->asked_on += asks_on;
    t->for_callee += c.for_callee;
}

static void values_equal_the_plain_recursion(void **state)
{
    (void)state;
    guard way_out;
    arena *scratch = arena_new(NULL, &way_out);
    assert_non_null(scratch);
    if (setjmp(way_out.place) != 0) fail_msg("out of memory");
    uint64_t random = 7;
    tally t = {.settled = 0};
    for (int i = 0; i < PROBLEMS; i++) {
        random_problem p;
        draw(&p, &random);
        compare(&p, scratch, &t);
    }
    print_message("%d problems: %d ask (%d settle a fix, %d go on, %d for who comes), %d fix, %d "
                  "call; two together in %d\n",
                  PROBLEMS, t.steps[STEP_ASK], t.settled, t.asked_on, t.for_callee,
                  t.steps[STEP_FIX], t.steps[STEP_CALL], t.together);
    for (int kind = 0; kind < 3; kind++) assert_true(t.steps[kind] > PROBLEMS / 50);
    assert_true(t.settled > 0 && t.together > 0 && t.asked_on > 0 && t.for_callee > 0);
    arena_free(scratch);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(values_equal_the_plain_recursion)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
