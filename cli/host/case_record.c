#include "host/case_record.h"

#include <string.h>

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
