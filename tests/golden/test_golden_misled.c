/* How often instruments mislead, learned from cases, against misled.py, which goes through all that
 * may have happened with 50 digits. */
#include <math.h>
#include <stdlib.h>

#include <jansson.h>

#include "learn/misled.h"
#include "net_kit.h"
#include "testing.h"

enum { GAUGES = 2, QUESTIONS = 4, STATES = 3, LOOKS = 3 };
static const learn_weights plain = {{1, 1}, false};

typedef struct worked {
    json_t *told;
    net_kit *k;
    const net *n;
    net_source gauges[GAUGES];
    uint32_t sources[QUESTIONS][GAUGES];
    learn_row *rows[QUESTIONS]; /* [component] */
    learn_misled *misled;
} worked;

static const json_t *item(const json_t *list, size_t i)
{
    return json_array_get(list, i);
}

static double number(const json_t *v)
{
    return strtod(json_string_value(v), NULL);
}

static void add_question(worked *x, const json_t *told)
{
    const uint32_t states = (uint32_t)json_array_size(item(told, 3)),
                   f = net_kit_finding(x->k, "f", states);
    net_finding *own = &x->k->findings[f];
    own->right = number(item(told, 1));
    own->source_count = (uint32_t)json_array_size(item(told, 0));
    own->sources = x->sources[f];
    for (uint32_t i = 0; i < own->source_count; i++)
        x->sources[f][i] = (uint32_t)json_integer_value(item(item(told, 0), i));
    if (json_is_string(item(told, 2))) {
        own->toward = number(item(told, 2));
        own->settling = 1 << 1;
    }
    for (uint32_t v = 1; v < states; v++) net_kit_symptom(x->k, "s", net_kit_is(x->k, f, v), 0.1);
}

static void add_row(worked *x, uint32_t f, const json_t *told)
{
    double row[STATES];
    const component *g = &x->n->components[x->n->component_of[f]];
    assert_int_equal(g->atom_count, json_array_size(told));
    for (uint32_t v = 0; v < g->atom_count; v++) row[g->cell_atom[v]] = number(item(told, v));
    x->rows[x->n->component_of[f]] = learn_row_new(x->k->keep, row, g->atom_count, 20);
    learn_row_fit(x->k->scratch, x->rows[x->n->component_of[f]], &plain);
}

static void add_case(worked *x, const json_t *answers)
{
    const double *weights[QUESTIONS] = {NULL};
    looks all[QUESTIONS] = {{NULL, 0}};
    sighting items[QUESTIONS][LOOKS];
    double said[QUESTIONS][LOOKS][STATES] = {{{0}}};
    for (size_t i = 0; i < json_array_size(answers); i++) {
        const json_int_t f = json_integer_value(item(item(answers, i), 0));
        const json_t *seen = item(item(answers, i), 1);
        const uint32_t count = (uint32_t)json_array_size(seen);
        for (uint32_t l = 0; l < count; l++) {
            said[f][l][json_integer_value(item(item(seen, l), 0))] = 1;
            items[f][l] = (sighting){.weights = said[f][l],
                                     .another = json_integer_value(item(item(seen, l), 1)) != 0};
            weights[f] = said[f][l];
        }
        all[f] = (looks){items[f], count};
    }
    const evidence seen = {.weights = weights, .looks = all};
    learn_misled_add(x->k->keep, x->k->scratch, x->misled, x->n, &seen, x->rows, LEARN_CURED);
}

static void work_out(worked *x)
{
    const json_t *questions = json_object_get(x->told, "questions"),
                 *cases = json_object_get(x->told, "cases");
    x->k = net_kit_new();
    net_kit_cause(x->k, "a", 1);
    for (uint32_t g = 0; g < GAUGES; g++)
        x->gauges[g] = (net_source){number(item(json_object_get(x->told, "author"), g)), false};
    x->k->in.sources = x->gauges;
    x->k->in.source_count = GAUGES;
    assert_int_equal(json_array_size(questions), QUESTIONS);
    for (uint32_t f = 0; f < QUESTIONS; f++) add_question(x, item(questions, f));
    x->n = net_kit_build(x->k);
    for (uint32_t f = 0; f < QUESTIONS; f++) add_row(x, f, item(item(questions, f), 3));
    x->misled = learn_misled_new(x->k->keep, x->gauges, GAUGES);
    for (size_t i = 0; i < json_array_size(cases); i++)
        for (json_int_t t = json_integer_value(item(item(cases, i), 1)); t > 0; t--)
            add_case(x, item(item(cases, i), 0));
    learn_misled_fit(x->k->scratch, x->misled, &plain);
}

static void near(double got, const json_t *wanted, double tolerance)
{
    if (!(fabs(got - number(wanted)) <= tolerance * number(wanted)))
        fail_msg("%.12g, wanted %.12g", got, number(wanted));
}

/* Peaks are found by halving a bracket, quantiles by adding up: as many digits as those have. */
static void instruments_as_worked_out(void **state)
{
    (void)state;
    worked x = {.told =
                    json_load_file(TT_SOURCE_DIR "/tests/golden/learning/misled.json", 0, NULL)};
    assert_non_null(x.told);
    const json_t *found = json_object_get(x.told, "found");
    work_out(&x);
    for (uint32_t g = 0; g < GAUGES; g++) {
        const learn_instrument *own = &x.misled->all[g];
        near(own->mean, json_object_get(item(found, g), "mean"), 1e-6);
        near(own->low, json_object_get(item(found, g), "low"), 5e-3);
        near(own->high, json_object_get(item(found, g), "high"), 5e-3);
    }
    net_kit_free(x.k);
    json_decref(x.told);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(instruments_as_worked_out),
    };
    return cmocka_run_group_tests_name("golden misled", tests, NULL, NULL);
}
