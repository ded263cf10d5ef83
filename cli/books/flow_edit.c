#include "books/flow_edit.h"

#include <assert.h>
#include <string.h>

#include "host/plain_text.h"

static bool ends_word(char c)
{
    return c == 0 || strchr(" \t\r\n,[]{}", c) != NULL;
}

/* Behind what stands in quotes, or 0: it has no end. In single quotes a quote is written twice. */
static size_t quoted_end(const char *text, size_t at)
{
    const char quote = text[at];
    for (size_t i = at + 1; text[i] != 0; i++) {
        if (quote == '"' && text[i] == '\\' && text[i + 1] != 0)
            i++;
        else if (quote == '\'' && text[i] == quote && text[i + 1] == quote)
            i++;
        else if (text[i] == quote)
            return i + 1;
    }
    return 0;
}

/* A mark begins a remark behind a blank only. */
static bool is_remark(const char *text, size_t at)
{
    return text[at] == '#' && at > 0 && strchr(" \t\n", text[at - 1]) != NULL;
}

static size_t behind_blanks(const char *text, size_t at)
{
    for (;; at++) {
        if (is_remark(text, at)) at += strcspn(text + at, "\n");
        if (text[at] == 0 || strchr(" \t\r\n", text[at]) == NULL) return at;
    }
}

/* Behind a word: in quotes, or up to a mark that ends it; a colon does so before a blank. 0: no
 * end.
 */
static size_t word_end(const char *text, size_t at)
{
    if (text[at] == '"' || text[at] == '\'') return quoted_end(text, at);
    while (!ends_word(text[at]) && !(text[at] == ':' && ends_word(text[at + 1]))) at++;
    return at;
}

/* Behind a value: a list or a map, or words with blanks between them up to a comma or the end of
 * the map. 0: no end. */
static size_t value_end(const char *text, size_t at)
{
    size_t end = at;
    if (text[at] == '{' || text[at] == '[') return flow_end(text, at);
    while (text[at] != 0 && strchr(",}]{[", text[at]) == NULL) {
        end = word_end(text, at);
        if (end == 0 || end == at) return 0;
        at = behind_blanks(text, end);
    }
    return text[at] != 0 ? end : 0;
}

size_t flow_end(const char *text, size_t open)
{
    assert(text[open] == '{' || text[open] == '[');
    size_t depth = 0;
    for (size_t at = open; text[at] != 0;) {
        if (is_remark(text, at)) {
            at += strcspn(text + at, "\n");
        } else if ((text[at] == '"' || text[at] == '\'') &&
                   strchr(" \t\r\n,[]{}", text[at - 1]) != NULL) {
            at = quoted_end(text, at);
            if (at == 0) return 0;
        } else {
            depth += text[at] == '{' || text[at] == '[';
            depth -= text[at] == '}' || text[at] == ']';
            at++;
            if (depth == 0) return at;
        }
    }
    return 0;
}

static bool is_named(const char *text, size_t from, size_t to, const char *key)
{
    const bool quoted = text[from] == '"' || text[from] == '\'';
    const size_t length = to - from - (quoted ? 2 : 0);
    return strlen(key) == length && strncmp(text + from + quoted, key, length) == 0;
}

/* The next entry from `*at` on, which comes to stand behind it. False: there is none that can be
 * read. */
static bool next_entry(const char *text, size_t *at, size_t *key, size_t *key_end, flow_entry *out)
{
    *key = behind_blanks(text, *at);
    *key_end = *key;
    for (size_t i = *key; text[i] != 0 && strchr(",{}[]", text[i]) == NULL;) {
        const size_t end = word_end(text, i);
        if (end == 0) return false;
        if (end > i) *key_end = end;
        i = behind_blanks(text, end);
        if (text[i] != ':') continue;
        out->value = behind_blanks(text, i + 1);
        out->end = value_end(text, out->value);
        if (out->end == 0) return false;
        *at = behind_blanks(text, out->end);
        *at += text[*at] == ',';
        return *key_end > *key;
    }
    return false;
}

bool flow_find(const char *text, size_t open, const char *key, flow_entry *out)
{
    size_t from, to;
    for (size_t at = open + 1; next_entry(text, &at, &from, &to, out);)
        if (is_named(text, from, to, key)) return true;
    return false;
}

/* Behind the last entry, and whether a comma stands there already. 0: not all of them can be read.
 */
static size_t last_entry(const char *text, size_t open, bool *comma)
{
    size_t from, to, at = open + 1, end = open + 1;
    flow_entry e;
    *comma = true;
    while (next_entry(text, &at, &from, &to, &e)) {
        *comma = text[at - 1] == ',';
        end = *comma ? at : e.end;
    }
    return text[behind_blanks(text, end)] == '}' ? end : 0;
}

char *flow_with(const char *text, size_t open, const char *key, const char *value)
{
    flow_entry old;
    bool comma;
    if (flow_end(text, open) == 0) return NULL;
    if (flow_find(text, open, key, &old))
        return format_text("%.*s%s%s", (int)old.value, text, value, text + old.end);
    const size_t end = last_entry(text, open, &comma);
    if (end == 0) return NULL;
    const char *before = !comma ? ", " : end > open + 1 ? " " : "";
    return format_text("%.*s%s%s: %s%s", (int)end, text, before, key, value, text + end);
}
