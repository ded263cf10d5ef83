/* Which components instruments join, in networks worked out by hand. What joined ones say is
 * counted in test_looks_brute. */
#include "believe/joined.h"
#include "net_kit.h"
#include "testing.h"

static const double yes[] = {0, 1};

static void read_from(net_kit *k, uint32_t finding, const uint32_t *sources, uint32_t count)
{
    k->findings[finding].sources = sources;
    k->findings[finding].source_count = count;
}

/* p and r are read from A, r and the later of the two q's from B; so B joins r, which hangs on p by
 * then, to a component that comes before it. */
static void what_is_joined_already_keeps_all_of_its_group(void **state)
{
    (void)state;
    net_kit *k = net_kit_new();
    const uint32_t p = net_kit_finding(k, "p", 2), q = net_kit_finding(k, "q", 2),
                   r = net_kit_finding(k, "r", 2), q_too = net_kit_finding(k, "q too", 2),
                   a = net_kit_cause(k, "a", 1);
    net_kit_cause(k, "b", 1);
    const expr *either[] = {net_kit_is(k, q, 1), net_kit_is(k, q_too, 1)};
    net_kit_list(k, net_kit_symptom(k, "of p", net_kit_is(k, p, 1), .1), a, .8);
    net_kit_list(k,
                 net_kit_symptom(k, "of both q",
                                 expr_many(k->keep, EXPR_ANY, either, 2, span_nowhere()), .1),
                 a, .8);
    net_kit_list(k, net_kit_symptom(k, "of r", net_kit_is(k, r, 1), .1), a, .8);
    read_from(k, p, (uint32_t[]){0}, 1);
    read_from(k, r, (uint32_t[]){0, 1}, 2);
    read_from(k, q_too, (uint32_t[]){1}, 1);
    k->in.sources = (net_source[]){{.01, false}, {.02, false}};
    k->in.source_count = 2;
    const net *n = net_kit_build(k);
    assert_non_null(n);
    assert_int_equal(n->component_of[q], n->component_of[q_too]);
    assert_true(n->component_of[p] < n->component_of[q] && n->component_of[q] < n->component_of[r]);
    const double *weights[] = {yes, yes, yes, yes};
    const joining all = joining_of(k->keep, n, &(evidence){.weights = weights});
    assert_int_equal(all.count, 1);
    assert_int_equal(all.groups[0].count, 3);
    for (uint32_t i = 0; i < 3; i++) assert_int_equal(all.groups[0].components[i], i);
    assert_int_equal(all.groups[0].latent_count, 2);
    net_kit_free(k);
}

/* Of the group alone, too. */
static void as_many_as_are_read_from_one_instrument_are_joined(void **state)
{
    (void)state;
    enum { QUESTIONS = 5 };
    static const uint32_t instrument = 0;
    static const char *const names[QUESTIONS] = {"p", "q", "r", "s", "t"};
    const double *weights[QUESTIONS];
    net_kit *k = net_kit_new();
    const uint32_t a = net_kit_cause(k, "a", 1);
    net_kit_cause(k, "b", 1);
    for (uint32_t i = 0; i < QUESTIONS; i++) {
        const uint32_t f = net_kit_finding(k, names[i], 2);
        net_kit_list(k, net_kit_symptom(k, names[i], net_kit_is(k, f, 1), .1), a, .8);
        read_from(k, f, &instrument, 1);
        weights[i] = yes;
    }
    k->in.sources = (net_source[]){{.01, false}};
    k->in.source_count = 1;
    const joined all = joining_with(k->keep, net_kit_build(k), &(evidence){.weights = weights}, 0);
    assert_int_equal(all.count, QUESTIONS);
    for (uint32_t i = 0; i < QUESTIONS; i++) assert_int_equal(all.components[i], i);
    assert_int_equal(all.latent_count, 1);
    assert_int_equal(all.latents[0].source, 0);
    assert_int_equal(all.listed_count, 1);
    assert_int_equal(all.listed[0], a);
    net_kit_free(k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_joined_already_keeps_all_of_its_group),
        cmocka_unit_test(as_many_as_are_read_from_one_instrument_are_joined),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
