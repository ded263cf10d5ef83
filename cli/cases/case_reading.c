/* The writers' files of one case, read line by line; each from where it was read to before. */
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/grow.h"
#include "cases/case_lines.h"
#include "cases/case_store_parts.h"
#include "host/door.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/screen.h"

enum { LARGEST_CASE = 64 << 20, MOST_COMPLAINTS = 8 };

/* One file while it is read. */
typedef struct taking {
    case_store *store;
    case_part *part;
    bool alive, aloud;
    unsigned long long left_out, loose; /* loose: they do not follow from the line before */
} taking;

/* ---- lines ---- */

static void say_left_out(taking *t, const char *why)
{
    if (t->aloud && t->left_out++ < MOST_COMPLAINTS)
        complain("%s, line %llu is left out: %s", t->part->path, (unsigned long long)t->part->lines,
                 why);
}

static void say_loose(taking *t)
{
    if (t->aloud && t->loose++ < MOST_COMPLAINTS)
        complain("%s, line %llu does not follow from the one before", t->part->path,
                 (unsigned long long)t->part->lines);
}

static void keep_record(taking *t, const case_line *line)
{
    case_store *s = t->store;
    tt_record record;
    bool follows;
    const char *why = s->bytes + line->length > LARGEST_CASE ? "the case is too large" : NULL;
    if (why == NULL)
        why = record_of_line(s->keep, line->bytes, line->length, s->name.id, t->part->tail.before,
                             &record, &follows);
    if (why != NULL) {
        say_left_out(t, why);
        return;
    }
    if (!follows) say_loose(t);
    s->bytes += line->length;
    GROW(s->keep, s->records, s->count, s->room);
    s->records[s->count++] = record;
}

/* A line that was torn when it was read before, and was ended since so that another could follow.
 */
static bool only_ends_the_last(const case_part *part, const case_line *line)
{
    return part->tail.torn && line->length == 0 && line->whole && line->place == 1;
}

static bool take_line(void *context, const case_line *line)
{
    taking *t = context;
    case_part *part = t->part;
    if (!line->whole && t->alive) return false; /* it is just being written */
    if (!only_ends_the_last(part, line)) {
        part->lines++;
        keep_record(t, line);
        line_hash(line->bytes, line->length, part->tail.before);
    }
    part->tail.torn = !line->whole;
    part->read = line->end;
    return true;
}

/* ---- files ---- */

/* Somebody who writes to it holds a lock on it. */
static bool is_locked(int fd)
{
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    return fcntl(fd, F_GETLK, &whole) == 0 && whole.l_type != F_UNLCK;
}

static exit_status read_part(case_store *s, case_part *part, int fd, bool aloud)
{
    bool own = fd == s->fd;
    taking t = {.store = s, .part = part, .alive = !own && is_locked(fd), .aloud = aloud};
    int error = case_lines_read(fd, part->read, take_line, &t);
    if (t.left_out > MOST_COMPLAINTS)
        complain("%s: %llu more lines are left out", part->path, t.left_out - MOST_COMPLAINTS);
    if (t.loose > MOST_COMPLAINTS)
        complain("%s: %llu more lines do not follow from those before", part->path,
                 t.loose - MOST_COMPLAINTS);
    return error == 0 ? EXIT_DONE : say_file_failure(part->path, error);
}

static bool is_own(const case_store *s, const char *name)
{
    return s->fd >= 0 && strcmp(name, s->writer) == 0;
}

/* Our own file is not opened a second time: closing that would end its lock. */
static exit_status open_part(case_store *s, case_part *part, bool aloud)
{
    door_fault fault;
    if (is_own(s, part->name)) return read_part(s, part, s->fd, aloud);
    int fd = door_open_file(AT_FDCWD, part->path, LINKS_REFUSED, &fault);
    if (fd < 0 && fault.error != 0) return say_file_failure(part->path, fault.error);
    if (fd < 0) {
        if (aloud) complain("%s is left out: it is %s", part->path, fault.is);
        return EXIT_DONE;
    }
    exit_status status = read_part(s, part, fd, aloud);
    close(fd);
    return status;
}

