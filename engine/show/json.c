/* JSON by way of jansson, which reads strictly. It must not be jumped through: what is made while
 * its tree is alive is taken with arena_try. Writing needs no tree of jansson's, and is done here.
 */
#include "show/json.h"

#include <assert.h>
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- looking over the text first: how deep and how much, before anything is made of it ---- */

typedef struct survey {
    uint32_t line, column, depth, values;
    bool in_text, escaped;
    const char *wrong; /* or null */
} survey;

static void survey_structure(survey *s, char c)
{
    if (c == '"') s->in_text = true;
    if (c == '[' || c == '{') s->depth++;
    if ((c == ']' || c == '}') && s->depth > 0) s->depth--;
    if (c == '[' || c == '{' || c == ',') s->values++;
    if (s->depth > JSON_DEEPEST)
        s->wrong = "lists and maps are nested more than 64 deep; write it flatter";
    if (s->values > JSON_MOST_VALUES)
        s->wrong = "there are more than 262144 values in it; write less at once";
}

static void survey_byte(survey *s, char c)
{
    if (s->escaped)
        s->escaped = false;
    else if (s->in_text && c == '\\')
        s->escaped = true;
    else if (s->in_text && c == '"')
        s->in_text = false;
    else if (!s->in_text)
        survey_structure(s, c);
}

static void survey_place(survey *s, char c)
{
    bool continues = ((unsigned char)c & 0xC0) == 0x80;
    if (c == '\n')
        s->line++, s->column = 0;
    else if (!continues)
        s->column++;
}

static bool survey_text(arena *keep, str text, json_fault *fault)
{
    survey s = {.line = 1};
    for (size_t i = 0; i < text.n && s.wrong == NULL; i++) {
        survey_place(&s, text.p[i]);
        survey_byte(&s, text.p[i]);
    }
    if (s.wrong == NULL) return true;
    *fault = (json_fault){s.line, s.column, str_copy(keep, str_of(s.wrong))};
    return false;
}

/* ---- what jansson refused ---- */

static const char *refusal(const json_error_t *error)
{
    switch (json_error_code(error)) {
    case json_error_premature_end_of_input:
        return "the text ends too soon: a quote, bracket or brace is not closed";
    case json_error_end_of_input_expected:
        return "the value ended before; leave out what follows it";
    case json_error_invalid_utf8:
        return "these bytes are not UTF-8; write the text in UTF-8";
    case json_error_null_character:
    case json_error_null_byte_in_key:
        return "the character U+0000 can't stand in a text; leave it out";
    case json_error_duplicate_key:
        return "this key stands there already; write each key once";
    case json_error_numeric_overflow:
        return "this number is too large";
    default:
        return "this is not JSON; look for a missing comma, colon or quote before it";
    }
}

static json_t *parsed(str text, json_error_t *error)
{
    return json_loadb(text.n > 0 ? text.p : "", text.n, JSON_REJECT_DUPLICATES | JSON_DECODE_ANY,
                      error);
}

static bool is_memory_left(size_t bytes)
{
    void *some = malloc(bytes);
    free(some);
    return some != NULL;
}

/* Where memory ends for a string jansson says "invalid token", as of a text that is no JSON: that
 * is believed where it says so twice of one place, and there is memory. */
static json_t *parsed_again(arena *keep, str text, json_error_t *error)
{
    json_t *tree;
    int place;
    do {
        place = error->position;
        tree = parsed(text, error);
        if (tree == NULL && !is_memory_left(text.n + 1)) arena_leave(keep);
    } while (tree == NULL && error->position != place);
    return tree;
}

static void say_refusal(arena *keep, const json_error_t *error, json_fault *fault)
{
    if (json_error_code(error) == json_error_out_of_memory || *error->text == '\0')
        arena_leave(keep);
    fault->line = error->line > 0 ? (uint32_t)error->line : 0;
    fault->column = error->column > 0 ? (uint32_t)error->column : 0;
    fault->text = str_of(refusal(error));
}

/* ---- jansson's tree → ours ---- */

typedef struct step { /* where we are in the tree, innermost first */
    const struct step *up;
    const char *key; /* null: an item of a list */
    size_t index;
} step;

typedef struct conversion {
    arena *keep;
    bool full;       /* memory ended */
    bool refused;    /* a number can't be held exactly, */
    char place[160]; /* and where it stands: "data.reading" */
} conversion;

