/* Bytes → nodes: shapes, texts, places. */
#include "testing.h"

#include "base/unicode.h"
#include "load/nodes.h"
#include "test_sources.h"

typedef struct kit {
    arena *keep, *scratch;
    faults *list;
    sources all;
    const node *root;
} kit;

static kit load(str bytes)
{
    kit k = {.keep = test_arena(), .scratch = test_arena()};
    k.list = faults_new(k.keep);
    k.all = source_from_text(k.keep, "rules.yaml", bytes);
    k.root = load_sources(k.keep, k.scratch, &k.all, k.list)[0];
    return k;
}

static kit load_good(const char *text)
{
    kit k = load(str_of(text));
    if (faults_errors(k.list) + faults_warnings(k.list) > 0)
        fail_msg("%s", faults_text(k.list, k.keep, &k.all, 0).p);
    return k;
}

static void done(kit *k)
{
    arena_free(k->keep);
    arena_free(k->scratch);
}

/* One line that says all of a tree: maps {a=b}, lists [a,b], texts with a mark for their style, *
 * inside brackets. */
static void tell(text_builder *b, const node *n)
{
    if (n->in_flow) text_add(b, STR("*"));
    if (n->kind == NODE_TEXT) {
        text_addf(b, "%s%.*s",
                  n->style == STYLE_PLAIN     ? ""
                  : n->style == STYLE_SINGLE  ? "'"
                  : n->style == STYLE_DOUBLE  ? "\""
                  : n->style == STYLE_LITERAL ? "|"
                                              : ">",
                  STR_ARG(n->text));
        return;
    }
    bool map = n->kind == NODE_MAP;
    text_add(b, n->style == STYLE_FLOW ? STR("f") : STR("b"));
    text_add(b, map ? STR("{") : STR("["));
    for (uint32_t i = 0; i < n->count; i++) {
        if (i > 0) text_add(b, STR(","));
        if (map) text_addf(b, "%.*s=", STR_ARG(n->entries[i].key));
        tell(b, map ? n->entries[i].value : n->items[i]);
    }
    text_add(b, map ? STR("}") : STR("]"));
}

static void check_tree(const char *text, const char *wanted)
{
    kit k = load_good(text);
    text_builder b = {.keep = k.keep};
    assert_non_null(k.root);
    tell(&b, k.root);
    assert_str(text_done(&b), wanted);
    done(&k);
}

static void shapes(void **state)
{
    (void)state;
    check_tree("a: b", "b{a=b}");
    check_tree("- a\n- - b\n  - c\n- d: e\n  f: g\n", "b[a,b[b,c],b{d=e,f=g}]");
    check_tree("a:\n- b\n- c\nd: e\n", "b{a=b[b,c],d=e}");
    check_tree("a: {b: [c, d], e: {f: g}}", "b{a=f{b=*f[*c,*d],e=*f{f=*g}}}");
    check_tree("a: []\nb: {}\n", "b{a=f[],b=f{}}");
    check_tree("just text", "just text");
    check_tree("[a: b, c]", "f[*f{a=*b},*c]");
    check_tree("? a\n: b\n", "b{a=b}");
    check_tree("--- # start\na: b\n...\n", "b{a=b}");
}

static void texts(void **state)
{
    (void)state;
    check_tree("a: 'it''s'\nb: \"x\\ty\\u00e9\"\n", "b{a='it's,b=\"x\ty\xC3\xA9}");
    check_tree("a: |\n  one\n   two\n\nb: >-\n  three\n  four\n",
               "b{a=|one\n two\n,b=>three four}");
    check_tree("a: one\n  two\n\n  three\n", "b{a=one two\nthree}");
    check_tree("a: ''\nb: \"\"\n", "b{a=',b=\"}");
    check_tree("a: b # comment\nc: one two  # comment\n# all of it\n", "b{a=b,c=one two}");
    check_tree("a: x:y  #z\nb: a#b\nc: http://x\n", "b{a=x:y,b=a#b,c=http://x}");
}

/* Every text is its text: the place where it stands says what it is. */
static void nothing_is_converted(void **state)
{
    (void)state;
    check_tree("[no, off, on, y, ~, null, true, 1:50, 010, 1.10, .5, 0x1F, 2026-01-02, 1e3, =]",
               "f[*no,*off,*on,*y,*~,*null,*true,*1:50,*010,*1.10,*.5,*0x1F,*2026-01-02,*1e3,*=]");
    check_tree("no: off\nyes: no\n~: null\n1: 2\n", "b{no=off,yes=no,~=null,1=2}");
}

