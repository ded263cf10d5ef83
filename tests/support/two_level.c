#include "two_level.h"

#include "testing.h"

#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static double odds(const two_level *n, uint32_t cause)
{
    return n->prior[cause] / (1 - n->prior[cause]);
}

void two_level_odds(const two_level *n, double *one, double *two)
{
    *one = n->nothing ? 1 : 0;
    *two = 0;
    for (uint32_t c = 0; c < n->cause_count; c++) {
        *one += odds(n, c);
        for (uint32_t d = 0; d < c && n->most_faults == 2; d++) *two += odds(n, c) * odds(n, d);
    }
}

static double leak_of(const two_level_sign *s)
{
    return fmax(s->leak, TWO_LEVEL_LEAK_LEAST);
}

double two_level_chance(const two_level *n, uint32_t sign, uint32_t causes)
{
    const two_level_sign *s = &n->signs[sign];
    double missing = 1 - leak_of(s);
    for (uint32_t c = 0; c < n->cause_count; c++)
        if ((causes >> c & 1) != 0) missing *= 1 - s->alone[c];
    return 1 - missing;
}

/* ---- as a book ---- */

static void write_manifest(FILE *out, const two_level *n)
{
    double one, two;
    two_level_odds(n, &one, &two);
    fprintf(out,
            "book:\n  title: Two levels\n  roles: [anybody]\n"
            "  not-listed: %.17g\n  two-faults: %.17g\nquestions:\n",
            n->not_listed, two / (one + two));
    for (uint32_t s = 0; s < n->sign_count; s++)
        fprintf(out, "  s%02u:\n    ask: Is it so?\n    read-right: %.17g\n    takes: %.17g min\n",
                s, n->signs[s].read_right, n->signs[s].minutes);
}

static void write_symptom(FILE *out, const two_level *n, uint32_t sign)
{
    const two_level_sign *s = &n->signs[sign];
    fprintf(out,
            "  shows-%02u:\n    text: It is so\n    when: {s%02u: yes}\n"
            "    otherwise: %.17g\n    shown-by:\n",
            sign, sign, leak_of(s));
    for (uint32_t c = 0; c < n->cause_count; c++)
        if (s->alone[c] > 0)
            fprintf(out, "      c%02u: %.17g\n", c, two_level_chance(n, sign, 1u << c));
}

static void write_nothing(FILE *out, const two_level *n, double scale)
{
    fprintf(out,
            "  nothing-wrong:\n    text: Nothing is wrong\n    how-often: %.17g\n    never-with: [",
            scale);
    for (uint32_t c = 0; c < n->cause_count; c++) fprintf(out, "%sc%02u", c > 0 ? ", " : "", c);
    fprintf(out, "]\n");
}

char *two_level_rules(const two_level *n)
{
    enum { SCALE = 1000 };
    char *text;
    size_t length;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    write_manifest(out, n);
    fprintf(out, "symptoms:\n");
    for (uint32_t s = 0; s < n->sign_count; s++) write_symptom(out, n, s);
    fprintf(out, "causes:\n");
    for (uint32_t c = 0; c < n->cause_count; c++)
        fprintf(out, "  c%02u:\n    text: It\n    how-often: %.17g\n", c, SCALE * odds(n, c));
    if (n->nothing) write_nothing(out, n, SCALE);
    assert_int_equal(fclose(out), 0);
    return text;
}

/* ---- from a file ---- */

static double number_at(const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    assert_true(json_is_number(value));
    return json_number_value(value);
}

static two_level_sign read_sign(const json_t *from, uint32_t cause_count)
{
    two_level_sign s = {
        .leak = number_at(from, "leak"), .read_right = 1, .minutes = number_at(from, "minutes")};
    const json_t *parents = json_object_get(from, "parents"), *p = json_object_get(from, "p");
    assert_int_equal(json_array_size(parents), json_array_size(p));
    for (size_t i = 0; i < json_array_size(p); i++) {
        json_int_t cause = json_integer_value(json_array_get(parents, i));
        assert_true(cause >= 0 && cause < cause_count);
        s.alone[cause] = json_number_value(json_array_get(p, i));
    }
    return s;
}

two_level two_level_load(const char *name)
{
    char path[512];
    json_error_t error;
    snprintf(path, sizeof path, "%s/tests/reference/data/%s.json", TT_SOURCE_DIR, name);
    json_t *root = json_load_file(path, 0, &error);
    if (root == NULL) fail_msg("%s:%d: %s", path, error.line, error.text);
    const json_t *causes = json_object_get(root, "causes"),
                 *signs = json_object_get(root, "symptoms");
    two_level n = {.cause_count = (uint32_t)json_array_size(causes),
                   .sign_count = (uint32_t)json_array_size(signs),
                   .most_faults = 2,
                   .nothing = true};
    assert_in_range(n.cause_count, 1, TWO_LEVEL_CAUSES);
    assert_in_range(n.sign_count, 1, TWO_LEVEL_SIGNS);
    for (uint32_t c = 0; c < n.cause_count; c++)
        n.prior[c] = json_number_value(json_array_get(causes, c));
    for (uint32_t s = 0; s < n.sign_count; s++)
        n.signs[s] = read_sign(json_array_get(signs, s), n.cause_count);
    json_decref(root);
    return n;
}
