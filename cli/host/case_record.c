#include "host/case_record.h"

#include <assert.h>
#include <fcntl.h>
#include <sha256.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "host/door.h"
#include "host/plain_text.h"

void line_hash(const char *line, size_t length, char hash[LINE_HASH_SIZE])
{
    assert(LINE_HASH_SIZE == SHA256_DIGEST_STRING_LENGTH);
    SHA256Data((const uint8_t *)line, length, hash);
}

void writer_of_this_machine(char writer[WRITER_SIZE])
{
    char about[512] = "", hash[LINE_HASH_SIZE];
    if (gethostname(about, 256) != 0) about[0] = 0;
    about[256] = 0;
    size_t length = strlen(about) + 1;
    int written = snprintf(about + length, 24, "%lu", (unsigned long)getuid());
    assert(written > 0);
    length += (size_t)written + 1;
    door_fault fault;
    int fd = door_open_file(AT_FDCWD, "/etc/machine-id", LINKS_FOLLOWED, &fault);
    ssize_t got = fd >= 0 ? read(fd, about + length, 64) : 0;
    if (fd >= 0) close(fd);
    line_hash(about, length + (got > 0 ? (size_t)got : 0), hash);
    memcpy(writer, hash, WRITER_SIZE - 1);
    writer[WRITER_SIZE - 1] = 0;
}

enum { TIME_SIZE = 64 };

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

char *record_line(const line_head *head, const char *kind, json_t *data)
{
    char moment[TIME_SIZE];
    write_time(moment);
    json_t *line = json_object();
    json_object_set_new(line, "version", json_integer(RECORD_VERSION));
    json_object_set_new(line, "case", json_string(head->uuid));
    json_object_set_new(line, "writer", json_string(head->writer));
    json_object_set_new(line, "seq", json_integer((json_int_t)head->number));
    json_object_set_new(line, "lamport", json_integer((json_int_t)head->lamport));
    json_object_set_new(line, "time", json_string(moment));
    json_object_set_new(line, "before", json_string(head->before));
    json_object_set_new(line, "seen", head->seen);
    json_object_set_new(line, "kind", json_string(kind));
    json_object_set_new(line, "data", data);
    char *dumped = json_dumps(line, JSON_COMPACT | JSON_REAL_PRECISION(17));
    json_decref(line);
    char *text = dumped != NULL ? format_text("%s\n", dumped) : NULL;
    free(dumped);
    return text;
}

static bool is_counter(const json_t *number)
{
    return json_is_integer(number) && json_integer_value(number) >= 0 && json_integer_value(number) <= (json_int_t)HIGHEST_COUNTER;
}

static const char *fill_record(json_t *whole, const char *uuid, case_record *out,
                               const char **before)
{
    const char *its_case = json_string_value(json_object_get(whole, "case"));
    json_t *number = json_object_get(whole, "seq"), *lamport = json_object_get(whole, "lamport");
    *before = json_string_value(json_object_get(whole, "before"));
    out->kind = json_string_value(json_object_get(whole, "kind"));
    out->writer = json_string_value(json_object_get(whole, "writer"));
    out->time = json_string_value(json_object_get(whole, "time"));
    out->data = json_object_get(whole, "data");
    bool complete = its_case != NULL && *before != NULL && out->kind != NULL &&
                    out->writer != NULL && out->time != NULL && json_is_object(out->data) &&
                    is_counter(number) && is_counter(lamport);
    if (!complete) return "something is missing in it";
    json_t *seen = json_object_get(whole, "seen");
    out->seen = json_is_object(seen) ? seen : NULL;
    out->number = (uint64_t)json_integer_value(number);
    out->lamport = (uint64_t)json_integer_value(lamport);
    return strcmp(its_case, uuid) == 0 ? NULL : "it belongs to another case";
}

const char *record_read(const char *line, size_t length, const char *uuid, const char *before,
                        case_record *out, bool *follows)
{
    *out = (case_record){.kind = NULL};
    *follows = true;
    if (length > LONGEST_LINE) return "it is too long";
    json_t *whole = json_loadb(line, length, JSON_REJECT_DUPLICATES, NULL);
    if (whole == NULL) return "it was not written to its end, or was damaged";
    const char *why, *its_before = NULL;
    if (json_integer_value(json_object_get(whole, "version")) != RECORD_VERSION)
        why = "another version of telltale wrote it";
    else
        why = fill_record(whole, uuid, out, &its_before);
    if (why != NULL) {
        json_decref(whole);
        return why;
    }
    out->whole = whole;
    *follows = strcmp(its_before, before) == 0;
    return NULL;
}
