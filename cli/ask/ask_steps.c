/* Steps of a case: done in the engine first, which may refuse, then kept. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "ask/record_texts.h"
#include "face/wordings.h"
#include "host/begin_case.h"
#include "host/plain_text.h"
#include "host/reply_json.h"

void note_failure(ask *a, exit_status failure)
{
    if (failure == EXIT_DONE) return;
    a->leaving = LEAVING_FAILED;
    a->failure = failure;
}

void keep_note(ask *a, const char *kind, json_t *data)
{
    if (a->file == NULL || a->replaying || !case_file_is_open(a->file))
        json_decref(data);
    else
        note_failure(a, case_file_add(a->file, kind, data));
}

/* After the engine took it as so many events: remembers the step for `back`, keeps the record. Takes
 * over `data`. */
static void took_events(ask *a, tt_status status, step_taken step, const char *kind, json_t *data)
{
    if (status != TT_OK) {
        json_decref(data);
        note_failure(a, status_of(status));
        return;
    }
    a->steps = room_for_one(a->steps, a->step_count, sizeof *a->steps);
    step_taken *taken = &a->steps[a->step_count++];
    *taken = step;
    a->question_shown = a->fix_shown = TT_NONE;
    keep_note(a, kind, data);
    taken->record = a->replaying || a->file == NULL ? a->record : case_file_count(a->file) - 1;
}

static void took(ask *a, tt_status status, ask_step step, const char *kind, json_t *data)
{
    bool told = step != STEP_LEFT_OUT && step != STEP_SETTLED;
    took_events(a, status, (step_taken){.kind = step, .events = told ? 1 : 0}, kind, data);
}

bool step_answer(ask *a, uint32_t question, const tt_reply *reply, const char *typed)
{
    tt_question shown;
    tt_status status = tt_question_show(a->c, question, &shown);
    if (status != TT_OK) {
        note_failure(a, status_of(status));
        return true;
    }
    json_t *data = json_object();
    json_object_set_new(data, "question", json_string(shown.name));
    json_object_set_new(data, "reply", reply_to_json(&shown, reply));
    json_object_set_new(data, "typed", json_string(typed));
    add_answer_texts(data, &shown, reply);
    ask_step step = has_answer(a, question) ? STEP_CHANGED : STEP_ANSWER;
    status = tt_answer(a->c, question, reply);
    if (status == TT_FAULTY) {
        json_decref(data);
        return false;
    }
    took(a, status, step, "answer", data);
    return true;
}

static json_t *complaint_json(const ask *a, const tt_complaint *complaint, const char *said,
                              const uint32_t *at, uint32_t count)
{
    json_t *data = json_object(), *pieces = json_array();
    for (uint32_t i = 0; i < count; i++)
        json_array_append_new(pieces, json_string(tt_piece_show(a->book.book, at[i]).name));
    json_object_set_new(data, "symptom", json_string(complaint->name));
    json_object_set_new(data, "said", json_string(said));
    if (complaint->kind != TT_NONE) json_object_set(data, "at", pieces);
    json_object_set_new(data, "text", json_string(complaint->text));
    json_decref(pieces);
    return data;
}

/* All pieces of the kind: it may be any of them. */
static tt_status focus_on_kind(ask *a, uint32_t kind)
{
    uint32_t all = tt_piece_count(a->book.book), count = 0;
    uint32_t *pieces = take_memory(all * sizeof *pieces);
    for (uint32_t i = 0; i < all; i++)
        if (tt_piece_show(a->book.book, i).kind == kind) pieces[count++] = i;
    tt_status status = tt_focus(a->c, pieces, count);
    free(pieces);
    return status;
}

/* The symptom is shown at each of the pieces. *events: how many of them the engine took. */
static tt_status complain_at(ask *a, uint32_t symptom, const uint32_t *at, uint32_t count,
                             unsigned *events)
{
    tt_status status = TT_OK;
    for (uint32_t i = 0; status == TT_OK && i < count; i++) {
        uint32_t there = tt_symptom_at(a->book.book, symptom, at[i]);
        status = there != TT_NONE ? tt_complain(a->c, there) : TT_FAULTY;
        if (status == TT_OK) ++*events;
    }
    return status;
}

bool step_complaint(ask *a, const tt_complaint *complaint, const char *said, const uint32_t *at,
                    uint32_t count)
{
    step_taken step = {.kind = STEP_COMPLAINT, .events = 1};
    json_t *data = complaint_json(a, complaint, said, at, count);
    tt_status status;
    if (complaint->kind == TT_NONE) {
        status = tt_complain(a->c, complaint->symptom);
    } else if (count == 0) {
        status = focus_on_kind(a, complaint->kind);
    } else {
        step.events = 0;
        status = complain_at(a, complaint->symptom, at, count, &step.events);
        while (status != TT_OK && step.events > 0 && tt_undo(a->c) == TT_OK) step.events--;
    }
    if (status == TT_FAULTY) {
        json_decref(data);
        return false;
    }
    took_events(a, status, step, "complaint", data);
    return true;
}

void step_no_complaint(ask *a)
{
    took(a, tt_no_complaint(a->c), STEP_NO_COMPLAINT, "no-complaint", json_object());
}

