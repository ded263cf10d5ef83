/* From lines to the records of a case, whatever keeps the lines. */
#include <string.h>

#include "base/grow.h"
#include "cases/case_depot.h"
#include "cases/case_ends.h"
#include "cases/case_store_parts.h"
#include "host/screen.h"

enum { LARGEST_CASE = 64 << 20, MOST_COMPLAINTS = 8 };

/* ---- lines ---- */

static void say_left_out(case_taking *t, const char *why)
{
    if (t->aloud && t->left_out++ < MOST_COMPLAINTS)
        complain("%s, line %llu is left out: %s", t->part->path, (unsigned long long)t->part->lines,
                 why);
}

static void say_loose(case_taking *t)
{
    if (t->aloud && t->loose++ < MOST_COMPLAINTS)
        complain("%s, line %llu does not follow from the one before", t->part->path,
                 (unsigned long long)t->part->lines);
}

static void keep_record(case_taking *t, const case_line *line, const char *hash)
{
    case_store *s = t->store;
    tt_record record;
    bool follows = true;
    const char *why = s->bytes + line->length > LARGEST_CASE ? "the case is too large" : NULL;
    if (why == NULL)
        why = record_of_line(s->keep, line->bytes, line->length, s->name.id, t->part->tail.before,
                             &record, &follows);
    case_ends_take(t, line, hash, why == NULL ? &record : NULL);
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

bool case_take_line(void *context, const case_line *line)
{
    case_taking *t = context;
    case_part *part = t->part;
    if (!line->whole && t->alive) return false; /* it is just being written */
    if (!only_ends_the_last(part, line)) {
        char hash[LINE_HASH_SIZE];
        line_hash(line->bytes, line->length, hash);
        part->lines++;
        keep_record(t, line, hash);
        memcpy(part->tail.before, hash, sizeof hash);
    }
    part->tail.torn = !line->whole;
    part->read = line->end;
    return true;
}

void case_taking_done(const case_taking *t)
{
    if (t->left_out > MOST_COMPLAINTS)
        complain("%s: %llu more lines are left out", t->part->path, t->left_out - MOST_COMPLAINTS);
    if (t->loose > MOST_COMPLAINTS)
        complain("%s: %llu more lines do not follow from those before", t->part->path,
                 t->loose - MOST_COMPLAINTS);
}

/* ---- what others have added ---- */

bool case_store_has_news(const case_store *s)
{
    return case_store_is_on_disk(s) && s->depot->has_news(s);
}

int case_store_descriptor(const case_store *s)
{
    return case_store_is_on_disk(s) && s->depot->descriptor != NULL ? s->depot->descriptor(s) : -1;
}

exit_status case_store_news(case_store *s, const tt_record **records, size_t *count)
{
    uint32_t before = s->count;
    exit_status status = case_store_has_news(s) ? s->depot->read(s, false, false) : EXIT_DONE;
    *records = s->records + before;
    *count = s->count - before;
    return status;
}

const tt_record *case_store_records(const case_store *s, size_t *count)
{
    *count = s->count;
    return s->records;
}

size_t case_store_bytes(const case_store *s)
{
    return s->bytes;
}

/* ---- who writes ---- */

size_t case_store_writers(const case_store *s)
{
    return s->part_count;
}

case_writer case_store_writer_at(const case_store *s, size_t index)
{
    const case_part *part = &s->parts[index];
    size_t base = strlen(s->base);
    bool here = strncmp(part->name, s->base, base) == 0 &&
                (part->name[base] == 0 || part->name[base] == '-');
    bool own = case_is_own(s, part->name);
    return (case_writer){part->name, own, here, own || s->depot->is_alive(s, part->name)};
}
