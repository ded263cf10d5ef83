/* How findings fall into components, and what their tables are where that can be worked out by
 * hand. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "net_kit.h"

static int set_up(void **state)
{
    *state = net_kit_new();
    return 0;
}

static int tear_down(void **state)
{
    net_kit_free(*state);
    return 0;
}

static void check(const double *got, const double *wanted, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++)
        if (!(fabs(got[i] - wanted[i]) <= 1e-14))
            fail_msg("[%u] %.17g, wanted %.17g", i, got[i], wanted[i]);
}

static const expr *both(net_kit *k, const expr *a, const expr *b)
{
    return expr_many(k->keep, EXPR_ALL, (const expr *const[]){a, b}, 2, span_nowhere());
}

static void add_findings(net_kit *k, uint32_t count, uint32_t states)
{
    static const char *const names[] = {"a", "b", "c", "d", "e", "f", "g",
                                        "h", "i", "j", "k", "l", "m"};
    for (uint32_t i = 0; i < count; i++) net_kit_finding(k, names[i], states);
}

static void findings_of_one_condition_are_one_component(void **state)
{
    net_kit *k = *state;
    add_findings(k, 6, 2);
    uint32_t cause = net_kit_cause(k, "x", 1);
    net_kit_list(k, net_kit_symptom(k, "s", both(k, net_kit_is(k, 4, 1), net_kit_is(k, 1, 0)), 0.1),
                 cause, 0.5);
    net_kit_list(k, net_kit_symptom(k, "t", net_kit_is(k, 2, 1), 0.1), cause, 0.5);
    net_kit_list(k, net_kit_symptom(k, "u", both(k, net_kit_is(k, 0, 0), net_kit_is(k, 4, 1)), 0.1),
                 cause, 0.5);
    const net *n = net_kit_build(k);
    assert_int_equal(n->component_count, 2);
    const component *g = &n->components[0], *h = &n->components[1];
    assert_int_equal(g->finding_count, 3);
    assert_memory_equal(g->findings, ((uint32_t[]){0, 1, 4}), 12);
    assert_memory_equal(g->stride, ((uint32_t[]){4, 2, 1}), 12);
    assert_memory_equal(g->symptoms, ((uint32_t[]){0, 2}), 8);
    assert_int_equal(g->cell_count, 8);
    assert_int_equal(h->finding_count, 1);
    assert_int_equal(h->findings[0], 2);
    assert_memory_equal(n->component_of, ((uint32_t[]){0, 0, 1, NO_COMPONENT, 0, NO_COMPONENT}),
                        24);
    assert_int_equal(n->slot_of[4], 2);
    assert_int_equal(n->slot_of[1], 1);
    assert_int_equal(n->slot_of[2], 0);
}

static void atoms_are_numbered_as_they_appear(void **state)
{
    net_kit *k = *state;
    add_findings(k, 2, 3);
    uint32_t cause = net_kit_cause(k, "x", 1);
    net_kit_list(k, net_kit_symptom(k, "s", both(k, net_kit_is(k, 0, 1), net_kit_is(k, 1, 2)), 0.1),
                 cause, 0.5);
    const component *g = &net_kit_build(k)->components[0];
    assert_int_equal(g->atom_count, 2);
    assert_memory_equal(g->cell_atom, ((uint32_t[]){0, 0, 0, 0, 0, 1, 0, 0, 0}), 36);
    const double eighth = 1.0 / 8;
    check(g->within, (double[]){eighth, eighth, eighth, eighth, eighth, 1, eighth, eighth, eighth},
          9);
}

static void the_usual_state_has_nine_tenths_of_the_reference(void **state)
{
    net_kit *k = *state;
    add_findings(k, 1, 4);
    k->findings[0].usual = 3;
    uint32_t cause = net_kit_cause(k, "x", 1);
    net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, 0, 0), 0.1), cause, 0.5);
    const component *g = &net_kit_build(k)->components[0];
    const double left = 0.9 + 0.2 / 3;
    check(g->base, (double[]){0.1, 0.9}, 2);
    check(g->within, (double[]){1, 0.1 / 3 / left, 0.1 / 3 / left, 0.9 / left}, 4);
    assert_int_equal(g->usual_atom, 1);
}

static void a_cause_listed_nowhere_shares_the_base(void **state)
{
    net_kit *k = *state;
    add_findings(k, 1, 2);
    uint32_t listed = net_kit_cause(k, "x", 1), unlisted = net_kit_cause(k, "y", 3);
    net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, 0, 1), 0.1), listed, 0.5);
    const net *n = net_kit_build(k);
    const component *g = &n->components[0];
    assert_ptr_equal(component_row(g, unlisted), g->base);
    assert_ptr_equal(component_row(g, listed), g->table);
    check(component_row(g, listed), (double[]){0.5, 0.5}, 2);
    check(n->share, (double[]){0.25, 0.75}, 2);
    check(g->other,
          (double[]){0.5 * 0.9 + 0.5 * (0.25 * 0.5 + 0.75 * 0.9),
                     0.5 * 0.1 + 0.5 * (0.25 * 0.5 + 0.75 * 0.1)},
          2);
}

static void chances_are_clipped(void **state)
{
    net_kit *k = *state;
    add_findings(k, 1, 2);
    uint32_t cause = net_kit_cause(k, "x", 1);
    net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, 0, 1), 0), cause, 1);
    const net *n = net_kit_build(k);
    assert_true(n->in.symptoms[0].otherwise == 1e-6);
    assert_true(n->in.symptoms[0].listed[0].chance == 1 - 1e-6);
    assert_true(k->symptoms[0].otherwise == 0); /* the author's own number stays */
    check(n->components[0].base, (double[]){1 - 1e-6, 1e-6}, 2);
    check(n->components[0].table, (double[]){0.001, 0.999}, 2);
}

