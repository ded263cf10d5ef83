/* Adding an answer to a site file that a person may have written: by lines, so that everything else
 * stays as it is. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "books/flow_edit.h"
#include "books/site_text.h"
#include "host/plain_text.h"

/* A key on a line of its own, and the lines beneath it. Offsets into the text. */
typedef struct block {
    size_t line, end; /* from its line to behind the last line beneath it */
    size_t inside;    /* where the lines beneath it begin */
    size_t indent;
} block;

static size_t line_end(const char *text, size_t at)
{
    const char *end = strchr(text + at, '\n');
    return end != NULL ? (size_t)(end - text) + 1 : strlen(text);
}

static size_t indent_at(const char *text, size_t at)
{
    return strspn(text + at, " ");
}

/* Empty, or a remark. */
static bool says_nothing(const char *text, size_t at)
{
    char c = text[at + indent_at(text, at)];
    return c == 0 || c == '\n' || c == '\r' || c == '#';
}

/* Behind the last line that is deeper than `indent`; empty lines at its end don't belong to it. */
static size_t end_of_block(const char *text, size_t from, size_t indent, size_t limit)
{
    size_t end = from;
    for (size_t at = from; at < limit; at = line_end(text, at)) {
        if (says_nothing(text, at)) continue;
        if (indent_at(text, at) <= indent) break;
        end = line_end(text, at);
    }
    return end;
}

static bool is_key(const char *text, size_t at, const char *key)
{
    const char *c = text + at + indent_at(text, at);
    const size_t length = strlen(key);
    const char quote = *c == '"' || *c == '\'' ? *c++ : 0;
    if (strncmp(c, key, length) != 0) return false;
    c += length;
    if (quote != 0 && *c++ != quote) return false;
    return *c == ':' && (c[1] == 0 || strchr(" \r\n", c[1]) != NULL);
}

/* A key among the lines [from, to), at the depth of the first of them that says something. */
static bool find_key(const char *text, size_t from, size_t to, const char *key, block *out)
{
    size_t depth = SIZE_MAX;
    for (size_t at = from; at < to; at = line_end(text, at)) {
        if (says_nothing(text, at)) continue;
        if (depth == SIZE_MAX) depth = indent_at(text, at);
        if (indent_at(text, at) != depth || !is_key(text, at, key)) continue;
        size_t inside = line_end(text, at);
        *out = (block){at, end_of_block(text, inside, depth, to), inside, depth};
        return true;
    }
    return false;
}

/* Nothing but a remark stands behind the colon: its value is in the lines beneath it. */
static bool is_open(const char *text, const block *b)
{
    const char *colon = strchr(text + b->line, ':');
    assert(colon != NULL);
    return b->end > b->inside && says_nothing(text, (size_t)(colon + 1 - text));
}

/* Nothing but remarks, or the word for it. */
static bool is_empty(const char *text, const block *b)
{
    return b->end == b->inside &&
           says_nothing(text, (size_t)(strchr(text + b->line, ':') + 1 - text));
}

/* Where the map begins that stands within braces, or 0: it is written otherwise. */
static size_t flow_of(const char *text, const block *b)
{
    size_t at = (size_t)(strchr(text + b->line, ':') + 1 - text);
    while (says_nothing(text, at) && at < b->end) at = line_end(text, at);
    at += indent_at(text, at);
    return at < b->end && text[at] == '{' ? at : 0;
}

static size_t depth_inside(const char *text, const block *b)
{
    for (size_t at = b->inside; at < b->end; at = line_end(text, at))
        if (!says_nothing(text, at)) return indent_at(text, at);
    return b->indent + 2;
}

/* text[0, from) + line + text[to, …), with an end of line before it where one is missing. Something
 * stands before it: the site's own line. */
static char *spliced(const char *text, size_t from, size_t to, const char *lines)
{
    assert(from > 0);
    const bool torn = text[from - 1] != '\n';
    return format_text("%.*s%s%s%s", (int)from, text, torn ? "\n" : "", lines, text + to);
}

/* The value as it was said, as YAML, and the same with its source. */
typedef struct written {
    const char *said;
    char *value, *whole;
} written;

