#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include "rule_kit.h"

enum { F = TRUTH_FALSE, T = TRUTH_TRUE, U = TRUTH_UNKNOWN };

/* Yes/no findings: yes is state 0, no is state 1. */
static void tell(working_memory *m, uint32_t finding, int v)
{
    wm_set(m, finding, v == T ? 1 : v == F ? 2 : 3, v != U);
}

static working_memory *memory_of(rule_kit *k)
{
    const logic *l = kit_build(k);
    assert_non_null(l);
    return wm_new(k->keep, l);
}

/* Kleene's strong tables, as printed in his Introduction to Metamathematics (1952), section 64. */
static void kleenes_tables(void **state)
{
    (void)state;
    static const int values[3] = {T, F, U};
    static const int all[3][3] = {{T, F, U}, {F, F, F}, {U, F, U}};
    static const int any[3][3] = {{T, T, T}, {T, F, U}, {T, U, U}};
    static const int not [3] = {F, T, U};
    rule_kit k = kit_new(8);
    uint32_t p = kit_finding(&k, "p", 2), q = kit_finding(&k, "q", 2);
    uint32_t both = kit_atom(&k, "both"), either = kit_atom(&k, "either"),
             neither = kit_atom(&k, "not p");
    kit_body(&k, both, kit_all(&k, kit_is(&k, p, 1), kit_is(&k, q, 1), NULL));
    kit_body(&k, either, kit_any(&k, kit_is(&k, p, 1), kit_is(&k, q, 1), NULL));
    kit_body(&k, neither, kit_not(&k, kit_is(&k, p, 1)));
    working_memory *m = memory_of(&k);
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++) {
            tell(m, p, values[i]);
            tell(m, q, values[j]);
            assert_int_equal(wm_truth(m, both), all[i][j]);
            assert_int_equal(wm_truth(m, either), any[i][j]);
            assert_int_equal(wm_truth(m, neither), not [i]);
        }
    kit_free(&k);
}

/* At least n of three, for every n and all 27 readings: true by the true ones, false by the false
 * ones. */
static void at_least(void **state)
{
    (void)state;
    rule_kit k = kit_new(16);
    uint32_t f[3], counted[5], denied[5];
    for (int i = 0; i < 3; i++) f[i] = kit_finding(&k, "f", 2);
    for (uint32_t n = 0; n < 5; n++) {
        const expr *e = kit_at_least(&k, n, kit_is(&k, f[0], 1), kit_is(&k, f[1], 1),
                                     kit_is(&k, f[2], 1), NULL);
        kit_body(&k, counted[n] = kit_atom(&k, "counted"), e);
        kit_body(&k, denied[n] = kit_atom(&k, "denied"), kit_not(&k, e));
    }
    working_memory *m = memory_of(&k);
    for (int row = 0; row < 27; row++) {
        const int v[3] = {row % 3, row / 3 % 3, row / 9};
        uint32_t holding = 0, failing = 0;
        for (uint32_t i = 0; i < 3; i++) {
            tell(m, f[i], v[i]);
            holding += v[i] == T;
            failing += v[i] == F;
        }
        for (uint32_t n = 0; n < 5; n++) {
            int wanted = holding >= n ? T : 3 - failing < n ? F : U;
            assert_int_equal(wm_truth(m, counted[n]), wanted);
            assert_int_equal(wm_truth(m, denied[n]), wanted == U ? U : wanted == T ? F : T);
        }
    }
    kit_free(&k);
}

static void nothing_and_everything(void **state)
{
    (void)state;
    rule_kit k = kit_new(8);
    uint32_t f = kit_finding(&k, "f", 3);
    uint32_t always = kit_atom(&k, "all of nothing"), never = kit_atom(&k, "any of nothing"),
             bodiless = kit_atom(&k, "set by no rule");
    uint32_t whole = kit_atom(&k, "any state"), none = kit_atom(&k, "no state");
    kit_body(&k, always, kit_all(&k, NULL));
    kit_body(&k, never, kit_any(&k, NULL));
    kit_body(&k, whole, kit_is(&k, f, 7));
    kit_body(&k, none, kit_is(&k, f, 0));
    working_memory *m = memory_of(&k);
    assert_int_equal(wm_truth(m, always), T);
    assert_int_equal(wm_truth(m, never), F);
    assert_int_equal(wm_truth(m, bodiless), F);
    assert_int_equal(wm_truth(m, whole), T);
    assert_int_equal(wm_truth(m, none), F);
    justification why = wm_why(m, k.keep, always);
    assert_int_equal(why.body, 0);
    assert_int_equal(why.finding_count + why.atom_count, 0);
    kit_free(&k);
}