static void one_state_is_no_trouble(void **state)
{
    net_kit *k = *state;
    add_findings(k, 2, 1);
    k->findings[0].usual = 0;
    uint32_t cause = net_kit_cause(k, "x", 1);
    net_kit_list(k, net_kit_symptom(k, "s", net_kit_is(k, 0, 0), 0.9), cause, 0.95);
    net_kit_list(
        k, net_kit_symptom(k, "t", expr_not(k->keep, net_kit_is(k, 1, 0), span_nowhere()), 0.01),
        cause, 0.02);
    const net *n = net_kit_build(k);
    for (uint32_t i = 0; i < 2; i++) {
        assert_int_equal(n->components[i].atom_count, 1);
        check(n->components[i].base, (double[]){1}, 1);
        check(n->components[i].table, (double[]){1}, 1);
    }
}

/* A fact that stands in a symptom beside a question joins nothing: the table depends on it. Where
 * the fact is as the symptom has it the numbers are the author's, elsewhere the table says nothing.
 */
static void a_fact_within_a_symptom_decides_between_tables(void **state)
{
    net_kit *k = *state;
    add_findings(k, 4, 2);
    k->findings[1].fact = k->findings[2].fact = true;
    k->findings[1].right = k->findings[2].right = 1;
    uint32_t cause = net_kit_cause(k, "x", 1);
    net_kit_cause(k, "y", 1);
    net_kit_list(k,
                 net_kit_symptom(k, "s", both(k, net_kit_is(k, 0, 1), net_kit_is(k, 1, 1)), 0.05),
                 cause, 0.7);
    net_kit_list(k,
                 net_kit_symptom(k, "t", both(k, net_kit_is(k, 3, 1), net_kit_is(k, 1, 1)), 0.05),
                 cause, 0.7);
    const net *n = net_kit_build(k);
    assert_memory_equal(n->component_of, ((uint32_t[]){0, NO_COMPONENT, NO_COMPONENT, 1}), 16);
    const component *g = &n->components[0];
    assert_int_equal(g->cell_count, 2);
    assert_int_equal(g->slice_count, 2);
    const double even[] = {0, 1, 0, 1, 0, 1}, no[] = {1, 0, 1, 0, 1, 0};
    const component so = component_mixed(k->keep, g, even),
                    else_so = component_mixed(k->keep, g, no);
    check(so.table, (double[]){0.3, 0.7}, 2);
    check(so.base, (double[]){0.95, 0.05}, 2);
    check(else_so.table, (double[]){0.5, 0.5}, 2);
    check(else_so.base, (double[]){0.5, 0.5}, 2);
    check(g->table, (double[]){0.4, 0.6}, 2); /* until more is known, both are as likely */
}

