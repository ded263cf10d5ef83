/* Weight of evidence and overlap, against what they are made of. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "belief_twin.h"
#include "choice_twin.h"
#include "luck.h"
#include "net_kit.h"

enum { NETWORKS = 200 };

typedef struct trial {
    arena *keep, *scratch;
    uint64_t random;
    const net *n;
} trial;

static trial trial_new(uint64_t seed)
{
    trial t = {arena_new(NULL, NULL), arena_new(NULL, NULL), seed, NULL};
    net_input *in = ARENA_NEW(t.keep, net_input);
    *in = twin_draw_input(t.keep, &t.random);
    t.n = net_build(t.keep, t.scratch, in, NULL);
    return t;
}

static void trial_free(trial *t)
{
    arena_free(t->keep);
    arena_free(t->scratch);
}

/* ---- bars ---- */

static double sum_of_bars(const trial *t, const belief *b, const evidence *seen, uint32_t cause,
                          uint32_t rival)
{
    double prior, *bars = ARENA_ARRAY(t->scratch, double, t->n->component_count);
    belief_bars(b, t->scratch, seen, 1 + cause, 1 + rival, &prior, bars);
    for (uint32_t i = 0; i < t->n->component_count; i++) prior += bars[i];
    return prior;
}

static void check_bars(const trial *t, const belief *b, const evidence *seen, double outcomes_too)
{
    for (uint32_t c = 0; c < t->n->in.cause_count; c++)
        for (uint32_t d = 0; d < t->n->in.cause_count; d++) {
            double odds = 10 * log10(belief_posterior(b)[1 + c] / belief_posterior(b)[1 + d]);
            double sum = sum_of_bars(t, b, seen, c, d) +
                         outcomes_too * belief_bar_of_outcomes(b, 1 + c, 1 + d);
            if (!(fabs(sum - odds) <= 1e-12))
                fail_msg("%u against %u: %.17g dB, wanted %.17g", c, d, sum, odds);
        }
}

static void bars_add_up_to_the_posterior_odds(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= NETWORKS; seed++) {
        trial t = trial_new(seed);
        belief *b = belief_new(t.keep, t.n, 1 + (uint32_t)(seed % 2));
        evidence seen = twin_draw_evidence(t.keep, &t.random, t.n);
        belief_weigh(b, &seen, twin_draw_factors(t.keep, &t.random, t.n->in.cause_count, false));
        check_bars(&t, b, &seen, 0);
        trial_free(&t);
    }
}

static void with_the_bar_of_outcomes_they_add_up_after_fixes_too(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= NETWORKS; seed++) {
        trial t = trial_new(500 + seed);
        belief *b = belief_new(t.keep, t.n, 1);
        evidence seen = twin_draw_evidence(t.keep, &t.random, t.n);
        belief_weigh(b, &seen, NULL);
        for (int i = 0; i < 2; i++) {
            net_rate cure = {luck_below(&t.random, t.n->in.cause_count),
                             0.1 + 0.8 * luck_share(&t.random)};
            belief_outcome(b, &cure, 1, OUTCOME_SAME, &outcome_rates_default, NULL);
        }
        check_bars(&t, b, &seen, 1);
        trial_free(&t);
    }
}

static void the_bar_of_a_failed_fix_is_its_likelihood_ratio(void **state)
{
    (void)state;
    net_kit *k = net_kit_new();
    uint32_t a = net_kit_cause(k, "a", 1), c = net_kit_cause(k, "b", 1);
    belief *b = belief_new(k->keep, net_kit_build(k), 1);
    assert_true(belief_bar_of_outcomes(b, 1 + a, 1 + c) == 0);
    belief_outcome(b, (net_rate[]){{a, 0.8}}, 1, OUTCOME_SAME, &outcome_rates_default, NULL);
    assert_true(fabs(belief_bar_of_outcomes(b, 1 + a, 1 + c) - 10 * log10(0.2 * 0.9 / 0.98)) <
                1e-14);
    net_kit_free(k);
}

