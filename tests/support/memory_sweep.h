/* Something that is done by the arenas of a public function, with memory that ends at each taking
 * in turn: it is left by the guard just when memory ended, nothing leaks, and with memory enough it
 * comes out as it should. */
#ifndef TT_SUPPORT_MEMORY_SWEEP_H
#define TT_SUPPORT_MEMORY_SWEEP_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

/* Whether it came out as it should. `of`: what the test hands on. */
typedef bool (*arena_work)(void *of, arena *keep, arena *scratch);

typedef enum arena_end { ARENA_WORK_DONE, ARENA_WORK_OTHERWISE, ARENA_WORK_LEFT } arena_end;
/* Once. `memory` null: the system's. */
arena_end arena_work_once(const memory_source *memory, arena_work work, void *of);

/* At each taking (of thousands a sample), that one alone or from there on; the number of takings
 * that were tried. The test fails if anything of it isn't so. */
size_t memory_sweep(arena_work work, void *of, bool from_then_on);
/* Both. */
void memory_sweeps(arena_work work, void *of);

#endif