static void nothing_at_all(void **state)
{
    (void)state;
    static const char *const empty[] = {
        "",      "\n\n",       "# only a comment\n", "   \n",
        "---\n", "---\n...\n", "\xEF\xBB\xBF",       "\xEF\xBB\xBF\n# x\n"};
    for (size_t i = 0; i < sizeof empty / sizeof *empty; i++) {
        kit k = load_good(empty[i]);
        assert_null(k.root);
        done(&k);
    }
    kit k = load((str){NULL, 0});
    assert_null(k.root);
    assert_int_equal(faults_errors(k.list), 0);
    done(&k);
}

/* ---- places ---- */

static void check_span(const kit *k, span at, const char *wanted)
{
    assert_int_equal(at.file, 0);
    assert_true(at.start <= at.end && at.end <= k->all.items[0].bytes.n);
    assert_str(str_slice(k->all.items[0].bytes, at.start, at.end), wanted);
}

static void places_are_bytes_of_the_file(void **state)
{
    (void)state;
    kit k = load_good("\xEF\xBB\xBF"
                      "b\xC3\xBCrste: '\xE6\xB0\xB4 x'  # \xF0\x9F\x92\xA7\nlist:\n  - one\n  - "
                      "\xC3\xA9t\xC3\xA9: {x: [y]}\nlast: \xC3\xA9\xC3\xA9 z  \n\n# end\n");
    const node *r = k.root;
    check_span(&k, r->entries[0].key_at, "b\xC3\xBCrste");
    check_span(&k, r->entries[0].value->at, "'\xE6\xB0\xB4 x'");
    check_span(&k, r->entries[1].key_at, "list");
    const node *list = r->entries[1].value;
    check_span(&k, list->at, "- one\n  - \xC3\xA9t\xC3\xA9: {x: [y]}");
    check_span(&k, list->items[0]->at, "one");
    check_span(&k, list->items[1]->at, "\xC3\xA9t\xC3\xA9: {x: [y]}");
    check_span(&k, list->items[1]->entries[0].value->at, "{x: [y]}");
    check_span(&k, list->items[1]->entries[0].value->entries[0].value->at, "[y]");
    check_span(&k, r->entries[2].value->at, "\xC3\xA9\xC3\xA9 z");
    assert_int_equal(r->at.start, 3);
    assert_int_equal(r->at.end, r->entries[2].value->at.end);
    done(&k);
}

static void blocks_end_with_their_last_word(void **state)
{
    (void)state;
    kit k = load_good("a: |\n  one\n\n\n\nb: >\n  two\nc:\n  d: \"e\n    f\"\n\n\nz: y\n");
    check_span(&k, node_get(k.root, "a")->at, "|\n  one");
    check_span(&k, node_get(k.root, "b")->at, ">\n  two");
    check_span(&k, node_get(k.root, "c")->at, "d: \"e\n    f\"");
    done(&k);
}

static void windows_line_ends(void **state)
{
    (void)state;
    kit k = load_good("a: |\r\n  one\r\n  two\r\nb:\r\n  - \xC3\xA9\r\n  - d\r\n");
    assert_str(node_get(k.root, "a")->text, "one\ntwo\n");
    check_span(&k, node_get(k.root, "a")->at, "|\r\n  one\r\n  two");
    check_span(&k, node_get(k.root, "b")->items[1]->at, "d");
    done(&k);
}

static void getting_values(void **state)
{
    (void)state;
    kit k = load_good("a: b\nc: [d]\n");
    assert_str(node_get(k.root, "a")->text, "b");
    assert_null(node_get(k.root, "x"));
    assert_null(node_get(k.root, ""));
    assert_null(node_get(node_get(k.root, "c"), "d"));
    assert_null(node_get(NULL, "a"));
    done(&k);
}

/* ---- JSON is nearly YAML ---- */

static void json(void **state)
{
    (void)state;
    check_tree(
        "{\"answers\": {\"foam-look\":\"stiff\",\"psi\":55,\"ok\":true,\"x\":null},\n\t\"list\": "
        "[\"a\",\"b\"], \"e\":\"\"}\n",
        "f{answers=*f{foam-look=*\"stiff,psi=*55,ok=*true,x=*null},list=*f[*\"a,*\"b],e=*\"}");
    check_tree("{\"a\": \"x\\/y \\\"z\\\" \\\\ \\u00e9\\n\"}", "f{a=*\"x/y \"z\" \\ \xC3\xA9\n}");
    check_tree("{\"a\":1,\"b\":-2.5e3,\"c\":[]}", "f{a=*1,b=*-2.5e3,c=*f[]}");
    check_tree("[]", "f[]");
}

