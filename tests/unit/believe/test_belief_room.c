/* Pairs of causes are many: there is room for them once they are weighed, and no more than what a
 * pair's chance, its likelihood and its being barred take. What a fix came to has room once one was
 * tried. */
#include "testing.h"

#include "believe/belief.h"
#include "net_kit.h"

enum {
    CAUSES = NET_KIT_ROOM,
    PAIRS = CAUSES * (CAUSES - 1) / 2,
    A_PAIR = 2 * sizeof(double) + 1,
    SMALL = 512,   /* bytes that do not grow with causes */
    A_CAUSE = 256, /* bytes */
};

static const net *many_causes(net_kit *k)
{
    const uint32_t f = net_kit_finding(k, "f", 2),
                   s = net_kit_symptom(k, "s", net_kit_is(k, f, 1), 0.1);
    for (uint32_t c = 0; c < CAUSES; c++) net_kit_cause(k, "c", 1);
    net_kit_list(k, s, 0, 0.8);
    return net_kit_build(k);
}

static void pairs_take_room_once_they_are_weighed(void **state)
{
    (void)state;
    static const net_rate cure = {0, 0.9};
    net_kit *k = net_kit_new();
    const net *n = many_causes(k);
    arena *a = arena_new(NULL, NULL);
    const double *weights[] = {NULL};
    belief *b = belief_room(a, n, 2);
    belief_see_net(b, n);
    belief_forget(b);
    assert_in_range(arena_size(a), 1, SMALL);
    belief_weigh(b, &(evidence){.weights = weights}, NULL);
    assert_int_equal(belief_count(b), 1 + CAUSES + PAIRS);
    const size_t weighed = arena_size(a);
    assert_in_range(weighed, PAIRS * A_PAIR, PAIRS * A_PAIR + CAUSES * A_CAUSE + SMALL);
    belief_weigh(b, &(evidence){.weights = weights}, NULL);
    assert_int_equal(arena_size(a), weighed);
    for (int i = 0; i < 3; i++) {
        belief_outcome(b, &cure, 1, OUTCOME_SAME, &outcome_rates_default, NULL);
        assert_in_range(arena_size(a) - weighed, PAIRS * sizeof(double),
                        PAIRS * sizeof(double) + CAUSES * A_CAUSE);
        belief_forget(b);
        belief_weigh(b, &(evidence){.weights = weights}, NULL);
    }
    arena_free(a);
    net_kit_free(k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(pairs_take_room_once_they_are_weighed)};
    return cmocka_run_group_tests_name("belief room", tests, NULL, NULL);
}
