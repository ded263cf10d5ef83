/* Counting by hand: what cases make of one row, of shares, and how much a case counts. */
#include <math.h>

#include "learn/row.h"
#include "learn/shares.h"
#include "net_kit.h"
#include "testing.h"

static const learn_weights plain = {{1, 1}, false};

static void near(double got, double wanted)
{
    if (!(fabs(got - wanted) <= 1e-12)) fail_msg("%.17g, wanted %.17g", got, wanted);
}

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

/* One question with so many answers, one symptom: the answer `shown`. */
static const net *one_sign(net_kit *k, uint32_t states, uint32_t shown, double right, double chance)
{
    uint32_t f = net_kit_finding(k, "f", states), a = net_kit_cause(k, "a", 1);
    k->findings[f].right = right;
    net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, f, shown), 0.1), a, chance);
    return net_kit_build(k);
}

static learn_row *row_of(net_kit *k, const net *n)
{
    const component *g = &n->components[0];
    return learn_row_new(k->keep, component_row(g, 0), g->atom_count, LEARN_ROW_COUNTS);
}

static void answer(net_kit *k, learn_row *r, const net *n, const double *weights, int times)
{
    for (int i = 0; i < times; i++)
        learn_row_add(k->keep, r, n, &n->components[0], weights, LEARN_CURED);
}

static const double yes[] = {0, 1}, no[] = {1, 0};
static const bool sign[] = {false, true};

/* 70 % written, so 14 of 20; 12 of 13 cases: 26 of 33. The interval: mpmath 1.3.0. */
static void the_author_counts_as_cases_seen_before(void **state)
{
    net_kit *k = *state;
    const net *n = one_sign(k, 2, 1, 1, 0.7);
    learn_row *r = row_of(k, n);
    answer(k, r, n, yes, 12);
    answer(k, r, n, no, 1);
    learn_row_fit(k->scratch, r, &plain);
    learn_count c = learn_row_count(k->scratch, r, &plain, sign);
    near(c.written, 0.7);
    near(c.mean, 26.0 / 33);
    near(c.worth, 33);
    near(c.cases, 12);
    near(c.of, 13);
    learn_belief b = learn_belief_of(c.mean, c.worth);
    near(b.low, 0.63560769013590994);
    near(b.high, 0.90722846771528068);
}

static void without_a_case_it_stays(void **state)
{
    net_kit *k = *state;
    learn_row *r = row_of(k, one_sign(k, 2, 1, 0.9, 0.7));
    learn_row_fit(k->scratch, r, &plain);
    learn_count c = learn_row_count(k->scratch, r, &plain, sign);
    near(c.mean, 0.7);
    near(c.worth, LEARN_ROW_COUNTS);
    near(c.of, 0);
}

/* The author's half, 10 of 20, and 20 answers "yes" read right in 80 %: the row p has 10/p -
 * 10/(1-p) + 20 × 0.6 / (0.2 + 0.6 p) = 0, a square
 * equation. */
static void answers_are_seen_through_their_errors(void **state)
{
    net_kit *k = *state;
    const net *n = one_sign(k, 2, 1, 0.8, 0.5);
    learn_row *r = row_of(k, n);
    answer(k, r, n, yes, 20);
    learn_row_fit(k->scratch, r, &plain);
    /* 10 (1-2p)(0.2 + 0.6p) + 12 p (1-p) = 2 + 14 p - 24 p² = 0 */
    double p = (14 + sqrt(14 * 14 + 4 * 24 * 2)) / 48;
    learn_count c = learn_row_count(k->scratch, r, &plain, sign);
    near(c.mean, p);
    /* What they tell of p: 10/p² + 10/(1-p)² + 20 (0.6 / (0.2 + 0.6 p))². */
    double known = 10 / (p * p) + 10 / ((1 - p) * (1 - p)) + 20 * pow(0.6 / (0.2 + 0.6 * p), 2);
    near(c.worth, p * (1 - p) * known);
    assert_true(c.worth < 40);
}

/* "Not sure" tells nothing, and neither does an answer that is as often right as wrong. */
static void what_tells_nothing_moves_nothing(void **state)
{
    net_kit *k = *state;
    static const double any[] = {1, 1};
    const net *n = one_sign(k, 2, 1, 0.5, 0.7);
    learn_row *r = row_of(k, n);
    answer(k, r, n, any, 30);
    answer(k, r, n, yes, 30);
    learn_row_fit(k->scratch, r, &plain);
    learn_count c = learn_row_count(k->scratch, r, &plain, sign);
    near(c.mean, 0.7);
    near(c.worth, LEARN_ROW_COUNTS);
}

/* Three answers, one of them the sign: what was seen of the other two counts together. */
static void states_of_one_set_count_together(void **state)
{
    net_kit *k = *state;
    static const double middle[] = {0, 1, 0}, last[] = {0, 0, 1};
    static const bool first[] = {true, false};
    const net *n = one_sign(k, 3, 0, 1, 0.6);
    assert_int_equal(n->components[0].atom_count, 2);
    learn_row *r = row_of(k, n);
    answer(k, r, n, middle, 2);
    answer(k, r, n, last, 3);
    learn_row_fit(k->scratch, r, &plain);
    near(learn_row_count(k->scratch, r, &plain, first).mean, 12.0 / 25);
}