static void *take(conversion *c, size_t count, size_t size)
{
    void *taken = arena_try(c->keep, count * size);
    if (taken == NULL) c->full = true;
    return taken;
}

static const char *copy_text(conversion *c, const char *text)
{
    size_t size = strlen(text) + 1;
    char *copy = take(c, size, 1);
    return copy != NULL ? memcpy(copy, text, size) : NULL;
}

static void name_place(const step *at, char *place, size_t size)
{
    if (at == NULL) return;
    name_place(at->up, place, size);
    size_t used = strlen(place);
    if (at->key != NULL)
        snprintf(place + used, size - used, "%s%s", used > 0 ? "." : "", at->key);
    else
        snprintf(place + used, size - used, "[%zu]", at->index);
}

static tt_value convert_whole(conversion *c, const json_t *from, const step *at)
{
    const json_int_t most = (json_int_t)VALUE_WHOLE_MOST, number = json_integer_value(from);
    if ((number > most || number < -most) && !c->refused) {
        c->refused = true;
        name_place(at, c->place, sizeof c->place);
    }
    return value_of_number((double)number);
}

static tt_value convert(conversion *c, json_t *from, const step *up);

static tt_value convert_list(conversion *c, json_t *from, const step *up)
{
    size_t count = json_array_size(from);
    tt_value *items = take(c, count, sizeof *items);
    for (size_t i = 0; i < count && items != NULL; i++) {
        step at = {up, NULL, i};
        items[i] = convert(c, json_array_get(from, i), &at);
    }
    return (tt_value){.kind = TT_VALUE_LIST, .count = (uint32_t)count, .items = items};
}

static tt_value convert_map(conversion *c, json_t *from, const step *up)
{
    size_t count = json_object_size(from);
    tt_value *items = take(c, count, sizeof *items);
    const char **keys = take(c, count, sizeof *keys);
    uint32_t used = 0;
    const char *key;
    json_t *item;
    json_object_foreach(from, key, item)
    {
        if (items == NULL || keys == NULL || c->full) break;
        step at = {up, key, 0};
        keys[used] = copy_text(c, key);
        items[used++] = convert(c, item, &at);
    }
    return (tt_value){.kind = TT_VALUE_MAP, .count = used, .items = items, .keys = keys};
}

static tt_value convert(conversion *c, json_t *from, const step *up)
{
    switch (json_typeof(from)) {
    case JSON_OBJECT:
        return convert_map(c, from, up);
    case JSON_ARRAY:
        return convert_list(c, from, up);
    case JSON_STRING:
        return value_of_text(copy_text(c, json_string_value(from)));
    case JSON_INTEGER:
        return convert_whole(c, from, up);
    case JSON_REAL:
        return value_of_number(json_real_value(from));
    case JSON_TRUE:
        return value_yes;
    case JSON_FALSE:
        return value_no;
    case JSON_NULL:
        return value_null;
    }
    assert(!"JSON has seven kinds of values");
    return value_null;
}

bool json_read(arena *keep, str text, size_t most, tt_value *out, json_fault *fault)
{
    *fault = (json_fault){.line = 0};
    if (text.n > most) {
        fault->text = str_printf(
            keep, "it has more than %zu bytes, which is the most that is read at once", most);
        return false;
    }
    if (!survey_text(keep, text, fault)) return false;
    json_error_t error;
    json_t *tree = parsed(text, &error);
    if (tree == NULL && json_error_code(&error) == json_error_invalid_syntax)
        tree = parsed_again(keep, text, &error);
    if (tree == NULL) {
        say_refusal(keep, &error, fault);
        return false;
    }
    conversion c = {.keep = keep};
    *out = convert(&c, tree, NULL);
    json_decref(tree);
    if (c.full) arena_leave(keep);
    if (c.refused)
        fault->text = str_printf(keep,
                                 "%s%swhole numbers beyond 9007199254740992 can't be held exactly; "
                                 "write it with an exponent, or as text",
                                 c.place, *c.place != '\0' ? ": " : "");
    return !c.refused;
}

/* ---- ours → text ---- */

static void add_escaped(text_builder *b, unsigned char c)
{
    static const char letters[] = "\b\f\n\r\t\"\\", escapes[] = "bfnrt\"\\";
    const char *found = strchr(letters, c);
    assert(c != '\0');
    if (found != NULL)
        text_addf(b, "\\%c", escapes[found - letters]);
    else
        text_addf(b, "\\u%04X", c);
}

