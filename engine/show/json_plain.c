#include "show/json_plain.h"

#include <string.h>

#include "base/unicode.h"

enum { DEEPEST = 8, IN_ONE = 48, VALUES_MOST = 4096, DIGITS_MOST = 15, FRACTION_MOST = 15 };

typedef struct plain {
    arena *keep;
    const char *p;
    /* of all of it: texts and keys lie there, each ended by a zero where its quote was */
    char *copy;
    size_t n, at;
    unsigned depth, values;
} plain;

static char here(const plain *r)
{
    return r->at < r->n ? r->p[r->at] : '\0';
}

static void skip_blanks(plain *r)
{
    while (here(r) == ' ' || here(r) == '\n' || here(r) == '\t' || here(r) == '\r') r->at++;
}

static bool eat(plain *r, char c)
{
    if (here(r) != c) return false;
    r->at++;
    return true;
}

/* ---- texts ---- */

/* What a backslash and this letter stand for; 0: json_read knows. */
static char escaped(char letter)
{
    static const char letters[] = "\"\\/bfnrt", meant[] = "\"\\/\b\f\n\r\t";
    const char *found = letter == '\0' ? NULL : strchr(letters, letter);
    return found == NULL ? '\0' : meant[found - letters];
}

static bool ends_run(unsigned char c)
{
    return c < 0x20 || c == '"' || c == '\\';
}

/* Most texts are ASCII without a backslash: copied as they are. */
static bool read_simple(plain *r, const char **out)
{
    const str rest = {r->p + r->at, r->n - r->at};
    const size_t length = str_find_byte(rest, '"');
    if (length == SIZE_MAX || unicode_plain_end((str){rest.p, length}, 0) < length) return false;
    if (memchr(rest.p, '\\', length) != NULL || memchr(rest.p, '\n', length) != NULL) return false;
    char *const to = r->copy + r->at;
    memcpy(to, rest.p, length);
    to[length] = '\0';
    r->at += length + 1;
    *out = to;
    return true;
}

/* From behind its first quote to behind its last. */
static bool read_text(plain *r, const char **out)
{
    if (read_simple(r, out)) return true;
    char *const to = r->copy + r->at;
    size_t length = 0;
    bool ascii = true;
    for (;; r->at++) {
        for (; r->at < r->n && !ends_run((unsigned char)r->p[r->at]); r->at++) {
            to[length++] = r->p[r->at];
            ascii = ascii && (unsigned char)r->p[r->at] < 0x80;
        }
        if (here(r) == '"') break;
        if (here(r) != '\\' || r->at + 1 >= r->n) return false;
        to[length] = escaped(r->p[++r->at]);
        if (to[length++] == '\0') return false;
    }
    to[length] = '\0';
    r->at++;
    *out = to;
    return ascii || unicode_first_bad((str){to, length}) == SIZE_MAX;
}

/* ---- numbers ---- */

static double ten_to(unsigned power)
{
    static const double powers[FRACTION_MOST + 1] = {1,   1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                     1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    return powers[power];
}

/* Digits from here on become more of *number; how many. */
static unsigned read_digits(plain *r, uint64_t *number)
{
    unsigned count = 0;
    for (; here(r) >= '0' && here(r) <= '9' && count <= DIGITS_MOST; count++)
        *number = *number * 10 + (uint64_t)(r->p[r->at++] - '0');
    return count;
}

/* Both the digits and the power of ten are exact, so their quotient is the number nearest to what
 * is written. */
static bool read_number(plain *r, tt_value *out)
{
    const bool below = eat(r, '-');
    uint64_t number = 0;
    const char first = here(r);
    const unsigned whole = read_digits(r, &number);
    unsigned fraction = 0;
    if (whole == 0 || (first == '0' && whole > 1)) return false;
    if (eat(r, '.') && (fraction = read_digits(r, &number)) == 0) return false;
    if (whole + fraction > DIGITS_MOST || here(r) == 'e' || here(r) == 'E') return false;
    const double size = (double)number / ten_to(fraction);
    *out = value_of_number(below ? -size : size);
    return true;
}

/* ---- values ---- */

static bool read_value(plain *r, tt_value *out);

static bool read_word(plain *r, const char *word, tt_value is, tt_value *out)
{
    const size_t length = strlen(word);
    if (r->n - r->at < length || memcmp(r->p + r->at, word, length) != 0) return false;
    r->at += length;
    *out = is;
    return true;
}

static bool stands_twice(const char *const *keys, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++)
        if (keys[i][0] == keys[count][0] && strcmp(keys[i], keys[count]) == 0) return true;
    return false;
}

static bool read_key(plain *r, const char **keys, uint32_t count)
{
    if (!eat(r, '"') || !read_text(r, &keys[count]) || stands_twice(keys, count)) return false;
    skip_blanks(r);
    return eat(r, ':');
}

static const void *kept(plain *r, const void *items, uint32_t count, size_t size)
{
    void *copy = arena_take_array(r->keep, count, size);
    return count == 0 ? copy : memcpy(copy, items, count * size);
}

static bool read_items(plain *r, bool map, tt_value *out)
{
    tt_value items[IN_ONE];
    const char *keys[IN_ONE];
    const char close = map ? '}' : ']';
    uint32_t count = 0;
    skip_blanks(r);
    for (bool more = !eat(r, close); more; count++) {
        skip_blanks(r);
        if (count == IN_ONE || r->values++ == VALUES_MOST) return false;
        if (map && !read_key(r, keys, count)) return false;
        skip_blanks(r);
        if (!read_value(r, &items[count])) return false;
        skip_blanks(r);
        more = eat(r, ',');
        if (!more && !eat(r, close)) return false;
    }
    *out = (tt_value){.kind = map ? TT_VALUE_MAP : TT_VALUE_LIST, .count = count};
    out->items = kept(r, items, count, sizeof *items);
    if (map) out->keys = kept(r, keys, count, sizeof *keys);
    return true;
}

static bool read_inside(plain *r, bool map, tt_value *out)
{
    if (r->depth == DEEPEST) return false;
    r->at++;
    r->depth++;
    const bool good = read_items(r, map, out);
    r->depth--;
    return good;
}

static bool read_value(plain *r, tt_value *out)
{
    switch (here(r)) {
    case '{':
    case '[':
        return read_inside(r, here(r) == '{', out);
    case '"':
        r->at++;
        *out = (tt_value){.kind = TT_VALUE_TEXT};
        return read_text(r, &out->text);
    case 't':
        return read_word(r, "true", value_yes, out);
    case 'f':
        return read_word(r, "false", value_no, out);
    case 'n':
        return read_word(r, "null", value_null, out);
    default:
        return read_number(r, out);
    }
}

bool json_plain(arena *keep, str text, tt_value *out)
{
    const arena_mark before = arena_here(keep);
    plain r = {.keep = keep, .p = text.p, .n = text.n};
    if (text.n == 0) return false;
    r.copy = arena_take(keep, text.n + 1);
    skip_blanks(&r);
    bool good = read_value(&r, out);
    skip_blanks(&r);
    good = good && r.at == r.n;
    if (!good) arena_back_to(keep, before);
    return good;
}
