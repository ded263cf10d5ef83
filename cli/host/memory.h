/* Memory by lifetime, as in the engine. Where none is left the program ends, as take_memory says.
 */
#ifndef TT_CLI_MEMORY_H
#define TT_CLI_MEMORY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/arena.h"

/* Freed with arena_free. */
arena *host_arena(void);
/* The engine's own formatting, NUL-ended. */
const char *arena_text(arena *keep, const char *format, ...) __attribute__((format(printf, 2, 3)));
const char *arena_copy(arena *keep, const char *text); /* null gives null */

/* What is written into a stream, kept in memory. Where open_memstream can't grow it leaves a piece
 * out, and neither ferror nor fclose tells: so this is one of our own. */
typedef struct memory_stream {
    FILE *stream;
    char *bytes; /* whole once it is closed; freed by memory_stream_free */
    size_t length, room;
    bool torn; /* memory ended; so does the program, when it is closed */
} memory_stream;
void memory_stream_begin(memory_stream *m);
void memory_stream_close(memory_stream *m);
void memory_stream_free(memory_stream *m);

#endif
