/* What is written is read again, on random amounts; and random text is read without harm. */
#include "luck.h"
#include "testing.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

#include "measure/amount.h"
#include "test_sources.h"

enum { ROUNDS = 8000, MOST_ROWS = 400 };

static arena *a;
static unit_row rows[MOST_ROWS];
static uint32_t row_count;

static int table_read(void **state)
{
    (void)state;
    a = test_arena();
    while (row_count < MOST_ROWS && unit_table_row(row_count, &rows[row_count])) row_count++;
    assert_true(row_count < MOST_ROWS);
    return 0;
}

static unit unit_of(const unit_row *row)
{
    unit u;
    if (unit_read(a, str_of(row->name), &row->dim, &u, NULL) != UNIT_FOUND)
        fail_msg("%s is no unit", row->name);
    return u;
}

/* From 10^-9 to 10^9, with one to twelve digits, of both signs. */
static double any_number(uint64_t *seed)
{
    double digits = floor(luck_share(seed) * 1e12), scale = 1;
    for (uint32_t i = luck_below(seed, 13); i > 0; i--) digits = floor(digits / 10);
    for (uint32_t i = luck_below(seed, 10); i > 0; i--) scale *= 10;
    if (luck_below(seed, 2) == 0) scale = 1 / scale;
    return (luck_below(seed, 4) == 0 ? -1 : 1) * digits * scale / (digits > 1e9 ? 1e3 : 1);
}

static double read_back(str text, const unit *in)
{
    double number;
    str bad;
    amount_found found = amount_read(a, text, in, &number, NULL, &bad);
    if (found != AMOUNT_FOUND) fail_msg("'%.*s': %d, '%.*s'", STR_ARG(text), found, STR_ARG(bad));
    return number;
}

/* The same number where all its digits are shown; else what rounding to those digits by the C
 * library gives. */
static void amounts_read_back(void **state)
{
    (void)state;
    uint64_t seed = 20240607;
    for (int i = 0; i < ROUNDS; i++) {
        arena_mark mark = arena_here(a);
        const unit_row *row = &rows[luck_below(&seed, row_count)];
        if (row->form == UNIT_PARTS || row->form == UNIT_ONE_IN) continue;
        unit u = unit_of(row);
        double number = any_number(&seed);
        str all = amount_words(a, number, &u, 17);
        if (read_back(all, &u) != number) fail_msg("%.17g is '%.*s'", number, STR_ARG(all));
        int digits = 1 + (int)luck_below(&seed, 16);
        char rounded[64];
        snprintf(rounded, sizeof rounded, "%.*e", digits - 1, number);
        str some = amount_words(a, number, &u, digits);
        if (read_back(some, &u) != strtod(rounded, NULL))
            fail_msg("%.17g to %d digits is '%.*s'", number, digits, STR_ARG(some));
        assert_true(memchr(some.p, 'e', some.n - str_of(row->name).n) == NULL);
        arena_back_to(a, mark);
    }
}

static void ratios_read_back(void **state)
{
    (void)state;
    uint64_t seed = 77;
    const char *const forms[] = {"1:N", "1 in N"};
    for (int i = 0; i < ROUNDS; i++) {
        arena_mark mark = arena_here(a);
        unit u;
        assert_int_equal(unit_read(a, str_of(forms[i % 2]), NULL, &u, NULL), UNIT_FOUND);
        double n = 1 + luck_below(&seed, 100000) / 16.0;
        double share = i % 2 == 0 ? 1 / (n + 1) : 1 / n;
        if (i % 7 == 0) share = any_number(&seed); /* any other, in % where no ratio can say it */
        str text = amount_words(a, share, &u, 17);
        double back = read_back(text, &u);
        if (!(fabs(back - share) <= 4e-16 * fmax(1, fabs(share))))
            fail_msg("%.17g is '%.*s', %.17g", share, STR_ARG(text), back);
        arena_back_to(a, mark);
    }
}

/* Whole, half, quarter…, written as a mixed fraction, and in feet and inches. */
static void fractions_read_back(void **state)
{
    (void)state;
    uint64_t seed = 99;
    unit_row in = {.name = "in"};
    dimension_named(STR("length"), &in.dim);
    unit inch = unit_of(&in);
    for (int i = 0; i < ROUNDS; i++) {
        arena_mark mark = arena_here(a);
        unsigned feet = 1 + luck_below(&seed, 100), whole = 1 + luck_below(&seed, 11),
                 under = 2 + luck_below(&seed, 63), over = 1 + luck_below(&seed, under - 1);
        double inches = whole + (double)over / under, all = 12.0 * feet + inches;
        const char *between = luck_below(&seed, 2) == 0 ? " " : "-";
        str mixed = str_printf(a, "%u%s%u/%u in", whole, between, over, under);
        assert_true(read_back(mixed, &inch) == inches);
        str both = str_printf(a, "%u'%u%s%u/%u\"", feet, whole, between, over, under);
        if (!(fabs(read_back(both, &inch) - all) <= 1e-13 * all)) fail_msg("%.*s", STR_ARG(both));
        arena_back_to(a, mark);
    }
}

