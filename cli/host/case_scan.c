#include "host/case_scan.h"

#include <string.h>

typedef struct cursor {
    const char *at, *end;
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
    c->at = end + 1;
    for (size_t i = 0; i < out->length; i++)
        if (out->from[i] == '\\' || (unsigned char)out->from[i] < ' ' ||
            (unsigned char)out->from[i] > '~')
            return false;
    return true;
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

bool span_is(text_span span, const char *text)
{
    return strlen(text) == span.length && memcmp(span.from, text, span.length) == 0;
}

bool line_scan(const char *line, size_t length, const char *uuid, scanned_line *out)
{
    cursor c = {line, line + length};
    text_span its_case, before;
    *out = (scanned_line){.number = 0};
    bool fits = eat(&c, "{\"version\":1,\"case\":") && eat_plain(&c, &its_case) &&
                span_is(its_case, uuid) && eat(&c, ",\"writer\":") && eat_plain(&c, &out->writer) &&
                eat(&c, ",\"seq\":") && eat_number(&c, &out->number) && eat(&c, ",\"lamport\":") &&
                eat_number(&c, &out->lamport) && eat(&c, ",\"time\":") &&
                eat_plain(&c, &out->time) && eat(&c, ",\"before\":") && eat_plain(&c, &before) &&
                eat_seen(&c, &out->seen) && eat(&c, ",\"kind\":") && eat_plain(&c, &out->kind) &&
                eat(&c, ",\"data\":");
    if (!fits || c.end - c.at < 3 || *c.at != '{' || memcmp(c.end - 2, "}}", 2) != 0) return false;
    out->data = (text_span){c.at, (size_t)(c.end - c.at) - 1};
    return true;
}

/* ---- times ---- */

static bool digits(const char *text, unsigned count, int *out)
{
    *out = 0;
    for (unsigned i = 0; i < count; i++) {
        if (text[i] < '0' || text[i] > '9') return false;
        *out = *out * 10 + (text[i] - '0');
    }
    return true;
}

/* Days since 1970 in the Gregorian calendar: years begin in March, so that the day put in comes
 * last. */
static int64_t days_since_1970(int year, int month, int day)
{
    int64_t y = month > 2 ? year : year - 1, m = month > 2 ? month - 3 : month + 9;
    return 365 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + day - 1 - 719468;
}

/* "Z", "+01:00". */
static bool offset_read(const char *text, size_t length, int *minutes)
{
    int hours, rest;
    *minutes = 0;
    if (length == 1) return *text == 'Z' || *text == 'z';
    if (length != 6 || (*text != '+' && *text != '-') || text[3] != ':' ||
        !digits(text + 1, 2, &hours) || !digits(text + 4, 2, &rest))
        return false;
    *minutes = (*text == '-' ? -1 : 1) * (hours * 60 + rest);
    return hours < 24 && rest < 60;
}

bool moment_read(const char *text, size_t length, int64_t *out)
{
    enum { WHOLE_SECONDS = 19 };
    int year, month, day, hour, minute, second, offset, milliseconds = 0, weight = 100;
    if (length < WHOLE_SECONDS + 1 || text[4] != '-' || text[7] != '-' || text[13] != ':' ||
        text[16] != ':')
        return false;
    if (!digits(text, 4, &year) || !digits(text + 5, 2, &month) || !digits(text + 8, 2, &day) ||
        !digits(text + 11, 2, &hour) || !digits(text + 14, 2, &minute) ||
        !digits(text + 17, 2, &second))
        return false;
    size_t at = WHOLE_SECONDS;
    if (text[at] == '.')
        for (at++; at < length && text[at] >= '0' && text[at] <= '9'; at++, weight /= 10)
            milliseconds += weight * (text[at] - '0');
    if (month < 1 || month > 12 || day < 1 || day > 31 || hour > 23 || minute > 59 || second > 60)
        return false;
    if (at == length || !offset_read(text + at, length - at, &offset)) return false;
    int64_t seconds = (days_since_1970(year, month, day) * 24 + hour) * 3600 +
                      (int64_t)(minute - offset) * 60 + second;
    *out = seconds * 1000 + milliseconds;
    return true;
}
