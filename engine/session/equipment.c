/* Kinds and pieces of equipment, as others see them. */
#include <assert.h>

#include "session/session.h"

static const char *in_language(const book *b, const texts *t, const char *language)
{
    str text = texts_for(t, language == NULL ? b->language : str_of(language));
    return text.n == 0 ? "" : text.p;
}

uint32_t tt_kind_count(const tt_book *b)
{
    return b->book->kind_count;
}

tt_kind tt_kind_show(const tt_book *b, uint32_t kind, const char *language)
{
    const book *r = b->book;
    assert(kind < r->kind_count);
    const equipment_kind *k = &r->kinds[kind];
    return (tt_kind){k->id.name.p, in_language(r, &k->one, language),
                     in_language(r, &k->ask, language), k->unnamed.count > 0};
}

uint32_t tt_spot_count(const tt_book *b)
{
    return b->book->place_count;
}

tt_spot tt_spot_show(const tt_book *b, uint32_t where, const char *language)
{
    assert(where < b->book->place_count);
    const struct spot *p = &b->book->places[where];
    return (tt_spot){p->id.name.p, in_language(b->book, &p->text, language), p->before};
}

double tt_walk(const tt_book *b, uint32_t from, uint32_t to)
{
    return book_walk(b->book, from, to);
}

uint32_t tt_piece_count(const tt_book *b)
{
    return b->book->piece_count;
}

static bool comes_after(const struct piece *p, uint32_t other)
{
    for (uint32_t i = 0; i < p->after.count; i++)
        if (p->after.items[i] == other) return true;
    return false;
}

static uint32_t count_before(const book *b, uint32_t piece)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->piece_count; i++) count += comes_after(&b->pieces[i], piece);
    return count;
}

tt_piece tt_piece_show(const tt_book *b, uint32_t piece, const char *language)
{
    const book *r = b->book;
    assert(piece < r->piece_count);
    const struct piece *p = &r->pieces[piece];
    return (tt_piece){p->id.name.p, in_language(r, &p->text, language), p->kind,
                      count_before(r, piece)};
}

uint32_t tt_symptom_at(const tt_book *b, uint32_t symptom, uint32_t piece)
{
    const book *r = b->book;
    if (symptom >= r->symptom_count) return TT_NONE;
    const owner *of = &r->symptoms[symptom].of;
    for (uint32_t s = 0; s < r->symptom_count; s++)
        if (r->symptoms[s].of.piece == piece && str_eq(r->symptoms[s].of.base, of->base)) return s;
    return TT_NONE;
}
