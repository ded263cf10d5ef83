/* Dice: known numbers, even shares, and streams that have nothing to do with each other. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "rehearse/dice.h"

/* The first outputs of SplitMix64 from state 1234567, worked out in Python from the steps in
 * Steele, Lea, Flood, Fast splittable pseudorandom number generators, OOPSLA 2014. */
static void numbers_are_those_of_splitmix64(void **state)
{
    (void)state;
    static const uint64_t known[] = {UINT64_C(6457827717110365317), UINT64_C(3203168211198807973),
                                     UINT64_C(9817491932198370423), UINT64_C(4593380528125082431),
                                     UINT64_C(16408922859458223821)};
    dice d = {1234567};
    for (unsigned i = 0; i < 5; i++) assert_true(dice_next(&d) == known[i]);
}

static void shares_are_even(void **state)
{
    (void)state;
    enum { DRAWS = 100000, TENTHS = 10 };
    unsigned in[TENTHS] = {0};
    dice d = dice_for(1, 2, DICE_FACT, 3);
    for (unsigned i = 0; i < DRAWS; i++) {
        double share = dice_share(&d);
        assert_true(share >= 0 && share < 1);
        in[(int)(share * TENTHS)]++;
    }
    for (unsigned i = 0; i < TENTHS; i++)
        assert_true(fabs(in[i] - DRAWS / 10.0) < 4.5 * sqrt(DRAWS * .1 * .9));
}

static void picks_follow_the_weights(void **state)
{
    (void)state;
    enum { DRAWS = 100000 };
    static const double weights[] = {0, 3, 0, 1, 4, 0};
    unsigned in[6] = {0};
    dice d = dice_for(9, 9, DICE_CAUSE, 0);
    for (unsigned i = 0; i < DRAWS; i++) in[dice_pick(&d, weights, 6)]++;
    for (unsigned i = 0; i < 6; i++) {
        double p = weights[i] / 8;
        assert_true(fabs(in[i] - DRAWS * p) <= 4.5 * sqrt(DRAWS * p * (1 - p)));
    }
}

/* Each with dice of its own; one more moves only what it wins. */
static void races_follow_the_rates(void **state)
{
    (void)state;
    enum { DRAWS = 100000 };
    static const double rates[] = {3, 0, 1, 4};
    static const char *const names[] = {"seal", "fuse", "hose", "belt"};
    unsigned in[4] = {0};
    for (uint64_t i = 0; i < DRAWS; i++) {
        unsigned first[2] = {0, 0};
        double least[2] = {INFINITY, INFINITY};
        for (unsigned k = 0; k < 4; k++) {
            dice d = dice_for(7, i, DICE_CAUSE, dice_named(str_of(names[k]), 0));
            double wait = dice_wait(&d, rates[k]);
            for (unsigned all = 0; all < 2; all++)
                if (wait < least[all] && (all == 1 || k < 3)) {
                    least[all] = wait;
                    first[all] = k;
                }
        }
        assert_true(first[1] == 3 || first[1] == first[0]);
        in[first[1]]++;
    }
    for (unsigned k = 0; k < 4; k++) {
        double p = rates[k] / 8;
        assert_true(fabs(in[k] - DRAWS * p) <= 4.5 * sqrt(DRAWS * p * (1 - p)));
    }
}

static void names_and_times_are_told_apart(void **state)
{
    (void)state;
    assert_true(dice_named(STR("a"), 0) != dice_named(STR("b"), 0));
    assert_true(dice_named(STR("a"), 0) != dice_named(STR("a"), 1));
    assert_true(dice_named_both(STR("a"), STR("b")) != dice_named_both(STR("b"), STR("a")));
    assert_true(dice_named_both(STR("ab"), STR("c")) != dice_named_both(STR("a"), STR("bc")));
}

static void what_is_certain_always_comes(void **state)
{
    (void)state;
    static const double weights[] = {0, 0, 1e-300, 0};
    dice d = dice_for(0, 0, DICE_FACT, 0);
    for (unsigned i = 0; i < 1000; i++) {
        assert_int_equal(dice_pick(&d, weights, 4), 2);
        assert_true(dice_below(&d, 3) < 3);
        assert_false(dice_falls(&d, 0));
        assert_true(dice_falls(&d, 1));
    }
}

/* Neighbours in any part of the name: first shares of 10000 streams are even, and none is linked to
 * the next. */
static void neighbours_share_nothing(void **state)
{
    (void)state;
    enum { STREAMS = 10000 };
    for (int part = 0; part < 4; part++) {
        double sum = 0, products = 0, last = 0.5;
        for (uint64_t i = 0; i < STREAMS; i++) {
            dice d = dice_for(part == 0 ? i : 1, part == 1 ? i : 1,
                              part == 2 ? (dice_use)i : DICE_SLIP, part == 3 ? i : 1);
            double share = dice_share(&d);
            sum += share;
            products += (share - 0.5) * (last - 0.5);
            last = share;
        }
        assert_true(fabs(sum - STREAMS * 0.5) < 4.5 * sqrt(STREAMS / 12.0));
        assert_true(fabs(products) < 4.5 * sqrt((double)STREAMS) / 12);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_those_of_splitmix64),
        cmocka_unit_test(shares_are_even),
        cmocka_unit_test(picks_follow_the_weights),
        cmocka_unit_test(races_follow_the_rates),
        cmocka_unit_test(names_and_times_are_told_apart),
        cmocka_unit_test(what_is_certain_always_comes),
        cmocka_unit_test(neighbours_share_nothing),
    };
    return cmocka_run_group_tests_name("dice", tests, NULL, NULL);
}