static void states_that_are_left(void **state)
{
    (void)state;
    rule_kit k = kit_new(8);
    uint32_t f = kit_finding(&k, "f", 64), low = kit_atom(&k, "low"), known = kit_atom(&k, "known"),
             open = kit_atom(&k, "open");
    kit_body(&k, low, kit_is(&k, f, 0xFF));
    kit_body(&k, known, kit_known(&k, f));
    kit_body(&k, open, kit_not(&k, kit_known(&k, f)));
    working_memory *m = memory_of(&k);
    assert_int_equal(wm_truth(m, low), U);
    assert_int_equal(wm_truth(m, known), F);
    assert_int_equal(wm_truth(m, open), T);
    wm_set(m, f, 0x0F, false);
    assert_int_equal(wm_truth(m, low), T);
    assert_int_equal(wm_truth(m, known), F);
    wm_set(m, f, (state_mask)1 << 63, true);
    assert_int_equal(wm_truth(m, low), F);
    assert_int_equal(wm_truth(m, known), T);
    assert_int_equal(wm_truth(m, open), F);
    wm_set(m, f, ~(state_mask)0, false);
    assert_int_equal(wm_truth(m, low), U);
    assert_int_equal(wm_truth(m, open), T);
    kit_free(&k);
}

/* Facts: pump_on. air_ok :- not air_fault. valve_open :- pump_on, air_ok. low_pressure :- pump_on,
 * not valve_open. alarm :- low_pressure. The one stable model has pump_on, air_ok and valve_open.
 */
static void a_small_program(void **state)
{
    (void)state;
    rule_kit k = kit_new(16);
    uint32_t failed = kit_atom(&k, "air_fault"), alarm = kit_atom(&k, "alarm"),
             low = kit_atom(&k, "low_pressure");
    uint32_t open = kit_atom(&k, "valve_open"), ok = kit_atom(&k, "air_ok"),
             on = kit_atom(&k, "pump_on");
    kit_body(&k, on, kit_all(&k, NULL));
    kit_body(&k, ok, kit_not(&k, kit_needs(&k, failed)));
    kit_body(&k, open, kit_all(&k, kit_needs(&k, on), kit_needs(&k, ok), NULL));
    kit_body(&k, low, kit_all(&k, kit_needs(&k, on), kit_not(&k, kit_needs(&k, open)), NULL));
    kit_body(&k, alarm, kit_needs(&k, low));
    working_memory *m = memory_of(&k);
    assert_int_equal(wm_truth(m, on), T);
    assert_int_equal(wm_truth(m, ok), T);
    assert_int_equal(wm_truth(m, open), T);
    assert_int_equal(wm_truth(m, failed), F);
    assert_int_equal(wm_truth(m, low), F);
    assert_int_equal(wm_truth(m, alarm), F);
    kit_free(&k);
}

/* ---- loops ---- */

typedef struct ring {
    rule_kit k;
    uint32_t start, other, a, b, c;
} ring;

/* a, b and c each follow from the one before; a also from `start`, c also from `other`. */
static ring new_ring(void)
{
    ring r = {.k = kit_new(16)};
    r.start = kit_finding(&r.k, "start", 2);
    r.other = kit_finding(&r.k, "other", 2);
    r.a = kit_atom(&r.k, "a");
    r.b = kit_atom(&r.k, "b");
    r.c = kit_atom(&r.k, "c");
    kit_body(&r.k, r.a, kit_needs(&r.k, r.c));
    kit_body(&r.k, r.a, kit_is(&r.k, r.start, 1));
    kit_body(&r.k, r.b, kit_needs(&r.k, r.a));
    kit_body(&r.k, r.c, kit_needs(&r.k, r.b));
    kit_body(&r.k, r.c, kit_is(&r.k, r.other, 1));
    return r;
}

