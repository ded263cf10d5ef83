/* Who speaks of whom in a book, the other way round, so that no kind of doubt looks through the
 * whole book for each of its entries. */
#ifndef TT_DOUBT_DOUBT_INDEX_H
#define TT_DOUBT_DOUBT_INDEX_H

#include <stdint.h>

#include "base/arena.h"
#include "model/book.h"

/* Of one of them: items[first[i]] up to items[first[i + 1]], rising. */
typedef struct links {
    const uint32_t *first, *items;
} links;

typedef struct doubt_index {
    links symptoms_of;     /* [cause] that list it, each once */
    links fixes_of;        /* [cause] that cure it, each once */
    links rules_of;        /* [conclusion] that set it */
    struct box *boxes;     /* [question] what may be answered, for possible.c */
    uint32_t *truth_steps; /* conditions looked at so far, for doubt_truth.c */
} doubt_index;

const doubt_index *doubt_index_of(arena *keep, const book *b);

/* Items that may be the same: those with another key are not. */
typedef struct keyed {
    uint64_t key;
    uint32_t item;
} keyed;
void keyed_sort(keyed *all, uint32_t count); /* by key, then by item */
uint64_t key_with(uint64_t key, uint64_t part);

/* possible.c */
struct box *boxes_of(arena *keep, const book *b);

#endif
