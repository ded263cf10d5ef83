/* The history on a sheet: each record in words while it is replayed, for only then the engine knows
 * what it meant. */
#include <stdlib.h>
#include <string.h>

#include "ask/sheet_case.h"
#include "face/sheet.h"
#include "face/wordings.h"
#include "host/case_people.h"
#include "host/case_skips.h"
#include "host/json_parts.h"
#include "host/plain_text.h"

sheet_steps sheet_steps_begin(void)
{
    return (sheet_steps){.items = json_array(), .cautions = json_array()};
}

void sheet_steps_end(sheet_steps *steps)
{
    json_decref(steps->items);
    json_decref(steps->cautions);
    free(steps->records);
    free(steps->complaints);
}

/* ---- one record in words: what it is about, and what was said of it ---- */

static void set(json_t *item, const char *text, const char *result)
{
    json_object_set_new(item, "text", clean_json(text));
    json_object_set_new(item, "result", clean_json(result));
}

/* `counts`: it was replayed, so the engine says it best. */
static void describe_answer(ask *a, const json_t *data, bool counts, json_t *item)
{
    uint32_t question = tt_question_find(a->book.book, sheet_text(data, "question"));
    tt_question shown;
    const tt_view *view;
    bool known = question != TT_NONE && tt_question_show(a->c, question, &shown) == TT_OK;
    char *said = answer_said(a, data);
    json_object_set_new(item, "about", clean_json(sheet_text(data, "question")));
    set(item, known ? shown.ask : sheet_text(data, "question"), said);
    free(said);
    if (!known || !counts || tt_look(a->c, &view) != TT_OK) return;
    for (uint32_t i = 0; i < view->fact_count; i++)
        if (view->facts[i].question == question)
            json_object_set_new(item, "result", clean_json(view->facts[i].text));
}

static const char *complaint_words(const sheet_steps *steps, const char *name)
{
    for (uint32_t i = 0; i < steps->complaint_count; i++)
        if (strcmp(steps->complaints[i].name, name) == 0) return steps->complaints[i].text;
    return name;
}

static const char *piece_words(const tt_book *book, const char *name)
{
    for (uint32_t i = 0; i < tt_piece_count(book); i++)
        if (strcmp(tt_piece_show(book, i).name, name) == 0) return tt_piece_show(book, i).text;
    return name;
}

static char *pieces_words(const tt_book *book, const json_t *at)
{
    char *all = copy_text("");
    for (size_t i = 0; i < json_array_size(at); i++) {
        const char *name = json_string_value(json_array_get(at, i));
        char *longer = format_text("%s%s%s", all, *all != 0 ? ", " : "",
                                   piece_words(book, name != NULL ? name : ""));
        free(all);
        all = longer;
    }
    return all;
}

static void describe_complaint(sheet_steps *steps, ask *a, const json_t *data, json_t *item)
{
    if (steps->complaints == NULL &&
        tt_complaints(a->book.book, &steps->complaints, &steps->complaint_count) != TT_OK)
        steps->complaint_count = 0;
    char *where = pieces_words(a->book.book, json_object_get(data, "at"));
    char *what = format_text("%s%s%s", complaint_words(steps, sheet_text(data, "symptom")),
                             *where != 0 ? ": " : "", where);
    json_object_set_new(item, "about", clean_json(sheet_text(data, "symptom")));
    set(item, "What is wrong", what);
    free(what);
    free(where);
}

static json_t *setting_json(ask *a, uint32_t reading, const json_t *number)
{
    const char *words;
    if (!json_is_number(number)) return json_null();
    if (tt_reading_text(a->c, reading, json_number_value(number), &words) != TT_OK)
        return json_null();
    return clean_json(words);
}

