/* Characters, in normal forms and on screens. The only file that sees utf8proc. */
#include "base/unicode.h"

#include <assert.h>
#include <string.h>
#include <utf8proc.h>

enum { REPLACEMENT = 0xFFFD, TAB_CELLS = 8 };

/* Length of the well-formed character at `offset` and its code point, or 0. */
static size_t decode(str text, size_t offset, uint32_t *point)
{
    static const uint32_t least[5] = {0, 0, 0x80, 0x800, 0x10000};
    const unsigned char *p = (const unsigned char *)text.p + offset;
    if (p[0] < 0x80) {
        *point = p[0];
        return 1;
    }
    size_t length = p[0] >= 0xF0 ? 4 : p[0] >= 0xE0 ? 3 : 2;
    if (p[0] < 0xC2 || p[0] > 0xF4 || text.n - offset < length) return 0;
    uint32_t value = p[0] & (0x7FU >> length);
    for (size_t i = 1; i < length; i++) {
        if ((p[i] & 0xC0) != 0x80) return 0;
        value = value << 6 | (p[i] & 0x3F);
    }
    bool surrogate = value >= 0xD800 && value <= 0xDFFF;
    if (value < least[length] || value > 0x10FFFF || surrogate) return 0;
    *point = value;
    return length;
}

/* Eight bytes at once: in none of these sums does one byte carry into the next. */
#define EACH(byte) (UINT64_C(0x0101010101010101) * (byte))

static bool all_plain(uint64_t bytes)
{
    const uint64_t high = EACH(0x80), low = bytes & ~high;
    const uint64_t space_or_more = (low | high) - EACH(0x20);
    const uint64_t no_newline = (low ^ EACH('\n')) + EACH(0x7F),
                   no_delete = (low ^ EACH(0x7F)) + EACH(0x7F);
    return ((bytes | (~space_or_more & no_newline) | ~no_delete) & high) == 0;
}

static bool is_plain_byte(unsigned char c)
{
    return (c >= 0x20 && c < 0x7F) || c == '\n';
}

/* Many at once, with no branch between them: a compiler makes a few wide instructions of it. */
enum { WIDE = 128 };

static bool all_wide_plain(const char *text)
{
    unsigned char farthest = 0; /* from a space on, round the end of the bytes */
    for (size_t i = 0; i < WIDE; i++) {
        const unsigned char c = (unsigned char)text[i],
                            from_space = (unsigned char)((c - ' ') & -(c != '\n'));
        farthest = from_space > farthest ? from_space : farthest;
    }
    return farthest <= '~' - ' ';
}

size_t unicode_plain_end(str text, size_t at)
{
    while (text.n - at >= WIDE && all_wide_plain(text.p + at)) at += WIDE;
    for (uint64_t bytes; text.n - at >= sizeof bytes; at += sizeof bytes) {
        memcpy(&bytes, text.p + at, sizeof bytes);
        if (!all_plain(bytes)) break;
    }
    while (at < text.n && is_plain_byte((unsigned char)text.p[at])) at++;
    return at;
}

size_t unicode_first_bad(str text)
{
    uint32_t point;
    for (size_t i = 0; (i = unicode_plain_end(text, i)) < text.n;) {
        const size_t length = decode(text, i, &point);
        if (length == 0) return i;
        i += length;
    }
    return SIZE_MAX;
}

uint32_t unicode_next(str text, size_t *offset)
{
    assert(*offset < text.n);
    uint32_t point = REPLACEMENT;
    size_t length = decode(text, *offset, &point);
    *offset += length == 0 ? 1 : length;
    return point;
}

size_t unicode_points(str text)
{
    size_t count = 0;
    for (size_t i = 0; i < text.n; count++) unicode_next(text, &i);
    return count;
}

bool unicode_unsafe(uint32_t point)
{
    if (point < 0x20) return point != '\t' && point != '\n';
    if (point < 0x7F) return false;
    if (point < 0xA0) return true;
    return point == 0x061C || point == 0x200E || point == 0x200F ||
           (point >= 0x2028 && point <= 0x202E) || (point >= 0x2066 && point <= 0x2069) ||
           point == 0xFEFF || point == 0xFFFE || point == 0xFFFF;
}