/* Nothing but something not listed is left then. */
static void the_bar_of_the_prior_ends_where_all_causes_are_ruled_out(void **state)
{
    (void)state;
    net_kit *k = net_kit_new();
    const uint32_t a = net_kit_cause(k, "a", 3);
    net_kit_cause(k, "b", 1);
    const net *n = net_kit_build(k);
    assert_true(fabs(belief_bar_of_prior(n, NULL, 1 + a, 0) - 10 * log10(0.97 * 0.75 / 0.03)) <
                1e-12);
    assert_true(fabs(belief_bar_of_prior(n, (double[]){1, 9}, 1 + a, 0) -
                     10 * log10(0.97 * 0.25 / 0.03)) < 1e-12);
    assert_true(belief_bar_of_prior(n, (double[]){0, 1}, 1 + a, 0) == -INFINITY);
    assert_true(belief_bar_of_prior(n, (double[]){0, 0}, 1 + a, 0) == -INFINITY);
    assert_true(belief_bar_of_prior(n, (double[]){0, 0}, 0, 1 + a) == INFINITY);
    net_kit_free(k);
}

static void a_component_without_an_answer_has_no_bar(void **state)
{
    (void)state;
    net_kit *k = net_kit_new();
    uint32_t p = net_kit_finding(k, "p", 2), q = net_kit_finding(k, "q", 2);
    uint32_t a = net_kit_cause(k, "a", 4), c = net_kit_cause(k, "b", 1);
    net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, p, 1), 0.1), a, 0.8);
    net_kit_list(k, net_kit_symptom(k, "t", net_kit_is(k, q, 1), 0.1), a, 0.8);
    k->findings[q].right = 1;
    belief *b = belief_new(k->keep, net_kit_build(k), 1);
    const double *w[] = {NULL, (double[]){0, 1}};
    double prior, bars[2];
    belief_bars(b, k->scratch, &(evidence){.weights = w}, 1 + a, 1 + c, &prior, bars);
    assert_true(fabs(prior - 10 * log10(4)) < 1e-14);
    assert_true(bars[0] == 0);
    assert_true(fabs(bars[1] - 10 * log10(8)) < 1e-14);
    net_kit_free(k);
}

/* ---- overlap ---- */

typedef struct combination {
    const trial *t;
    uint32_t cause, rival;
    const bool *askable;
    const double **said; /* [finding] */
} combination;

/* Sum over all combinations of answers to the askable findings from f on, of the network as a
 * whole. */
static long double plain_overlap(combination *c, uint32_t f)
{
    static const double one_hot[3][3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    const net *n = c->t->n;
    evidence seen = {.weights = c->said};
    if (f == n->in.finding_count)
        return sqrtl(twin_likelihood(n, 1U << c->cause, &seen) *
                     twin_likelihood(n, 1U << c->rival, &seen));
    bool asked = n->component_of[f] != NO_COMPONENT && (c->askable == NULL || c->askable[f]);
    if (!asked) return plain_overlap(c, f + 1);
    long double sum = 0;
    for (uint32_t a = 0; a < n->in.findings[f].states; a++) {
        c->said[f] = one_hot[a];
        sum += plain_overlap(c, f + 1);
    }
    c->said[f] = NULL;
    return sum;
}

static const bool *draw_askable(trial *t)
{
    bool *askable = ARENA_ARRAY(t->keep, bool, t->n->in.finding_count);
    for (uint32_t f = 0; f < t->n->in.finding_count; f++)
        askable[f] = luck_below(&t->random, 3) > 0;
    return luck_below(&t->random, 3) == 0 ? NULL : askable;
}

static void overlap_is_brute_force(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= NETWORKS; seed++) {
        trial t = trial_new(1000 + seed);
        combination c = {&t, 0, luck_below(&t.random, t.n->in.cause_count), draw_askable(&t),
                         ARENA_ARRAY(t.keep, const double *, t.n->in.finding_count)};
        long double wanted = plain_overlap(&c, 0);
        double got = belief_overlap(t.n, t.scratch, c.cause, c.rival, c.askable, NULL);
        double back = belief_overlap(t.n, t.scratch, c.rival, c.cause, c.askable, NULL);
        if (!(fabsl(got - wanted) <= 1e-11L)) fail_msg("%.17g, wanted %.17Lg", got, wanted);
        assert_true(fabs(got - back) < 1e-15);
        const bool *nobody_asks = ARENA_ARRAY(t.keep, bool, t.n->in.finding_count);
        assert_true(belief_overlap(t.n, t.scratch, c.cause, c.rival, nobody_asks, NULL) == 1);
        trial_free(&t);
    }
}

