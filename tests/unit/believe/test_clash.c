/* Answers that clash, in random networks: which two, and whether they are told at all, against a
 * belief weighed anew without each of them. How often one is read amiss is counted elsewhere
 * (test_looks_brute). */
#include <math.h>
#include <string.h>

#include "belief_twin.h"
#include "believe/belief_parts.h"
#include "believe/clash.h"
#include "choice_twin.h"
#include "luck.h"
#include "testing.h"

enum { NETWORKS = 50000 }; /* few of them clash */

#define NOTHING UINT32_MAX

typedef struct problem {
    arena *keep, *scratch;
    const net *n;
    belief *single, *pairs;
    evidence seen;
    bool *may;
} problem;

/* Null: what the instruments join is too much. */
static const net *draw_net(arena *keep, arena *scratch, uint64_t *random)
{
    net_input *in = ARENA_NEW(keep, net_input);
    *in = twin_draw_input(keep, random);
    if (luck_below(random, 2) == 0) twin_draw_sources(keep, random, in);
    return net_build(keep, scratch, in, NULL);
}

/* Nearly everything was asked. */
static evidence draw_answers(arena *keep, uint64_t *random, const net *n)
{
    const double **weights = ARENA_ARRAY(keep, const double *, n->in.finding_count);
    for (uint32_t f = 0; f < n->in.finding_count; f++)
        if (luck_below(random, 8) > 0)
            weights[f] = twin_draw_answer(keep, random, n->in.findings[f].states);
    return (evidence){.weights = weights};
}

/* Once a fix was tried in vain. */
static void weigh(const problem *p, belief *b, const double *factor, const net_rate *tried)
{
    belief_weigh(b, &p->seen, factor);
    if (tried->chance > 0) belief_outcome(b, tried, 1, OUTCOME_SAME, &outcome_rates_default, NULL);
}

static problem problem_new(uint64_t *random)
{
    problem p = {.keep = arena_new(NULL, NULL), .scratch = arena_new(NULL, NULL)};
    while (p.n == NULL) p.n = draw_net(p.keep, p.scratch, random);
    const uint32_t findings = p.n->in.finding_count;
    p.single = belief_new(p.keep, p.n, 1);
    if (luck_below(random, 2) == 0) p.pairs = belief_new(p.keep, p.n, 2);
    p.seen = draw_answers(p.keep, random, p.n);
    const double *factor = twin_draw_factors(p.keep, random, p.n->in.cause_count, true);
    const net_rate tried = {luck_below(random, p.n->in.cause_count),
                            luck_below(random, 2) == 0 ? 0 : luck_share(random)};
    weigh(&p, p.single, factor, &tried);
    if (p.pairs != NULL) weigh(&p, p.pairs, factor, &tried);
    p.may = ARENA_ARRAY(p.keep, bool, findings);
    for (uint32_t f = 0; f < findings; f++) p.may[f] = luck_below(random, 8) != 0;
    return p;
}

static void problem_free(problem *p)
{
    arena_free(p->keep);
    arena_free(p->scratch);
}

/* ---- the slow twin: all anew without an answer, or two ---- */

static belief *weighed_without(const problem *p, uint32_t gone, uint32_t gone_too, evidence *left)
{
    const uint32_t findings = p->n->in.finding_count;
    const double **weights = ARENA_ARRAY(p->keep, const double *, findings);
    for (uint32_t f = 0; f < findings; f++)
        if (f != gone && f != gone_too) weights[f] = p->seen.weights[f];
    *left = (evidence){.weights = weights};
    belief *b = belief_new(p->keep, p->n, 1);
    belief_weigh(b, left, NULL);
    return b;
}

static double weight_of(const problem *p, const belief *left, uint32_t h)
{
    return p->single->log_prior[h] + history_of(p->single, h) +
           p->n->in.answers_count * belief_log_says(left, h);
}

static double twin_fit(const problem *p, uint32_t gone)
{
    evidence left;
    uint32_t best = 1;
    const belief *b = weighed_without(p, gone, gone, &left);
    for (uint32_t h = 2; h <= p->n->in.cause_count; h++)
        if (weight_of(p, b, h) > weight_of(p, b, best)) best = h;
    return belief_fit(b, p->scratch, &left, best);
}

static double twin_mean(const problem *p, uint32_t gone, uint32_t gone_too)
{
    evidence left;
    double sum = 0;
    const belief *b = weighed_without(p, gone, gone_too, &left);
    for (uint32_t h = 0; h <= p->n->in.cause_count; h++) sum += exp(weight_of(p, b, h));
    return log(sum);
}