/* A character beyond U+FFFF may be written as itself, but not as two halves. */
static void json_halves_of_characters_are_refused(void **state)
{
    (void)state;
    check_tree("{\"a\": \"\xF0\x9F\x92\xA7\"}", "f{a=*\"\xF0\x9F\x92\xA7}");
    check_tree("{\"a\": \"\\U0001F4A7\"}", "f{a=*\"\xF0\x9F\x92\xA7}");
    kit k = load(STR("{\"a\": \"\\ud83d\\udca7\"}"));
    assert_null(k.root);
    assert_int_equal(faults_errors(k.list), 1);
    done(&k);
}

/* ---- after a fault ---- */

static void other_files_are_read_all_the_same(void **state)
{
    (void)state;
    arena *keep = test_arena(), *scratch = test_arena();
    faults *list = faults_new(keep);
    sources all = sources_from_texts(keep, "a.yaml", "a: [b\n", "b.yaml", "c: d\n", "c.yaml",
                                     "e: 'f\n", "d.yaml", "g: h\n", NULL);
    const node **roots = load_sources(keep, scratch, &all, list);
    assert_null(roots[0]);
    assert_str(node_get(roots[1], "c")->text, "d");
    assert_int_equal(roots[1]->at.file, 1);
    assert_null(roots[2]);
    assert_non_null(roots[3]);
    assert_int_equal(faults_errors(list), 2);
    assert_int_equal(arena_size(scratch), 0);
    arena_free(keep);
    arena_free(scratch);
}

/* What the next stage would say of the gap has been said. */
static void gaps_are_silent(void **state)
{
    (void)state;
    kit k = load(STR("a:\nb: *c\nd:\n  -\n  - e\nf: {g, h}\n<<: {i: j}\nk: {l: m}\nk: n\n"));
    uint32_t before = faults_errors(k.list);
    assert_int_equal(before, 6);
    assert_int_equal(k.root->count, 5);
    const node *gaps[] = {node_get(k.root, "a"), node_get(k.root, "b"),
                          node_get(k.root, "d")->items[0], node_get(k.root, "f"),
                          node_get(node_get(k.root, "f"), "g")};
    for (size_t i = 0; i < 5; i++)
        fault_add(k.list, FAULT_NOT_YAML, gaps[i]->at, "follows from it");
    fault_add(k.list, FAULT_NOT_YAML, k.root->entries[0].key_at, "follows from it");
    assert_int_equal(faults_errors(k.list), before);
    for (size_t i = 0; i < 3; i++) assert_int_equal(gaps[i]->text.n, 0);
    assert_int_equal(node_get(k.root, "k")->kind, NODE_MAP); /* the first of two stays */
    fault_add(k.list, FAULT_NOT_YAML, node_get(k.root, "k")->at, "something else");
    assert_int_equal(faults_errors(k.list), before + 1);
    done(&k);
}

/* Anchors and tags are refused, and what they stand before is read. */
static void the_node_behind_a_tag_is_read(void **state)
{
    (void)state;
    kit k = load(STR("a: !x &y [b]\nc: &z\n  d: e\nf: !!str\n  |\n  g\n"));
    assert_int_equal(faults_errors(k.list), 4);
    check_span(&k, node_get(k.root, "a")->at, "[b]");
    check_span(&k, node_get(k.root, "c")->at, "d: e");
    check_span(&k, node_get(k.root, "f")->at, "|\n  g");
    done(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shapes),
        cmocka_unit_test(texts),
        cmocka_unit_test(nothing_is_converted),
        cmocka_unit_test(nothing_at_all),
        cmocka_unit_test(places_are_bytes_of_the_file),
        cmocka_unit_test(blocks_end_with_their_last_word),
        cmocka_unit_test(windows_line_ends),
        cmocka_unit_test(getting_values),
        cmocka_unit_test(json),
        cmocka_unit_test(json_halves_of_characters_are_refused),
        cmocka_unit_test(other_files_are_read_all_the_same),
        cmocka_unit_test(gaps_are_silent),
        cmocka_unit_test(the_node_behind_a_tag_is_read),
    };
    return cmocka_run_group_tests_name("nodes", tests, NULL, NULL);
}
