#include "host/plain_text.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <wchar.h>

#include "host/exits.h"

enum { REPLACEMENT = 0xFFFD, LONGEST_SUGGESTED = 40 };

void memory_ended(void)
{
    fputs("telltale: there is no memory left\n", stderr);
    exit(EXIT_OUR_BUG);
}

static void *or_leave(void *memory)
{
    if (memory == NULL) memory_ended();
    return memory;
}

void *take_memory(size_t size)
{
    return or_leave(calloc(1, size > 0 ? size : 1));
}

void *more_memory(void *old, size_t new_size)
{
    return or_leave(realloc(old, new_size > 0 ? new_size : 1));
}

void *room_for_one(void *array, size_t count, size_t element_size)
{
    assert(element_size > 0);
    if ((count & (count + 1)) != 0 && count != 0) return array;
    size_t room = 2 * (count + 1);
    assert(room <= SIZE_MAX / element_size);
    return more_memory(array, room * element_size);
}

char *copy_text(const char *text)
{
    assert(text != NULL);
    size_t size = strlen(text) + 1;
    return memcpy(take_memory(size), text, size);
}

char *format_text_list(const char *format, va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    assert(length >= 0);
    size_t size = (size_t)length + 1;
    char *text = take_memory(size);
    vsnprintf(text, size, format, arguments);
    return text;
}

char *format_text(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = format_text_list(format, arguments);
    va_end(arguments);
    return text;
}

/* Bytes that a sequence beginning so must have, or 0. */
static unsigned sequence_length(unsigned char lead)
{
    if (lead < 0x80) return 1;
    if (lead >= 0xC2 && lead < 0xE0) return 2;
    if (lead >= 0xE0 && lead < 0xF0) return 3;
    return lead >= 0xF0 && lead < 0xF5 ? 4 : 0;
}

static bool is_well_formed(uint32_t point, unsigned length)
{
    static const uint32_t smallest[] = {0, 0, 0x80, 0x800, 0x10000};
    assert(length <= 4);
    return point >= smallest[length] && point <= 0x10FFFF && !(point >= 0xD800 && point < 0xE000);
}

uint32_t next_code_point(const char **text)
{
    const unsigned char *p = (const unsigned char *)*text;
    if (*p == 0) return 0;
    unsigned length = sequence_length(*p);
    *text += 1;
    if (length == 0) return REPLACEMENT;
    if (length == 1) return *p;
    uint32_t point = *p & (0x7Fu >> length);
    for (unsigned i = 1; i < length; i++) {
        if ((p[i] & 0xC0) != 0x80) return REPLACEMENT;
        point = point << 6 | (p[i] & 0x3Fu);
    }
    if (!is_well_formed(point, length)) return REPLACEMENT;
    *text += length - 1;
    return point;
}

static bool is_unsafe(uint32_t point)
{
    if (point == '\n') return false;
    if (point < 0x20 || (point >= 0x7F && point < 0xA0)) return true;
    if (point == 0x061C || point == 0xFEFF || point == 0x2028 || point == 0x2029) return true;
    return (point >= 0x200E && point <= 0x200F) || (point >= 0x202A && point <= 0x202E) ||
           (point >= 0x2066 && point <= 0x2069);
}

/* Where an escape sequence that begins at `p` ends: ESC [ … letter, else ESC and nothing more. */
static const char *after_escape(const char *p)
{
    assert(*p == 0x1B);
    if (*++p != '[') return p;
    do p++;
    while (*p != 0 && (*p < 0x40 || *p > 0x7E));
    return *p != 0 ? p + 1 : p;
}

char *clean_text(const char *text)
{
    char *out = take_memory(3 * strlen(text) + 1), *end = out;
    while (*text != 0) {
        if (*text == 0x1B) {
            text = after_escape(text);
            continue;
        }
        const char *from = text;
        uint32_t point = next_code_point(&text);
        if (point == '\t') {
            *end++ = ' ';
        } else if (point == REPLACEMENT) {
            memcpy(end, "\xEF\xBF\xBD", 3);
            end += 3;
        } else if (!is_unsafe(point)) {
            memcpy(end, from, (size_t)(text - from));
            end += text - from;
        }
    }
    *end = 0;
    return out;
}

