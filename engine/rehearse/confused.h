/* Which cause was taken for which, and what would tell them apart. */
#ifndef TT_REHEARSE_CONFUSED_H
#define TT_REHEARSE_CONFUSED_H

#include "rehearse/tally.h"

/* The mistakes made most often, at most 20. `role`: who asks. */
const tt_confused *confused_pairs(arena *keep, arena *scratch, const program *p, const tally *t,
                                  uint32_t role, uint32_t *count);

#endif
