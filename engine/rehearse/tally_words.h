/* A tally as words of 64 bits, to be kept and added later. */
#ifndef TT_REHEARSE_TALLY_WORDS_H
#define TT_REHEARSE_TALLY_WORDS_H

#include "rehearse/tally.h"

/* All that was counted; lives in `keep`. */
const uint64_t *tally_words(arena *keep, const tally *t, uint32_t *count);
/* Adds such words of so many calls. False, and nothing is added: they are none of a tally like this
 * one, or something in them has changed. */
bool tally_add_words(tally *into, arena *keep, const uint64_t *words, uint32_t count,
                     uint64_t calls);

#endif
