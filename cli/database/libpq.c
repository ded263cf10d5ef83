#include "database/libpq.h"

#ifdef TELLTALE_HAS_LIBPQ

#include <dlfcn.h>
#include <stdbool.h>
#include <stddef.h>
#include <string.h>

#include "host/screen.h"

/* Its fifth binary interface, since 2006. */
#ifdef __APPLE__
static const char file[] = "libpq.5.dylib";
#else
static const char file[] = "libpq.so.5";
#endif

#define LIBPQ_CALL(name) {#name, offsetof(libpq, name)},
static const struct {
    const char *name;
    size_t at;
} names[] = {LIBPQ_CALLS(LIBPQ_CALL)};
#undef LIBPQ_CALL

/* What dlsym gives is a function by POSIX, which C has no cast for. */
static bool find_all(void *handle, libpq *calls)
{
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        void *found = dlsym(handle, names[i].name);
        if (found == NULL) return false;
        memcpy((char *)calls + names[i].at, &found, sizeof found);
    }
    return true;
}

const libpq *pq(void)
{
    static libpq calls;
    static bool tried, there; /* a program takes it in once, and keeps it */
    if (!tried) {
        void *handle = dlopen(file, RTLD_NOW | RTLD_LOCAL);
        there = handle != NULL && find_all(handle, &calls);
        tried = true;
    }
    return there ? &calls : NULL;
}

exit_status libpq_say_absent(void)
{
    complain("libpq is not on this machine, so cases can't be kept in a database. Install libpq5 "
             "(Debian's name for it)");
    return EXIT_NO_FILE;
}

#endif
