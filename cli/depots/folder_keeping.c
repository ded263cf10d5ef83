/* How records of ours come to the disk: our own file in the case's folder, with a lock on it, and
 * one write for each line. */
#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cases/case_ends.h"
#include "depots/folder_parts.h"
#include "host/door.h"
#include "host/files.h"
#include "host/memory.h"

/* ---- our own file ---- */

/* The lock goes with the descriptor. Where there are no locks, there is one window only. */
static bool is_taken(int fd)
{
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    return fcntl(fd, F_SETLK, &whole) != 0 && (errno == EACCES || errno == EAGAIN);
}

/* A group that may write in the folder may read and continue what is written there. */
static int share(const case_store *s, int fd)
{
    struct stat above, about;
    if (stat(s->name.folder, &above) != 0 || fstat(fd, &about) != 0) return errno;
    bool shared = (above.st_mode & S_IWGRP) != 0 && above.st_gid == about.st_gid;
    return !shared || fchmod(fd, 0660) == 0 ? 0 : errno;
}

/* The writer's file, new or as it is, and the lock on it: *taken if another window has that. 0, or
 * errno. */
static int open_own(case_store *s, bool *taken)
{
    door_fault fault;
    bool made;
    s->path = arena_text(s->keep, "%s/%s.jsonl", s->name.folder, s->writer);
    int fd = door_open_to_add(AT_FDCWD, s->path, 0600, &made, &fault);
    if (fd < 0) return fault.error != 0 ? fault.error : EEXIST;
    int error = made ? share(s, fd) : 0;
    if (error == 0 && made) error = sync_folder(s->name.folder);
    *taken = error == 0 && is_taken(fd);
    s->joined = error == 0 && !*taken;
    if (s->joined)
        s->fd = fd;
    else
        close(fd);
    return error;
}

static int open_any_own(case_store *s)
{
    bool taken = true;
    int error = 0;
    for (unsigned window = 1; taken && error == 0 && window <= MOST_WINDOWS; window++) {
        snprintf(s->writer, sizeof s->writer, window > 1 ? "%s-%u" : "%s", s->base, window);
        error = open_own(s, &taken);
    }
    return error == 0 && taken ? EBUSY : error;
}

int folder_open_as_writer(case_store *s)
{
    bool taken = false;
    const int error = open_own(s, &taken);
    return error == 0 && taken ? EBUSY : error;
}

const char *folder_join(case_store *s, bool *busy)
{
    const int error = open_any_own(s);
    *busy = error == EBUSY;
    return error == 0 ? NULL : strerror(error);
}

void folder_close(case_store *s)
{
    if (s->fd >= 0) close(s->fd);
    s->fd = -1;
}

static bool say_why(case_store *s, const char *path, int error)
{
    s->why = arena_text(s->waiting, "%s: %s", path, strerror(error));
    return false;
}

/* ---- the place ---- */

/* The folders of a new case, and our file in them, when there is something to keep. */
static bool has_place(case_store *s)
{
    if (s->fd >= 0) return true;
    const char *why = folder_make_case(s->waiting, s->root, s->name.folder);
    if (why != NULL) {
        s->why = why;
        return false;
    }
    int error = open_any_own(s);
    if (error != 0) return say_why(s, s->path, error);
    s->root = NULL;
    return true;
}

/* ---- writing ---- */

/* So much of the line came to the disk, and of the newline before it that ends a torn one, and then
 * no more. What there is of it stays; the next line begins anew. True if only its own newline is
 * missing. */
static bool note_torn(case_tail *tail, str line, size_t written)
{
    if (written == 0) return false;
    size_t of_line = tail->torn ? written - 1 : written;
    tail->torn = of_line > 0;
    if (of_line > 0) line_hash(line.p, of_line, tail->before);
    return of_line == line.n;
}

/* One write, so that nothing of another program can come in between. */
static bool write_record(case_store *s, const tt_record *record)
{
    arena_mark mark = arena_here(s->waiting);
    str line = record_line(s->waiting, s->name.id, s->own.before, record,
                           record->seen != NULL ? case_ends_named(s->waiting, s) : NULL);
    str whole = str_printf(s->waiting, "%s%.*s\n", s->own.torn ? "\n" : "", STR_ARG(line));
    size_t written;
    int error = door_write(s->fd, whole.p, whole.n, &written);
    bool whole_line = error == 0 || note_torn(&s->own, line, written);
    if (error == 0) {
        line_hash(line.p, line.n, s->own.before);
        s->own.torn = false;
    }
    arena_back_to(s->waiting, mark);
    return whole_line || say_why(s, s->path, error);
}

/* After a sync that failed nobody can say what is on the disk: writing the same once more could
 * keep it twice. */
static bool sync_all(case_store *s)
{
    s->sync_failed = fdatasync(s->fd) != 0;
    return !s->sync_failed || say_why(s, s->path, errno);
}

bool folder_keep(case_store *s)
{
    uint32_t written = 0;
    if (s->sync_failed) return false;
    if (!has_place(s)) return false;
    while (written < s->unkept_count && write_record(s, &s->unkept[written])) written++;
    bool kept = written == s->unkept_count && sync_all(s);
    if (kept || (written > 0 && !s->sync_failed)) case_drop_first(s, written);
    return kept;
}
