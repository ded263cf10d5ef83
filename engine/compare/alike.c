/* Which worked cases must come out as they did in the edition before. */
#include <assert.h>

#include "load/nodes.h"
#include "session/session.h"

/* As it is written, but for comments and layout. */
static bool same_tree(const node *a, const node *b)
{
    if (a == NULL || b == NULL) return a == b;
    if (a->kind != b->kind || a->style != b->style || a->count != b->count) return false;
    if (a->kind == NODE_TEXT) return str_eq(a->text, b->text);
    bool same = true;
    for (uint32_t i = 0; same && i < a->count; i++) {
        if (a->kind == NODE_LIST) same = same_tree(a->items[i], b->items[i]);
        if (a->kind == NODE_MAP)
            same = str_eq(a->entries[i].key, b->entries[i].key) &&
                   same_tree(a->entries[i].value, b->entries[i].value);
    }
    return same;
}

static bool are_cases(const node_entry *section)
{
    return str_is(section->key, "cases");
}

static uint32_t next_section(const node *root, uint32_t from)
{
    while (from < root->count && are_cases(&root->entries[from])) from++;
    return from;
}

/* Two files but for their cases. */
static bool same_rules(const node *a, const node *b)
{
    uint32_t i = next_section(a, 0), k = next_section(b, 0);
    while (i < a->count && k < b->count) {
        if (!str_eq(a->entries[i].key, b->entries[k].key) ||
            !same_tree(a->entries[i].value, b->entries[k].value))
            return false;
        i = next_section(a, i + 1);
        k = next_section(b, k + 1);
    }
    return i == a->count && k == b->count;
}

/* No map: a picture, or nothing that could be read. */
static bool same_file(const tt_book *a, const tt_book *b, uint32_t file)
{
    const node *one = a->roots[file], *two = b->roots[file];
    if (!str_eq(a->files.items[file].name, b->files.items[file].name)) return false;
    if (one == NULL || two == NULL || one->kind != NODE_MAP || two->kind != NODE_MAP)
        return str_eq(a->files.items[file].bytes, b->files.items[file].bytes);
    return same_rules(one, two);
}

/* Files with cases and nothing else may come and go; here they make all cases others. */
static bool same_but_for_cases(const tt_book *a, const tt_book *b)
{
    bool same = a->files.count == b->files.count;
    for (uint32_t f = 0; same && f < a->files.count; f++) same = same_file(a, b, f);
    return same;
}

/* What is written under the name of a case, in its file; null for one of several made of it. */
static const node *case_node(const tt_book *b, uint32_t index)
{
    const label *id = &b->book->cases[index].id;
    const node *root = id->at.file == NO_FILE ? NULL : b->roots[id->at.file],
               *cases = root == NULL ? NULL : node_get(root, "cases");
    for (uint32_t i = 0; cases != NULL && cases->kind == NODE_MAP && i < cases->count; i++)
        if (str_eq(cases->entries[i].key, id->name)) return cases->entries[i].value;
    return NULL;
}

static uint32_t case_named(const tt_book *b, str name)
{
    for (uint32_t i = 0; i < b->book->case_count; i++)
        if (str_eq(b->book->cases[i].id.name, name)) return i;
    return TT_NONE;
}

/* In the file of the same name: a file says for which pieces its entries are. */
static uint32_t same_case(const tt_book *now, const tt_book *before, uint32_t index)
{
    const label *id = &now->book->cases[index].id;
    const uint32_t old = case_named(before, id->name);
    const node *written = case_node(now, index);
    if (old == TT_NONE || written == NULL) return TT_NONE;
    if (before->book->cases[old].id.at.file != id->at.file) return TT_NONE;
    return same_tree(written, case_node(before, old)) ? old : TT_NONE;
}

typedef struct comparing {
    tt_book *now;
    const tt_book *before;
    tt_case_alike *out;
} comparing;

static tt_status compare(void *context)
{
    comparing *x = context;
    const book *b = x->now->book;
    const bool same = same_but_for_cases(x->now, x->before);
    x->out = ARENA_ARRAY(x->now->keep, tt_case_alike, b->case_count);
    for (uint32_t i = 0; i < b->case_count; i++)
        x->out[i] = (tt_case_alike){same ? same_case(x->now, x->before, i) : TT_NONE,
                                    place_words(x->now->keep, x->now, b->cases[i].id.at)};
    return TT_OK;
}

tt_status tt_cases_alike(tt_book *now, const tt_book *before, const tt_case_alike **out)
{
    assert(now != NULL && before != NULL && out != NULL);
    comparing x = {now, before, NULL};
    const tt_status status = guarded(&now->keep, 1, compare, &x);
    *out = status == TT_OK ? x.out : NULL;
    return status;
}
