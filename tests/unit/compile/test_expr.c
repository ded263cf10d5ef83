#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "compile/expr.h"

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

static const expr *is(arena *keep, uint32_t finding, state_mask mask)
{
    return expr_is(keep, finding, mask, span_nowhere());
}

static void is_holds_in_the_states_of_its_mask(void **state)
{
    const expr *e = is(*state, 1, 1 << 0 | 1 << 2);
    assert_true(expr_holds(e, (uint32_t[]){9, 0}));
    assert_false(expr_holds(e, (uint32_t[]){9, 1}));
    assert_true(expr_holds(e, (uint32_t[]){9, 2}));
}

static void is_reaches_the_last_state(void **state)
{
    const expr *e = is(*state, 0, (state_mask)1 << (EXPR_STATES_MAX - 1));
    assert_true(expr_holds(e, (uint32_t[]){EXPR_STATES_MAX - 1}));
    assert_false(expr_holds(e, (uint32_t[]){EXPR_STATES_MAX - 2}));
}

/* Truth of a condition over three two-state findings, as bits: bit s is the case where finding i
 * has state (s >> i & 1). */
static uint32_t truth_table(const expr *e)
{
    uint32_t all = 0;
    for (uint32_t s = 0; s < 8; s++)
        if (expr_holds(e, (uint32_t[]){s & 1, s >> 1 & 1, s >> 2})) all |= 1U << s;
    return all;
}

static void joined_conditions_have_their_truth_tables(void **state)
{
    arena *keep = *state;
    const expr *yes[3] = {is(keep, 0, 2), is(keep, 1, 2), is(keep, 2, 2)};
    span at = span_nowhere();
    assert_int_equal(truth_table(yes[0]), 0xAA);
    assert_int_equal(truth_table(yes[1]), 0xCC);
    assert_int_equal(truth_table(yes[2]), 0xF0);
    assert_int_equal(truth_table(expr_many(keep, EXPR_ALL, yes, 3, at)), 0x80);
    assert_int_equal(truth_table(expr_many(keep, EXPR_ANY, yes, 3, at)), 0xFE);
    assert_int_equal(truth_table(expr_not(keep, yes[1], at)), 0x33);
    assert_int_equal(truth_table(expr_at_least(keep, 0, yes, 3, at)), 0xFF);
    assert_int_equal(truth_table(expr_at_least(keep, 1, yes, 3, at)), 0xFE);
    assert_int_equal(truth_table(expr_at_least(keep, 2, yes, 3, at)), 0xE8);
    assert_int_equal(truth_table(expr_at_least(keep, 3, yes, 3, at)), 0x80);
    assert_int_equal(truth_table(expr_at_least(keep, 4, yes, 3, at)), 0x00);
}

static void all_of_nothing_holds_and_any_of_nothing_does_not(void **state)
{
    assert_int_equal(truth_table(expr_many(*state, EXPR_ALL, NULL, 0, span_nowhere())), 0xFF);
    assert_int_equal(truth_table(expr_many(*state, EXPR_ANY, NULL, 0, span_nowhere())), 0x00);
}

static void known_holds_where_every_state_is_certain(void **state)
{
    assert_int_equal(truth_table(expr_known(*state, 2, span_nowhere())), 0xFF);
}

static void parts_are_copied(void **state)
{
    arena *keep = *state;
    const expr *parts[2] = {is(keep, 0, 2), is(keep, 1, 2)};
    const expr *both = expr_many(keep, EXPR_ALL, parts, 2, span_nowhere());
    parts[0] = parts[1] = NULL;
    assert_int_equal(truth_table(both), 0x88);
}

static void places_are_kept(void **state)
{
    arena *keep = *state;
    span at = {3, 10, 20};
    const expr *made[] = {expr_is(keep, 7, 1, at), expr_known(keep, 7, at), expr_atom(keep, 7, at)};
    static const expr_kind kinds[] = {EXPR_IS, EXPR_KNOWN, EXPR_ATOM};
    for (int i = 0; i < 3; i++) {
        assert_int_equal(made[i]->kind, kinds[i]);
        assert_int_equal(made[i]->subject, 7);
        assert_memory_equal(&made[i]->at, &at, sizeof at);
    }
    assert_memory_equal(&expr_not(keep, made[0], at)->at, &at, sizeof at);
}

typedef struct visits {
    uint32_t count, finding[8];
} visits;

static void note(void *context, uint32_t finding)
{
    visits *v = context;
    assert_true(v->count < 8);
    v->finding[v->count++] = finding;
}

static void findings_are_visited_in_order_with_repeats(void **state)
{
    arena *keep = *state;
    span at = span_nowhere();
    const expr *inner[2] = {is(keep, 4, 1), expr_known(keep, 1, at)};
    const expr *outer[4] = {is(keep, 2, 1),
                            expr_not(keep, expr_many(keep, EXPR_ANY, inner, 2, at), at),
                            is(keep, 4, 2), expr_atom(keep, 9, at)};
    visits v = {0};
    expr_each_finding(expr_many(keep, EXPR_ALL, outer, 4, at), note, &v);
    assert_int_equal(v.count, 4);
    assert_memory_equal(v.finding, ((uint32_t[]){2, 4, 1, 4}), 4 * sizeof *v.finding);
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(is_holds_in_the_states_of_its_mask),
        CASE(is_reaches_the_last_state),
        CASE(joined_conditions_have_their_truth_tables),
        CASE(all_of_nothing_holds_and_any_of_nothing_does_not),
        CASE(known_holds_where_every_state_is_certain),
        CASE(parts_are_copied),
        CASE(places_are_kept),
        CASE(findings_are_visited_in_order_with_repeats),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