bool is_clean_name(const char *name)
{
    while (*name != 0) {
        uint32_t point = next_code_point(&name);
        if (point == REPLACEMENT || point == '\n' || is_unsafe(point)) return false;
    }
    return true;
}

size_t display_width(const char *text, size_t bytes)
{
    size_t cells = 0;
    const char *end = text + bytes;
    while (text < end) {
        int wide = wcwidth((wchar_t)next_code_point(&text));
        cells += wide < 0 ? 1 : (size_t)wide;
    }
    return cells;
}

static bool is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

bool is_language_tag(const char *text)
{
    static const char allowed[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
    const size_t letters = strspn(text, allowed), figures = strcspn(text, "0123456789");
    if (letters < 2 || letters > 3 || figures < letters) return false;
    for (const char *at = text + letters; *at != 0;) {
        if (*at++ != '-') return false;
        const size_t part = strspn(at, allowed);
        if (part == 0 || part > 8) return false;
        at += part;
    }
    return true;
}

char *trim_text(const char *text)
{
    while (is_space(*text)) text++;
    char *out = copy_text(text);
    size_t length = strlen(out);
    while (length > 0 && is_space(out[length - 1])) out[--length] = 0;
    return out;
}

char *fold_text(const char *text)
{
    char *out = trim_text(text), *end = out;
    for (const char *p = out; *p != 0; p++) {
        if (is_space(*p) && is_space(p[1])) continue;
        *end++ = *p >= 'A' && *p <= 'Z' ? (char)(*p - 'A' + 'a') : is_space(*p) ? ' ' : *p;
    }
    *end = 0;
    return out;
}

char *shell_word(const char *text)
{
    static const char plain[] =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_./-+,:@%";
    if (*text != 0 && strspn(text, plain) == strlen(text)) return copy_text(text);
    char *out = take_memory(4 * strlen(text) + 3), *end = out;
    *end++ = '\'';
    for (; *text != 0; text++) {
        if (*text == '\'') {
            memcpy(end, "'\\''", 4);
            end += 4;
        } else {
            *end++ = *text;
        }
    }
    *end = '\'';
    return out;
}

static size_t smallest_of(size_t a, size_t b, size_t c)
{
    size_t least = a < b ? a : b;
    return least < c ? least : c;
}

/* Edits (a swap of neighbours counts as one) from a to b, both short. */
static size_t edits_between(const char *a, const char *b)
{
    size_t rows[3][LONGEST_SUGGESTED + 1];
    size_t a_length = strlen(a), b_length = strlen(b);
    assert(a_length <= LONGEST_SUGGESTED && b_length <= LONGEST_SUGGESTED);
    for (size_t j = 0; j <= b_length; j++) rows[0][j] = j;
    for (size_t i = 1; i <= a_length; i++) {
        size_t *now = rows[i % 3];
        const size_t *last = rows[(i + 2) % 3], *before_last = rows[(i + 1) % 3];
        now[0] = i;
        for (size_t j = 1; j <= b_length; j++) {
            now[j] = smallest_of(last[j] + 1, now[j - 1] + 1, last[j - 1] + (a[i - 1] != b[j - 1]));
            bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if (swapped && before_last[j - 2] + 1 < now[j]) now[j] = before_last[j - 2] + 1;
        }
    }
    return rows[a_length % 3][b_length];
}

const char *nearest_word(const char *wrong, const char *const *words, size_t count)
{
    const char *best = NULL;
    size_t length = strlen(wrong);
    if (length > LONGEST_SUGGESTED) return NULL;
    size_t fewest = 2 + length / 4;
    for (size_t i = 0; i < count; i++) {
        if (strlen(words[i]) > LONGEST_SUGGESTED) continue;
        size_t edits = edits_between(wrong, words[i]);
        if (edits >= fewest || edits >= length) continue;
        fewest = edits;
        best = words[i];
    }
    return best;
}
