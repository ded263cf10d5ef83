#include "cases/case_file.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/grow.h"
#include "base/value.h"
#include "books/read_book.h"
#include "cases/case_copy.h"
#include "cases/case_depot.h"
#include "cases/case_store_parts.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "summary/record_line.h"

enum { LONGEST_WRITER = 16 };

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
    char *whole = real_path(path), *above = folder_above(whole != NULL ? whole : path);
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
    const char *id, *place;
} looked_for;

static void look_at(void *context, const char *above, const char *id)
{
    looked_for *l = context;
    if (strcmp(id, l->id) == 0) l->place = arena_text(l->keep, "%s/%s", above, id);
}

exit_status case_place_for(arena *keep, const char *root, const char *id, const char **place)
{
    looked_for known = {.keep = keep, .id = id};
    case_walk(root, look_at, &known);
    *place = known.place;
    return known.place != NULL ? EXIT_DONE : depot_of(root)->make(keep, root, id, place);
}

/* ---- adding ---- */

static str joined(arena *keep, const case_text *part)
{
    text_builder b = {.keep = keep};
    for (uint32_t i = 0; i < part->count; i++) {
        text_add(&b, part->lines[i]);
        text_add(&b, str_of("\n"));
    }
    return text_done(&b);
}

static exit_status add_part(arena *keep, const char *place, const writers_lines *there,
                            const case_text *part)
{
    const str missing =
        lines_missing(keep, lines_of_writer(there, part->writer), joined(keep, part));
    return missing.n > 0 ? depot_of(place)->add(keep, place, part->writer, missing) : EXIT_DONE;
}

static exit_status add_parts(const case_file *f, const char *place)
{
    writers_lines there;
    exit_status status = depot_of(place)->lines(f->keep, place, &there);
    for (uint32_t i = 0; i < f->count && status == EXIT_DONE; i++)
        status = add_part(f->keep, place, &there, &f->parts[i]);
    return status;
}

/* The lines live as long as the source, which is freed whatever this returned. */
static exit_status read_file(case_file *f, tt_source *source)
{
    *source = (tt_source){.bytes = NULL};
    const exit_status status = source_read_large(f->path, source);
    if (status != EXIT_DONE) return status;
    take_lines(f, (str){source->bytes, source->length});
    if (f->count > 0) return EXIT_DONE;
    complain("%s: there is no case in it", f->path);
    return EXIT_BAD_DATA;
}

exit_status case_file_take(arena *keep, const char *root, const char *path, const char **place)
{
    tt_source source;
    case_file file = {.keep = keep, .path = path};
    exit_status status = read_file(&file, &source);
    if (status == EXIT_DONE) status = case_place_for(keep, root, file.id, place);
    if (status == EXIT_DONE) status = add_parts(&file, *place);
    source_free(&source);
    return status;
}

/* ---- looking, without taking it in ---- */

static void look_at_part(case_store *s, const case_text *from)
{
    case_part *part = case_part_add(s, from->writer, strlen(from->writer));
    case_taking taking = {.store = s, .part = part, .aloud = true};
    for (uint32_t i = 0; i < from->count; i++) {
        const case_line line = {
            .bytes = from->lines[i].p, .length = from->lines[i].n, .place = i + 1, .whole = true};
        case_take_line(&taking, &line);
    }
    case_taking_done(&taking);
}

exit_status case_file_read(case_store *s, const char *path)
{
    tt_source source;
    case_file file = {.keep = s->keep, .path = path};
    const exit_status status = read_file(&file, &source);
    if (status == EXIT_DONE) {
        case_name_of_id(file.id, &s->name);
        s->name.folder = arena_copy(s->keep, path);
        for (uint32_t i = 0; i < file.count; i++) look_at_part(s, &file.parts[i]);
    }
    source_free(&source);
    return status;
}

/* ---- giving ---- */

exit_status case_file_give(arena *keep, const char *place, const char *path)
{
    writers_lines there;
    text_builder all = {.keep = keep};
    const exit_status status = depot_of(place)->lines(keep, place, &there);
    for (uint32_t i = 0; status == EXIT_DONE && i < there.count; i++) {
        const str bytes = there.items[i].bytes;
        text_add(&all, bytes);
        if (bytes.n > 0 && bytes.p[bytes.n - 1] != '\n') text_add(&all, str_of("\n"));
    }
    if (status != EXIT_DONE || all.length == 0) return status;
    const str text = text_done(&all);
    const int error = write_whole(path, text.p, text.n, 0600, true);
    return error == 0 ? EXIT_DONE : say_file_failure(path, error);
}
