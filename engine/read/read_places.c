/* Where one stands to look or to work, and how long it is from there to there. */
#include <assert.h>
#include <stdlib.h>

#include "read/reader.h"

static void walk_fault(reader *r, span at, str to, const char *what, const char *remedy)
{
    fault *f = fault_add(r->list, FAULT_BAD_WALK, at, "'%.*s' %s.", STR_ARG(to), what);
    fault_help(r->list, f, "%s", remedy);
}

/* `walk: {drums: 1 min}` */
static void read_walks(reader *r, const node *n, uint32_t self, spot *p)
{
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, "'walk'", "a map from place to time, such as {drums: 1 min}");
        return;
    }
    spot_walk *walks = ARENA_ARRAY(r->keep, spot_walk, n->count);
    for (uint32_t i = 0; i < n->count; i++) {
        const node_entry *e = &n->entries[i];
        spot_walk *w = &walks[p->walk_count];
        *w = (spot_walk){.to = resolve(r, SECTION_PLACES, e->key, e->key_at), .at = e->key_at};
        if (w->to == self)
            walk_fault(r, e->key_at, e->key, "is no walk away from itself",
                       "Leave it out; name other places only.");
        else if (w->to != NO_ID && read_time(r, e->value, &w->minutes))
            p->walk_count++;
    }
    p->walks = walks;
}

static void read_place(reader *r, const node *body, uint32_t self, spot *p)
{
    if (!check_map(r, body, KEYS_PLACE)) return;
    const node *text = need(r, body, p->id, KEYS_PLACE, "text"), *walk = node_get(body, "walk");
    if (text != NULL) read_fixed_texts(r, text, "'text'", TEXT_PHRASE, &p->text);
    if (walk != NULL) read_walks(r, walk, self, p);
}

/* It is as far back as it is there, so one of the two says it. */
static void check_said_once(reader *r, const spot *all, uint32_t count)
{
    for (uint32_t from = 0; from < count; from++)
        for (uint32_t i = 0; i < all[from].walk_count; i++) {
            const uint32_t to = all[from].walks[i].to;
            const spot_walk *back = to < from ? walk_between(all, to, from) : NULL;
            assert(to < count);
            if (back == NULL) continue;
            fault *f = fault_add(r->list, FAULT_BAD_WALK, all[from].walks[i].at,
                                 "The walk between '%.*s' and '%.*s' is told twice.",
                                 STR_ARG(all[to].id.name), STR_ARG(all[from].id.name));
            fault_note_at(r->list, f, back->at, "It is told here already.");
            fault_help(r->list, f, "Keep one of them: it is as far back as it is there.");
        }
}

static int by_writing(const void *a, const void *b)
{
    const spot *const *x = a, *const *y = b;
    const span p = (*x)->id.at, q = (*y)->id.at;
    if (p.file != q.file) return p.file < q.file ? -1 : 1;
    return (p.start > q.start) - (p.start < q.start);
}

static void number_as_written(reader *r, spot *all, uint32_t count)
{
    spot **sorted = ARENA_ARRAY(r->scratch, spot *, count);
    for (uint32_t i = 0; i < count; i++) sorted[i] = &all[i];
    if (count > 1) qsort(sorted, count, sizeof(spot *), by_writing);
    for (uint32_t i = 0; i < count; i++) sorted[i]->before = i;
}

void read_places(reader *r)
{
    const name_table *t = &r->tables[SECTION_PLACES];
    spot *all = ARENA_ARRAY(r->keep, spot, t->count);
    for (uint32_t i = 0; i < t->count; i++) {
        all[i] = (spot){.id = t->items[i].id};
        read_place(r, t->items[i].body, i, &all[i]);
    }
    check_said_once(r, all, t->count);
    number_as_written(r, all, t->count);
    r->book->places = all;
    r->book->place_count = t->count;
    if (t->count > PLACES_MAX) {
        fault *f = fault_add(r->list, FAULT_TOO_MANY, t->items[PLACES_MAX].id.at,
                             "There are more than %d places.", PLACES_MAX);
        fault_help(r->list, f, "Make one place of those between which nobody has to walk.");
    }
}
