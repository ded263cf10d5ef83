/* An arena that ends the program where there is no memory, and texts in it. */
#include "host/memory.h"

#include <stdarg.h>
#include <stdlib.h>

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