/* From what to what it was set, and what that is. */
static void describe_setting(ask *a, uint32_t reading, const json_t *set_to, json_t *item)
{
    tt_question question;
    if (!json_is_object(set_to) || reading == TT_NONE ||
        tt_question_show(a->c, reading, &question) != TT_OK)
        return;
    json_object_set_new(item, "setting", clean_json(question.ask));
    json_object_set_new(item, "from", setting_json(a, reading, json_object_get(set_to, "from")));
    json_object_set_new(item, "to", setting_json(a, reading, json_object_get(set_to, "to")));
}

static void describe_fix(ask *a, const json_t *data, json_t *item, const char *result)
{
    const char *name = sheet_text(data, "fix");
    uint32_t fix = tt_fix_find(a->book.book, name);
    tt_fix_plan plan;
    json_object_set_new(item, "about", clean_json(name));
    bool known = fix != TT_NONE && tt_fix_show(a->c, fix, &plan) == TT_OK;
    uint32_t reading = known ? plan.adjust.reading : TT_NONE;
    set(item, known ? plan.text : name, result);
    describe_setting(a, reading, json_object_get(data, "set"), item);
}

static const char *outcome_said(const json_t *data)
{
    tt_outcome outcome = outcome_of_name(sheet_text(data, "outcome"));
    return outcome <= TT_WORSE ? outcome_words(outcome) : sheet_text(data, "outcome");
}

static const char *how_words(const char *how)
{
    static const struct {
        const char *how, *words;
    } all[] = {
        {"gone", "the trouble is gone"},
        {"call", "somebody else goes on"},
        {"stop", "stopped for danger"},
        {"yes", "yes"},
        {"other", "no, it was another one"},
        {"not-listed", "no, something that these rules don't list"},
        {"unsure", "not sure"},
    };
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (strcmp(all[i].how, how) == 0) return all[i].words;
    return how;
}

static const char *cause_text(ask *a, const char *name)
{
    const tt_view *view;
    if (tt_look(a->c, &view) != TT_OK) return name;
    for (uint32_t i = 0; i < view->cause_count; i++)
        if (view->causes[i].name != NULL && strcmp(view->causes[i].name, name) == 0)
            return view->causes[i].text;
    return name;
}

static const char *confirm_words(ask *a, const json_t *data)
{
    bool names =
        strcmp(sheet_text(data, "how"), "not-listed") != 0 && *sheet_text(data, "cause") != 0;
    return names ? cause_text(a, sheet_text(data, "cause")) : how_words(sheet_text(data, "how"));
}

static void describe_note(ask *a, const case_record *record, json_t *item)
{
    char *words = record_words(a, record);
    if (*words >= 'a' && *words <= 'z') *words = (char)(*words - 'a' + 'A');
    set(item, words,
        strcmp(record->kind, "close") == 0 ? how_words(sheet_text(record->data, "how")) : "");
    free(words);
}

static void describe(sheet_steps *steps, ask *a, const case_record *record, bool counts,
                     json_t *item)
{
    const char *kind = record->kind;
    json_object_set_new(item, "about", json_null());
    if (strcmp(kind, "answer") == 0)
        describe_answer(a, record->data, counts, item);
    else if (strcmp(kind, "complaint") == 0)
        describe_complaint(steps, a, record->data, item);
    else if (strcmp(kind, "tried") == 0)
        describe_fix(a, record->data, item, outcome_said(record->data));
    else if (strcmp(kind, "put-back") == 0)
        describe_fix(a, record->data, item, "put back");
    else if (strcmp(kind, "left") == 0)
        describe_fix(a, record->data, item, "left as it is now");
    else if (strcmp(kind, "confirm") == 0)
        set(item, "Was that the cause?", confirm_words(a, record->data));
    else if (strcmp(kind, "no-complaint") == 0)
        set(item, "What is wrong", "none of the list");
    else if (strcmp(kind, "answers") == 0)
        set(item, "Answers came in a file", sheet_text(record->data, "name"));
    else
        describe_note(a, record, item);
}

/* ---- all records ---- */

