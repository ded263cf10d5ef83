#include "host/case_skips.h"

#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"

static const size_t none = SIZE_MAX;

typedef struct skipping {
    const case_file *file;
    bool *skipped;
    size_t *steps; /* that `back` can take back, the last one last */
    size_t count;
} skipping;

bool is_case_step(const char *kind)
{
    static const char *const kinds[] = {"answer",   "complaint", "no-complaint", "tried",
                                        "put-back", "left",      "answers",      "settle"};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(kinds[i], kind) == 0) return true;
    return false;
}

/* The record that {"writer", "seq"} names. */
static size_t record_named(const case_file *file, const json_t *name)
{
    const char *writer = json_string_value(json_object_get(name, "writer"));
    json_int_t number = json_integer_value(json_object_get(name, "seq"));
    for (size_t i = 0; writer != NULL && i < case_file_count(file); i++) {
        const case_record *r = case_file_record(file, i);
        if ((json_int_t)r->number == number && strcmp(r->writer, writer) == 0) return i;
    }
    return none;
}

static bool is_kind(const skipping *s, size_t record, const char *kind)
{
    return strcmp(case_file_record(s->file, record)->kind, kind) == 0;
}

/* What says that others are wrong may itself have been taken back, which is known before anything
 * else. */
static bool is_taken_back(const skipping *s, size_t record)
{
    for (size_t i = record + 1; i < case_file_count(s->file); i++) {
        const json_t *step = json_object_get(case_file_record(s->file, i)->data, "step");
        if (is_kind(s, i, "back") && step != NULL && record_named(s->file, step) == record) return true;
    }
    return false;
}

static void skip_wrong(skipping *s, size_t settled)
{
    const json_t *wrong = json_object_get(case_file_record(s->file, settled)->data, "wrong");
    for (size_t i = 0; i < json_array_size(wrong); i++) {
        size_t record = record_named(s->file, json_array_get(wrong, i));
        if (record < settled && is_kind(s, record, "settle") == false) s->skipped[record] = true;
    }
}

static void drop_step(skipping *s, size_t at)
{
    memmove(s->steps + at, s->steps + at + 1, (s->count - at - 1) * sizeof *s->steps);
    s->count--;
}

/* A step that is the last one is taken back when it is replayed; another one must not be replayed at
 * all, nor this record, which would take back the last. */
static void take_back(skipping *s, size_t back)
{
    const json_t *step = json_object_get(case_file_record(s->file, back)->data, "step");
    if (step == NULL) {
        if (s->count > 0 && !is_kind(s, s->steps[s->count - 1], "answers")) s->count--;
        return;
    }
    size_t record = record_named(s->file, step), at = s->count;
    while (at > 0 && s->steps[at - 1] != record) at--;
    if (at > 0 && at == s->count) {
        s->count--;
        return;
    }
    s->skipped[back] = true;
    if (at == 0) return; /* it was taken back before */
    s->skipped[record] = true;
    drop_step(s, at - 1);
}

static bool same_part(const case_record *x, const case_record *y, const char *key)
{
    const json_t *of_x = json_object_get(x->data, key), *of_y = json_object_get(y->data, key);
    return of_x == NULL || of_y == NULL ? of_x == of_y : json_equal(of_x, of_y) == 1;
}

/* Whatever words it is told in. */
static bool same_report(const case_record *x, const case_record *y)
{
    return strcmp(x->kind, y->kind) == 0 && same_part(x, y, "fix") && same_part(x, y, "outcome") && same_part(x, y, "set");
}

/* Two who are on the same call report the same thing, neither knowing of the other's report: that
 * happened once. Answers may well be given twice; they say nothing more then. */
static bool is_told_twice(const skipping *s, size_t record)
{
    const case_record *r = case_file_record(s->file, record);
    if (!is_kind(s, record, "tried") && !is_kind(s, record, "put-back") && !is_kind(s, record, "left")) return false;
    for (size_t i = 0; i < s->count; i++) {
        const case_record *before = case_file_record(s->file, s->steps[i]);
        if (same_report(before, r) && !case_record_saw(r, before) && !is_taken_back(s, s->steps[i])) return true;
    }
    return false;
}

bool *case_skips(const case_file *file)
{
    size_t count = case_file_count(file);
    skipping s = {.file = file, .skipped = take_memory(count + 1), .steps = take_memory((count + 1) * sizeof *s.steps)};
    for (size_t i = 0; i < count; i++)
        if (is_kind(&s, i, "settle") && !is_taken_back(&s, i)) skip_wrong(&s, i);
    for (size_t i = 0; i < count; i++) {
        if (s.skipped[i]) continue;
        s.skipped[i] = is_told_twice(&s, i);
        if (s.skipped[i]) continue;
        if (is_kind(&s, i, "back")) take_back(&s, i);
        else if (is_case_step(case_file_record(file, i)->kind)) s.steps[s.count++] = i;
    }
    free(s.steps);
    return s.skipped;
}
