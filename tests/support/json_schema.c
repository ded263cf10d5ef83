#include "json_schema.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static bool fits(const json_t *whole, const json_t *schema, const json_t *value);

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
static bool keys_fit(const json_t *whole, const json_t *schema, const json_t *value)
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
        if (described == NULL || !fits(whole, described, json_object_iter_value(at))) return false;
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

static bool definitions_fit(const json_t *whole, const json_t *schema, const json_t *value)
{
    static const char before[] = "#/definitions/";
    const json_t *all_of = json_object_get(schema, "allOf");
    const json_t *any_of = json_object_get(schema, "anyOf");
    const char *reference = json_string_value(json_object_get(schema, "$ref"));
    bool any = any_of == NULL;
    for (size_t i = 0; i < json_array_size(any_of); i++)
        any = any || fits(whole, json_array_get(any_of, i), value);
    if (!any) return false;
    for (size_t i = 0; i < json_array_size(all_of); i++)
        if (!fits(whole, json_array_get(all_of, i), value)) return false;
    if (reference == NULL) return true;
    assert_int_equal(strncmp(reference, before, strlen(before)), 0);
    const json_t *definition =
        json_object_get(json_object_get(whole, "definitions"), reference + strlen(before));
    assert_non_null(definition);
    return fits(whole, definition, value);
}

static bool fits(const json_t *whole, const json_t *schema, const json_t *value)
{
    const json_t *one_of = json_object_get(schema, "oneOf"),
                 *items = json_object_get(schema, "items");
    const json_t *constant = json_object_get(schema, "const");
    unsigned fitting = 0;
    for (size_t i = 0; i < json_array_size(one_of); i++)
        fitting += fits(whole, json_array_get(one_of, i), value);
    if (one_of != NULL && fitting != 1) return false;
    if (constant != NULL && !json_equal(constant, value)) return false;
    for (size_t i = 0; items != NULL && i < json_array_size(value); i++)
        if (!fits(whole, items, json_array_get(value, i))) return false;
    return types_fit(json_object_get(schema, "type"), value) &&
           is_among(json_object_get(schema, "enum"), value) && keys_fit(whole, schema, value) &&
           numbers_fit(schema, value) && definitions_fit(whole, schema, value);
}

bool fits_schema(const json_t *schema, const json_t *value)
{
    return fits(schema, schema, value);
}

bool fits_definition(const json_t *schema, const char *name, const json_t *value)
{
    const json_t *definition = json_object_get(json_object_get(schema, "definitions"), name);
    assert_non_null(definition);
    return fits(schema, definition, value);
}
