/* How far it is from one place to another, and where a symptom is seen. */
#include <assert.h>

#include "model/book.h"

const spot_walk *walk_between(const spot *all, uint32_t from, uint32_t to)
{
    for (uint32_t i = 0; i < all[from].walk_count; i++)
        if (all[from].walks[i].to == to) return &all[from].walks[i];
    return NULL;
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
