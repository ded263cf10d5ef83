#include "host/case_summary.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "host/case_telling.h"
#include "host/plain_text.h"

#define STATE_NAME_ENTRY(id, name, heading) [id] = name,
const char *const state_names[CASE_STATES] = {STATE_TABLE(STATE_NAME_ENTRY)};
#define STATE_HEADING_ENTRY(id, name, heading) [id] = heading,
const char *const state_headings[CASE_STATES] = {STATE_TABLE(STATE_HEADING_ENTRY)};

static char *copy_span(text_span span)
{
    char *copy = take_memory(span.length + 1);
    memcpy(copy, span.from, span.length);
    return copy;
}

static void replace(char **text, char *by)
{
    free(*text);
    *text = by;
}

/* Nothing said leaves what there was. */
static void note_text(char **out, const json_t *data, const char *key)
{
    const char *text = json_string_value(json_object_get(data, key));
    if (text != NULL && *text != 0) replace(out, copy_text(text));
}

/* The site's title; of records that don't say it, what its file is called. */
static void note_site(char **out, const json_t *data)
{
    const char *path = json_string_value(json_object_get(json_object_get(data, "site"), "path"));
    const char *slash = path != NULL ? strrchr(path, '/') : NULL,
               *name = slash != NULL ? slash + 1 : path;
    if (name != NULL) {
        const char *end = strstr(name, ".yaml");
        replace(out, end != NULL ? format_text("%.*s", (int)(end - name), name) : copy_text(name));
    }
    note_text(out, data, "site_title");
}

static bool is_open(const telling *t)
{
    return t->out->state == CASE_OPEN || t->out->state == CASE_ON_HOLD;
}

static void tell_beginning(telling *t, const json_t *data)
{
    note_text(&t->out->title, data, "title");
    note_text(&t->out->edition, data, "edition");
    note_text(&t->out->book, data, "rulebook");
    note_text(&t->out->revision, data, "revision");
    note_site(&t->out->site, data);
}

/* Somebody opens it: who has it from now on. */
static void tell_opening(telling *t, const seen_record *record, const json_t *data)
{
    replace(&t->out->writer, copy_span(record->line.writer));
    replace(&t->out->since, copy_span(record->line.time));
    replace(&t->out->person, NULL);
    replace(&t->out->place, NULL);
    replace(&t->out->note, NULL);
    replace(&t->out->to, NULL);
    note_text(&t->out->person, data, "by");
    note_text(&t->out->place, data, "on");
    t->out->held = true;
}

/* Whoever has it leaves it; if it was another who had joined, it stays with the one who has it. */
static void tell_leaving(telling *t, const seen_record *record)
{
    if (t->out->writer == NULL || !span_is(record->line.writer, t->out->writer)) return;
    replace(&t->out->since, copy_span(record->line.time));
    t->out->held = false;
}

static void open_case_again(telling *t)
{
    replace(&t->out->ended, NULL);
    replace(&t->out->cause_name, NULL);
    replace(&t->out->cause, NULL);
    replace(&t->out->stands, NULL);
    t->out->state = CASE_OPEN;
    t->out->minutes = NAN;
    t->out->confirmed = false;
    t->confirmed = NULL;
}

static void tell_ending(telling *t, const seen_record *record, const json_t *data)
{
    const char *how = json_string_value(json_object_get(data, "how"));
    int64_t moment;
    open_case_again(t);
    t->out->ended = copy_span(record->line.time);
    t->out->state = how != NULL && strcmp(how, "call") == 0   ? CASE_CALLED
                    : how != NULL && strcmp(how, "stop") == 0 ? CASE_STOPPED
                                                              : CASE_CLOSED;
    if (moment_read(record->line.time.from, record->line.time.length, &moment) && t->began != 0 &&
        moment >= t->began)
        t->out->minutes = (double)(moment - t->began) / 60000;
    if (t->out->state != CASE_CLOSED) return;
    note_text(&t->out->cause_name, data, "cause");
    note_text(&t->out->cause, data, "cause_text");
}

/* Somebody says what it was, or that nobody knows. Two who name different causes, not knowing of
 * each other, have confirmed none. */
static void tell_confirmation(telling *t, const seen_record *record, const json_t *data)
{
    const char *name = json_string_value(json_object_get(data, "cause"));
    bool knew = t->confirmed == NULL || record_saw(record, t->confirmed);
    if (name == NULL && !knew) return;
    bool same = name != NULL && t->out->cause_name != NULL && strcmp(t->out->cause_name, name) == 0;
    if (knew || same) t->confirmed = name != NULL ? record : NULL;
    t->out->confirmed = name != NULL && (knew || same);
    if (same || (name == NULL && !t->out->confirmed)) return;
    replace(&t->out->cause, NULL);
    replace(&t->out->cause_name, knew ? copy_text(name) : NULL);
    if (knew) note_text(&t->out->cause, data, "cause_text");
}

