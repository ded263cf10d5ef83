#include "cases/case_file.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/grow.h"
#include "base/value.h"
#include "books/read_book.h"
#include "cases/case_folder.h"
#include "cases/case_walk.h"
#include "cases/record_line.h"
#include "host/door.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"

enum { LONGEST_WRITER = 16, LARGEST_PART = 64 << 20 };

typedef struct case_text { /* the lines of one writer */
    const char *writer;
    str *lines;
    uint32_t count, room;
} case_text;

typedef struct case_file {
    arena *keep;
    const char *path;
    char id[TT_CASE_ID_SIZE];
    case_text *parts;
    uint32_t count, room;
} case_file;

/* ---- what it is ---- */

static bool is_plain_jsonl(const char *path)
{
    struct stat about;
    const char *end = strrchr(path, '.');
    return end != NULL && strcmp(end, ".jsonl") == 0 && stat(path, &about) == 0 &&
           S_ISREG(about.st_mode);
}

bool is_case_file(const char *path)
{
    if (!is_plain_jsonl(path)) return false;
    char *whole = realpath(path, NULL), *above = folder_above(whole != NULL ? whole : path);
    const char *slash = strrchr(above, '/');
    const bool inside = tt_is_case_id(slash != NULL ? slash + 1 : above);
    free(above);
    free(whole);
    return !inside;
}

/* ---- reading ---- */

/* It becomes a file's name. */
static bool is_writer(const char *name)
{
    const size_t length = strlen(name);
    return length >= 1 && length <= LONGEST_WRITER &&
           strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789-") == length;
}

static case_text *part_of(case_file *f, const char *writer)
{
    for (uint32_t i = 0; i < f->count; i++)
        if (strcmp(f->parts[i].writer, writer) == 0) return &f->parts[i];
    GROW(f->keep, f->parts, f->count, f->room);
    case_text *part = &f->parts[f->count++];
    *part = (case_text){.writer = writer};
    return part;
}

/* The first line that names a case says which one it is. */
static void note_case(case_file *f, str line)
{
    tt_document *document = NULL;
    if (line.n > LONGEST_LINE || tt_document_read(line.p, line.n, LONGEST_LINE, &document) != TT_OK)
        return;
    const char *id = value_text(tt_document_value(document), "case");
    if (id != NULL && tt_is_case_id(id)) memcpy(f->id, id, TT_CASE_ID_SIZE);
    tt_document_free(document);
}

static void take_line(case_file *f, str line, unsigned place)
{
    tt_record record;
    bool follows;
    if (str_trim(line).n == 0) return;
    if (*f->id == 0) note_case(f, line);
    const char *why = *f->id == 0
                          ? "it names no case"
                          : record_of_line(f->keep, line.p, line.n, f->id, "", &record, &follows);
    if (why == NULL && !is_writer(record.writer)) why = "its writer's name can't be one";
    if (why != NULL) {
        complain("%s, line %u is left out: %s", f->path, place, why);
        return;
    }
    case_text *part = part_of(f, record.writer);
    GROW(f->keep, part->lines, part->count, part->room);
    part->lines[part->count++] = line;
}

static void take_lines(case_file *f, str text)
{
    unsigned place = 0;
    while (text.n > 0) {
        const char *end = memchr(text.p, '\n', text.n);
        const size_t length = end != NULL ? (size_t)(end - text.p) : text.n;
        const bool carriage = length > 0 && text.p[length - 1] == '\r';
        take_line(f, (str){text.p, length - carriage}, ++place);
        const size_t done = length + (end != NULL);
        text = (str){text.p + done, text.n - done};
    }
}

/* ---- where it goes ---- */

typedef struct looked_for {
    arena *keep;
    const char *id, *folder;
} looked_for;

static void look_at(void *context, const char *month, const char *id)
{
    looked_for *l = context;
    if (strcmp(id, l->id) == 0) l->folder = arena_text(l->keep, "%s/%s", month, id);
}

static exit_status folder_of(case_file *f, const char *root, const char **folder)
{
    looked_for known = {.keep = f->keep, .id = f->id};
    case_name name;
    case_walk(root, look_at, &known);
    *folder = known.folder;
    if (known.folder != NULL) return EXIT_DONE;
    const exit_status status = case_folder_new_as(f->keep, root, f->id, &name);
    if (status != EXIT_DONE) return status;
    const char *why = case_folder_make(f->keep, root, name.folder);
    if (why != NULL) complain("%s", why);
    *folder = name.folder;
    return why == NULL ? EXIT_DONE : EXIT_CANNOT_CREATE;
}

