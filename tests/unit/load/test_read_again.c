/* A file that is as it was is not parsed again: its tree is that of a reading anew, place for
 * place, also after what it was read into is gone. */
#include "testing.h"

#include "load/nodes.h"
#include "test_sources.h"

typedef struct reading {
    arena *keep, *scratch;
    faults *list;
    sources all;
    loaded_files as;
} reading;

static reading begin(void)
{
    reading r = {.keep = test_arena(), .scratch = test_arena()};
    r.list = faults_new(r.keep);
    return r;
}

static void read_all(reading *r, const reading *before)
{
    const loaded_before old =
        before == NULL ? (loaded_before){.files = NULL}
                       : (loaded_before){&before->all, before->as.roots, before->as.nodes};
    r->as = load_sources_again(r->keep, r->scratch, &r->all, before == NULL ? NULL : &old, r->list);
}

static void end(reading *r)
{
    arena_free(r->keep);
    arena_free(r->scratch);
}

static void same_node(const node *a, const node *b)
{
    if (a == NULL || b == NULL) {
        assert_ptr_equal(a, b);
        return;
    }
    assert_int_equal(a->kind, b->kind);
    assert_int_equal(a->style, b->style);
    assert_int_equal(a->in_flow, b->in_flow);
    assert_memory_equal(&a->at, &b->at, sizeof a->at);
    if (a->kind == NODE_TEXT) {
        assert_true(str_eq(a->text, b->text));
        return;
    }
    assert_int_equal(a->count, b->count);
    for (uint32_t i = 0; i < a->count; i++) {
        if (a->kind == NODE_LIST) same_node(a->items[i], b->items[i]);
        if (a->kind != NODE_MAP) continue;
        assert_true(str_eq(a->entries[i].key, b->entries[i].key));
        assert_memory_equal(&a->entries[i].key_at, &b->entries[i].key_at, sizeof(span));
        same_node(a->entries[i].value, b->entries[i].value);
    }
}

static void same_reading(const reading *a, const reading *b)
{
    assert_int_equal(a->all.count, b->all.count);
    for (uint32_t i = 0; i < a->all.count; i++) {
        same_node(a->as.roots[i], b->as.roots[i]);
        assert_int_equal(a->as.nodes[i], b->as.nodes[i]);
    }
    assert_str(faults_text(a->list, a->keep, &a->all, 0),
               faults_text(b->list, b->keep, &b->all, 0).p);
}

static const char every_shape[] = "\xEF\xBB\xBF"
                                  "a: plain, 'with' \"marks\"\n"
                                  "b: 'it''s'\nc: \"two\\nlines \\u00e9\"\n"
                                  "d: |\n  kept\n  lines\ne: >\n  folded\n  lines\n"
                                  "f: {g: [h, 'i'], j: {}}\nk:\n  - l\n  - m: n\n    o: p\n";

/* The second in the list, then the third: whatever names its file has another one. */
static void what_is_the_same_is_taken_over(void **state)
{
    (void)state;
    reading before = begin(), now = begin(), anew = begin();
    before.all = sources_from_texts(before.keep, "a.yaml", "a: b\n", "b.yaml", every_shape,
                                    "c.yaml", "", NULL);
    read_all(&before, NULL);
    assert_true(before.as.nodes[1] > 10);
    now.all = sources_from_texts(now.keep, "a.yaml", "a: c\n", "aa.yaml", "a: b\n", "b.yaml",
                                 every_shape, "c.yaml", "", NULL);
    anew.all = sources_from_texts(anew.keep, "a.yaml", "a: c\n", "aa.yaml", "a: b\n", "b.yaml",
                                  every_shape, "c.yaml", "", NULL);
    read_all(&now, &before);
    read_all(&anew, NULL);
    end(&before);
    same_reading(&now, &anew);
    end(&now);
    end(&anew);
}

/* A tree that is not that of the bytes shows where it came from. */
static void it_is_not_parsed(void **state)
{
    (void)state;
    reading before = begin(), now = begin();
    before.all =
        sources_from_texts(before.keep, "a.yaml", "a: [b, c]\n", "b.yaml", "d: efghij\n", NULL);
    read_all(&before, NULL);
    const node *planted[] = {before.as.roots[0], before.as.roots[0]};
    now.all = sources_from_texts(now.keep, "b.yaml", "d: efghij\n", NULL);
    const loaded_before old = {&before.all, planted, before.as.nodes};
    now.as = load_sources_again(now.keep, now.scratch, &now.all, &old, now.list);
    assert_non_null(node_get(now.as.roots[0], "a"));
    assert_null(node_get(now.as.roots[0], "d"));
    end(&before);
    end(&now);
}

static void what_was_wrong_is_said_again(void **state)
{
    (void)state;
    reading before = begin(), now = begin(), anew = begin();
    static const char wrong[] = "a: b\na: c\nd:\n",
                      doubtful[] = "a: \u201Cb\u201D\n"; /* an error, a warning */
    before.all = sources_from_texts(before.keep, "a.yaml", wrong, "b.yaml", "c: [\n", "c.yaml",
                                    doubtful, NULL);
    read_all(&before, NULL);
    assert_int_equal(before.as.nodes[0], 0);
    assert_int_equal(before.as.nodes[1], 0);
    assert_int_equal(before.as.nodes[2], 0);
    now.all =
        sources_from_texts(now.keep, "a.yaml", wrong, "b.yaml", "c: [\n", "c.yaml", doubtful, NULL);
    anew.all = sources_from_texts(anew.keep, "a.yaml", wrong, "b.yaml", "c: [\n", "c.yaml",
                                  doubtful, NULL);
    read_all(&now, &before);
    read_all(&anew, NULL);
    same_reading(&now, &anew);
    assert_true(faults_errors(now.list) >= 3);
    assert_int_equal(faults_warnings(now.list), 1);
    end(&before);
    end(&now);
    end(&anew);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_the_same_is_taken_over),
        cmocka_unit_test(it_is_not_parsed),
        cmocka_unit_test(what_was_wrong_is_said_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
