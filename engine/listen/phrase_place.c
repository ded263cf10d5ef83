/* Where a phrase stands in what was said, with the slips that people make. */
#include <assert.h>

#include "listen/listener.h"

static bool same_word(const listener *l, arena *scratch, const said_word *said, str word)
{
    if (str_eq(said->plain, word)) return true;
    if (said->number) return false;
    const str shorter = said->plain.n < word.n ? said->plain : word,
              longer = said->plain.n < word.n ? word : said->plain;
    const bool plural = shorter.n >= 4 && str_starts(longer, shorter.p) &&
                        (str_is(str_slice(longer, shorter.n, longer.n), "s") ||
                         str_is(str_slice(longer, shorter.n, longer.n), "es"));
    if (plural) return true;
    if (word_set_find(&l->language, said->plain) != NULL ||
        word_set_find(&l->vocabulary, said->plain) != NULL)
        return false;
    const size_t allowed = slip_allowed(shorter.n);
    return allowed > 0 && longer.n - shorter.n <= allowed && shorter.p[0] == longer.p[0] &&
           str_distance(scratch, shorter, longer) <= allowed;
}

static bool stands_at(const listener *l, arena *scratch, const said *s, uint32_t at, str plain,
                      uint32_t *end)
{
    str word;
    assert(at < s->count);
    *end = at;
    for (size_t i = 0; plain_next(plain, &i, &word); ++*end)
        if (*end >= s->count || !same_word(l, scratch, &s->words[*end], word)) return false;
    return *end > at;
}

uint32_t phrase_place(const listener *l, arena *scratch, const said *s, str plain, uint32_t *end)
{
    for (uint32_t at = 0; at < s->count; at++)
        if (stands_at(l, scratch, s, at, plain, end)) return at;
    return UINT32_MAX;
}
