/* A JSON Schema of one book: that of the rule language, with this book's names where names stand.
 */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "revise/answer_schema.h"
#include "session/session.h"

struct tt_schema {
    arena *keep, *scratch;
    tt_book *own, *bare;
    str text;
};

static const char definitions[] = "#/definitions/";

/* "cause" for {"$ref": "#/definitions/cause-name"}; null for anything else. */
static const char *named_kind(const schema_making *m, const tt_value *v)
{
    const char *to = value_text(v, "$ref");
    if (to == NULL || strncmp(to, definitions, sizeof definitions - 1) != 0) return NULL;
    str name = str_of(to + sizeof definitions - 1);
    if (!str_ends(name, "-name")) return NULL;
    const char *what = str_copy(m->keep, str_slice(name, 0, name.n - 5)).p;
    return name_list(m->names, what) != NULL ? what : NULL;
}

/* Language servers show the text of what a value fits, so each alternative has it. */
static tt_value with_text(const schema_making *m, const char *text, tt_value what)
{
    value_builder v = value_map(m->keep), one = value_list(m->keep);
    const tt_value *several = what.count == 1 ? value_get(&what, "anyOf") : NULL;
    for (uint32_t i = 0; several != NULL && i < several->count; i++)
        value_add(&one, with_text(m, text, several->items[i]));
    if (several == NULL) value_add(&one, what);
    value_put_some(&v, "description", text);
    value_put(&v, "anyOf", value_done(&one));
    return value_done(&v);
}

static bool is_reference(const tt_value *v, const char *to)
{
    const char *text = value_text(v, "$ref");
    return text != NULL && strncmp(text, definitions, sizeof definitions - 1) == 0 &&
           strcmp(text + sizeof definitions - 1, to) == 0;
}

/* What stands under a name: for a question what it is answered with. */
static tt_value under(const schema_making *m, const told_name *n, const char *what,
                      const tt_value *general)
{
    const bool question = strcmp(what, "question") == 0;
    if (question && is_reference(general, "reply"))
        return schema_reference(m, "reply-to-", n->base);
    if (question && is_reference(general, "site-answer")) return schema_site_answer(m, n->base);
    if (strcmp(what, "conclusion") == 0 && is_reference(general, "scalar"))
        return schema_reference(m, "value-of-", n->base);
    return *general;
}

static tt_value remade(const schema_making *m, const tt_value *v);

static const char of_a_piece[] = " of ";

/* Names that are too many to be listed. */
static tt_value any_piece(const schema_making *m)
{
    value_builder v = value_map(m->keep);
    value_put_text(&v, "pattern", of_a_piece);
    value_put_text(&v, "description",
                   "At one piece of equipment. This site has too many of them to list each name.");
    return value_done(&v);
}

static void put_any_piece(const schema_making *m, value_builder *out, tt_value what)
{
    value_builder v = value_map(m->keep);
    value_put(&v, of_a_piece, what);
    value_put(out, "patternProperties", value_done(&v));
}

/* A map whose keys are names: each name with its text. */
static tt_value spelled_out(const schema_making *m, const tt_value *v, const char *what)
{
    value_builder out = value_map(m->keep), properties = value_map(m->keep);
    const tt_value *fixed = value_get(v, "properties"),
                   *general = value_get(v, "additionalProperties");
    const told_names *names = name_list(m->names, what);
    for (uint32_t i = 0; fixed != NULL && i < fixed->count; i++)
        value_put(&properties, fixed->keys[i], remade(m, &fixed->items[i]));
    for (uint32_t i = 0; i < names->count; i++)
        if (fixed == NULL || value_get(fixed, names->items[i].name) == NULL)
            value_put(
                &properties, names->items[i].name,
                with_text(m, names->items[i].text, under(m, &names->items[i], what, general)));
    for (uint32_t i = 0; i < v->count; i++) {
        const char *key = v->keys[i];
        if (strcmp(key, "propertyNames") == 0 || strcmp(key, "additionalProperties") == 0 ||
            strcmp(key, "properties") == 0)
            continue;
        value_put(&out, key, v->items[i]);
    }
    value_put(&out, "properties", value_done(&properties));
    if (names->any_piece) put_any_piece(m, &out, *general);
    value_put_bool(&out, "additionalProperties", false);
    return value_done(&out);
}

