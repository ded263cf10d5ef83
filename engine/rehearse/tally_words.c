/* A tally as words of 64 bits. In front stands what it must fit, at the end a check that nothing
 * was changed on the way: what is counted is taken for true afterwards. */
#include "rehearse/tally_words.h"

#include <assert.h>
#include <string.h>

enum {
    AT_LAYOUT,
    AT_CAUSES,
    AT_ROLES,
    AT_SEED,
    AT_MOVED,
    AT_MISTAKES,
    HEAD, /* words in front */
    COUNTS = sizeof(counts) / sizeof(uint64_t),
    ROLE = sizeof(role_tally) / sizeof(uint64_t),
    MOVED = sizeof(moments) / sizeof(uint64_t),
    MISTAKE = 3 /* cause, blamed, count */
};

static size_t words_of(uint64_t causes, uint64_t roles, uint64_t moved, uint64_t mistakes)
{
    return HEAD + COUNTS + ROLE * roles + causes + 1 + MOVED * moved + MISTAKE * mistakes + 1;
}

/* FNV-1a over words (Fowler, Noll, Vo 1991): against slips, not against malice. */
static uint64_t check_of(const uint64_t *words, size_t count)
{
    uint64_t hash = UINT64_C(14695981039346656037);
    for (size_t i = 0; i < count; i++)
        for (unsigned byte = 0; byte < 8; byte++)
            hash = (hash ^ (words[i] >> (8 * byte) & 0xFF)) * UINT64_C(1099511628211);
    return hash;
}

static uint64_t *put_words(uint64_t *at, const void *from, size_t count)
{
    memcpy(at, from, count * sizeof *at);
    return at + count;
}

const uint64_t *tally_words(arena *keep, const tally *t, uint32_t *count)
{
    const size_t all = words_of(t->cause_count, t->role_count, t->moved_count, t->mistake_count);
    uint64_t *words = ARENA_ARRAY(keep, uint64_t, all), *at = words + HEAD;
    assert(all <= UINT32_MAX);
    words[AT_LAYOUT] = COUNTS;
    words[AT_CAUSES] = t->cause_count;
    words[AT_ROLES] = t->role_count;
    words[AT_SEED] = t->seed;
    words[AT_MOVED] = t->moved_count;
    words[AT_MISTAKES] = t->mistake_count;
    at = put_words(at, &t->n, COUNTS);
    at = put_words(at, t->roles, ROLE * (size_t)t->role_count);
    at = put_words(at, t->calls_of, (size_t)t->cause_count + 1);
    if (t->moved_count > 0) at = put_words(at, t->moved, MOVED * (size_t)t->moved_count);
    for (uint32_t i = 0; i < t->mistake_count; i++) {
        const mistaken *m = &t->mistakes[i];
        at = put_words(at, (const uint64_t[]){m->cause, m->blamed, m->count}, MISTAKE);
    }
    *at++ = check_of(words, all - 1);
    assert(at == words + all);
    *count = (uint32_t)all;
    return words;
}

static bool fits(const tally *t, const uint64_t *words, uint32_t count)
{
    return count > HEAD && words[AT_LAYOUT] == COUNTS && words[AT_CAUSES] == t->cause_count &&
           words[AT_ROLES] == t->role_count && words[AT_SEED] == t->seed &&
           words[AT_MISTAKES] <= count && words[AT_MOVED] == t->moved_count &&
           count == words_of(t->cause_count, t->role_count, t->moved_count, words[AT_MISTAKES]) &&
           words[count - 1] == check_of(words, count - 1);
}

static void take_words(void *into, const uint64_t **at, size_t count)
{
    memcpy(into, *at, count * sizeof **at);
    *at += count;
}

bool tally_add_words(tally *into, arena *keep, const uint64_t *words, uint32_t count,
                     uint64_t calls)
{
    if (!fits(into, words, count)) return false;
    tally *more = tally_new(keep, into->cause_count, into->role_count, into->seed);
    tally_take_numbers(more, keep, into->moved_count / DIRECTIONS);
    const uint64_t *at = words + HEAD;
    take_words(&more->n, &at, COUNTS);
    take_words(more->roles, &at, ROLE * (size_t)more->role_count);
    take_words(more->calls_of, &at, (size_t)more->cause_count + 1);
    if (more->moved_count > 0) take_words(more->moved, &at, MOVED * (size_t)more->moved_count);
    for (uint64_t i = 0; i < words[AT_MISTAKES]; i++, at += MISTAKE)
        tally_add_mistake(more, keep, (mistaken){(uint32_t)at[0], (uint32_t)at[1], at[2]});
    if (more->n.calls != calls) return false;
    tally_add(into, keep, more);
    return true;
}
