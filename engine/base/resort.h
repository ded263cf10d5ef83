/* An array put in order that was in that order not long ago: what still stands right is left where
 * it is, so where little has moved it costs a comparison an item. */
#ifndef TT_BASE_RESORT_H
#define TT_BASE_RESORT_H

#include <assert.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* How many before an item that stand behind it, 0 … RESORT_NEAR, or RESORT_NEAR + 1: more. */
enum { RESORT_NEAR = 8 };
static inline uint32_t resort_behind(const char *items, uint32_t kept, size_t size,
                                     int (*order)(const void *, const void *), const char *item)
{
    uint32_t behind = 0;
    while (behind < kept && behind <= RESORT_NEAR &&
           order(items + (kept - 1 - behind) * size, item) > 0)
        behind++;
    return behind;
}

/* What stands wrong goes aside: the item, or where only a few before it stand behind it, those. */
static inline uint32_t resort_set_aside(char *items, uint32_t count, size_t size,
                                        int (*order)(const void *, const void *), char *aside)
{
    uint32_t kept = 0, gone = 0;
    for (uint32_t i = 0; i < count; i++) {
        const char *item = items + i * size;
        const uint32_t behind = resort_behind(items, kept, size, order, item);
        if (behind > RESORT_NEAR) {
            memcpy(aside + gone++ * size, item, size);
            continue;
        }
        kept -= behind;
        memcpy(aside + gone * size, items + kept * size, behind * size);
        gone += behind;
        memmove(items + kept++ * size, item, size);
    }
    assert(kept + gone == count);
    return gone;
}

static inline void resort_merge(char *items, uint32_t count, size_t size,
                                int (*order)(const void *, const void *), const char *aside,
                                uint32_t gone)
{
    uint32_t kept = count - gone;
    for (uint32_t at = count; gone > 0; at--) {
        const bool from_kept =
            kept > 0 && order(items + (kept - 1) * size, aside + (gone - 1) * size) > 0;
        const char *last = from_kept ? items + --kept * size : aside + --gone * size;
        memcpy(items + (at - 1) * size, last, size);
    }
}

/* As SORT (sorted.h) does it; `aside` has room for as many items. */
#define RESORT(items, count, order, aside) \
    do { \
        char *items_ = (char *)(items), *aside_ = (char *)(aside); \
        const uint32_t gone_ = \
            resort_set_aside(items_, (count), sizeof *(items), (order), aside_); \
        if (gone_ > 1) qsort(aside_, gone_, sizeof *(items), (order)); \
        resort_merge(items_, (count), sizeof *(items), (order), aside_, gone_); \
    } while (0)

#endif