/* How likely the weaker answer is where this one is left out. */
static double twin_expects(const problem *p, uint32_t weaker, uint32_t f)
{
    return twin_mean(p, f, f) - twin_mean(p, f, weaker);
}

/* "Not sure" says nothing. */
static bool is_said(const problem *p, uint32_t f)
{
    const double *its = p->seen.weights[f];
    bool says = false;
    for (uint32_t y = 0; its != NULL && y < p->n->in.findings[f].states; y++) says |= its[y] != 1;
    return says && p->n->component_of[f] != NO_COMPONENT;
}

/* Two answers at least, each of which may be one of them. */
static uint32_t count_candidates(const problem *p)
{
    uint32_t count = 0;
    for (uint32_t f = 0; f < p->n->in.finding_count; f++) count += is_said(p, f) && p->may[f];
    return count;
}

static double best_fit_without_one(const problem *p)
{
    double best = -INFINITY;
    for (uint32_t f = 0; f < p->n->in.finding_count; f++)
        if (is_said(p, f) && p->may[f]) best = fmax(best, twin_fit(p, f));
    return best;
}

static double pair_fit(const problem *p)
{
    uint32_t best = 0;
    if (p->pairs == NULL || belief_count(p->pairs) == belief_count(p->single)) return -INFINITY;
    for (uint32_t h = belief_count(p->single); h < belief_count(p->pairs); h++)
        if (best == 0 || belief_posterior(p->pairs)[h] > belief_posterior(p->pairs)[best]) best = h;
    return belief_fit(p->pairs, p->scratch, &p->seen, best);
}

/* ---- the same ---- */

typedef struct tally {
    uint32_t told, by_fit, by_pair, by_raised, by_amiss;
} tally;

static void check_two(const problem *p, const clash *out, double fit, double best)
{
    assert_true(is_said(p, out->weaker) && is_said(p, out->other) && out->weaker != out->other);
    assert_true(p->may[out->weaker] && p->may[out->other]);
    assert_true(fabs(log(out->fit) - fit) < 1e-9 && fabs(log(out->raised) - (best - fit)) < 1e-9);
    assert_true(fabs(twin_fit(p, out->weaker) - best) < 1e-9);
    const double expected = twin_expects(p, out->weaker, out->other);
    for (uint32_t f = 0; f < p->n->in.finding_count; f++)
        if (f != out->weaker && is_said(p, f) && p->may[f])
            assert_true(twin_expects(p, out->weaker, f) <= expected + 1e-9);
    assert_true(fabs(out->amiss - belief_amiss(p->single, p->scratch, &p->seen, out->weaker,
                                               out->other)) < 1e-12);
}

static void check_problem(const problem *p, tally *all)
{
    clash out;
    const bool told = belief_clash(p->single, p->pairs, p->scratch, &p->seen, p->may, &out);
    const double fit = belief_all_ruled_out(p->single) ? 0 : twin_fit(p, NOTHING),
                 best = best_fit_without_one(p);
    const bool unlikely = fit < log(CLASH_LESS_LIKELY_THAN),
               pair = pair_fit(p) >= log(CLASH_LESS_LIKELY_THAN),
               raised = best - fit >= log(CLASH_RAISED_BY) && count_candidates(p) >= 2;
    all->told += told;
    all->by_fit += !unlikely;
    all->by_pair += unlikely && pair && raised;
    all->by_raised += unlikely && !pair && !raised;
    if (unlikely && !pair && raised) {
        all->by_amiss += !told;
        check_two(p, &out, fit, best);
        assert_int_equal(told, out.amiss >= CLASH_AMISS);
    } else {
        assert_false(told);
    }
}

static void what_clashes_is_what_a_belief_anew_says(void **state)
{
    (void)state;
    uint64_t random = 31;
    tally all = {0};
    for (uint32_t i = 0; i < NETWORKS; i++) {
        problem p = problem_new(&random);
        check_problem(&p, &all);
        problem_free(&p);
    }
    print_message("told %u; not, for the fit %u, a pair %u, no single answer %u, read right %u\n",
                  all.told, all.by_fit, all.by_pair, all.by_raised, all.by_amiss);
    assert_true(all.told > 20 && all.by_fit > 20 && all.by_pair > 5 && all.by_raised > 20 &&
                all.by_amiss > 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_clashes_is_what_a_belief_anew_says),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