static tt_value remade(const schema_making *m, const tt_value *v)
{
    if (value_is(v, TT_VALUE_LIST)) {
        value_builder list = value_list(m->keep);
        for (uint32_t i = 0; i < v->count; i++) value_add(&list, remade(m, &v->items[i]));
        return value_done(&list);
    }
    if (!value_is(v, TT_VALUE_MAP)) return *v;
    const char *what = named_kind(m, value_get(v, "propertyNames"));
    if (what != NULL) return spelled_out(m, v, what);
    value_builder map = value_map(m->keep);
    for (uint32_t i = 0; i < v->count; i++) value_put(&map, v->keys[i], remade(m, &v->items[i]));
    return value_done(&map);
}

/* {"anyOf": [{"const": "worn", "description": "The pump is worn"}, …]} */
static tt_value names_definition(const schema_making *m, const told_names *names,
                                 const tt_value *general)
{
    value_builder out = value_map(m->keep), all = value_list(m->keep);
    for (uint32_t i = 0; i < names->count; i++) {
        value_builder one = value_map(m->keep);
        value_put_text(&one, "const", names->items[i].name);
        value_put_some(&one, "description", names->items[i].text);
        value_add(&all, value_done(&one));
    }
    if (names->count == 0) return *general;
    if (names->any_piece) value_add(&all, any_piece(m));
    value_put_some(&out, "description", value_text(general, "description"));
    value_put(&out, "anyOf", value_done(&all));
    return value_done(&out);
}

/* A map over questions, symptoms and conclusions, beside the words for several conditions. */
static tt_value condition_definition(const schema_making *m, const tt_value *general)
{
    static const struct {
        const char *what, *answer;
    } kinds[] = {{"question", "answer-to-"}, {"conclusion", "value-of-"}};
    value_builder out = value_map(m->keep), properties = value_map(m->keep);
    const tt_value *fixed = value_get(general, "properties");
    for (uint32_t i = 0; i < fixed->count; i++)
        value_put(&properties, fixed->keys[i], fixed->items[i]);
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
        const told_names *names = name_list(m->names, kinds[k].what);
        for (uint32_t i = 0; names != NULL && i < names->count; i++)
            value_put(&properties, names->items[i].name,
                      with_text(m, names->items[i].text,
                                schema_reference(m, kinds[k].answer, names->items[i].base)));
    }
    const told_names *symptoms = name_list(m->names, "symptom");
    for (uint32_t i = 0; symptoms != NULL && i < symptoms->count; i++)
        value_put(&properties, symptoms->items[i].name,
                  with_text(m, symptoms->items[i].text, schema_words(m, "shown", "not shown")));
    for (uint32_t i = 0; i < general->count; i++)
        if (strcmp(general->keys[i], "properties") != 0 &&
            (m->names->any_piece || strcmp(general->keys[i], "patternProperties") != 0))
            value_put(&out, general->keys[i], general->items[i]);
    value_put(&out, "properties", value_done(&properties));
    return value_done(&out);
}

/* Those that are there, with the answers that each has; and any other. */
static tt_value questions_definition(const schema_making *m, const tt_value *general)
{
    value_builder out = value_map(m->keep), properties = value_map(m->keep);
    schema_own_answers(m, value_get(general, "additionalProperties"), &properties);
    for (uint32_t i = 0; i < general->count; i++)
        value_put(&out, general->keys[i], general->items[i]);
    value_put(&out, "properties", value_done(&properties));
    return value_done(&out);
}

