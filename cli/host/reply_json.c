#include "host/reply_json.h"

#include <assert.h>
#include <string.h>

static const char *const kind_names[] = {
    [TT_UNSURE] = "unsure", [TT_CANNOT] = "cannot", [TT_ANSWER] = "answer",
    [TT_NUMBER] = "number", [TT_NOT] = "not",       [TT_LIKELY] = "likely"};

json_t *reply_to_json(const tt_question *question, const tt_reply *reply)
{
    assert(reply->kind <= TT_LIKELY);
    json_t *json = json_object(), *names = json_array(), *weights = json_object();
    json_object_set_new(json, "kind", json_string(kind_names[reply->kind]));
    for (uint32_t i = 0; i < question->option_count; i++) {
        const char *name = question->options[i].name;
        if (reply->kind == TT_NOT && (reply->not_options >> i & 1) != 0)
            json_array_append_new(names, json_string(name));
        if (reply->kind == TT_LIKELY)
            json_object_set_new(weights, name, json_real(reply->weights[i]));
    }
    if (reply->kind == TT_ANSWER) {
        assert(reply->option < question->option_count);
        json_object_set_new(json, "option", json_string(question->options[reply->option].name));
    }
    if (reply->kind == TT_NUMBER) json_object_set_new(json, "number", json_real(reply->number));
    if (reply->kind == TT_NUMBER && reply->unit != NULL)
        json_object_set_new(json, "unit", json_string(reply->unit));
    if (reply->kind == TT_NOT) json_object_set(json, "options", names);
    if (reply->kind == TT_LIKELY) json_object_set(json, "weights", weights);
    json_decref(names);
    json_decref(weights);
    return json;
}

static uint32_t option_named(const tt_question *question, const char *name)
{
    if (name == NULL) return TT_NONE;
    for (uint32_t i = 0; i < question->option_count; i++)
        if (strcmp(question->options[i].name, name) == 0) return i;
    return TT_NONE;
}

static bool read_not(const tt_question *question, const json_t *names, tt_reply *reply)
{
    for (size_t i = 0; i < json_array_size(names); i++) {
        uint32_t option = option_named(question, json_string_value(json_array_get(names, i)));
        if (option >= 64) return false;
        reply->not_options |= UINT64_C(1) << option;
    }
    return reply->not_options != 0;
}

static bool read_likely(const tt_question *question, const json_t *given, double *weights,
                        tt_reply *reply)
{
    for (uint32_t i = 0; i < question->option_count; i++)
        weights[i] = json_number_value(json_object_get(given, question->options[i].name));
    reply->weights = weights;
    return json_object_size(given) > 0;
}

bool reply_of_json(const tt_question *question, const json_t *json, double *weights,
                   tt_reply *reply)
{
    const char *kind = json_string_value(json_object_get(json, "kind"));
    *reply = (tt_reply){.kind = TT_UNSURE};
    if (kind == NULL) return false;
    unsigned which = 0;
    while (which <= TT_LIKELY && strcmp(kind_names[which], kind) != 0) which++;
    reply->kind = (tt_reply_kind)which;
    switch (reply->kind) {
    case TT_UNSURE:
    case TT_CANNOT:
        return true;
    case TT_ANSWER:
        reply->option = option_named(question, json_string_value(json_object_get(json, "option")));
        return reply->option != TT_NONE;
    case TT_NUMBER:
        reply->number = json_number_value(json_object_get(json, "number"));
        reply->unit = json_string_value(json_object_get(json, "unit"));
        return json_is_number(json_object_get(json, "number"));
    case TT_NOT:
        return read_not(question, json_object_get(json, "options"), reply);
    case TT_LIKELY:
        return read_likely(question, json_object_get(json, "weights"), weights, reply);
    }
    return false;
}