static void tell_note(telling *t, const json_t *data)
{
    replace(&t->out->note, NULL);
    replace(&t->out->to, NULL);
    note_text(&t->out->note, data, "note");
    note_text(&t->out->to, data, "to");
}

static bool is_step(const scanned_line *line)
{
    static const char *const steps[] = {"answer",   "complaint", "no-complaint", "tried",
                                        "put-back", "left",      "answers",      "settle"};
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++)
        if (span_is(line->kind, steps[i])) return true;
    return false;
}

static void take_step(telling *t, size_t index)
{
    t->steps[t->step_count++] = index;
    open_case_again(t);
}

/* The step that {"writer", "seq"} names; the place behind all steps if it is none of them. */
static size_t step_named(const telling *t, const json_t *name)
{
    const char *writer = json_string_value(json_object_get(name, "writer"));
    json_int_t number = json_integer_value(json_object_get(name, "seq"));
    size_t at = t->step_count;
    for (size_t i = 0; writer != NULL && i < t->step_count; i++) {
        const scanned_line *line = &t->records[t->steps[i]].line;
        if ((json_int_t)line->number == number && span_is(line->writer, writer)) at = i;
    }
    return at;
}

static void drop_step(telling *t, size_t at)
{
    if (at < t->step_count)
        memmove(&t->steps[at], &t->steps[at + 1], (--t->step_count - at) * sizeof *t->steps);
}

/* As case_skips.c has it: a file of answers is never the step that was meant. */
static void take_step_back(telling *t, const json_t *data)
{
    const json_t *step = json_object_get(data, "step");
    size_t last = t->step_count > 0 ? t->step_count - 1 : 0;
    if (step != NULL)
        drop_step(t, step_named(t, step));
    else if (t->step_count > 0 && !span_is(t->records[t->steps[last]].line.kind, "answers"))
        t->step_count--;
    open_case_again(t);
}

/* Answers of several writers that were settled to be wrong. */
static void drop_wrong(telling *t, size_t settled)
{
    json_t *data = telling_data(t, &t->records[t->steps[settled]]);
    const json_t *wrong = json_object_get(data, "wrong");
    for (size_t i = 0; i < json_array_size(wrong); i++) {
        size_t at = step_named(t, json_array_get(wrong, i));
        if (at < settled) t->steps[at] = t->steps[settled];
    }
    json_decref(data);
}

static void tell_stop(telling *t, const json_t *data)
{
    if (!is_open(t)) return;
    replace(&t->out->stands, NULL);
    note_text(&t->out->stands, data, "next");
    t->out->stands_next = t->out->stands != NULL;
}

typedef void tell_kind(telling *t, const seen_record *record, const json_t *data);

static void tell_begin(telling *t, const seen_record *record, const json_t *data)
{
    tell_beginning(t, data);
    tell_opening(t, record, data);
    if (is_open(t)) t->out->state = CASE_OPEN;
}

static void tell_site(telling *t, const seen_record *record, const json_t *data)
{
    (void)record;
    note_site(&t->out->site, data);
}

static void tell_close(telling *t, const seen_record *record, const json_t *data)
{
    tell_ending(t, record, data);
    tell_leaving(t, record);
}

static void tell_confirm(telling *t, const seen_record *record, const json_t *data)
{
    if (t->out->state == CASE_CLOSED) tell_confirmation(t, record, data);
}

static void tell_stopped(telling *t, const seen_record *record, const json_t *data)
{
    tell_stop(t, data);
    tell_leaving(t, record);
}

static void tell_hold(telling *t, const seen_record *record, const json_t *data)
{
    tell_stopped(t, record, data);
    tell_note(t, data);
    if (is_open(t)) t->out->state = CASE_ON_HOLD;
}

static void tell_hand_over(telling *t, const seen_record *record, const json_t *data)
{
    tell_stopped(t, record, data);
    tell_note(t, data);
    if (is_open(t)) t->out->state = CASE_OPEN;
}

static void tell_back(telling *t, const seen_record *record, const json_t *data)
{
    (void)record;
    take_step_back(t, data);
}

static const struct {
    const char *kind;
    tell_kind *tell;
} told_kinds[] = {{"begin", tell_begin}, {"resume", tell_begin},    {"site", tell_site},
                  {"close", tell_close}, {"confirm", tell_confirm}, {"stop", tell_stopped},
                  {"hold", tell_hold},   {"back", tell_back},       {"hand-over", tell_hand_over}};

