/* A slip: something else is told than what is so. */
#include "rehearse/slip.h"

#include <assert.h>

uint32_t slip_from(dice *d, const misreading *m, uint32_t is)
{
    double told[EXPR_STATES_MAX], all = 0;
    assert(m->states > 1 && m->states <= EXPR_STATES_MAX);
    for (uint32_t a = 0; a < m->states; a++) {
        told[a] = a == is ? 0 : misread_chance(m, a, is);
        all += told[a];
    }
    if (m->settling != 0 && all > 0) return dice_pick(d, told, m->states);
    uint32_t other = dice_below(d, m->states - 1);
    return other < is ? other : other + 1;
}
