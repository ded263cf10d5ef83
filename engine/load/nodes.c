/* From files to trees: each is checked, parsed and built, or it is said why not. */
#include "load/nodes.h"

#include <assert.h>

#include "load/checks.h"
#include "load/moved_tree.h"

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

/* Where it stood before with the same bytes, and nothing was said of it; or NO_FILE. */
static uint32_t as_before(const loaded_before *before, const source *s, uint32_t left)
{
    for (uint32_t i = 0; before != NULL && i < before->files->count; i++) {
        const source *old = &before->files->items[i];
        if (!str_eq(old->name, s->name)) continue;
        const bool same =
            before->nodes[i] > 0 && before->nodes[i] < left && str_eq(old->bytes, s->bytes);
        return same ? i : NO_FILE;
    }
    return NO_FILE;
}

static const node *take_over(arena *keep, const loaded_before *before, uint32_t from, uint32_t file)
{
    const moved_tree move = {keep, file};
    return node_moved(&move, before->roots[from]);
}

/* Returns what of the limit it took, if nothing was said of it. */
static uint32_t load_new(arena *keep, arena *scratch, const sources *all, uint32_t file,
                         uint32_t *budget, faults *list, const node **root)
{
    const uint32_t left = *budget, said = faults_errors(list) + faults_warnings(list);
    *root = load_source(keep, scratch, all, file, budget, list);
    return faults_errors(list) + faults_warnings(list) == said ? left - *budget : 0;
}

loaded_files load_sources_again(arena *keep, arena *scratch, const sources *all,
                                const loaded_before *before, faults *list)
{
    assert(keep != scratch);
    const node **roots = ARENA_ARRAY(keep, const node *, all->count);
    uint32_t *nodes = ARENA_ARRAY(keep, uint32_t, all->count), budget = LOAD_NODES_MAX + 1;
    const bool few = check_count(all, list);
    for (uint32_t i = 0; few && i < all->count; i++) {
        if (source_is_picture(&all->items[i])) continue;
        const uint32_t old = as_before(before, &all->items[i], budget);
        if (old == NO_FILE) {
            nodes[i] = load_new(keep, scratch, all, i, &budget, list, &roots[i]);
            continue;
        }
        roots[i] = take_over(keep, before, old, i);
        nodes[i] = before->nodes[old];
        budget -= nodes[i];
    }
    return (loaded_files){roots, nodes};
}

const node **load_sources(arena *keep, arena *scratch, const sources *all, faults *list)
{
    return load_sources_again(keep, scratch, all, NULL, list).roots;
}

const node *node_find(const node *map, const char *key)
{
    assert(map->kind == NODE_MAP && key[0] != 0);
    const node_entry *const end = map->entries + map->count;
    for (const node_entry *e = map->entries; e < end; e++)
        if (e->key.n > 0 && e->key.p[0] == key[0] && str_is(e->key, key)) return e->value;
    return NULL;
}