static void assert_ring(const ring *r, const working_memory *m, int a, int b, int c)
{
    assert_int_equal(wm_truth(m, r->a), a);
    assert_int_equal(wm_truth(m, r->b), b);
    assert_int_equal(wm_truth(m, r->c), c);
}

static void a_loop_needs_support(void **state)
{
    (void)state;
    ring r = new_ring();
    working_memory *m = memory_of(&r.k);
    assert_ring(&r, m, U, U, U);
    tell(m, r.start, F);
    assert_ring(&r, m, U, U, U);
    tell(m, r.other, F);
    assert_ring(&r, m, F, F, F);
    tell(m, r.start, T);
    assert_ring(&r, m, T, T, T);
    tell(m, r.other, T);
    tell(m, r.start, F);
    assert_ring(&r, m, T, T, T);
    tell(m, r.other, F);
    assert_ring(&r, m, F, F, F);
    tell(m, r.other, U);
    assert_ring(&r, m, U, U, U);
    kit_free(&r.k);
}

/* The lowest-numbered body of a leans on a itself, so the next one carries it. */
static void no_reason_leans_on_itself(void **state)
{
    (void)state;
    ring r = new_ring();
    working_memory *m = memory_of(&r.k);
    tell(m, r.other, F);
    tell(m, r.start, T);
    justification why = wm_why(m, r.k.keep, r.a);
    assert_int_equal(why.body, 1);
    assert_int_equal(why.finding_count, 1);
    assert_int_equal(why.findings[0], r.start);
    assert_int_equal(why.atom_count, 0);
    why = wm_why(m, r.k.keep, r.c);
    assert_int_equal(why.atom_count, 2);
    assert_int_equal(why.atoms[0], r.b);
    assert_int_equal(why.atoms[1], r.a);
    kit_free(&r.k);
}

/* False because nothing outside supports it: both ways in are named. */
static void why_a_loop_is_false(void **state)
{
    (void)state;
    ring r = new_ring();
    working_memory *m = memory_of(&r.k);
    tell(m, r.other, F);
    tell(m, r.start, F);
    justification why = wm_why(m, r.k.keep, r.b);
    assert_int_equal(why.body, UINT32_MAX);
    assert_int_equal(why.finding_count, 2);
    assert_int_equal(why.atom_count, 2);
    tell(m, r.other, U);
    why = wm_why(m, r.k.keep, r.b);
    assert_int_equal(why.finding_count, 1);
    assert_int_equal(why.findings[0], r.other);
    kit_free(&r.k);
}

static void only_itself(void **state)
{
    (void)state;
    rule_kit k = kit_new(8);
    uint32_t a = kit_atom(&k, "a"), b = kit_atom(&k, "b");
    kit_body(&k, a, kit_needs(&k, a));
    kit_body(&k, b, kit_not(&k, kit_needs(&k, a)));
    working_memory *m = memory_of(&k);
    assert_int_equal(wm_truth(m, a), F);
    assert_int_equal(wm_truth(m, b), T);
    kit_free(&k);
}

/* Two of three in a loop that counts: one outside reason lifts none, two lift all. */
static void counting_loops(void **state)
{
    (void)state;
    rule_kit k = kit_new(16);
    uint32_t f[2] = {kit_finding(&k, "f", 2), kit_finding(&k, "g", 2)}, a[3];
    for (int i = 0; i < 3; i++) a[i] = kit_atom(&k, "a");
    for (int i = 0; i < 3; i++)
        kit_body(&k, a[i],
                 kit_at_least(&k, 2, kit_is(&k, f[0], 1), kit_is(&k, f[1], 1),
                              kit_needs(&k, a[(i + 1) % 3]), NULL));
    working_memory *m = memory_of(&k);
    tell(m, f[0], T);
    for (int i = 0; i < 3; i++) assert_int_equal(wm_truth(m, a[i]), U);
    tell(m, f[1], F);
    for (int i = 0; i < 3; i++) assert_int_equal(wm_truth(m, a[i]), F);
    tell(m, f[1], T);
    for (int i = 0; i < 3; i++) assert_int_equal(wm_truth(m, a[i]), T);
    tell(m, f[0], F);
    for (int i = 0; i < 3; i++) assert_int_equal(wm_truth(m, a[i]), F);
    kit_free(&k);
}

