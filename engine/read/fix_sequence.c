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

/* One more than a fix may wait for is enough to tell. */
static void add_first(reader *r, fix *later, uint32_t first)
{
    if (later->after.count > FIRST_FIXES_MAX) return;
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

static void too_many_before(reader *r, span at, str one, uint32_t most)
{
    fault *x = one.n > 0
                   ? fault_add(r->list, FAULT_TOO_MANY, at,
                               "'%.*s' waits for more than %u other fixes, all counted.",
                               STR_ARG(one), most)
                   : fault_add(r->list, FAULT_TOO_MANY, at,
                               "With this fix, fixes wait for others more than %u times, those "
                               "of each piece of equipment counted.",
                               most);
    fault_help(r->list, x,
               "Leave 'after' and 'before' out where the order of harm and minutes will do.");
}

/* What comes before some fix, each looked at once. */
typedef struct before_walk {
    uint32_t *seen; /* [fix] + 1 of whom it was seen for */
    uint32_t *queue, count;
    uint32_t looked_at, all; /* names in 'after', for this fix and for all */
} before_walk;

/* Up to one more than one fix may wait for. True: `from` is among them. */
static bool leads_back(before_walk *w, const fix *fixes, uint32_t from)
{
    const ids *first = &fixes[from].after;
    w->count = w->looked_at = 0;
    for (uint32_t next = 0;; next++) {
        for (uint32_t i = 0; i < first->count; i++) {
            const uint32_t f = first->items[i];
            w->looked_at++;
            if (f == from) return true;
            if (w->seen[f] == from + 1) continue;
            w->seen[f] = from + 1;
            w->queue[w->count++] = f;
            if (w->count > FIRST_FIXES_MAX) return false;
        }
        if (next == w->count) return false;
        first = &fixes[w->queue[next]].after;
    }
}

static void check_before(reader *r, before_walk *w, const fix *fixes, uint32_t i)
{
    const fix *f = &fixes[i];
    if (leads_back(w, fixes, i)) {
        comes_round(r, f);
        return;
    }
    if (w->count > FIRST_FIXES_MAX) too_many_before(r, f->id.at, f->of.base, FIRST_FIXES_MAX);
    const bool fitted = w->all <= WAITING_FIXES_MAX;
    w->all += w->looked_at;
    if (fitted && w->all > WAITING_FIXES_MAX)
        too_many_before(r, f->id.at, STR(""), WAITING_FIXES_MAX);
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
    before_walk w = {ARENA_ARRAY(r->scratch, uint32_t, t->count),
                     ARENA_ARRAY(r->scratch, uint32_t, t->count), 0, 0, 0};
    for (uint32_t i = 0; i < t->count; i++)
        if (fixes[i].after.count > 0) check_before(r, &w, fixes, i);
}