static void add_text(text_builder *b, const char *text)
{
    text_add(b, STR("\""));
    while (*text != '\0') {
        size_t plain = 0;
        while ((unsigned char)text[plain] >= 0x20 && text[plain] != '"' && text[plain] != '\\')
            plain++;
        text_add(b, (str){text, plain});
        text += plain;
        if (*text != '\0') add_escaped(b, (unsigned char)*text++);
    }
    text_add(b, STR("\""));
}

/* printf writes the locale's decimal sign, which may be any character: JSON's is a point. */
static void with_point(char *number)
{
    size_t used = 0;
    for (const char *c = number; *c != '\0'; c++) {
        bool ours = strchr("0123456789+-e", *c) != NULL;
        if (ours)
            number[used++] = *c;
        else if (used > 0 && number[used - 1] != '.')
            number[used++] = '.';
    }
    number[used] = '\0';
}

/* printf writes 1e-07, where 1e-7 says the same. */
static void shorten_exponent(char *number)
{
    char *to = strchr(number, 'e');
    if (to == NULL) return;
    char *from = ++to;
    if (*from == '-') to++;
    from += strspn(from, "+-0");
    memmove(to, from, strlen(from) + 1);
}

static void add_number(text_builder *b, const tt_value *v, int digits)
{
    char text[40];
    assert(isfinite(v->number));
    const bool whole =
        !v->truth && fabs(v->number) <= VALUE_WHOLE_MOST && fabs(v->number - rint(v->number)) <= 0;
    if (whole)
        snprintf(text, sizeof text, "%.0f", v->number + 0.0);
    else
        snprintf(text, sizeof text, "%.*g", digits, v->number);
    with_point(text);
    shorten_exponent(text);
    text_add(b, str_of(text));
    /* So that a number beyond 2^53 is not read as one that has to be exact. */
    if (!whole && strpbrk(text, ".e") == NULL) text_add(b, STR(".0"));
}

/* How deep it stands, if each item stands on a line of its own. */
typedef struct layout {
    int digits, indent, depth; /* indent 0: all on one line, without blanks */
} layout;

static void add_break(text_builder *b, layout l)
{
    if (l.indent > 0) text_addf(b, "\n%*s", l.indent * l.depth, "");
}

static void add_value(text_builder *b, const tt_value *v, layout l);

static void add_items(text_builder *b, const tt_value *v, layout l)
{
    const bool map = v->kind == TT_VALUE_MAP;
    const layout within = {l.digits, l.indent, l.depth + 1};
    text_add(b, map ? STR("{") : STR("["));
    for (uint32_t i = 0; i < v->count; i++) {
        if (i > 0) text_add(b, STR(","));
        add_break(b, within);
        if (map) {
            add_text(b, v->keys[i]);
            text_add(b, l.indent > 0 ? STR(": ") : STR(":"));
        }
        add_value(b, &v->items[i], within);
    }
    if (v->count > 0) add_break(b, l);
    text_add(b, map ? STR("}") : STR("]"));
}

static void add_value(text_builder *b, const tt_value *v, layout l)
{
    switch (v->kind) {
    case TT_VALUE_NULL:
        text_add(b, STR("null"));
        return;
    case TT_VALUE_BOOL:
        text_add(b, v->truth ? STR("true") : STR("false"));
        return;
    case TT_VALUE_NUMBER:
        add_number(b, v, l.digits);
        return;
    case TT_VALUE_TEXT:
        add_text(b, v->text);
        return;
    case TT_VALUE_LIST:
    case TT_VALUE_MAP:
        add_items(b, v, l);
        return;
    }
    assert(!"a value has one of six kinds");
}

void json_add(text_builder *b, const tt_value *v, int digits)
{
    assert(digits > 0 && digits <= JSON_DIGITS_EXACT);
    add_value(b, v, (layout){digits, 0, 0});
}

str json_write(arena *keep, const tt_value *v, int digits)
{
    text_builder b = {.keep = keep};
    json_add(&b, v, digits);
    return text_done(&b);
}

str json_write_lines(arena *keep, const tt_value *v, int digits, int indent)
{
    assert(digits > 0 && digits <= JSON_DIGITS_EXACT && indent > 0);
    text_builder b = {.keep = keep};
    add_value(&b, v, (layout){digits, indent, 0});
    text_add(&b, STR("\n"));
    return text_done(&b);
}
