/* What a colleague would ask about a book that has no error: warnings, each with its place, its
 * reason and what to do (T9xx, docs/faults-doubts.md). They cost more than reading the book, so
 * they are looked for only where an author asks. */
#ifndef TT_DOUBT_DOUBTS_H
#define TT_DOUBT_DOUBTS_H

#include "base/arena.h"
#include "base/faults.h"
#include "listen/listen.h"
#include "model/book.h"

typedef struct doubter {
    const book *book;
    const listener *ear; /* for danger */
    arena *scratch;
    faults *list;
    const struct doubt_index *index; /* made by find_doubts */
} doubter;

void find_doubts(const doubter *d);

#endif
