/* docs/book.schema.json, the tables of the pages and the reader name the same keys, and say the
 * same of them. */
#include "read_kit.h"

#include <stdlib.h>

#include "read/keys.h"

#include <jansson.h>

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
    json_t *map =
        *definition == 0 ? root : json_object_get(json_object_get(root, "definitions"), definition);
    json_t *keys = json_object_get(map, "properties");
    if (!json_is_object(keys)) fail_msg("the schema has no map '%s'", definition);
    return keys;
}

static bool update(void)
{
    return getenv("TT_UPDATE_EXPECTED") != NULL;
}

/* ---- what the tables say, in the words of the schema ---- */

/* Without marks of Markdown: "[gate question](#danger)" is "gate question". */
static void add_plain(text_builder *b, const char *said)
{
    for (const char *c = said; *c != 0; c++) {
        const char *ends = *c == ']' && c[1] == '(' ? strchr(c, ')') : NULL;
        const char *link = *c == '[' ? strchr(c, ']') : NULL;
        if (ends != NULL)
            c = ends;
        else if (*c == '`' || *c == '*' || (link != NULL && link[1] == '('))
            continue;
        else
            text_add(b, (str){c, 1});
    }
}

static str description_of(arena *keep, const key *k)
{
    text_builder b = {.keep = keep};
    add_plain(&b, k->says);
    text_add(&b, STR("."));
    if (!k->must && *k->left_out != 0) {
        text_add(&b, STR(" Left out: "));
        add_plain(&b, k->left_out);
        text_add(&b, STR("."));
    }
    str all = text_done(&b);
    char *first = (char *)(uintptr_t)all.p;
    if (*first >= 'a' && *first <= 'z') *first = (char)(*first - 'a' + 'A');
    return all;
}

/* What stands beside a $ref is not read, so it moves into an "allOf". */
static void set_description(json_t *keys, const char *name, const char *words)
{
    json_t *value = json_object_get(keys, name), *ref = json_object_get(value, "$ref");
    if (ref != NULL) {
        json_t *wrapped = json_pack("{s:s, s:[{s:O}]}", "description", words, "allOf", "$ref", ref);
        json_object_set_new(keys, name, wrapped);
    } else {
        json_object_set_new(value, "description", json_string(words));
    }
}

static unsigned check_property(kit *k, json_t *keys, const key_map *map, const key *one)
{
    const char *words = description_of(k->keep, one).p;
    json_t *value = json_object_get(keys, one->name);
    if (value == NULL)
        fail_msg("the schema does not know '%s' of '%s'", one->name, map->definition);
    if (update()) set_description(keys, one->name, words);
    const char *is =
        json_string_value(json_object_get(json_object_get(keys, one->name), "description"));
    if (is != NULL && strcmp(is, words) == 0) return 0;
    print_error("'%s' of '%s' is described as\n  %s\nnot as\n  %s\n", one->name, map->definition,
                is == NULL ? "" : is, words);
    return 1;
}

static bool is_required(json_t *map, const char *name)
{
    json_t *required = json_object_get(map, "required"), *one;
    size_t i;
    json_array_foreach(required, i, one) if (strcmp(json_string_value(one), name) == 0) return true;
    return false;
}

static unsigned check_definition(kit *k, json_t *root, const key_map *map)
{
    json_t *keys = keys_of(root, map->definition),
           *whole = json_object_get(json_object_get(root, "definitions"), map->definition);
    unsigned wrong = 0, count = 0;
    for (uint32_t i = 0; i < map->count; i++) {
        const key *one = &map->keys[i];
        if (one->kind == KEY_OLD) continue;
        wrong += check_property(k, keys, map, one);
        if (whole != NULL && is_required(whole, one->name) != one->must)
            fail_msg("'%s' of '%s' must be there, or need not", one->name, map->definition);
        count++;
    }
    if (count != json_object_size(keys))
        fail_msg("the schema has %zu keys of '%s', the table %u", json_object_size(keys),
                 map->definition, count);
    return wrong;
}

/* With TT_UPDATE_EXPECTED set the descriptions are written. */
static void test_the_schema_has_the_keys_of_the_tables(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    json_t *root = schema();
    unsigned wrong = 0;
    for (int id = 0; id < KEY_MAP_COUNT; id++)
        wrong += check_definition(&k, root, key_map_of((key_map_id)id));
    if (update()) {
        FILE *f = fopen(TT_SOURCE_DIR "/docs/book.schema.json", "wb");
        assert_non_null(f);
        assert_int_equal(json_dumpf(root, f, JSON_INDENT(1)), 0);
        fputc('\n', f);
        assert_int_equal(fclose(f), 0);
    }
    assert_int_equal(wrong, 0);
    json_decref(root);
    kit_end(&k);
}

