/* A watched folder. Linux tells what happens in it (inotify); elsewhere it is looked at once a
 * second. */
#include "books/watch.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "books/read_book.h"
#include "host/descriptor_set.h"
#include "host/door.h"
#include "host/files.h"
#include "host/plain_text.h"
#include "host/signals.h"

#ifdef TELLTALE_HAS_INOTIFY
#include <sys/inotify.h>
#endif

enum { DEEPEST = 16 };

struct watch {
    char *folder;
    int fd;        /* of inotify; -1: there is none */
    uint64_t seen; /* without it: how the folder stood */
};

/* ---- what there is in it ---- */

typedef void on_entry(watch *w, const char *path, const struct stat *about);

/* All folders and all files of a book, each with its path. */
static void walk(watch *w, const char *path, unsigned depth, on_entry *visit)
{
    door_fault fault;
    struct stat about;
    if (lstat(path, &about) != 0) return;
    visit(w, path, &about);
    DIR *list = S_ISDIR(about.st_mode) && depth < DEEPEST
                    ? door_list(AT_FDCWD, path, LINKS_FOLLOWED, &fault)
                    : NULL;
    if (list == NULL) return;
    int error; /* whoever then reads the book says so */
    for (struct dirent *entry; (entry = door_next(list, &error)) != NULL;) {
        if (entry->d_name[0] == '.') continue;
        char *within = format_text("%s/%s", path, entry->d_name);
        if (lstat(within, &about) == 0 && (S_ISDIR(about.st_mode) || is_book_file(entry->d_name)))
            walk(w, within, depth + 1, visit);
        free(within);
    }
    closedir(list);
}

#ifdef TELLTALE_HAS_INOTIFY

/* ---- told by the system ---- */

enum {
    ROOM = 16384,
    SETTLING = 20, /* milliseconds: an editor that writes several files, or moves one into place, is
                      one save */
    WHAT = IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_DELETE | IN_CREATE | IN_DELETE_SELF |
           IN_MOVE_SELF
};

static void watch_folder(watch *w, const char *path, const struct stat *about)
{
    if (S_ISDIR(about->st_mode)) inotify_add_watch(w->fd, path, WHAT | IN_ONLYDIR);
}

/* A file that was only made is not written yet. */
static bool is_save(const struct inotify_event *e)
{
    if ((e->mask & (IN_DELETE_SELF | IN_MOVE_SELF | IN_Q_OVERFLOW)) != 0) return true;
    if (e->len == 0 || e->name[0] == '.') return false;
    if ((e->mask & IN_ISDIR) != 0) return true;
    return (e->mask & IN_CREATE) == 0 && is_book_file(e->name);
}

/* Whether a save was among what is there to be read; -1 with errno. */
static int read_events(watch *w)
{
    _Alignas(struct inotify_event) char bytes[ROOM];
    const ssize_t length = read(w->fd, bytes, sizeof bytes);
    bool saved = false;
    if (length < 0) return errno == EAGAIN ? 0 : -1;
    for (ssize_t at = 0; at < length;) {
        const struct inotify_event *e = (const void *)(bytes + at);
        saved = saved || is_save(e);
        at += (ssize_t)(sizeof *e + e->len);
    }
    return saved ? 1 : 0;
}

/* Until there is something to read, a signal, or so many milliseconds are over (-1: none are
 * counted). A signal that comes just before is seen too: it waits until pselect lets it in. */
static int await_events(const watch *w, int milliseconds)
{
    const struct timespec most = {.tv_nsec = milliseconds * 1000000L};
    sigset_t before;
    fd_set one;
    FD_ZERO(&one);
    set_add(&one, w->fd);
    signals_hold(&before);
    errno = EINTR;
    const int ready = signals_noted() != 0 ? -1
                                           : pselect(w->fd + 1, &one, NULL, NULL,
                                                     milliseconds < 0 ? NULL : &most, &before);
    const int error = errno;
    signals_let_go(&before);
    errno = error;
    return ready;
}

static watch_got wait_for_events(watch *w)
{
    bool saved = false;
    for (;;) {
        const int ready = await_events(w, saved ? SETTLING : -1);
        if (signals_noted() != 0) return WATCH_SIGNAL;
        if (ready == 0) break; /* only once something was saved */
        const int read_one = ready < 0 ? (errno == EINTR ? 0 : -1) : read_events(w);
        if (read_one < 0) return WATCH_FAILED;
        saved = saved || read_one > 0;
    }
    walk(w, w->folder, 0, watch_folder); /* folders may have come */
    return WATCH_SAVED;
}

static bool begin(watch *w)
{
    w->fd = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
    if (w->fd < 0) return false;
    walk(w, w->folder, 0, watch_folder);
    return true;
}

#else

/* ---- looked at ---- */

static uint64_t mixed(uint64_t state, uint64_t more)
{
    return (state ^ more) * UINT64_C(1099511628211); /* FNV-1a, a word at a time */
}

static void add_entry(watch *w, const char *path, const struct stat *about)
{
    uint64_t own = UINT64_C(14695981039346656037);
    for (const char *at = path; *at != 0; at++) own = mixed(own, (unsigned char)*at);
    own = mixed(mixed(own, (uint64_t)about->st_mtim.tv_sec), (uint64_t)about->st_mtim.tv_nsec);
    w->seen +=
        S_ISDIR(about->st_mode) ? 0 : mixed(own, (uint64_t)about->st_size); /* in any order */
}

static watch_got wait_for_events(watch *w)
{
    const uint64_t before = w->seen;
    do {
        poll(NULL, 0, 1000);
        if (signals_noted() != 0) return WATCH_SIGNAL;
        w->seen = 0;
        walk(w, w->folder, 0, add_entry);
    } while (w->seen == before);
    return WATCH_SAVED;
}

static bool begin(watch *w)
{
    walk(w, w->folder, 0, add_entry);
    return true;
}

#endif

watch *watch_new(const char *folder)
{
    watch *w = take_memory(sizeof *w);
    *w = (watch){.folder = copy_text(folder), .fd = -1};
    if (begin(w)) return w;
    const int error = errno;
    watch_free(w);
    errno = error;
    return NULL;
}

watch_got watch_wait(watch *w)
{
    return wait_for_events(w);
}

void watch_free(watch *w)
{
    if (w == NULL) return;
    if (w->fd >= 0) close(w->fd);
    free(w->folder);
    free(w);
}
