/* What has changed and is to be looked at again, lowest node first. */
#include "chain/agenda.h"

#include <assert.h>

void agenda_make(agenda *a, arena *keep, uint32_t bound)
{
    *a = (agenda){.bound = bound};
    uint32_t words = bound;
    do {
        assert(a->levels < AGENDA_LEVELS);
        words = words / 64 + (words % 64 != 0 ? 1 : 0);
        a->words[a->levels++] = ARENA_ARRAY(keep, uint64_t, words);
    } while (words > 1);
}

void agenda_add(agenda *a, uint32_t number)
{
    assert(number < a->bound);
    for (uint32_t level = 0; level < a->levels; level++) {
        uint64_t *word = &a->words[level][number >> 6], before = *word;
        *word |= (uint64_t)1 << (number & 63);
        if (before != 0) return;
        number >>= 6;
    }
}

void agenda_remove(agenda *a, uint32_t number)
{
    assert(number < a->bound);
    for (uint32_t level = 0; level < a->levels; level++) {
        uint64_t *word = &a->words[level][number >> 6];
        *word &= ~((uint64_t)1 << (number & 63));
        if (*word != 0) return;
        number >>= 6;
    }
}

static uint32_t least_beneath(const agenda *a, uint32_t level, uint32_t number)
{
    while (level-- > 0) number = number << 6 | (uint32_t)__builtin_ctzll(a->words[level][number]);
    return number;
}

uint32_t agenda_next(const agenda *a, uint32_t from)
{
    uint32_t bound = a->bound;
    for (uint32_t level = 0; level < a->levels && from < bound; level++) {
        uint64_t rest = a->words[level][from >> 6] & ~(uint64_t)0 << (from & 63);
        if (rest != 0)
            return least_beneath(a, level, (from & ~63u) | (uint32_t)__builtin_ctzll(rest));
        from = (from >> 6) + 1;
        bound = bound / 64 + (bound % 64 != 0 ? 1 : 0);
    }
    return AGENDA_NONE;
}
