/* Where an utterance can be cut. */
#include <assert.h>

#include "listen/listener.h"

static bool inside_number(const said_numbers *n, uint32_t word)
{
    for (uint32_t i = 0; i < n->count; i++) {
        const uint32_t end =
            n->items[i].vague && i + 1 < n->count ? n->items[i + 1].end : n->items[i].end;
        if (n->items[i].first < word && word < end) return true;
    }
    return false;
}

uint32_t clauses_cut(const listener *l, arena *keep, const said *s, clause *out)
{
    phrase_items m = phrasebook_read(&l->manner, keep, keep, s);
    said_numbers numbers = said_numbers_find(&l->numbers, keep, s, 0, s->count);
    uint32_t count = 0, first = 0;
    for (uint32_t i = 0; i < m.count; i++) {
        const uint32_t at = m.items[i].first;
        const said_word *w = &s->words[at];
        const bool cut = w->pause || w->stop || (m.items[i].tags & MANNER_JOINS) != 0;
        if (!cut || at <= first || count + 1 == MOST_CLAUSES || inside_number(&numbers, at))
            continue;
        out[count++] = (clause){first, at};
        first = at;
    }
    if (s->count > first) out[count++] = (clause){first, s->count};
    assert(count <= MOST_CLAUSES);
    return count;
}
