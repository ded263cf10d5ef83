/* Which causes have to be kept in mind, in networks worked out by hand. */
#include <math.h>

#include "believe/belief.h"
#include "net_kit.h"
#include "testing.h"

static void check_set(net_kit *k, const belief *b, double share, const uint32_t *wanted,
                      uint32_t count, double wanted_mass)
{
    uint32_t members[8];
    double mass;
    assert_int_equal(belief_likely_set(b, k->scratch, share, members, &mass), count);
    for (uint32_t i = 0; i < count; i++) assert_int_equal(members[i], wanted[i]);
    assert_true(fabs(mass - wanted_mass) < 1e-14);
}

static void equals_come_as_they_are_named(void **state)
{
    (void)state;
    net_kit *k = net_kit_new();
    static const char *const names[] = {"a", "b", "c"};
    for (int i = 0; i < 3; i++) net_kit_cause(k, names[i], 1);
    const belief *b = belief_new(k->keep, net_kit_build(k), 1);
    static const uint32_t all[] = {1, 2, 3, 0};
    check_set(k, b, 0, all, 0, 0);
    check_set(k, b, 0.3, all, 1, 0.97 / 3);
    check_set(k, b, 0.6, all, 2, 0.97 * 2 / 3);
    check_set(k, b, 0.9, all, 3, 0.97);
    check_set(k, b, 0.98, all, 4, 1);
    net_kit_free(k);
}

static void something_not_listed_comes_after_its_equal(void **state)
{
    (void)state;
    net_kit *k = net_kit_new();
    net_kit_cause(k, "a", 1);
    k->in.not_listed = 0.5;
    const belief *b = belief_new(k->keep, net_kit_build(k), 1);
    check_set(k, b, 0.4, (uint32_t[]){1}, 1, 0.5);
    check_set(k, b, 1, (uint32_t[]){1, 0}, 2, 1);
    net_kit_free(k);
}

/* Alone a .6, b .3, c .1 of .97 × .95; pairs .18, .06 and .03 parts of .27 of .97 × .05: what of b
 * is there with a counts once. */
static void a_pair_counts_with_the_first_of_it_alone(void **state)
{
    (void)state;
    net_kit *k = net_kit_new();
    net_kit_cause(k, "c", 1);
    net_kit_cause(k, "a", 6);
    net_kit_cause(k, "b", 3);
    const belief *b = belief_new(k->keep, net_kit_build(k), 2);
    const double one = 0.97 * 0.95, two = 0.97 * 0.05 / 27, a = one * 0.6 + two * (18 + 6),
                 ab = a + one * 0.3 + two * 3;
    check_set(k, b, 0.5, (uint32_t[]){2}, 1, a);
    check_set(k, b, 0.8, (uint32_t[]){2, 3}, 2, ab);
    check_set(k, b, 0.95, (uint32_t[]){2, 3, 1}, 3, 0.97);
    check_set(k, b, 0.98, (uint32_t[]){2, 3, 1, 0}, 4, 1);
    net_kit_free(k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(equals_come_as_they_are_named),
        cmocka_unit_test(something_not_listed_comes_after_its_equal),
        cmocka_unit_test(a_pair_counts_with_the_first_of_it_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
