/* The next step against the best policy there is, found by dynamic programming; both judged
 * exactly, without sampling. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>

#include "policy_problems.h"

enum { PROBLEMS = 20 };

typedef struct regime {
    const char *name;
    minutes_range fixes;
    uint64_t seed;
} regime;

static const regime regimes[] = {
    {"short", {2, 15}, 1000},
    {"mixed", {2, 90}, 2000},
    {"long", {20, 120}, 3000},
};

typedef struct spread {
    double sum, worst;
} spread;

static void note(spread *s, double ratio)
{
    s->sum += ratio;
    s->worst = fmax(s->worst, ratio);
}

static double mean(spread s)
{
    return s.sum / PROBLEMS;
}

/* Whatever a policy does, the optimum is a lower bound: otherwise one of the two is counted
 * wrongly. */
static void never_better_than_the_best(double found, double best)
{
    assert_true(found >= best * (1 - 1e-12));
}

static arena *arena_for_test(guard *way_out)
{
    arena *a = arena_new(NULL, way_out);
    assert_non_null(a);
    return a;
}

static spread minutes_against_the_optimum(const regime *r)
{
    guard way_out;
    arena *scratch = arena_for_test(&way_out);
    if (setjmp(way_out.place) != 0) fail_msg("out of memory");
    spread s = {0, 0};
    for (uint64_t i = 0; i < PROBLEMS; i++) {
        arena *keep = arena_for_test(&way_out);
        policy_problem *p = policy_problem_new(keep, scratch, r->seed + i, r->fixes, false);
        double best = policy_optimum(p, scratch);
        policy_cost found = policy_followed(p, scratch);
        never_better_than_the_best(found.minutes, best);
        note(&s, found.minutes / best);
        arena_free(keep);
    }
    arena_free(scratch);
    return s;
}

static void without_rules_near_the_optimum(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof regimes / sizeof *regimes; i++) {
        spread s = minutes_against_the_optimum(&regimes[i]);
        print_message("%-5s no gates or prices: minutes / optimum mean %.4f worst %.4f\n",
                      regimes[i].name, mean(s), s.worst);
        assert_true(mean(s) <= 1.02);
        assert_true(s.worst <= 1.05);
    }
}

/* TT_POLICY_PROBLEMS: more of them, for a study. */
static uint64_t problems_wanted(void)
{
    const char *more = getenv("TT_POLICY_PROBLEMS");
    return more != NULL ? strtoull(more, NULL, 10) : PROBLEMS;
}

static spread with_somebody_to_call(const regime *r, uint64_t problems)
{
    guard way_out;
    arena *scratch = arena_for_test(&way_out);
    if (setjmp(way_out.place) != 0) fail_msg("out of memory");
    spread s = {0, 0};
    for (uint64_t i = 0; i < problems; i++) {
        arena *keep = arena_for_test(&way_out);
        policy_problem *p = policy_problem_new(keep, scratch, r->seed + 900 + i, r->fixes, false);
        policy_problem_hand_over(p, keep, r->seed + i);
        double best = policy_optimum(p, scratch);
        policy_cost found = policy_followed(p, scratch);
        never_better_than_the_best(found.minutes, best);
        note(&s, found.minutes / best);
        arena_free(keep);
    }
    arena_free(scratch);
    return s;
}

static void handing_over_near_the_optimum(void **state)
{
    (void)state;
    const uint64_t problems = problems_wanted();
    for (size_t i = 0; i < sizeof regimes / sizeof *regimes; i++) {
        spread s = with_somebody_to_call(&regimes[i], problems);
        double mean_ratio = s.sum / (double)problems;
        print_message("%-5s with somebody to call: minutes / optimum mean %.4f worst %.4f\n",
                      regimes[i].name, mean_ratio, s.worst);
        assert_true(mean_ratio <= 1.01);
        assert_true(s.worst <= 1.03);
    }
}

typedef struct ruled {
    spread priced, minutes, optimum;
    double needless, needless_best;
} ruled;

static ruled under_rules_against_the_best(const regime *r)
{
    guard way_out;
    arena *scratch = arena_for_test(&way_out);
    if (setjmp(way_out.place) != 0) fail_msg("out of memory");
    ruled all = {.needless = 0};
    for (uint64_t i = 0; i < PROBLEMS; i++) {
        arena *keep = arena_for_test(&way_out);
        policy_problem *p = policy_problem_new(keep, scratch, r->seed + 500 + i, r->fixes, true);
        double optimum = policy_optimum(p, scratch);
        policy_cost best = policy_best_under_rules(p, scratch), found = policy_followed(p, scratch);
        never_better_than_the_best(found.priced, best.priced);
        never_better_than_the_best(best.minutes, optimum);
        note(&all.priced, found.priced / best.priced);
        note(&all.minutes, found.minutes / best.minutes);
        note(&all.optimum, found.minutes / optimum);
        all.needless += found.needless / PROBLEMS;
        all.needless_best += best.needless / PROBLEMS;
        arena_free(keep);
    }
    arena_free(scratch);
    return all;
}

static void under_the_rules_near_the_best_under_the_rules(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof regimes / sizeof *regimes; i++) {
        ruled all = under_rules_against_the_best(&regimes[i]);
        print_message("%-5s gates and prices: priced minutes / best mean %.4f worst %.4f; real "
                      "minutes %.4f (%.4f); "
                      "against the optimum without rules %.3f (%.3f); needless jobs of Medium and "
                      "up a call %.2f, best %.2f\n",
                      regimes[i].name, mean(all.priced), all.priced.worst, mean(all.minutes),
                      all.minutes.worst, mean(all.optimum), all.optimum.worst, all.needless,
                      all.needless_best);
        assert_true(mean(all.priced) <= 1.03);
    }
}

/* Two fixes under one lockout save minutes, and nothing of Medium and up is done more often. */
static void lockouts_that_count_once_cost_no_needless_jobs(void **state)
{
    (void)state;
    guard way_out;
    arena *scratch = arena_for_test(&way_out);
    if (setjmp(way_out.place) != 0) fail_msg("out of memory");
    for (size_t i = 0; i < sizeof regimes / sizeof *regimes; i++) {
        policy_cost together = {0}, alone = {0};
        for (uint64_t k = 0; k < PROBLEMS; k++) {
            arena *keep = arena_for_test(&way_out);
            policy_problem *p = policy_problem_new(keep, scratch, regimes[i].seed + 500 + k,
                                                   regimes[i].fixes, true);
            policy_problem_lock(p, k);
            const policy_cost shared = policy_followed(p, scratch);
            policy_problem_unlock(p);
            const policy_cost each = policy_followed(p, scratch);
            together.minutes += shared.minutes / PROBLEMS;
            together.needless += shared.needless / PROBLEMS;
            alone.minutes += each.minutes / PROBLEMS;
            alone.needless += each.needless / PROBLEMS;
            arena_free(keep);
        }
        print_message("%-5s lockouts shared: %.2f minutes a call, needless jobs of Medium and up "
                      "%.4f; each by itself: %.2f, %.4f\n",
                      regimes[i].name, together.minutes, together.needless, alone.minutes,
                      alone.needless);
        assert_true(together.minutes <= alone.minutes);
        assert_true(together.needless <= alone.needless + 0.005);
    }
    arena_free(scratch);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(without_rules_near_the_optimum),
        cmocka_unit_test(handing_over_near_the_optimum),
        cmocka_unit_test(under_the_rules_near_the_best_under_the_rules),
        cmocka_unit_test(lockouts_that_count_once_cost_no_needless_jobs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
