/* FIT: the closed form by hand, the ridge fit by the conditions that mark its only minimum. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "choice_twin.h"
#include "compile/net.h"
#include "luck.h"

static int set_up(void **state)
{
    *state = arena_new(NULL, NULL);
    return 0;
}

static int tear_down(void **state)
{
    arena_free(*state);
    return 0;
}

static void check(const double *got, const double *wanted, uint32_t count)
{
    for (uint32_t a = 0; a < count; a++)
        if (!(fabs(got[a] - wanted[a]) <= 1e-15))
            fail_msg("[%u] %.17g, wanted %.17g", a, got[a], wanted[a]);
}

static void without_symptoms_the_reference_stays(void **state)
{
    double out[3];
    const double q[] = {0.2, 0.3, 0.5};
    net_fit(*state, q, 3, NULL, NULL, 0, true, out);
    check(out, q, 3);
}

static void what_is_left_goes_to_the_uncovered_in_proportion(void **state)
{
    double out[4];
    const bool inside[] = {true, true, false, false};
    net_fit(*state, (double[]){0.1, 0.3, 0.2, 0.4}, 4, inside, (double[]){0.7}, 1, true, out);
    check(out, (double[]){0.7 / 4, 0.7 * 3 / 4, 0.1, 0.2}, 4);
}

static void two_disjoint_sets_get_what_they_are_given(void **state)
{
    double out[3];
    const bool inside[] = {true, false, false, /**/ false, false, true};
    net_fit(*state, (double[]){0.05, 0.9, 0.05}, 3, inside, (double[]){0.3, 0.2}, 2, true, out);
    check(out, (double[]){0.3, 0.5, 0.2}, 3);
}

static void too_much_is_scaled_so_that_a_thousandth_is_left(void **state)
{
    double out[3];
    const bool inside[] = {true, false, false, /**/ false, false, true};
    net_fit(*state, (double[]){0.05, 0.9, 0.05}, 3, inside, (double[]){0.9, 0.6}, 2, true, out);
    check(out, (double[]){0.999 * 0.9 / 1.5, 0.001, 0.999 * 0.6 / 1.5}, 3);
    net_fit(*state, (double[]){0.05, 0.9, 0.05}, 3, inside, (double[]){0.6, 0.3995}, 2, true, out);
    check(out, (double[]){0.999 * 0.6 / 0.9995, 0.001, 0.999 * 0.3995 / 0.9995}, 3);
}

static void sets_that_cover_everything_are_divided_by_their_sum(void **state)
{
    double out[2];
    const bool inside[] = {true, false, /**/ false, true};
    net_fit(*state, (double[]){0.5, 0.5}, 2, inside, (double[]){0.6, 0.2}, 2, true, out);
    check(out, (double[]){0.75, 0.25}, 2);
}

static void a_set_that_cannot_occur_takes_nothing(void **state)
{
    double out[2];
    const bool inside[] = {false, false, /**/ false, true};
    net_fit(*state, (double[]){0.5, 0.5}, 2, inside, (double[]){0.9, 0.2}, 2, true, out);
    check(out, (double[]){0.8, 0.2}, 2);
}

/* ---- ridge ---- */

typedef struct problem {
    uint32_t count, sets;
    double q[32], target[NET_SYMPTOMS_MAX], out[32];
    bool inside[NET_SYMPTOMS_MAX * 32];
} problem;

static double sigma_of(double t)
{
    return fmax(0.01, 0.2 * t * (1 - t));
}

static long double under(const problem *p, uint32_t s)
{
    long double sum = 0;
    for (uint32_t a = 0; a < p->count; a++)
        if (p->inside[s * p->count + a]) sum += p->out[a];
    return sum;
}

/* At the minimum theta_s = (t_s - T(A_s)) / sigma_s^2, and T is q tilted by exp(theta): the logs of
 * T/q less their tilt are all alike. */
