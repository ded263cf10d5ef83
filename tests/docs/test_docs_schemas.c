/* What the program prints for programs fits its schemas: the part of draft-07 that they use. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <jansson.h>

static const json_t *whole; /* the schema at hand, for references into it */

static bool fits(const json_t *schema, const json_t *value);

static bool type_fits(const char *type, const json_t *value)
{
    if (strcmp(type, "object") == 0) return json_is_object(value);
    if (strcmp(type, "array") == 0) return json_is_array(value);
    if (strcmp(type, "string") == 0) return json_is_string(value);
    if (strcmp(type, "number") == 0) return json_is_number(value);
    if (strcmp(type, "integer") == 0) return json_is_integer(value);
    if (strcmp(type, "boolean") == 0) return json_is_boolean(value);
    return strcmp(type, "null") == 0 && json_is_null(value);
}

static bool types_fit(const json_t *types, const json_t *value)
{
    if (types == NULL) return true;
    if (json_is_string(types)) return type_fits(json_string_value(types), value);
    for (size_t i = 0; i < json_array_size(types); i++)
        if (type_fits(json_string_value(json_array_get(types, i)), value)) return true;
    return false;
}

static bool is_among(const json_t *values, const json_t *value)
{
    for (size_t i = 0; i < json_array_size(values); i++)
        if (json_equal(json_array_get(values, i), value)) return true;
    return values == NULL;
}

/* Every key is described, and every required one is there. */
static bool keys_fit(const json_t *schema, const json_t *value)
{
    const json_t *properties = json_object_get(schema, "properties"),
                 *required = json_object_get(schema, "required");
    if (properties == NULL || !json_is_object(value)) return true;
    for (size_t i = 0; i < json_array_size(required); i++)
        if (json_object_get(value, json_string_value(json_array_get(required, i))) == NULL)
            return false;
    for (void *at = json_object_iter((json_t *)(uintptr_t)value); at != NULL;
         at = json_object_iter_next((json_t *)(uintptr_t)value, at)) {
        const json_t *described = json_object_get(properties, json_object_iter_key(at));
        if (described == NULL || !fits(described, json_object_iter_value(at))) return false;
    }
    return true;
}

static bool numbers_fit(const json_t *schema, const json_t *value)
{
    const json_t *least = json_object_get(schema, "minimum"),
                 *most = json_object_get(schema, "maximum");
    if (!json_is_number(value)) return true;
    return (least == NULL || json_number_value(value) >= json_number_value(least)) &&
           (most == NULL || json_number_value(value) <= json_number_value(most));
}

static bool definitions_fit(const json_t *schema, const json_t *value)
{
    static const char before[] = "#/definitions/";
    const json_t *all_of = json_object_get(schema, "allOf");
    const char *reference = json_string_value(json_object_get(schema, "$ref"));
    for (size_t i = 0; i < json_array_size(all_of); i++)
        if (!fits(json_array_get(all_of, i), value)) return false;
    if (reference == NULL) return true;
    assert_int_equal(strncmp(reference, before, strlen(before)), 0);
    const json_t *definition =
        json_object_get(json_object_get(whole, "definitions"), reference + strlen(before));
    assert_non_null(definition);
    return fits(definition, value);
}

static bool fits(const json_t *schema, const json_t *value)
{
    const json_t *one_of = json_object_get(schema, "oneOf"),
                 *items = json_object_get(schema, "items");
    const json_t *constant = json_object_get(schema, "const");
    unsigned fitting = 0;
    for (size_t i = 0; i < json_array_size(one_of); i++)
        fitting += fits(json_array_get(one_of, i), value);
    if (one_of != NULL && fitting != 1) return false;
    if (constant != NULL && !json_equal(constant, value)) return false;
    for (size_t i = 0; items != NULL && i < json_array_size(value); i++)
        if (!fits(items, json_array_get(value, i))) return false;
    return types_fit(json_object_get(schema, "type"), value) &&
           is_among(json_object_get(schema, "enum"), value) && keys_fit(schema, value) &&
           numbers_fit(schema, value) && definitions_fit(schema, value);
}

static void rank_fits_its_schema(void **state)
{
    (void)state;
    static const char *const answers[] = {"pump-sound: rapid", "smoke: yes", "tank-gauge: 45 psi",
                                          "drip: {likely: {yes: 0.7, no: 0.3}}"};
    json_t *schema = json_load_file(TT_SOURCE_DIR "/docs/rank.schema.json", 0, NULL);
    assert_non_null(schema);
    whole = schema;
    for (size_t i = 0; i < sizeof answers / sizeof answers[0]; i++) {
        char command[4096];
        snprintf(command, sizeof command,
                 "echo '%s' | '%s' rank '%s/tests/cli/well' - --json >ranked", answers[i],
                 TT_PROGRAM, TT_SOURCE_DIR);
        assert_int_equal(system(command), 0);
        json_t *ranked = json_load_file("ranked", 0, NULL);
        assert_non_null(ranked);
        if (!fits(schema, ranked))
            fail_msg("what rank says of '%s' does not fit its schema", answers[i]);
        json_object_set_new(ranked, "do_next", json_string("dance"));
        assert_false(fits(schema, ranked));
        json_object_del(ranked, "do_next");
        assert_false(fits(schema, ranked));
        json_decref(ranked);
    }
    json_decref(schema);
}

static void rehearsals_fit_their_schema(void **state)
{
    (void)state;
    static const char *const options[] = {"--calls 1", "--calls 40 --as technician",
                                          "--calls 20 --misread 5 --numbers-off 30 --seed 7"};
    json_t *schema = json_load_file(TT_SOURCE_DIR "/docs/rehearse.schema.json", 0, NULL);
    assert_non_null(schema);
    whole = schema;
    for (size_t i = 0; i < sizeof options / sizeof options[0]; i++) {
        char command[4096];
        snprintf(command, sizeof command, "'%s' rehearse '%s/tests/cli/well' %s --json >rehearsed",
                 TT_PROGRAM, TT_SOURCE_DIR, options[i]);
        assert_int_equal(system(command), 0);
        json_t *rehearsed = json_load_file("rehearsed", 0, NULL);
        assert_non_null(rehearsed);
        if (!fits(schema, rehearsed)) fail_msg("rehearse %s does not fit its schema", options[i]);
        json_t *leads = json_object_get(json_object_get(rehearsed, "all"), "leads");
        json_object_set_new(leads, "count", json_string("many"));
        assert_false(fits(schema, rehearsed));
        json_object_del(rehearsed, "all");
        assert_false(fits(schema, rehearsed));
        json_decref(rehearsed);
    }
    json_decref(schema);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rank_fits_its_schema),
        cmocka_unit_test(rehearsals_fit_their_schema),
    };
    return cmocka_run_group_tests_name("docs schemas", tests, NULL, NULL);
}
