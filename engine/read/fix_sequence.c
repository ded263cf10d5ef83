/* `after` and `before`: which fixes are tried first. */
#include <assert.h>

#include "read/reader.h"

/* One name, or a list of them. */
static ids read_names(reader *r, const node *n, const char *what)
{
    if (n->kind != NODE_TEXT) return read_ids(r, SECTION_FIXES, n, what);
    names_found found;
    ids_draft all = {0};
    if (resolve_many(r, SECTION_FIXES, str_trim(n->text), n->at, &found)) ids_add(r, &all, &found);
    return ids_of(all.items, all.count);
}

static void add_first(reader *r, fix *later, uint32_t first)
{
    names_found one = {.ids = &first, .count = 1},
                before = {.ids = later->after.items, .count = later->after.count};
    ids_draft all = {0};
    ids_add(r, &all, &before);
    ids_add(r, &all, &one);
    later->after = ids_of(all.items, all.count);
}

static void comes_round(reader *r, const fix *f)
{
    fault *x = fault_add(r->list, FAULT_FIXES_LOOP, f->id.at,
                         "By 'after' and 'before', '%.*s' would be tried before itself.",
                         STR_ARG(f->of.base));
    fault_help(r->list, x, "Leave one of them out, so that one of these fixes comes first.");
}

/* Fixes that come before `from`, each looked at once. */
static bool leads_back(reader *r, const fix *fixes, uint32_t from)
{
    bool *seen = ARENA_ARRAY(r->scratch, bool, r->book->fix_count);
    uint32_t *queue = ARENA_ARRAY(r->scratch, uint32_t, r->book->fix_count), count = 0;
    const ids *first = &fixes[from].after;
    for (uint32_t next = 0;; next++) {
        for (uint32_t i = 0; i < first->count; i++) {
            const uint32_t f = first->items[i];
            if (f == from) return true;
            if (!seen[f]) queue[count++] = f;
            seen[f] = true;
        }
        if (next == count) return false;
        first = &fixes[queue[next]].after;
    }
}

void read_fix_sequence(reader *r, fix *fixes)
{
    const name_table *t = &r->tables[SECTION_FIXES];
    assert(t->count == r->book->fix_count);
    for (uint32_t i = 0; i < t->count; i++) {
        const node *body = t->items[i].body;
        const node *after = node_get(body, "after"), *before = node_get(body, "before");
        enter(r, &t->items[i]);
        const ids first = after != NULL ? read_names(r, after, "'after'") : (ids){0},
                  later = before != NULL ? read_names(r, before, "'before'") : (ids){0};
        for (uint32_t k = 0; k < first.count; k++) add_first(r, &fixes[i], first.items[k]);
        for (uint32_t k = 0; k < later.count; k++) add_first(r, &fixes[later.items[k]], i);
    }
    for (uint32_t i = 0; i < t->count; i++)
        if (fixes[i].after.count > 0 && leads_back(r, fixes, i)) comes_round(r, &fixes[i]);
}
