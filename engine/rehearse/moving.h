/* Which numbers of the author move the result most. */
#ifndef TT_REHEARSE_MOVING_H
#define TT_REHEARSE_MOVING_H

#include "rehearse/tally.h"

/* Of those of which the calls can tell, at most 10, the strongest first. */
const tt_moving *moving_numbers(arena *keep, arena *scratch, const tt_book *b, const sensitivity *s,
                                const tally *t, uint32_t *count);

#endif
