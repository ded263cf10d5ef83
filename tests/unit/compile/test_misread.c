/* R, the chance of each answer given what is so: its rows sum to 1, and what confirms a cause is
 * hardly ever told where it isn't so. */
#include <math.h>

#include "compile/misread.h"
#include "testing.h"

static net_finding finding(uint32_t states, double right, state_mask settling)
{
    return (net_finding){
        .states = states, .usual = NO_STATE, .right = right, .settling = settling, .toward = 0.002};
}

static void near(double got, double wanted)
{
    if (!(fabs(got - wanted) < 1e-15)) fail_msg("%.17g, wanted %.17g", got, wanted);
}

static void every_row_sums_to_one(void **state)
{
    (void)state;
    static const double right[] = {1, 0.98, 0.95, 0.3, 0.001};
    for (uint32_t states = 1; states <= 6; states++)
        for (state_mask settling = 0; settling < (state_mask)1 << states; settling++)
            for (size_t r = 0; r < sizeof right / sizeof right[0]; r++) {
                const net_finding f = finding(states, right[r], settling);
                const misreading m = misreading_of(&f);
                for (uint32_t v = 0; v < states; v++) {
                    double sum = 0;
                    for (uint32_t a = 0; a < states; a++) {
                        assert_true(misread_chance(&m, a, v) >= 0);
                        sum += misread_chance(&m, a, v);
                    }
                    near(sum, 1);
                }
            }
}

static void without_what_confirms_all_slips_are_alike(void **state)
{
    (void)state;
    const net_finding f = finding(3, 0.95, 0);
    const misreading m = misreading_of(&f);
    for (uint32_t v = 0; v < 3; v++)
        for (uint32_t a = 0; a < 3; a++) near(misread_chance(&m, a, v), a == v ? 0.95 : 0.025);
}

static void yes_is_missed_more_often_than_it_is_imagined(void **state)
{
    (void)state;
    const net_finding f = finding(2, 0.95, 2);
    const misreading m = misreading_of(&f);
    near(misread_chance(&m, 1, 0), 0.002);
    near(misread_chance(&m, 0, 0), 0.998);
    near(misread_chance(&m, 0, 1), 0.05);
    near(misread_chance(&m, 1, 1), 0.95);
}

static void what_is_left_of_the_slips_goes_to_the_others(void **state)
{
    (void)state;
    const net_finding f = finding(4, 0.9, 1 | 8); /* the first and the last confirm */
    const misreading m = misreading_of(&f);
    static const double wanted[4][4] = {{0.9, 0.049, 0.049, 0.002},
                                        {0.002, 0.9, 0.096, 0.002},
                                        {0.002, 0.096, 0.9, 0.002},
                                        {0.002, 0.049, 0.049, 0.9}};
    for (uint32_t v = 0; v < 4; v++)
        for (uint32_t a = 0; a < 4; a++) near(misread_chance(&m, a, v), wanted[v][a]);
}

/* Where people hardly ever slip, they don't slip toward it more often than toward anything else. */
static void no_slip_is_likelier_than_the_even_share(void **state)
{
    (void)state;
    const net_finding f = finding(3, 0.999, 1);
    const misreading m = misreading_of(&f);
    near(misread_chance(&m, 0, 1), 0.0005);
    near(misread_chance(&m, 2, 1), 0.0005);
}

static void sums_over_it_are_those_of_the_whole_matrix(void **state)
{
    (void)state;
    const double p[] = {0.1, 0.25, 0.3, 0.35};
    for (state_mask settling = 0; settling < 16; settling++) {
        const net_finding f = finding(4, 0.9, settling);
        const misreading m = misreading_of(&f);
        double weights[4], told[4];
        misread_weights(&m, p, weights);
        misread_states(&m, p, 1, told);
        for (uint32_t i = 0; i < 4; i++) {
            double as_weights = 0, as_states = 0;
            for (uint32_t k = 0; k < 4; k++) {
                as_weights += p[k] * misread_chance(&m, k, i);
                as_states += p[k] * misread_chance(&m, i, k);
            }
            near(weights[i], as_weights);
            near(told[i], as_states);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_row_sums_to_one),
        cmocka_unit_test(without_what_confirms_all_slips_are_alike),
        cmocka_unit_test(yes_is_missed_more_often_than_it_is_imagined),
        cmocka_unit_test(what_is_left_of_the_slips_goes_to_the_others),
        cmocka_unit_test(no_slip_is_likelier_than_the_even_share),
        cmocka_unit_test(sums_over_it_are_those_of_the_whole_matrix),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
