/* Taking a case up again: its records, in order, through the same steps. What the book no
 * longer knows is left out and said so. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "ask/case_replay.h"
#include "face/wordings.h"
#include "host/case_skips.h"
#include "host/plain_text.h"
#include "host/reply_json.h"

static const char *text_in(const json_t *data, const char *key)
{
    const char *text = json_string_value(json_object_get(data, key));
    return text != NULL ? text : "";
}

static bool replay_answer(ask *a, const json_t *data)
{
    uint32_t question = tt_question_find(a->book.book, text_in(data, "question"));
    tt_question shown;
    tt_reply reply;
    if (question == TT_NONE || tt_question_show(a->c, question, &shown) != TT_OK) return false;
    double *weights = take_memory((shown.option_count + 1) * sizeof *weights);
    bool fits = reply_of_json(&shown, json_object_get(data, "reply"), weights, &reply) &&
                step_answer(a, question, &reply, "");
    free(weights);
    return fits;
}

static uint32_t piece_named(const ask *a, const char *name)
{
    for (uint32_t i = 0; name != NULL && i < tt_piece_count(a->book.book); i++)
        if (strcmp(tt_piece_show(a->book.book, i).name, name) == 0) return i;
    return TT_NONE;
}

/* One about a kind of equipment has one name for all its pieces, which no symptom has. */
static bool complaint_named(const ask *a, const char *name, bool of_kind, tt_complaint *out)
{
    *out = (tt_complaint){.symptom = TT_NONE, .name = name, .text = "", .kind = TT_NONE};
    if (!of_kind) {
        out->symptom = tt_symptom_find(a->book.book, name);
        return out->symptom != TT_NONE;
    }
    tt_complaint *all = NULL;
    uint32_t count = 0;
    bool found = false;
    if (tt_complaints(a->book.book, &all, &count) != TT_OK) return false;
    for (uint32_t i = 0; !found && i < count; i++) {
        found = all[i].kind != TT_NONE && strcmp(all[i].name, name) == 0;
        if (found) *out = all[i];
    }
    free(all);
    return found;
}

static bool replay_complaint(ask *a, const json_t *data)
{
    const json_t *at = json_object_get(data, "at");
    tt_complaint complaint;
    if (!complaint_named(a, text_in(data, "symptom"), json_is_array(at), &complaint)) return false;
    uint32_t *pieces = take_memory((json_array_size(at) + 1) * sizeof *pieces);
    uint32_t count = 0;
    for (size_t i = 0; i < json_array_size(at); i++)
        pieces[count++] = piece_named(a, json_string_value(json_array_get(at, i)));
    bool known = true;
    for (uint32_t i = 0; i < count; i++) known = known && pieces[i] != TT_NONE;
    bool done = known && step_complaint(a, &complaint, "", pieces, count);
    free(pieces);
    return done;
}

/* Somebody has set something: rules that would set it otherwise now can't take that for theirs. */
static bool sets_the_same(const json_t *data, bool sets, double from, double to)
{
    const json_t *set = json_object_get(data, "set");
    if (!json_is_object(set)) return !sets;
    double was = json_number_value(json_object_get(set, "from")),
           became = json_number_value(json_object_get(set, "to"));
    return sets && fabs(was - from) <= 1e-9 * fmax(1, fabs(was)) &&
           fabs(became - to) <= 1e-9 * fmax(1, fabs(became));
}

static bool replay_tried(ask *a, const json_t *data)
{
    uint32_t fix = tt_fix_find(a->book.book, text_in(data, "fix"));
    tt_outcome outcome = outcome_of_name(text_in(data, "outcome"));
    tt_fix_plan plan;
    if (fix == TT_NONE || outcome > TT_WORSE || tt_fix_show(a->c, fix, &plan) != TT_OK)
        return false;
    bool steps = plan.adjust.step > 0 && outcome != TT_COULD_NOT;
    return sets_the_same(data, steps, plan.adjust.from, plan.adjust.to) &&
           step_tried(a, fix, outcome);
}