static void conversions_come_back(void **state)
{
    (void)state;
    uint64_t seed = 5;
    unsigned pairs = 0;
    for (uint32_t i = 0; i < row_count; i++) {
        for (uint32_t j = 0; j < row_count; j++) {
            unit from = unit_of(&rows[i]), to = unit_of(&rows[j]);
            if (!unit_fits(&from, &to)) continue;
            pairs++;
            double number = any_number(&seed), there = unit_convert(&from, &to, number);
            double back = unit_convert(&to, &from, there);
            double scale =
                fabs(number) + fabs(from.offset / from.factor) + fabs(to.offset / from.factor);
            if (!(fabs(back - number) <= 1e-14 * scale))
                fail_msg("%.17g %s: %.17g %s, back %.17g", number, rows[i].name, there,
                         rows[j].name, back);
            if (i == j) assert_true(there == number);
        }
    }
    assert_true(pairs > 1000);
}

/* Can stand in a composed unit: no temperature on its scale, no unit that is composed itself. */
static bool simple(const unit_row *row)
{
    return row->form == UNIT_PLAIN && strchr(row->name, '/') == NULL;
}

/* Three spellings joined are the product of what they are alone. */
static void composed_units_multiply(void **state)
{
    (void)state;
    uint64_t seed = 11;
    for (int i = 0; i < ROUNDS; i++) {
        arena_mark mark = arena_here(a);
        const unit_row *one = &rows[luck_below(&seed, row_count)],
                       *two = &rows[luck_below(&seed, row_count)],
                       *three = &rows[luck_below(&seed, row_count)];
        if (!simple(one) || !simple(two) || !simple(three)) continue;
        bool over = luck_below(&seed, 2) == 0;
        str text = str_printf(a, "%s%s%s%s%s", one->name, over ? " per " : "*", two->name, "/",
                              three->name);
        dimension dim = (over ? dimension_over : dimension_times)(one->dim, two->dim);
        dim = dimension_over(dim, three->dim);
        double factor =
            (over ? one->factor / two->factor : one->factor * two->factor) / three->factor;
        unit u;
        str bad = STR("");
        if (unit_read(a, text, &dim, &u, &bad) != UNIT_FOUND)
            fail_msg("'%.*s': '%.*s'", STR_ARG(text), STR_ARG(bad));
        if (!dimension_same(u.dim, dim) || !(fabs(u.factor - factor) <= 1e-14 * factor))
            fail_msg("'%.*s' is %.17g, not %.17g", STR_ARG(text), u.factor, factor);
        assert_true(u.form == UNIT_PLAIN && u.offset == 0);
        arena_back_to(a, mark);
    }
}

static bool lies_in(str part, str text)
{
    return part.n <= text.n;
}

/* Whatever is typed: an answer, a finite number, and what was bad is no longer than the text. */
static void nonsense_does_no_harm(void **state)
{
    (void)state;
    static const char *const pieces[] = {
        "1",    "50",       "0",        ".",    ",",   "/",  " ",   "-",     "\u2212", "½",
        "'",    "\"",       ":",        " in ", "psi", "ft", "gal", " per ", "^",      "2",
        "²",    "°F",       "%",        "oz",   "*",   "·",  "1:N", "h",     "and",    "\u00A0",
        "\xC2", "\xE2\x88", "interval", "sq ",  "N",   "e9", "|"};
    enum { PIECES = sizeof pieces / sizeof *pieces };
    uint64_t seed = 4242;
    unsigned found = 0;
    for (int i = 0; i < 20 * ROUNDS; i++) {
        arena_mark mark = arena_here(a);
        text_builder b = {.keep = a};
        for (uint32_t n = 1 + luck_below(&seed, 8); n > 0; n--)
            text_add(&b, str_of(pieces[luck_below(&seed, PIECES)]));
        str text = text_done(&b), bad = STR("");
        unit wanted = unit_of(&rows[luck_below(&seed, row_count)]), u;
        amount as;
        double number;
        if (unit_read(a, text, &wanted.dim, &u, &bad) == UNIT_FOUND)
            assert_true(isnormal(u.factor) && u.factor > 0 && isfinite(u.offset));
        assert_true(lies_in(bad, text));
        bad = STR("");
        amount_found what = amount_read(a, text, &wanted, &number, &as, &bad);
        assert_true(isfinite(number) && lies_in(bad, text));
        if (what == AMOUNT_FOUND) {
            found++;
            str again = amount_words(a, number, &wanted, 17);
            double back = read_back(again, &wanted);
            assert_true(fabs(back - number) <= 1e-15 * fmax(1, fabs(number)));
        }
        arena_back_to(a, mark);
    }
    assert_true(found > 100);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(amounts_read_back),       cmocka_unit_test(ratios_read_back),
        cmocka_unit_test(fractions_read_back),     cmocka_unit_test(conversions_come_back),
        cmocka_unit_test(composed_units_multiply), cmocka_unit_test(nonsense_does_no_harm),
    };
    return cmocka_run_group_tests(tests, table_read, NULL);
}
