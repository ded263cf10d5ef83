/* Replies of programs. A structured one goes through as what it is; nothing of it is made into text
 * that would have to be understood again. */
#include "show/reply_fields.h"

#include <assert.h>
#include <string.h>

#include "base/moment.h"
#include "base/unicode.h"
#include "say/catalogue.h"
#include "show/figures.h"

typedef struct reading {
    arena *keep;
    const tt_turn *turn;
    const tt_value *said;
    tt_heard *heard;
    reply_fault fault;
} reading;

static bool refuse(reading *r, const char *code, const char *text)
{
    r->fault = (reply_fault){code, text};
    return false;
}

/* ---- names, as they are told ---- */

static void add_name(text_builder *b, const char *name)
{
    text_addf(b, "%s\"%s\"", b->length > 0 ? ", " : "", name);
}

static const char *told(const text_builder *b)
{
    return b->length > 0 ? text_done(b).p : "\"\"";
}

static const char *names_of(arena *keep, const tt_turn_choice *all, uint32_t count)
{
    text_builder b = {.keep = keep};
    for (uint32_t i = 0; i < count; i++) add_name(&b, all[i].id);
    return told(&b);
}

static const char *choice_id(const tt_turn *turn, const char *name)
{
    for (uint32_t i = 0; name != NULL && i < turn->choice_count; i++)
        if (strcmp(turn->choices[i].id, name) == 0) return turn->choices[i].id;
    return NULL;
}

/* ---- each way to reply ---- */

static bool read_answer(reading *r, const tt_value *v)
{
    if (v->kind != TT_VALUE_TEXT)
        return refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_ANSWER));
    const str clean = str_trim(unicode_clean(r->keep, str_of(v->text)));
    char *line = (char *)(uintptr_t)str_copy(r->keep, clean)
                     .p; /* on one line: it is kept, and shown to people */
    for (size_t i = 0; i < clean.n; i++)
        if (line[i] == '\n' || line[i] == '\t') line[i] = ' ';
    r->heard->words = line;
    return true;
}

static bool read_choice(reading *r, const tt_value *v)
{
    const char *names = names_of(r->keep, r->turn->choices, r->turn->choice_count);
    if (v->kind == TT_VALUE_NUMBER && v->number >= 1 && v->number <= r->turn->choice_count &&
        v->number == (uint32_t)v->number)
        r->heard->choice = r->turn->choices[(uint32_t)v->number - 1].id;
    else if (v->kind == TT_VALUE_TEXT)
        r->heard->choice = choice_id(r->turn, v->text);
    else
        return refuse(r, v->kind == TT_VALUE_NUMBER ? "no-such-choice" : "wrong-type",
                      FILL(r->keep, TO_AUTHORS, PROGRAM_CHOICE, names));
    return r->heard->choice != NULL ||
           refuse(r, "no-such-choice",
                  FILL(r->keep, TO_AUTHORS, PROGRAM_NO_SUCH_CHOICE, v->text, names));
}

static bool read_options(reading *r, const tt_value *v)
{
    const char *names = names_of(r->keep, r->turn->choices, r->turn->choice_count);
    const char **ids = ARENA_ARRAY(r->keep, const char *, v->count);
    if (v->kind != TT_VALUE_LIST || v->count == 0)
        return refuse(r, "wrong-type", FILL(r->keep, TO_AUTHORS, PROGRAM_OPTIONS, names));
    for (uint32_t i = 0; i < v->count; i++) {
        const tt_value *name = &v->items[i];
        if (name->kind != TT_VALUE_TEXT)
            return refuse(r, "wrong-type", FILL(r->keep, TO_AUTHORS, PROGRAM_OPTIONS, names));
        ids[i] = choice_id(r->turn, name->text);
        if (ids[i] == NULL)
            return refuse(r, "no-such-choice",
                          FILL(r->keep, TO_AUTHORS, PROGRAM_NO_SUCH_CHOICE, name->text, names));
    }
    r->heard->several = ids;
    r->heard->several_count = v->count;
    return true;
}

