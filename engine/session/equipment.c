/* Kinds and pieces of equipment, as others see them. */
#include <assert.h>

#include "session/session.h"

static const char *in_language(const rulebook *b, const texts *t)
{
    str text = texts_for(t, b->language);
    return text.n == 0 ? "" : text.p;
}

uint32_t tt_kind_count(const tt_rulebook *book)
{
    return book->book->kind_count;
}

tt_kind tt_kind_show(const tt_rulebook *book, uint32_t kind)
{
    const rulebook *b = book->book;
    assert(kind < b->kind_count);
    const equipment_kind *k = &b->kinds[kind];
    return (tt_kind){k->id.name.p, in_language(b, &k->one), in_language(b, &k->ask)};
}

uint32_t tt_piece_count(const tt_rulebook *book)
{
    return book->book->piece_count;
}

static bool comes_after(const struct piece *p, uint32_t other)
{
    for (uint32_t i = 0; i < p->after.count; i++)
        if (p->after.items[i] == other) return true;
    return false;
}

static uint32_t count_before(const rulebook *b, uint32_t piece)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->piece_count; i++) count += comes_after(&b->pieces[i], piece);
    return count;
}

tt_piece tt_piece_show(const tt_rulebook *book, uint32_t piece)
{
    const rulebook *b = book->book;
    assert(piece < b->piece_count);
    const struct piece *p = &b->pieces[piece];
    return (tt_piece){p->id.name.p, in_language(b, &p->text), p->kind, count_before(b, piece)};
}

uint32_t tt_symptom_at(const tt_rulebook *book, uint32_t symptom, uint32_t piece)
{
    const rulebook *b = book->book;
    if (symptom >= b->symptom_count) return TT_NONE;
    const owner *of = &b->symptoms[symptom].of;
    for (uint32_t s = 0; s < b->symptom_count; s++)
        if (b->symptoms[s].of.piece == piece && str_eq(b->symptoms[s].of.base, of->base)) return s;
    return TT_NONE;
}
