/* Put before the C library of a program (LD_PRELOAD): its Nth taking of memory fails, or its Nth
 * call that has to do with files, or its Nth word to or from a server, once or from there on.
 * TELLTALE_FAILS says which: "memory once 17", "files always 3", "server once 5". "memory once 0"
 * fails none: then the program leaves at its end in the file TELLTALE_CALLS how many such calls
 * there were, and behind it the number of each that came by a way of its own, from function to
 * function, for the first time: to let those fail is to let each place fail that the program has.
 */
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <execinfo.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#define SEEN __attribute__((visibility("default")))

extern void *__libc_malloc(size_t size);
extern void *__libc_realloc(void *block, size_t size);
extern void *__libc_calloc(size_t count, size_t size);

enum { LONGEST_WAY = 48, MOST_WAYS = 1 << 14 };

static struct {
    bool memory, files, server, always, met; /* met: a call that counts was made */
    unsigned long at, calls;
} plan;

/* Of a program that is let be, where the calls came from. */
static struct {
    bool wanted;
    uint64_t ways[MOST_WAYS]; /* sums of those met, each at the place that it says; 0: none */
    unsigned long firsts[MOST_WAYS];
    size_t count;
} places;

/* Asked for callers the first time the library takes memory, which is not to count. */
__attribute__((constructor)) static void begin(void)
{
    void *caller;
    char what[16] = "", how[16] = "";
    unsigned long at = 0;
    const char *wanted = getenv("TELLTALE_FAILS");
    (void)backtrace(&caller, 1);
    if (wanted == NULL || sscanf(wanted, "%15s %15s %lu", what, how, &at) != 3) return;
    plan.at = at;
    plan.always = strcmp(how, "always") == 0;
    plan.memory = strcmp(what, "memory") == 0;
    plan.files = strcmp(what, "files") == 0;
    plan.server = strcmp(what, "server") == 0;
    places.wanted = at == 0 && getenv("TELLTALE_CALLS") != NULL;
}

/* FNV-1a over the places from which one was called by the other. */
static uint64_t way_here(void)
{
    void *callers[LONGEST_WAY];
    uint64_t sum = 14695981039346656037u;
    const int depth = backtrace(callers, LONGEST_WAY);
    for (int i = 0; i < depth; i++) sum = (sum ^ (uintptr_t)callers[i]) * 1099511628211u;
    return sum | 1;
}

static void note_place(unsigned long n)
{
    const uint64_t way = way_here();
    for (size_t i = 0; i < MOST_WAYS; i++) {
        uint64_t *at = &places.ways[(way + i) % MOST_WAYS], none = 0;
        if (__atomic_compare_exchange_n(at, &none, way, false, __ATOMIC_SEQ_CST, __ATOMIC_SEQ_CST))
            places.firsts[__atomic_fetch_add(&places.count, 1, __ATOMIC_SEQ_CST)] = n;
        if (none == 0 || none == way) break;
    }
}

static void put_number(int fd, unsigned long number)
{
    char text[32];
    const int length = snprintf(text, sizeof text, "%lu\n", number);
    if (syscall(SYS_write, fd, text, (size_t)length) < 0) _exit(99);
}

/* Before the program's own last rites, if it made a call that counts: what else is linked into it
 * may write files then. */
__attribute__((destructor)) static void end(void)
{
    const char *path = getenv("TELLTALE_CALLS");
    plan.memory = plan.files = plan.server = places.wanted = false;
    if (path == NULL || plan.at > 0) return;
    const int fd = (int)syscall(SYS_openat, AT_FDCWD, path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    put_number(fd, plan.calls);
    for (size_t i = 0; i < places.count; i++) put_number(fd, places.firsts[i]);
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
    if (places.wanted) note_place(n);
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

FAILS_WITH(rmdir, EBUSY, (const char *path), (path))
FAILS_WITH(chmod, EPERM, (const char *path, mode_t mode), (path, mode))
FAILS_WITH(getentropy, ENOSYS, (void *bytes, size_t count), (bytes, count))

/* The words to and from a server: the way is cut, so that the other end hears of it too. */
static bool is_cut(int fd)
{
    const bool cut = fails(plan.server, ECONNRESET);
    if (!cut) return false;
    shutdown(fd, SHUT_RDWR);
    errno = ECONNRESET;
    return true;
}

SEEN ssize_t send(int fd, const void *bytes, size_t count, int how)
{
    return is_cut(fd) ? -1 : NEXT(send)(fd, bytes, count, how);
}

SEEN ssize_t recv(int fd, void *bytes, size_t count, int how)
{
    return is_cut(fd) ? -1 : NEXT(recv)(fd, bytes, count, how);
}

SEEN struct dirent *readdir(DIR *folder)
{
    return fails(plan.files, EIO) ? NULL : NEXT(readdir)(folder);
}

SEEN FILE *tmpfile(void)
{
    return fails(plan.files, EMFILE) ? NULL : NEXT(tmpfile)();
}

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
