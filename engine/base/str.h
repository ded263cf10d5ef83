/* A piece of UTF-8 text: pointer and length in bytes, never owned. Text made by these functions
 * lives in the arena given and has a NUL after its end, so that `text.p` can be handed to C
 * functions. */
#ifndef TT_BASE_STR_H
#define TT_BASE_STR_H

#include <assert.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "base/arena.h"

typedef struct str {
    const char *p;
    size_t n;
} str;

/* For printf's "%.*s". */
#define STR_ARG(s)   (int)(s).n, (s).p
#define STR(literal) ((str){("" literal), sizeof(literal) - 1})

str str_of(const char *zero_ended); /* null gives the empty text */
static inline str str_slice(str a, size_t from, size_t to)
{
    assert(from <= to && to <= a.n);
    return a.p == NULL ? a : (str){a.p + from, to - from};
}
static inline bool str_eq(str a, str b)
{
    return a.n == b.n && (a.n == 0 || memcmp(a.p, b.p, a.n) == 0);
}
int str_cmp(str a, str b); /* by bytes */
static inline bool str_is(str a, const char *zero_ended)
{
    size_t i = 0; /* most that differ do so in the first letter */
    while (i < a.n && zero_ended[i] == a.p[i] && zero_ended[i] != 0) i++;
    return i == a.n && zero_ended[i] == 0;
}
static inline bool str_starts(str a, const char *zero_ended)
{
    const str start = {zero_ended, strlen(zero_ended)};
    return a.n >= start.n && (start.n == 0 || memcmp(a.p, start.p, start.n) == 0);
}
static inline bool str_ends(str a, const char *zero_ended)
{
    const str end = {zero_ended, strlen(zero_ended)};
    return a.n >= end.n && (end.n == 0 || memcmp(a.p + a.n - end.n, end.p, end.n) == 0);
}
str str_trim(str a); /* spaces, tabs, newlines at both ends */
/* First place of a byte or of a text, or SIZE_MAX. */
size_t str_find_byte(str a, char byte);
size_t str_find(str a, str part);
str str_copy(arena *keep, str a);
str str_printf(arena *keep, const char *format, ...) __attribute__((format(printf, 2, 3)));
str str_vprintf(arena *keep, const char *format, va_list arguments)
    __attribute__((format(printf, 2, 0)));

/* A decimal number, with '.' in every locale: the whole text must be the number (optional sign,
 * digits, optional fraction, optional exponent). No hex, inf or nan. */
bool str_to_double(str a, double *number);

/* Growing text. */
typedef struct text_builder {
    arena *keep;
    char *bytes;
    size_t length, capacity;
} text_builder;
void text_add(text_builder *b, str piece);
void text_addf(text_builder *b, const char *format, ...) __attribute__((format(printf, 2, 3)));
str text_done(const text_builder *b); /* NUL-ended */

/* Letters to insert, delete or change, and neighbours to swap, until `a` is `b`. */
size_t str_distance(arena *scratch, str a, str b);

/* The candidate nearest to `wrong` by edit distance (transposition counts one), or SIZE_MAX if none
 * is near enough to be worth suggesting (distance ≤ 1 + length/4). Ties go to the first. */
size_t str_nearest(arena *scratch, str wrong, const str *candidates, size_t count);

#endif