size_t unicode_first_unsafe(str text)
{
    for (size_t i = 0; (i = unicode_plain_end(text, i)) < text.n;) {
        const size_t start = i;
        if (unicode_unsafe(unicode_next(text, &i))) return start;
    }
    return SIZE_MAX;
}

static void put(char *bytes, size_t *length, uint32_t point)
{
    utf8proc_ssize_t n =
        utf8proc_encode_char((utf8proc_int32_t)point, (utf8proc_uint8_t *)bytes + *length);
    assert(n > 0);
    *length += (size_t)n;
}

str unicode_capital(arena *keep, str text)
{
    if (text.n == 0) return text;
    size_t rest = 0, length = 0;
    uint32_t point = unicode_next(text, &rest);
    char *bytes = arena_take(keep, text.n + 4); /* a capital may be longer than its small letter */
    put(bytes, &length, (uint32_t)utf8proc_totitle((utf8proc_int32_t)point));
    memcpy(bytes + length, text.p + rest, text.n - rest);
    return (str){bytes, length + text.n - rest};
}

/* End of the terminal's control sequence whose introducer ends at `i`. */
static size_t control_sequence_end(str text, size_t i)
{
    while (i < text.n && text.p[i] >= 0x20 && text.p[i] <= 0x3F) i++;
    return i < text.n && text.p[i] >= 0x40 && text.p[i] <= 0x7E ? i + 1 : i;
}

/* A bad byte becomes three bytes, so three times the length is room enough. */
static str cleaned(arena *keep, str text, bool only_bad)
{
    char *bytes = arena_take_array(keep, text.n + 1, 3);
    size_t length = 0;
    for (size_t i = 0; i < text.n;) {
        uint32_t point = unicode_next(text, &i);
        bool escape = point == 0x9B || (point == 0x1B && i < text.n && text.p[i] == '[');
        if (only_bad || !unicode_unsafe(point))
            put(bytes, &length, point);
        else if (escape)
            i = control_sequence_end(text, point == 0x1B ? i + 1 : i);
    }
    return (str){bytes, length};
}

str unicode_clean(arena *keep, str text)
{
    return cleaned(keep, text, false);
}

static bool is_ascii(str text)
{
    for (size_t i = 0; i < text.n; i++)
        if ((unsigned char)text.p[i] >= 0x80) return false;
    return true;
}

/* Decomposed and, if the options say so, composed again: in the arena's memory, never in
 * utf8proc's. */
static str transformed(arena *keep, str text, utf8proc_option_t options)
{
    if (unicode_first_bad(text) != SIZE_MAX) text = cleaned(keep, text, true);
    const utf8proc_uint8_t *bytes = (const utf8proc_uint8_t *)text.p;
    utf8proc_ssize_t size = (utf8proc_ssize_t)text.n;
    utf8proc_ssize_t needed = utf8proc_decompose(bytes, size, NULL, 0, options);
    assert(needed >= 0);
    utf8proc_int32_t *points = ARENA_ARRAY(keep, utf8proc_int32_t, (size_t)needed + 1);
    utf8proc_ssize_t written = utf8proc_decompose(bytes, size, points, needed, options);
    assert(written == needed);
    utf8proc_ssize_t length = utf8proc_reencode(points, written, options);
    assert(length >= 0);
    return (str){(const char *)points, (size_t)length};
}

str unicode_nfc(arena *keep, str text)
{
    if (is_ascii(text)) return str_copy(keep, text);
    return transformed(keep, text, UTF8PROC_STABLE | UTF8PROC_COMPOSE);
}

static str ascii_lower(arena *keep, str text)
{
    char *lower = arena_take(keep, text.n + 1);
    for (size_t i = 0; i < text.n; i++) {
        char c = text.p[i];
        lower[i] = c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
    }
    return (str){lower, text.n};
}