static bool read_unit(reading *r, const tt_value *unit, const char **out)
{
    const bool fits = unit == NULL || unit->kind == TT_VALUE_TEXT || unit->kind == TT_VALUE_NULL;
    *out = fits && unit != NULL ? unit->text : NULL;
    return fits || refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_UNIT));
}

static bool read_reading(reading *r, const tt_value *v)
{
    if (v->kind != TT_VALUE_NUMBER)
        return refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_READING));
    r->heard->number = &v->number;
    return read_unit(r, value_get(r->said, "unit"), &r->heard->unit);
}

static bool read_word(reading *r, const tt_value *v)
{
    for (uint32_t i = 0; v->kind == TT_VALUE_TEXT && i < r->turn->word_count; i++)
        if (strcmp(r->turn->words[i].id, v->text) == 0) r->heard->choice = r->turn->words[i].id;
    if (r->heard->choice != NULL) return true;
    return refuse(r, v->kind == TT_VALUE_TEXT ? "no-such-word" : "wrong-type",
                  FILL(r->keep, TO_AUTHORS, PROGRAM_WORD,
                       names_of(r->keep, r->turn->words, r->turn->word_count)));
}

/* ---- several answers ---- */

static bool read_names(reading *r, const tt_value *v, tt_given *out)
{
    const char **names = ARENA_ARRAY(r->keep, const char *, v->count);
    if (v->kind != TT_VALUE_LIST || v->count == 0)
        return refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_ANSWERS));
    for (uint32_t i = 0; i < v->count; i++) {
        if (v->items[i].kind != TT_VALUE_TEXT)
            return refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_ANSWERS));
        names[i] = v->items[i].text;
    }
    out->not_these = names;
    out->not_count = v->count;
    return true;
}

static bool is_among(const char *key, const char *const *keys)
{
    while (*keys != NULL && strcmp(*keys, key) != 0) keys++;
    return *keys != NULL;
}

static bool read_given(reading *r, const tt_value *v, tt_given *out)
{
    const tt_value *choice = value_get(v, "choice"), *number = value_get(v, "reading"),
                   *not_these = value_get(v, "not");
    out->question = value_text(v, "question");
    for (uint32_t i = 0; v->kind == TT_VALUE_MAP && i < v->count; i++)
        if (!is_among(v->keys[i],
                      (const char *const[]){"question", "choice", "reading", "unit", "not", NULL}))
            return refuse(r, "unknown-key", catalogue_text(TO_AUTHORS, PROGRAM_ANSWERS));
    if (out->question == NULL || (choice != NULL) + (number != NULL) + (not_these != NULL) != 1)
        return refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_ANSWERS));
    if (value_get(v, "unit") != NULL && number == NULL)
        return refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_UNIT));
    if (not_these != NULL) return read_names(r, not_these, out);
    if (number == NULL) {
        out->choice = value_text(v, "choice");
        return out->choice != NULL ||
               refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_ANSWERS));
    }
    out->number = number->number;
    if (number->kind != TT_VALUE_NUMBER)
        return refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_READING));
    return read_unit(r, value_get(v, "unit"), &out->unit);
}

static bool read_answers(reading *r, const tt_value *v)
{
    tt_given *all = ARENA_ARRAY(r->keep, tt_given, v->count);
    if (v->kind != TT_VALUE_LIST || v->count == 0)
        return refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_ANSWERS));
    for (uint32_t i = 0; i < v->count; i++)
        if (!read_given(r, &v->items[i], &all[i])) return false;
    r->heard->given = all;
    r->heard->given_count = v->count;
    return true;
}

/* ---- which of them ---- */

static bool is_asked_by_the_host(const tt_turn *t)
{
    return t->kind >= TT_TURN_BOOK && t->kind <= TT_TURN_KEEP_FACTS;
}

static bool takes_any(const tt_turn *t)
{
    return t->kind != TT_TURN_END;
}

static bool takes_choice(const tt_turn *t)
{
    return t->choice_count > 0;
}

static bool takes_several(const tt_turn *t)
{
    return t->takes.several;
}

static bool takes_number(const tt_turn *t)
{
    return t->takes.reading || t->takes.count;
}

static bool takes_word(const tt_turn *t)
{
    return t->word_count > 0;
}