/* A record of a kind that is not known here is no step, and changes nothing. */
static void tell_record(telling *t, size_t index)
{
    const seen_record *record = &t->records[index];
    if (is_step(&record->line)) {
        take_step(t, index);
        return;
    }
    for (size_t i = 0; i < sizeof told_kinds / sizeof told_kinds[0]; i++) {
        if (!span_is(record->line.kind, told_kinds[i].kind)) continue;
        json_t *data = telling_data(t, record);
        if (data != NULL) told_kinds[i].tell(t, record, data);
        json_decref(data);
    }
}

static void tell_complaint(telling *t, const seen_record *record)
{
    json_t *data = telling_data(t, record);
    if (data == NULL) return;
    replace(&t->out->complaint_name, NULL);
    replace(&t->out->complaint, NULL);
    replace(&t->out->said, NULL);
    note_text(&t->out->complaint_name, data, "symptom");
    note_text(&t->out->complaint, data, "text");
    note_text(&t->out->said, data, "said");
    json_decref(data);
}

/* What was done last, if nobody said what comes next. */
static void tell_last_step(telling *t, const seen_record *record)
{
    static const char *const about[] = {"asked", "text", "question", "fix", "symptom", "name"};
    json_t *data = telling_data(t, record);
    for (size_t i = 0; i < sizeof about / sizeof about[0] && t->out->stands == NULL; i++)
        if (data != NULL && json_is_string(json_object_get(data, about[i])) &&
            !span_is(record->line.kind, "answers"))
            note_text(&t->out->stands, data, about[i]);
    const char *typed = json_string_value(json_object_get(data, "words"));
    if (typed == NULL) typed = json_string_value(json_object_get(data, "typed"));
    if (typed == NULL) typed = json_string_value(json_object_get(data, "outcome"));
    if (t->out->stands != NULL && typed != NULL && *typed != 0)
        replace(&t->out->stands, format_text("%s %s", t->out->stands, typed));
    if (span_is(record->line.kind, "answers")) t->out->stands = copy_text("answers from a file");
    if (span_is(record->line.kind, "settle"))
        replace(&t->out->stands, copy_text("it was settled which answer is right"));
    if (span_is(record->line.kind, "no-complaint"))
        t->out->stands = copy_text("none of the complaints fits");
    t->out->stands_next = false;
    json_decref(data);
}

static void tell_steps(telling *t)
{
    for (size_t i = 0; i < t->step_count; i++)
        if (span_is(t->records[t->steps[i]].line.kind, "settle")) drop_wrong(t, i);
    for (size_t i = 0; i < t->step_count; i++) {
        const seen_record *record = &t->records[t->steps[i]];
        if (span_is(record->line.kind, "complaint")) tell_complaint(t, record);
        t->out->answers += span_is(record->line.kind, "answer");
        t->out->tried += span_is(record->line.kind, "tried");
    }
    if (is_open(t) && t->out->stands == NULL && t->step_count > 0)
        tell_last_step(t, &t->records[t->steps[t->step_count - 1]]);
}

static void tell_times(telling *t)
{
    const scanned_line *first = &t->records[0].line, *last = &t->records[t->count - 1].line;
    t->out->began = copy_span(first->time);
    t->out->last = copy_span(last->time);
    if (!moment_read(last->time.from, last->time.length, &t->out->last_moment))
        t->out->last_moment = 0;
    if (!moment_read(first->time.from, first->time.length, &t->began)) t->began = 0;
}

static void tell_all(telling *t)
{
    t->out->state = CASE_UNREADABLE;
    t->out->minutes = NAN;
    if (t->count == 0) return;
    t->out->state = CASE_OPEN;
    t->steps = take_memory(t->count * sizeof *t->steps);
    tell_times(t);
    for (size_t i = 0; i < t->count; i++) tell_record(t, i);
    tell_steps(t);
    free(t->steps);
}

void case_summarize(const char *uuid, const case_bytes *files, size_t file_count,
                    char *const *words, size_t word_count, case_summary *out)
{
    telling t = {.out = out};
    *out = (case_summary){.state = CASE_OPEN};
    memcpy(out->uuid, uuid, CASE_UUID_SIZE);
    case_number_of(uuid, out->number);
    out->has_text = words_may_hold(files, file_count, words, word_count);
    if (!out->has_text)
        return; /* most cases, when words are looked for: nothing more of them is wanted */
    for (size_t i = 0; i < file_count; i++) telling_take_lines(&t, &files[i]);
    telling_put_in_order(&t);
    tell_all(&t);
    out->has_text = telling_holds(&t, words, word_count);
    telling_end(&t);
}

void case_summary_free(case_summary *s)
{
    char *const texts[] = {s->folder,    s->began, s->last,       s->ended, s->title,
                           s->edition,   s->book,  s->revision,   s->site,  s->complaint_name,
                           s->complaint, s->said,  s->cause_name, s->cause, s->stands,
                           s->note,      s->to,    s->writer,     s->since, s->person,
                           s->place};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) free(texts[i]);
}
