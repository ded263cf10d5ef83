/* The belief on networks small enough to be worked out by hand, and at its edges. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "believe/belief.h"
#include "net_kit.h"

static int set_up(void **state)
{
    *state = net_kit_new();
    return 0;
}

static int tear_down(void **state)
{
    net_kit_free(*state);
    return 0;
}

static void check(const double *got, const double *wanted, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++)
        if (!(fabs(got[i] - wanted[i]) <= 1e-14))
            fail_msg("[%u] %.17g, wanted %.17g", i, got[i], wanted[i]);
}

static const double no[] = {1, 0}, yes[] = {0, 1};

/* Causes a (weight 6), b (3), c (1); questions p (yes: a 0.8, otherwise 0.1) and q (yes: b 0.6,
 * otherwise 0.2), read without error. */
static void add_three_causes(net_kit *k)
{
    uint32_t p = net_kit_finding(k, "p", 2), q = net_kit_finding(k, "q", 2);
    uint32_t a = net_kit_cause(k, "a", 6), b = net_kit_cause(k, "b", 3);
    net_kit_cause(k, "c", 1);
    k->findings[p].right = k->findings[q].right = 1;
    net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, p, 1), 0.1), a, 0.8);
    net_kit_list(k, net_kit_symptom(k, "t", net_kit_is(k, q, 1), 0.2), b, 0.6);
}

static belief *believe(net_kit *k, uint32_t most_faults)
{
    return belief_new(k->keep, net_kit_build(k), most_faults);
}

static evidence answers(net_kit *k, const double *p, const double *q)
{
    const double **w = ARENA_ARRAY(k->keep, const double *, 2);
    w[0] = p;
    w[1] = q;
    return (evidence){.weights = w};
}

static void before_any_answer_it_is_the_prior(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 1);
    assert_int_equal(belief_count(b), 4);
    check(belief_posterior(b), (double[]){0.03, 0.97 * 0.6, 0.97 * 0.3, 0.97 * 0.1}, 4);
    assert_true(fabs(belief_log_evidence(b)) < 1e-15);
    assert_true(belief_two_faults(b) == 0);
    assert_false(belief_all_ruled_out(b));
}

static void an_answer_multiplies_by_its_chance(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 1);
    evidence seen = answers(k, yes, NULL);
    belief_weigh(b, &seen, NULL);
    const double other = 0.5 * 0.1 + 0.5 * (0.6 * 0.8 + 0.4 * 0.1);
    const double w[] = {0.03 * other, 0.97 * 0.6 * 0.8, 0.97 * 0.3 * 0.1, 0.97 * 0.1 * 0.1},
                 all = w[0] + w[1] + w[2] + w[3];
    check(belief_posterior(b), (double[]){w[0] / all, w[1] / all, w[2] / all, w[3] / all}, 4);
    assert_true(fabs(belief_log_evidence(b) - log(all)) < 1e-14);
}

static void twice_the_weights_are_the_same_answer(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 2);
    double once[7], evidence_once;
    evidence seen = answers(k, (double[]){0.3, 0.7}, no);
    belief_weigh(b, &seen, NULL);
    memcpy(once, belief_posterior(b), sizeof once);
    evidence_once = belief_log_evidence(b);
    seen = answers(k, (double[]){0.6, 1.4}, no);
    belief_weigh(b, &seen, NULL);
    check(belief_posterior(b), once, 7);
    assert_true(fabs(belief_log_evidence(b) - evidence_once - log(2)) < 1e-14);
}

static void pairs_are_numbered_in_order(void **state)
{
    net_kit *k = *state;
    static const char *const names[] = {"a", "b", "c", "d", "e"};
    for (int i = 0; i < 5; i++) net_kit_cause(k, names[i], 1);
    belief *b = believe(k, 2);
    uint32_t size, causes[2], next = 0;
    assert_int_equal(belief_count(b), 16);
    belief_hypothesis(b, next++, &size, causes);
    assert_int_equal(size, 0);
    for (uint32_t c = 0; c < 5; c++) {
        belief_hypothesis(b, next++, &size, causes);
        assert_int_equal(size, 1);
        assert_int_equal(causes[0], c);
    }
    for (uint32_t c = 0; c < 5; c++)
        for (uint32_t d = c + 1; d < 5; d++) {
            belief_hypothesis(b, next++, &size, causes);
            assert_int_equal(size, 2);
            assert_int_equal(causes[0], c);
            assert_int_equal(causes[1], d);
        }
    assert_int_equal(next, 16);
}