static void a_condition_over_nothing_makes_no_component(void **state)
{
    net_kit *k = *state;
    add_findings(k, 1, 2);
    uint32_t cause = net_kit_cause(k, "x", 1);
    net_kit_list(
        k, net_kit_symptom(k, "s", expr_many(k->keep, EXPR_ALL, NULL, 0, span_nowhere()), 0.05),
        cause, 0.7);
    const net *n = net_kit_build(k);
    assert_int_equal(n->component_count, 0);
    assert_int_equal(n->component_of[0], NO_COMPONENT);
}

static void the_largest_component_allowed_is_built(void **state)
{
    net_kit *k = *state;
    add_findings(k, 12, 2);
    uint32_t cause = net_kit_cause(k, "x", 1);
    for (uint32_t f = 0; f < 16; f++) {
        const expr *when = f < 11 ? both(k, net_kit_is(k, f, 1), net_kit_is(k, f + 1, 1))
                                  : net_kit_is(k, f - 11, 1);
        net_kit_list(k, net_kit_symptom(k, "s", when, 0.05), cause, 0.3);
    }
    const net *n = net_kit_build(k);
    assert_non_null(n);
    assert_int_equal(n->components[0].cell_count, NET_CELLS_MAX);
    assert_int_equal(n->components[0].symptom_count, NET_SYMPTOMS_MAX);
    assert_int_equal(faults_errors(k->list), 0);
}

static void every_row_is_positive_and_sums_to_one(void **state)
{
    net_kit *k = *state;
    add_findings(k, 3, 4);
    uint32_t x = net_kit_cause(k, "x", 1), y = net_kit_cause(k, "y", 2);
    uint32_t s = net_kit_symptom(k, "s", both(k, net_kit_is(k, 0, 1), net_kit_is(k, 1, 2)), 0);
    uint32_t t = net_kit_symptom(k, "t", both(k, net_kit_is(k, 1, 3), net_kit_is(k, 2, 0)), 1);
    uint32_t u = net_kit_symptom(k, "u", net_kit_is(k, 0, 1), 0.9);
    net_kit_list(k, s, x, 1);
    net_kit_list(k, t, x, 1);
    net_kit_list(k, u, y, 0);
    const component *g = &net_kit_build(k)->components[0];
    const double *rows[] = {g->base, g->other, component_row(g, x), component_row(g, y)};
    for (int i = 0; i < 4; i++) {
        double sum = 0;
        for (uint32_t a = 0; a < g->atom_count; a++) {
            assert_true(rows[i][a] >= 0.99e-6);
            sum += rows[i][a];
        }
        assert_true(fabs(sum - 1) < 1e-14);
    }
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(findings_of_one_condition_are_one_component),
        CASE(atoms_are_numbered_as_they_appear),
        CASE(the_usual_state_has_nine_tenths_of_the_reference),
        CASE(a_cause_listed_nowhere_shares_the_base),
        CASE(chances_are_clipped),
        CASE(one_state_is_no_trouble),
        CASE(a_fact_within_a_symptom_decides_between_tables),
        CASE(a_condition_over_nothing_makes_no_component),
        CASE(the_largest_component_allowed_is_built),
        CASE(every_row_is_positive_and_sums_to_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
