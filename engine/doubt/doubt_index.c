/* Lists of who speaks of whom, each made in one pass. */
#include "doubt/doubt_index.h"

#include <assert.h>

#include "base/grow.h"
#include "base/sorted.h"

typedef struct link {
    uint32_t of, item;
} link;

typedef struct link_list {
    arena *keep;
    link *items;
    uint32_t count, room;
} link_list;

static void add_link(link_list *all, uint32_t of, uint32_t item)
{
    GROW(all->keep, all->items, all->count, all->room);
    all->items[all->count++] = (link){of, item};
}

/* They come with items rising; one that comes twice counts once. */
static links links_by(const link_list *all, uint32_t count)
{
    uint32_t *first = ARENA_ARRAY(all->keep, uint32_t, (size_t)count + 1),
             *end = ARENA_ARRAY(all->keep, uint32_t, count),
             *items = ARENA_ARRAY(all->keep, uint32_t, all->count), used = 0;
    for (uint32_t i = 0; i < all->count; i++) {
        assert(all->items[i].of < count);
        first[all->items[i].of + 1]++;
    }
    for (uint32_t i = 0; i < count; i++) end[i] = first[i + 1] += first[i];
    for (uint32_t i = 0; i < count; i++) end[i] = first[i];
    for (uint32_t i = 0; i < all->count; i++) {
        const uint32_t of = all->items[i].of;
        assert(end[of] == first[of] || items[end[of] - 1] <= all->items[i].item);
        if (end[of] == first[of] || items[end[of] - 1] != all->items[i].item)
            items[end[of]++] = all->items[i].item;
    }
    for (uint32_t i = 0; i < count; i++) {
        const uint32_t from = first[i];
        first[i] = used;
        for (uint32_t k = from; k < end[i]; k++) items[used++] = items[k];
    }
    first[count] = used;
    return (links){first, items};
}

static links symptoms_of_causes(arena *keep, const book *b)
{
    link_list all = {.keep = keep};
    for (uint32_t i = 0; i < b->symptom_count; i++)
        for (uint32_t k = 0; k < b->symptoms[i].shown_by_count; k++)
            add_link(&all, b->symptoms[i].shown_by[k].cause, i);
    return links_by(&all, b->cause_count);
}

static links fixes_of_causes(arena *keep, const book *b)
{
    link_list all = {.keep = keep};
    for (uint32_t i = 0; i < b->fix_count; i++)
        for (uint32_t k = 0; k < b->fixes[i].cures_count; k++)
            add_link(&all, b->fixes[i].cures[k].cause, i);
    return links_by(&all, b->cause_count);
}

static links rules_of_conclusions(arena *keep, const book *b)
{
    link_list all = {.keep = keep};
    for (uint32_t i = 0; i < b->rule_count; i++)
        for (uint32_t k = 0; k < b->rules[i].set_count; k++)
            add_link(&all, b->rules[i].sets[k].conclusion, i);
    return links_by(&all, b->conclusion_count);
}

const doubt_index *doubt_index_of(arena *keep, const book *b)
{
    doubt_index *x = ARENA_NEW(keep, doubt_index);
    x->symptoms_of = symptoms_of_causes(keep, b);
    x->fixes_of = fixes_of_causes(keep, b);
    x->rules_of = rules_of_conclusions(keep, b);
    x->boxes = boxes_of(keep, b);
    x->truth_steps = ARENA_NEW(keep, uint32_t);
    return x;
}

/* ---- what may be the same ---- */

static int by_key_and_item(const void *left, const void *right)
{
    const keyed *a = left, *b = right;
    return a->key != b->key ? THREE_WAY(a->key, b->key) : THREE_WAY(a->item, b->item);
}

void keyed_sort(keyed *all, uint32_t count)
{
    assert(count == 0 || all != NULL);
    SORT(all, count, by_key_and_item);
}

uint64_t key_with(uint64_t key, uint64_t part)
{
    key = (key ^ part) * 0x9E3779B97F4A7C15U;
    return key ^ key >> 29;
}