static tt_value definition(const schema_making *m, const char *key, const tt_value *general)
{
    const str name = str_of(key);
    const told_names *names =
        str_ends(key[0] != 0 ? name : STR(""), "-name")
            ? name_list(m->names, str_copy(m->keep, str_slice(name, 0, name.n - 5)).p)
            : NULL;
    if (names != NULL) return names_definition(m, names, general);
    if (strcmp(key, "condition") == 0) return condition_definition(m, general);
    if (strcmp(key, "questions") == 0) return questions_definition(m, general);
    if (strcmp(key, "chance") == 0) return schema_chance(m, general);
    if (strcmp(key, "unit-name") == 0) return schema_units(m, general);
    return remade(m, general);
}

static tt_value all_definitions(const schema_making *m, const tt_value *general)
{
    value_builder out = value_map(m->keep);
    for (uint32_t i = 0; i < general->count; i++)
        value_put(&out, general->keys[i], definition(m, general->keys[i], &general->items[i]));
    schema_answers(m, &out);
    return value_done(&out);
}

static tt_value whole(const schema_making *m, const tt_value *general)
{
    value_builder out = value_map(m->keep);
    for (uint32_t i = 0; i < general->count; i++) {
        const char *key = general->keys[i];
        if (strcmp(key, "title") == 0)
            value_put(&out, key,
                      value_of_str(m->keep, texts_for(&m->own->title, m->own->language)));
        else if (strcmp(key, "definitions") == 0)
            value_put(&out, key, all_definitions(m, &general->items[i]));
        else
            value_put(&out, key, general->items[i]);
    }
    return value_done(&out);
}

static tt_status make(void *context)
{
    tt_schema *s = context;
    name_lists *names = ARENA_NEW(s->keep, name_lists);
    names->keep = s->keep;
    name_lists_fill(names, s->own->book, s->bare != NULL ? s->bare->book : NULL);
    const schema_making m = {s->keep, s->scratch, names, s->own->book,
                             s->bare != NULL ? s->bare->book : s->own->book};
    tt_value general;
    json_fault wrong;
    const str text = language_schema();
    if (!json_read(s->keep, text, text.n, &general, &wrong))
        arena_leave(s->keep); /* it is good: then memory ended unseen */
    const tt_value made = whole(&m, &general);
    s->text = json_write_lines(s->keep, &made, JSON_DIGITS_SHOWN, 1);
    return TT_OK;
}

tt_status tt_schema_new(const tt_source *given, size_t count, tt_schema **out, tt_report **report)
{
    const tt_source none = {.name = "", .bytes = NULL};
    tt_report *bare_report = NULL;
    *out = NULL;
    *report = NULL;
    tt_schema *s = calloc(1, sizeof *s);
    if (s == NULL) return TT_NO_MEMORY;
    *s = (tt_schema){.keep = arena_new(NULL, NULL), .scratch = arena_new(NULL, NULL)};
    tt_status status = tt_book_load(given, count, &s->own, report);
    if (status == TT_OK &&
        tt_book_load_at(given, count, &none, &s->bare, &bare_report) == TT_NO_MEMORY)
        status = TT_NO_MEMORY;
    tt_report_free(bare_report);
    if (status == TT_OK && (s->keep == NULL || s->scratch == NULL)) status = TT_NO_MEMORY;
    if (status == TT_OK) status = guarded((arena *[]){s->keep, s->scratch}, 2, make, s);
    if (status == TT_OK)
        *out = s;
    else
        tt_schema_free(s);
    return status;
}

void tt_schema_free(tt_schema *s)
{
    if (s == NULL) return;
    tt_book_free(s->own);
    tt_book_free(s->bare);
    arena_free(s->keep);
    arena_free(s->scratch);
    free(s);
}

const char *tt_schema_text(const tt_schema *s, size_t *length)
{
    assert(length != NULL);
    *length = s->text.n;
    return s->text.p;
}
