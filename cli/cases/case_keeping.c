/* How records of ours come to the disk, and what becomes of those that don't. */
#include <assert.h>
#include <errno.h>
#include <string.h>
#include <unistd.h>

#include "base/grow.h"
#include "base/value.h"
#include "cases/case_folder.h"
#include "cases/case_store_parts.h"
#include "host/door.h"
#include "host/files.h"
#include "host/memory.h"

size_t case_store_unkept(const case_store *s)
{
    return s->unkept_count;
}

static void wait_for_disk(case_store *s, const tt_record *record)
{
    arena *keep = s->waiting;
    GROW(keep, s->unkept, s->unkept_count, s->unkept_room);
    tt_record *copy = &s->unkept[s->unkept_count++];
    *copy = *record;
    copy->writer = s->writer;
    copy->time = arena_copy(keep, record->time);
    copy->kind = arena_copy(keep, record->kind);
    tt_value *trees = ARENA_ARRAY(keep, tt_value, 2);
    trees[0] = value_copy(keep, record->data);
    copy->data = &trees[0];
    if (record->seen == NULL) return;
    trees[1] = value_copy(keep, record->seen);
    copy->seen = &trees[1];
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
    const char *why = case_folder_make(s->waiting, s->root, s->name.folder);
    if (why != NULL) {
        s->why = why;
        return false;
    }
    int error = case_open_own(s);
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
    str line = record_line(s->waiting, s->name.id, s->own.before, record);
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

static void drop_first(case_store *s, uint32_t count)
{
    memmove(s->unkept, s->unkept + count, (s->unkept_count - count) * sizeof *s->unkept);
    s->unkept_count -= count;
    if (s->unkept_count > 0) return;
    arena_free(s->waiting);
    s->waiting = host_arena();
    s->unkept = NULL;
    s->unkept_room = 0;
    s->why = NULL;
}

/* After a sync that failed nobody can say what is on the disk: writing the same once more could
 * keep it twice. */
static bool sync_all(case_store *s)
{
    s->sync_failed = fdatasync(s->fd) != 0;
    return !s->sync_failed || say_why(s, s->path, errno);
}

static bool keep_all(case_store *s)
{
    uint32_t written = 0;
    if (s->sync_failed) return false;
    if (!has_place(s)) return false;
    while (written < s->unkept_count && write_record(s, &s->unkept[written])) written++;
    bool kept = written == s->unkept_count && sync_all(s);
    if (kept || (written > 0 && !s->sync_failed)) drop_first(s, written);
    return kept;
}

bool case_store_keep(case_store *s, const tt_record *records, size_t count, const char **why)
{
    assert(case_store_is_joined(s));
    for (size_t i = 0; i < count; i++) {
        assert(records[i].data != NULL && records[i].number > 0);
        wait_for_disk(s, &records[i]);
    }
    bool kept = s->unkept_count == 0 || keep_all(s);
    *why = kept ? "" : s->why;
    return kept;
}
