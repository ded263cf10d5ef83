/* Arrays that grow in an arena: room doubles, what was there is copied, and the old place stays
 * until the arena is emptied. */
#ifndef TT_BASE_GROW_H
#define TT_BASE_GROW_H

#include <assert.h>
#include <stdint.h>
#include <string.h>

#include "base/arena.h"

static inline void *grow_for_one(arena *keep, const void *items, uint32_t count, uint32_t *room,
                                 size_t size)
{
    assert(count <= *room && size > 0);
    if (count < *room) return (void *)(uintptr_t)items;
    uint32_t more = *room == 0 ? 8 : *room * 2;
    assert(more > count);
    char *grown = arena_take_array(keep, more, size);
    if (count > 0) memcpy(grown, items, (size_t)count * size);
    *room = more;
    return grown;
}

/* Makes room for one more behind `count` items of the array `items`. */
#define GROW(keep, items, count, room) \
    ((items) = grow_for_one((keep), (items), (count), &(room), sizeof *(items)))

#endif
