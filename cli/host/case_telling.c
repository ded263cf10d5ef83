#include "host/case_telling.h"

#include <stdlib.h>
#include <string.h>

#include "host/case_record.h"
#include "host/plain_text.h"

static text_span span_of(const char *text)
{
    return (text_span){text, strlen(text)};
}

static bool read_slowly(const char *line, size_t length, const char *uuid, seen_record *out)
{
    case_record record;
    bool follows;
    if (record_read(line, length, uuid, "", &record, &follows) != NULL) return false;
    *out = (seen_record){{.kind = span_of(record.kind),
                          .writer = span_of(record.writer),
                          .time = span_of(record.time),
                          .lamport = record.lamport,
                          .number = record.number},
                         record.whole};
    return true;
}

static void take_line(telling *t, const char *line, size_t length, bool ends)
{
    seen_record record = {.whole = NULL};
    if (!(ends && line_scan(line, length, t->out->uuid, &record.line)) &&
        !read_slowly(line, length, t->out->uuid, &record)) {
        t->out->left_out++;
        return;
    }
    t->records = room_for_one(t->records, t->count, sizeof *t->records);
    t->records[t->count++] = record;
}

void telling_take_lines(telling *t, const case_bytes *file)
{
    for (size_t from = 0; from < file->length;) {
        const char *line = file->bytes + from, *end = memchr(line, '\n', file->length - from);
        size_t length = end != NULL ? (size_t)(end - line) : file->length - from;
        take_line(t, line, length, end != NULL);
        from += length + 1;
    }
}

static int compare_spans(text_span a, text_span b)
{
    size_t common = a.length < b.length ? a.length : b.length;
    int order = memcmp(a.from, b.from, common);
    return order != 0 ? order : (a.length > b.length) - (a.length < b.length);
}

static int in_order(const void *a, const void *b)
{
    const scanned_line *x = &((const seen_record *)a)->line, *y = &((const seen_record *)b)->line;
    if (x->lamport != y->lamport) return x->lamport < y->lamport ? -1 : 1;
    int order = compare_spans(x->writer, y->writer);
    return order != 0 ? order : (x->number > y->number) - (x->number < y->number);
}

/* A copy of a file in the same folder says nothing new. */
void telling_put_in_order(telling *t)
{
    size_t kept = 0;
    bool sorted = true;
    for (size_t i = 1; i < t->count && sorted; i++)
        sorted = in_order(&t->records[i - 1], &t->records[i]) < 0;
    if (sorted) return;
    qsort(t->records, t->count, sizeof *t->records, in_order);
    for (size_t i = 0; i < t->count; i++) {
        if (kept == 0 || in_order(&t->records[kept - 1], &t->records[i]) != 0)
            t->records[kept++] = t->records[i];
        else
            json_decref(t->records[i].whole);
    }
    t->count = kept;
}

json_t *telling_data(telling *t, const seen_record *record)
{
    if (record->whole != NULL) return json_incref(json_object_get(record->whole, "data"));
    json_t *data =
        json_loadb(record->line.data.from, record->line.data.length, JSON_REJECT_DUPLICATES, NULL);
    if (data == NULL) t->out->left_out++;
    return data;
}

static json_t *seen_of(const seen_record *record)
{
    if (record->whole != NULL) return json_incref(json_object_get(record->whole, "seen"));
    if (record->line.seen.length == 0) return NULL;
    return json_loadb(record->line.seen.from, record->line.seen.length, 0, NULL);
}

bool record_saw(const seen_record *later, const seen_record *earlier)
{
    if (compare_spans(later->line.writer, earlier->line.writer) == 0)
        return later->line.number > earlier->line.number;
    json_t *seen = seen_of(later);
    bool saw = later->line.lamport > earlier->line.lamport;
    if (json_is_object(seen)) {
        char *writer =
            format_text("%.*s", (int)earlier->line.writer.length, earlier->line.writer.from);
        saw = json_integer_value(json_object_get(seen, writer)) >= (json_int_t)earlier->line.number;
        free(writer);
    }
    json_decref(seen);
    return saw;
}

void telling_end(telling *t)
{
    for (size_t i = 0; i < t->count; i++) json_decref(t->records[i].whole);
    free(t->records);
}
