#include "host/case_parts.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "host/case_lines.h"
#include "host/door.h"
#include "host/files.h"
#include "host/plain_text.h"
#include "host/screen.h"

enum { LARGEST_CASE = 64 << 20, MOST_COMPLAINTS = 8 };

/* One file while it is read. */
typedef struct taking {
    case_file *file;
    case_part *part;
    case_tail tail;
    bool aloud;
    unsigned long long left_out, loose; /* loose: they do not follow from the line before */
} taking;

void case_parts_forget(case_file *file)
{
    for (size_t i = 0; i < file->count; i++) json_decref(file->records[i].whole);
    for (size_t i = 0; i < file->part_count; i++) {
        free(file->parts[i].name);
        free(file->parts[i].path);
    }
    free(file->records);
    free(file->parts);
    file->records = NULL;
    file->parts = NULL;
    file->count = file->part_count = file->bytes = 0;
}

static void say_left_out(taking *t, const case_line *line, const char *why)
{
    if (t->aloud && t->left_out++ < MOST_COMPLAINTS)
        complain("%s, line %llu is left out: %s", t->part->path, (unsigned long long)line->place, why);
}

static void keep_record(taking *t, const case_line *line)
{
    case_record record;
    bool follows;
    const char *why = t->file->bytes + line->length > LARGEST_CASE ? "the case is too large" : NULL;
    if (why == NULL)
        why = record_read(line->bytes, line->length, t->file->uuid, t->tail.before, &record, &follows);
    if (why != NULL) {
        say_left_out(t, line, why);
        return;
    }
    if (!follows && t->aloud && t->loose++ < MOST_COMPLAINTS)
        complain("%s, line %llu does not follow from the one before", t->part->path,
                 (unsigned long long)line->place);
    case_file *file = t->file;
    if (record.lamport > file->lamport) file->lamport = record.lamport;
    file->bytes += line->length;
    file->records = room_for_one(file->records, file->count, sizeof *file->records);
    file->records[file->count++] = record;
}

static bool take_line(void *context, const case_line *line)
{
    taking *t = context;
    if (!line->whole && t->part->alive) return false; /* it is just being written */
    keep_record(t, line);
    line_hash(line->bytes, line->length, t->tail.before);
    t->tail.lines = line->place;
    t->tail.torn = !line->whole;
    t->part->read = line->end;
    return true;
}

/* Somebody who writes to it holds a lock on it. */
static bool is_locked(int fd)
{
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    return fcntl(fd, F_GETLK, &whole) == 0 && whole.l_type != F_UNLCK;
}

static exit_status read_part(case_file *file, case_part *part, int fd, bool aloud)
{
    bool own = fd == file->fd;
    part->alive = own || is_locked(fd);
    taking t = {.file = file, .part = part, .aloud = aloud};
    if (own) part->alive = false; /* nobody else is writing to it */
    int error = own && lseek(fd, 0, SEEK_SET) < 0 ? errno : case_lines_read(fd, take_line, &t);
    if (own) {
        part->alive = true;
        file->own = t.tail;
    }
    if (t.left_out > MOST_COMPLAINTS)
        complain("%s: %llu more lines are left out", part->path, t.left_out - MOST_COMPLAINTS);
    if (t.loose > MOST_COMPLAINTS)
        complain("%s: %llu more lines do not follow from those before", part->path, t.loose - MOST_COMPLAINTS);
    return error == 0 ? EXIT_DONE : say_file_failure(part->path, error);
}

/* Our own file is not opened a second time: closing that would end its lock. */
static exit_status open_part(case_file *file, case_part *part, bool aloud)
{
    if (file->fd >= 0 && strcmp(part->name, file->writer) == 0)
        return read_part(file, part, file->fd, aloud);
    door_fault fault;
    int fd = door_open_file(AT_FDCWD, part->path, LINKS_REFUSED, &fault);
    if (fd < 0 && fault.error != 0) return say_file_failure(part->path, fault.error);
    if (fd < 0) {
        if (aloud) complain("%s is left out: it is %s", part->path, fault.is);
        return EXIT_DONE;
    }
    exit_status status = read_part(file, part, fd, aloud);
    close(fd);
    return status;
}

