/* Finding one's way in the lines of a file, byte by byte. */
#include "load/lines.h"

#include <assert.h>
#include <string.h>

static bool is_break(char c)
{
    return c == '\n' || c == '\r';
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

uint32_t line_start(str bytes, uint32_t i)
{
    assert(i <= bytes.n);
    while (i > 0 && !is_break(bytes.p[i - 1])) i--;
    return i;
}

uint32_t line_end_trimmed(str bytes, uint32_t i)
{
    uint32_t end = i;
    while (end < bytes.n && !is_break(bytes.p[end])) end++;
    while (end > i && is_blank(bytes.p[end - 1])) end--;
    assert(end >= i);
    return end;
}

uint32_t comment_start(str bytes, uint32_t from, uint32_t to)
{
    assert(from <= to && to <= bytes.n);
    uint32_t end = from;
    while (end < to && !(is_blank(bytes.p[end]) && end + 1 < to && bytes.p[end + 1] == '#')) end++;
    while (end > from && end < to && is_blank(bytes.p[end - 1])) end--;
    return end;
}

uint32_t line_content(str bytes, uint32_t i)
{
    uint32_t content = line_start(bytes, i);
    assert(content <= i);
    while (content < bytes.n && is_blank(bytes.p[content])) content++;
    return content;
}

uint32_t item_content(str bytes, uint32_t dash)
{
    while (dash < bytes.n && (bytes.p[dash] == '-' || is_blank(bytes.p[dash]))) dash++;
    return dash;
}

uint32_t indentation(str bytes, uint32_t i)
{
    return line_content(bytes, i) - line_start(bytes, i);
}

uint32_t column_of(str bytes, uint32_t i)
{
    return i - line_start(bytes, i);
}

bool crosses_line(str bytes, uint32_t from, uint32_t to)
{
    for (uint32_t i = from; i < to && i < bytes.n; i++)
        if (is_break(bytes.p[i])) return true;
    return false;
}

uint32_t next_character(str bytes, uint32_t i)
{
    while (i < bytes.n && (is_blank(bytes.p[i]) || is_break(bytes.p[i]))) i++;
    return i;
}

uint32_t last_character(str bytes, uint32_t i)
{
    assert(i <= bytes.n);
    while (i > 0 && (is_blank(bytes.p[i - 1]) || is_break(bytes.p[i - 1]))) i--;
    if (i > 0) i--;
    while (i > 0 && ((unsigned char)bytes.p[i] & 0xC0) == 0x80) i--;
    return i;
}

uint32_t character_end(str bytes, uint32_t i)
{
    if (i >= bytes.n) return (uint32_t)bytes.n;
    i++;
    while (i < bytes.n && ((unsigned char)bytes.p[i] & 0xC0) == 0x80) i++;
    return i;
}

uint32_t escape_end(str bytes, uint32_t i)
{
    while (i < bytes.n && bytes.p[i] != '\0' &&
           strchr("0123456789abcdefABCDEF", bytes.p[i]) != NULL)
        i++;
    return i;
}
