/* Posteriors, predictions, gains and outcomes of fixes in the golden cases. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include "believe/belief_parts.h"
#include "golden_model.h"
#include "test_sources.h"

#define TOLERANCE 1e-12

typedef struct fixture {
    arena *keep, *scratch;
} fixture;

static int set_up(void **state)
{
    static fixture f;
    f.keep = arena_new(NULL, NULL);
    f.scratch = arena_new(NULL, NULL);
    *state = &f;
    return 0;
}

static int tear_down(void **state)
{
    fixture *f = *state;
    arena_free(f->keep);
    arena_free(f->scratch);
    return 0;
}

static void check_hypotheses(const json_t *expected, const belief *b)
{
    assert_int_equal(json_array_size(expected), belief_count(b));
    for (uint32_t h = 0; h < belief_count(b); h++) {
        const json_t *set = json_array_get(expected, h);
        uint32_t size, causes[2];
        belief_hypothesis(b, h, &size, causes);
        assert_int_equal(json_array_size(set), size);
        for (uint32_t i = 0; i < size; i++)
            assert_int_equal(json_integer_value(json_array_get(set, i)), causes[i]);
    }
}

static void check_near(double got, double wanted)
{
    if (!(fabs(got - wanted) <= TOLERANCE)) fail_msg("%.17g, wanted %.17g", got, wanted);
}

static void check_question(fixture *f, const belief *b, const evidence *seen,
                           const json_t *expected)
{
    double answer[EXPR_STATES_MAX];
    uint32_t finding = (uint32_t)json_integer_value(golden_at(expected, "finding"));
    double bits = belief_gain(b, f->scratch, seen, finding, answer);
    golden_check(golden_at(expected, "P_answer"), answer, b->n->in.findings[finding].states,
                 TOLERANCE);
    check_near(bits, golden_number(expected, "eig_bits"));
    if (b->pairs) return;
    prediction p = belief_predict(f->scratch, b, seen, finding);
    bits = prediction_gain(&p, belief_posterior(b), b->causes, answer);
    golden_check(golden_at(expected, "P_answer"), answer, p.states, TOLERANCE);
    check_near(bits, golden_number(expected, "eig_bits"));
}

static void check_step(fixture *f, const golden *g, belief *b, const json_t *step)
{
    evidence seen = golden_evidence(f->keep, g, golden_at(step, "answers"));
    double *chance = ARENA_ARRAY(f->scratch, double, g->in.cause_count + 1);
    belief_weigh(b, &seen, NULL);
    check_near(belief_log_evidence(b), golden_number(step, "log_evidence"));
    golden_check(golden_at(step, "posterior_sets"), belief_posterior(b), belief_count(b),
                 TOLERANCE);
    belief_marginals(b, chance);
    golden_check(golden_at(step, "cause_marginals"), chance + 1, g->in.cause_count, TOLERANCE);
    const json_t *questions = golden_at(step, "next_questions");
    for (size_t i = 0; i < json_array_size(questions); i++)
        check_question(f, b, &seen, json_array_get(questions, i));
}

static void check_case(void **state, const char *name)
{
    fixture *f = *state;
    golden g = golden_load(f->keep, name);
    const net *n = net_build(f->keep, f->scratch, &g.in, NULL);
    belief *b = belief_new(f->keep, n, g.most_faults);
    check_hypotheses(golden_at(g.root, "hypotheses"), b);
    const json_t *steps = golden_at(g.root, "steps");
    assert_true(json_array_size(steps) > 0);
    for (size_t i = 0; i < json_array_size(steps); i++)
        check_step(f, &g, b, json_array_get(steps, i));
    golden_free(&g);
}

static void single_faults(void **state)
{
    check_case(state, "g1_k1_categorical");
}

static void soft_excluding_and_unsure_answers(void **state)
{
    check_case(state, "g2_soft_answers");
}

static void two_faults(void **state)
{
    check_case(state, "g3_k2_noisy_or");
}

static void two_faults_over_a_compound(void **state)
{
    check_case(state, "g4_compound");
}

static void before_a_fix(void **state)
{
    check_case(state, "g5_decisions");
}

static void a_pair_of_two_state_causes_is_a_noisy_or_with_leak(void **state)
{
    fixture *f = *state;
    golden g = golden_load(f->keep, "g3_k2_noisy_or");
    const net *n = net_build(f->keep, f->scratch, &g.in, NULL);
    const component *c = &n->components[0];
    double row[2];
    assert_int_equal(golden_number(g.root, "noisy_or_check.finding"), c->findings[0]);
    golden_check(golden_at(g.root, "noisy_or_check.cause_set"),
                 (double[]){c->listed[0], c->listed[1]}, 2, 0);
    race_row(c, &races_of(f->keep, n)[0], 0, 1, row);
    check_near(row[1], golden_number(g.root, "noisy_or_check.P_yes"));
    golden_free(&g);
}

/* The rates of a fix: a row of the file's effectiveness is a cause. */
static uint32_t read_cures(const golden *g, uint32_t fix, net_rate *cures)
{
    uint32_t count = 0;
    const json_t *rows = golden_at(g->root, "effectiveness");
    for (uint32_t c = 0; c < g->in.cause_count; c++) {
        double chance = json_number_value(json_array_get(json_array_get(rows, c), fix));
        if (chance > 0) cures[count++] = (net_rate){c, chance};
    }
    return count;
}

static outcome_rates read_rates(const golden *g)
{
    return (outcome_rates){golden_number(g->root, "after_step.params.beta"),
                           golden_number(g->root, "after_step.params.eta"),
                           golden_number(g->root, "after_step.params.nu"), 0};
}

