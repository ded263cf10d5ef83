/* Texts: comparing, cutting, copying, printing, numbers, how far apart two are. */
#include "base/str.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

str str_of(const char *zero_ended)
{
    return zero_ended == NULL ? STR("") : (str){zero_ended, strlen(zero_ended)};
}

int str_cmp(str a, str b)
{
    size_t shorter = a.n < b.n ? a.n : b.n;
    int order = shorter == 0 ? 0 : memcmp(a.p, b.p, shorter);
    if (order != 0) return order;
    return (a.n > b.n) - (a.n < b.n);
}

static bool is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

str str_trim(str a)
{
    while (a.n > 0 && is_space(a.p[0])) a = str_slice(a, 1, a.n);
    while (a.n > 0 && is_space(a.p[a.n - 1])) a.n--;
    return a;
}

size_t str_find_byte(str a, char byte)
{
    const char *found = a.n == 0 ? NULL : memchr(a.p, byte, a.n);
    return found == NULL ? SIZE_MAX : (size_t)(found - a.p);
}

size_t str_find(str a, str part)
{
    if (part.n == 0) return 0;
    for (size_t i = 0; part.n <= a.n && i <= a.n - part.n; i++) {
        const char *at = memchr(a.p + i, part.p[0], a.n - part.n - i + 1);
        if (at == NULL) return SIZE_MAX;
        i = (size_t)(at - a.p);
        if (memcmp(at, part.p, part.n) == 0) return i;
    }
    return SIZE_MAX;
}

str str_copy(arena *keep, str a)
{
    char *copy = arena_take(keep, a.n + 1);
    if (a.n > 0) memcpy(copy, a.p, a.n);
    return (str){copy, a.n};
}

str str_vprintf(arena *keep, const char *format, va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    char most[256]; /* as long as most are */
    const int length = vsnprintf(most, sizeof most, format, arguments);
    assert(length >= 0);
    const size_t size = (size_t)length + 1;
    char *text = arena_take(keep, size);
    if (size <= sizeof most)
        memcpy(text, most, size);
    else
        vsnprintf(text, size, format, again);
    va_end(again);
    return (str){text, (size_t)length};
}

str str_printf(arena *keep, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    str text = str_vprintf(keep, format, arguments);
    va_end(arguments);
    return text;
}

static size_t digits(str a, size_t i)
{
    while (i < a.n && a.p[i] >= '0' && a.p[i] <= '9') i++;
    return i;
}

/* End of a decimal number at the start of `a`, or 0. */
static size_t number_end(str a)
{
    size_t i = a.n > 0 && (a.p[0] == '-' || a.p[0] == '+') ? 1 : 0;
    size_t whole = digits(a, i), end = whole;
    size_t count = whole - i;
    if (whole < a.n && a.p[whole] == '.') {
        end = digits(a, whole + 1);
        count += end - whole - 1;
    }
    if (count == 0) return 0;
    if (end < a.n && (a.p[end] == 'e' || a.p[end] == 'E')) {
        size_t sign = end + 1 < a.n && (a.p[end + 1] == '-' || a.p[end + 1] == '+') ? 2 : 1;
        size_t exponent = digits(a, end + sign < a.n ? end + sign : a.n);
        if (exponent > end + sign) end = exponent;
    }
    return end;
}

/* strtod reads the locale's decimal point, so the point is put in as the locale wants it. */
static double to_double(const char *text)
{
    char local[128];
    size_t used = 0;
    char probe[8];
    snprintf(probe, sizeof probe, "%.1f", 0.5);
    for (const char *c = text; *c != '\0' && used + 1 < sizeof local; c++)
        local[used++] = *c == '.' ? probe[1] : *c;
    local[used] = '\0';
    return strtod(local, NULL);
}

/* A few digits and nothing else, as most numbers are written: exact, whatever the locale. */
static bool few_digits(str a, double *number)
{
    enum { EXACT = 15 };
    uint64_t whole = 0;
    if (a.n == 0 || a.n > EXACT || digits(a, 0) != a.n) return false;
    for (size_t i = 0; i < a.n; i++) whole = whole * 10 + (uint64_t)(a.p[i] - '0');
    *number = (double)whole;
    return true;
}

bool str_to_double(str a, double *number)
{
    if (few_digits(a, number)) return true;
    char text[128];
    if (a.n == 0 || a.n >= sizeof text || number_end(a) != a.n) return false;
    memcpy(text, a.p, a.n);
    text[a.n] = '\0';
    *number = to_double(text);
    return *number - *number == 0.0; /* neither infinite nor not a number */
}

static void make_room(text_builder *b, size_t more)
{
    if (b->length + more + 1 <= b->capacity) return;
    size_t capacity = b->capacity == 0 ? 64 : b->capacity * 2;
    while (capacity < b->length + more + 1) capacity *= 2;
    char *bytes = arena_take(b->keep, capacity);
    if (b->length > 0) memcpy(bytes, b->bytes, b->length);
    b->bytes = bytes;
    b->capacity = capacity;
}

void text_add(text_builder *b, str piece)
{
    make_room(b, piece.n);
    if (piece.n > 0) memcpy(b->bytes + b->length, piece.p, piece.n);
    b->length += piece.n;
    b->bytes[b->length] = '\0';
}

void text_addf(text_builder *b, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    str piece = str_vprintf(b->keep, format, arguments);
    va_end(arguments);
    text_add(b, piece);
}

str text_done(const text_builder *b)
{
    return b->bytes == NULL ? STR("") : (str){b->bytes, b->length};
}

static size_t smallest(size_t a, size_t b, size_t c)
{
    size_t least = a < b ? a : b;
    return least < c ? least : c;
}

/* Optimal string alignment. */
size_t str_distance(arena *scratch, str a, str b)
{
    arena_mark mark = arena_here(scratch);
    size_t width = b.n + 1;
    size_t *table = ARENA_ARRAY(scratch, size_t, (a.n + 1) * width);
    for (size_t i = 0; i <= a.n; i++) table[i * width] = i;
    for (size_t j = 0; j <= b.n; j++) table[j] = j;
    for (size_t i = 1; i <= a.n; i++) {
        for (size_t j = 1; j <= b.n; j++) {
            size_t change = table[(i - 1) * width + j - 1] + (a.p[i - 1] != b.p[j - 1]);
            size_t *cell = &table[i * width + j];
            *cell = smallest(table[(i - 1) * width + j] + 1, table[i * width + j - 1] + 1, change);
            bool swapped = i > 1 && j > 1 && a.p[i - 1] == b.p[j - 2] && a.p[i - 2] == b.p[j - 1];
            if (swapped && table[(i - 2) * width + j - 2] + 1 < *cell)
                *cell = table[(i - 2) * width + j - 2] + 1;
        }
    }
    size_t distance = table[a.n * width + b.n];
    arena_back_to(scratch, mark);
    return distance;
}

size_t str_nearest(arena *scratch, str wrong, const str *candidates, size_t count)
{
    enum { LONGEST = 64 };
    size_t best = SIZE_MAX, least = 2 + wrong.n / 4;
    if (wrong.n > LONGEST) return best;
    for (size_t i = 0; i < count; i++) {
        size_t apart =
            candidates[i].n > wrong.n ? candidates[i].n - wrong.n : wrong.n - candidates[i].n;
        if (apart >= least) continue;
        size_t distance = str_distance(scratch, wrong, candidates[i]);
        if (distance < least) {
            least = distance;
            best = i;
        }
    }
    return best;
}
