/* The causes that one has to keep in mind: the head of the list that holds most of the belief. */
#include <assert.h>

#include "base/sorted.h"
#include "believe/belief_parts.h"

typedef struct listed {
    uint32_t member; /* 0: something not listed, 1 + cause */
    double chance;
} listed;

/* As people see them: likeliest first; equals in the order of their names, something not listed
 * after them. */
static int by_chance(const void *a, const void *b)
{
    const listed *x = a, *y = b;
    if (x->chance != y->chance) return THREE_WAY(y->chance, x->chance);
    return THREE_WAY(x->member - 1, y->member - 1);
}

/* What of the belief holds this one and none that is in the set already. */
static double mass_of(const belief *b, const bool *in_set, uint32_t member)
{
    assert(member <= b->causes && !in_set[member]);
    double mass = b->posterior[member];
    for (uint32_t d = 0; b->pairs && member > 0 && d < b->causes; d++) {
        if (d == member - 1 || in_set[1 + d]) continue;
        mass +=
            b->posterior[d < member - 1 ? pair_at(b, d, member - 1) : pair_at(b, member - 1, d)];
    }
    return mass;
}

uint32_t belief_likely_set(const belief *b, arena *scratch, double share, uint32_t *members,
                           double *mass)
{
    assert(share >= 0 && share <= 1);
    listed *all = ARENA_ARRAY(scratch, listed, (size_t)b->causes + 1);
    bool *in_set = ARENA_ARRAY(scratch, bool, (size_t)b->causes + 1);
    uint32_t count = 0;
    for (uint32_t h = 0; h <= b->causes; h++) all[h] = (listed){h, b->marginal[h]};
    SORT(all, b->causes + 1, by_chance);
    for (*mass = 0; count <= b->causes && *mass < share; count++) {
        members[count] = all[count].member;
        *mass += mass_of(b, in_set, all[count].member);
        in_set[all[count].member] = true;
    }
    assert(count > 0 || share == 0);
    return count;
}