static void marginals_and_projection(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 2);
    evidence seen = answers(k, yes, yes);
    belief_weigh(b, &seen, NULL);
    const double *p = belief_posterior(b); /* other, a, b, c, ab, ac, bc */
    double out[4];
    belief_marginals(b, out);
    check(out, (double[]){p[0], p[1] + p[4] + p[5], p[2] + p[4] + p[6], p[3] + p[5] + p[6]}, 4);
    belief_projected(b, out);
    check(out,
          (double[]){p[0], p[1] + (p[4] + p[5]) / 2, p[2] + (p[4] + p[6]) / 2,
                     p[3] + (p[5] + p[6]) / 2},
          4);
    check((double[]){out[0] + out[1] + out[2] + out[3]}, (double[]){1}, 1);
    check((double[]){belief_two_faults(b)}, (double[]){p[4] + p[5] + p[6]}, 1);
}

static void two_causes_together_race_with_the_leak(void **state)
{
    net_kit *k = *state;
    uint32_t p = net_kit_finding(k, "p", 2), a = net_kit_cause(k, "a", 1),
             b = net_kit_cause(k, "b", 1);
    uint32_t s = net_kit_symptom(k, "s", net_kit_is(k, p, 1), 0.1);
    k->findings[p].right = 1;
    net_kit_list(k, s, a, 0.8);
    net_kit_list(k, s, b, 0.5);
    belief *both = believe(k, 2);
    const double **w = ARENA_ARRAY(k->keep, const double *, 1);
    w[0] = no;
    belief_weigh(both, &(evidence){.weights = w}, NULL);
    double ratio = belief_posterior(both)[3] / belief_posterior(both)[1]; /* ab against a */
    assert_true(fabs(ratio - 0.05 * (0.2 * 0.5 / 0.9) / (0.95 * 0.5 * 0.2)) < 1e-14);
}

/* ---- factors ---- */

static void factors_multiply_how_often_a_cause_occurs(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 2);
    evidence seen = answers(k, NULL, NULL);
    belief_weigh(b, &seen, (double[]){1, 3, 0.5});
    const double a = 6 / 15.5, c = 9 / 15.5, d = 0.5 / 15.5, e2 = a * c + a * d + c * d;
    const double one = 0.97 * 0.95, two = 0.97 * 0.05 / e2;
    check(belief_posterior(b),
          (double[]){0.03, one * a, one * c, one * d, two * a * c, two * a * d, two * c * d}, 7);
}

static void a_cause_ruled_out_is_in_no_hypothesis(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 2);
    evidence seen = answers(k, yes, NULL);
    belief_weigh(b, &seen, (double[]){0, 1, 1});
    const double *p = belief_posterior(b);
    assert_true(p[1] == 0 && p[4] == 0 && p[5] == 0);
    assert_true(p[2] > 0 && p[3] > 0 && p[6] > 0);
    seen = answers(k, NULL, NULL);
    belief_weigh(b, &seen, (double[]){0, 1, 1});
    check((double[]){belief_two_faults(b)}, (double[]){0.97 * 0.05}, 1);
}

static void one_cause_left_makes_no_pairs(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 2);
    evidence seen = answers(k, NULL, NULL);
    belief_weigh(b, &seen, (double[]){0, 0, 1});
    check(belief_posterior(b), (double[]){0.03, 0, 0, 0.97, 0, 0, 0}, 7);
    assert_false(belief_all_ruled_out(b));
}

static void when_all_are_ruled_out_it_is_something_not_listed(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    for (int round = 0; round < 2; round++) {
        k->in.not_listed = round == 0 ? 0.03 : 0;
        belief *b = believe(k, 2);
        evidence seen = answers(k, yes, no);
        belief_weigh(b, &seen, (double[]){0, 0, 0});
        assert_true(belief_all_ruled_out(b));
        check(belief_posterior(b), (double[]){1, 0, 0, 0, 0, 0, 0}, 7);
        belief_weigh(b, &seen, NULL);
        assert_false(belief_all_ruled_out(b));
        assert_true(belief_posterior(b)[0] < 1);
    }
}

static void something_not_listed_may_be_excluded(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    k->in.not_listed = 0;
    belief *b = believe(k, 1);
    check(belief_posterior(b), (double[]){0, 0.6, 0.3, 0.1}, 4);
}

