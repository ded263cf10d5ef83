/* Whether a name stands twice in a map: then the first stays. */
#include <assert.h>

#include "base/str_head.h"
#include "load/checks.h"

typedef struct keyed {
    uint64_t head;
    str key;
    uint32_t position;
} keyed;

static int by_key(const void *left, const void *right)
{
    const keyed *a = left, *b = right;
    const int order = str_cmp_headed(a->head, a->key, b->head, b->key);
    return order != 0 ? order : THREE_WAY(a->position, b->position);
}

static void report_twice(faults *list, const node_entry *first, const node_entry *again)
{
    assert(str_eq(first->key, again->key) && first->key_at.start < again->key_at.start);
    fault *f = fault_add(list, FAULT_KEY_TWICE, again->key_at,
                         "'%.*s' stands twice in the same map", STR_ARG(again->key));
    fault_note_at(list, f, first->key_at, "it stands here first");
    fault_help(list, f, "give one of them another name, or write both as one");
}

/* Of the few entries that most maps have, each is compared with each. */
static bool few_have_doubles(const node_entry *entries, uint32_t count)
{
    for (uint32_t i = 1; i < count; i++)
        for (uint32_t k = 0; k < i; k++) {
            const str a = entries[i].key, c = entries[k].key;
            if (a.n == c.n && (a.n == 0 || (a.p[0] == c.p[0] && str_eq(a, c)))) return true;
        }
    return false;
}

static uint32_t mixed(str key)
{
    const uint64_t odd = UINT64_C(0x9E3779B97F4A7C15);
    uint64_t hash = str_head(key) * odd;
    if (key.n > 8) hash = (hash ^ str_head(str_slice(key, key.n - 8, key.n)) ^ key.n) * odd;
    return (uint32_t)(((hash ^ hash >> 32) * odd) >> 32);
}

/* Of many, each is looked for in a table of those before it. Names made to meet there would cost
 * more than putting all in order, so that is done for those who step too often. */
static bool may_have_doubles(arena *scratch, const node_entry *entries, uint32_t count)
{
    uint32_t room = 64, steps = 0;
    while (room < 2 * count) room *= 2;
    uint32_t *slots = ARENA_ARRAY(scratch, uint32_t, room);
    for (uint32_t i = 0; i < count; i++) {
        const str key = entries[i].key;
        uint32_t at = mixed(key) & (room - 1);
        for (; slots[at] != 0; at = (at + 1) & (room - 1))
            if (str_eq(entries[slots[at] - 1].key, key) || steps++ > 4 * count) return true;
        slots[at] = i + 1;
    }
    return false;
}

/* False: each has a name of its own. */
static bool has_doubles(arena *scratch, const node_entry *entries, uint32_t count)
{
    enum { FEW = 12 };
    if (count <= FEW) return few_have_doubles(entries, count);
    const arena_mark mark = arena_here(scratch);
    const bool may = may_have_doubles(scratch, entries, count);
    arena_back_to(scratch, mark);
    return may;
}

uint32_t keys_once(arena *scratch, node_entry *entries, uint32_t count, faults *list)
{
    if (count < 2 || !has_doubles(scratch, entries, count)) return count;
    arena_mark mark = arena_here(scratch);
    keyed *sorted = ARENA_ARRAY(scratch, keyed, count);
    bool *gone = ARENA_ARRAY(scratch, bool, count);
    for (uint32_t i = 0; i < count; i++)
        sorted[i] = (keyed){str_head(entries[i].key), entries[i].key, i};
    SORT(sorted, count, by_key);
    uint32_t first = 0, kept = 0;
    for (uint32_t i = 1; i < count; i++) {
        if (!str_eq(sorted[i].key, sorted[first].key)) {
            first = i;
            continue;
        }
        gone[sorted[i].position] = true;
        report_twice(list, &entries[sorted[first].position], &entries[sorted[i].position]);
    }
    for (uint32_t i = 0; i < count; i++)
        if (!gone[i]) entries[kept++] = entries[i];
    assert(kept > 0 && kept <= count);
    arena_back_to(scratch, mark);
    return kept;
}
