/* The causes that one has to keep in mind: the head of the list that holds most of the belief. */
#include <assert.h>

#include "base/resort.h"
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

void belief_order(const belief *b, arena *scratch, uint32_t *members)
{
    const uint32_t count = b->causes + 1;
    const arena_mark before = arena_here(scratch);
    listed *all = ARENA_ARRAY(scratch, listed, count), *aside = ARENA_ARRAY(scratch, listed, count);
    for (uint32_t i = 0; i < count; i++) {
        assert(members[i] < count);
        all[i] = (listed){members[i], b->marginal[members[i]]};
    }
    RESORT(all, count, by_chance, aside);
    for (uint32_t i = 0; i < count; i++) members[i] = all[i].member;
    arena_back_to(scratch, before);
}

uint32_t belief_likely_head(const belief *b, arena *scratch, double share, const uint32_t *members,
                            double *mass)
{
    assert(share >= 0 && share <= 1);
    const arena_mark before = arena_here(scratch);
    bool *in_set = ARENA_ARRAY(scratch, bool, (size_t)b->causes + 1);
    uint32_t count = 0;
    for (*mass = 0; count <= b->causes && *mass < share; count++) {
        *mass += mass_of(b, in_set, members[count]);
        in_set[members[count]] = true;
    }
    assert(count > 0 || share == 0);
    arena_back_to(scratch, before);
    return count;
}

uint32_t belief_likely_set(const belief *b, arena *scratch, double share, uint32_t *members,
                           double *mass)
{
    for (uint32_t h = 0; h <= b->causes; h++) members[h] = h;
    belief_order(b, scratch, members);
    return belief_likely_head(b, scratch, share, members, mass);
}
