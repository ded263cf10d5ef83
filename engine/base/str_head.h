/* The first eight bytes of a text as one number: two of them that differ compare as their texts do
 * by bytes. So most comparisons of a search or a sort look at one number and at no text. */
#ifndef TT_BASE_STR_HEAD_H
#define TT_BASE_STR_HEAD_H

#include "base/sorted.h"
#include "base/str.h"

static inline uint64_t str_head(str a)
{
    const unsigned char *p = (const unsigned char *)a.p;
    if (a.n >= 8)
        return (uint64_t)p[0] << 56 | (uint64_t)p[1] << 48 | (uint64_t)p[2] << 40 |
               (uint64_t)p[3] << 32 | (uint64_t)p[4] << 24 | (uint64_t)p[5] << 16 |
               (uint64_t)p[6] << 8 | p[7];
    uint64_t head = 0;
    for (size_t i = 0; i < a.n; i++) head |= (uint64_t)p[i] << (56 - 8 * i);
    return head;
}

/* As str_cmp, with the heads of both. */
static inline int str_cmp_headed(uint64_t head_a, str a, uint64_t head_b, str b)
{
    return head_a != head_b ? THREE_WAY(head_a, head_b) : str_cmp(a, b);
}

/* Where a name stands among names in their order, each with its head, or `count`. */
static inline uint32_t place_of_name(const uint64_t *heads, const str *names, uint32_t count,
                                     str name)
{
    const uint64_t head = str_head(name);
    uint32_t at, more = 0;
    SORTED_PLACE(at, count, i, heads[i] < head);
    if (at < count && heads[at] == head && str_eq(names[at], name)) return at;
    if (at + 1 >= count || heads[at + 1] != head) return count;
    SORTED_PLACE(more, count - at, i, str_cmp_headed(heads[at + i], names[at + i], head, name) < 0);
    at += more;
    return at < count && str_eq(names[at], name) ? at : count;
}

#endif