/* A tag of BCP 47, which need not be a language of ours: the book may have it. */
static bool read_language(reading *r, const tt_value *v)
{
    const char *tag = v->kind == TT_VALUE_TEXT ? v->text : "";
    const size_t length = strlen(tag);
    const bool plain =
        length >= 2 && length <= 35 &&
        strspn(tag, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-") == length;
    r->heard->language = tag;
    return plain || refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_LANGUAGE));
}

static bool takes_answers(const tt_turn *t)
{
    return takes_any(t) && !is_asked_by_the_host(t);
}

static const struct way {
    const char *key;
    bool (*is_taken)(const tt_turn *t);
    bool (*read)(reading *r, const tt_value *v);
    const char *doc;
} ways[] = {
    {"choice", takes_choice, read_choice, "Name or number of a choice."},
    {"reading", takes_number, read_reading, "What a gauge reads, or a count."},
    {"options", takes_several, read_options, "Names of several choices."},
    {"answers", takes_answers, read_answers,
     "Answers to any questions, by their names: several in one reply."},
    {"word", takes_word, read_word, "One of `words`."},
    {"language", takes_any, read_language,
     "The case goes on in this language (a tag of BCP 47), and so does whoever takes it up later."},
    {"answer", takes_any, read_answer,
     "As a person would type it: a number, words, a reading, a word of ours."},
};
enum { WAYS = sizeof ways / sizeof ways[0] };

const char *const *reply_ways(arena *keep, const tt_turn *turn, uint32_t *count)
{
    const char **keys = ARENA_ARRAY(keep, const char *, WAYS);
    *count = 0;
    for (unsigned i = 0; i < WAYS; i++)
        if (ways[i].is_taken(turn)) keys[(*count)++] = ways[i].key;
    return keys;
}

static const char *ways_here(reading *r)
{
    uint32_t count;
    const char *const *keys = reply_ways(r->keep, r->turn, &count);
    text_builder b = {.keep = r->keep};
    for (uint32_t i = 0; i < count; i++) add_name(&b, keys[i]);
    return told(&b);
}

/* The one way that is used; WAYS: not exactly one, or a key that means nothing. */
static unsigned way_of(reading *r)
{
    unsigned found = WAYS, count = 0;
    for (uint32_t i = 0; i < r->said->count; i++) {
        const char *key = r->said->keys[i];
        unsigned w = 0;
        while (w < WAYS && strcmp(ways[w].key, key) != 0) w++;
        if (w < WAYS) {
            found = w;
            count++;
        } else if (!is_among(key, (const char *const[]){"turn", "unit", "now", "key", NULL})) {
            refuse(r, "unknown-key",
                   FILL(r->keep, TO_AUTHORS, PROGRAM_UNKNOWN_KEY, key, ways_here(r)));
            return WAYS;
        }
    }
    if (count == 1) return found;
    refuse(r, count == 0 ? "no-answer" : "several-answers",
           FILL(r->keep, TO_AUTHORS, count == 0 ? PROGRAM_NONE : PROGRAM_SEVERAL, ways_here(r)));
    return WAYS;
}

static bool is_for_this_turn(reading *r, uint32_t number)
{
    const tt_value *turn = value_get(r->said, "turn");
    if (turn == NULL || (turn->kind == TT_VALUE_NUMBER && turn->number == number)) return true;
    if (turn->kind != TT_VALUE_NUMBER)
        return refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_TURN));
    return refuse(r, "stale-turn",
                  FILL(r->keep, TO_AUTHORS, PROGRAM_STALE,
                       str_printf(r->keep, "%.10g", turn->number).p, count_words(r->keep, number)));
}

static bool read_now(reading *r, const char **now)
{
    const tt_value *v = value_get(r->said, "now");
    tt_moment moment;
    *now = v != NULL && v->kind == TT_VALUE_TEXT ? v->text : NULL;
    if (v == NULL || (*now != NULL && tt_moment_read(*now, &moment))) return true;
    return refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_NOW));
}

