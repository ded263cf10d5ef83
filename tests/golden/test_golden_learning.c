/* Rows and shares learned from cases, against learning.py, which reckons them another way with 50
 * digits. */
#include <math.h>
#include <stdlib.h>

#include <jansson.h>

#include "learn/row.h"
#include "learn/shares.h"
#include "net_kit.h"
#include "testing.h"

enum { MOST = 8 };
static const learn_weights plain = {{1, 1}, false};

static int set_up(void **state)
{
    *state = json_load_file(TT_SOURCE_DIR "/tests/golden/learning/learning.json", 0, NULL);
    return *state == NULL;
}

static int tear_down(void **state)
{
    json_decref(*state);
    return 0;
}

/* Written with more digits than a double has. */
static double number(const json_t *v)
{
    return json_is_string(v) ? strtod(json_string_value(v), NULL) : json_number_value(v);
}

static uint32_t numbers(const json_t *list, double *out)
{
    uint32_t count = (uint32_t)json_array_size(list);
    assert_in_range(count, 1, MOST);
    for (uint32_t i = 0; i < count; i++) out[i] = number(json_array_get(list, i));
    return count;
}

static void near(double got, const json_t *wanted, double tolerance)
{
    double there = number(wanted);
    if (!(fabs(got - there) <= tolerance * fmax(1, fabs(there))))
        fail_msg("%.17g, wanted %.17g", got, there);
}

static void check_set(const json_t *wanted, double mean, double worth)
{
    learn_belief b = learn_belief_of(mean, worth);
    near(mean, json_object_get(wanted, "mean"), 1e-12);
    near(worth, json_object_get(wanted, "worth"), 1e-10);
    near(b.low, json_object_get(wanted, "low"), 1e-10);
    near(b.high, json_object_get(wanted, "high"), 1e-10);
}

static void answer_all(net_kit *k, learn_row *r, const net *n, const json_t *answers)
{
    for (size_t i = 0; i < json_array_size(answers); i++) {
        double weights[MOST];
        const json_t *given = json_array_get(answers, i);
        numbers(json_array_get(given, 0), weights);
        json_int_t times = json_integer_value(json_array_get(given, 1));
        while (times-- > 0) learn_row_add(k->keep, r, n, &n->components[0], weights, LEARN_CURED);
    }
}

static void check_row(const json_t *wanted)
{
    double written[MOST], strength = number(json_object_get(wanted, "strength"));
    uint32_t states = numbers(json_object_get(wanted, "written"), written);
    net_kit *k = net_kit_new();
    uint32_t f = net_kit_finding(k, "f", states);
    net_kit_cause(k, "a", 1);
    k->findings[f].right = number(json_object_get(wanted, "right"));
    for (uint32_t v = 1; v < states; v++) net_kit_symptom(k, "s", net_kit_is(k, f, v), 0.1);
    const net *n = net_kit_build(k);
    learn_row *r = learn_row_new(k->keep, written, states, strength);
    answer_all(k, r, n, json_object_get(wanted, "answers"));
    learn_row_fit(k->scratch, r, &plain);
    for (uint32_t v = 0; v < states; v++)
        near(r->fitted[v], json_array_get(json_object_get(wanted, "row"), v), 1e-12);
    const json_t *sets = json_object_get(wanted, "sets");
    for (size_t i = 0; i < json_array_size(sets); i++) {
        const json_t *set = json_array_get(sets, i), *in = json_object_get(set, "set");
        bool inside[MOST] = {false};
        for (size_t v = 0; v < json_array_size(in); v++)
            inside[json_integer_value(json_array_get(in, v))] = true;
        learn_count c = learn_row_count(k->scratch, r, &plain, inside);
        check_set(set, c.mean, c.worth);
    }
    net_kit_free(k);
}

static void rows_to_twelve_digits(void **state)
{
    const json_t *rows = json_object_get(*state, "rows");
    assert_int_equal(json_array_size(rows), 2);
    for (size_t i = 0; i < json_array_size(rows); i++) check_row(json_array_get(rows, i));
}

static void add_settings(arena *keep, learn_shares *s, const json_t *settings)
{
    for (size_t i = 0; i < json_array_size(settings); i++) {
        double factor[MOST], cases[MOST];
        uint32_t count = numbers(json_array_get(json_array_get(settings, i), 0), factor);
        numbers(json_array_get(json_array_get(settings, i), 1), cases);
        for (uint32_t c = 0; c < count; c++)
            for (double n = 0; n < cases[c]; n++) learn_shares_add(keep, s, factor, c, LEARN_CURED);
    }
}

static void check_shares(const json_t *wanted)
{
    arena *keep = arena_new(NULL, NULL), *scratch = arena_new(NULL, NULL);
    double written[MOST], sum = 0;
    uint32_t count = numbers(json_object_get(wanted, "written"), written);
    learn_shares *s = learn_shares_new(keep, written, count);
    add_settings(keep, s, json_object_get(wanted, "settings"));
    learn_shares_fit(scratch, s, &plain);
    for (uint32_t i = 0; i < count; i++) sum += s->weight[i];
    for (uint32_t i = 0; i < count; i++)
        check_set(json_array_get(json_object_get(wanted, "sets"), i), s->weight[i] / sum, s->worth[i]);
    arena_free(keep);
    arena_free(scratch);
}

static void shares_to_twelve_digits(void **state)
{
    const json_t *all = json_object_get(*state, "shares");
    assert_int_equal(json_array_size(all), 1);
    check_shares(json_array_get(all, 0));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(rows_to_twelve_digits, set_up, tear_down),
        cmocka_unit_test_setup_teardown(shares_to_twelve_digits, set_up, tear_down),
    };
    return cmocka_run_group_tests_name("golden learning", tests, NULL, NULL);
}
