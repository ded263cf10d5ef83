/* Lists whose likeliest stands first, as nearly all of the book's do: one that stands out of its
 * order was perhaps turned round. Where an author has no such habit nothing is said. */
#include <assert.h>
#include <math.h>

#include "base/sorted.h"
#include "doubt/doubt.h"

typedef struct rates { /* as written: each once, also where it stands for several pieces */
    const rate **items;
    uint32_t count;
} rates;

typedef struct habit {
    uint32_t falls, rises; /* from one line to the next */
} habit;

static const double notable = 0.1; /* less is no matter of order: a number was learned */

static int by_place(const void *left, const void *right)
{
    const rate *const *a = left, *const *b = right;
    if ((*a)->at.file != (*b)->at.file) return THREE_WAY((*a)->at.file, (*b)->at.file);
    return THREE_WAY((*a)->at.start, (*b)->at.start);
}

static rates as_written(const doubter *d, const rate *all, uint32_t count)
{
    rates out = {ARENA_ARRAY(d->scratch, const rate *, count), 0};
    assert(count == 0 || all != NULL);
    for (uint32_t i = 0; i < count; i++) out.items[i] = &all[i];
    SORT(out.items, count, by_place);
    for (uint32_t i = 0; i < count; i++) {
        const bool again = out.count > 0 && by_place(&out.items[out.count - 1], &out.items[i]) == 0;
        if (!again) out.items[out.count++] = out.items[i];
    }
    return out;
}

static void see_habit(habit *h, const rates *list)
{
    for (uint32_t i = 1; i < list->count; i++) {
        const double up = list->items[i]->chance - list->items[i - 1]->chance;
        h->falls += up < -notable;
        h->rises += up > notable;
    }
}

static bool is_habit(const habit *h)
{
    const uint32_t enough = 15, one_in = 10;
    return h->falls >= enough && h->rises * one_in <= h->falls;
}

/* Marks the most that can stay where they are; the others are out of order. */
static void mark_in_order(const doubter *d, const rates *list, bool *stays)
{
    uint32_t *length = ARENA_ARRAY(d->scratch, uint32_t, list->count),
             *before = ARENA_ARRAY(d->scratch, uint32_t, list->count), last = 0;
    for (uint32_t i = 0; i < list->count; i++) {
        length[i] = 1;
        before[i] = NO_ID;
        for (uint32_t k = 0; k < i; k++) {
            const bool falls = list->items[i]->chance <= list->items[k]->chance + notable;
            if (!falls || length[k] < length[i]) continue;
            length[i] = length[k] + 1;
            before[i] = k;
        }
        if (length[i] > length[last]) last = i;
    }
    for (uint32_t i = last; list->count > 0 && i != NO_ID; i = before[i]) stays[i] = true;
}

/* One that is larger than one above it, or smaller than one below it. */
static const rate *crossed_by(const rates *list, uint32_t index)
{
    const double own = list->items[index]->chance;
    for (uint32_t i = index; i-- > 0;)
        if (own > list->items[i]->chance + notable) return list->items[i];
    for (uint32_t i = index + 1; i < list->count; i++)
        if (list->items[i]->chance > own + notable) return list->items[i];
    return NULL;
}

static void doubt_list(const doubter *d, const rates *list)
{
    const book *b = d->book;
    bool *stays = ARENA_ARRAY(d->scratch, bool, list->count);
    mark_in_order(d, list, stays);
    for (uint32_t i = 0; i < list->count; i++) {
        const rate *own = list->items[i], *other = stays[i] ? NULL : crossed_by(list, i);
        if (other == NULL) continue;
        const bool after = own->at.start > other->at.start;
        fault *f = fault_add(d->list, FAULT_OUT_OF_ORDER, own->at,
                             "'%.*s' (%.3g %%) stands %s '%.*s' (%.3g %%). In nearly all lists of "
                             "this book the likelier stands first, so one of them may be turned "
                             "round.",
                             STR_ARG(b->causes[own->cause].of.base), 100 * own->chance,
                             after ? "below" : "above", STR_ARG(b->causes[other->cause].of.base),
                             100 * other->chance);
        fault_note_at(d->list, f, other->at, "the other one");
        fault_help(d->list, f,
                   "Mend the number that is wrong. If both are right, move the line %s.",
                   after ? "up" : "down");
        return;
    }
}

typedef void list_seen(const doubter *d, habit *h, const rates *list);

static void gather(const doubter *d, habit *h, const rates *list)
{
    (void)d;
    see_habit(h, list);
}

static void tell(const doubter *d, habit *h, const rates *list)
{
    assert(is_habit(h));
    doubt_list(d, list);
}

static void each_list(const doubter *d, habit *h, list_seen *see)
{
    const book *b = d->book;
    for (uint32_t i = 0; i < b->symptom_count; i++) {
        const symptom *s = &b->symptoms[i];
        const bool again = i > 0 && same_written(&b->symptoms[i - 1].id, &s->id);
        const rates list = as_written(d, s->shown_by, s->shown_by_count);
        if (!again && !s->from_confirms) see(d, h, &list);
    }
    for (uint32_t i = 0; i < b->fix_count; i++) {
        const fix *x = &b->fixes[i];
        const rates list = as_written(d, x->cures, x->cures_count);
        if (i == 0 || !same_written(&b->fixes[i - 1].id, &x->id)) see(d, h, &list);
    }
}

void doubt_order(const doubter *d)
{
    habit h = {0, 0};
    each_list(d, &h, gather);
    if (is_habit(&h)) each_list(d, &h, tell);
}