static void the_share_of_something_not_listed_stays_the_authors(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 1);
    evidence seen = answers(k, yes, NULL);
    double before[4];
    belief_weigh(b, &seen, NULL);
    memcpy(before, belief_posterior(b), sizeof before);
    belief_weigh(b, &seen, (double[]){2, 2, 2});
    check(belief_posterior(b), before, 4);
    belief_weigh(b, &seen, (double[]){1, 0, 0}); /* its table keeps the mean of all causes */
    const double other = 0.5 * 0.1 + 0.5 * (0.6 * 0.8 + 0.4 * 0.1);
    check(belief_posterior(b), (double[]){0.03 * other / (0.03 * other + 0.97 * 0.8)}, 1);
}

static void causes_that_never_stand_together_make_no_pair(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    k->in.never_with = (net_pair[]){{1, 0}, {0, 1}, {2, 2}}; /* of itself it is no pair */
    k->in.never_with_count = 3;
    belief *b = believe(k, 2);
    const double two = 0.97 * 0.05 / (0.06 + 0.03), one = 0.97 * 0.95;
    check(belief_posterior(b),
          (double[]){0.03, one * 0.6, one * 0.3, one * 0.1, 0, two * 0.06, two * 0.03}, 7);
    evidence seen = answers(k, NULL, NULL);
    belief_weigh(b, &seen, (double[]){1, 1, 0}); /* only the barred pair is left */
    check((double[]){belief_two_faults(b), belief_posterior(b)[0]}, (double[]){0, 0.03}, 2);
}

/* ---- when there are no pairs ---- */

static void no_pairs_where_the_author_wants_none_or_one_cause_is_all(void **state)
{
    net_kit *k = *state;
    net_kit_cause(k, "a", 1);
    assert_int_equal(belief_count(believe(k, 2)), 2);
    net_kit_cause(k, "b", 1);
    assert_int_equal(belief_count(believe(k, 2)), 4);
    k->in.two_faults = 0;
    assert_int_equal(belief_count(believe(k, 2)), 3);
}

static void no_pairs_of_very_many_causes(void **state)
{
    net_kit *k = *state;
    uint32_t count = NET_PAIRS_CAUSES_MAX + 1;
    double *weights = ARENA_ARRAY(k->keep, double, count);
    str *names = ARENA_ARRAY(k->keep, str, count);
    for (uint32_t c = 0; c < count; c++) weights[c] = 1;
    k->in.weights = weights;
    k->in.cause_names = names;
    k->in.cause_count = count;
    assert_int_equal(belief_count(believe(k, 2)), count + 1);
    k->in.cause_count = count - 1;
    assert_int_equal(belief_count(believe(k, 2)), count + (count - 1) * (count - 2) / 2);
}

/* ---- outcomes ---- */

static const net_rate cure_a[] = {{0, 0.9}};

static void no_change_weakens_what_the_fix_was_for(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 1);
    double chance = belief_outcome(b, cure_a, 1, OUTCOME_SAME, &outcome_rates_default, NULL);
    const double w[] = {0.03 * 0.98, 0.97 * 0.6 * 0.1 * 0.9, 0.97 * 0.3 * 0.98, 0.97 * 0.1 * 0.98};
    const double all = w[0] + w[1] + w[2] + w[3];
    check(&chance, &all, 1);
    check(belief_posterior(b), (double[]){w[0] / all, w[1] / all, w[2] / all, w[3] / all}, 4);
}

static void better_with_single_faults_starts_afresh(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 1);
    evidence seen = answers(k, yes, yes);
    belief_weigh(b, &seen, NULL);
    belief_outcome(b, (net_rate[]){{1, 0.5}}, 1, OUTCOME_SAME, &outcome_rates_default, NULL);
    belief_outcome(b, cure_a, 1, OUTCOME_BETTER, &outcome_rates_default, (bool[]){true, false});
    const double other = 0.5 * 0.2 + 0.5 * (0.3 * 0.6 + 0.7 * 0.2);
    const double w[] = {0.03 * other, 0.97 * 0.6 * 0.1 * 0.2, 0.97 * 0.3 * 0.5 * 0.6,
                        0.97 * 0.1 * 0.2};
    const double all = w[0] + w[1] + w[2] + w[3];
    check(belief_posterior(b), (double[]){w[0] / all, w[1] / all, w[2] / all, w[3] / all}, 4);
    seen = answers(k, NULL, yes);
    belief_weigh(b, &seen, NULL);
    check(belief_posterior(b), (double[]){w[0] / all, w[1] / all, w[2] / all, w[3] / all}, 4);
}

/* "Better" may have changed p; q stands. A new answer to p counts as new, the old one to q is not
 * counted twice. */