static bool read_reply(reading *r, uint32_t number, const char **now)
{
    if (r->said->kind != TT_VALUE_MAP)
        return refuse(r, "no-object", catalogue_text(TO_AUTHORS, PROGRAM_NO_OBJECT));
    if (is_beginning(r->said))
        return refuse(r, "begin-too-late", catalogue_text(TO_AUTHORS, PROGRAM_BEGIN_LATE));
    if (!is_for_this_turn(r, number) || !read_now(r, now)) return false;
    const unsigned way = way_of(r);
    if (way == WAYS) return false;
    if (value_get(r->said, "unit") != NULL && strcmp(ways[way].key, "reading") != 0)
        return refuse(r, "wrong-type", catalogue_text(TO_AUTHORS, PROGRAM_UNIT));
    if (!ways[way].is_taken(r->turn))
        return refuse(r, "not-here",
                      FILL(r->keep, TO_AUTHORS, PROGRAM_NOT_HERE, ways[way].key, ways_here(r)));
    return ways[way].read(r, value_get(r->said, ways[way].key));
}

bool reply_read_value(arena *keep, const tt_turn *turn, uint32_t number, const tt_value *said,
                      reply_read_out *out, reply_fault *fault)
{
    assert(turn != NULL && said != NULL);
    *out = (reply_read_out){.heard = {.turn = turn->number}};
    reading r = {.keep = keep, .turn = turn, .said = said, .heard = &out->heard, .fault = {"", ""}};
    const bool read = read_reply(&r, number, &out->now);
    assert(read == (*r.fault.code == 0));
    *fault = r.fault;
    return read;
}

/* ---- beginning ---- */

bool is_beginning(const tt_value *said)
{
    return value_get(said, "begin") != NULL;
}

static bool begin_fault(reply_fault *fault, const char *code, text_id text)
{
    *fault = (reply_fault){code, catalogue_text(TO_AUTHORS, text)};
    return false;
}

/* It names a file, and stands in records. */
static bool is_writer(const char *name)
{
    const size_t length = strlen(name);
    return length >= 1 && length <= 12 &&
           strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789-") == length;
}

bool beginning_read(const tt_value *said, beginning *out, reply_fault *fault)
{
    const tt_value *begin = value_get(said, "begin");
    tt_moment moment;
    assert(begin != NULL);
    *fault = (reply_fault){"", ""};
    *out = (beginning){value_text(begin, "case"), value_text(begin, "writer"),
                       value_text(begin, "now")};
    for (uint32_t i = 0; i < said->count; i++)
        if (!is_among(said->keys[i], (const char *const[]){"begin", "version", "key", NULL}))
            return begin_fault(fault, "unknown-key", PROGRAM_BEGIN);
    if (begin->kind != TT_VALUE_MAP) return begin_fault(fault, "wrong-type", PROGRAM_BEGIN);
    for (uint32_t i = 0; i < begin->count; i++) {
        if (!is_among(begin->keys[i], (const char *const[]){"case", "writer", "now", NULL}))
            return begin_fault(fault, "unknown-key", PROGRAM_BEGIN);
        if (begin->items[i].kind != TT_VALUE_TEXT)
            return begin_fault(fault, "wrong-type", PROGRAM_BEGIN);
    }
    if (out->case_id != NULL && !tt_is_case_id(out->case_id))
        return begin_fault(fault, "wrong-type", PROGRAM_BEGIN_CASE);
    if (out->writer != NULL && !is_writer(out->writer))
        return begin_fault(fault, "wrong-type", PROGRAM_BEGIN_WRITER);
    return out->now == NULL || tt_moment_read(out->now, &moment) ||
           begin_fault(fault, "wrong-type", PROGRAM_NOW);
}

/* ---- schemas ---- */

static tt_value typed(arena *keep, const char *type, const char *other, const char *doc)
{
    value_builder map = value_map(keep), types = value_list(keep);
    value_put_some(&map, "description", doc);
    value_add(&types, value_of_text(type));
    if (other != NULL) value_add(&types, value_of_text(other));
    value_put(&map, "type", other != NULL ? value_done(&types) : value_of_text(type));
    return value_done(&map);
}

static tt_value list_of(arena *keep, tt_value item, const char *doc)
{
    value_builder map = value_map(keep);
    value_put_some(&map, "description", doc);
    value_put_text(&map, "type", "array");
    value_put(&map, "items", item);
    return value_done(&map);
}