/* The length of the writer's name, or 0: it is no writer's file. */
static size_t writer_length(const char *name)
{
    const char *end = strrchr(name, '.');
    return name[0] != '.' && end != NULL && strcmp(end, ".jsonl") == 0 ? (size_t)(end - name) : 0;
}

static case_part *part_named(const case_store *s, const char *name, size_t length)
{
    for (uint32_t i = 0; i < s->part_count; i++)
        if (strlen(s->parts[i].name) == length && strncmp(s->parts[i].name, name, length) == 0)
            return &s->parts[i];
    return NULL;
}

static case_part *add_part(case_store *s, const char *name, size_t length)
{
    GROW(s->keep, s->parts, s->part_count, s->part_room);
    case_part *part = &s->parts[s->part_count++];
    *part = (case_part){.name = arena_text(s->keep, "%.*s", (int)length, name),
                        .path = arena_text(s->keep, "%s/%s", s->name.folder, name)};
    return part;
}

static bool has_grown(const case_part *part)
{
    struct stat about;
    return lstat(part->path, &about) == 0 && S_ISREG(about.st_mode) && about.st_size > part->read;
}

exit_status case_parts_read(case_store *s, bool takes_own, bool aloud)
{
    door_fault fault;
    DIR *folder = door_list(AT_FDCWD, s->name.folder, LINKS_REFUSED, &fault);
    if (folder == NULL) return say_door_fault(s->name.folder, &fault);
    exit_status status = EXIT_DONE;
    for (struct dirent *entry; status == EXIT_DONE && (entry = readdir(folder)) != NULL;) {
        size_t length = writer_length(entry->d_name);
        if (length == 0) continue;
        case_part *part = part_named(s, entry->d_name, length);
        bool is_new = part == NULL;
        if (is_new) part = add_part(s, entry->d_name, length);
        if (is_own(s, part->name) && !takes_own) continue;
        if (is_new || has_grown(part)) status = open_part(s, part, aloud);
    }
    closedir(folder);
    return status;
}

bool case_store_has_news(const case_store *s)
{
    door_fault fault;
    DIR *folder = case_store_is_on_disk(s)
                      ? door_list(AT_FDCWD, s->name.folder, LINKS_REFUSED, &fault)
                      : NULL;
    if (folder == NULL) return false;
    bool news = false;
    for (struct dirent *entry; !news && (entry = readdir(folder)) != NULL;) {
        size_t length = writer_length(entry->d_name);
        const case_part *part = part_named(s, entry->d_name, length);
        if (length == 0 || (part != NULL && is_own(s, part->name))) continue;
        news = part == NULL || has_grown(part);
    }
    closedir(folder);
    return news;
}

exit_status case_store_news(case_store *s, const tt_record **records, size_t *count)
{
    uint32_t before = s->count;
    exit_status status = case_store_has_news(s) ? case_parts_read(s, false, false) : EXIT_DONE;
    *records = s->records + before;
    *count = s->count - before;
    return status;
}

const tt_record *case_store_records(const case_store *s, size_t *count)
{
    *count = s->count;
    return s->records;
}

/* ---- who writes ---- */

size_t case_store_writers(const case_store *s)
{
    return s->part_count;
}

static bool is_open_somewhere(const case_part *part)
{
    door_fault fault;
    int fd = door_open_file(AT_FDCWD, part->path, LINKS_REFUSED, &fault);
    bool open = fd >= 0 && is_locked(fd);
    if (fd >= 0) close(fd);
    return open;
}

case_writer case_store_writer_at(const case_store *s, size_t index)
{
    const case_part *part = &s->parts[index];
    size_t base = strlen(s->base);
    bool here = strncmp(part->name, s->base, base) == 0 &&
                (part->name[base] == 0 || part->name[base] == '-');
    bool own = is_own(s, part->name);
    return (case_writer){part->name, own, here, own || is_open_somewhere(part)};
}
