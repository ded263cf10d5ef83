/* How often a sign shows while it is there, learned from looks that differ, against passing.py,
 * which goes through every state at every look with 50 digits. */
#include <math.h>
#include <stdlib.h>

#include <jansson.h>

#include "learn/passing.h"
#include "net_kit.h"
#include "testing.h"

enum { STATES = 3 };
static const learn_weights plain = {{1, 1}, false};

static double number(const json_t *object, const char *key)
{
    return strtod(json_string_value(json_object_get(object, key)), NULL);
}

static void add_looks(net_kit *k, learn_passing *p, const net *n, const json_t *told)
{
    const json_t *said = json_array_get(told, 0);
    double weights[LOOKS_MAX][STATES] = {{0}};
    sighting items[LOOKS_MAX];
    const uint32_t count = (uint32_t)json_array_size(said);
    assert_in_range(count, 2, LOOKS_MAX);
    for (uint32_t l = 0; l < count; l++) {
        weights[l][json_integer_value(json_array_get(said, l))] = 1;
        items[l] = (sighting){.weights = weights[l]};
    }
    for (json_int_t t = json_integer_value(json_array_get(told, 1)); t > 0; t--)
        learn_passing_add(k->keep, p, n, &n->components[0], (looks){items, count}, LEARN_CURED);
}

static void near(double got, double wanted)
{
    if (!(fabs(got - wanted) <= 1e-6)) fail_msg("%.12g, wanted %.12g", got, wanted);
}

static void check_world(const json_t *world)
{
    const json_t *told = json_object_get(world, "row"), *all = json_object_get(world, "looks");
    const uint32_t states = (uint32_t)json_array_size(told);
    const json_int_t none = json_integer_value(json_object_get(world, "none"));
    double row[STATES];
    bool inside[STATES];
    net_kit *k = net_kit_new();
    const uint32_t f = net_kit_finding(k, "f", states);
    net_kit_cause(k, "a", 1);
    k->findings[f].right = number(world, "right");
    for (uint32_t v = 1; v < states; v++) net_kit_symptom(k, "s", net_kit_is(k, f, v), 0.1);
    const net *n = net_kit_build(k);
    for (uint32_t v = 0; v < states; v++) {
        row[n->components[0].cell_atom[v]] =
            strtod(json_string_value(json_array_get(told, v)), NULL);
        inside[n->components[0].cell_atom[v]] = v >= none;
    }
    learn_row *r = learn_row_new(k->keep, row, states, 20);
    learn_row_fit(k->scratch, r, &plain);
    learn_passing p = {.row = r, .inside = inside, .written = number(world, "written")};
    p.strength = (double)json_integer_value(json_object_get(world, "strength"));
    for (size_t i = 0; i < json_array_size(all); i++) add_looks(k, &p, n, json_array_get(all, i));
    learn_passing_fit(&p, &plain, 0.04);
    near(p.mean, number(world, "mean"));
    near(p.low, number(world, "low"));
    near(p.high, number(world, "high"));
    net_kit_free(k);
}

static void signs_as_worked_out(void **state)
{
    (void)state;
    json_t *all = json_load_file(TT_SOURCE_DIR "/tests/golden/learning/passing.json", 0, NULL);
    assert_int_equal(json_array_size(all), 2);
    for (size_t i = 0; i < json_array_size(all); i++) check_world(json_array_get(all, i));
    json_decref(all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(signs_as_worked_out),
    };
    return cmocka_run_group_tests_name("golden passing", tests, NULL, NULL);
}
