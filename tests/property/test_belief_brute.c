/* The belief against its plain twin on random networks: posterior, evidence, predictions, gains;
 * and what must hold of any belief. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "belief_twin.h"
#include "choice_twin.h"
#include "luck.h"

enum { NETWORKS = 400 };
#define CLOSE 1e-12

typedef struct trial {
    arena *keep, *scratch;
    uint64_t random;
    const net *n;
    uint32_t most_faults, count, sets[TWIN_SETS];
    belief *b;
} trial;

static trial trial_counting(uint64_t seed, double power)
{
    trial t = {arena_new(NULL, NULL), arena_new(NULL, NULL), seed, NULL, 0, 0, {0}, NULL};
    net_input *in = ARENA_NEW(t.keep, net_input);
    *in = twin_draw_input(t.keep, &t.random);
    in->answers_count = power;
    t.most_faults = 1 + luck_below(&t.random, 2);
    t.n = net_build(t.keep, t.scratch, in, NULL);
    assert_non_null(t.n);
    t.count = twin_sets(t.n, t.most_faults, t.sets);
    t.b = belief_new(t.keep, t.n, t.most_faults);
    assert_int_equal(belief_count(t.b), t.count);
    return t;
}

static trial trial_new(uint64_t seed)
{
    return trial_counting(seed, 1);
}

static void trial_free(trial *t)
{
    arena_free(t->keep);
    arena_free(t->scratch);
}

static void assert_close(double got, long double wanted, long double scale)
{
    if (!(fabsl((long double)got - wanted) <= CLOSE * scale))
        fail_msg("%.17g, wanted %.17Lg", got, wanted);
}

/* Twin's posterior; returns ln of the evidence. */
static long double plain_posterior(const trial *t, const evidence *seen, const double *factor,
                                   long double *p)
{
    twin_prior(t->n, t->sets, t->count, factor, p);
    for (uint32_t h = 0; h < t->count; h++)
        p[h] *= powl(twin_likelihood(t->n, t->sets[h], seen), t->n->in.answers_count);
    return logl(twin_normalise(p, t->count));
}

static void check_marginals(const trial *t, const long double *p)
{
    double *chance = ARENA_ARRAY(t->scratch, double, t->n->in.cause_count + 1);
    long double two = 0;
    belief_marginals(t->b, chance);
    assert_close(chance[0], p[0], p[0]);
    for (uint32_t c = 0; c < t->n->in.cause_count; c++) {
        long double sum = 0;
        for (uint32_t h = 0; h < t->count; h++)
            if ((t->sets[h] >> c & 1) != 0) sum += p[h];
        assert_close(chance[1 + c], sum, sum);
    }
    for (uint32_t h = t->n->in.cause_count + 1; h < t->count; h++) two += p[h];
    assert_close(belief_two_faults(t->b), two, two);
}

/* Chance that a cause of these is there; bit 31: that it is something not listed. */
static long double held_by(const trial *t, const long double *p, uint32_t members)
{
    long double sum = 0;
    for (uint32_t h = 0; h < t->count; h++)
        if (h == 0 ? members >> 31 != 0 : (t->sets[h] & members) != 0) sum += p[h];
    return sum;
}

static uint32_t fewest_that_hold(const trial *t, const long double *p, double share)
{
    const uint32_t causes = t->n->in.cause_count;
    uint32_t fewest = causes + 1;
    for (uint32_t some = 0; some < 2U << causes; some++) {
        const uint32_t members = (some >> 1) | (some & 1) << 31,
                       size = (uint32_t)__builtin_popcount(some);
        if (size < fewest && held_by(t, p, members) >= share) fewest = size;
    }
    return fewest;
}

static void check_likely_set(const trial *t, const long double *p, double share)
{
    uint32_t *members = ARENA_ARRAY(t->scratch, uint32_t, t->n->in.cause_count + 1), bits = 0;
    double mass;
    const uint32_t count = belief_likely_set(t->b, t->scratch, share, members, &mass);
    assert_in_range(count, 1, t->n->in.cause_count + 1);
    for (uint32_t i = 0; i < count; i++) {
        if (i + 1 == count)
            assert_true((double)held_by(t, p, bits) <
                        share); /* without the last of them it holds less */
        bits |= members[i] == 0 ? 1U << 31 : 1U << (members[i] - 1);
    }
    assert_close(mass, held_by(t, p, bits), 1);
    assert_true(mass >= share);
    if (t->most_faults == 1) assert_int_equal(count, fewest_that_hold(t, p, share));
}

