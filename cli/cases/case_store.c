/* Opening a case of the store: its name, its folder, and becoming one of its writers. */
#include "cases/case_store.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "cases/case_folder.h"
#include "cases/case_store_parts.h"
#include "host/door.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/screen.h"

enum { MOST_WINDOWS = 99 };

const char *case_store_id(const case_store *s)
{
    return s->name.id;
}

const char *case_store_number(const case_store *s)
{
    return s->name.number;
}

const char *case_store_folder(const case_store *s)
{
    return s->name.folder;
}

const char *case_store_writer(const case_store *s)
{
    return s->writer;
}

bool case_store_is_on_disk(const case_store *s)
{
    return s->root == NULL;
}

/* One that is not on the disk yet has a writer all the same: nobody else can know of it. */
bool case_store_is_joined(const case_store *s)
{
    return *s->writer != 0;
}

void case_store_close(case_store *s)
{
    if (s == NULL) return;
    if (s->fd >= 0) close(s->fd);
    arena_free(s->waiting);
    arena_free(s->keep);
}

static case_store *begin(void)
{
    arena *keep = host_arena();
    case_store *s = ARENA_NEW(keep, case_store);
    *s = (case_store){.keep = keep, .waiting = host_arena(), .fd = -1};
    writer_of_this_machine(s->base);
    return s;
}

static exit_status end(case_store *s, exit_status status, case_store **out)
{
    if (status != EXIT_DONE) case_store_close(s);
    *out = status == EXIT_DONE ? s : NULL;
    return status;
}

void writer_of_this_machine(char writer[WRITER_SIZE])
{
    char about[512] = "", hash[LINE_HASH_SIZE];
    door_fault fault;
    if (gethostname(about, 256) != 0) about[0] = 0;
    about[256] = 0;
    size_t length = strlen(about) + 1;
    length += (size_t)snprintf(about + length, 24, "%lu", (unsigned long)getuid()) + 1;
    int fd = door_open_file(AT_FDCWD, "/etc/machine-id", LINKS_FOLLOWED, &fault);
    ssize_t got = fd >= 0 ? read(fd, about + length, 64) : 0;
    if (fd >= 0) close(fd);
    line_hash(about, length + (got > 0 ? (size_t)got : 0), hash);
    memcpy(writer, hash, WRITER_SIZE - 1);
    writer[WRITER_SIZE - 1] = 0;
}

/* ---- a new case ---- */

exit_status case_store_new(const char *root, case_store **out)
{
    return case_store_new_as(root, NULL, NULL, out);
}

exit_status case_store_new_as(const char *root, const char *id, const char *writer, case_store **out)
{
    case_store *s = begin();
    exit_status status = case_folder_new_as(s->keep, root, id, &s->name);
    if (writer != NULL) {
        assert(strlen(writer) < WRITER_SIZE);
        memcpy(s->base, writer, strlen(writer) + 1);
    }
    if (status == EXIT_DONE) {
        s->root = arena_copy(s->keep, root);
        memcpy(s->writer, s->base, WRITER_SIZE);
    }
    return end(s, status, out);
}

/* ---- one that is there ---- */

exit_status case_store_look(const char *root, const char *named, case_store **out)
{
    case_store *s = begin();
    exit_status status = case_folder_find(s->keep, root, named, &s->name);
    if (status == EXIT_DONE) status = case_parts_read(s, true, true);
    return end(s, status, out);
}

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

/* A file of ours, new or as it is, and the lock on it: *taken if another window has that. 0, or
 * errno. */
static int open_own(case_store *s, unsigned window, bool *taken)
{
    door_fault fault;
    bool made;
    snprintf(s->writer, sizeof s->writer, window > 1 ? "%s-%u" : "%s", s->base, window);
    s->path = arena_text(s->keep, "%s/%s.jsonl", s->name.folder, s->writer);
    int fd = door_open_to_add(AT_FDCWD, s->path, 0600, &made, &fault);
    if (fd < 0) return fault.error != 0 ? fault.error : EEXIST;
    int error = made ? share(s, fd) : 0;
    if (error == 0 && made) error = sync_folder(s->name.folder);
    *taken = error == 0 && is_taken(fd);
    if (error == 0 && !*taken)
        s->fd = fd;
    else
        close(fd);
    return error;
}

int case_open_own(case_store *s)
{
    bool taken = true;
    int error = 0;
    for (unsigned window = 1; taken && error == 0 && window <= MOST_WINDOWS; window++)
        error = open_own(s, window, &taken);
    return error == 0 && taken ? EBUSY : error;
}

static exit_status become_writer(case_store *s)
{
    int error = case_open_own(s);
    if (error == 0) return EXIT_DONE;
    s->writer[0] = 0;
    if (error == EBUSY)
        complain("case %s is open in %d windows already. Close one first", s->name.number,
                 MOST_WINDOWS);
    else
        complain("the case can't be kept in %s: %s", s->name.folder, strerror(error));
    return error == EBUSY ? EXIT_BUSY : EXIT_CANNOT_CREATE;
}

static void note_own_end(case_store *s)
{
    s->own = (case_tail){.torn = false};
    for (uint32_t i = 0; i < s->part_count; i++)
        if (strcmp(s->parts[i].name, s->writer) == 0) s->own = s->parts[i].tail;
}

exit_status case_store_join(case_store *s)
{
    exit_status status = become_writer(s);
    if (status == EXIT_DONE) status = case_parts_read(s, true, false);
    if (status == EXIT_DONE) note_own_end(s);
    return status;
}
