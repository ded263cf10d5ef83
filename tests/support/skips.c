#include "skips.h"

#include "testing.h"

#include <stdio.h>

static void say(const char *why, va_list arguments)
{
    printf("skipped: ");
    vprintf(why, arguments);
    printf("\n");
    fflush(stdout);
}

void skip_since(const char *why, ...)
{
    va_list arguments;
    va_start(arguments, why);
    say(why, arguments);
    va_end(arguments);
    skip();
}

int skip_all_since(const char *why, ...)
{
    va_list arguments;
    va_start(arguments, why);
    say(why, arguments);
    va_end(arguments);
    return SKIPPED_PROGRAM;
}
