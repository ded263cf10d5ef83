/* Building, looking up and comparing value trees. */
#include "base/value.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/grow.h"
#include "base/sorted.h"

const tt_value value_null = {.kind = TT_VALUE_NULL};
const tt_value value_no = {.kind = TT_VALUE_BOOL};
const tt_value value_yes = {.kind = TT_VALUE_BOOL, .truth = true};

tt_value value_of_bool(bool truth)
{
    return truth ? value_yes : value_no;
}

tt_value value_of_number(double number)
{
    if (!isfinite(number)) return value_null;
    return (tt_value){.kind = TT_VALUE_NUMBER, .number = number + 0.0};
}

tt_value value_of_measure(double number)
{
    tt_value v = value_of_number(number);
    v.truth = v.kind == TT_VALUE_NUMBER;
    return v;
}

tt_value value_of_text(const char *text)
{
    if (text == NULL) return value_null;
    return (tt_value){.kind = TT_VALUE_TEXT, .text = text};
}

tt_value value_of_str(arena *keep, str text)
{
    return value_of_text(str_copy(keep, text).p);
}

/* ---- builders ---- */

value_builder value_list(arena *keep)
{
    return (value_builder){.keep = keep, .kind = TT_VALUE_LIST};
}

value_builder value_map(arena *keep)
{
    return (value_builder){.keep = keep, .kind = TT_VALUE_MAP};
}

static void make_room(value_builder *b)
{
    enum { AT_FIRST = 2 }; /* most have no more */
    if (b->room == 0) {
        if (b->kind == TT_VALUE_MAP) b->keys = ARENA_ARRAY(b->keep, const char *, AT_FIRST);
        b->items = ARENA_ARRAY(b->keep, tt_value, AT_FIRST);
        b->room = AT_FIRST;
        return;
    }
    uint32_t keys_room = b->room; /* as that of the items */
    if (b->kind == TT_VALUE_MAP) GROW(b->keep, b->keys, b->count, keys_room);
    GROW(b->keep, b->items, b->count, b->room);
    assert(b->kind != TT_VALUE_MAP || keys_room == b->room);
}

static void append(value_builder *b, const char *key, tt_value item)
{
    make_room(b);
    b->items[b->count] = item;
    if (key != NULL) b->keys[b->count] = key;
    b->count++;
}

void value_add(value_builder *list, tt_value item)
{
    assert(list->kind == TT_VALUE_LIST);
    append(list, NULL, item);
}

void value_put(value_builder *map, const char *key, tt_value item)
{
    assert(map->kind == TT_VALUE_MAP && key != NULL);
    enum { LOOKED_AT = 50 }; /* the last ones: a map of very many is made of names that differ */
    for (uint32_t i = map->count > LOOKED_AT ? map->count - LOOKED_AT : 0; i < map->count; i++)
        assert(strcmp(map->keys[i], key) != 0);
    append(map, key, item);
}

void value_put_text(value_builder *map, const char *key, const char *text)
{
    value_put(map, key, value_of_text(text));
}

void value_put_some(value_builder *map, const char *key, const char *text)
{
    if (text != NULL && *text != '\0') value_put_text(map, key, text);
}

void value_put_number(value_builder *map, const char *key, double number)
{
    value_put(map, key, value_of_number(number));
}

void value_put_bool(value_builder *map, const char *key, bool truth)
{
    value_put(map, key, value_of_bool(truth));
}

tt_value value_done(const value_builder *b)
{
    assert(b->count <= b->room);
    return (tt_value){.kind = b->kind, .count = b->count, .items = b->items, .keys = b->keys};
}

const tt_value *value_keep(const value_builder *b)
{
    tt_value *kept = ARENA_NEW(b->keep, tt_value);
    *kept = value_done(b);
    return kept;
}

tt_value value_copy(arena *keep, const tt_value *v)
{
    assert(v != NULL);
    tt_value copy = *v;
    if (v->text != NULL) copy.text = str_copy(keep, str_of(v->text)).p;
    if (v->count == 0) return copy;
    tt_value *items = ARENA_ARRAY(keep, tt_value, v->count);
    const char **keys = v->keys != NULL ? ARENA_ARRAY(keep, const char *, v->count) : NULL;
    for (uint32_t i = 0; i < v->count; i++) {
        items[i] = value_copy(keep, &v->items[i]);
        if (keys != NULL) keys[i] = str_copy(keep, str_of(v->keys[i])).p;
    }
    copy.items = items;
    copy.keys = keys;
    return copy;
}

