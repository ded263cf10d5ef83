#include "face/standing_json.h"

#include "face/wordings.h"
#include "host/json_parts.h"

json_t *fact_json(const tt_fact *fact)
{
    json_t *item = json_object();
    json_object_set_new(item, "name", json_string(fact->name));
    json_object_set_new(item, "value",
                        fact->is_number ? number_json(fact->number) : json_string(fact->value));
    json_object_set_new(item, "unit", text_or_null(fact->unit));
    json_object_set_new(item, "from", json_string(fact->from));
    if (fact->source != NULL && *fact->source != 0)
        json_object_set_new(item, "source", json_string(fact->source));
    json_object_set_new(item, "at", text_or_null(fact->at));
    return item;
}

json_t *cause_json(const tt_cause *cause)
{
    json_t *item = json_object();
    json_object_set_new(item, "name", text_or_null(cause->name));
    json_object_set_new(item, "text", json_string(cause_words(cause)));
    json_object_set_new(item, "chance", number_json(cause->chance));
    return item;
}

json_t *fix_json(const tt_fix *fix)
{
    json_t *item = json_object();
    json_object_set_new(item, "name", json_string(fix->name));
    json_object_set_new(item, "text", json_string(fix->text));
    json_object_set_new(item, "risk", json_string(fix->risk));
    json_object_set_new(item, "chance", number_json(fix->chance));
    json_object_set_new(item, "minutes", number_json(fix->minutes));
    json_object_set_new(item, "role", json_string(fix->role));
    json_object_set_new(item, "standing", json_string(standing_words(fix->standing)));
    json_object_set_new(item, "held", json_boolean(fix->held));
    return item;
}

json_t *caution_json(const tt_caution *caution)
{
    json_t *item = json_object();
    json_object_set_new(item, "signal", json_string(caution->signal));
    json_object_set_new(item, "text", json_string(caution->text));
    return item;
}

json_t *focus_json(const tt_book *book, const tt_view *view)
{
    json_t *pieces = json_array();
    for (uint32_t i = 0; i < view->focus_count; i++)
        json_array_append_new(pieces, json_string(tt_piece_show(book, view->focus[i]).name));
    return pieces;
}
