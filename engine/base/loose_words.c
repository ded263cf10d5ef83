/* How well what a person types fits a few plain words of an author. Both are plain text: small
 * letters, digits, and one space between words. */
#include <assert.h>

#include "base/pattern.h"
#include "base/unicode.h"

enum {
    WORDS_MAX = 64,      /* of an author's words; more than these never fit entirely */
    SUBJECT_WORDS = 512, /* PATTERN_SUBJECT_MAX characters hold no more */
    BETWEEN_MAX = 3,
    SLIP_LENGTH = 6,   /* letters that a word must have for a slip of the finger to be forgiven */
    ENDING_LENGTH = 4, /* ... and for its plural to count as the same word */
};

static size_t split(str text, str *words, size_t most)
{
    size_t count = 0;
    for (size_t i = 0; i < text.n && count < most; count++) {
        size_t length = str_find_byte(str_slice(text, i, text.n), ' ');
        if (length == SIZE_MAX) length = text.n - i;
        words[count] = str_slice(text, i, i + length);
        i += length + 1;
    }
    return count;
}

static size_t count_words(str text)
{
    size_t count = text.n == 0 ? 0 : 1;
    for (size_t i = 0; i < text.n; i++) count += text.p[i] == ' ';
    return count;
}

/* Without the s or es of a plural or of the third person: `starts` and `start`, `brushes` and
 * `brush`. */
static bool same_but_for_ending(str shorter, str longer)
{
    if (shorter.n < ENDING_LENGTH || longer.n <= shorter.n) return false;
    str ending = str_slice(longer, shorter.n, longer.n);
    return str_eq(str_slice(longer, 0, shorter.n), shorter) &&
           (str_is(ending, "s") || str_is(ending, "es"));
}

/* One letter wrong, missing or too many, or two neighbours swapped; never the first letter. */
static bool one_slip(str shorter, str longer)
{
    if (shorter.n < SLIP_LENGTH || longer.n - shorter.n > 1 || shorter.p[0] != longer.p[0])
        return false;
    size_t same = 1;
    while (same < shorter.n && shorter.p[same] == longer.p[same]) same++;
    str rest = str_slice(shorter, same, shorter.n), other = str_slice(longer, same, longer.n);
    if (longer.n > shorter.n) return str_eq(rest, str_slice(other, 1, other.n));
    if (rest.n == 0) return true;
    if (str_eq(str_slice(rest, 1, rest.n), str_slice(other, 1, other.n))) return true;
    return rest.n >= 2 && rest.p[0] == other.p[1] && rest.p[1] == other.p[0] &&
           str_eq(str_slice(rest, 2, rest.n), str_slice(other, 2, other.n));
}

static bool is_number(str word)
{
    return word.n > 0 && word.p[0] >= '0' && word.p[0] <= '9';
}

static bool same_word(str a, str b)
{
    if (str_eq(a, b)) return true;
    if (is_number(a) || is_number(b)) return false;
    str shorter = a.n <= b.n ? a : b, longer = a.n <= b.n ? b : a;
    return same_but_for_ending(shorter, longer) || one_slip(shorter, longer);
}

/* The most words before `end` that are found in order, the last of them at most BETWEEN_MAX words
 * away. */
static size_t best_before(const size_t *best, size_t end)
{
    size_t most = 0;
    size_t first = end > BETWEEN_MAX + 1 ? end - BETWEEN_MAX - 1 : 0;
    for (size_t j = first; j < end; j++)
        if (best[j] > most) most = best[j];
    return most;
}

size_t words_found(str plain_words, str plain_subject, size_t *all)
{
    str words[WORDS_MAX], heard[SUBJECT_WORDS];
    size_t best[SUBJECT_WORDS] = {
        0}; /* how many were found if the last of them is this word of the subject */
    size_t count = split(plain_words, words, WORDS_MAX),
           length = split(plain_subject, heard, SUBJECT_WORDS);
    size_t most = 0;
    *all = count_words(plain_words);
    assert(count <= *all);
    for (size_t i = 0; i < count; i++) {
        for (size_t j = length; j-- > 0;) {
            if (!same_word(words[i], heard[j])) continue;
            size_t found = best_before(best, j) + 1;
            if (found > best[j]) best[j] = found;
            if (found > most) most = found;
        }
    }
    assert(most <= *all);
    return most;
}
