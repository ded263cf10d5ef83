/* Steps of a case: done in the engine first, which may refuse, then kept. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "ask.h"
#include "begin_case.h"
#include "plain_text.h"
#include "reply_json.h"
#include "wordings.h"

void note_failure(ask *a, exit_status failure)
{
    if (failure == EXIT_DONE) return;
    a->leaving = LEAVING_FAILED;
    a->failure = failure;
}

void keep_note(ask *a, const char *kind, json_t *data)
{
    if (a->file == NULL || a->replaying)
        json_decref(data);
    else
        note_failure(a, case_file_add(a->file, kind, data));
}

/* After the engine took it: remembers the step for `back`, keeps the record. Takes over `data`. */
static void took(ask *a, tt_status status, ask_step step, const char *kind, json_t *data)
{
    if (status != TT_OK) {
        json_decref(data);
        note_failure(a, status_of(status));
        return;
    }
    a->steps = room_for_one(a->steps, a->step_count, sizeof *a->steps);
    a->steps[a->step_count++] = step;
    a->question_shown = a->fix_shown = TT_NONE;
    keep_note(a, kind, data);
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
    ask_step step = has_answer(a, question) ? STEP_CHANGED : STEP_ANSWER;
    status = tt_answer(a->c, question, reply);
    if (status == TT_FAULTY) {
        json_decref(data);
        return false;
    }
    took(a, status, step, "answer", data);
    return true;
}

void step_complaint(ask *a, uint32_t symptom, const char *name, const char *said)
{
    json_t *data = json_object();
    json_object_set_new(data, "symptom", json_string(name));
    json_object_set_new(data, "said", json_string(said));
    took(a, tt_complain(a->c, symptom), STEP_COMPLAINT, "complaint", data);
}

void step_no_complaint(ask *a)
{
    took(a, TT_OK, STEP_NO_COMPLAINT, "no-complaint", json_object());
}

/* What the step sets; the case's file says it as it was, whatever the rules say later. */
static json_t *set_json(const tt_adjust *step, double to)
{
    json_t *set = json_object();
    json_object_set_new(set, "from", json_real(step->from));
    json_object_set_new(set, "to", json_real(to));
    return set;
}

/* Takes over `data`. False if the engine says that it makes no sense now. */
static bool took_if_now(ask *a, tt_status status, ask_step step, const char *kind, json_t *data)
{
    if (status == TT_NOT_NOW) json_decref(data);
    else took(a, status, step, kind, data);
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
        if (plan.adjust.step > 0 && outcome != TT_COULD_NOT)
            json_object_set_new(data, "set", set_json(&plan.adjust, plan.adjust.to));
        status = tt_fix_tried(a->c, fix, outcome);
    }
    return took_if_now(a, status, STEP_TRIED, "tried", data);
}

bool step_put_back(ask *a, uint32_t fix)
{
    tt_fix_plan plan;
    json_t *data = json_object();
    tt_status status = tt_fix_show(a->c, fix, &plan);
    if (status == TT_OK) {
        json_object_set_new(data, "fix", json_string(plan.name));
        json_object_set_new(data, "set", set_json(&plan.adjust, plan.adjust.found));
        status = tt_put_back(a->c, fix);
    }
    return took_if_now(a, status, STEP_PUT_BACK, "put-back", data);
}

void step_left_out(ask *a)
{
    assert(a->replaying);
    took(a, TT_OK, STEP_LEFT_OUT, "left-out", json_object());
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

bool step_back(ask *a)
{
    if (a->step_count == 0 || a->steps[a->step_count - 1] == STEP_FILE) return false;
    ask_step last = a->steps[--a->step_count];
    if (last != STEP_NO_COMPLAINT && last != STEP_LEFT_OUT) {
        tt_status status = tt_undo(a->c);
        assert(status == TT_OK);
        (void)status;
    }
    a->question_shown = a->fix_shown = TT_NONE;
    keep_note(a, "back", json_object());
    return true;
}
