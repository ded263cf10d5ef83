/* Entries taken out of a map and put into it, in every layout and every choice of them: read again,
 * the map has what it is to have, and what stood around it stays. */
#include "testing.h"

#include "load/nodes.h"
#include "revise/map_edits.h"
#include "test_sources.h"

enum { ENTRIES = 4 };
static const char *const keys[ENTRIES] = {"a", "b", "c", "d"};
static const added_entry more[2] = {{"x", "1 of 7"}, {"y", "rarely"}};

/* Of each map the entries are a: often, b: 5 %, c: "12", d: 1 of 20. */
static const char *const layouts[] = {
    "m:\n  a: often\n  b: 5 %\n  c: \"12\"\n  d: 1 of 20\nafter: it\n",
    "m:\n  a: often\n  b: 5 %\n  c: \"12\"\n  d: 1 of 20",
    "m:\r\n  a: often\r\n  b: 5 %\r\n  c: \"12\"\r\n  d: 1 of 20\r\nafter: it\r\n",
    "m: # kept 1\n  # kept 2\n  a: often # kept 3\n  b: 5 %  \n\n  c: \"12\"\t# kept 4\n  d: 1 of "
    "20#\n# "
    "kept 5\n",
    "m: {a: often, b: 5 %, c: \"12\", d: 1 of 20}\nafter: it\n",
    "m: { a: often,b: 5 % , c: \"12\" ,d: 1 of 20 } # kept 1\n",
    "m: {\n  a: often,\n  b: 5 %,\n  c: \"12\",\n  d: 1 of 20\n}\n",
    "m: {a: often, # kept 1\n    b: 5 %, c: \"12\", # kept 2\n    d: 1 of 20,\n  }\nafter: it\n",
    "m: {a: often,# kept 1\n  b: 5 %,# kept 2\n  c: \"12\" # kept 3\n  , d: 1 of 20}",
    "{n: {o: x}, m: {a: often, b: 5 %, c: \"12\", d: 1 of 20}, after: it}",
    "{\"m\":{\"a\":\"often\",\"b\":\"5 %\",\"c\":\"12\",\"d\":\"1 of 20\"}}\n",
};

static const node *root_of(arena *keep, arena *scratch, str text)
{
    const sources all = source_from_text(keep, "a.yaml", text);
    faults *list = faults_new(keep);
    const node *root = load_sources(keep, scratch, &all, list)[0];
    uint32_t count;
    const fault *told = faults_sorted(list, scratch, &count);
    if (count > 0) fail_msg("%.*s in\n%s", STR_ARG(told[0].text), text.p);
    return root;
}

static bool is_added(const node *map, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        const node *value = node_get(map, more[i].key);
        if (value == NULL || !str_is(value->text, more[i].value)) return false;
    }
    return true;
}

/* What it says now, and that comments stand which stood before. */
static void assert_edited(arena *keep, arena *scratch, const char *before, str after,
                          unsigned taken, uint32_t added)
{
    const node *was = node_get(root_of(keep, scratch, str_of(before)), "m"),
               *root = root_of(keep, scratch, after), *map = node_get(root, "m");
    uint32_t wanted = added;
    bool right = map != NULL && map->kind == NODE_MAP && is_added(map, added);
    for (uint32_t i = 0; i < ENTRIES && right; i++) {
        const node *value = node_get(map, keys[i]);
        const bool there = (taken >> i & 1) == 0;
        wanted += there;
        right = there == (value != NULL) &&
                (!there || str_eq(value->text, node_get(was, keys[i])->text));
    }
    for (char c = '1'; c <= '5' && right; c++) {
        const char *comment = str_printf(keep, "# kept %c", c).p;
        right = strstr(before, comment) == NULL || strstr(after.p, comment) != NULL;
    }
    right = right && map->count == wanted &&
            (strstr(before, "after") == NULL) == (node_get(root, "after") == NULL);
    if (!right) fail_msg("%s\nwithout %u, with %u more, became\n%s", before, taken, added, after.p);
}

static void edit_one(const char *before, unsigned taken, uint32_t added)
{
    arena *keep = test_arena(), *scratch = test_arena();
    const tt_source source = {"a.yaml", before, strlen(before)};
    const node *map = node_get(root_of(keep, scratch, str_of(before)), "m");
    bool gone[ENTRIES];
    edit_list e = {.keep = keep, .sources = &source, .source_count = 1};
    for (uint32_t i = 0; i < ENTRIES; i++) gone[i] = (taken >> i & 1) != 0;
    edit_map(&e, map, gone, more, added);
    edit_sort(&e);
    const tt_source *out = edited_sources(keep, &source, 1, e.items, e.count);
    assert_edited(keep, scratch, before, (str){out->bytes, out->length}, taken, added);
    arena_free(keep);
    arena_free(scratch);
}

static void every_choice_in_every_layout(void **state)
{
    (void)state;
    for (size_t l = 0; l < sizeof layouts / sizeof *layouts; l++)
        for (unsigned taken = 0; taken < 1u << ENTRIES; taken++)
            for (uint32_t added = 0; added < 3; added++) {
                const bool left = taken != (1u << ENTRIES) - 1 || added > 0;
                if (left) edit_one(layouts[l], taken, added);
            }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_choice_in_every_layout)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
