/* The tree of a file that is loaded again with the same bytes, with texts of its own. */
#include "load/moved_tree.h"

static str moved_text(const moved_tree *m, str text)
{
    return text.n == 0 ? STR("") : str_copy(m->keep, text);
}

static span moved_span(const moved_tree *m, span at)
{
    at.file = m->file;
    return at;
}

static const node_entry *moved_entries(const moved_tree *m, const node *n)
{
    node_entry *entries = ARENA_ARRAY(m->keep, node_entry, n->count);
    for (uint32_t i = 0; i < n->count; i++)
        entries[i] =
            (node_entry){moved_text(m, n->entries[i].key), moved_span(m, n->entries[i].key_at),
                         node_moved(m, n->entries[i].value)};
    return entries;
}

static const node *const *moved_items(const moved_tree *m, const node *n)
{
    const node **items = ARENA_ARRAY(m->keep, const node *, n->count);
    for (uint32_t i = 0; i < n->count; i++) items[i] = node_moved(m, n->items[i]);
    return items;
}

/* As deep as a file may be, which is not deep. */
const node *node_moved(const moved_tree *m, const node *n)
{
    if (n == NULL) return NULL;
    node *out = ARENA_NEW(m->keep, node);
    *out = *n;
    out->at = moved_span(m, n->at);
    if (n->kind == NODE_TEXT) out->text = moved_text(m, n->text);
    if (n->kind == NODE_LIST) out->items = moved_items(m, n);
    if (n->kind == NODE_MAP) out->entries = moved_entries(m, n);
    return out;
}