/* What is read alike everywhere has one shape in the schema. */
static void test_kinds_of_keys_have_their_shapes(void **state)
{
    static const struct {
        key_kind kind;
        const char *shape;
    } shapes[] = {{KEY_TEXT, "text"},        {KEY_PHRASE, "text"},
                  {KEY_TEXTS, "texts"},      {KEY_PHRASES, "texts"},
                  {KEY_HEARD, "heard"},      {KEY_ROLE, "role"},
                  {KEY_TIME, "time"},        {KEY_WHEN, "condition"},
                  {KEY_PLACE, "place-name"}, {KEY_INSTRUMENT, "instrument-name"},
                  {KEY_PICTURE, "picture"},  {KEY_STEPS, "steps"}};
    (void)state;
    json_t *root = schema();
    unsigned seen = 0;
    for (int id = 0; id < KEY_MAP_COUNT; id++) {
        const key_map *map = key_map_of((key_map_id)id);
        for (uint32_t i = 0; i < map->count; i++)
            for (size_t s = 0; s < sizeof shapes / sizeof *shapes; s++) {
                if (map->keys[i].kind != shapes[s].kind) continue;
                json_t *value = json_object_get(keys_of(root, map->definition), map->keys[i].name);
                const char *ref = json_string_value(
                    json_object_get(json_array_get(json_object_get(value, "allOf"), 0), "$ref"));
                if (ref == NULL || strcmp(ref + strlen("#/definitions/"), shapes[s].shape) != 0)
                    fail_msg("'%s' of '%s' is no '%s' in the schema", map->keys[i].name,
                             map->definition, shapes[s].shape);
                seen++;
            }
    }
    assert_true(seen > 30);
    json_decref(root);
}

/* ---- the tables of the pages ---- */

static const key_map *map_called(str name)
{
    for (int id = 0; id < KEY_MAP_COUNT; id++) {
        const key_map *map = key_map_of((key_map_id)id);
        if (str_is(name, id == KEYS_FILE ? "file" : map->definition)) return map;
    }
    fail_msg("the page marks the keys of '%.*s', which no table has", STR_ARG(name));
    return NULL;
}

static void add_row(text_builder *b, const key *k)
{
    text_addf(b, "| `%s` | %s |%s%s |\n", k->name, k->says, *k->left_out == 0 ? "" : " ",
              k->left_out);
}

/* The page with each table behind a mark made anew. */
static str page_made(kit *k, str page, bool seen[KEY_MAP_COUNT])
{
    static const char begins[] = "<!-- keys of ", ends[] = " -->\n";
    text_builder b = {.keep = k->keep};
    size_t at;
    while ((at = str_find(page, str_of(begins))) != SIZE_MAX) {
        size_t from = at + sizeof begins - 1,
               to = from + str_find(str_slice(page, from, page.n), str_of(ends));
        const key_map *map = map_called(str_slice(page, from, to));
        text_add(&b, str_slice(page, 0, to + sizeof ends - 1));
        text_add(&b, STR("| key | says | left out |\n| --- | --- | --- |\n"));
        for (uint32_t i = 0; i < map->count; i++)
            if (map->keys[i].kind != KEY_OLD) add_row(&b, &map->keys[i]);
        for (int id = 0; id < KEY_MAP_COUNT; id++) {
            if (key_map_of((key_map_id)id) != map) continue;
            if (seen[id]) fail_msg("the keys of '%s' stand twice", map->definition);
            seen[id] = true;
        }
        page = str_slice(page, to + sizeof ends - 1, page.n);
        size_t gap = str_find(page, STR("\n\n"));
        page = gap == SIZE_MAX ? STR("") : str_slice(page, gap + 1, page.n);
    }
    text_add(&b, page);
    return text_done(&b);
}

/* With TT_UPDATE_EXPECTED set they are written. */
static void test_the_pages_have_the_keys_of_the_tables(void **state)
{
    static const char *const pages[] = {"language.md", "sites.md"};
    (void)state;
    bool seen[KEY_MAP_COUNT] = {false};
    for (size_t i = 0; i < sizeof pages / sizeof *pages; i++) {
        kit k;
        kit_begin(&k);
        const char *path = str_printf(k.keep, TT_SOURCE_DIR "/docs/%s", pages[i]).p;
        str page = kit_file(&k, path), made = page_made(&k, page, seen);
        bool same = str_eq(page, made);
        if (!same && update()) {
            FILE *f = fopen(path, "wb");
            assert_non_null(f);
            assert_int_equal(fwrite(made.p, 1, made.n, f), made.n);
            assert_int_equal(fclose(f), 0);
        } else if (!same) {
            fail_msg("the tables of docs/%s are not those of engine/read/key_tables.c; "
                     "TT_UPDATE_EXPECTED=1 writes them",
                     pages[i]);
        }
        kit_end(&k);
    }
    for (int id = 0; id < KEY_MAP_COUNT; id++)
        if (!seen[id])
            fail_msg("no page has the keys of '%s'", key_map_of((key_map_id)id)->definition);
}

/* ---- the rest of the schema ---- */

/* The file for sites alone has two sections of the other. */
static void test_the_schema_of_a_site_file(void **state)
{
    (void)state;
    json_t *root = schema(), *site = json_load_file(TT_SOURCE_DIR "/docs/site.schema.json",
                                                    JSON_REJECT_DUPLICATES, NULL);
    assert_non_null(site);
    json_t *keys = json_object_get(site, "properties");
    assert_int_equal(json_object_size(keys), 2);
    assert_string_equal(json_string_value(json_object_get(json_object_get(keys, "cases"), "$ref")),
                        "book.schema.json#/properties/cases");
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
        cmocka_unit_test(test_the_schema_has_the_keys_of_the_tables),
        cmocka_unit_test(test_kinds_of_keys_have_their_shapes),
        cmocka_unit_test(test_the_pages_have_the_keys_of_the_tables),
        cmocka_unit_test(test_the_schema_of_a_site_file),
        cmocka_unit_test(test_references_and_descriptions),
    };
    return cmocka_run_group_tests_name("schema of the rule files", tests, NULL, NULL);
}
