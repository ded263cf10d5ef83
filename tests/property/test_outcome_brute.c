/* Outcomes of fixes against brute force over every set of faults and everything that may have been
 * removed from it. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "belief_twin.h"
#include "choice_twin.h"
#include "luck.h"

enum { CASES = 400, FIXES_TRIED = 4 };
#define CLOSE 1e-12

/* A case as the mathematics tells it: weights at the last outcome, likelihood and prior of that
 * moment. */
typedef struct course {
    arena *keep, *scratch;
    uint64_t random;
    const net *n;
    uint32_t most_faults, count, sets[TWIN_SETS];
    belief *b;
    evidence seen;
    const double *factor;
    long double moved[TWIN_SETS], likelihood_then[TWIN_SETS], prior_then[TWIN_SETS];
    double wrongly;                /* how often the fixes are done wrongly */
    long double missed[TWIN_SETS]; /* chance that all failed fixes missed a single cause */
} course;

static void note_then(course *c)
{
    twin_prior(c->n, c->sets, c->count, c->factor, c->prior_then);
    for (uint32_t h = 0; h < c->count; h++)
        c->likelihood_then[h] = twin_likelihood(c->n, c->sets[h], &c->seen);
}

static course course_new(uint64_t seed)
{
    course c = {.keep = arena_new(NULL, NULL), .scratch = arena_new(NULL, NULL), .random = seed};
    net_input *in = ARENA_NEW(c.keep, net_input);
    do *in = twin_draw_input(c.keep, &c.random);
    while (in->cause_count < 2);
    c.most_faults = 1 + luck_below(&c.random, 3) % 2;
    c.wrongly = luck_below(&c.random, 2) == 0 ? 0 : 0.3 * luck_share(&c.random);
    c.n = net_build(c.keep, c.scratch, in, NULL);
    c.count = twin_sets(c.n, c.most_faults, c.sets);
    c.b = belief_new(c.keep, c.n, c.most_faults);
    c.seen = (evidence){.weights = ARENA_ARRAY(c.keep, const double *, in->finding_count)};
    note_then(&c);
    memcpy(c.moved, c.prior_then, sizeof c.moved);
    for (uint32_t h = 0; h < c.count; h++) c.missed[h] = 1;
    return c;
}

static void course_free(course *c)
{
    arena_free(c->keep);
    arena_free(c->scratch);
}

/* w' × L now / L then × prior now / prior then. Returns the sum. */
static long double weights_now(const course *c, long double *w)
{
    long double prior[TWIN_SETS], sum = 0;
    twin_prior(c->n, c->sets, c->count, c->factor, prior);
    for (uint32_t h = 0; h < c->count; h++) {
        w[h] = 0;
        if (prior[h] > 0)
            w[h] = c->moved[h] *
                   (twin_likelihood(c->n, c->sets[h], &c->seen) / c->likelihood_then[h]) *
                   (prior[h] / c->prior_then[h]);
        sum += w[h];
    }
    return sum;
}

static void compare(const course *c)
{
    long double w[TWIN_SETS], sum = weights_now(c, w);
    for (uint32_t h = 0; h < c->count; h++) {
        long double wanted = w[h] / sum;
        double got = belief_posterior(c->b)[h];
        if (!(fabsl(got - wanted) <= CLOSE * wanted))
            fail_msg("[%u] %.17g, wanted %.17Lg", h, got, wanted);
    }
    if (!(fabsl(belief_log_evidence(c->b) - logl(sum)) <= CLOSE * fmaxl(1, fabsl(logl(sum)))))
        fail_msg("evidence %.17g, wanted %.17Lg", belief_log_evidence(c->b), logl(sum));
}

/* New answers to some findings, some taken back, other factors. */
static void change_answers(course *c)
{
    evidence fresh = twin_draw_evidence(c->keep, &c->random, c->n);
    for (uint32_t f = 0; f < c->n->in.finding_count; f++)
        if (luck_below(&c->random, 2) == 0)
            c->seen = twin_with(c->keep, c->n, &c->seen, f, fresh.weights[f]);
    c->factor = twin_draw_factors(c->keep, &c->random, c->n->in.cause_count, false);
    belief_weigh(c->b, &c->seen, c->factor);
    compare(c);
}

static uint32_t draw_fix(course *c, net_rate *cures, double *cure)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < 32; i++) cure[i] = 0;
    for (uint32_t i = 0; i < c->n->in.cause_count; i++) {
        if (luck_below(&c->random, 2) == 0) continue;
        cure[i] = (0.1 + 0.85 * luck_share(&c->random)) * (1 - c->wrongly);
        cures[count++] = (net_rate){i, cure[i]};
    }
    return count;
}