str unicode_fold(arena *keep, str text)
{
    if (is_ascii(text)) return ascii_lower(keep, text);
    return transformed(keep, text, UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_CASEFOLD);
}

static bool is_ascii_word(unsigned char c)
{
    return (unsigned)(c | 0x20) - 'a' < 26 || (unsigned)c - '0' < 10;
}

static bool letter_or_digit(uint32_t point)
{
    if (point < 0x80) return is_ascii_word((unsigned char)point);
    utf8proc_category_t c = utf8proc_category((utf8proc_int32_t)point);
    bool letter = c >= UTF8PROC_CATEGORY_LU && c <= UTF8PROC_CATEGORY_LO;
    return letter || (c >= UTF8PROC_CATEGORY_ND && c <= UTF8PROC_CATEGORY_NO);
}

static bool is_apostrophe(uint32_t point)
{
    return point == '\'' || point == 0x2019 || point == 0x02BC;
}

/* What unicode_plain does, of the letters that nearly all texts are made of. False: there are
 * others in it. `to` has room for the text and one more. */
static bool plain_of_ascii(str text, char *to, size_t *length)
{
    size_t n = 0;
    for (size_t i = 0; i < text.n; i++) {
        const unsigned char c = (unsigned char)text.p[i], small = c | 0x20;
        if (c >= 0x80) return false;
        if ((unsigned)small - 'a' < 26)
            to[n++] = (char)small;
        else if ((unsigned)c - '0' < 10)
            to[n++] = (char)c;
        else if (c != '\'' && n > 0 && to[n - 1] != ' ')
            to[n++] = ' ';
    }
    if (n > 0 && to[n - 1] == ' ') n--;
    to[n] = '\0';
    *length = n;
    return true;
}

str unicode_plain(arena *keep, str text)
{
    utf8proc_option_t options = UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_COMPAT |
                                UTF8PROC_CASEFOLD | UTF8PROC_STRIPMARK;
    size_t length = 0;
    const arena_mark before = arena_here(keep);
    char *plain = arena_take_unset(keep, text.n + 1);
    if (plain_of_ascii(text, plain, &length)) return (str){plain, length};
    arena_back_to(keep, before);
    str folded = transformed(keep, text, options);
    plain = arena_take(keep, folded.n + 1);
    length = 0;
    bool gap = false;
    for (size_t i = 0; i < folded.n;) {
        uint32_t point = unicode_next(folded, &i);
        bool word = letter_or_digit(point);
        if (word && gap && length > 0) plain[length++] = ' ';
        if (word) put(plain, &length, point);
        /* "won't", "won’t" and "wont" are one word to those who type them */
        if (word || !is_apostrophe(point)) gap = !word;
    }
    assert(length <= folded.n);
    return (str){plain, length};
}

static bool is_mark(uint32_t point)
{
    utf8proc_category_t c = utf8proc_category((utf8proc_int32_t)point);
    return c >= UTF8PROC_CATEGORY_MN && c <= UTF8PROC_CATEGORY_ME;
}

bool unicode_next_word(str text, size_t *at, str *word)
{
    size_t from = SIZE_MAX, end = 0;
    while (*at < text.n) {
        size_t here = *at;
        uint32_t point = unicode_next(text, at);
        if (letter_or_digit(point)) {
            if (from == SIZE_MAX) from = here;
            end = *at;
        } else if (from != SIZE_MAX && is_mark(point)) {
            end = *at;
        } else if (from != SIZE_MAX && !is_apostrophe(point)) {
            *at = here;
            break;
        }
    }
    if (from == SIZE_MAX) return false;
    assert(from < end && end <= text.n);
    *word = str_slice(text, from, end);
    return true;
}

size_t unicode_width(str text, size_t start_cell)
{
    size_t cell = start_cell;
    for (size_t i = 0; i < text.n;) {
        uint32_t point = unicode_next(text, &i);
        if (point == '\t')
            cell += TAB_CELLS - cell % TAB_CELLS;
        else
            cell += (size_t)utf8proc_charwidth((utf8proc_int32_t)point);
    }
    return cell - start_cell;
}
