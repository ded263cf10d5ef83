#include "golden_model.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static json_t *read_json(const char *name)
{
    char path[512];
    json_error_t error;
    snprintf(path, sizeof path, "%s/tests/golden/data/%s.json", TT_SOURCE_DIR, name);
    json_t *root = json_load_file(path, 0, &error);
    if (root == NULL) fail_msg("%s:%d: %s", path, error.line, error.text);
    return root;
}

const json_t *golden_at(const json_t *root, const char *path)
{
    char key[64];
    while (*path != '\0') {
        size_t length = strcspn(path, ".");
        assert_true(length < sizeof key);
        memcpy(key, path, length);
        key[length] = '\0';
        const json_t *next = json_object_get(root, key);
        if (next == NULL) fail_msg("the golden case has no '%s'", key);
        root = next;
        path += length + (path[length] == '.');
    }
    return root;
}

double golden_number(const json_t *root, const char *path)
{
    return json_number_value(golden_at(root, path));
}

void golden_check(const json_t *expected, const double *got, uint32_t count, double tolerance)
{
    assert_int_equal(json_array_size(expected), count);
    for (uint32_t i = 0; i < count; i++) {
        double wanted = json_number_value(json_array_get(expected, i));
        if (!(fabs(got[i] - wanted) <= tolerance))
            fail_msg("[%u] is %.17g, wanted %.17g (off by %.3g)", i, got[i], wanted,
                     got[i] - wanted);
    }
}

static uint32_t whole(const json_t *number)
{
    assert_true(json_is_integer(number));
    return (uint32_t)json_integer_value(number);
}

static uint32_t length_of(const json_t *array)
{
    return (uint32_t)json_array_size(array);
}

/* ---- the model ---- */

static const expr *read_condition(arena *keep, const json_t *c);

static const expr *read_is(arena *keep, const json_t *c)
{
    state_mask mask = 0;
    const json_t *states = json_array_get(c, 2);
    for (uint32_t i = 0; i < length_of(states); i++)
        mask |= (state_mask)1 << whole(json_array_get(states, i));
    return expr_is(keep, whole(json_array_get(c, 1)), mask, span_nowhere());
}

static const expr *read_condition(arena *keep, const json_t *c)
{
    const char *kind = json_string_value(json_array_get(c, 0));
    const expr *parts[8];
    uint32_t count = length_of(c) - 1;
    assert_non_null(kind);
    if (strcmp(kind, "is") == 0) return read_is(keep, c);
    assert_true(count <= 8);
    for (uint32_t i = 0; i < count; i++) parts[i] = read_condition(keep, json_array_get(c, i + 1));
    if (strcmp(kind, "not") == 0) return expr_not(keep, parts[0], span_nowhere());
    assert_true(strcmp(kind, "and") == 0 || strcmp(kind, "or") == 0);
    return expr_many(keep, kind[0] == 'a' ? EXPR_ALL : EXPR_ANY, parts, count, span_nowhere());
}

static void read_settling(const json_t *model, net_finding *f)
{
    const json_t *settling = json_object_get(json_object_get(model, "settling"), f->name.p + 8),
                 *toward = json_object_get(json_object_get(model, "toward"), f->name.p + 8);
    for (uint32_t i = 0; i < length_of(settling); i++)
        f->settling |= (state_mask)1 << whole(json_array_get(settling, i));
    if (toward != NULL) f->toward = json_number_value(toward);
}

static void read_findings(arena *keep, const json_t *model, net_input *in)
{
    const json_t *k = golden_at(model, "k"), *right = golden_at(model, "rel");
    net_finding *findings = ARENA_ARRAY(keep, net_finding, length_of(k));
    for (uint32_t f = 0; f < length_of(k); f++) {
        findings[f] = (net_finding){.name = str_printf(keep, "finding-%u", f),
                                    .states = whole(json_array_get(k, f)),
                                    .usual = NO_STATE,
                                    .right = json_number_value(json_array_get(right, f))};
        const json_t *usual = json_object_get(golden_at(model, "usual"), findings[f].name.p + 8);
        if (usual != NULL) findings[f].usual = whole(usual);
        read_settling(model, &findings[f]);
    }
    in->findings = findings;
    in->finding_count = length_of(k);
}

static void read_listed(arena *keep, const json_t *listed, uint32_t causes, net_symptom *s)
{
    net_rate *rates = ARENA_ARRAY(keep, net_rate, json_object_size(listed));
    for (uint32_t c = 0; c < causes; c++) {
        const json_t *chance = json_object_get(listed, str_printf(keep, "%u", c).p);
        if (chance != NULL) rates[s->listed_count++] = (net_rate){c, json_number_value(chance)};
    }
    assert_int_equal(s->listed_count, json_object_size(listed));
    s->listed = rates;
}

static void read_symptoms(arena *keep, const json_t *model, net_input *in)
{
    const json_t *all = golden_at(model, "symptoms");
    net_symptom *symptoms = ARENA_ARRAY(keep, net_symptom, length_of(all));
    for (uint32_t i = 0; i < length_of(all); i++) {
        const json_t *s = json_array_get(all, i);
        symptoms[i].name = str_printf(keep, "symptom-%u", i);
        symptoms[i].at = span_nowhere();
        symptoms[i].when = read_condition(keep, golden_at(s, "cond"));
        symptoms[i].otherwise = golden_number(s, "otherwise");
        read_listed(keep, golden_at(s, "listed"), in->cause_count, &symptoms[i]);
    }
    in->symptoms = symptoms;
    in->symptom_count = length_of(all);
}

static void read_causes(arena *keep, const json_t *model, net_input *in)
{
    const json_t *pi = golden_at(model, "pi");
    double *weights = ARENA_ARRAY(keep, double, length_of(pi));
    str *names = ARENA_ARRAY(keep, str, length_of(pi));
    for (uint32_t c = 0; c < length_of(pi); c++) {
        weights[c] = json_number_value(json_array_get(pi, c));
        names[c] = str_printf(keep, "cause-%u", c);
    }
    in->weights = weights;
    in->cause_names = names;
    in->cause_count = length_of(pi);
}

golden golden_load(arena *keep, const char *name)
{
    golden g = {.root = read_json(name)};
    const json_t *model = golden_at(g.root, "model"), *two = json_object_get(model, "d2");
    g.most_faults = whole(golden_at(model, "K"));
    g.in.not_listed = golden_number(model, "u");
    g.in.two_faults = two == NULL ? 0 : json_number_value(two);
    read_causes(keep, model, &g.in);
    read_findings(keep, model, &g.in);
    read_symptoms(keep, model, &g.in);
    return g;
}

void golden_free(golden *g)
{
    json_decref(g->root);
    g->root = NULL;
}

evidence golden_evidence(arena *keep, const golden *g, const json_t *answers)
{
    const double **weights = ARENA_ARRAY(keep, const double *, g->in.finding_count);
    for (uint32_t i = 0; i < length_of(answers); i++) {
        const json_t *answer = json_array_get(answers, i), *given = golden_at(answer, "weights");
        uint32_t finding = whole(golden_at(answer, "finding"));
        assert_int_equal(length_of(given), g->in.findings[finding].states);
        double *w = ARENA_ARRAY(keep, double, length_of(given));
        for (uint32_t a = 0; a < length_of(given); a++)
            w[a] = json_number_value(json_array_get(given, a));
        weights[finding] = w;
    }
    return (evidence){.weights = weights};
}
