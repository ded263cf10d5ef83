/* The quick way through a line of a case's file. */
#include "summary/case_scan.h"

#include <string.h>

#include "base/str.h"
#include "base/unicode.h"

typedef struct cursor {
    char *at, *end;
} cursor;

static bool eat(cursor *c, const char *text)
{
    size_t length = strlen(text);
    if ((size_t)(c->end - c->at) < length || memcmp(c->at, text, length) != 0) return false;
    c->at += length;
    return true;
}

/* A text in quotes without escapes: in these places this program writes no others. */
static bool eat_plain(cursor *c, text_span *out)
{
    if (!eat(c, "\"")) return false;
    const char *end = memchr(c->at, '"', (size_t)(c->end - c->at));
    if (end == NULL) return false;
    *out = (text_span){c->at, (size_t)(end - c->at)};
    c->at += out->length + 1;
    const str text = {out->from, out->length};
    return str_find_byte(text, '\\') == SIZE_MAX && str_find_byte(text, '\n') == SIZE_MAX &&
           unicode_plain_end(text, 0) == text.n;
}

/* At most 15 digits, so that it is one in JSON and in every program. */
static bool eat_number(cursor *c, uint64_t *out)
{
    const char *from = c->at;
    *out = 0;
    while (c->at < c->end && *c->at >= '0' && *c->at <= '9' && c->at - from < 15)
        *out = *out * 10 + (uint64_t)(*c->at++ - '0');
    return c->at > from && (*from != '0' || c->at == from + 1);
}

/* How far others had been read: {"0000aaaa0000":3}; may be left out. */
static bool eat_seen(cursor *c, text_span *out)
{
    text_span name;
    uint64_t number;
    if (!eat(c, ",\"seen\":")) return true;
    const char *from = c->at;
    bool plain = eat(c, "{}");
    if (!plain && eat(c, "{")) {
        do plain = eat_plain(c, &name) && eat(c, ":") && eat_number(c, &number);
        while (plain && eat(c, ","));
        plain = plain && eat(c, "}");
    }
    *out = (text_span){from, (size_t)(c->at - from)};
    return plain;
}

static bool span_is(text_span span, const char *text)
{
    return strlen(text) == span.length && memcmp(span.from, text, span.length) == 0;
}

/* The quote behind the text becomes its end. */
static const char *ended(char *line, text_span span)
{
    line[span.from - line + (ptrdiff_t)span.length] = 0;
    return span.from;
}

bool line_scan(char *line, size_t length, const char *id, scanned_line *out)
{
    cursor c = {line, line + length};
    text_span its_case, before, writer, time, kind;
    *out = (scanned_line){.record = {.writer = ""}};
    tt_record *r = &out->record;
    bool fits = eat(&c, "{\"version\":1,\"case\":") && eat_plain(&c, &its_case) &&
                span_is(its_case, id) && eat(&c, ",\"writer\":") && eat_plain(&c, &writer) &&
                eat(&c, ",\"seq\":") && eat_number(&c, &r->number) && eat(&c, ",\"lamport\":") &&
                eat_number(&c, &r->lamport) && eat(&c, ",\"time\":") && eat_plain(&c, &time) &&
                eat(&c, ",\"before\":") && eat_plain(&c, &before) && eat_seen(&c, &out->seen) &&
                eat(&c, ",\"kind\":") && eat_plain(&c, &kind) && eat(&c, ",\"data\":");
    if (!fits || c.end - c.at < 3 || *c.at != '{' || memcmp(c.end - 2, "}}", 2) != 0) return false;
    out->data = (text_span){c.at, (size_t)(c.end - c.at) - 1};
    r->writer = ended(line, writer);
    r->time = ended(line, time);
    r->kind = ended(line, kind);
    return true;
}
