/* Counting by hand: what one case adds, seen through how often people get an answer right. */
#include <math.h>

#include "learn/learn.h"
#include "net_kit.h"
#include "testing.h"

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

/* 70 % written, so 14 of 20; 12 of 13 cases: 26 of 33. The interval: mpmath 1.3.0. */
static void the_author_counts_as_cases_seen_before(void **state)
{
    (void)state;
    learn_belief b = learn_from(&(learn_count){0.7, LEARN_ROW_COUNTS, 12, 13});
    near(b.mean, 26.0 / 33);
    near(b.low, 0.63560769013590994);
    near(b.high, 0.90722846771528068);
    near(learn_from(&(learn_count){0.7, LEARN_ROW_COUNTS, 0, 0}).mean, 0.7);
}

/* Weights 6, 3, 1; five cases of the second. Dirichlet: (50 × 0.3 + 5) / 55. By weights the same: 3
 * + 5 × 10 / 50 = 4 of 11. */
static void weights_have_the_shares_of_the_dirichlet(void **state)
{
    (void)state;
    double weight = learn_weight(3, 10, 5);
    near(weight, 4);
    near(weight / (10 - 3 + weight),
         learn_from(&(learn_count){0.3, LEARN_SHARES_COUNT, 5, 5}).mean);
}

/* Two answers; cause a shows the sign in 80 %, otherwise 10 %; right in 95 %. "Yes": of a 0.8 ×
 * 0.95 against 0.2 × 0.05, so 76/77; of another cause 0.1 × 0.95 against 0.9 × 0.05, so 19/28. */
static void an_answer_is_seen_through_its_errors(void **state)
{
    net_kit *k = *state;
    double atoms[2];
    static const double yes[] = {0, 1}, no[] = {1, 0}, perhaps[] = {0.3, 0.7};
    uint32_t f = net_kit_finding(k, "f", 2), a = net_kit_cause(k, "a", 1),
             b = net_kit_cause(k, "b", 1);
    net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, f, 1), 0.1), a, 0.8);
    const net *n = net_kit_build(k);
    learn_atoms(n, 0, a, yes, atoms);
    near(atoms[1], 76.0 / 77);
    learn_atoms(n, 0, b, yes, atoms);
    near(atoms[1], 19.0 / 28);
    learn_atoms(n, 0, a, no, atoms);
    near(atoms[1], 0.8 * 0.05 / (0.8 * 0.05 + 0.2 * 0.95));
    /* 70 % sure: the answer is 0.3 "no" and 0.7 "yes", each right in 95 %. */
    learn_atoms(n, 0, a, perhaps, atoms);
    near(atoms[1], 0.8 * 0.68 / (0.8 * 0.68 + 0.2 * 0.32));
    near(atoms[0] + atoms[1], 1);
}

/* Three states, two of them in one set: what was seen decides between sets only as far as people
 * can tell. */
static void states_of_one_set_count_together(void **state)
{
    net_kit *k = *state;
    double atoms[2];
    static const double middle[] = {0, 1, 0};
    uint32_t f = net_kit_finding(k, "f", 3), a = net_kit_cause(k, "a", 1);
    k->findings[f].right = 1;
    net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, f, 0), 0.2), a, 0.6);
    const net *n = net_kit_build(k);
    assert_int_equal(n->components[0].atom_count, 2);
    learn_atoms(n, 0, a, middle, atoms);
    near(atoms[0], 0);
    near(atoms[1], 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_author_counts_as_cases_seen_before),
        cmocka_unit_test(weights_have_the_shares_of_the_dirichlet),
        cmocka_unit_test_setup_teardown(an_answer_is_seen_through_its_errors, set_up, tear_down),
        cmocka_unit_test_setup_teardown(states_of_one_set_count_together, set_up, tear_down),
    };
    return cmocka_run_group_tests_name("learn counts", tests, NULL, NULL);
}
