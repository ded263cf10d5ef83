/* Within one risk level, without thresholds: the order by chance per minute against every order
 * there is. The theorem (Simon and Kadane 1975; Smith 1956 for the sum that it minimises) is about
 * fixes that serve a cause each. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "choice_twin.h"
#include "choose/choose.h"
#include "luck.h"

enum { FIXES = 6, PLACES = 3, SET_UPS = 3, PROBLEMS = 200 };

typedef struct permuted {
    choice_input in;
    fix_option fixes[FIXES];
    net_rate cures[FIXES][2];
    uint32_t after[FIXES][FIXES];
    double walk[PLACES * PLACES];
    double w[FIXES + 1];
} permuted;

typedef struct kind_of_problem {
    bool own_cause, in_sequence, in_places, share_set_ups;
} kind_of_problem;

/* Each fix waits for one in three of those numbered below it. */
static void draw_sequence(permuted *p, uint64_t *random)
{
    for (uint32_t f = 0; f < FIXES; f++) {
        p->fixes[f].after = p->after[f];
        for (uint32_t first = 0; first < f; first++)
            if (luck_below(random, 3) == 0) p->after[f][p->fixes[f].after_count++] = first;
    }
}

/* Up to 10 minutes from one to another. */
static void draw_places(permuted *p, uint64_t *random)
{
    for (uint32_t from = 0; from < PLACES; from++)
        for (uint32_t to = 0; to < from; to++)
            p->walk[from * PLACES + to] = p->walk[to * PLACES + from] = 10 * luck_share(random);
    for (uint32_t f = 0; f < FIXES; f++) p->fixes[f].place = luck_below(random, PLACES);
    p->in.walk = p->walk;
    p->in.place_count = PLACES;
}

/* Three lockouts, each the same time for all under it. */
static void draw_set_ups(permuted *p, uint64_t *random)
{
    double minutes[SET_UPS];
    for (int i = 0; i < SET_UPS; i++) minutes[i] = 5 + 25 * luck_share(random);
    for (uint32_t f = 0; f < FIXES; f++) {
        const uint32_t set_up = luck_below(random, SET_UPS);
        p->fixes[f].set_up = set_up + 1;
        p->fixes[f].set_up_minutes = minutes[set_up];
        p->fixes[f].minutes = minutes[set_up] + 1 + 40 * luck_share(random);
    }
}

static void draw(permuted *p, uint64_t *random, kind_of_problem kind)
{
    *p =
        (permuted){.in = {.cause_count = FIXES, .fix_count = FIXES, .rules = choice_rules_default}};
    memset(p->in.rules.worth_trying, 0, sizeof p->in.rules.worth_trying);
    memset(p->in.rules.price, 0, sizeof p->in.rules.price);
    p->in.rules.soonest = true;
    p->in.fixes = p->fixes;
    for (uint32_t h = 0; h <= FIXES; h++) p->w[h] = -log(1 - luck_share(random));
    for (uint32_t f = 0; f < FIXES; f++) {
        p->cures[f][0] = (net_rate){f, .2 + .8 * luck_share(random)};
        p->cures[f][1] = (net_rate){FIXES - 1, .2 + .8 * luck_share(random)};
        p->fixes[f] = (fix_option){
            .minutes = 1 + 99 * luck_share(random), .cures = p->cures[f], .open = true};
        p->fixes[f].cure_count = kind.own_cause || f == FIXES - 1 ? 1 : 2;
    }
    if (kind.in_sequence) draw_sequence(p, random);
    if (kind.in_places) draw_places(p, random);
    if (kind.share_set_ups) draw_set_ups(p, random);
}

static bool may_follow(const permuted *p, uint32_t f, uint32_t failed)
{
    for (uint32_t i = 0; i < p->fixes[f].after_count; i++)
        if (!(failed >> p->after[f][i] & 1)) return false;
    return true;
}

/* The cheapest way to go on with any of the fixes not yet in `failed`: every order that the
 * sequence allows, every grouping under one set-up, and calling after every prefix. `under`: what
 * stands, with the weight it was begun on; FIXES: nothing does. */
static double best_of_all(const permuted *p, const double *w, double begun, uint32_t under,
                          uint32_t failed, uint32_t at);

static double go_on(const permuted *p, const double *w, double begun, uint32_t under, uint32_t f,
                    uint32_t failed, uint32_t at)
{
    const fix_option *fix = &p->fixes[f];
    const double saved = under < FIXES ? fix->set_up_minutes : 0,
                 way = p->walk[at * PLACES + fix->place];
    double left[FIXES + 1];
    twin_fail(&p->in, f, w, left);
    return (fix->minutes - saved + way) * begun +
           best_of_all(p, left, begun, f, failed | UINT32_C(1) << f, fix->place);
}