static void posterior_is_brute_force(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= NETWORKS; seed++) {
        trial t = trial_new(seed);
        evidence seen = twin_draw_evidence(t.keep, &t.random, t.n);
        double *factor = twin_draw_factors(t.keep, &t.random, t.n->in.cause_count, true);
        long double p[TWIN_SETS], log_evidence = plain_posterior(&t, &seen, factor, p);
        belief_weigh(t.b, &seen, factor);
        assert_close(belief_log_evidence(t.b), log_evidence, 1);
        for (uint32_t h = 0; h < t.count; h++) assert_close(belief_posterior(t.b)[h], p[h], p[h]);
        check_marginals(&t, p);
        check_likely_set(&t, p, .9);
        check_likely_set(&t, p, .3);
        trial_free(&t);
    }
}

/* Bars add up to the odds; answers foreseen for planning are as even as they will count for. */
static void check_bars_and_plans(trial *t, const evidence *seen)
{
    const double *p = belief_posterior(t->b);
    double *bars = ARENA_ARRAY(t->scratch, double, t->n->component_count), sum;
    belief_bars(t->b, t->scratch, seen, 1, 0, &sum, bars);
    for (uint32_t i = 0; i < t->n->component_count; i++) sum += bars[i];
    if (p[0] > 0 && p[1] > 0) assert_close(sum, 10 * log10l((long double)p[1] / p[0]), 100);
    for (uint32_t f = 0; f < t->n->in.finding_count; f++) {
        prediction plan = belief_predict(t->scratch, t->b, seen, f),
                   all = belief_foresee(t->scratch, t->b, seen, f);
        long double total = 0;
        for (uint32_t y = 0; y < plan.states; y++)
            total += powl(all.other[y], t->n->in.answers_count);
        for (uint32_t y = 0; y < plan.states; y++)
            assert_close(plan.other[y], powl(all.other[y], t->n->in.answers_count) / total, 1);
    }
}

static void answers_may_count_for_less(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= NETWORKS; seed++) {
        trial t = trial_counting(2000 + seed, 0.1 + 0.9 * (double)(seed % 10) / 9);
        evidence seen = twin_draw_evidence(t.keep, &t.random, t.n);
        double *factor = twin_draw_factors(t.keep, &t.random, t.n->in.cause_count, true);
        long double p[TWIN_SETS], log_evidence = plain_posterior(&t, &seen, factor, p);
        belief_weigh(t.b, &seen, factor);
        assert_close(belief_log_evidence(t.b), log_evidence, 1);
        for (uint32_t h = 0; h < t.count; h++) {
            assert_close(belief_posterior(t.b)[h], p[h], p[h]);
            assert_close(belief_log_says(t.b, h), logl(twin_likelihood(t.n, t.sets[h], &seen)), 1);
        }
        check_bars_and_plans(&t, &seen);
        trial_free(&t);
    }
}

/* Checks P(answer) and gain of one question; returns how far the mean posterior after it is from
 * the posterior now. */
static void check_question(trial *t, const evidence *seen, const double *factor, uint32_t f,
                           const long double *p)
{
    uint32_t states = t->n->in.findings[f].states;
    double answer[EXPR_STATES_MAX], bits = belief_gain(t->b, t->scratch, seen, f, answer);
    long double gain = twin_entropy(p, t->count), after[TWIN_SETS], mean[TWIN_SETS] = {0};
    for (uint32_t y = 0; y < states; y++) {
        double *said = ARENA_ARRAY(t->scratch, double, states);
        said[y] = 1;
        evidence then = twin_with(t->scratch, t->n, seen, f, said);
        long double chance =
            expl(plain_posterior(t, &then, factor, after) - belief_log_evidence(t->b));
        if (t->n->component_of[f] == NO_COMPONENT) chance = 1.0L / states;
        assert_close(answer[y], chance, 1);
        gain -= chance * twin_entropy(after, t->count);
        for (uint32_t h = 0; h < t->count; h++) mean[h] += chance * after[h];
    }
    assert_close(bits, gain, 1);
    for (uint32_t h = 0; h < t->count; h++) assert_close((double)mean[h], p[h], 1);
}

