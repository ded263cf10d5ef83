/* Texts that people read. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "model/reader.h"

enum { WHERE_INSERT = SECTION_COUNT + 1 };

/* The bytes [from, to) of a scalar's text, found again in its source; the whole scalar where
 * escapes or folding moved them. */
span span_in_text(const reader *r, const node *n, size_t from, size_t to)
{
    assert(from <= to && to <= n->text.n);
    if (n->at.file == NO_FILE || n->at.file >= r->book->files->count) return n->at;
    str bytes = r->book->files->items[n->at.file].bytes;
    if (n->at.end > bytes.n) return n->at;
    str raw = str_slice(bytes, n->at.start, n->at.end);
    size_t quote = n->style == STYLE_SINGLE || n->style == STYLE_DOUBLE ? 1 : 0;
    if (quote + to <= raw.n && memcmp(raw.p + quote, n->text.p, to) == 0)
        return (span){n->at.file, n->at.start + (uint32_t)(quote + from),
                      n->at.start + (uint32_t)(quote + to)};
    size_t found = from == to ? SIZE_MAX : str_find(raw, str_slice(n->text, from, to));
    if (found == SIZE_MAX) return n->at;
    return (span){n->at.file, n->at.start + (uint32_t)found,
                  n->at.start + (uint32_t)(found + to - from)};
}

/* ---- {question} in texts ---- */

static void check_insert(reader *r, const node *n, size_t from, size_t to)
{
    assert(from + 2 <= to && n->text.p[from] == '{' && n->text.p[to - 1] == '}');
    str name = str_slice(n->text, from + 1, to - 1);
    const name_table *questions = &r->tables[SECTION_QUESTIONS];
    if (table_find(questions, name) != NO_ID) return;
    if (missing_before(r, WHERE_INSERT, name)) return;
    const char *elsewhere = name_elsewhere(r, name);
    bool lost = r->names_lost && elsewhere == NULL &&
                nearest_name(r, name, questions->names, questions->count) == SIZE_MAX;
    if (lost) return;
    span at = span_in_text(r, n, from, to);
    fault *f = elsewhere != NULL
                   ? fault_add(r->list, FAULT_UNKNOWN_INSERT, at,
                               "'%.*s' is a %s; braces show the answer to a question.",
                               STR_ARG(name), elsewhere)
                   : fault_add(r->list, FAULT_UNKNOWN_INSERT, at,
                               "There is no question '%.*s' whose answer could be shown here.",
                               STR_ARG(name));
    suggest(r, f, name, questions->names, questions->count);
}

static void brace_alone(reader *r, const node *n, size_t at)
{
    assert(at < n->text.n);
    char brace = n->text.p[at];
    fault *f =
        fault_add(r->list, FAULT_BRACE_ALONE, span_in_text(r, n, at, at + 1),
                  "A '%c' stands alone; braces go in pairs round the name of a question.", brace);
    fault_help(r->list, f, "Write '%c%c' if the brace itself should be read.", brace, brace);
}

static void check_inserts(reader *r, const node *n)
{
    str text = n->text;
    for (size_t i = 0; i < text.n; i++) {
        char c = text.p[i];
        if (c != '{' && c != '}') continue;
        if (i + 1 < text.n && text.p[i + 1] == c) {
            i++;
            continue;
        }
        size_t close = c == '{' ? str_find_byte(str_slice(text, i, text.n), '}') : SIZE_MAX;
        if (close == SIZE_MAX) {
            brace_alone(r, n, i);
            return;
        }
        check_insert(r, n, i, i + close + 1);
        i += close;
    }
}

/* ---- one text ---- */

/* Inside { } and [ ] YAML gives commas, colons and braces meanings of their own and would cut a
 * sentence to pieces. */
static bool splits_in_flow(str text, text_place where)
{
    static const char marks[] = ",.:;?!{}";
    for (size_t i = 0; i < text.n; i++) {
        char c = text.p[i];
        if (c == '\n' || (c == ' ' && where == TEXT_SENTENCE) ||
            (c != '\0' && strchr(marks, c) != NULL))
            return true;
    }
    return false;
}

