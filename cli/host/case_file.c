/* Records of the store as jansson has them, put into order. */
#include "host/case_file.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/value.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"

enum { TIME_SIZE = 64, LARGEST_DATA = 64 << 20 };

struct case_file {
    case_store *store;
    case_record *records; /* in order */
    size_t count;
    arena *keep;              /* records that were added */
    uint64_t lamport, number; /* the highest there are; number: of our own */
};

const char *case_file_number(const case_file *file)
{
    return case_store_number(file->store);
}

const char *case_file_folder(const case_file *file)
{
    return case_store_folder(file->store);
}

const char *case_file_writer(const case_file *file)
{
    return case_store_writer(file->store);
}

size_t case_file_count(const case_file *file)
{
    return file->count;
}

const case_record *case_file_record(const case_file *file, size_t index)
{
    assert(index < file->count);
    return &file->records[index];
}

bool case_file_is_open(const case_file *file)
{
    return case_store_is_joined(file->store);
}

bool case_file_has_news(const case_file *file)
{
    return case_store_has_news(file->store);
}

size_t case_file_writers(const case_file *file)
{
    return case_store_writers(file->store);
}

case_writer case_file_writer_at(const case_file *file, size_t index)
{
    return case_store_writer_at(file->store, index);
}

void case_file_close(case_file *file)
{
    if (file == NULL) return;
    for (size_t i = 0; i < file->count; i++) json_decref(file->records[i].whole);
    free(file->records);
    arena_free(file->keep);
    case_store_close(file->store);
    free(file);
}

/* ---- values ---- */

static json_t *json_of(const tt_value *v)
{
    json_t *json;
    switch (v->kind) {
    case TT_VALUE_NULL:
        return json_null();
    case TT_VALUE_BOOL:
        return json_boolean(v->truth);
    case TT_VALUE_NUMBER: {
        json_int_t whole = v->number >= -VALUE_WHOLE_MOST && v->number <= VALUE_WHOLE_MOST
                               ? (json_int_t)v->number
                               : 0;
        return (double)whole - v->number == 0 ? json_integer(whole) : json_real(v->number);
    }
    case TT_VALUE_TEXT:
        return json_string(v->text);
    case TT_VALUE_LIST:
        json = json_array();
        for (uint32_t i = 0; i < v->count; i++) json_array_append_new(json, json_of(&v->items[i]));
        return json;
    case TT_VALUE_MAP:
        json = json_object();
        for (uint32_t i = 0; i < v->count; i++)
            json_object_set_new(json, v->keys[i], json_of(&v->items[i]));
        return json;
    }
    return NULL;
}

static const tt_value *value_of(arena *keep, const json_t *json)
{
    tt_document *document = NULL;
    char *text = json_dumps(json, JSON_COMPACT | JSON_REAL_PRECISION(17));
    if (text == NULL ||
        tt_document_read(text, strlen(text), LARGEST_DATA, &document) == TT_NO_MEMORY)
        memory_ended();
    free(text);
    tt_value *value = ARENA_NEW(keep, tt_value);
    assert(tt_document_value(document) != NULL);
    *value = value_copy(keep, tt_document_value(document));
    tt_document_free(document);
    return value;
}

/* ---- records in order ---- */

static int in_order(const void *a, const void *b)
{
    const case_record *x = a, *y = b;
    if (x->lamport != y->lamport) return x->lamport < y->lamport ? -1 : 1;
    int order = strcmp(x->writer, y->writer);
    if (order != 0) return order;
    return x->number < y->number ? -1 : x->number > y->number;
}

static bool is_copy(const case_record *x, const case_record *y)
{
    return in_order(x, y) == 0 && strcmp(x->kind, y->kind) == 0 && strcmp(x->time, y->time) == 0 &&
           json_equal(x->whole, y->whole) == 1;
}

/* Each counts once, also if a copy of a file lies there. */
static void drop_copies(case_file *file)
{
    size_t kept = 0;
    for (size_t i = 0; i < file->count; i++) {
        if (kept > 0 && is_copy(&file->records[kept - 1], &file->records[i]))
            json_decref(file->records[i].whole);
        else
            file->records[kept++] = file->records[i];
    }
    file->count = kept;
}

/* Takes over `data` and `seen`, which may be null. */
static void add_record(case_file *file, const tt_record *record, json_t *data, json_t *seen)
{
    file->records = room_for_one(file->records, file->count, sizeof *file->records);
    case_record *r = &file->records[file->count++];
    *r = (case_record){.kind = record->kind,
                       .writer = record->writer,
                       .time = record->time,
                       .lamport = record->lamport,
                       .number = record->number,
                       .whole = json_object()};
    r->data = data;
    r->seen = seen;
    json_object_set_new(r->whole, "data", data);
    if (seen != NULL) json_object_set_new(r->whole, "seen", seen);
    bool own = strcmp(record->writer, case_store_writer(file->store)) == 0;
    if (record->lamport > file->lamport) file->lamport = record->lamport;
    if (own && record->number > file->number) file->number = record->number;
}

