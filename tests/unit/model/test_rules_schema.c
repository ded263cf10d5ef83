/* docs/book.schema.json and the reader name the same keys. */
#include "model_kit.h"

#include <jansson.h>

static const struct {
    const char *section, *definition;
} entries[] = {
    {"questions", "question"}, {"symptoms", "symptom"}, {"conclusions", "conclusion"},
    {"causes", "cause"},       {"fixes", "fix"},        {"rules", "rule"},
    {"cases", "case"},         {"kinds", "kind"},       {"quantities", "quantity"},
    {"emergencies", "emergency"},
};
enum { ENTRIES = sizeof entries / sizeof *entries };

static json_t *schema(void)
{
    json_error_t why;
    json_t *root =
        json_load_file(TT_SOURCE_DIR "/docs/book.schema.json", JSON_REJECT_DUPLICATES, &why);
    if (root == NULL) print_error("%s at %d\n", why.text, why.line);
    assert_non_null(root);
    return root;
}

static json_t *keys_of(json_t *root, const char *definition)
{
    json_t *keys = json_object_get(
        json_object_get(json_object_get(root, "definitions"), definition), "properties");
    assert_true(json_is_object(keys));
    return keys;
}

/* Whether the reader calls this text's key unknown. */
static bool unknown_key(const char *text)
{
    kit k;
    kit_begin(&k);
    kit_add(&k, STR("rules.yaml"), str_of(text));
    kit_read(&k);
    bool unknown = strstr(kit_said(&k), "[T203]") != NULL || strstr(kit_said(&k), "[T202]") != NULL;
    kit_end(&k);
    return unknown;
}

static void test_every_key_of_the_schema_is_read(void **state)
{
    (void)state;
    json_t *root = schema();
    char text[256];
    const char *key;
    json_t *value;
    for (int i = 0; i < ENTRIES; i++)
        json_object_foreach(keys_of(root, entries[i].definition), key, value)
        {
            snprintf(text, sizeof text, "%s:\n  some-name:\n    %s: some\n", entries[i].section,
                     key);
            if (unknown_key(text))
                fail_msg("the schema knows '%s' of %s, the reader does not", key,
                         entries[i].section);
        }
    json_object_foreach(keys_of(root, "manifest"), key, value)
    {
        snprintf(text, sizeof text, "book:\n  %s: some\n", key);
        if (unknown_key(text))
            fail_msg("the schema knows '%s' of the manifest, the reader does not", key);
    }
    json_object_foreach(keys_of(root, "site"), key, value)
    {
        snprintf(text, sizeof text, "site:\n  %s: some\n", key);
        if (unknown_key(text))
            fail_msg("the schema knows '%s' of the site, the reader does not", key);
    }
    json_object_foreach(keys_of(root, "then"), key, value)
    {
        snprintf(text, sizeof text, "rules:\n  some-name:\n    then:\n      %s: some\n", key);
        if (unknown_key(text))
            fail_msg("the schema knows '%s' of 'then', the reader does not", key);
    }
    json_decref(root);
}

static void check_keys(const node *map, json_t *keys, const char *what)
{
    for (uint32_t i = 0; i < map->count; i++) {
        char key[64];
        snprintf(key, sizeof key, "%.*s", STR_ARG(map->entries[i].key));
        if (json_object_get(keys, key) == NULL)
            fail_msg("the schema does not know '%s' of %s", key, what);
    }
}

static void check_entry(json_t *root, const node *entry, int which)
{
    const node *then = node_get(entry, "then");
    check_keys(entry, keys_of(root, entries[which].definition), entries[which].section);
    if (then != NULL && then->kind == NODE_MAP) check_keys(then, keys_of(root, "then"), "then");
}

/* Marks the sections that the file has. */
static void check_file(json_t *root, const char *file, bool seen[ENTRIES])
{
    kit k;
    kit_begin(&k);
    assert_true(kit_add_file(&k, str_of(file)));
    k.files = sources_sorted(k.keep, k.items, k.count);
    const node *top = load_sources(k.keep, k.scratch, &k.files, k.list)[0], *site = node_get(top, "site");
    check_keys(top, json_object_get(root, "properties"), "a file");
    check_keys(node_get(top, "book"), keys_of(root, "manifest"), "the manifest");
    if (site != NULL) check_keys(site, keys_of(root, "site"), "the site");
    for (int i = 0; i < ENTRIES; i++) {
        const node *section = node_get(top, entries[i].section);
        for (uint32_t e = 0; section != NULL && e < section->count; e++) check_entry(root, section->entries[e].value, i);
        seen[i] |= section != NULL;
    }
    kit_end(&k);
}

static void test_every_key_that_is_read_is_in_the_schema(void **state)
{
    (void)state;
    bool seen[ENTRIES] = {false};
    json_t *root = schema();
    check_file(root, "full.yaml", seen);
    check_file(root, "equipment.yaml", seen);
    check_file(root, "quantities.yaml", seen);
    for (int i = 0; i < ENTRIES; i++)
        if (!seen[i]) fail_msg("no file has the section '%s'", entries[i].section);
    json_decref(root);
}

/* The file for sites alone is the section of the other. */
static void test_the_schema_of_a_site_file(void **state)
{
    (void)state;
    json_t *root = schema(), *site = json_load_file(TT_SOURCE_DIR "/docs/site.schema.json", JSON_REJECT_DUPLICATES, NULL);
    assert_non_null(site);
    json_t *keys = json_object_get(site, "properties");
    assert_int_equal(json_object_size(keys), 1);
    assert_string_equal(json_string_value(json_object_get(json_object_get(keys, "site"), "$ref")),
                        "book.schema.json#/definitions/site");
    assert_non_null(keys_of(root, "site"));
    json_decref(site);
    json_decref(root);
}

static void count_refs(json_t *value, json_t *definitions, size_t *refs)
{
    const char *key;
    json_t *part;
    size_t i;
    json_array_foreach(value, i, part) count_refs(part, definitions, refs);
    json_object_foreach(value, key, part)
    {
        const char *target = json_string_value(part);
        if (strcmp(key, "$ref") == 0) {
            assert_int_equal(strncmp(target, "#/definitions/", 14), 0);
            if (json_object_get(definitions, target + 14) == NULL)
                fail_msg("%s is not there", target);
            assert_int_equal(json_object_size(value),
                             1); /* what stands beside a $ref is not read */
            (*refs)++;
        }
        count_refs(part, definitions, refs);
    }
}

static void test_references_and_descriptions(void **state)
{
    (void)state;
    json_t *root = schema(), *definitions = json_object_get(root, "definitions"), *one;
    const char *name;
    size_t refs = 0;
    count_refs(root, definitions, &refs);
    assert_true(refs > 50);
    json_object_foreach(definitions, name,
                        one) if (!json_is_string(json_object_get(one, "description")))
        fail_msg("%s has no description", name);
    json_decref(root);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_key_of_the_schema_is_read),
        cmocka_unit_test(test_every_key_that_is_read_is_in_the_schema),
        cmocka_unit_test(test_the_schema_of_a_site_file),
        cmocka_unit_test(test_references_and_descriptions),
    };
    return cmocka_run_group_tests_name("schema of the rule files", tests, NULL, NULL);
}
