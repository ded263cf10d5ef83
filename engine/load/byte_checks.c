/* What a file may not hold, looked at before the parser sees it. */
#include <assert.h>

#include "base/unicode.h"
#include "load/checks.h"

static bool check_size(const source *s, uint32_t file, faults *list)
{
    if (s->bytes.n <= LOAD_FILE_MAX) return true;
    fault *f = fault_add(list, FAULT_FILE_TOO_LARGE, (span){file, 0, 0},
                         "This file has %zu bytes; the most is %u MiB", s->bytes.n,
                         (unsigned)LOAD_FILE_MAX / 1024 / 1024);
    fault_help(list, f, "split it: any file of the folder may hold any section");
    return false;
}

static bool is_utf16(str bytes)
{
    return bytes.n >= 2 && (str_starts(bytes, "\xFF\xFE") || str_starts(bytes, "\xFE\xFF"));
}

static bool check_encoding(const source *s, uint32_t file, faults *list)
{
    assert(s->bytes.n <= LOAD_FILE_MAX);
    size_t bad = unicode_first_bad(s->bytes);
    if (bad == SIZE_MAX) return true;
    fault *f;
    if (is_utf16(s->bytes))
        f = fault_add(list, FAULT_NOT_UTF8, (span){file, 0, 0}, "This file is UTF-16, not UTF-8");
    else
        f = fault_add(list, FAULT_NOT_UTF8, (span){file, (uint32_t)bad, (uint32_t)bad + 1},
                      "This file is not UTF-8: the byte 0x%02X makes no character here",
                      (unsigned)(unsigned char)s->bytes.p[bad]);
    fault_help(list, f, "in the editor, save the file with the encoding UTF-8");
    return false;
}

/* In a file a line may end as on Windows, with a carriage return and a line feed. */
static bool unsafe_at(str bytes, size_t *i, uint32_t *point)
{
    *point = unicode_next(bytes, i);
    bool line_end = *point == '\r' && *i < bytes.n && bytes.p[*i] == '\n';
    return unicode_unsafe(*point) && !line_end;
}

static uint32_t count_unsafe(str bytes, size_t i)
{
    uint32_t count = 0, point;
    while ((i = unicode_plain_end(bytes, i)) < bytes.n) count += unsafe_at(bytes, &i, &point);
    return count;
}

static bool check_characters(const source *s, uint32_t file, faults *list)
{
    for (size_t i = source_text_start(s); (i = unicode_plain_end(s->bytes, i)) < s->bytes.n;) {
        const size_t start = i;
        uint32_t point;
        if (!unsafe_at(s->bytes, &i, &point)) continue;
        fault *f =
            fault_add(list, FAULT_UNSAFE_CHARACTER, (span){file, (uint32_t)start, (uint32_t)i},
                      "The character U+%04X is invisible, or changes how a screen shows what "
                      "follows it",
                      point);
        uint32_t more = count_unsafe(s->bytes, i);
        if (more == 0)
            fault_help(list, f, "delete it");
        else
            fault_help(list, f, "delete it, and %u more after it in this file", more);
        return false;
    }
    return true;
}

/* It looks like a space and is none: to indent, after a sign, or between a number and its unit. */
static bool is_hard_space(uint32_t point)
{
    return point == 0xA0 || point == 0x2007 || point == 0x202F;
}

static bool stands_for_space(str bytes, size_t first, size_t start)
{
    size_t line = start;
    while (line > first && bytes.p[line - 1] == ' ') line--;
    if (line == first || bytes.p[line - 1] == '\n') return true;
    const char before = bytes.p[start - 1];
    return before == ':' || before == '-' || before == ',' || before == '{' || before == '[' ||
           (before >= '0' && before <= '9');
}

static bool check_spaces(const source *s, uint32_t file, faults *list)
{
    const size_t first = source_text_start(s);
    for (size_t i = first; (i = unicode_plain_end(s->bytes, i)) < s->bytes.n;) {
        const size_t start = i;
        const uint32_t point = unicode_next(s->bytes, &i);
        if (is_hard_space(point) && stands_for_space(s->bytes, first, start)) {
            fault *f =
                fault_add(list, FAULT_HARD_SPACE, (span){file, (uint32_t)start, (uint32_t)i},
                          "This is a no-break space, which looks like a space and is none here");
            fault_help(list, f, "delete it and press the space bar");
            return false;
        }
    }
    return true;
}

static size_t sign_from(str bytes, size_t at)
{
    const size_t found = str_find_byte(str_slice(bytes, at, bytes.n), '%');
    return found == SIZE_MAX ? bytes.n : at + found;
}

/* Each costs the parser time that grows with the square of their number, and none has a meaning
 * here. */
static bool check_directives(const source *s, uint32_t file, faults *list)
{
    const str bytes = s->bytes;
    const size_t first = source_text_start(s);
    size_t i = first;
    for (; (i = sign_from(bytes, i)) < bytes.n; i++)
        if (i == first || bytes.p[i - 1] == '\n' || bytes.p[i - 1] == '\r') break;
    if (i == bytes.n) return true;
    size_t end = i;
    while (end < bytes.n && bytes.p[end] != '\n' && bytes.p[end] != '\r') end++;
    fault *f = fault_add(list, FAULT_DIRECTIVE, (span){file, (uint32_t)i, (uint32_t)end},
                         "A line can't begin with %%");
    fault_help(list, f, "delete the line; if it belongs to a text, indent it");
    return false;
}

bool check_bytes(const sources *all, uint32_t file, faults *list)
{
    assert(file < all->count);
    const source *s = &all->items[file];
    if (!check_size(s, file, list)) return false;
    const bool plain = unicode_plain_end(s->bytes, 0) == s->bytes.n; /* as most files are */
    return (plain || (check_encoding(s, file, list) && check_characters(s, file, list) &&
                      check_spaces(s, file, list))) &&
           check_directives(s, file, list);
}