static void questions_are_brute_force(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= NETWORKS; seed++) {
        trial t = trial_new(1000 + seed);
        evidence seen = twin_draw_evidence(t.keep, &t.random, t.n);
        double *factor = twin_draw_factors(t.keep, &t.random, t.n->in.cause_count, true);
        long double p[TWIN_SETS];
        plain_posterior(&t, &seen, factor, p);
        belief_weigh(t.b, &seen, factor);
        for (uint32_t f = 0; f < t.n->in.finding_count; f++)
            if (seen.weights[f] == NULL) check_question(&t, &seen, factor, f, p);
        trial_free(&t);
    }
}

static void check_row(const trial *t, const evidence *seen, uint32_t set, uint32_t f,
                      uint32_t states, const double *row)
{
    long double before = twin_likelihood(t->n, set, seen);
    double sum = 0;
    for (uint32_t y = 0; y < states; y++) {
        double *said = ARENA_ARRAY(t->scratch, double, states);
        said[y] = 1;
        evidence then = twin_with(t->scratch, t->n, seen, f, said);
        long double chance = twin_likelihood(t->n, set, &then) / before;
        assert_close(row[y], chance, chance);
        sum += row[y];
    }
    assert_true(fabs(sum - 1) <= 4e-16);
}

/* Every row of every prediction, the gain from it, and the gain from totals computed once. */
static void predictions_are_brute_force(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= NETWORKS; seed++) {
        trial t = trial_new(2000 + seed);
        evidence seen = twin_draw_evidence(t.keep, &t.random, t.n);
        for (uint32_t f = 0; f < t.n->in.finding_count; f++) {
            if (seen.weights[f] != NULL || t.n->component_of[f] == NO_COMPONENT) continue;
            prediction p = belief_predict(t.keep, t.b, &seen, f);
            check_row(&t, &seen, 0, f, p.states, p.other);
            for (uint32_t c = 0, i = 0; c < t.n->in.cause_count; c++) {
                bool listed = i < p.listed_count && p.listed[i] == c;
                check_row(&t, &seen, 1U << c, f, p.states,
                          listed ? p.rows + (size_t)i * p.states : p.base);
                if (listed) i++;
            }
        }
        trial_free(&t);
    }
}

/* Gain of rows that need not sum to 1, as facts have them, from any weights. */
static double plain_gain(const prediction *p, const double *w, uint32_t causes)
{
    long double prior[TWIN_SETS], joint[EXPR_STATES_MAX][TWIN_SETS], mass[EXPR_STATES_MAX], all = 0,
                                                                                            gain;
    for (uint32_t h = 0; h <= causes; h++) prior[h] = w[h];
    twin_normalise(prior, causes + 1);
    for (uint32_t y = 0; y < p->states; y++) {
        for (uint32_t h = 0; h <= causes; h++)
            joint[y][h] = prior[h] * (h == 0 ? p->other[y] : p->base[y]);
        for (uint32_t i = 0; i < p->listed_count; i++)
            joint[y][1 + p->listed[i]] =
                prior[1 + p->listed[i]] * p->rows[(size_t)i * p->states + y];
        mass[y] = twin_normalise(joint[y], causes + 1);
        all += mass[y];
    }
    gain = twin_entropy(prior, causes + 1);
    for (uint32_t y = 0; y < p->states; y++)
        gain -= mass[y] / all * twin_entropy(joint[y], causes + 1);
    return (double)gain;
}

static double *draw_numbers(arena *keep, uint64_t *random, uint32_t count)
{
    double *all = ARENA_ARRAY(keep, double, count);
    for (uint32_t i = 0; i < count; i++) all[i] = 0.01 + luck_share(random);
    return all;
}

static void to_chances(double *row, uint32_t states)
{
    double sum = 0;
    for (uint32_t y = 0; y < states; y++) sum += row[y];
    for (uint32_t y = 0; y < states; y++) row[y] /= sum;
}

/* It says the same bit for bit, and where its rows are chances it says beforehand how much that is
 * at most. */