/* p tells a from the others, q tells b from the others and better. */
static net_kit *two_questions(uint32_t *a, uint32_t *b, uint32_t *c)
{
    net_kit *k = net_kit_new();
    uint32_t p = net_kit_finding(k, "p", 2), q = net_kit_finding(k, "q", 2);
    *a = net_kit_cause(k, "a", 1);
    *b = net_kit_cause(k, "b", 1);
    *c = net_kit_cause(k, "c", 1);
    k->findings[p].right = k->findings[q].right = 1;
    uint32_t s = net_kit_symptom(k, "s", net_kit_is(k, p, 1), 0.1),
             t = net_kit_symptom(k, "t", net_kit_is(k, q, 1), 0.2);
    net_kit_list(k, s, *a, 0.3);
    net_kit_list(k, t, *a, 0.9);
    net_kit_list(k, t, *c, 0.9);
    return k;
}

static void the_best_question_has_the_smallest_factor(void **state)
{
    (void)state;
    uint32_t a, b, c, best;
    net_kit *k = two_questions(&a, &b, &c);
    const net *n = net_kit_build(k);
    const double p = sqrt(0.3 * 0.1) + sqrt(0.7 * 0.9), q = sqrt(0.9 * 0.2) + sqrt(0.1 * 0.8);
    assert_true(fabs(belief_overlap(n, k->scratch, a, b, NULL, &best) - p * q) < 1e-15);
    assert_int_equal(best, n->component_of[1]);
    assert_true(fabs(belief_overlap(n, k->scratch, a, b, (bool[]){true, false}, &best) - p) <
                1e-15);
    assert_int_equal(best, n->component_of[0]);
    net_kit_free(k);
}

static void causes_alike_overlap_wholly(void **state)
{
    (void)state;
    uint32_t a, b, c, best;
    net_kit *k = two_questions(&a, &b, &c);
    const net *n = net_kit_build(k);
    assert_true(belief_overlap(n, k->scratch, a, a, NULL, &best) == 1);
    assert_int_equal(best, NO_COMPONENT);
    assert_true(belief_overlap(n, k->scratch, a, c, (bool[]){false, true}, &best) == 1);
    assert_int_equal(best, NO_COMPONENT);
    assert_true(belief_overlap(n, k->scratch, a, b, (bool[]){false, false}, &best) == 1);
    assert_int_equal(best, NO_COMPONENT);
    net_kit_free(k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bars_add_up_to_the_posterior_odds),
        cmocka_unit_test(with_the_bar_of_outcomes_they_add_up_after_fixes_too),
        cmocka_unit_test(the_bar_of_a_failed_fix_is_its_likelihood_ratio),
        cmocka_unit_test(the_bar_of_the_prior_ends_where_all_causes_are_ruled_out),
        cmocka_unit_test(a_component_without_an_answer_has_no_bar),
        cmocka_unit_test(overlap_is_brute_force),
        cmocka_unit_test(the_best_question_has_the_smallest_factor),
        cmocka_unit_test(causes_alike_overlap_wholly),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