/* ---- adding ---- */

/* As a line of its own. */
static bool has_line(const char *bytes, size_t length, str line)
{
    for (const char *at = bytes, *end = bytes + length; at < end;) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        const size_t here = stop != NULL ? (size_t)(stop - at) : (size_t)(end - at);
        if (here == line.n && memcmp(at, line.p, here) == 0) return true;
        at += here + 1;
    }
    return false;
}

static str missing_lines(arena *keep, const case_text *part, const char *bytes, size_t length)
{
    text_builder b = {.keep = keep};
    for (uint32_t i = 0; i < part->count; i++) {
        if (has_line(bytes, length, part->lines[i])) continue;
        if (b.length == 0 && length > 0 && bytes[length - 1] != '\n') text_add(&b, str_of("\n"));
        text_add(&b, part->lines[i]);
        text_add(&b, str_of("\n"));
    }
    return b.length > 0 ? text_done(&b) : str_of("");
}

static int write_missing(arena *keep, int fd, const case_text *part)
{
    char *bytes = NULL;
    size_t written;
    const ssize_t length = read_descriptor(fd, LARGEST_PART, &bytes);
    if (length < 0) return errno;
    const str missing = missing_lines(keep, part, bytes, (size_t)length);
    free(bytes);
    const int error = missing.n > 0 ? door_write(fd, missing.p, missing.n, &written) : 0;
    return error == 0 && fdatasync(fd) != 0 ? errno : error;
}

static exit_status add_part(arena *keep, const char *folder, const case_text *part)
{
    door_fault fault;
    bool made;
    const char *path = arena_text(keep, "%s/%s.jsonl", folder, part->writer);
    const int fd = door_open_to_add(AT_FDCWD, path, 0600, &made, &fault);
    if (fd < 0) return say_door_fault(path, &fault);
    int error = write_missing(keep, fd, part);
    close(fd);
    if (error == 0 && made) error = sync_folder(folder);
    return error == 0 ? EXIT_DONE : say_file_failure(path, error);
}

exit_status case_file_take(arena *keep, const char *root, const char *path, const char **folder)
{
    tt_source source;
    case_file file = {.keep = keep, .path = path};
    exit_status status = source_read_large(path, &source);
    if (status != EXIT_DONE) return status;
    take_lines(&file, (str){source.bytes, source.length});
    if (file.count == 0) {
        complain("%s: there is no case in it", path);
        status = EXIT_BAD_DATA;
    }
    if (status == EXIT_DONE) status = folder_of(&file, root, folder);
    for (uint32_t i = 0; i < file.count && status == EXIT_DONE; i++)
        status = add_part(keep, *folder, &file.parts[i]);
    source_free(&source);
    return status;
}

/* ---- giving ---- */

static exit_status add_file(text_builder *all, const char *folder, const char *name)
{
    tt_source source;
    const exit_status status =
        source_read_large(arena_text(all->keep, "%s/%s", folder, name), &source);
    if (status != EXIT_DONE) return status;
    text_add(all, (str){source.bytes, source.length});
    if (source.length > 0 && source.bytes[source.length - 1] != '\n') text_add(all, str_of("\n"));
    source_free(&source);
    return EXIT_DONE;
}

exit_status case_file_give(arena *keep, const char *folder, const char *path)
{
    door_fault fault;
    text_builder all = {.keep = keep};
    exit_status status = EXIT_DONE;
    DIR *entries = door_list(AT_FDCWD, folder, LINKS_REFUSED, &fault);
    if (entries == NULL) return say_door_fault(folder, &fault);
    for (struct dirent *e; status == EXIT_DONE && (e = readdir(entries)) != NULL;) {
        const char *end = strrchr(e->d_name, '.');
        if (*e->d_name != '.' && end != NULL && strcmp(end, ".jsonl") == 0)
            status = add_file(&all, folder, e->d_name);
    }
    closedir(entries);
    if (status != EXIT_DONE || all.length == 0) return status;
    const str text = text_done(&all);
    const int error = write_whole(path, text.p, text.n, 0600, true);
    return error == 0 ? EXIT_DONE : say_file_failure(path, error);
}
