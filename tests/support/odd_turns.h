/* Turns made up at random, larger and odder than a conversation makes them: what a face draws has
 * to hold for all of them. Each word of them is there once, so that a test can tell what was drawn
 * twice and what was lost. */
#ifndef TT_SUPPORT_ODD_TURNS_H
#define TT_SUPPORT_ODD_TURNS_H

#include "base/arena.h"
#include "telltale.h"

typedef struct odd_turns {
    arena *keep;
    uint64_t state; /* the seed at first */
    uint32_t word;  /* the next */
} odd_turns;

/* Words are "w1", "w2" … and run on through all turns. */
const tt_turn *odd_turn(odd_turns *o);
/* From 0 to below the limit, which is not 0. */
uint32_t odd_number(odd_turns *o, uint32_t limit);

#endif
