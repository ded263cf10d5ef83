/* Memory by lifetime, as in the engine. Where none is left the program ends, as take_memory says.
 */
#ifndef TT_CLI_MEMORY_H
#define TT_CLI_MEMORY_H

#include "base/arena.h"

/* Freed with arena_free. */
arena *host_arena(void);
/* The engine's own formatting, NUL-ended. */
const char *arena_text(arena *keep, const char *format, ...) __attribute__((format(printf, 2, 3)));
const char *arena_copy(arena *keep, const char *text); /* null gives null */

#endif