/* Weights 6, 3, 1; five cases of the second. (50 × 0.3 + 5) / 55; the others keep their weights. */
static void shares_without_factors_are_those_of_the_dirichlet(void **state)
{
    net_kit *k = *state;
    static const double written[] = {6, 3, 1}, ones[] = {1, 1, 1};
    learn_shares *s = learn_shares_new(k->keep, written, 3);
    for (int i = 0; i < 5; i++) learn_shares_add(k->keep, s, ones, 1, LEARN_CURED);
    learn_shares_fit(k->scratch, s, &plain);
    near(s->weight[0], 6);
    near(s->weight[1], 4);
    near(s->weight[2], 1);
    for (int i = 0; i < 3; i++)
        if (fabs(s->worth[i] - 55) > 1e-9) fail_msg("%.17g", s->worth[i]);
}

/* In winter the first is four times as likely. Of 400 winter cases 320 had it, which is what an
 * even book with that factor expects: nothing is learned. Counted as they come they would make it
 * 345 of 450. */
static void a_season_is_not_learned_into_how_often(void **state)
{
    net_kit *k = *state;
    static const double written[] = {5, 5}, winter[] = {4, 1};
    learn_shares *s = learn_shares_new(k->keep, written, 2);
    for (int i = 0; i < 400; i++) learn_shares_add(k->keep, s, winter, i >= 320, LEARN_CURED);
    learn_shares_fit(k->scratch, s, &plain);
    near(s->weight[0] / (s->weight[0] + s->weight[1]), 0.5);
    /* 50 cases tell 1/4 each of the odds, 400 tell 0.8 × 0.2. */
    if (fabs(s->worth[0] - 4 * (50 * 0.25 + 400 * 0.16)) > 1e-9) fail_msg("%.17g", s->worth[0]);
}

/* 100 of 100 cured cases are confirmed, 20 of 60 of those handed over: each of these stands for
 * three, and the 120 together for (100 + 60)² / (100 + 180). */
static void who_is_seldom_confirmed_counts_more(void **state)
{
    (void)state;
    learn_weights w = learn_weights_of((const uint32_t[]){100, 20}, (const uint32_t[]){100, 60});
    near(w.of[LEARN_HANDED_OVER] / w.of[LEARN_CURED], 3);
    near(100 * w.of[LEARN_CURED] + 20 * w.of[LEARN_HANDED_OVER], 160.0 * 160 / 280);
    /* Not more than four times, or one case would turn the book. */
    w = learn_weights_of((const uint32_t[]){100, 1}, (const uint32_t[]){100, 60});
    near(w.of[LEARN_HANDED_OVER] / w.of[LEARN_CURED], 4);
    assert_true(w.held);
    /* Of one end nothing is known: then nothing can be made of it. */
    w = learn_weights_of((const uint32_t[]){100, 0}, (const uint32_t[]){100, 60});
    near(w.of[LEARN_CURED], 1);
    w = learn_weights_of((const uint32_t[]){30, 10}, (const uint32_t[]){60, 20});
    near(w.of[LEARN_CURED], 1);
    near(w.of[LEARN_HANDED_OVER], 1);
}

/* Cured cases show the sign, those handed over don't, and each of these counts three times. */
static void weights_reach_rows_and_shares(void **state)
{
    net_kit *k = *state;
    static const learn_weights three = {{1, 3}, false};
    static const double written[] = {1, 1}, ones[] = {1, 1};
    const net *n = one_sign(k, 2, 1, 1, 0.5);
    learn_row *r = row_of(k, n);
    learn_shares *s = learn_shares_new(k->keep, written, 2);
    answer(k, r, n, yes, 10);
    for (int i = 0; i < 10; i++) {
        learn_row_add(k->keep, r, n, &n->components[0], no, LEARN_HANDED_OVER);
        learn_shares_add(k->keep, s, ones, 1, LEARN_HANDED_OVER);
    }
    learn_row_fit(k->scratch, r, &three);
    near(learn_row_count(k->scratch, r, &three, sign).mean, 20.0 / 60);
    learn_shares_fit(k->scratch, s, &three);
    near(s->weight[0] / (s->weight[0] + s->weight[1]), 25.0 / 80);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(the_author_counts_as_cases_seen_before, set_up, tear_down),
        cmocka_unit_test_setup_teardown(without_a_case_it_stays, set_up, tear_down),
        cmocka_unit_test_setup_teardown(answers_are_seen_through_their_errors, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_tells_nothing_moves_nothing, set_up, tear_down),
        cmocka_unit_test_setup_teardown(states_of_one_set_count_together, set_up, tear_down),
        cmocka_unit_test_setup_teardown(shares_without_factors_are_those_of_the_dirichlet, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(a_season_is_not_learned_into_how_often, set_up, tear_down),
        cmocka_unit_test(who_is_seldom_confirmed_counts_more),
        cmocka_unit_test_setup_teardown(weights_reach_rows_and_shares, set_up, tear_down),
    };
    return cmocka_run_group_tests_name("learn counts", tests, NULL, NULL);
}