static void stale_findings_count_again_when_answered_again(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 2);
    evidence seen = answers(k, yes, yes);
    belief_weigh(b, &seen, NULL);
    belief_outcome(b, cure_a, 1, OUTCOME_BETTER, &outcome_rates_default, (bool[]){true, false});
    double moved[7], all = 0;
    memcpy(moved, belief_posterior(b), sizeof moved);
    seen = answers(k, NULL, yes);
    belief_weigh(b, &seen, NULL);
    check(belief_posterior(b), moved, 7);
    seen = answers(k, no, yes);
    belief_weigh(b, &seen, NULL);
    const double other = 0.5 * 0.9 + 0.5 * (0.6 * 0.2 + 0.4 * 0.9);
    const double p[] = {other, 0.2, 0.9, 0.9, 0.2, 0.2, 0.9}; /* a lists p, alone in every pair */
    for (int h = 0; h < 7; h++) all += moved[h] * p[h];
    for (int h = 0; h < 7; h++) moved[h] *= p[h] / all;
    check(belief_posterior(b), moved, 7);
}

static void a_cause_that_was_ruled_out_can_come_back_after_an_outcome(void **state)
{
    for (uint32_t most_faults = 1; most_faults <= 2; most_faults++) {
        net_kit *k = net_kit_new();
        add_three_causes(k);
        belief *b = believe(k, most_faults), *plain = believe(k, most_faults);
        evidence seen = answers(k, yes, NULL);
        belief_weigh(b, &seen, (double[]){1, 1, 0});
        belief_outcome(b, cure_a, 1, OUTCOME_SAME, &outcome_rates_default, NULL);
        assert_true(belief_posterior(b)[3] == 0);
        belief_weigh(b, &seen, NULL);
        belief_weigh(plain, &seen, NULL);
        belief_outcome(plain, cure_a, 1, OUTCOME_SAME, &outcome_rates_default, NULL);
        /* With pairs, what moved from them to single causes knew nothing of this one. */
        double got = belief_posterior(b)[3], wanted = belief_posterior(plain)[3];
        assert_true(got > 0.9 * wanted && got < 1.1 * wanted);
        if (most_faults == 1) check(belief_posterior(b), belief_posterior(plain), 4);
        net_kit_free(k);
    }
    (void)state;
}

static void no_fix_is_certain(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 2);
    belief_outcome(b, (net_rate[]){{0, 1}, {1, 1}, {2, 1}}, 3, OUTCOME_SAME, &outcome_rates_default,
                   NULL);
    for (uint32_t h = 0; h < 4; h++) assert_true(belief_posterior(b)[h] > 0);
}

static void a_cure_of_no_chance_aims_at_nothing(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 1);
    double chance =
        belief_outcome(b, (net_rate[]){{0, 0}}, 1, OUTCOME_SAME, &outcome_rates_default, NULL);
    check(&chance, (double[]){0.98}, 1);
}

static void what_cannot_happen_changes_nothing(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 1);
    double before[4];
    memcpy(before, belief_posterior(b), sizeof before);
    assert_true(belief_outcome(b, cure_a, 1, OUTCOME_BETTER, &(outcome_rates){0, 0, 0, 0}, NULL) ==
                0);
    assert_memory_equal(before, belief_posterior(b), sizeof before);
}

static void restart_forgets_everything(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 2), *fresh = believe(k, 2);
    evidence seen = answers(k, yes, no);
    belief_weigh(b, &seen, (double[]){1, 0, 2});
    belief_outcome(b, cure_a, 1, OUTCOME_BETTER, &outcome_rates_default, NULL);
    belief_restart(b);
    assert_memory_equal(belief_posterior(b), belief_posterior(fresh), 7 * sizeof(double));
    belief_weigh(b, &seen, NULL);
    belief_weigh(fresh, &seen, NULL);
    assert_memory_equal(belief_posterior(b), belief_posterior(fresh), 7 * sizeof(double));
}

/* Nothing weighed in between, and the prior only where factors are others. */
static void what_was_weighed_before_leaves_no_trace(void **state)
{
    net_kit *k = *state;
    static const double factors[][3] = {{1, 1, 1}, {1, 0, 2}, {1, 0, 2},
                                        {1, 1, 1}, {0, 0, 0}, {1, 1, 1}};
    add_three_causes(k);
    belief *b = belief_room(k->keep, net_kit_build(k), 2);
    evidence seen = answers(k, yes, no);
    for (uint32_t i = 0; i < 6; i++) {
        belief *fresh = believe(k, 2);
        belief_forget(b);
        belief_weigh(b, &seen, i == 5 ? NULL : factors[i]);
        belief_weigh(fresh, &seen, factors[i]);
        assert_memory_equal(belief_posterior(b), belief_posterior(fresh), 7 * sizeof(double));
        assert_int_equal(belief_all_ruled_out(b), i == 4);
        belief_outcome(b, cure_a, 1, OUTCOME_BETTER, &outcome_rates_default, NULL);
    }
}

