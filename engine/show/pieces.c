/* Sorting pieces for people. */
#include "show/pieces.h"

#include <assert.h>

#include "base/sorted.h"

typedef struct placed {
    uint32_t piece, kind, before;
} placed;

static int as_they_stand(const void *left, const void *right)
{
    const placed *a = left, *b = right;
    if (a->kind != b->kind) return THREE_WAY(a->kind, b->kind);
    return a->before != b->before ? THREE_WAY(a->before, b->before) : THREE_WAY(a->piece, b->piece);
}

const uint32_t *pieces_in_order(arena *keep, const tt_book *book, const uint32_t *pieces,
                                uint32_t count)
{
    assert(book != NULL && (pieces != NULL || count == 0));
    placed *all = ARENA_ARRAY(keep, placed, count);
    uint32_t *order = ARENA_ARRAY(keep, uint32_t, count);
    for (uint32_t i = 0; i < count; i++) {
        const tt_piece shown = tt_piece_show(book, pieces[i], NULL);
        all[i] = (placed){pieces[i], shown.kind, shown.before};
    }
    SORT(all, count, as_they_stand);
    for (uint32_t i = 0; i < count; i++) order[i] = all[i].piece;
    return order;
}
