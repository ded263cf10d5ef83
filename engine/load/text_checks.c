/* What is wrong with a text that the parser took as it is. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "load/checks.h"

/* A file may be free of unsafe characters and still write one as an escape in double quotes. */
static void check_unsafe(str text, span at, faults *list)
{
    size_t i = unicode_first_unsafe(text);
    if (i == SIZE_MAX) return;
    fault *f =
        fault_add(list, FAULT_UNSAFE_CHARACTER, at,
                  "This text holds the character U+%04X, which is invisible, or changes how a "
                  "screen shows what follows it",
                  unicode_next(text, &i));
    fault_help(list, f, "leave it out");
}

/* In double quotes a backslash belongs to the quotes, so that the pattern gets something else than
 * what is seen. */
static bool check_pattern(const source *s, str text, span at, faults *list)
{
    if (text.n < 2 || text.p[0] != '/' || text.p[text.n - 1] != '/') return true;
    str raw = str_slice(s->bytes, at.start, at.end);
    if (str_find_byte(raw, '\\') == SIZE_MAX) return true;
    fault *f = fault_add(list, FAULT_PATTERN_IN_QUOTES, at,
                         "A backslash in double quotes does not reach the pattern as it stands");
    fault_help(list, f, "write the pattern without quotes, or in single quotes: '%.*s'",
               STR_ARG(str_slice(raw, 1, raw.n - 1)));
    return false;
}

/* What is said below of plain texts can't happen in quotes.
 *
 * A list below a text that began on the key's line is taken as more of that text. */
static void check_swallowed_list(const source *s, span at, faults *list)
{
    const str raw = {s->bytes.p + at.start, at.end - at.start};
    for (size_t i = 0, next; i < raw.n; i++) {
        next = str_find_byte(str_slice(raw, i, raw.n), '\n');
        if (next == SIZE_MAX) return;
        i += next;
        size_t dash = i + 1;
        while (dash < raw.n && raw.p[dash] == ' ') dash++;
        if (dash + 1 >= raw.n || raw.p[dash] != '-' || raw.p[dash + 1] != ' ') continue;
        uint32_t start = at.start + (uint32_t)dash;
        fault *f = fault_add(list, FAULT_LIST_IN_TEXT, (span){at.file, start, start + 1},
                             "This is not read as a list item but as more of the text above it");
        fault_note_at(list, f, at, "the text begins here");
        fault_help(list, f, "for a list, write the first item too as '- ' on a line of its own");
        return;
    }
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* One word, or a number and its unit: what follows can hardly have been meant as more of it. */
static bool is_short(str text)
{
    size_t blank = str_find_byte(text, ' ');
    if (blank == SIZE_MAX) return true;
    return is_digit(text.p[0]) &&
           str_find_byte(str_slice(text, blank + 1, text.n), ' ') == SIZE_MAX;
}

/* `Press button #3`: everything from # on is a comment to YAML. A comment that is meant as one has
 * two spaces before it, or stands after a single word. */
static void check_lost_words(const source *s, str text, span at, faults *list)
{
    assert(at.end <= s->bytes.n);
    str bytes = s->bytes;
    size_t sign = (size_t)at.end + 1;
    if (sign >= bytes.n || bytes.p[at.end] != ' ' || bytes.p[sign] != '#') return;
    bool spaced = sign + 1 < bytes.n && (bytes.p[sign + 1] == ' ' || bytes.p[sign + 1] == '\t');
    if (spaced && is_short(text)) return;
    size_t end = sign;
    while (end < bytes.n && bytes.p[end] != '\n' && bytes.p[end] != '\r') end++;
    str lost = str_trim(str_slice(bytes, sign, end));
    span from_sign = {at.file, (uint32_t)sign, (uint32_t)(sign + lost.n)};
    fault *f = fault_add(list, FAULT_LOST_WORDS, from_sign,
                         "'%.*s' is a comment, not part of the text before it", STR_ARG(lost));
    fault_help(list, f,
               "if it belongs to the text, put the whole text in quotes; if it is a comment, put "
               "two spaces before '#'");
}

/* A text in the quotes of a word processor shows them to people; YAML has others. */
static void check_curly(str text, span at, faults *list)
{
    static const char *const opens[] = {"\xE2\x80\x9C", "\xE2\x80\x9E", "\xE2\x80\x98", "\xC2\xAB"},
                             *const closes[] = {"\xE2\x80\x9D", "\xE2\x80\x9C", "\xE2\x80\x99",
                                                "\xC2\xBB"};
    bool open = false, close = false;
    if (text.n == 0 || ((unsigned char)text.p[0] & 0x80) == 0) return; /* none of them is ASCII */
    for (size_t i = 0; i < sizeof opens / sizeof opens[0]; i++) {
        open = open || str_starts(text, opens[i]);
        close = close || str_ends(text, closes[i]);
    }
    if (!open || !close) return;
    fault *f = fault_add(list, FAULT_CURLY_QUOTES, at,
                         "These curly quotes are shown to people as part of the text");
    fault_help(list, f, "leave them out, or write plain ones: \"...\"");
}

/* "heard: dry, nothing]": the list was never opened, and it is one text with a bracket at its end.
 */
static void check_stray_bracket(str text, span at, faults *list)
{
    const char close = text.n > 0 ? text.p[text.n - 1] : 0;
    if ((close != ']' && close != '}') || text.p[0] == '/') return;
    const char open = close == ']' ? '[' : '{';
    if (memchr(text.p, open, text.n) != NULL) return;
    fault *f = fault_add(list, FAULT_BRACKET_OPEN, (span){at.file, at.end - 1, at.end},
                         "This '%c' closes nothing", close);
    fault_help(list, f,
               "open it where the list or map begins, with '%c'; for a text that ends so, put it "
               "in quotes",
               open);
}

void check_text(const source *s, str text, span at, faults *list)
{
    assert(at.start <= at.end && at.end <= s->bytes.n);
    if (check_pattern(s, text, at, list)) check_unsafe(text, at, list);
}

void check_value(const source *s, str text, node_style style, span at, faults *list)
{
    if (style == STYLE_DOUBLE) check_text(s, text, at, list);
    check_curly(text, at, list);
    if (style != STYLE_PLAIN) return;
    check_stray_bracket(text, at, list);
    check_swallowed_list(s, at, list);
    check_lost_words(s, text, at, list);
}
