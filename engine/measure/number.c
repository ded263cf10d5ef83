/* Numbers as people write them. */
#include "measure/number.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool digit_at(str text, size_t i)
{
    return i < text.n && is_digit(text.p[i]);
}

static bool sign_at(str text, size_t i)
{
    return i < text.n && (text.p[i] == '.' || text.p[i] == ',') && digit_at(text, i + 1);
}

size_t blank_length(str text)
{
    static const char *const wide[] = {"\u00A0", "\u202F", "\u2009"};
    if (text.n == 0) return 0;
    if (memchr(" \t\r\n", text.p[0], 4) != NULL) return 1;
    for (size_t i = 0; i < sizeof wide / sizeof *wide; i++)
        if (str_starts(text, wide[i])) return strlen(wide[i]);
    return 0;
}

str without_blanks(str text)
{
    for (size_t n; (n = blank_length(text)) > 0;) text = str_slice(text, n, text.n);
    return text;
}

str blanks_trimmed(str text)
{
    text = without_blanks(text);
    size_t end = 0;
    for (size_t i = 0; i < text.n;) {
        size_t n = blank_length(str_slice(text, i, text.n));
        i += n > 0 ? n : 1;
        if (n == 0) end = i;
    }
    return str_slice(text, 0, end);
}

str beginning(str text, size_t most)
{
    if (text.n <= most) return text;
    while (most > 0 && ((unsigned char)text.p[most] & 0xC0) == 0x80) most--;
    assert(most < text.n);
    return str_slice(text, 0, most);
}

/* "½" and its like; 0 if there is none. */
static size_t vulgar(str text, double *value)
{
    static const struct {
        const char *mark;
        double above, below;
    } table[] = {{"½", 1, 2}, {"¼", 1, 4}, {"¾", 3, 4}, {"⅓", 1, 3}, {"⅔", 2, 3}, {"⅛", 1, 8},
                 {"⅜", 3, 8}, {"⅝", 5, 8}, {"⅞", 7, 8}, {"⅕", 1, 5}, {"⅖", 2, 5}, {"⅗", 3, 5},
                 {"⅘", 4, 5}, {"⅙", 1, 6}, {"⅚", 5, 6}, {"⅐", 1, 7}, {"⅑", 1, 9}, {"⅒", 1, 10}};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        if (!str_starts(text, table[i].mark)) continue;
        *value = table[i].above / table[i].below;
        return strlen(table[i].mark);
    }
    return 0;
}

bool number_begins(str text)
{
    double ignored;
    return digit_at(text, 0) || sign_at(text, 0) || vulgar(text, &ignored) > 0;
}

static size_t digits(str text, size_t from)
{
    while (digit_at(text, from)) from++;
    return from;
}

/* Digits with points and commas between them, from the start of the text. */
static size_t signed_digits(str text)
{
    size_t n = 0;
    while (digit_at(text, n) || sign_at(text, n)) n++;
    return n;
}

static size_t count_of(str text, char c)
{
    size_t count = 0;
    for (size_t i = 0; i < text.n; i++) count += text.p[i] == c;
    return count;
}

static size_t last_of(str text, char c)
{
    size_t last = 0;
    for (size_t i = 0; i < text.n; i++)
        if (text.p[i] == c) last = i;
    return last;
}

/* "1,500,000" up to `end`: one to three digits, then groups of three. */
static bool in_groups(str text, size_t end, char between)
{
    assert(end <= text.n);
    size_t first = digits(text, 0);
    if (first == 0 || first > 3 || text.p[0] == '0') return false;
    for (size_t i = first; i < end; i += 4)
        if (text.p[i] != between || digits(text, i + 1) != i + 4) return false;
    return true;
}

/* Which byte is the decimal sign, 0 if none is; false if that is not clear. */
static bool decimal_sign(str token, char *sign)
{
    size_t points = count_of(token, '.'), commas = count_of(token, ',');
    size_t point = last_of(token, '.'), comma = last_of(token, ',');
    *sign = 0;
    if (points + commas == 0) return true;
    if (commas == 0 && points == 1)
        *sign = '.';
    else if (points == 0 && commas == 1)
        *sign = ',';
    if (*sign == ',') return !in_groups(token, token.n, ',');
    if (*sign == '.') return true;
    if (points == 0 || commas == 0) return in_groups(token, token.n, points > 0 ? '.' : ',');
    if (points == 1 && point > comma)
        *sign = '.';
    else if (commas == 1 && comma > point)
        *sign = ',';
    return *sign != 0 && in_groups(token, *sign == '.' ? point : comma, *sign == '.' ? ',' : '.');
}

static number_found read_digits(str token, double *number)
{
    assert(token.n > 0);
    char sign, plain[128];
    size_t n = 0;
    if (!decimal_sign(token, &sign)) return NUMBER_UNCLEAR;
    for (size_t i = 0; i < token.n; i++) {
        if (!is_digit(token.p[i]) && token.p[i] != sign) continue;
        if (n == sizeof plain) return NUMBER_NONE;
        plain[n++] = is_digit(token.p[i]) ? token.p[i] : '.';
    }
    return str_to_double((str){plain, n}, number) ? NUMBER_FOUND : NUMBER_NONE;
}

static size_t slash(str text)
{
    if (str_starts(text, "/")) return 1;
    return str_starts(text, "⁄") ? strlen("⁄") : 0;
}

/* "1/2" at the start; 0 if there is none. */
static size_t fraction(str text, double *above, double *below)
{
    size_t first = digits(text, 0);
    size_t between = first == 0 ? 0 : slash(str_slice(text, first, text.n));
    size_t second = first + between, end = digits(text, second);
    if (between == 0 || end == second) return 0;
    if (!str_to_double(str_slice(text, 0, first), above)) return 0;
    return str_to_double(str_slice(text, second, end), below) ? end : 0;
}

static number_found add_fraction(double whole, double above, double below, double *number)
{
    assert(whole >= 0 && above >= 0 && below >= 0);
    *number = whole + above / below;
    return isfinite(*number) ? NUMBER_FOUND : NUMBER_NONE;
}

/* What follows whole digits: "½", " ½", " 1/2", "-1/2". */
static number_found add_part(str text, double *number, size_t *length)
{
    assert(*length <= text.n);
    str rest = str_slice(text, *length, text.n), after = without_blanks(rest);
    double above, below;
    size_t n = vulgar(after, &above);
    if (n > 0) {
        *length = text.n - after.n + n;
        return add_fraction(*number, above, 1, number);
    }
    if (str_starts(rest, "-")) after = str_slice(rest, 1, rest.n);
    n = after.n < rest.n ? fraction(after, &above, &below) : 0;
    if (n == 0) return NUMBER_FOUND;
    *length = text.n - after.n + n;
    if (above >= below) return NUMBER_UNCLEAR;
    return add_fraction(*number, above, below, number);
}

number_found number_read(str text, double *number, size_t *length)
{
    assert(number != NULL && length != NULL);
    double above, below;
    *length = vulgar(text, number);
    if (*length > 0) return NUMBER_FOUND;
    *length = fraction(text, &above, &below);
    if (*length > 0) return add_fraction(0, above, below, number);
    *length = signed_digits(text);
    if (*length == 0) return NUMBER_NONE;
    str token = str_slice(text, 0, *length);
    number_found found = read_digits(token, number);
    return found == NUMBER_FOUND && digits(token, 0) == token.n ? add_part(text, number, length)
                                                                : found;
}
