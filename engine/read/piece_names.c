/* Pieces of equipment: of which kind, what they are called, and on which others they hang. */
#include <assert.h>

#include "read/reader_names.h"

uint32_t piece_of_kind(const reader *r, uint32_t kind, str name)
{
    for (uint32_t i = 0; i < r->book->piece_count; i++)
        if (r->book->pieces[i].kind == kind && str_eq(r->book->pieces[i].id.name, name)) return i;
    return NO_ID;
}

str name_of_piece(const reader *r, arena *keep, str base, uint32_t piece, uint32_t second)
{
    str first = r->book->pieces[piece].id.name;
    if (second == NO_ID) return str_printf(keep, "%.*s of %.*s", STR_ARG(base), STR_ARG(first));
    return str_printf(keep, "%.*s of %.*s and %.*s", STR_ARG(base), STR_ARG(first),
                      STR_ARG(r->book->pieces[second].id.name));
}

const node *hangs_on_node(const node *body)
{
    return node_get(body, "hangs-on");
}

uint32_t first_piece_of(const piece *pieces, uint32_t count, uint32_t kind)
{
    uint32_t i = 0;
    while (i < count && pieces[i].kind != kind) i++;
    return i < count ? i : NO_ID;
}

uint32_t carrier_of_kind(const book *b, uint32_t piece, uint32_t kind)
{
    assert(piece < b->piece_count && kind < b->kind_count);
    const uint32_t carrier = b->pieces[piece].hangs_on;
    return carrier != NO_ID && b->pieces[carrier].kind == kind ? carrier : NO_ID;
}

bool carrier_is_lost(const reader *r, uint32_t piece, uint32_t kind)
{
    const book *b = r->book;
    assert(piece < b->piece_count && kind < b->kind_count);
    const uint32_t own = b->pieces[piece].kind, on = b->kinds[own].hangs_on;
    if (b->pieces[piece].hangs_on != NO_ID || hangs_on_node(r->kind_nodes[own]) == NULL)
        return false;
    return on == NO_ID || (on == kind && first_piece_of(b->pieces, b->piece_count, kind) != NO_ID);
}

bool hangs_on_none(reader *r, uint32_t piece, uint32_t kind)
{
    const book *b = r->book;
    const struct piece *p = &b->pieces[piece];
    const str name = b->kinds[kind].id.name;
    if (b->kinds[p->kind].hangs_on != kind ||
        first_piece_of(b->pieces, b->piece_count, kind) != NO_ID)
        return false;
    if (r->pieces_lost) return true; /* it may stand in what could not be read */
    fault *f = fault_add(r->list, FAULT_HANGS_WRONG, p->id.at,
                         "'%.*s' hangs on a '%.*s', and the site has none.", STR_ARG(p->id.name),
                         STR_ARG(name));
    fault_help(r->list, f,
               "Name it under 'units', or write 'unnamed' at the kind '%.*s': there is one then.",
               STR_ARG(name));
    return true;
}

uint32_t only_piece_of(const book *b, const ids *pieces, uint32_t kind)
{
    uint32_t only = NO_ID;
    for (uint32_t i = 0; i < pieces->count; i++) {
        const uint32_t piece = pieces->items[i];
        assert(piece < b->piece_count);
        const uint32_t meant =
            b->pieces[piece].kind == kind ? piece : carrier_of_kind(b, piece, kind);
        if (meant == NO_ID || meant == only) continue;
        if (only != NO_ID) return NO_ID;
        only = meant;
    }
    return only;
}

void suggest_pieces(reader *r, fault *f, str wrong, uint32_t kind)
{
    str *names = ARENA_ARRAY(r->scratch, str, r->book->piece_count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < r->book->piece_count; i++)
        if (r->book->pieces[i].kind == kind) names[count++] = r->book->pieces[i].id.name;
    suggest(r, f, wrong, names, count);
}
