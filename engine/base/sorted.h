/* Sorted arrays: how two numbers compare, an array put in order, where a key stands in it, and one
 * more put there. */
#ifndef TT_BASE_SORTED_H
#define TT_BASE_SORTED_H

#include <assert.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* -1, 0 or 1, as comparators answer. Both of one type, and numbers that compare: no NaN. */
#define THREE_WAY(a, b) (((a) > (b)) - ((a) < (b)))

/* For arrays of ids. */
static inline int by_rising_id(const void *left, const void *right)
{
    const uint32_t *a = left, *b = right;
    return THREE_WAY(*a, *b);
}

/* Whether no item stands before one that comes after it: much that is sorted is short, or is in
 * order as it was written, and qsort takes a hundred instructions to begin with. */
static inline bool in_order(const void *items, size_t count, size_t size,
                            int (*order)(const void *, const void *))
{
    const char *at = items;
    for (; count > 1; count--, at += size)
        if (order(at, at + size) > 0) return false;
    return true;
}

/* qsort, also of nothing at all: it must not be handed a null. Equal items come in any order, so
 * `order` tells all apart that differ. */
#define SORT(items, count, order) \
    do { \
        if (!in_order((items), (count), sizeof *(items), (order))) \
            qsort((items), (count), sizeof *(items), (order)); \
    } while (0)

/* Sets `place` to the first `i` below `count` for which `comes_before` (said of i) is false, or to
 * `count`. It is true of all in front of that place and false from there on; so for "the item at i
 * is less than the key", it is where the key stands, or where it would. */
#define SORTED_PLACE(place, count, i, comes_before) \
    do { \
        uint32_t high_ = (count); \
        (place) = 0; \
        while ((place) < high_) { \
            uint32_t i = (place) + (high_ - (place)) / 2; \
            if (comes_before) \
                (place) = i + 1; \
            else \
                high_ = i; \
        } \
    } while (0)

/* Where an id stands among rising ids, or `count`. */
static inline uint32_t place_of_id(const uint32_t *ids, uint32_t count, uint32_t id)
{
    uint32_t at;
    SORTED_PLACE(at, count, i, ids[i] < id);
    assert(at == 0 || ids[at - 1] < id);
    return at < count && ids[at] == id ? at : count;
}

/* Moves what stands at `at` and behind it one place on; there is room for that. */
static inline void open_gap(void *items, uint32_t *count, uint32_t at, size_t size)
{
    assert(at <= *count && size > 0);
    char *from = (char *)items + (size_t)at * size;
    memmove(from + size, from, (size_t)(*count - at) * size);
    ++*count;
}

/* Puts `item` in front of what stands at `at`. GROW (grow.h) made room for it. */
#define SORTED_INSERT(items, count, at, item) \
    do { \
        open_gap((items), &(count), (at), sizeof *(items)); \
        (items)[at] = (item); \
    } while (0)

#endif