static double best_of_all(const permuted *p, const double *w, double begun, uint32_t under,
                          uint32_t failed, uint32_t at)
{
    double total = 0, best;
    for (uint32_t h = 0; h <= FIXES; h++) total += w[h];
    best = p->in.rules.call_minutes * total;
    for (uint32_t f = 0; f < FIXES; f++) {
        if (failed >> f & 1 || !may_follow(p, f, failed)) continue;
        best = fmin(best, go_on(p, w, total, FIXES, f, failed, at));
        const bool joins = under < FIXES && p->fixes[f].set_up != NO_SET_UP &&
                           p->fixes[f].set_up == p->fixes[under].set_up;
        if (joins) best = fmin(best, go_on(p, w, begun, under, f, failed, at));
    }
    return best;
}

static void run(kind_of_problem kind, double *worst, double *mean)
{
    guard way_out;
    arena *scratch = arena_new(NULL, &way_out);
    assert_non_null(scratch);
    if (setjmp(way_out.place) != 0) fail_msg("out of memory");
    uint64_t random = 2024;
    *worst = *mean = 0;
    for (int i = 0; i < PROBLEMS; i++) {
        permuted p;
        draw(&p, &random, kind);
        double best = best_of_all(&p, p.w, 0, FIXES, 0, p.in.here),
               found = choose_fix_value(&p.in, scratch, p.w, NULL);
        assert_true(found >= best * (1 - 1e-12));
        *worst = fmax(*worst, found / best);
        *mean += found / best / PROBLEMS;
    }
    arena_free(scratch);
}

static void a_fix_for_each_cause_is_the_best_order(void **state)
{
    (void)state;
    double worst, mean;
    run((kind_of_problem){.own_cause = true}, &worst, &mean);
    print_message("%d problems, a cause each: mean %.6f, worst %.6f of the best of 720 orders\n",
                  PROBLEMS, mean, worst);
    assert_true(worst <= 1 + 1e-12);
}

/* Where two fixes serve one cause the greedy order need not be the best any more. */
static void fixes_that_overlap_are_near_the_best_order(void **state)
{
    (void)state;
    double worst, mean;
    run((kind_of_problem){.own_cause = false}, &worst, &mean);
    print_message("%d problems, overlapping: mean %.6f, worst %.6f of the best of 720 orders\n",
                  PROBLEMS, mean, worst);
    assert_true(mean <= 1.01 && worst <= 1.15);
}

/* What waits for another, with what it waits for. */
static void fixes_in_sequence_are_near_the_best_order(void **state)
{
    (void)state;
    double worst, mean;
    run((kind_of_problem){.own_cause = true, .in_sequence = true}, &worst, &mean);
    print_message("%d problems, in sequence: mean %.6f, worst %.6f of the best order allowed\n",
                  PROBLEMS, mean, worst);
    assert_true(mean <= 1.02 && worst <= 1.15);
    run((kind_of_problem){.in_sequence = true}, &worst, &mean);
    print_message("%d problems, in sequence and overlapping: mean %.6f, worst %.6f\n", PROBLEMS,
                  mean, worst);
    assert_true(mean <= 1.02 && worst <= 1.15);
}

static void fixes_at_places_are_near_the_best_order(void **state)
{
    (void)state;
    double worst, mean;
    run((kind_of_problem){.own_cause = true, .in_places = true}, &worst, &mean);
    print_message("%d problems, at places: mean %.6f, worst %.6f of the best of 720 orders\n",
                  PROBLEMS, mean, worst);
    assert_true(mean <= 1.02 && worst <= 1.15);
    run((kind_of_problem){.in_sequence = true, .in_places = true}, &worst, &mean);
    print_message("%d problems, at places, in sequence and overlapping: mean %.6f, worst %.6f\n",
                  PROBLEMS, mean, worst);
    assert_true(mean <= 1.02 && worst <= 1.15);
}

static void fixes_under_set_ups_are_near_the_best_grouping(void **state)
{
    (void)state;
    double worst, mean;
    run((kind_of_problem){.own_cause = true, .share_set_ups = true}, &worst, &mean);
    print_message("%d problems, under lockouts: mean %.6f, worst %.6f of the best grouping\n",
                  PROBLEMS, mean, worst);
    assert_true(mean <= 1.02 && worst <= 1.15);
    run((kind_of_problem){.share_set_ups = true, .in_places = true}, &worst, &mean);
    print_message("%d problems, under lockouts, at places and overlapping: mean %.6f, worst %.6f\n",
                  PROBLEMS, mean, worst);
    assert_true(mean <= 1.02 && worst <= 1.15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_fix_for_each_cause_is_the_best_order),
        cmocka_unit_test(fixes_that_overlap_are_near_the_best_order),
        cmocka_unit_test(fixes_in_sequence_are_near_the_best_order),
        cmocka_unit_test(fixes_at_places_are_near_the_best_order),
        cmocka_unit_test(fixes_under_set_ups_are_near_the_best_grouping),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