/* What the step sets; the case's file says it as it was, whatever the rules say later. */
static json_t *set_json(ask *a, const tt_adjust *step, double to)
{
    json_t *set = json_object();
    tt_question reading;
    json_object_set_new(set, "from", json_real(step->from));
    json_object_set_new(set, "to", json_real(to));
    if (tt_question_show(a->c, step->reading, &reading) != TT_OK) return set;
    json_object_set_new(set, "reading", json_string(reading.name));
    json_object_set_new(set, "unit", json_string(reading.unit));
    return set;
}

/* Takes over `data`. False if the engine says that it makes no sense now. */
static bool took_if_now(ask *a, tt_status status, ask_step step, uint32_t fix, const char *kind, json_t *data)
{
    if (status == TT_NOT_NOW) json_decref(data);
    else took(a, status, step, kind, data);
    if (status == TT_OK) a->steps[a->step_count - 1].fix = fix;
    return status != TT_NOT_NOW;
}

bool step_tried(ask *a, uint32_t fix, tt_outcome outcome)
{
    tt_fix_plan plan;
    json_t *data = json_object();
    tt_status status = tt_fix_show(a->c, fix, &plan);
    if (status == TT_OK) {
        json_object_set_new(data, "fix", json_string(plan.name));
        json_object_set_new(data, "outcome", json_string(outcome_name(outcome)));
        json_object_set_new(data, "text", json_string(plan.text));
        if (plan.adjust.step > 0 && outcome != TT_COULD_NOT)
            json_object_set_new(data, "set", set_json(a, &plan.adjust, plan.adjust.to));
        status = tt_fix_tried(a->c, fix, outcome);
    }
    return took_if_now(a, status, STEP_TRIED, fix, "tried", data);
}

bool step_put_back(ask *a, uint32_t fix)
{
    tt_fix_plan plan;
    json_t *data = json_object();
    tt_status status = tt_fix_show(a->c, fix, &plan);
    if (status == TT_OK) {
        json_object_set_new(data, "fix", json_string(plan.name));
        if (plan.adjust.reading != TT_NONE)
            json_object_set_new(data, "set", set_json(a, &plan.adjust, plan.adjust.found));
        status = tt_put_back(a->c, fix);
    }
    return took_if_now(a, status, STEP_PUT_BACK, fix, "put-back", data);
}

bool step_left_so(ask *a, uint32_t fix)
{
    tt_fix_plan plan;
    tt_status status = tt_fix_show(a->c, fix, &plan);
    json_t *data = json_object();
    if (status == TT_OK) {
        json_object_set_new(data, "fix", json_string(plan.name));
        status = tt_left_so(a->c, fix);
    }
    return took_if_now(a, status, STEP_LEFT_SO, fix, "left", data);
}

void step_left_out(ask *a)
{
    assert(a->replaying);
    took(a, TT_OK, STEP_LEFT_OUT, "left-out", json_object());
}

void step_was_settled(ask *a)
{
    assert(a->replaying);
    took(a, TT_OK, STEP_SETTLED, "settle", json_object());
}

exit_status step_file(ask *a, const tt_source *file)
{
    exit_status status = case_answer_file(a->c, file);
    if (status != EXIT_DONE) return status;
    json_t *data = json_object();
    json_object_set_new(data, "name", json_string(file->name));
    json_object_set_new(data, "text", json_stringn(file->bytes, file->length));
    took(a, TT_OK, STEP_FILE, "answers", data);
    return EXIT_DONE;
}

/* By writer and number: what another writer adds meanwhile may come after it. */
static json_t *record_name(const case_record *record)
{
    json_t *name = json_object();
    json_object_set_new(name, "writer", json_string(record->writer));
    json_object_set_new(name, "seq", json_integer((json_int_t)record->number));
    return name;
}

void step_settled(ask *a, const case_record *right, const case_record *const *wrong, size_t count)
{
    json_t *data = json_object(), *names = json_array();
    for (size_t i = 0; i < count; i++) json_array_append_new(names, record_name(wrong[i]));
    json_object_set_new(data, "right", record_name(right));
    json_object_set_new(data, "wrong", names);
    took(a, TT_OK, STEP_SETTLED, "settle", data);
    if (a->leaving == STAYING) replay_again(a);
}

static json_t *back_record(const ask *a, const step_taken *step)
{
    json_t *data = json_object();
    if (a->file != NULL && !a->replaying)
        json_object_set_new(data, "step", record_name(case_file_record(a->file, step->record)));
    return data;
}

bool step_back(ask *a)
{
    if (a->step_count == 0 || a->steps[a->step_count - 1].kind == STEP_FILE)
        return false;
    step_taken last = a->steps[a->step_count - 1];
    for (unsigned events = last.events; events > 0; events--)
        if (tt_undo(a->c) != TT_OK) return false; /* it told of danger, which only a safe answer ends */
    a->step_count--;
    a->question_shown = a->fix_shown = TT_NONE;
    keep_note(a, "back", back_record(a, &last));
    if (last.kind == STEP_SETTLED && !a->replaying && a->leaving == STAYING) replay_again(a);
    return true;
}
