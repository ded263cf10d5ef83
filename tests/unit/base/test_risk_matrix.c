/* MIL-STD-882E (11 May 2012), Table III, all cells, as read in two independent secondary copies
 * that agree, and derived from MIL-STD-882D, Table A-III. Copies that print 3E as Low, or another
 * matrix altogether, are in circulation. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/risk_matrix.h"

static void mil_std_882e_table_3(void **state)
{
    (void)state;
    /* Rows A Frequent, B Probable, C Occasional, D Remote, E Improbable; columns 1 Catastrophic to
     * 4 Negligible. */
    static const char table[5][5] = {"HHSM", "HHSM", "HSML", "SMML", "MMML"};
    for (int p = 0; p < 5; p++)
        for (int s = 0; s < 4; s++) {
            char letter = "LMSH"[risk_of((risk_severity)s, (risk_probability)p)];
            assert_int_equal(letter, table[p][s]);
        }
}

/* Row F of the standard says "Eliminated" in all four columns; the ladder here has no rung below
 * Low. */
static void what_was_eliminated_is_low(void **state)
{
    (void)state;
    for (int s = 0; s < SEVERITY_COUNT; s++)
        assert_int_equal(risk_of((risk_severity)s, PROBABILITY_ELIMINATED), RISK_LOW);
}

static void worse_or_likelier_never_lowers_the_band(void **state)
{
    (void)state;
    for (int p = 0; p < PROBABILITY_COUNT; p++)
        for (int s = 0; s < SEVERITY_COUNT; s++) {
            risk_level here = risk_of((risk_severity)s, (risk_probability)p);
            if (s > 0) assert_true(risk_of((risk_severity)(s - 1), (risk_probability)p) >= here);
            if (p > 0) assert_true(risk_of((risk_severity)s, (risk_probability)(p - 1)) >= here);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(mil_std_882e_table_3),
        cmocka_unit_test(what_was_eliminated_is_low),
        cmocka_unit_test(worse_or_likelier_never_lowers_the_band),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