static bool read_one(reader *r, const node *n, const char *what, text_place where, str *out)
{
    if (n->kind != NODE_TEXT) {
        wrong_kind(r, n, what, "a text");
        return false;
    }
    str text = str_trim(n->text);
    if (text.n == 0) {
        fault *f = fault_add(r->list, FAULT_EMPTY, n->at,
                             "This text is empty; somebody will have to read it.");
        fault_help(r->list, f, "Write the sentence, or leave the key out if it may be left out.");
        return false;
    }
    if (n->in_flow && splits_in_flow(text, where)) {
        fault *f = fault_add(
            r->list, FAULT_SENTENCE_IN_FLOW, n->at,
            "A sentence stands inside { } or [ ]; there a comma or a colon would cut it in two.");
        fault_help(r->list, f, "Give '%.*s' a line of its own, without the brackets.",
                   STR_ARG(text));
        return false;
    }
    check_inserts(r, n);
    *out = str_copy(r->keep, text);
    return true;
}

static bool alnum(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

/* The shape of BCP 47 tags: parts of 1 to 8 letters or digits, the first of 2 or 3 letters. */
bool is_language(str tag)
{
    size_t part = 0, parts = 0;
    for (size_t i = 0; i <= tag.n; i++) {
        if (i < tag.n && alnum(tag.p[i])) {
            if (parts == 0 && tag.p[i] <= '9') return false;
            part++;
            continue;
        }
        if ((i < tag.n && tag.p[i] != '-') || part == 0 || part > (parts == 0 ? 3 : 8) ||
            (parts == 0 && part < 2))
            return false;
        parts++;
        part = 0;
    }
    return true;
}

static bool check_language(reader *r, const node_entry *e)
{
    if (is_language(e->key)) return true;
    fault *f =
        fault_add(r->list, FAULT_BAD_LANGUAGE, e->key_at,
                  "'%.*s' is no language tag; a text is one sentence, or one for each language.",
                  STR_ARG(e->key));
    fault_help(r->list, f, "Write tags such as 'en', 'de' or 'pt-BR'.");
    return false;
}

static int language_rank(str tag, str first)
{
    return str_eq(tag, first) ? 0 : 1;
}

static bool read_languages(reader *r, const node *n, const char *what, text_place where, texts *out)
{
    assert(n->kind == NODE_MAP);
    const node_entry **sorted = entries_by_key(r, n);
    text_item *items = ARENA_ARRAY(r->keep, text_item, n->count);
    bool good = true;
    uint32_t count = 0;
    for (int rank = 0; rank <= 1; rank++)
        for (uint32_t i = 0; i < n->count; i++) {
            const node_entry *e = sorted[i];
            if (language_rank(e->key, r->book->language) != rank) continue;
            str text;
            good &= check_language(r, e) && e->value != NULL &&
                    read_one(r, e->value, what, where, &text);
            if (good) items[count++] = (text_item){str_copy(r->keep, e->key), text};
        }
    if (n->count == 0) {
        fault_add(r->list, FAULT_EMPTY, n->at,
                  "This text is empty; somebody will have to read it.");
        return false;
    }
    *out = (texts){items, count, n->at};
    return good;
}

bool read_texts(reader *r, const node *n, const char *what, text_place where, texts *out)
{
    assert(r->book->language.n > 0); /* the manifest is read first */
    *out = (texts){.at = n->at};
    if (n->kind == NODE_MAP) return read_languages(r, n, what, where, out);
    str text;
    if (!read_one(r, n, what, where, &text)) return false;
    text_item *item = ARENA_NEW(r->keep, text_item);
    *item = (text_item){r->book->language, text};
    *out = (texts){item, 1, n->at};
    return true;
}

void read_texts_list(reader *r, const node *n, const char *what, text_place where, texts_list *out)
{
    bool list = n->kind == NODE_LIST;
    uint32_t count = list ? n->count : 1, used = 0;
    texts *items = ARENA_ARRAY(r->keep, texts, count);
    if (count == 0)
        fault_add(r->list, FAULT_EMPTY, n->at, "This list is empty. Leave the key out instead.");
    for (uint32_t i = 0; i < count; i++) {
        const node *item = list ? n->items[i] : n;
        if (list && item->kind == NODE_TEXT && item_twice(r, n, i)) continue;
        if (read_texts(r, item, what, where, &items[used])) used++;
    }
    *out = (texts_list){items, used};
}

void read_texts_at(reader *r, const node *map, const char *key, texts *out)
{
    const node *n = node_get(map, key);
    *out = (texts){.at = span_nowhere()};
    if (n != NULL) read_texts(r, n, key, TEXT_SENTENCE, out);
}