static belief *believe_g5(fixture *f, golden *g, uint32_t most_faults, evidence *seen)
{
    *g = golden_load(f->keep, "g5_decisions");
    if (most_faults == 2) g->in.two_faults = golden_number(g->root, "after_step.K2.d2");
    belief *b = belief_new(f->keep, net_build(f->keep, f->scratch, &g->in, NULL), most_faults);
    *seen = golden_evidence(f->keep, g,
                            golden_at(json_array_get(golden_at(g->root, "steps"), 0), "answers"));
    belief_weigh(b, seen, NULL);
    return b;
}

static void no_change_with_single_faults(void **state)
{
    golden g;
    evidence seen;
    net_rate cures[4];
    belief *b = believe_g5(*state, &g, 1, &seen);
    outcome_rates rates = read_rates(&g);
    const json_t *expected = golden_at(g.root, "after_step.K1_after_no_change");
    double chance = belief_outcome(b, cures, read_cures(&g, 0, cures), OUTCOME_SAME, &rates, NULL);
    check_near(chance, golden_number(expected, "P_outcome"));
    golden_check(golden_at(expected, "posterior"), belief_posterior(b), belief_count(b), TOLERANCE);
    belief_weigh(b, &seen, NULL); /* the same answers again change nothing */
    golden_check(golden_at(expected, "posterior"), belief_posterior(b), belief_count(b), TOLERANCE);
    golden_free(&g);
}

static void check_pairs_after(void **state, fix_outcome outcome, const char *chance_key,
                              const char *after_key)
{
    golden g;
    evidence seen;
    net_rate cures[4];
    belief *b = believe_g5(*state, &g, 2, &seen);
    outcome_rates rates = read_rates(&g);
    const json_t *expected = golden_at(g.root, "after_step.K2");
    check_hypotheses(golden_at(expected, "hypotheses"), b);
    golden_check(golden_at(expected, "posterior_before"), belief_posterior(b), belief_count(b),
                 TOLERANCE);
    double chance = belief_outcome(b, cures, read_cures(&g, 0, cures), outcome, &rates, NULL);
    check_near(chance, golden_number(expected, chance_key));
    golden_check(golden_at(expected, after_key), belief_posterior(b), belief_count(b), TOLERANCE);
    belief_weigh(b, &seen, NULL);
    golden_check(golden_at(expected, after_key), belief_posterior(b), belief_count(b), TOLERANCE);
    golden_free(&g);
}

static void better_with_two_faults(void **state)
{
    check_pairs_after(state, OUTCOME_BETTER, "P_better", "after_better");
}

static void no_change_with_two_faults(void **state)
{
    check_pairs_after(state, OUTCOME_SAME, "P_no_change", "after_no_change");
}

/* ---- fixes that may be done wrongly ---- */

static uint32_t cures_of_try(const golden *g, const json_t *one, net_rate *cures)
{
    const json_t *rightly = golden_at(one, "cures");
    const double wrongly = golden_number(one, "done_wrongly");
    uint32_t count = 0;
    for (uint32_t c = 0; c < g->in.cause_count; c++) {
        char name[16];
        snprintf(name, sizeof name, "%u", c);
        const json_t *chance = json_object_get(rightly, name);
        if (chance != NULL)
            cures[count++] = (net_rate){c, json_number_value(chance) * (1 - wrongly)};
    }
    return count;
}

static void check_tries(fixture *f, const char *name)
{
    golden g = golden_load(f->keep, name);
    belief *b = belief_new(f->keep, net_build(f->keep, f->scratch, &g.in, NULL), g.most_faults);
    const evidence seen = golden_evidence(
        f->keep, &g, golden_at(json_array_get(golden_at(g.root, "steps"), 0), "answers"));
    const json_t *tries = golden_at(g.root, "tries");
    belief_weigh(b, &seen, NULL);
    assert_true(json_array_size(tries) > 3);
    for (size_t i = 0; i < json_array_size(tries); i++) {
        const json_t *one = json_array_get(tries, i);
        outcome_rates rates = outcome_rates_default;
        net_rate cures[4];
        rates.done_wrongly = golden_number(one, "done_wrongly");
        const uint32_t count = cures_of_try(&g, one, cures);
        check_near(belief_outcome(b, cures, count, OUTCOME_SAME, &rates, NULL),
                   golden_number(one, "chance"));
        golden_check(golden_at(one, "posterior"), belief_posterior(b), belief_count(b), TOLERANCE);
    }
    golden_free(&g);
}

static void fixes_that_may_be_done_wrongly(void **state)
{
    check_tries(*state, "g8_done_wrongly_k1");
    check_tries(*state, "g9_done_wrongly_k2");
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

/* A case put into the folder is checked without being named here. */
static void every_case_in_the_folder(void **state)
{
    fixture *f = *state;
    file_names found = files_ending(f->keep, TT_SOURCE_DIR "/tests/golden/data", ".json");
    assert_true(found.count >= 5);
    for (size_t i = 0; i < found.count; i++)
        check_case(state, str_copy(f->keep, str_slice(found.items[i], 0, found.items[i].n - 5)).p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(single_faults),
        CASE(soft_excluding_and_unsure_answers),
        CASE(two_faults),
        CASE(two_faults_over_a_compound),
        CASE(before_a_fix),
        CASE(a_pair_of_two_state_causes_is_a_noisy_or_with_leak),
        CASE(no_change_with_single_faults),
        CASE(better_with_two_faults),
        CASE(no_change_with_two_faults),
        CASE(fixes_that_may_be_done_wrongly),
        cmocka_unit_test_setup_teardown(every_case_in_the_folder, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