static void add_records(case_file *file, const tt_record *records, size_t count)
{
    for (size_t i = 0; i < count; i++)
        add_record(file, &records[i], json_of(records[i].data),
                   records[i].seen != NULL ? json_of(records[i].seen) : NULL);
    if (file->count > 0) qsort(file->records, file->count, sizeof *file->records, in_order);
    drop_copies(file);
}

/* ---- opening ---- */

static case_file *around(case_store *store)
{
    case_file *file = take_memory(sizeof *file);
    file->store = store;
    file->keep = host_arena();
    return file;
}

exit_status case_file_new(const char *root, case_file **out)
{
    case_store *store;
    exit_status status = case_store_new(root, &store);
    *out = status == EXIT_DONE ? around(store) : NULL;
    return status;
}

exit_status case_file_read(const char *root, const char *named, case_file **out)
{
    case_store *store;
    size_t count;
    exit_status status = case_store_look(root, named, &store);
    *out = status == EXIT_DONE ? around(store) : NULL;
    if (status != EXIT_DONE) return status;
    const tt_record *records = case_store_records(store, &count);
    add_records(*out, records, count);
    return status;
}

exit_status case_file_join(case_file *file)
{
    exit_status status = case_store_join(file->store);
    size_t count;
    for (size_t i = 0; i < file->count; i++) json_decref(file->records[i].whole);
    file->count = 0;
    const tt_record *records = case_store_records(file->store, &count);
    add_records(file, records, count);
    return status;
}

exit_status case_file_open(const char *root, const char *named, case_file **out)
{
    exit_status status = case_file_read(root, named, out);
    if (status == EXIT_DONE) status = case_file_join(*out);
    if (status != EXIT_DONE) {
        case_file_close(*out);
        *out = NULL;
    }
    return status;
}

exit_status case_file_again(case_file *file)
{
    const tt_record *records;
    size_t count;
    exit_status status = case_store_news(file->store, &records, &count);
    add_records(file, records, count);
    return status;
}

/* ---- adding ---- */

/* RFC 3339, local time with its offset. */
static void write_time(char out[TIME_SIZE])
{
    struct timespec now = {.tv_sec = 0};
    struct tm local;
    char date[24] = "1970-01-01T00:00:00", zone[8] = "+0000";
    clock_gettime(CLOCK_REALTIME, &now);
    if (localtime_r(&now.tv_sec, &local) != NULL) {
        strftime(date, sizeof date, "%Y-%m-%dT%H:%M:%S", &local);
        strftime(zone, sizeof zone, "%z", &local);
    }
    snprintf(out, TIME_SIZE, "%s.%03ld%.3s:%s", date, now.tv_nsec / 1000000, zone, zone + 3);
}

json_t *case_file_seen(const case_file *file)
{
    json_t *seen = json_object();
    for (size_t i = 0; i < file->count; i++) {
        const case_record *r = &file->records[i];
        if (strcmp(r->writer, case_file_writer(file)) == 0) continue;
        json_int_t before = json_integer_value(json_object_get(seen, r->writer));
        if ((json_int_t)r->number > before)
            json_object_set_new(seen, r->writer, json_integer((json_int_t)r->number));
    }
    return seen;
}

exit_status case_file_add(case_file *file, const char *kind, json_t *data)
{
    const uint64_t highest = (uint64_t)VALUE_WHOLE_MOST;
    char time_text[TIME_SIZE];
    json_t *seen = case_file_seen(file);
    write_time(time_text);
    tt_record record = {.writer = arena_copy(file->keep, case_file_writer(file)),
                        .number = file->number + 1,
                        .lamport = file->lamport < highest ? file->lamport + 1 : highest,
                        .time = arena_copy(file->keep, time_text),
                        .seen = value_of(file->keep, seen),
                        .kind = arena_copy(file->keep, kind),
                        .data = value_of(file->keep, data)};
    const char *why;
    if (case_store_keep(file->store, &record, 1, &why)) {
        add_record(file, &record, data, seen);
        return EXIT_DONE;
    }
    complain("this could not be kept in %s", why);
    json_decref(data);
    json_decref(seen);
    return EXIT_IO;
}

/* ---- who knew what ---- */

bool case_record_saw(const case_record *later, const case_record *earlier)
{
    if (strcmp(later->writer, earlier->writer) == 0) return later->number > earlier->number;
    if (later->seen == NULL) return later->lamport > earlier->lamport;
    return json_integer_value(json_object_get(later->seen, earlier->writer)) >=
           (json_int_t)earlier->number;
}
