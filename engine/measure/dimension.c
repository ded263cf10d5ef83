/* Dimensions: their arithmetic and their names. */
#include <assert.h>
#include <string.h>

#include "measure/dimension_table.h"
#include "measure/unit.h"

typedef struct named_dimension {
    dimension dim;
    const char *name, *words;
} named_dimension;

#define NAMED(id, l, m, t, k, a, r, name, words) {{{l, m, t, k, a, r}}, name, words},
static const named_dimension named[] = {DIMENSION_TABLE(NAMED)};
enum { NAMED_COUNT = sizeof named / sizeof *named };

bool dimension_same(dimension a, dimension b)
{
    return memcmp(a.power, b.power, sizeof a.power) == 0;
}

bool dimension_is_none(dimension d)
{
    return dimension_same(d, (dimension){{0}});
}

static dimension plus(dimension a, dimension b, int sign)
{
    dimension sum;
    for (int i = 0; i < BASE_COUNT; i++) {
        int power = a.power[i] + sign * b.power[i];
        assert(power >= INT8_MIN && power <= INT8_MAX);
        sum.power[i] = (int8_t)power;
    }
    return sum;
}

dimension dimension_times(dimension a, dimension b)
{
    return plus(a, b, 1);
}

dimension dimension_over(dimension a, dimension b)
{
    return plus(a, b, -1);
}

static void add_power(text_builder *b, const char *base, int power)
{
    assert(power > 0);
    static const char *const raised[] = {"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
    text_addf(b, "%s", base);
    if (power == 1) return;
    char digits[8];
    int count = 0;
    for (; power > 0; power /= 10) digits[count++] = (char)(power % 10);
    while (count > 0) text_addf(b, "%s", raised[(int)digits[--count]]);
}

/* "mass × length per time²", "1 per length": what has no name says what it is made of. */
static str composed_words(arena *keep, dimension d)
{
    static const char *const bases[BASE_COUNT] = {"length",      "mass",    "time",
                                                  "temperature", "current", "angle"};
    text_builder b = {.keep = keep};
    for (int i = 0; i < BASE_COUNT; i++) {
        if (d.power[i] <= 0) continue;
        if (b.length > 0) text_add(&b, STR(" × "));
        add_power(&b, bases[i], d.power[i]);
    }
    if (b.length == 0) text_add(&b, STR("1"));
    for (int i = 0; i < BASE_COUNT; i++) {
        if (d.power[i] >= 0) continue;
        text_add(&b, STR(" per "));
        add_power(&b, bases[i], -d.power[i]);
    }
    return text_done(&b);
}

str dimension_words(arena *keep, dimension d)
{
    for (int i = 0; i < NAMED_COUNT; i++)
        if (dimension_same(named[i].dim, d)) return str_of(named[i].name);
    return composed_words(keep, d);
}

static bool among(str words, str word)
{
    while (words.n > 0) {
        size_t bar = str_find_byte(words, '|');
        size_t end = bar == SIZE_MAX ? words.n : bar;
        if (str_eq(str_slice(words, 0, end), word)) return true;
        words = str_slice(words, bar == SIZE_MAX ? end : end + 1, words.n);
    }
    return false;
}

bool dimension_named(str word, dimension *out)
{
    assert(out != NULL);
    for (int i = 0; i < NAMED_COUNT; i++) {
        if (!str_is(word, named[i].name) && !among(str_of(named[i].words), word)) continue;
        *out = named[i].dim;
        return true;
    }
    return false;
}
