/* Records as lines of JSON that are chained by their hashes. */
#include "summary/record_line.h"

#include <assert.h>
#include <sha256.h>
#include <stdlib.h>
#include <string.h>

#include "base/value.h"
#include "host/plain_text.h"

enum { EXACT_DIGITS = 17 };

void line_hash(const char *line, size_t length, char hash[LINE_HASH_SIZE])
{
    static_assert(LINE_HASH_SIZE == SHA256_DIGEST_STRING_LENGTH, "a text of the digest");
    SHA256Data((const uint8_t *)line, length, hash);
}

str record_line(arena *keep, const char *case_id, const char *before, const tt_record *record,
                const tt_value *ends)
{
    value_builder line = value_map(keep);
    value_put_number(&line, "version", RECORD_VERSION);
    value_put_text(&line, "case", case_id);
    value_put_text(&line, "writer", record->writer);
    value_put_number(&line, "seq", (double)record->number);
    value_put_number(&line, "lamport", (double)record->lamport);
    value_put_text(&line, "time", record->time);
    value_put_text(&line, "before", before);
    value_put(&line, "seen", record->seen != NULL ? *record->seen : value_null);
    if (ends != NULL) value_put(&line, "ends", *ends);
    value_put_text(&line, "kind", record->kind);
    value_put(&line, "data", *record->data);
    tt_value whole = value_done(&line);
    char *json = NULL;
    if (tt_value_json(&whole, EXACT_DIGITS, &json) != TT_OK) memory_ended();
    str text = str_copy(keep, str_of(json));
    free(json);
    return text;
}

/* Up to 2^53 numbers are exact in JSON everywhere; others are no counters. */
static const char *fill(arena *keep, const tt_value *line, const char *case_id, tt_record *out)
{
    const char *its_case = value_text(line, "case");
    const tt_value *data = value_get(line, "data"), *seen = value_get(line, "seen");
    *out = (tt_record){.writer = value_text(line, "writer"),
                       .time = value_text(line, "time"),
                       .kind = value_text(line, "kind")};
    bool complete = its_case != NULL && value_text(line, "before") != NULL && out->writer != NULL &&
                    out->time != NULL && out->kind != NULL && value_is(data, TT_VALUE_MAP) &&
                    value_counter(line, "seq", &out->number) &&
                    value_counter(line, "lamport", &out->lamport);
    if (!complete) return "something is missing in it";
    if (strcmp(its_case, case_id) != 0) return "it belongs to another case";
    tt_value kept = value_copy(keep, line);
    *out = (tt_record){.writer = value_text(&kept, "writer"),
                       .number = out->number,
                       .lamport = out->lamport,
                       .time = value_text(&kept, "time"),
                       .seen = value_is(seen, TT_VALUE_MAP) ? value_get(&kept, "seen") : NULL,
                       .kind = value_text(&kept, "kind"),
                       .data = value_get(&kept, "data")};
    return NULL;
}

static const char *read_value(arena *keep, const tt_value *line, const char *case_id,
                              const char *before, tt_record *out, bool *follows)
{
    double version;
    if (!value_number(line, "version", &version) || version != RECORD_VERSION)
        return "another version of telltale wrote it";
    const char *why = fill(keep, line, case_id, out);
    if (why == NULL) *follows = strcmp(value_text(line, "before"), before) == 0;
    return why;
}

const char *record_of_line(arena *keep, const char *line, size_t length, const char *case_id,
                           const char *before, tt_record *out, bool *follows)
{
    tt_document *document = NULL;
    *follows = true;
    if (length > LONGEST_LINE) return "it is too long";
    if (tt_document_read(line, length, LONGEST_LINE, &document) == TT_NO_MEMORY) memory_ended();
    const tt_value *value = tt_document_value(document);
    const char *why = value != NULL ? read_value(keep, value, case_id, before, out, follows)
                                    : "it was not written to its end, or was damaged";
    tt_document_free(document);
    return why;
}
