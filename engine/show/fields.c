/* Value trees and schemas from tables of fields. */
#include "show/fields.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/str.h"

/* ---- values ---- */

static const char *text_at(const void *thing, size_t at)
{
    return *(const char *const *)((const char *)thing + at);
}

static uint32_t count_at(const void *thing, size_t at)
{
    return *(const uint32_t *)(const void *)((const char *)thing + at);
}

static const void *pointer_at(const void *thing, size_t at)
{
    return *(const void *const *)(const void *)((const char *)thing + at);
}

static tt_value texts_value(arena *keep, const char *const *texts, uint32_t count)
{
    value_builder list = value_list(keep);
    for (uint32_t i = 0; i < count; i++) value_add(&list, value_of_text(texts[i]));
    return value_done(&list);
}

static tt_value things_value(arena *keep, const shape *s, const char *things, uint32_t count)
{
    value_builder list = value_list(keep);
    for (uint32_t i = 0; i < count; i++)
        value_add(&list, shape_value(keep, s, things + i * s->size));
    return value_done(&list);
}

static tt_value maybe_text(const char *text)
{
    return text != NULL && *text != 0 ? value_of_text(text) : value_null;
}

static double double_at(const void *thing, size_t at)
{
    return *(const double *)(const void *)((const char *)thing + at);
}

static uint64_t tally_at(const void *thing, size_t at)
{
    return *(const uint64_t *)(const void *)((const char *)thing + at);
}

static tt_value number_of(const field *f, const void *thing)
{
    const bool told = f->least == 0 || tally_at(thing, f->count_at) >= f->least;
    return told ? value_of_measure(double_at(thing, f->at)) : value_null;
}

static tt_value tally_value(uint64_t tally)
{
    assert((double)tally <= VALUE_WHOLE_MOST);
    return value_of_number((double)tally);
}

static tt_value field_value(arena *keep, const field *f, const void *thing)
{
    const char *place = (const char *)thing + f->at;
    switch (f->type) {
    case FIELD_TEXT:
        return f->need == ALWAYS ? value_of_text(text_at(thing, f->at))
                                 : maybe_text(text_at(thing, f->at));
    case FIELD_MAYBE:
        return maybe_text(text_at(thing, f->at));
    case FIELD_COUNT:
        return value_of_number(count_at(thing, f->at));
    case FIELD_TALLY:
        return tally_value(tally_at(thing, f->at));
    case FIELD_WHOLE:
        return value_of_number(double_at(thing, f->at));
    case FIELD_NUMBER:
    case FIELD_FIGURE:
        return number_of(f, thing);
    case FIELD_TRUTH:
        return value_of_bool(*(const bool *)(const void *)place);
    case FIELD_TEXTS:
        return texts_value(keep, pointer_at(thing, f->at), count_at(thing, f->count_at));
    case FIELD_LIST:
        return things_value(keep, f->of, pointer_at(thing, f->at), count_at(thing, f->count_at));
    case FIELD_ONE:
        return pointer_at(thing, f->at) != NULL ? shape_value(keep, f->of, pointer_at(thing, f->at))
                                                : value_null;
    case FIELD_THERE:
        return shape_value(keep, f->of, pointer_at(thing, f->at));
    case FIELD_PART:
        return shape_value(keep, f->of, place);
    case FIELD_ANSWER:
        return *(const tt_value *)(const void *)place;
    }
    assert(false);
    return value_null;
}

static bool is_nothing(const field *f, const tt_value *v)
{
    const bool empty_list = v->kind == TT_VALUE_LIST && v->count == 0,
               zero = f->type == FIELD_COUNT && v->number == 0;
    return v->kind == TT_VALUE_NULL || empty_list || zero ||
           (v->kind == TT_VALUE_BOOL && !v->truth);
}

tt_value shape_value(arena *keep, const shape *s, const void *thing)
{
    assert(s != NULL && thing != NULL);
    value_builder map = value_map(keep);
    for (uint32_t i = 0; i < s->count; i++) {
        const field *f = &s->fields[i];
        const tt_value v = field_value(keep, f, thing);
        assert(f->type != FIELD_TEXT || f->need == IF_ANY || v.kind == TT_VALUE_TEXT);
        assert(f->type != FIELD_FIGURE || v.kind == TT_VALUE_NUMBER);
        assert(f->only == 0 || v.number == f->only);
        if (f->need == ALWAYS || !is_nothing(f, &v)) value_put(&map, f->name, v);
    }
    return value_done(&map);
}

/* ---- schemas ---- */

static tt_value types(arena *keep, const char *one, const char *other)
{
    value_builder list = value_list(keep);
    value_add(&list, value_of_text(one));
    value_add(&list, value_of_text(other));
    return value_done(&list);
}

static bool is_defined(const value_builder *definitions, const char *name)
{
    for (uint32_t i = 0; i < definitions->count; i++)
        if (strcmp(definitions->keys[i], name) == 0) return true;
    return false;
}

/* Its place is taken before its fields are looked at, so that one shape may stand within itself. */
tt_value shape_reference(arena *keep, const shape *s, value_builder *definitions)
{
    if (!is_defined(definitions, s->name)) {
        const uint32_t at = definitions->count;
        value_put(definitions, s->name, value_null);
        const tt_value schema = shape_schema(keep, s, definitions); /* which may move the items */
        definitions->items[at] = schema;
    }
    value_builder map = value_map(keep);
    value_put_text(&map, "$ref", str_printf(keep, "#/definitions/%s", s->name).p);
    return value_done(&map);
}