/* The length of the writer's name, or 0: it is no writer's file. */
static size_t writer_length(const char *name)
{
    const char *end = strrchr(name, '.');
    return name[0] != '.' && end != NULL && strcmp(end, ".jsonl") == 0 ? (size_t)(end - name) : 0;
}

static case_part *add_part(case_file *file, const char *name, size_t length)
{
    file->parts = room_for_one(file->parts, file->part_count, sizeof *file->parts);
    case_part *part = &file->parts[file->part_count++];
    *part = (case_part){.name = format_text("%.*s", (int)length, name),
                        .path = format_text("%s/%s", file->folder, name)};
    return part;
}

static int in_order(const void *a, const void *b)
{
    const case_record *x = a, *y = b;
    if (x->lamport != y->lamport) return x->lamport < y->lamport ? -1 : 1;
    int order = strcmp(x->writer, y->writer);
    if (order != 0) return order;
    return x->number < y->number ? -1 : x->number > y->number;
}

static void drop_copies(case_file *file)
{
    size_t kept = 0;
    for (size_t i = 0; i < file->count; i++) {
        bool copy = kept > 0 && in_order(&file->records[kept - 1], &file->records[i]) == 0 &&
                    json_equal(file->records[kept - 1].whole, file->records[i].whole) == 1;
        if (copy) json_decref(file->records[i].whole);
        else file->records[kept++] = file->records[i];
    }
    file->count = kept;
}

exit_status case_parts_read(case_file *file, bool aloud)
{
    case_parts_forget(file);
    door_fault fault;
    DIR *folder = door_list(AT_FDCWD, file->folder, LINKS_REFUSED, &fault);
    if (folder == NULL) return say_door_fault(file->folder, &fault);
    exit_status status = EXIT_DONE;
    for (struct dirent *entry; status == EXIT_DONE && (entry = readdir(folder)) != NULL;) {
        size_t length = writer_length(entry->d_name);
        if (length > 0) status = open_part(file, add_part(file, entry->d_name, length), aloud);
    }
    closedir(folder);
    if (file->count > 0) qsort(file->records, file->count, sizeof *file->records, in_order);
    drop_copies(file);
    return status;
}

/* ---- what others do meanwhile ---- */

static const case_part *part_named(const case_file *file, const char *name, size_t length)
{
    for (size_t i = 0; i < file->part_count; i++)
        if (strlen(file->parts[i].name) == length && strncmp(file->parts[i].name, name, length) == 0)
            return &file->parts[i];
    return NULL;
}

static bool has_grown(const case_file *file, const char *name, size_t length)
{
    struct stat about;
    const case_part *part = part_named(file, name, length);
    if (part == NULL) return true;
    bool own = file->fd >= 0 && strcmp(part->name, file->writer) == 0;
    return !own && lstat(part->path, &about) == 0 && S_ISREG(about.st_mode) && about.st_size != part->read;
}

bool case_file_has_news(const case_file *file)
{
    door_fault fault;
    DIR *folder = door_list(AT_FDCWD, file->folder, LINKS_REFUSED, &fault);
    if (folder == NULL) return false;
    bool news = false;
    for (struct dirent *entry; !news && (entry = readdir(folder)) != NULL;) {
        size_t length = writer_length(entry->d_name);
        if (length == strlen(file->writer) && strncmp(entry->d_name, file->writer, length) == 0) continue;
        news = length > 0 && has_grown(file, entry->d_name, length);
    }
    closedir(folder);
    return news;
}

/* ---- who writes, and who knew what ---- */

size_t case_file_writers(const case_file *file)
{
    return file->part_count;
}

case_writer case_file_writer_at(const case_file *file, size_t index)
{
    const case_part *part = &file->parts[index];
    size_t base = strlen(file->base);
    bool here = strncmp(part->name, file->base, base) == 0 && (part->name[base] == 0 || part->name[base] == '-');
    return (case_writer){part->name, strcmp(part->name, file->writer) == 0, here, part->alive};
}

bool case_record_saw(const case_record *later, const case_record *earlier)
{
    if (strcmp(later->writer, earlier->writer) == 0) return later->number > earlier->number;
    if (later->seen == NULL) return later->lamport > earlier->lamport;
    return json_integer_value(json_object_get(later->seen, earlier->writer)) >= (json_int_t)earlier->number;
}
