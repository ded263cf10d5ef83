#include "skips.h"

#include "testing.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

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

static bool is_in_path(const char *program)
{
    const char *path = getenv("PATH");
    while (path != NULL && *path != 0) {
        char file[4096];
        size_t length = strcspn(path, ":");
        snprintf(file, sizeof file, "%.*s/%s", (int)length, path, program);
        if (access(file, X_OK) == 0) return true;
        path += length + (path[length] == ':');
    }
    return false;
}

void need_program(const char *program, const char *package)
{
    if (is_in_path(program)) return;
    skip_since("the program %s is not here (Debian's package %s); ./tests/run installs it", program,
               package);
}

int skip_all_since(const char *why, ...)
{
    va_list arguments;
    va_start(arguments, why);
    say(why, arguments);
    va_end(arguments);
    return SKIPPED_PROGRAM;
}
