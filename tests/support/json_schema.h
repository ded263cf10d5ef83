/* Whether a value fits a JSON Schema: the part of draft-07 that ours use. A key that the schema
 * does not describe does not fit. */
#ifndef TT_TESTS_JSON_SCHEMA_H
#define TT_TESTS_JSON_SCHEMA_H

#include <jansson.h>
#include <stdbool.h>

bool fits_schema(const json_t *schema, const json_t *value);
bool fits_definition(const json_t *schema, const char *name, const json_t *value);

#endif