static json_t *new_item(ask *a, const case_record *record, bool taken)
{
    const char *said = json_string_value(json_object_get(record->data, "said"));
    const char *typed = json_string_value(json_object_get(record->data, "typed"));
    json_t *item = json_object();
    json_object_set_new(item, "time", clean_json(record->time));
    json_object_set_new(item, "by", clean_json(case_record_person(a->file, record)));
    json_object_set_new(item, "writer", clean_json(record->writer));
    json_object_set_new(item, "kind", clean_json(record->kind));
    json_object_set_new(item, "typed",
                        clean_json(said != NULL    ? said
                                   : typed != NULL ? typed
                                                   : ""));
    json_object_set_new(item, "setting", json_null());
    json_object_set_new(item, "from", json_null());
    json_object_set_new(item, "to", json_null());
    json_object_set_new(item, "taken_back", json_false());
    json_object_set_new(item, "left_out", json_boolean(!taken));
    return item;
}

static void add_item(sheet_steps *steps, ask *a, size_t index, bool counts, bool taken)
{
    const case_record *record = case_file_record(a->file, index);
    if (strcmp(record->kind, "back") == 0) return;
    json_t *item = new_item(a, record, taken);
    describe(steps, a, record, counts, item);
    size_t count = json_array_size(steps->items);
    steps->records = room_for_one(steps->records, count, sizeof *steps->records);
    steps->records[count] = index;
    json_array_append_new(steps->items, item);
}

/* Those before this one that were not replayed. */
static void add_skipped(sheet_steps *steps, ask *a, size_t upto)
{
    while (steps->next < upto) add_item(steps, a, steps->next++, false, true);
}

static bool is_told(const json_t *cautions, const json_t *text)
{
    for (size_t i = 0; i < json_array_size(cautions); i++)
        if (json_equal(json_object_get(json_array_get(cautions, i), "text"), text)) return true;
    return false;
}

static void note_caution(const sheet_steps *steps, const char *signal, const char *words,
                         const char *time)
{
    json_t *text = clean_json(words);
    if (!is_told(steps->cautions, text)) {
        json_t *caution = json_object();
        json_object_set_new(caution, "signal", clean_json(signal));
        json_object_set(caution, "text", text);
        json_object_set_new(caution, "time", clean_json(time));
        json_array_append_new(steps->cautions, caution);
    }
    json_decref(text);
}

/* Those of the book are shown at the beginning, with no signal word before them. */
static void note_cautions(const sheet_steps *steps, ask *a, const case_record *record)
{
    tt_book_info info = tt_book_describe(a->book.book);
    const tt_view *view;
    for (uint32_t i = 0; strcmp(record->kind, "begin") == 0 && i < info.caution_count; i++)
        note_caution(steps, NULL, info.cautions[i], record->time);
    if (tt_look(a->c, &view) != TT_OK) return;
    for (uint32_t i = 0; i < view->caution_count; i++)
        note_caution(steps, view->cautions[i].signal, view->cautions[i].text, record->time);
}

void sheet_record_seen(void *context, ask *a, const case_record *record, bool taken)
{
    sheet_steps *steps = context;
    add_skipped(steps, a, a->record);
    add_item(steps, a, steps->next++, true, taken);
    note_cautions(steps, a, record);
}

static bool still_stands(const ask *a, size_t record)
{
    for (size_t i = 0; i < a->step_count; i++)
        if (a->steps[i].record == record) return true;
    return false;
}

void sheet_steps_finish(sheet_steps *steps, ask *a)
{
    add_skipped(steps, a, case_file_count(a->file));
    for (size_t i = 0; i < json_array_size(steps->items); i++) {
        size_t record = steps->records[i];
        if (is_case_step(case_file_record(a->file, record)->kind) && !still_stands(a, record))
            json_object_set_new(json_array_get(steps->items, i), "taken_back", json_true());
    }
}