static tt_value object_of(arena *keep, const value_builder *properties, const char *doc)
{
    value_builder map = value_map(keep);
    value_put_some(&map, "description", doc);
    value_put_text(&map, "type", "object");
    value_put(&map, "properties", value_done(properties));
    value_put_bool(&map, "additionalProperties", false);
    return value_done(&map);
}

static const char unit_doc[] = "With a reading: any unit that fits; left out: the question's.";
static const char now_doc[] = "The moment of it, RFC 3339; left out: the clock's. Once one was "
                              "given, it stays until the next.";

static const char key_doc[] = "With --many: which call it is for.";
static tt_value given_schema(arena *keep)
{
    value_builder p = value_map(keep);
    value_put(&p, "question", typed(keep, "string", NULL, ""));
    value_put(&p, "choice",
              typed(keep, "string", NULL, "An answer's name, \"unsure\" or \"cannot\"."));
    value_put(&p, "reading", typed(keep, "number", NULL, ""));
    value_put(&p, "unit", typed(keep, "string", "null", unit_doc));
    value_put(&p, "not", list_of(keep, typed(keep, "string", NULL, ""), "Answers that it is not."));
    return object_of(keep, &p, "");
}

static tt_value way_schema(arena *keep, const struct way *w)
{
    if (w->read == read_choice) return typed(keep, "string", "integer", w->doc);
    if (w->read == read_reading) return typed(keep, "number", NULL, w->doc);
    if (w->read == read_options) return list_of(keep, typed(keep, "string", NULL, ""), w->doc);
    if (w->read == read_answers) return list_of(keep, given_schema(keep), w->doc);
    return typed(keep, "string", NULL, w->doc);
}

tt_value reply_schema(arena *keep)
{
    value_builder p = value_map(keep);
    for (unsigned i = 0; i < WAYS; i++) value_put(&p, ways[i].key, way_schema(keep, &ways[i]));
    value_put(&p, "unit", typed(keep, "string", "null", unit_doc));
    value_put(&p, "turn",
              typed(keep, "integer", NULL,
                    "Which turn is replied to. If it is not the last one, the reply does not "
                    "count: so a page that is sent twice does no harm. May be left out."));
    value_put(&p, "now", typed(keep, "string", NULL, now_doc));
    value_put(&p, "key", typed(keep, "string", NULL, key_doc));
    return object_of(keep, &p,
                     "A line of input: one object with exactly one of the keys that `takes` names, "
                     "at most 4096 bytes.");
}

tt_value beginning_schema(arena *keep)
{
    value_builder inside = value_map(keep), p = value_map(keep);
    value_put(&inside, "case", typed(keep, "string", NULL, "Identifier of the new case, a UUID."));
    value_put(&inside, "writer",
              typed(keep, "string", NULL,
                    "As whom records are kept: at most 12 small letters, digits and hyphens."));
    value_put(&inside, "now", typed(keep, "string", NULL, now_doc));
    value_put(&p, "version", typed(keep, "integer", NULL, ""));
    value_put(&p, "begin", object_of(keep, &inside, ""));
    value_put(&p, "key", typed(keep, "string", NULL, key_doc));
    return object_of(keep, &p, "The very first line, if the conversation is to be begun so.");
}

tt_value opening_schema(arena *keep)
{
    static const char *const texts[] = {"site",   "case",      "as",     "name",
                                        "caller", "call-back", "ticket", "language"};
    value_builder inside = value_map(keep), p = value_map(keep);
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        value_put(&inside, texts[i], typed(keep, "string", NULL, ""));
    value_put(&inside, "telephone", typed(keep, "boolean", NULL, ""));
    value_put(&inside, "practice", typed(keep, "boolean", NULL, ""));
    value_put(&p, "key", typed(keep, "string", NULL, "At most 64 bytes; of no call that is open."));
    value_put(&p, "open",
              object_of(keep, &inside,
                        "What this call says otherwise than the options "
                        "of the program, which have the same names."));
    return object_of(keep, &p, "With --many: a line that opens a call; its first turn follows.");
}