/* ---- looking ---- */

bool value_is(const tt_value *v, tt_value_kind kind)
{
    return v != NULL && v->kind == kind;
}

const tt_value *value_get(const tt_value *map, const char *key)
{
    if (!value_is(map, TT_VALUE_MAP)) return NULL;
    for (uint32_t i = 0; i < map->count; i++)
        if (map->keys[i][0] == key[0] && strcmp(map->keys[i], key) == 0) return &map->items[i];
    return NULL;
}

const char *value_text(const tt_value *map, const char *key)
{
    const tt_value *found = value_get(map, key);
    return value_is(found, TT_VALUE_TEXT) ? found->text : NULL;
}

bool value_number(const tt_value *map, const char *key, double *number)
{
    const tt_value *found = value_get(map, key);
    if (!value_is(found, TT_VALUE_NUMBER)) return false;
    *number = found->number;
    return true;
}

bool value_as_counter(const tt_value *v, uint64_t *number)
{
    double found = value_is(v, TT_VALUE_NUMBER) ? v->number : -1;
    if (!(found >= 0 && found <= VALUE_WHOLE_MOST) || floor(found) < found) return false;
    *number = (uint64_t)found;
    return true;
}

bool value_counter(const tt_value *map, const char *key, uint64_t *number)
{
    return value_as_counter(value_get(map, key), number);
}

bool value_truth(const tt_value *map, const char *key)
{
    const tt_value *found = value_get(map, key);
    return value_is(found, TT_VALUE_BOOL) && found->truth;
}

/* ---- comparing ---- */

/* The value of a key, which most likely stands at the same place in both maps. */
static const tt_value *get_near(const tt_value *map, const char *key, uint32_t place)
{
    if (place < map->count && strcmp(map->keys[place], key) == 0) return &map->items[place];
    return value_get(map, key);
}

bool value_eq(const tt_value *a, const tt_value *b)
{
    return value_compare(a, b) == 0;
}

/* Two maps of as many keys: the one with the smallest key that the other lacks, or has with another
 * value. */
static int compare_maps(const tt_value *a, const tt_value *b)
{
    const char *least = NULL;
    for (uint32_t i = 0; i < a->count; i++) {
        const tt_value *other = get_near(b, a->keys[i], i);
        bool same = other != NULL && value_compare(&a->items[i], other) == 0;
        if (!same && (least == NULL || strcmp(a->keys[i], least) < 0)) least = a->keys[i];
    }
    for (uint32_t i = 0; i < b->count; i++)
        if (get_near(a, b->keys[i], i) == NULL && (least == NULL || strcmp(b->keys[i], least) < 0))
            least = b->keys[i];
    if (least == NULL) return 0;
    const tt_value *of_a = value_get(a, least), *of_b = value_get(b, least);
    return of_a == NULL ? 1 : of_b == NULL ? -1 : value_compare(of_a, of_b);
}

static int compare_lists(const tt_value *a, const tt_value *b)
{
    int order = 0;
    for (uint32_t i = 0; i < a->count && order == 0; i++)
        order = value_compare(&a->items[i], &b->items[i]);
    return order;
}

int value_compare(const tt_value *a, const tt_value *b)
{
    if (a->kind != b->kind) return a->kind < b->kind ? -1 : 1;
    if (a->count != b->count) return a->count < b->count ? -1 : 1;
    assert((a->keys != NULL) == (b->keys != NULL) || a->count == 0);
    switch (a->kind) {
    case TT_VALUE_NULL:
        return 0;
    case TT_VALUE_BOOL:
        return (int)a->truth - (int)b->truth;
    case TT_VALUE_NUMBER:
        return (a->number > b->number) - (a->number < b->number);
    case TT_VALUE_TEXT:
        return strcmp(a->text, b->text);
    case TT_VALUE_LIST:
        return compare_lists(a, b);
    case TT_VALUE_MAP:
        return compare_maps(a, b);
    }
    assert(!"a value has one of six kinds");
    return 0;
}
