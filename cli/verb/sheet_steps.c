/* The history on a sheet. */
#include "host/json_parts.h"
#include "host/plain_text.h"
#include "verb/sheet_case.h"

static json_t *clean_or_null(const char *text)
{
    return *text != 0 ? clean_json(text) : json_null();
}

static json_t *step_json(const tt_told *told)
{
    json_t *item = json_object();
    json_object_set_new(item, "time", clean_json(told->record->time));
    json_object_set_new(item, "by", clean_json(told->person));
    json_object_set_new(item, "writer", clean_json(told->record->writer));
    json_object_set_new(item, "kind", clean_json(told->record->kind));
    json_object_set_new(item, "about", clean_or_null(told->about));
    json_object_set_new(item, "text", clean_json(told->text));
    json_object_set_new(item, "result", clean_json(told->result));
    json_object_set_new(item, "typed", clean_json(told->typed));
    json_object_set_new(item, "setting", clean_or_null(told->setting));
    json_object_set_new(item, "from", clean_or_null(told->from));
    json_object_set_new(item, "to", clean_or_null(told->to));
    json_object_set_new(item, "taken_back", json_boolean(told->taken_back));
    json_object_set_new(item, "left_out", json_boolean(told->left_out));
    return item;
}

json_t *sheet_steps_json(const tt_history *history)
{
    json_t *all = json_array();
    for (uint32_t i = 0; i < history->count; i++)
        json_array_append_new(all, step_json(&history->items[i]));
    return all;
}

json_t *sheet_cautions_json(const tt_history *history)
{
    json_t *all = json_array();
    for (uint32_t i = 0; i < history->caution_count; i++) {
        const tt_told_caution *caution = &history->cautions[i];
        json_t *item = json_object();
        json_object_set_new(item, "signal", clean_or_null(caution->signal));
        json_object_set_new(item, "text", clean_json(caution->text));
        json_object_set_new(item, "time", clean_json(caution->time));
        json_array_append_new(all, item);
    }
    return all;
}
