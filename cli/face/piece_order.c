#include "face/piece_order.h"

#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"

typedef struct placed {
    tt_piece piece;
    uint32_t index;
} placed;

static int in_order(const void *a, const void *b)
{
    const placed *x = a, *y = b;
    if (x->piece.kind != y->piece.kind) return x->piece.kind < y->piece.kind ? -1 : 1;
    if (x->piece.before != y->piece.before) return x->piece.before < y->piece.before ? -1 : 1;
    return strcmp(x->piece.name, y->piece.name);
}

uint32_t *pieces_in_order(const tt_book *book)
{
    uint32_t count = tt_piece_count(book);
    placed *all = take_memory(count * sizeof *all);
    uint32_t *order = take_memory(count * sizeof *order);
    for (uint32_t i = 0; i < count; i++) all[i] = (placed){tt_piece_show(book, i), i};
    if (count > 1) qsort(all, count, sizeof *all, in_order);
    for (uint32_t i = 0; i < count; i++) order[i] = all[i].index;
    free(all);
    return order;
}
