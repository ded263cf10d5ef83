/* From files to trees: each is checked, parsed and built, or it is said why not. */
#include "load/nodes.h"

#include <assert.h>

#include "load/checks.h"

const node *load_source(arena *keep, arena *scratch, const sources *all, uint32_t file,
                        uint32_t *budget, faults *list)
{
    assert(file < all->count && keep != scratch);
    const source *s = &all->items[file];
    if (*budget == 0 || !check_bytes(all, file, list)) return NULL;
    if (s->bytes.n == source_text_start(s)) return NULL;
    arena_mark mark = arena_here(scratch);
    events seen = read_events(keep, scratch, s, budget);
    assert(*budget > 0);
    if (seen.stop == STOP_NO_MEMORY) arena_leave(keep);
    if (seen.stop == STOP_NODES) *budget = 0;
    const node *root = NULL;
    if (seen.stop == STOP_AT_END)
        root = build_tree(keep, scratch, s, file, &seen, list);
    else
        report_stop(s, file, &seen, list);
    arena_back_to(scratch, mark);
    return root;
}

static bool check_count(const sources *all, faults *list)
{
    if (all->count <= LOAD_FILES_MAX) return true;
    fault *f =
        fault_add(list, FAULT_TOO_MANY_FILES, span_nowhere(), "There are %u files; the most is %u",
                  all->count, (unsigned)LOAD_FILES_MAX);
    fault_help(list, f, "look whether this is the book's own folder");
    return false;
}

const node **load_sources(arena *keep, arena *scratch, const sources *all, faults *list)
{
    assert(keep != scratch);
    const node **roots = ARENA_ARRAY(keep, const node *, all->count);
    uint32_t budget = LOAD_NODES_MAX + 1;
    if (!check_count(all, list)) return roots;
    for (uint32_t i = 0; i < all->count; i++)
        if (!source_is_picture(&all->items[i]))
            roots[i] = load_source(keep, scratch, all, i, &budget, list);
    return roots;
}

const node *node_get(const node *map, const char *key)
{
    assert(key != NULL);
    if (map == NULL || map->kind != NODE_MAP) return NULL;
    for (uint32_t i = 0; i < map->count; i++)
        if (str_is(map->entries[i].key, key)) return map->entries[i].value;
    return NULL;
}
