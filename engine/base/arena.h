/* Memory by lifetime. An arena owns everything taken from it until it is emptied or freed.
 *
 * Running out of memory never returns: the arena jumps to the guard that the public function
 * set up (see guard.h), so callers below the public face need no error paths for memory. Foreign
 * code (libyaml, PCRE2) must not be jumped through: use arena_try there and hand it the null.
 *
 * Built with TT_ARENA_EACH, every taking is a block of its own, so that sanitizers see overruns. */
#ifndef TT_BASE_ARENA_H
#define TT_BASE_ARENA_H

#include <stddef.h>

#include "base/guard.h"

/* Where memory comes from. `take` returns null when there is none; both get `context`. `ended` (may
 * be null) does not return: what is done where there is none and an arena has no guard. */
typedef struct memory_source {
    void *(*take)(void *context, size_t size);
    void (*give_back)(void *context, void *block);
    void *context;
    void (*ended)(void);
} memory_source;

/* malloc and free. */
extern const memory_source memory_from_system;

typedef struct arena arena;

/* A new arena, or null if there is no memory even for that. `source` null: the system's. The guard
 * may be null until arena_guard sets one; an arena without a guard whose memory ends then asserts,
 * unless its source ends the program. */
arena *arena_new(const memory_source *source, guard *on_exhausted);

/* Frees the arena and all that was taken from it; null is fine. */
void arena_free(arena *a);

/* Sets the guard to leave by, returns the one before. */
guard *arena_guard(arena *a, guard *on_exhausted);

/* Zeroed memory, aligned for any type. Size 0 gives a valid pointer. Leaves by the guard if there
 * is none. */
void *arena_take(arena *a, size_t size);

/* Same, but returns null when there is no memory. */
void *arena_try(arena *a, size_t size);

/* Leaves by the guard, as arena_take does, for those who got a null by arena_try or from foreign
 * code. */
_Noreturn void arena_leave(arena *a);

/* Same as either, and what it holds is not set: for what is written before it is read. */
void *arena_try_unset(arena *a, size_t size);
void *arena_take_unset(arena *a, size_t size);

/* count × size, overflow counts as no memory. */
void *arena_take_array(arena *a, size_t count, size_t size);

#define ARENA_NEW(a, type)          ((type *)arena_take((a), sizeof(type)))
#define ARENA_ARRAY(a, type, count) ((type *)arena_take_array((a), (count), sizeof(type)))

/* Scratch use: everything taken after the mark is given back; the arena keeps some of the memory
 * for what is taken next. */
typedef struct arena_mark {
    void *block;
    size_t used;
} arena_mark;
arena_mark arena_here(const arena *a);
void arena_back_to(arena *a, arena_mark mark);

/* Bytes taken so far (for tests and limits). */
size_t arena_size(const arena *a);

#endif
