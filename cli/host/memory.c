/* An arena that ends the program where there is no memory, and texts in it; a stream that does. */
#ifndef __APPLE__
#define _GNU_SOURCE /* fopencookie */
#endif
#include "host/memory.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>

#include "base/str.h"
#include "host/plain_text.h"

static void *take(void *context, size_t size)
{
    (void)context;
    return more_memory(NULL, size); /* an arena zeroes what is taken of it */
}

static void give_back(void *context, void *block)
{
    (void)context;
    free(block);
}

arena *host_arena(void)
{
    static const memory_source ends_the_program = {
        .take = take, .give_back = give_back, .ended = memory_ended};
    return arena_new(&ends_the_program, NULL);
}

const char *arena_text(arena *keep, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    str text = str_vprintf(keep, format, arguments);
    va_end(arguments);
    return text.p;
}

const char *arena_copy(arena *keep, const char *text)
{
    return text != NULL ? str_copy(keep, str_of(text)).p : NULL;
}

/* ---- a stream ---- */

/* The program can't be ended from within: it would want these bytes written first. */
static bool take_bytes(memory_stream *m, const char *bytes, size_t count)
{
    if (m->torn) return false;
    size_t room = m->room > 0 ? m->room : 8192;
    while (m->length + count > room) room *= 2;
    char *more = room > m->room ? realloc(m->bytes, room) : m->bytes;
    m->torn = more == NULL;
    if (m->torn) return false;
    m->bytes = more;
    m->room = room;
    memcpy(m->bytes + m->length, bytes, count);
    m->length += count;
    return true;
}

#ifdef __APPLE__
static int write_bytes(void *cookie, const char *bytes, int count)
{
    return take_bytes(cookie, bytes, (size_t)count) ? count : -1;
}

static FILE *open_on(memory_stream *m)
{
    return fwopen(m, write_bytes);
}
#else
static ssize_t write_bytes(void *cookie, const char *bytes, size_t count)
{
    return take_bytes(cookie, bytes, count) ? (ssize_t)count : 0;
}

static FILE *open_on(memory_stream *m)
{
    return fopencookie(m, "w", (cookie_io_functions_t){.write = write_bytes});
}
#endif

void memory_stream_begin(memory_stream *m)
{
    *m = (memory_stream){.bytes = NULL};
    m->stream = open_on(m);
    if (m->stream == NULL) memory_ended();
}

void memory_stream_close(memory_stream *m)
{
    fclose(m->stream);
    if (m->torn) memory_ended();
}

void memory_stream_free(memory_stream *m)
{
    free(m->bytes);
}
