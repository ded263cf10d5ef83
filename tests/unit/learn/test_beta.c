/* The beta distribution against exact fractions, against values of another program and against a
 * printed table. */
#include <math.h>

#include "learn/beta.h"
#include "testing.h"

static void near(double got, double wanted, double relative)
{
    if (!(fabs(got - wanted) <= relative * fmax(fabs(wanted), 1e-300)))
        fail_msg("%.17g, wanted %.17g", got, wanted);
}

/* DLMF 8.17.5: for whole a and b it is a sum of binomial chances, here taken with exact fractions.
 */
static void whole_numbers_are_binomial_sums(void **state)
{
    static const struct {
        double a, b, x, below;
    } exact[] = {
        {2, 3, 0.2, 0.18080000000000000},     {9, 5, 0.7, 0.65431356070150004},
        {20, 1, 0.9, 0.12157665459056929},    {3, 40, 0.05, 0.35101360934622799},
        {60, 41, 0.6, 0.54329448588206897},   {500, 700, 0.4, 0.12051628908943177},
        {1, 9, 0.001, 0.0089640838741259152},
    };
    (void)state;
    for (size_t i = 0; i < sizeof exact / sizeof *exact; i++)
        near(beta_below(exact[i].a, exact[i].b, exact[i].x), exact[i].below, 2e-12);
}

/* mpmath 1.3.0, betainc with 40 digits. */
static void any_numbers_agree_with_another_program(void **state)
{
    static const struct {
        double a, b, x, below;
    } other[] = {
        {0.2, 19.8, 0.001, 0.49350407711968957},  {0.5, 0.5, 0.3, 0.36901011956554538},
        {17.3, 4.7, 0.9, 0.92643169847199056},    {14, 6, 0.5, 0.0317840576171875},
        {27.5, 25.5, 0.62, 0.93141261436387086},  {1000.5, 3000.25, 0.26, 0.92545493391442461},
        {0.00002, 20, 0.01, 0.99997521617477883}, {3, 0.05, 0.999, 0.23814589541589411},
    };
    (void)state;
    for (size_t i = 0; i < sizeof other / sizeof *other; i++)
        near(beta_below(other[i].a, other[i].b, other[i].x), other[i].below, 2e-12);
}

/* mpmath 1.3.0, betainc turned round by halving, with 40 digits. */
static void quantiles_agree_with_another_program(void **state)
{
    static const struct {
        double a, b, low, high;
    } other[] = {
        {19, 1, 0.82353308819303461, 0.99866837119582058},
        {26, 7, 0.63560769013590994, 0.90722846771528068},
        {0.2, 19.8, 3.2844654550066844e-10, 0.074918297123780273},
        {32.6, 30.4, 0.39493608062188888, 0.63893380274318127},
        {2, 38, 0.0062719720956904098, 0.13476392155949795},
        {140, 60, 0.63484214102416981, 0.76136927237826505},
    };
    (void)state;
    for (size_t i = 0; i < sizeof other / sizeof *other; i++) {
        near(beta_quantile(other[i].a, other[i].b, 0.025), other[i].low, 1e-11);
        near(beta_quantile(other[i].a, other[i].b, 0.975), other[i].high, 1e-11);
    }
}

/* Student's t is a beta in disguise: with t at 97.5 % for ν degrees of freedom, I_x(ν/2, 1/2) = 5 %
 * at x = ν/(ν + t²), as substituting it in the density of t shows. The t were
 * worked out with mpmath, to three decimals. */
static void the_printed_table_of_t_comes_out(void **state)
{
    static const struct {
        double freedom, t;
    } printed[] = {{1, 12.706}, {2, 4.303},  {5, 2.571},  {10, 2.228},
                   {20, 2.086}, {30, 2.042}, {120, 1.980}};
    (void)state;
    for (size_t i = 0; i < sizeof printed / sizeof *printed; i++) {
        double x = beta_quantile(printed[i].freedom / 2, 0.5, 0.05);
        double t = sqrt(printed[i].freedom * (1 - x) / x);
        if (fabs(t - printed[i].t) > 0.0005)
            fail_msg("%g: %.6f, printed %.3f", printed[i].freedom, t, printed[i].t);
    }
}

/* mpmath 1.3.0, loggamma. */
static void log_gamma_agrees_with_another_program(void **state)
{
    (void)state;
    near(log_gamma(0.00002), 10.819766740425969, 1e-14);
    near(log_gamma(0.5), 0.57236494292470009, 1e-14);
    assert_true(fabs(log_gamma(1)) < 1e-14 && fabs(log_gamma(2)) < 1e-14);
    near(log_gamma(3.7), 1.4280723266653879, 1e-14);
    near(log_gamma(14.9), 24.924132002217277, 1e-14);
    near(log_gamma(15), 25.191221182738682, 1e-14);
    near(log_gamma(1000.25), 5906.9472682711172, 1e-14);
}

static void the_ends_are_the_ends(void **state)
{
    (void)state;
    assert_true(beta_below(3, 4, 0) == 0 && beta_below(3, 4, 1) == 1);
    assert_true(beta_quantile(1e-5, 20, 0.025) == 0); /* smaller than any number there is */
    assert_true(beta_quantile(3, 4, 1) > 0.999);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whole_numbers_are_binomial_sums),
        cmocka_unit_test(any_numbers_agree_with_another_program),
        cmocka_unit_test(quantiles_agree_with_another_program),
        cmocka_unit_test(the_printed_table_of_t_comes_out),
        cmocka_unit_test(log_gamma_agrees_with_another_program),
        cmocka_unit_test(the_ends_are_the_ends),
    };
    return cmocka_run_group_tests_name("beta", tests, NULL, NULL);
}
