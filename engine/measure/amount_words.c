/* Amounts written: digits without the locale's hand in them, and units as people say them. */
#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "measure/amount.h"
#include "measure/unit_find.h"

enum { MOST_DIGITS = 17 };

/* The digits of a number above 0, rounded to at most `most`, without zeros at the end; 0.d₁d₂… ×
 * 10^*exponent. */
static size_t decimal_digits(double number, int most, char *digits, int *exponent)
{
    assert(number > 0 && most >= 1 && most <= MOST_DIGITS);
    char text[64];
    snprintf(text, sizeof text, "%.*e", most - 1, number);
    char *e = strchr(text, 'e');
    assert(e != NULL);
    size_t n = 0;
    for (const char *c = text; c < e; c++)
        if (*c >= '0' && *c <= '9')
            digits[n++] = *c; /* whatever stands for the point is left out */
    while (n > 1 && digits[n - 1] == '0') n--;
    assert(n >= 1 && n <= (size_t)most);
    *exponent = (int)strtol(e + 1, NULL, 10) + 1;
    return n;
}

static void add_zeros(text_builder *b, int count)
{
    for (; count > 0; count--) text_add(b, STR("0"));
}

static str number_words(arena *keep, double number, int most)
{
    assert(isfinite(number));
    char digits[MOST_DIGITS + 1];
    int exponent;
    text_builder b = {.keep = keep};
    if (number == 0) return STR("0");
    if (number < 0) text_add(&b, STR("-"));
    int n = (int)decimal_digits(fabs(number), most, digits, &exponent);
    int whole = exponent < 0 ? 0 : exponent < n ? exponent : n;
    text_add(&b, (str){digits, (size_t)whole});
    if (exponent <= 0) text_add(&b, STR("0"));
    add_zeros(&b, exponent - n);
    if (whole == n) return text_done(&b);
    text_add(&b, STR("."));
    add_zeros(&b, -exponent);
    text_add(&b, (str){digits + whole, (size_t)(n - whole)});
    return text_done(&b);
}

/* Where the first spelling of a unit ends: "cars/h", "gallons per minute". */
static size_t first_spelling(str text)
{
    size_t end = text.n;
    size_t ends[] = {str_find_byte(text, '/'), str_find_byte(text, '*'),
                     str_find(text, STR(" per "))};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++)
        if (ends[i] < end) end = ends[i];
    return end;
}

static bool row_spells(const unit_row *row, str wanted)
{
    str spelling;
    for (size_t place = 0; unit_next_spelling(row, &place, &spelling);)
        if (str_eq(spelling, wanted)) return true;
    return false;
}

static bool is_plural_of(str many, str one)
{
    if (str_is(many, "feet")) return str_is(one, "foot");
    if (str_is(many, "teeth")) return str_is(one, "tooth");
    if (many.n <= one.n || !str_eq(str_slice(many, 0, one.n), one)) return false;
    str end = str_slice(many, one.n, many.n);
    return str_is(end, "s") || str_is(end, "es");
}

/* Abbreviations have no plural ("12 gal", "3 lb", "2 fl oz"), though people write one. */
static bool is_word(const unit_row *row, str spelling)
{
    const bool count = dimension_is_none(row->dim) && row->factor == 1;
    size_t longest = 0, run = 0;
    for (size_t i = 0; i < spelling.n; i++) {
        run = spelling.p[i] == ' ' ? 0 : run + 1;
        if (run > longest) longest = run;
    }
    return count || longest > 3;
}

/* The other number of a spelling, if the table has it and it is wanted; else the spelling. */
static str in_number(str spelling, bool one)
{
    unit_row row;
    str other;
    if (!unit_find(spelling, 0, &row) || !row_spells(&row, spelling)) return spelling;
    for (size_t place = 0; unit_next_spelling(&row, &place, &other);) {
        if (one && is_plural_of(spelling, other)) return other;
        if (!one && is_word(&row, spelling) && is_plural_of(other, spelling)) return other;
    }
    return spelling;
}

static bool joins_number(str unit_text)
{
    static const char *const marks[] = {"'", "\"", "′", "″", "’", "”", "°"};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
        if (str_is(unit_text, marks[i])) return true;
    return false;
}

static str plain_words(arena *keep, double number, str unit_text, int digits)
{
    str shown = number_words(keep, number, digits);
    if (unit_text.n == 0) return shown;
    if (joins_number(unit_text))
        return str_printf(keep, "%.*s%.*s", STR_ARG(shown), STR_ARG(unit_text));
    size_t end = first_spelling(unit_text);
    str first = in_number(str_slice(unit_text, 0, end), str_is(shown, "1") || str_is(shown, "-1"));
    return str_printf(keep, "%.*s %.*s%.*s", STR_ARG(shown), STR_ARG(first),
                      STR_ARG(str_slice(unit_text, end, unit_text.n)));
}

/* N of "1:N" or "1 in N"; below 0 if the share can't be said so. */
static double parts_of(double share, unit_form form)
{
    assert(form == UNIT_PARTS || form == UNIT_ONE_IN);
    if (!(share > 0) || share > 1) return -1;
    double n = form == UNIT_PARTS ? 1 / share - 1 : 1 / share;
    return isfinite(n) ? n : -1;
}

str amount_words(arena *keep, double number, const unit *in, int digits)
{
    assert(in != NULL);
    if (digits < 1) digits = 1;
    if (digits > MOST_DIGITS) digits = MOST_DIGITS;
    if (in->form != UNIT_PARTS && in->form != UNIT_ONE_IN)
        return plain_words(keep, number, in->text, digits);
    double n = parts_of(number, in->form);
    if (n < 0) return plain_words(keep, number * 100, STR("%"), digits);
    str shown = number_words(keep, n, digits);
    return str_printf(keep, in->form == UNIT_PARTS ? "1:%.*s" : "1 in %.*s", STR_ARG(shown));
}
