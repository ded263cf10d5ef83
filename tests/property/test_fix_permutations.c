/* Within one risk level, without thresholds: the order by chance per minute against every order there
 * is. The theorem (Kadane and Simon 1977; Smith 1956 for the sum that it minimises) is about fixes
 * that serve a cause each. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "choice_twin.h"
#include "choose/choose.h"

enum { FIXES = 6, PROBLEMS = 200 };

typedef struct permuted {
    choice_input in;
    fix_option fixes[FIXES];
    net_rate cures[FIXES][2];
    double w[FIXES + 1];
} permuted;

static void draw(permuted *p, uint64_t *random, bool own_cause)
{
    *p =
        (permuted){.in = {.cause_count = FIXES, .fix_count = FIXES, .rules = choice_rules_default}};
    memset(p->in.rules.worth_trying, 0, sizeof p->in.rules.worth_trying);
    memset(p->in.rules.price, 0, sizeof p->in.rules.price);
    p->in.rules.soonest = true;
    p->in.fixes = p->fixes;
    for (uint32_t h = 0; h <= FIXES; h++) p->w[h] = -log(1 - twin_random(random));
    for (uint32_t f = 0; f < FIXES; f++) {
        p->cures[f][0] = (net_rate){f, .2 + .8 * twin_random(random)};
        p->cures[f][1] = (net_rate){FIXES - 1, .2 + .8 * twin_random(random)};
        p->fixes[f] = (fix_option){
            .minutes = 1 + 99 * twin_random(random), .cures = p->cures[f], .open = true};
        p->fixes[f].cure_count = own_cause || f == FIXES - 1 ? 1 : 2;
    }
}

/* The cheapest way to go on with any of the fixes not yet in `failed`: every order, and calling
 * after every prefix. */
static double best_of_all(const permuted *p, const double *w, uint32_t failed)
{
    double total = 0, best;
    for (uint32_t h = 0; h <= FIXES; h++) total += w[h];
    best = p->in.rules.call_minutes * total;
    for (uint32_t f = 0; f < FIXES; f++) {
        if (failed >> f & 1) continue;
        double left[FIXES + 1];
        twin_fail(&p->in, f, w, left);
        best = fmin(best,
                    p->fixes[f].minutes * total + best_of_all(p, left, failed | UINT32_C(1) << f));
    }
    return best;
}

static void run(bool own_cause, double *worst, double *mean)
{
    guard way_out;
    arena *scratch = arena_new(NULL, &way_out);
    assert_non_null(scratch);
    if (setjmp(way_out.place) != 0) fail_msg("out of memory");
    uint64_t random = 2024;
    *worst = *mean = 0;
    for (int i = 0; i < PROBLEMS; i++) {
        permuted p;
        draw(&p, &random, own_cause);
        double best = best_of_all(&p, p.w, 0), found = choose_fix_value(&p.in, scratch, p.w, NULL);
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
    run(true, &worst, &mean);
    print_message("%d problems, a cause each: mean %.6f, worst %.6f of the best of 720 orders\n",
                  PROBLEMS, mean, worst);
    assert_true(worst <= 1 + 1e-12);
}

/* Where two fixes serve one cause the greedy order need not be the best any more. */
static void fixes_that_overlap_are_near_the_best_order(void **state)
{
    (void)state;
    double worst, mean;
    run(false, &worst, &mean);
    print_message("%d problems, overlapping: mean %.6f, worst %.6f of the best of 720 orders\n",
                  PROBLEMS, mean, worst);
    assert_true(mean <= 1.01 && worst <= 1.15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_fix_for_each_cause_is_the_best_order),
        cmocka_unit_test(fixes_that_overlap_are_near_the_best_order),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
