/* Put before the C library of a program (LD_PRELOAD): its Nth taking of memory fails, or its Nth
 * call that has to do with files, once or from there on. TELLTALE_FAILS says which: "memory once
 * 17", "files always 3"; "memory once 0" fails none. At its end the program leaves how many such
 * calls there were in the file TELLTALE_CALLS. */
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#define SEEN __attribute__((visibility("default")))

extern void *__libc_malloc(size_t size);
extern void *__libc_realloc(void *block, size_t size);
extern void *__libc_calloc(size_t count, size_t size);

static struct {
    bool memory, files, always, met; /* met: a call that counts was made */
    unsigned long at, calls;
} plan;

__attribute__((constructor)) static void begin(void)
{
    char what[16] = "", how[16] = "";
    unsigned long at = 0;
    const char *wanted = getenv("TELLTALE_FAILS");
    if (wanted == NULL || sscanf(wanted, "%15s %15s %lu", what, how, &at) != 3) return;
    plan.at = at;
    plan.always = strcmp(how, "always") == 0;
    plan.memory = strcmp(what, "memory") == 0;
    plan.files = strcmp(what, "files") == 0;
}

/* Before the program's own last rites, if it made a call that counts: what else is linked into it
 * may write files then. */
__attribute__((destructor)) static void end(void)
{
    const char *path = getenv("TELLTALE_CALLS");
    char text[32];
    plan.memory = plan.files = false;
    if (path == NULL) return;
    const int length = snprintf(text, sizeof text, "%lu\n", plan.calls);
    const int fd = (int)syscall(SYS_openat, AT_FDCWD, path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    if (syscall(SYS_write, fd, text, (size_t)length) < 0) return;
    syscall(SYS_close, fd);
}

static bool fails(bool counts, int error)
{
    if (!counts) return false;
    if (!plan.met) {
        plan.met = true;
        atexit(end);
    }
    const unsigned long n = __atomic_add_fetch(&plan.calls, 1, __ATOMIC_RELAXED);
    const bool now = plan.at > 0 && (n == plan.at || (plan.always && n > plan.at));
    if (now) errno = error;
    return now;
}

SEEN void *malloc(size_t size)
{
    return fails(plan.memory, ENOMEM) ? NULL : __libc_malloc(size);
}

SEEN void *calloc(size_t count, size_t size)
{
    return fails(plan.memory, ENOMEM) ? NULL : __libc_calloc(count, size);
}

SEEN void *realloc(void *block, size_t size)
{
    return fails(plan.memory, ENOMEM) ? NULL : __libc_realloc(block, size);
}

/* What it was before. */
#define NEXT(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

static int opened(int folder, const char *path, int how, mode_t mode)
{
    return fails(plan.files, EIO) ? -1 : (int)syscall(SYS_openat, folder, path, how, mode);
}

static mode_t mode_of(int how, va_list more)
{
    return (how & (O_CREAT | O_TMPFILE)) != 0 ? va_arg(more, mode_t) : 0;
}

#define OPENS(name) \
    SEEN int name(const char *path, int how, ...) \
    { \
        va_list more; \
        va_start(more, how); \
        const mode_t mode = mode_of(how, more); \
        va_end(more); \
        return opened(AT_FDCWD, path, how, mode); \
    }
#define OPENS_AT(name) \
    SEEN int name(int folder, const char *path, int how, ...) \
    { \
        va_list more; \
        va_start(more, how); \
        const mode_t mode = mode_of(how, more); \
        va_end(more); \
        return opened(folder, path, how, mode); \
    }
OPENS(open)
OPENS(open64)
OPENS_AT(openat)
OPENS_AT(openat64)

/* Under these names a hardened program opens what it doesn't make. */
SEEN int __open_2(const char *path, int how);
SEEN int __open_2(const char *path, int how)
{
    return opened(AT_FDCWD, path, how, 0);
}

SEEN int __openat_2(int folder, const char *path, int how);
SEEN int __openat_2(int folder, const char *path, int how)
{
    return opened(folder, path, how, 0);
}

SEEN ssize_t read(int fd, void *bytes, size_t count)
{
    return fails(plan.files && fd > 2, EIO) ? -1 : syscall(SYS_read, fd, bytes, count);
}

SEEN ssize_t write(int fd, const void *bytes, size_t count)
{
    return fails(plan.files && fd > 2, ENOSPC) ? -1 : syscall(SYS_write, fd, bytes, count);
}

/* A name for each call that takes these and tells of failure by -1. */
#define FAILS_WITH(name, error, takes, gives) \
    SEEN int name takes \
    { \
        return fails(plan.files, error) ? -1 : NEXT(name) gives; \
    }
FAILS_WITH(fsync, EIO, (int fd), (fd))
FAILS_WITH(fdatasync, EIO, (int fd), (fd))
FAILS_WITH(ftruncate, EIO, (int fd, off_t length), (fd, length))
FAILS_WITH(rename, EIO, (const char *from, const char *to), (from, to))
FAILS_WITH(link, EPERM, (const char *from, const char *to), (from, to))
FAILS_WITH(mkdir, ENOSPC, (const char *path, mode_t mode), (path, mode))
FAILS_WITH(mkdirat, ENOSPC, (int folder, const char *path, mode_t mode), (folder, path, mode))
FAILS_WITH(fchmod, EPERM, (int fd, mode_t mode), (fd, mode))
FAILS_WITH(fstat, EIO, (int fd, struct stat *about), (fd, about))
FAILS_WITH(stat, EACCES, (const char *path, struct stat *about), (path, about))
FAILS_WITH(lstat, EACCES, (const char *path, struct stat *about), (path, about))

FAILS_WITH(fstatat, EACCES, (int folder, const char *path, struct stat *about, int how),
           (folder, path, about, how))
FAILS_WITH(unlink, EIO, (const char *path), (path))
FAILS_WITH(unlinkat, EIO, (int folder, const char *path, int how), (folder, path, how))

SEEN FILE *fopen(const char *path, const char *how)
{
    return fails(plan.files, EMFILE) ? NULL : NEXT(fopen)(path, how);
}

SEEN DIR *opendir(const char *path)
{
    return fails(plan.files, EMFILE) ? NULL : NEXT(opendir)(path);
}

SEEN DIR *fdopendir(int fd)
{
    return fails(plan.files, ENOMEM) ? NULL : NEXT(fdopendir)(fd);
}
