/* The world that made-up calls come from: the book's own numbers, or numbers that are off. */
#ifndef TT_REHEARSE_WORLD_H
#define TT_REHEARSE_WORLD_H

#include "believe/belief.h"
#include "compile/program.h"
#include "rehearse/dice.h"

typedef struct world {
    const net *n;                 /* findings, components and their cells as in the program */
    const net_rate *const *cures; /* [fix] */
    belief *prior; /* for the chances of hypotheses and of signs; nothing is ever answered in it */
} world;

/* As the author wrote it. */
world world_written(arena *keep, const program *p);

/* Every number of the author (how often a cause comes, shows, shows otherwise, is cured) times a
 * factor of its own, evenly from 1 - off to 1 + off; chances are clipped and the tables fitted
 * anew. 0 ≤ off < 1. Each factor is drawn by the names of what its number is about. */
world world_off(arena *keep, arena *scratch, const program *p, double off, uint64_t seed,
                uint64_t call);

#endif
