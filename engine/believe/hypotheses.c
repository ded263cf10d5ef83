/* Which causes a hypothesis holds. */
#include <assert.h>

#include "base/sorted.h"
#include "believe/belief_parts.h"

void belief_hypothesis(const belief *b, uint32_t hypothesis, uint32_t *size, uint32_t causes[2])
{
    assert(hypothesis < b->count);
    *size = hypothesis == 0 ? 0 : hypothesis <= b->causes ? 1 : 2;
    if (*size == 1) causes[0] = hypothesis - 1;
    if (*size < 2) return;
    uint32_t begun; /* first causes whose pairs begin at or before it */
    SORTED_PLACE(begun, b->causes - 1, i, b->first_pair[i] <= hypothesis);
    assert(begun > 0);
    causes[0] = begun - 1;
    causes[1] = begun + (hypothesis - b->first_pair[begun - 1]);
    assert(causes[1] < b->causes);
}
