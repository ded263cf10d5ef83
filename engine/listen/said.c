/* An utterance as words. Folding is unicode_plain's; what parts clauses is seen in the bytes
 * between two words. */
#include "listen/said.h"

#include <assert.h>
#include <string.h>

#include "base/pattern.h"
#include "base/unicode.h"

static bool holds_any(str between, const char *marks)
{
    for (size_t i = 0; i < between.n; i++)
        if (between.p[i] != '\0' && strchr(marks, between.p[i]) != NULL) return true;
    return false;
}

/* "3,1" and "1.5" are one number: the mark between two digits parts nothing. */
static bool inside_number(str text, size_t from, size_t to)
{
    if (to != from + 1 || from == 0 || to >= text.n) return false;
    const char before = text.p[from - 1], after = text.p[to];
    return before >= '0' && before <= '9' && after >= '0' && after <= '9';
}

/* "4 gal/min" is one amount: a slash with a time right behind it parts nothing. */
static bool is_per_time(str between, str plain)
{
    static const char *const times[] = {"min", "minute", "minuto", "h", "hr",  "hour", "hora",
                                        "s",   "sec",    "second", "d", "day", "dia"};
    if (!str_is(between, "/")) return false;
    for (size_t i = 0; i < sizeof times / sizeof *times; i++)
        if (str_is(plain, times[i])) return true;
    return false;
}

static said_word word_at(arena *keep, str text, str word, size_t gap)
{
    const size_t from = (size_t)(word.p - text.p);
    assert(gap <= from && from + word.n <= text.n);
    str between = inside_number(text, gap, from) ? STR("") : str_slice(text, gap, from);
    str plain = unicode_plain(keep, word);
    if (is_per_time(between, plain)) between = STR("");
    return (said_word){
        .plain = plain,
        .from = (uint32_t)from,
        .to = (uint32_t)(from + word.n),
        .number = plain.n > 0 && plain.p[0] >= '0' && plain.p[0] <= '9',
        .pause = holds_any(between, ",()[]:/"),
        .stop = holds_any(between, ".;!?\n"),
    };
}

static uint32_t count_words(str text)
{
    uint32_t count = 0;
    str word;
    for (size_t at = 0; count < SAID_WORDS_MAX && unicode_next_word(text, &at, &word);) count++;
    return count;
}

said said_read(arena *keep, str utterance)
{
    str text = unicode_clean(keep, utterance);
    said_word *words = ARENA_ARRAY(keep, said_word, count_words(text));
    said s = {.text = text, .words = words, .patience = ARENA_NEW(keep, uint32_t)};
    *s.patience = PATTERN_PATIENCE;
    size_t gap = 0;
    str word;
    size_t at = 0;
    while (s.count < SAID_WORDS_MAX && unicode_next_word(text, &at, &word)) {
        said_word w = word_at(keep, text, word, gap);
        gap = w.to;
        if (w.plain.n > 0) words[s.count++] = w;
    }
    s.cut = s.count == SAID_WORDS_MAX && unicode_next_word(text, &at, &word);
    assert(s.count <= SAID_WORDS_MAX);
    return s;
}

said said_within(const said *s, uint32_t first, uint32_t end)
{
    assert(first <= end && end <= s->count);
    return (said){
        .text = s->text, .words = s->words + first, .count = end - first, .patience = s->patience};
}

str said_part(const said *s, uint32_t first, uint32_t end)
{
    assert(end <= s->count);
    if (first >= end) return STR("");
    return str_slice(s->text, s->words[first].from, s->words[end - 1].to);
}