/* ---- predictions ---- */

static void misreading_blurs_the_prediction(void **state)
{
    net_kit *k = *state;
    uint32_t p = net_kit_finding(k, "p", 3), a = net_kit_cause(k, "a", 1);
    net_kit_cause(k, "b", 1);
    net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, p, 1), 0.1), a, 0.8);
    const double **w = ARENA_ARRAY(k->keep, const double *, 1);
    prediction seen = belief_predict(k->keep, believe(k, 1), &(evidence){.weights = w}, p);
    assert_int_equal(seen.states, 3);
    assert_int_equal(seen.listed_count, 1);
    assert_int_equal(seen.listed[0], a);
    check(seen.rows,
          (double[]){0.95 * 0.1 + 0.025 * 0.9, 0.95 * 0.8 + 0.025 * 0.2, 0.95 * 0.1 + 0.025 * 0.9},
          3);
    check(seen.base,
          (double[]){0.95 * 0.45 + 0.025 * 0.55, 0.95 * 0.1 + 0.025 * 0.9,
                     0.95 * 0.45 + 0.025 * 0.55},
          3);
}

/* A second answer replaces the first, so what it will be does not depend on the first. */
static void a_question_asked_again_is_predicted_without_its_answer(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    belief *b = believe(k, 1);
    evidence before = answers(k, NULL, no), after = answers(k, yes, no);
    prediction first = belief_predict(k->keep, b, &before, 0),
               second = belief_predict(k->keep, b, &after, 0);
    assert_memory_equal(first.rows, second.rows, 2 * sizeof *first.rows);
    assert_memory_equal(first.base, second.base, 2 * sizeof *first.base);
    check(second.rows, (double[]){0.2, 0.8}, 2);
}

static void a_finding_without_a_symptom_tells_nothing(void **state)
{
    net_kit *k = *state;
    add_three_causes(k);
    uint32_t f = net_kit_finding(k, "fact", 4);
    belief *b = believe(k, 2);
    const double **w = ARENA_ARRAY(k->keep, const double *, 3);
    double answer[4];
    assert_true(fabs(belief_gain(b, k->scratch, &(evidence){.weights = w}, f, answer)) < 1e-15);
    check(answer, (double[]){0.25, 0.25, 0.25, 0.25}, 4);
    w[f] = (double[]){0, 0, 1, 0};
    belief_weigh(b, &(evidence){.weights = w}, NULL);
    assert_true(fabs(belief_log_evidence(b)) < 1e-15);
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(before_any_answer_it_is_the_prior),
        CASE(an_answer_multiplies_by_its_chance),
        CASE(twice_the_weights_are_the_same_answer),
        CASE(pairs_are_numbered_in_order),
        CASE(marginals_and_projection),
        CASE(two_causes_together_race_with_the_leak),
        CASE(factors_multiply_how_often_a_cause_occurs),
        CASE(a_cause_ruled_out_is_in_no_hypothesis),
        CASE(one_cause_left_makes_no_pairs),
        CASE(when_all_are_ruled_out_it_is_something_not_listed),
        CASE(something_not_listed_may_be_excluded),
        CASE(the_share_of_something_not_listed_stays_the_authors),
        CASE(causes_that_never_stand_together_make_no_pair),
        CASE(no_pairs_where_the_author_wants_none_or_one_cause_is_all),
        CASE(no_pairs_of_very_many_causes),
        CASE(no_change_weakens_what_the_fix_was_for),
        CASE(better_with_single_faults_starts_afresh),
        CASE(stale_findings_count_again_when_answered_again),
        CASE(a_cause_that_was_ruled_out_can_come_back_after_an_outcome),
        CASE(no_fix_is_certain),
        CASE(a_cure_of_no_chance_aims_at_nothing),
        CASE(what_cannot_happen_changes_nothing),
        CASE(restart_forgets_everything),
        CASE(what_was_weighed_before_leaves_no_trace),
        CASE(misreading_blurs_the_prediction),
        CASE(a_question_asked_again_is_predicted_without_its_answer),
        CASE(a_finding_without_a_symptom_tells_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
