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

/* What dlsym gives is a function by POSIX, which C has no cast for. */
static bool find(void *handle, const char *name, void *call)
{
    void *found = dlsym(handle, name);
    memcpy(call, &found, sizeof found);
    return found != NULL;
}

const libpq *pq(void)
{
    static libpq calls;
    static bool tried, there; /* a program takes it in once, and keeps it */
    if (tried) return there ? &calls : NULL;
    tried = true;
    void *handle = dlopen(file, RTLD_NOW | RTLD_LOCAL);
    if (handle == NULL) return NULL;
    there = true;
#define LIBPQ_CALL(name) there = find(handle, #name, &calls.name) && there;
    LIBPQ_CALLS(LIBPQ_CALL)
#undef LIBPQ_CALL
    return there ? &calls : NULL;
}

exit_status libpq_say_absent(void)
{
    complain("libpq is not on this machine, so cases can't be kept in a database. Install libpq5 "
             "(Debian's name for it)");
    return EXIT_NO_FILE;
}

#endif