/* Marks findings stale and takes their answers out of what is seen. */
static const bool *draw_stale(course *c)
{
    bool *stale = ARENA_ARRAY(c->keep, bool, c->n->in.finding_count);
    for (uint32_t f = 0; f < c->n->in.finding_count; f++) {
        stale[f] = luck_below(&c->random, 3) == 0;
        if (stale[f]) c->seen = twin_with(c->keep, c->n, &c->seen, f, NULL);
    }
    return stale;
}

static void restart_plainly(course *c)
{
    twin_prior(c->n, c->sets, c->count, NULL, c->prior_then);
    for (uint32_t h = 0; h < c->count; h++) {
        c->moved[h] = c->prior_then[h] * c->missed[h];
        c->likelihood_then[h] = 1;
    }
}

static void try_fix(course *c, fix_outcome outcome)
{
    const outcome_rates rates = {0.13, 0.03, 0.27, c->wrongly};
    net_rate cures[32];
    double cure[32];
    long double w[TWIN_SETS], moved[TWIN_SETS], sum = weights_now(c, w), left = 0;
    uint32_t count = draw_fix(c, cures, cure);
    twin_outcome(c->sets, c->count, w, cure, outcome, &rates, moved);
    for (uint32_t h = 0; h < c->count; h++) left += moved[h];
    const bool *stale = outcome == OUTCOME_BETTER ? draw_stale(c) : NULL;
    double chance = belief_outcome(c->b, cures, count, outcome, &rates, stale);
    if (!(fabsl(chance - left / sum) <= CLOSE))
        fail_msg("chance %.17g, wanted %.17Lg", chance, left / sum);
    if (outcome == OUTCOME_GONE) return;
    for (uint32_t i = 0; i < c->n->in.cause_count; i++)
        c->missed[1 + i] *= 1 - (long double)cure[i];
    if (outcome == OUTCOME_BETTER && c->most_faults == 1)
        restart_plainly(c);
    else {
        note_then(c);
        memcpy(c->moved, moved, sizeof moved);
    }
    compare(c);
}

static void outcomes_are_brute_force(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= CASES; seed++) {
        course c = course_new(seed);
        for (int i = 0; i < FIXES_TRIED; i++) {
            change_answers(&c);
            try_fix(&c, luck_below(&c.random, 2) == 0 ? OUTCOME_BETTER : OUTCOME_SAME);
        }
        change_answers(&c);
        course_free(&c);
    }
}

static void chances_of_the_three_outcomes_sum_to_one(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= CASES; seed++) {
        double sum = 0;
        for (int outcome = OUTCOME_GONE; outcome <= OUTCOME_SAME; outcome++) {
            net_rate cures[32];
            double cure[32];
            course c = course_new(seed);
            change_answers(&c);
            uint32_t count = draw_fix(&c, cures, cure);
            const outcome_rates rates = {0.1, 0.02, 0.2, c.wrongly};
            sum += belief_outcome(c.b, cures, count, (fix_outcome)outcome, &rates, NULL);
            course_free(&c);
        }
        if (!(fabs(sum - 1) <= CLOSE)) fail_msg("seed %u: %.17g", (unsigned)seed, sum);
    }
}

static void gone_leaves_the_belief_as_it_is(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= CASES; seed++) {
        course c = course_new(seed);
        double *before = ARENA_ARRAY(c.keep, double, c.count);
        change_answers(&c);
        memcpy(before, belief_posterior(c.b), c.count * sizeof *before);
        try_fix(&c, OUTCOME_GONE);
        assert_memory_equal(before, belief_posterior(c.b), c.count * sizeof *before);
        belief_weigh(c.b, &c.seen, c.factor);
        assert_memory_equal(before, belief_posterior(c.b), c.count * sizeof *before);
        course_free(&c);
    }
}

/* After outcomes too, answers that are changed and changed back leave the same bits. */
static void answers_after_an_outcome_can_be_taken_back(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= CASES; seed++) {
        course c = course_new(seed);
        double *before = ARENA_ARRAY(c.keep, double, c.count);
        change_answers(&c);
        try_fix(&c, OUTCOME_BETTER);
        try_fix(&c, OUTCOME_SAME);
        memcpy(before, belief_posterior(c.b), c.count * sizeof *before);
        evidence seen = c.seen;
        const double *factor = c.factor;
        change_answers(&c);
        belief_weigh(c.b, &seen, factor);
        assert_memory_equal(before, belief_posterior(c.b), c.count * sizeof *before);
        course_free(&c);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(outcomes_are_brute_force),
        cmocka_unit_test(chances_of_the_three_outcomes_sum_to_one),
        cmocka_unit_test(gone_leaves_the_belief_as_it_is),
        cmocka_unit_test(answers_after_an_outcome_can_be_taken_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
