/* Golden case 5: fixes, their order and the questions beside them, against brute force in 50-digit
 * arithmetic. The case has no gates, prices or levels, and its short list is longer than its
 * questions. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "choose/choose.h"
#include "golden_model.h"

enum { CAUSES = 4, FIXES = 3, FINDINGS = 3 };

static const double tolerance = 1e-12;

typedef struct decision_case {
    golden g;
    arena *keep;
    guard way_out;
    belief *b;
    evidence seen;
    choice_input in;
    fix_option fixes[FIXES];
    net_rate cures[FIXES][CAUSES];
    question_option questions[FINDINGS];
    prediction predictions[FINDINGS];
    uint32_t finding[FINDINGS]; /* of each question still open */
} decision_case;

static double minutes_at(const json_t *root, const char *list, uint32_t at)
{
    return json_number_value(json_array_get(golden_at(root, list), at));
}

static void read_fixes(decision_case *d)
{
    const json_t *effect = golden_at(d->g.root, "effectiveness");
    assert_int_equal(json_array_size(effect), CAUSES);
    for (uint32_t f = 0; f < FIXES; f++) {
        fix_option *fix = &d->fixes[f];
        *fix = (fix_option){
            .minutes = minutes_at(d->g.root, "fix_minutes", f), .cures = d->cures[f], .open = true};
        for (uint32_t c = 0; c < CAUSES; c++) {
            double chance = json_number_value(json_array_get(json_array_get(effect, c), f));
            if (chance > 0) d->cures[f][fix->cure_count++] = (net_rate){c, chance};
        }
    }
}

static void read_questions(decision_case *d)
{
    for (uint32_t f = 0; f < FINDINGS; f++) {
        if (d->seen.weights[f] != NULL) continue;
        uint32_t q = d->in.question_count++;
        d->finding[q] = f;
        d->predictions[q] = belief_predict(d->keep, d->b, &d->seen, f);
        d->questions[q].minutes = minutes_at(d->g.root, "question_minutes", f);
        d->questions[q].seen = &d->predictions[q];
    }
}

static void take_step(decision_case *d, arena *scratch)
{
    const json_t *step = json_array_get(golden_at(d->g.root, "steps"), 0);
    const net *n = net_build(d->keep, scratch, &d->g.in, NULL);
    assert_non_null(n);
    d->b = belief_new(d->keep, n, d->g.most_faults);
    d->seen = golden_evidence(d->keep, &d->g, json_object_get(step, "answers"));
    belief_weigh(d->b, &d->seen, NULL);
    golden_check(json_object_get(step, "posterior_sets"), belief_posterior(d->b), CAUSES + 1,
                 tolerance);
}

static int set_up(void **state)
{
    static decision_case d;
    d = (decision_case){.keep = arena_new(NULL, NULL)};
    arena *scratch = arena_new(NULL, &d.way_out);
    if (d.keep == NULL || scratch == NULL) return 1;
    if (setjmp(d.way_out.place) != 0) return 1;
    arena_guard(d.keep, &d.way_out);
    d.g = golden_load(d.keep, "g5_decisions");
    take_step(&d, scratch);
    d.in = (choice_input){
        .cause_count = CAUSES, .fixes = d.fixes, .fix_count = FIXES, .questions = d.questions};
    d.in.rules = (choice_rules){.call_minutes = golden_number(d.g.root, "escalation_minutes"),
                                .short_list = 12,
                                .soonest = true};
    read_fixes(&d);
    read_questions(&d);
    arena_free(scratch);
    *state = &d;
    return 0;
}

static int tear_down(void **state)
{
    decision_case *d = *state;
    golden_free(&d->g);
    arena_free(d->keep);
    return 0;
}

static void near(double found, double expected)
{
    if (!(fabs(found - expected) <= tolerance * fmax(1, fabs(expected))))
        fail_msg("%.17g, expected %.17g", found, expected);
}