static void check_minimum(const problem *p)
{
    long double least = INFINITY, most = -INFINITY, sum = 0;
    for (uint32_t a = 0; a < p->count; a++) {
        sum += p->out[a];
        if (p->out[a] < 1e-250) continue; /* below what a double can tell */
        long double level = logl((long double)p->out[a] / p->q[a]);
        for (uint32_t s = 0; s < p->sets; s++) {
            long double sigma = sigma_of(p->target[s]);
            if (p->inside[s * p->count + a])
                level -= (p->target[s] - under(p, s)) / (sigma * sigma);
        }
        least = fminl(least, level);
        most = fmaxl(most, level);
    }
    assert_true(fabsl(sum - 1) < 1e-14L);
    if (!(most - least < 1e-6L)) fail_msg("%u sets: levels differ by %.3Lg", p->sets, most - least);
}

static void draw(problem *p, uint64_t *random)
{
    double sum = 0;
    p->count = 2 + luck_below(random, 31);
    p->sets = 1 + luck_below(random, NET_SYMPTOMS_MAX);
    for (uint32_t a = 0; a < p->count; a++) sum += p->q[a] = exp(-8 * luck_share(random));
    for (uint32_t a = 0; a < p->count; a++) p->q[a] /= sum;
    for (uint32_t s = 0; s < p->sets; s++) {
        static const double words[] = {1e-6, 0.01, 0.05, 0.15, 0.3,     0.5,
                                       0.7,  0.85, 0.95, 0.99, 1 - 1e-6};
        p->target[s] = words[luck_below(random, 11)];
        for (uint32_t a = 0; a < p->count; a++)
            p->inside[s * p->count + a] = luck_below(random, 3) == 0;
    }
}

static void the_ridge_fit_is_at_its_minimum_whatever_is_asked(void **state)
{
    uint64_t random = 11;
    for (int i = 0; i < 4000; i++) {
        problem p;
        draw(&p, &random);
        net_fit(*state, p.q, p.count, p.inside, p.target, p.sets, false, p.out);
        check_minimum(&p);
    }
}

static void sets_that_overlap_are_fitted_even_over_one_finding(void **state)
{
    problem p = {.count = 3,
                 .sets = 2,
                 .q = {0.2, 0.5, 0.3},
                 .target = {0.6, 0.7},
                 .inside = {true, true, false, false, true, true}};
    net_fit(*state, p.q, 3, p.inside, p.target, 2, true, p.out);
    check_minimum(&p);
    assert_true(p.out[1] > 0.25);
}

static void numbers_that_agree_are_met_nearly(void **state)
{
    problem p = {.count = 4,
                 .sets = 2,
                 .q = {0.25, 0.25, 0.25, 0.25},
                 .target = {0.7, 0.9},
                 .inside = {true, true, false, false, true, false, true, false}};
    net_fit(*state, p.q, 4, p.inside, p.target, 2, false, p.out);
    check_minimum(&p);
    assert_true(fabsl(under(&p, 0) - 0.7L) < 0.01L);
    assert_true(fabsl(under(&p, 1) - 0.9L) < 0.01L);
}

static void numbers_that_contradict_meet_in_between(void **state)
{
    problem p = {.count = 2,
                 .sets = 2,
                 .q = {0.5, 0.5},
                 .target = {0.3, 0.7},
                 .inside = {true, false, true, false}};
    net_fit(*state, p.q, 2, p.inside, p.target, 2, false, p.out);
    check_minimum(&p);
    assert_true(fabs(p.out[0] - 0.5) < 1e-12);
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(without_symptoms_the_reference_stays),
        CASE(what_is_left_goes_to_the_uncovered_in_proportion),
        CASE(two_disjoint_sets_get_what_they_are_given),
        CASE(too_much_is_scaled_so_that_a_thousandth_is_left),
        CASE(sets_that_cover_everything_are_divided_by_their_sum),
        CASE(a_set_that_cannot_occur_takes_nothing),
        CASE(the_ridge_fit_is_at_its_minimum_whatever_is_asked),
        CASE(sets_that_overlap_are_fitted_even_over_one_finding),
        CASE(numbers_that_agree_are_met_nearly),
        CASE(numbers_that_contradict_meet_in_between),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
