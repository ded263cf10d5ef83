/* Where one stands to look or to work, and how long it is from there to there. */
#include <assert.h>
#include <stdlib.h>

#include "model/reader.h"

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
        else if (w->to != NO_ID && e->value != NULL && read_time(r, e->value, &w->minutes))
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

static const spot_walk *walk_between(const spot *all, uint32_t from, uint32_t to)
{
    for (uint32_t i = 0; i < all[from].walk_count; i++)
        if (all[from].walks[i].to == to) return &all[from].walks[i];
    return NULL;
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
        if (t->items[i].body != NULL) read_place(r, t->items[i].body, i, &all[i]);
    }
    check_said_once(r, all, t->count);
    number_as_written(r, all, t->count);
    r->book->places = all;
    r->book->place_count = t->count;
}

double book_walk(const book *b, uint32_t from, uint32_t to)
{
    assert(from < b->place_count && to < b->place_count);
    if (from == to) return 0;
    const spot_walk *w = walk_between(b->places, from, to);
    if (w == NULL) w = walk_between(b->places, to, from);
    return w != NULL ? w->minutes : b->walk_minutes;
}

/* ---- where a symptom is seen ---- */

/* NO_ID so far, a place, or SEVERAL. */
#define SEVERAL (NO_ID - 1)

static void join_question(const book *b, uint32_t question, uint32_t *where)
{
    const struct question *q = &b->questions[question];
    if (q->place == NO_ID || q->about != ABOUT_FAULT) return;
    *where = *where == NO_ID || *where == q->place ? q->place : SEVERAL;
}

static void join_places(const book *b, const cond *c, uint32_t *where)
{
    const bool asks = c->kind == COND_ANSWER || c->kind == COND_RANGE;
    const ids *beneath = asks ? &b->questions[c->subject].beneath : NULL;
    if (asks) join_question(b, c->subject, where);
    for (uint32_t i = 0; asks && i < beneath->count; i++)
        join_question(b, beneath->items[i], where);
    for (uint32_t i = 0; i < c->count; i++) join_places(b, c->parts[i], where);
}

uint32_t book_symptom_place(const book *b, uint32_t symptom)
{
    assert(symptom < b->symptom_count);
    uint32_t where = NO_ID;
    if (b->symptoms[symptom].when != NULL) join_places(b, b->symptoms[symptom].when, &where);
    return where == SEVERAL ? NO_ID : where;
}