static double expected(const decision_case *d, const char *path)
{
    return golden_number(d->g.root, path);
}

static const double *weights(const decision_case *d)
{
    return belief_posterior(d->b);
}

static void value_of_fixing_alone(void **state)
{
    decision_case *d = *state;
    uint32_t first = UINT32_MAX;
    near(choose_fix_value(&d->in, d->keep, weights(d), &first),
         expected(d, "after_step.ECR_fix_only_minutes"));
    near(first, expected(d, "after_step.first_fix"));
}

/* Each fix that the order puts first, and the order after it failed. */
static void order_of_the_fixes(void **state)
{
    decision_case *d = *state;
    const json_t *order = golden_at(d->g.root, "after_step.best_fix_order");
    double w[CAUSES + 1];
    for (uint32_t h = 0; h <= CAUSES; h++) w[h] = weights(d)[h];
    assert_int_equal(json_array_size(order), FIXES);
    for (size_t i = 0; i < FIXES; i++) {
        ranked_fix ranked[FIXES];
        choose_order(&d->in, d->keep, w, ranked);
        assert_int_equal(ranked[0].fix, json_integer_value(json_array_get(order, i)));
        fix_option *tried = &d->fixes[ranked[0].fix];
        for (uint32_t k = 0; k < tried->cure_count; k++)
            w[1 + tried->cures[k].cause] *= 1 - tried->cures[k].chance;
        tried->open = false;
    }
}

static double asking_once(decision_case *d, uint32_t q)
{
    return choose_ask_once(&d->in, d->keep, weights(d), q);
}

static void value_of_one_question(void **state)
{
    decision_case *d = *state;
    const json_t *values = golden_at(d->g.root, "after_step.V_ask_one_more");
    assert_int_equal(json_object_size(values), d->in.question_count);
    for (uint32_t q = 0; q < d->in.question_count; q++) {
        char key[8] = {(char)('0' + d->finding[q])};
        near(asking_once(d, q), json_number_value(json_object_get(values, key)));
    }
}

static void best_with_at_most_one_question(void **state)
{
    decision_case *d = *state;
    double best = choose_fix_value(&d->in, d->keep, weights(d), NULL);
    for (uint32_t q = 0; q < d->in.question_count; q++) best = fmin(best, asking_once(d, q));
    near(best, expected(d, "after_step.best_one_question_value"));
}

static void gain_of_each_question(void **state)
{
    decision_case *d = *state;
    const json_t *next =
        json_object_get(json_array_get(golden_at(d->g.root, "steps"), 0), "next_questions");
    assert_int_equal(json_array_size(next), d->in.question_count);
    for (uint32_t q = 0; q < d->in.question_count; q++) {
        const json_t *one = json_array_get(next, q);
        double answer[3];
        assert_int_equal(json_integer_value(json_object_get(one, "finding")), d->finding[q]);
        near(prediction_gain(&d->predictions[q], weights(d), CAUSES, answer),
             golden_number(one, "eig_bits"));
        golden_check(json_object_get(one, "P_answer"), answer, d->predictions[q].states, tolerance);
    }
}

static void the_next_step(void **state)
{
    decision_case *d = *state;
    choice c = choose_step(&d->in, d->keep, weights(d));
    near(c.value_fix, expected(d, "after_step.V_fix_first_then_one_question"));
    near(c.fix, expected(d, "after_step.first_fix"));
    near(c.value_call, expected(d, "escalation_minutes"));
    assert_int_equal(d->finding[c.question], 1);
    assert_int_equal(c.step, STEP_FIX);
    /* Asking first is never better than the best that a look one question further finds. */
    assert_true(c.value_ask <= asking_once(d, c.question) + tolerance);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(value_of_fixing_alone), TEST(order_of_the_fixes),
        TEST(value_of_one_question), TEST(best_with_at_most_one_question),
        TEST(gain_of_each_question), TEST(the_next_step),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
