/* Forward chaining: working memory over a compiled logic. Three-valued (Kleene) with loops read as
 * least fixpoints: an atom is TRUE if it follows from what is known, FALSE if it cannot follow
 * whatever the unknown turns out to be (no body possible; a loop that nothing outside supports is
 * FALSE), else UNKNOWN. Each gate counts its true and its false inputs, so that a change costs work
 * proportional to what changed (Dowling & Gallier 1984, Forgy 1982 for the idea of keeping matches
 * between changes). Answer, change and retraction are the same call. The result does not depend on
 * the order of rules or of answers. */
#ifndef TT_CHAIN_WORKING_MEMORY_H
#define TT_CHAIN_WORKING_MEMORY_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "compile/logic.h"

typedef struct working_memory working_memory;

working_memory *wm_new(arena *keep, const logic *l);

/* The states that finding f may be in. `known` when it was answered with certainty (then usually
 * one bit is set). All bits and not known: retracted. */
void wm_set(working_memory *m, uint32_t finding, state_mask possible, bool known);

truth wm_truth(const working_memory *m, uint32_t atom);

/* Atoms whose truth changed since the last call of wm_changes_seen, or since wm_new, each once,
 * rising. Changed and changed back is no change. */
const uint32_t *wm_changes(working_memory *m, uint32_t *count);
void wm_changes_seen(working_memory *m);

/* Why an atom holds (or is false): its justification, lowest-numbered body first, as a chain
 * without repeats: findings and atoms that suffice. UNKNOWN: the findings it waits for. */
typedef struct justification {
    const uint32_t *findings;
    uint32_t finding_count;
    const uint32_t *atoms; /* nearest first, the atom itself left out */
    uint32_t atom_count;
    uint32_t body; /* body that carries it, or UINT32_MAX */
} justification;
justification wm_why(const working_memory *m, arena *keep, uint32_t atom);

/* Gate visits so far: for the tests and the benchmark that show work is proportional to change. */
uint64_t wm_work(const working_memory *m);

/* The slow way, for tests and debug builds: from scratch by naive iteration; out[atom_count]. */
void wm_naive(arena *scratch, const logic *l, const state_mask *possible, const bool *known,
              truth *out);

#endif
