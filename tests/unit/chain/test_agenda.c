#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "chain/agenda.h"
#include "luck.h"
#include "rule_kit.h"

static void least_first(void **state)
{
    (void)state;
    arena *keep = arena_new(NULL, NULL);
    agenda a;
    agenda_make(&a, keep, 300 * 1000);
    assert_int_equal(agenda_next(&a, 0), AGENDA_NONE);
    const uint32_t numbers[] = {299999, 64, 0, 63, 4096, 262144, 64};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) agenda_add(&a, numbers[i]);
    const uint32_t order[] = {0, 63, 64, 4096, 262144, 299999};
    for (size_t i = 0; i < sizeof order / sizeof *order; i++) {
        assert_int_equal(agenda_next(&a, 0), order[i]);
        agenda_remove(&a, order[i]);
    }
    assert_int_equal(agenda_next(&a, 0), AGENDA_NONE);
    arena_free(keep);
}

static void an_empty_bound(void **state)
{
    (void)state;
    arena *keep = arena_new(NULL, NULL);
    agenda a;
    agenda_make(&a, keep, 0);
    assert_int_equal(agenda_next(&a, 0), AGENDA_NONE);
    arena_free(keep);
}

/* Against a row of flags, for bounds on both sides of where a level is added. */
static void against_flags(void **state)
{
    (void)state;
    static const uint32_t bounds[] = {1, 63, 64, 65, 4095, 4096, 4097};
    uint64_t seed = 88172645463325252u;
    for (size_t b = 0; b < sizeof bounds / sizeof *bounds; b++) {
        bool flags[4097] = {false};
        arena *keep = arena_new(NULL, NULL);
        agenda a, beyond;
        agenda_make(&a, keep, bounds[b]);
        agenda_make(&beyond, keep, bounds[b]); /* lies behind it: all of it, so that reading too far
                                                  is seen, and writing too */
        for (uint32_t n = 0; n < bounds[b]; n++) agenda_add(&beyond, n);
        for (int i = 0; i < 3000; i++) {
            uint32_t n = luck_below(&seed, bounds[b]), from = luck_below(&seed, bounds[b] + 1);
            flags[n] = luck_below(&seed, 2) == 0;
            if (flags[n])
                agenda_add(&a, n);
            else
                agenda_remove(&a, n);
            uint32_t wanted = from;
            while (wanted < bounds[b] && !flags[wanted]) wanted++;
            assert_int_equal(agenda_next(&a, from), wanted < bounds[b] ? wanted : AGENDA_NONE);
        }
        for (uint32_t n = 0; n < bounds[b]; n++) assert_int_equal(agenda_next(&beyond, n), n);
        arena_free(keep);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(least_first),
        cmocka_unit_test(an_empty_bound),
        cmocka_unit_test(against_flags),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