static bool replay_put_back(ask *a, const json_t *data)
{
    uint32_t fix = tt_fix_find(a->book.book, text_in(data, "fix"));
    tt_fix_plan plan;
    if (fix == TT_NONE || tt_fix_show(a->c, fix, &plan) != TT_OK) return false;
    bool sets = plan.adjust.reading != TT_NONE;
    return sets_the_same(data, sets, plan.adjust.from, plan.adjust.found) && step_put_back(a, fix);
}

static bool replay_left_so(ask *a, const json_t *data)
{
    uint32_t fix = tt_fix_find(a->book.book, text_in(data, "fix"));
    return fix != TT_NONE && step_left_so(a, fix);
}

static bool replay_file(ask *a, const json_t *data)
{
    const char *text = text_in(data, "text");
    return step_file(a, &(tt_source){.name = text_in(data, "name"),
                                     .bytes = text,
                                     .length = strlen(text)}) == EXIT_DONE;
}

static bool replay_no_complaint(ask *a, const json_t *data)
{
    (void)data;
    step_no_complaint(a);
    return true;
}

static bool replay_back(ask *a, const json_t *data)
{
    (void)data;
    step_back(a);
    return true;
}

/* The records that it says are wrong are left out from the beginning. */
static bool replay_settled(ask *a, const json_t *data)
{
    (void)data;
    step_was_settled(a);
    return true;
}

static const struct {
    const char *kind;
    bool (*replay)(ask *a, const json_t *data);
} replayed[] = {
    {"answer", replay_answer},
    {"complaint", replay_complaint},
    {"no-complaint", replay_no_complaint},
    {"tried", replay_tried},
    {"put-back", replay_put_back},
    {"left", replay_left_so},
    {"answers", replay_file},
    {"back", replay_back},
    {"settle", replay_settled},
};

static void say_what_was_set(ask *a, const json_t *data)
{
    const json_t *set = json_object_get(data, "set");
    if (!json_is_object(set)) return;
    char *was = format_text("It was set from %.10g to %.10g; see how it stands now.",
                            json_number_value(json_object_get(set, "from")),
                            json_number_value(json_object_get(set, "to")));
    turn_add(a->turn, "notes", json_string(was));
    say_item(&a->s, "  ", "%s", was);
    free(was);
}

static void say_left_out(ask *a, const case_record *record)
{
    bool others = case_file_writers(a->file) > 1 && strcmp(case_last_revision(a->file), a->book.revision) == 0;
    say_note(a, others ? "Left out, because it does not fit what others did meanwhile: %s %s%s%s"
                       : "Left out, because the rules no longer know it: %s %s%s%s",
        record->kind,
        text_in(record->data, "question"), text_in(record->data, "symptom"),
        text_in(record->data, "fix"));
    say_what_was_set(a, record->data);
}

/* A record of a kind that is no step is a note, and taken as that. */
static bool is_taken(ask *a, const case_record *record)
{
    for (size_t i = 0; i < sizeof replayed / sizeof replayed[0]; i++)
        if (strcmp(replayed[i].kind, record->kind) == 0)
            return replayed[i].replay(a, record->data);
    return true;
}

static void replay_record(ask *a, const case_record *record)
{
    bool taken = is_taken(a, record);
    if (!taken) step_left_out(a);
    if (a->after_record != NULL)
        a->after_record(a->after_context, a, record, taken);
    else if (!taken)
        say_left_out(a, record);
}

exit_status replay(ask *a)
{
    bool *skipped = case_skips(a->file);
    a->replaying = true;
    for (a->record = 0; a->record < case_file_count(a->file) && a->leaving == STAYING; a->record++)
        if (!skipped[a->record]) replay_record(a, case_file_record(a->file, a->record));
    a->replaying = false;
    free(skipped);
    return a->leaving == LEAVING_FAILED ? a->failure : EXIT_DONE;
}

static void say_nothing_of(void *context, struct ask *a, const case_record *record, bool taken)
{
    (void)context, (void)a, (void)record, (void)taken;
}

void replay_again(ask *a)
{
    record_seen *after = a->after_record;
    tt_case_free(a->c);
    a->c = NULL;
    a->step_count = 0;
    a->question_shown = a->fix_shown = TT_NONE;
    note_failure(a, case_begin_again(a));
    if (a->leaving == LEAVING_FAILED) return;
    a->after_record = say_nothing_of;
    note_failure(a, replay(a));
    a->after_record = after;
}
