/* What is written once for each piece and names none of them reads the same for all: it is read for
 * the first, and the others share that. */
#include <assert.h>
#include <stdint.h>

#include "read/reader.h"

static bool is_same_entry(const node_entry *e)
{
    return !str_is(e->key, "picture") && is_same_for_all(e->value);
}

/* No name in braces stands for a piece, and no picture has areas, which lead to what is its own. */
bool is_same_for_all(const node *n)
{
    if (n->kind == NODE_TEXT)
        return str_find_byte(n->text, '{') == SIZE_MAX && str_find_byte(n->text, '}') == SIZE_MAX;
    bool same = true;
    for (uint32_t i = 0; same && i < n->count; i++)
        same = n->kind == NODE_LIST ? is_same_for_all(n->items[i]) : is_same_entry(&n->entries[i]);
    return same;
}

/* The entries of all pieces come one after the other, so few places are enough; what has lost its
 * own to another is read again. */
static shared_read *place_of(reader *r, const node *n, shared_kind kind)
{
    return &r->shared[kind][((uintptr_t)n >> 4) % SHARED_READS];
}

const shared_read *shared_before(reader *r, const node *n, shared_kind kind)
{
    const shared_read *place = place_of(r, n, kind);
    return place->from == n ? place : NULL;
}

void share_ours(reader *r, const node *n, shared_kind kind, const void *items, uint32_t count)
{
    assert(n != NULL);
    if (r->here.piece != NO_ID) *place_of(r, n, kind) = (shared_read){n, items, count};
}

void share_read(reader *r, const node *n, shared_kind kind, const void *items, uint32_t count)
{
    assert(n != NULL);
    if (r->here.piece != NO_ID && is_same_for_all(n)) share_ours(r, n, kind, items, count);
}