/* ---- changes and reasons ---- */

static void changes_are_listed_once(void **state)
{
    (void)state;
    ring r = new_ring();
    working_memory *m = memory_of(&r.k);
    uint32_t count;
    (void)wm_changes(m, &count);
    assert_int_equal(count, 0);
    tell(m, r.start, T);
    const uint32_t *list = wm_changes(m, &count);
    assert_int_equal(count, 3);
    for (uint32_t i = 0; i < 3; i++) assert_int_equal(list[i], i);
    tell(m, r.start, U);
    (void)wm_changes(m, &count);
    assert_int_equal(count, 0);
    tell(m, r.start, T);
    wm_changes_seen(m);
    (void)wm_changes(m, &count);
    assert_int_equal(count, 0);
    tell(m, r.start, U);
    (void)wm_changes(m, &count);
    assert_int_equal(count, 3);
    kit_free(&r.k);
}

static void the_lowest_body_carries(void **state)
{
    (void)state;
    rule_kit k = kit_new(16);
    uint32_t f = kit_finding(&k, "f", 2), g = kit_finding(&k, "g", 2), a = kit_atom(&k, "a");
    uint32_t first = kit_body(&k, a, kit_is(&k, f, 1)), second = kit_body(&k, a, kit_is(&k, g, 1));
    working_memory *m = memory_of(&k);
    tell(m, g, T);
    assert_int_equal(wm_why(m, k.keep, a).body, second);
    tell(m, f, T);
    justification why = wm_why(m, k.keep, a);
    assert_int_equal(why.body, first);
    assert_int_equal(why.finding_count, 1);
    assert_int_equal(why.findings[0], f);
    kit_free(&k);
}

static void what_it_waits_for(void **state)
{
    (void)state;
    rule_kit k = kit_new(16);
    uint32_t f = kit_finding(&k, "f", 2), g = kit_finding(&k, "g", 2), h = kit_finding(&k, "h", 2);
    uint32_t a = kit_atom(&k, "a"), b = kit_atom(&k, "b");
    kit_body(&k, a, kit_all(&k, kit_is(&k, f, 1), kit_needs(&k, b), NULL));
    kit_body(&k, b, kit_any(&k, kit_is(&k, g, 1), kit_is(&k, h, 1), NULL));
    working_memory *m = memory_of(&k);
    tell(m, f, T);
    tell(m, g, F);
    justification why = wm_why(m, k.keep, a);
    assert_int_equal(why.finding_count, 1);
    assert_int_equal(why.findings[0], h);
    assert_int_equal(why.atom_count, 1);
    assert_int_equal(why.atoms[0], b);
    kit_free(&k);
}

/* ---- size ---- */

enum { MANY = 100 * 1000 };

/* Each rule from the one before, written in an order that is of no help. */
static void a_long_chain(void **state)
{
    (void)state;
    rule_kit k = kit_new(MANY);
    uint32_t f = kit_finding(&k, "f", 2);
    for (uint32_t i = 0; i < MANY; i++) kit_atom(&k, "a");
    for (uint32_t i = 0; i < MANY; i++)
        kit_body(&k, i, i == MANY - 1 ? kit_is(&k, f, 1) : kit_needs(&k, i + 1));
    working_memory *m = memory_of(&k);
    assert_int_equal(wm_truth(m, 0), U);
    tell(m, f, T);
    assert_int_equal(wm_truth(m, 0), T);
    justification why = wm_why(m, k.keep, 0);
    assert_int_equal(why.atom_count, MANY - 1);
    assert_int_equal(why.finding_count, 1);
    tell(m, f, F);
    assert_int_equal(wm_truth(m, 0), F);
    kit_free(&k);
}

static void a_long_ring(void **state)
{
    (void)state;
    rule_kit k = kit_new(MANY + 1);
    uint32_t f = kit_finding(&k, "f", 2);
    for (uint32_t i = 0; i < MANY; i++) kit_atom(&k, "a");
    for (uint32_t i = 0; i < MANY; i++) kit_body(&k, i, kit_needs(&k, (i + 1) % MANY));
    kit_body(&k, MANY / 2, kit_is(&k, f, 1));
    working_memory *m = memory_of(&k);
    tell(m, f, T);
    assert_int_equal(wm_truth(m, 0), T);
    assert_int_equal(wm_truth(m, MANY - 1), T);
    tell(m, f, F);
    assert_int_equal(wm_truth(m, 0), F);
    assert_int_equal(wm_truth(m, MANY - 1), F);
    kit_free(&k);
}