static void gain_of_a_prepared_one(arena *keep, prediction p, const double *w, uint32_t causes)
{
    double *logs = ARENA_ARRAY(keep, double, causes + 1);
    const weight_totals all = weight_totals_of(w, causes + 1, logs);
    const double plain = prediction_gain(&p, w, causes, NULL);
    assert_true(isinf(prediction_gain_most(&p, w, all.sum)));
    prediction_prepare(keep, &p);
    assert_true(prediction_gain_given(&p, w, all, NULL) == plain);
    to_chances((double *)p.base, p.states);
    to_chances((double *)p.other, p.states);
    for (uint32_t i = 0; i < p.listed_count; i++)
        to_chances((double *)p.rows + (size_t)i * p.states, p.states);
    prediction_prepare(keep, &p);
    const double most = prediction_gain_most(&p, w, all.sum);
    assert_true(isfinite(most) && prediction_gain_given(&p, w, all, NULL) <= most);
}

static void gain_of_any_rows(void **state)
{
    (void)state;
    arena *keep = arena_new(NULL, NULL);
    uint64_t random = 7;
    for (int i = 0; i < NETWORKS; i++) {
        uint32_t causes = 1 + luck_below(&random, 30), states = 1 + luck_below(&random, 5),
                 listed = 0;
        uint32_t *list = ARENA_ARRAY(keep, uint32_t, causes);
        for (uint32_t c = 0; c < causes; c++)
            if (luck_below(&random, 2) == 0) list[listed++] = c;
        prediction p = {.states = states,
                        .base = draw_numbers(keep, &random, states),
                        .other = draw_numbers(keep, &random, states),
                        .listed_count = listed,
                        .listed = list,
                        .rows = draw_numbers(keep, &random, listed * states)};
        double *w = draw_numbers(keep, &random, causes + 1), answer[EXPR_STATES_MAX], sum = 0;
        if (i % 3 == 0) w[luck_below(&random, causes + 1)] = 0;
        double wanted = plain_gain(&p, w, causes);
        assert_close(prediction_gain(&p, w, causes, answer), wanted, 1);
        assert_true(prediction_gain_given(&p, w, weight_totals_of(w, causes + 1, NULL), NULL) ==
                    prediction_gain(&p, w, causes, NULL));
        for (uint32_t y = 0; y < states; y++) sum += answer[y];
        assert_close(sum, 1, 1);
        gain_of_a_prepared_one(keep, p, w, causes);
    }
    arena_free(keep);
}

/* ---- what must hold of any belief ---- */

static void answers_come_in_any_order_and_can_be_taken_back(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= NETWORKS; seed++) {
        trial t = trial_new(3000 + seed);
        uint32_t findings = t.n->in.finding_count;
        evidence last = twin_draw_evidence(t.keep, &t.random, t.n),
                 other = twin_draw_evidence(t.keep, &t.random, t.n);
        double *wanted = ARENA_ARRAY(t.keep, double, t.count);
        belief_weigh(t.b, &last, NULL);
        memcpy(wanted, belief_posterior(t.b), t.count * sizeof *wanted);
        belief_weigh(t.b, &other, NULL);
        evidence now = other;
        for (uint32_t i = 0, at = luck_below(&t.random, findings); i < findings;
             i++, at = (at + 1) % findings) {
            now = twin_with(t.keep, t.n, &now, at, last.weights[at]);
            belief_weigh(t.b, &now, NULL);
        }
        assert_memory_equal(wanted, belief_posterior(t.b), t.count * sizeof *wanted);
        trial_free(&t);
    }
}

static void an_unsure_answer_changes_no_bit(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= NETWORKS; seed++) {
        trial t = trial_new(4000 + seed);
        evidence seen = twin_draw_evidence(t.keep, &t.random, t.n);
        double *wanted = ARENA_ARRAY(t.keep, double, t.count), ones[3] = {1, 1, 1};
        belief_weigh(t.b, &seen, NULL);
        memcpy(wanted, belief_posterior(t.b), t.count * sizeof *wanted);
        for (uint32_t f = 0; f < t.n->in.finding_count; f++)
            if (seen.weights[f] == NULL) seen = twin_with(t.keep, t.n, &seen, f, ones);
        belief_weigh(t.b, &seen, NULL);
        assert_memory_equal(wanted, belief_posterior(t.b), t.count * sizeof *wanted);
        trial_free(&t);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(posterior_is_brute_force),
        cmocka_unit_test(answers_may_count_for_less),
        cmocka_unit_test(questions_are_brute_force),
        cmocka_unit_test(predictions_are_brute_force),
        cmocka_unit_test(gain_of_any_rows),
        cmocka_unit_test(answers_come_in_any_order_and_can_be_taken_back),
        cmocka_unit_test(an_unsure_answer_changes_no_bit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