static tt_value only_type(arena *keep, const char *type)
{
    value_builder map = value_map(keep);
    value_put_text(&map, "type", type);
    return value_done(&map);
}

static tt_value names_value(arena *keep, const field *f)
{
    value_builder list = value_list(keep);
    for (uint32_t i = 0; i < f->among->count; i++)
        value_add(&list, value_of_text(f->among->items[i]));
    if (f->type == FIELD_MAYBE) value_add(&list, value_null);
    return value_done(&list);
}

static void put_text_type(arena *keep, value_builder *map, const field *f)
{
    if (f->among != NULL)
        value_put(map, "enum", names_value(keep, f));
    else if (f->type == FIELD_MAYBE)
        value_put(map, "type", types(keep, "string", "null"));
    else
        value_put_text(map, "type", "string");
    value_put_some(map, "pattern", f->pattern);
}

static void put_count_type(value_builder *map, const field *f)
{
    value_put_text(map, "type", "integer");
    if (f->only != 0)
        value_put_number(map, "const", f->only);
    else
        value_put_number(map, "minimum", f->need == IF_ANY ? 1 : 0);
}

static void put_number_type(arena *keep, value_builder *map, const field *f)
{
    if (f->type == FIELD_FIGURE)
        value_put_text(map, "type", "number");
    else
        value_put(map, "type", types(keep, f->type == FIELD_WHOLE ? "integer" : "number", "null"));
    if (f->range != ANY_NUMBER) value_put_number(map, "minimum", 0);
    if (f->range == ZERO_TO_ONE) value_put_number(map, "maximum", 1);
}

/* What is null or a thing. */
static void put_thing_type(arena *keep, value_builder *map, const field *f,
                           value_builder *definitions)
{
    value_builder either = value_list(keep);
    value_add(&either, shape_reference(keep, f->of, definitions));
    if (f->need == ALWAYS && f->type == FIELD_ONE) value_add(&either, only_type(keep, "null"));
    value_put(map, "anyOf", value_done(&either));
}

static void put_list_type(arena *keep, value_builder *map, const field *f,
                          value_builder *definitions)
{
    value_put_text(map, "type", "array");
    value_put(map, "items",
              f->type == FIELD_LIST ? shape_reference(keep, f->of, definitions)
                                    : only_type(keep, "string"));
}

static void put_type(arena *keep, value_builder *map, const field *f, value_builder *definitions)
{
    switch (f->type) {
    case FIELD_TEXT:
    case FIELD_MAYBE:
        put_text_type(keep, map, f);
        return;
    case FIELD_COUNT:
    case FIELD_TALLY:
        put_count_type(map, f);
        return;
    case FIELD_WHOLE:
    case FIELD_NUMBER:
    case FIELD_FIGURE:
        put_number_type(keep, map, f);
        return;
    case FIELD_TRUTH:
        value_put_text(map, "type", "boolean");
        return;
    case FIELD_ANSWER:
        value_put(map, "type", types(keep, "string", "number"));
        return;
    case FIELD_TEXTS:
    case FIELD_LIST:
        put_list_type(keep, map, f, definitions);
        return;
    case FIELD_ONE:
    case FIELD_THERE:
    case FIELD_PART:
        put_thing_type(keep, map, f, definitions);
        return;
    }
    assert(false);
}

static tt_value field_schema(arena *keep, const field *f, value_builder *definitions)
{
    value_builder map = value_map(keep);
    const bool later = f->since > 1;
    if (*f->doc != 0 || later) {
        const char *when =
            later ? str_printf(keep, "%sSince version %u.", *f->doc != 0 ? " " : "", f->since).p
                  : "";
        value_put_text(&map, "description", str_printf(keep, "%s%s", f->doc, when).p);
    }
    put_type(keep, &map, f, definitions);
    return value_done(&map);
}

tt_value shape_schema(arena *keep, const shape *s, value_builder *definitions)
{
    value_builder map = value_map(keep), properties = value_map(keep), required = value_list(keep);
    for (uint32_t i = 0; i < s->count; i++) {
        value_put(&properties, s->fields[i].name, field_schema(keep, &s->fields[i], definitions));
        if (s->fields[i].need == ALWAYS) value_add(&required, value_of_text(s->fields[i].name));
    }
    value_put_some(&map, "description", s->doc);
    value_put_text(&map, "type", "object");
    value_put(&map, "properties", value_done(&properties));
    if (required.count > 0) value_put(&map, "required", value_done(&required));
    return value_done(&map);
}

value_builder schema_head(arena *keep, const char *title, const char *doc)
{
    assert(*title != 0 && *doc != 0);
    value_builder schema = value_map(keep);
    value_put_text(&schema, "$schema", "http://json-schema.org/draft-07/schema#");
    value_put_text(&schema, "title", title);
    value_put_text(&schema, "description", doc);
    return schema;
}

tt_value whole_schema(arena *keep, const shape *s, const char *title, const char *doc)
{
    value_builder definitions = value_map(keep), schema = schema_head(keep, title, doc);
    const tt_value whole = shape_schema(keep, s, &definitions);
    for (uint32_t i = 0; i < whole.count; i++) value_put(&schema, whole.keys[i], whole.items[i]);
    value_put(&schema, "definitions", value_done(&definitions));
    return value_done(&schema);
}