static written written_as(const site_fact *fact)
{
    static const char plain[] =
        " abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789./%-";
    const char *quote = strspn(fact->value, plain) == strlen(fact->value) ? "" : "\"";
    written w = {.said = fact->value, .value = format_text("%s%s%s", quote, fact->value, quote)};
    w.whole = *fact->source == 0
                  ? copy_text(w.value)
                  : format_text("{value: %s, source: \"%s\"}", w.value, fact->source);
    return w;
}

/* The value, and nothing but a remark behind it. */
static bool is_value(const char *text, const char *value)
{
    const size_t length = strlen(value);
    return strncmp(text, value, length) == 0 && says_nothing(text, length);
}

/* "{value: 3 psi, source: me}" */
static bool is_sourced(const char *text, const char *value)
{
    static const char sourced[] = "{value: ";
    const size_t begins = sizeof sourced - 1, length = strlen(value);
    return strncmp(text, sourced, begins) == 0 && strncmp(text + begins, value, length) == 0 &&
           strchr(",}", text[begins + length]) != NULL;
}

/* With quotes or without. Whoever wrote it first is its source, and a remark on it stays. */
static bool says_already(const char *text, const block *old, const written *w)
{
    const char *at = strchr(text + old->line, ':') + 1;
    at += strspn(at, " ");
    return is_sourced(at, w->value) || is_value(at, w->value) || is_sourced(at, w->said) ||
           is_value(at, w->said);
}

static bool is_the_same(const char *text, const flow_entry *old, const char *value)
{
    const size_t length = strlen(value);
    return is_sourced(text + old->value, value) ||
           (old->end - old->value == length && strncmp(text + old->value, value, length) == 0);
}

/* Null: the map has no end. */
static char *put_in_flow(const char *text, size_t open, const char *key, const written *w)
{
    flow_entry old;
    const bool there = flow_end(text, open) != 0 && flow_find(text, open, key, &old);
    if (there && (is_the_same(text, &old, w->value) || is_the_same(text, &old, w->said)))
        return copy_text(text);
    return flow_with(text, open, key, w->whole);
}

/* In place of the key if it is there, else as the last line of the block. */
static char *put_in(const char *text, const block *in, const char *key, const written *w)
{
    block old;
    size_t depth = depth_inside(text, in);
    bool there = find_key(text, in->inside, in->end, key, &old);
    if (there && says_already(text, &old, w)) return copy_text(text);
    char *line = format_text("%*s%s: %s\n", (int)depth, "", key, w->whole);
    char *made =
        there ? spliced(text, old.line, old.end, line) : spliced(text, in->end, in->end, line);
    free(line);
    return made;
}

/* The piece of equipment, whatever kind it is of. */
static bool find_piece(const char *text, const block *site, const char *piece, block *out)
{
    block units, kind;
    if (!find_key(text, site->inside, site->end, "units", &units) || !is_open(text, &units))
        return false;
    size_t depth = depth_inside(text, &units);
    for (size_t at = units.inside; at < units.end; at = kind.end) {
        kind = (block){at, line_end(text, at), line_end(text, at), depth};
        if (says_nothing(text, at) || indent_at(text, at) != depth) continue;
        kind.end = end_of_block(text, kind.inside, depth, units.end);
        if (find_key(text, kind.inside, kind.end, piece, out)) return is_open(text, out);
    }
    return false;
}

char *site_text_with(const char *text, const site_fact *fact)
{
    block site, piece, answers;
    if (!find_key(text, 0, strlen(text), "site", &site) || !is_open(text, &site)) return NULL;
    written w = written_as(fact);
    char *made;
    const char *of = strstr(fact->question, " of ");
    if (of != NULL && find_piece(text, &site, of + 4, &piece)) {
        char *base = format_text("%.*s", (int)(of - fact->question), fact->question);
        made = put_in(text, &piece, base, &w);
        free(base);
    } else if (find_key(text, site.inside, site.end, "answers", &answers)) {
        const size_t flow = flow_of(text, &answers);
        made = flow > 0 ? put_in_flow(text, flow, fact->question, &w)
               : is_open(text, &answers) || is_empty(text, &answers)
                   ? put_in(text, &answers, fact->question, &w)
                   : NULL;
    } else {
        int depth = (int)depth_inside(text, &site);
        char *lines = format_text("%*sanswers:\n%*s%s: %s\n", depth, "", depth + 2, "",
                                  fact->question, w.whole);
        made = spliced(text, site.end, site.end, lines);
        free(lines);
    }
    free(w.value);
    free(w.whole);
    return made;
}
