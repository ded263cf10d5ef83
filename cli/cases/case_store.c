/* Opening a case of the store: its name, its place, and becoming one of its writers. */
#include "cases/case_store.h"

#include <assert.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "cases/case_depot.h"
#include "cases/case_ends.h"
#include "cases/case_file.h"
#include "cases/case_store_parts.h"
#include "host/door.h"
#include "host/memory.h"
#include "host/screen.h"

void case_store_close(case_store *s)
{
    if (s == NULL) return;
    if (s->depot != NULL) s->depot->close(s);
    arena_free(s->waiting);
    arena_free(s->keep);
}

static case_store *begin(const case_depot *depot)
{
    arena *keep = host_arena();
    case_store *s = ARENA_NEW(keep, case_store);
    *s = (case_store){.keep = keep, .depot = depot, .waiting = host_arena(), .fd = -1};
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

/* One whose database is away begins where it can be kept meanwhile. */
static exit_status name_in_refuge(case_store *s, const char **root, const char *id)
{
    const char *refuge = refuge_of(s->keep, *root);
    if (refuge == NULL) return EXIT_AWAY;
    complain("until the database is back, cases are kept on this machine, in %s", refuge);
    s->depot = depot_of(refuge);
    *root = refuge;
    return s->depot->name(s->keep, refuge, id, &s->name);
}

exit_status case_store_new_as(const char *root, const char *id, const char *writer,
                              case_store **out)
{
    case_store *s = begin(depot_of(root));
    exit_status status = s->depot->name(s->keep, root, id, &s->name);
    if (status == EXIT_AWAY) status = name_in_refuge(s, &root, id);
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
    case_store *s = begin(depot_of(
        strchr(named, '/') != NULL ? named : root)); /* a path says itself where it leads */
    exit_status status = s->depot->find(s->keep, root, named, &s->name);
    if (status == EXIT_DONE) status = s->depot->read(s, true, true);
    if (status == EXIT_DONE) case_ends_check(s);
    return end(s, status, out);
}

exit_status case_store_look_file(const char *path, case_store **out)
{
    case_store *s = begin(NULL);
    return end(s, case_file_read(s, path), out);
}

static exit_status become_writer(case_store *s)
{
    bool busy = false;
    const char *why = s->depot->join(s, &busy);
    if (why == NULL) return EXIT_DONE;
    s->writer[0] = 0;
    if (busy)
        complain("case %s is open in %d windows already. Close one first", s->name.number,
                 MOST_WINDOWS);
    else
        complain("the case can't be kept in %s: %s", s->name.folder, why);
    return busy ? EXIT_BUSY : EXIT_CANNOT_CREATE;
}

static void note_own_end(case_store *s)
{
    s->own = (case_tail){.torn = false};
    for (uint32_t i = 0; i < s->part_count; i++)
        if (strcmp(s->parts[i].name, s->writer) == 0) s->own = s->parts[i].tail;
}

exit_status case_store_join(case_store *s)
{
    assert(s->depot != NULL);
    exit_status status = become_writer(s);
    if (status == EXIT_DONE) status = s->depot->read(s, true, false);
    if (status == EXIT_DONE) note_own_end(s);
    return status;
}