enum { RULES = 10 * 1000, PER_FINDING = 4 };

/* Ten thousand rules, each finding in four of them, conclusions chained two deep. */
static rule_kit many_rules(void)
{
    rule_kit k = kit_new(2 * RULES);
    for (uint32_t i = 0; i < RULES / PER_FINDING; i++) kit_finding(&k, "f", 2);
    for (uint32_t i = 0; i < RULES; i++) kit_atom(&k, "a");
    for (uint32_t i = 0; i < RULES; i++) {
        const expr *own = kit_is(&k, i / PER_FINDING, 1);
        kit_body(&k, i,
                 i % PER_FINDING == 0 ? own
                                      : kit_all(&k, own, kit_needs(&k, i - i % PER_FINDING), NULL));
    }
    return k;
}

/* One answer among ten thousand rules: the gates it feeds and their followers, not the rest. */
static void work_follows_change(void **state)
{
    (void)state;
    rule_kit k = many_rules();
    working_memory *m = memory_of(&k);
    uint64_t most = 0, start = wm_work(m);
    assert_true(start >= RULES);
    for (uint32_t f = 0; f < RULES / PER_FINDING; f++) {
        uint64_t before = wm_work(m);
        tell(m, f, f % 2 == 0 ? T : F);
        if (wm_work(m) - before > most) most = wm_work(m) - before;
        assert_int_equal(wm_truth(m, f * PER_FINDING + 3), f % 2 == 0 ? T : F);
    }
    assert_true(most > 0 && most <= 5 * PER_FINDING);
    uint64_t before = wm_work(m);
    tell(m, 0, T);
    assert_true(wm_work(m) == before); /* nothing new was said */
    kit_free(&k);
}

/* One large loop in which a change moves two atoms: the others are left alone. */
static void work_in_a_loop_follows_change(void **state)
{
    (void)state;
    enum { MEMBERS = 5000 };
    rule_kit k = kit_new(4 * MEMBERS);
    uint32_t hub = kit_atom(&k, "hub"), start = kit_finding(&k, "start", 2);
    kit_body(&k, hub, kit_is(&k, start, 1));
    for (uint32_t i = 0; i < MEMBERS; i++) {
        uint32_t f = kit_finding(&k, "f", 2), a = kit_atom(&k, "a");
        kit_body(&k, a, kit_all(&k, kit_needs(&k, hub), kit_is(&k, f, 1), NULL));
        kit_body(&k, hub, kit_all(&k, kit_needs(&k, a), kit_is(&k, f, 1), NULL));
    }
    working_memory *m = memory_of(&k);
    tell(m, start, T);
    for (uint32_t i = 0; i < 100; i++) {
        uint64_t before = wm_work(m);
        tell(m, 1 + i, T);
        assert_int_equal(wm_truth(m, 1 + i), T);
        tell(m, 1 + i, F);
        assert_int_equal(wm_truth(m, 1 + i), F);
        assert_int_equal(wm_truth(m, hub), T);
        assert_true(wm_work(m) - before <= 100);
    }
    kit_free(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kleenes_tables),
        cmocka_unit_test(at_least),
        cmocka_unit_test(nothing_and_everything),
        cmocka_unit_test(states_that_are_left),
        cmocka_unit_test(a_small_program),
        cmocka_unit_test(a_loop_needs_support),
        cmocka_unit_test(no_reason_leans_on_itself),
        cmocka_unit_test(why_a_loop_is_false),
        cmocka_unit_test(only_itself),
        cmocka_unit_test(counting_loops),
        cmocka_unit_test(changes_are_listed_once),
        cmocka_unit_test(the_lowest_body_carries),
        cmocka_unit_test(what_it_waits_for),
        cmocka_unit_test(a_long_chain),
        cmocka_unit_test(a_long_ring),
        cmocka_unit_test(work_follows_change),
        cmocka_unit_test(work_in_a_loop_follows_change),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
