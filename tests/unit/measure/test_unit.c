#include "testing.h"

#include <math.h>
#include <stdio.h>

#include "measure/unit.h"
#include "measure/unit_find.h"
#include "test_sources.h"

static arena *a;

static void near_to(double got, double wanted, double within)
{
    if (!(fabs(got - wanted) <= within)) fail_msg("%.17g is not %.17g", got, wanted);
}

static int arena_ready(void **state)
{
    (void)state;
    a = test_arena();
    return 0;
}

static dimension dim(const char *word)
{
    dimension d;
    if (!dimension_named(str_of(word), &d)) fail_msg("no dimension '%s'", word);
    return d;
}

static unit read(const char *text)
{
    unit u;
    str bad = STR("");
    if (unit_read(a, str_of(text), NULL, &u, &bad) != UNIT_FOUND)
        fail_msg("'%s': '%.*s' is no unit", text, STR_ARG(bad));
    return u;
}

static unit read_as(const char *text, const char *word)
{
    unit u;
    dimension d = dim(word);
    assert_int_equal(unit_read(a, str_of(text), &d, &u, NULL), UNIT_FOUND);
    return u;
}

static void same(const char *left, const char *right)
{
    unit l = read(left), r = read(right);
    if (!dimension_same(l.dim, r.dim) || l.form != r.form ||
        fabs(l.factor - r.factor) > 1e-15 * r.factor || l.offset != r.offset)
        fail_msg("'%s' (%.17g) is not '%s' (%.17g)", left, l.factor, right, r.factor);
}

static void refused(unit_found wanted, const char *text, const char *wanted_bad)
{
    unit u;
    str bad = STR("");
    unit_found found = unit_read(a, str_of(text), NULL, &u, &bad);
    if (found != wanted) fail_msg("'%s' is read as %d", text, found);
    assert_str(bad, wanted_bad);
}

static void every_spelling_is_its_row(void **state)
{
    (void)state;
    unit_row row;
    str spelling;
    for (uint32_t i = 0; unit_table_row(i, &row); i++) {
        if (row.form == UNIT_PARTS || row.form == UNIT_ONE_IN) continue;
        for (size_t place = 0; unit_next_spelling(&row, &place, &spelling);) {
            unit u;
            if (unit_read(a, spelling, &row.dim, &u, NULL) != UNIT_FOUND)
                fail_msg("'%.*s' is not read", STR_ARG(spelling));
            if (!dimension_same(u.dim, row.dim) || u.factor != row.factor ||
                u.offset != row.offset || u.form != row.form)
                fail_msg("'%.*s' is not %s", STR_ARG(spelling), row.name);
            assert_true(str_eq(u.text, spelling));
        }
    }
}

static void the_table_is_sound(void **state)
{
    (void)state;
    unit_row row;
    uint32_t rows = 0;
    for (; unit_table_row(rows, &row); rows++) {
        assert_true(isnormal(row.factor) && row.factor > 0);
        assert_true(row.offset == 0 || row.form == UNIT_SCALE);
        assert_true(row.name[0] != 0 && row.says[0] != 0 && row.source[0] != 0);
        assert_null(strstr(row.spellings, "||"));
        /* What can be composed has the very factor that composing gives. */
        str words = dimension_words(a, row.dim);
        assert_null(memchr(words.p, 0xC3, words.n)); /* "×": each row's dimension has a name */
    }
    assert_true(rows > 100);
    assert_false(unit_table_row(rows, &row));
    assert_false(unit_table_row(UINT32_MAX, &row));
}

/* Only spellings meant to have two meanings may have them, also when case is left aside. */
static void no_spelling_is_taken_twice(void **state)
{
    (void)state;
    static const char *const meant[] = {"oz",  "ozs",   "ounce",  "ounces", "lb",
                                        "lbs", "pound", "pounds", "ppm",    "parts per million"};
    uint32_t count;
    const str *all = unit_spellings(a, &count);
    assert_true(count > 300);
    for (uint32_t i = 0; i < count; i++) {
        unit_row row;
        if (!unit_find(all[i], 1, &row)) continue;
        bool fine = false;
        for (size_t m = 0; m < sizeof meant / sizeof *meant; m++)
            fine = fine || str_is(all[i], meant[m]);
        if (!fine) fail_msg("'%.*s' has two meanings", STR_ARG(all[i]));
    }
}

static void case_decides_where_it_must(void **state)
{
    (void)state;
    same("PSI", "psi");
    same("Bar", "bar");
    same("kpa", "kPa");
    same("KPA", "kPa");
    same("GPM", "gpm");
    same("l/MIN", "L/min");
    same("Gal Per Min", "gpm");
    same("INHG", "inHg");
    same("kw", "kW");
    same("°f", "degF");
    same("DEGREES F", "degF");
    same("MM", "mm");
    assert_true(read("MW").factor == 1e6);
    assert_true(read("mW").factor == 1e-3);
    refused(UNIT_NOT_FOUND, "Mw", "Mw");
    refused(UNIT_NOT_FOUND, "M", "M");
    refused(UNIT_NOT_FOUND, "MPA", "MPA");
    refused(UNIT_NOT_FOUND, "mpa", "mpa");
    refused(UNIT_NOT_FOUND, "mohm", "mohm");
    refused(UNIT_NOT_FOUND, "ML", "ML");
    refused(UNIT_NOT_FOUND, "L/M", "M");
    refused(UNIT_NOT_FOUND, "k", "k");
    refused(UNIT_NOT_FOUND, "T", "T");
}

static void composing(void **state)
{
    (void)state;
    same("gal/min", "gpm");
    same("gallons per minute", "gpm");
    same("gal./min.", "gpm");
    same("litres per minute", "L/min");
    same("dm³/min", "L/min");
    same("ft3/min", "cfm");
    same("cubic feet per minute", "cfm");
    same("cu ft/min", "cfm");
    same("cu. ft. per min.", "cfm");
    same("cuft/min", "cfm");
    same("ft/min", "fpm");
    same("feet per minute", "ft/min");
    same("miles per hour", "mph");
    same("km per hour", "km/h");
    same("revolutions per minute", "rpm");
    same("turns/min", "rpm");
    same("cars/h", "cph");
    same("cars per hour", "cars/h");
    same("cars/h", "/h");
    same("per hour", "/h");
    same("/ h", "/h");
    same("grains per gallon", "gpg");
    same("lbf/in^2", "psi");
    same("lbf/in2", "psi");
    same("lbf per sq in", "psi");
    same("lbf per square inch", "psi");
    same("N/m2", "Pa");
    same("N/mm²", "MPa");
    same("N*m", "N m");
    same("N·m", "N m");
    same("N ⋅ m", "N m");
    same("V*A", "W");
    same("V/A", "ohm");
    same("kg*m/s^2", "N");
    same("kg·m/s²", "N");
    same("m·s^-2", "m/s2");
    same("m*s⁻²", "m/s²");
    same("s⁻¹", "Hz");
    same("in^3", "in3");
    same("ft²", "sq ft");
    same("square metres", "m2");
    same("gpm/psi", "gal/min/psi");
    same("US gal", "gal");
    same("parts per million", "ppm");
    same("psi / ft", "psi/ft");
    same("gal\u00A0per\u00A0min", "gpm");
    same("oz per 5 gal", "oz/5 gal");
    assert_true(fabs(read("gal per 100 ft2").factor * 100 / read("gal/ft2").factor - 1) < 1e-15);
    assert_str(read("  gal  per min ").text, "gal  per min");
    assert_str(unit_none.text, "");
    unit none = read(" \t");
    assert_true(dimension_is_none(none.dim) && none.factor == 1 && none.form == UNIT_PLAIN);
}

static void what_is_no_unit(void **state)
{
    (void)state;
    refused(UNIT_NOT_FOUND, "psy", "psy");
    refused(UNIT_NOT_FOUND, "gal/mn", "mn");
    refused(UNIT_NOT_FOUND, "furlong per min", "furlong");
    refused(UNIT_NOT_FOUND, "scfm", "scfm");
    refused(UNIT_NOT_FOUND, "psia", "psia");
    refused(UNIT_NOT_FOUND, "month", "month");
    refused(UNIT_NOT_FOUND, "2 psi", "2 psi");
    refused(UNIT_NOT_FOUND, "5 gal/min", "5 gal");
    refused(UNIT_NOT_FOUND, "oz/0 gal", "0 gal");
    refused(UNIT_NOT_FOUND, "sq gal", "sq gal");
    refused(UNIT_NOT_FOUND, "gal2", "gal2");
    refused(UNIT_NOT_FOUND, "ft4", "ft4");
    refused(UNIT_NOT_FOUND, "ft^0", "ft^0");
    refused(UNIT_NOT_FOUND, "psi interval", "psi interval");
    refused(UNIT_NOT_FOUND, "N m^2", "N m^2");
    refused(UNIT_NOT_FOUND, "²", "²");
    refused(UNIT_NOT_FOUND, "bars|barg", "bars|barg");
    unit u;
    str bad;
    assert_int_equal(unit_read(a, (str){"barg\0ba", 7}, NULL, &u, &bad), UNIT_NOT_FOUND);
    assert_int_equal(bad.n, 7);
    refused(UNIT_NOT_FOUND, "2", "2");
    refused(UNIT_NOT_FOUND, "\xC2", "\xC2");
    refused(UNIT_MALFORMED, "gal//min", "//min");
    refused(UNIT_MALFORMED, "/", "/");
    refused(UNIT_MALFORMED, "/ /", "/ /");
    refused(UNIT_MALFORMED, "gal/", "/");
    refused(UNIT_MALFORMED, "gal per", "per");
    refused(UNIT_MALFORMED, "*m", "*m");
    refused(UNIT_MALFORMED, "mg/L*min", "*min");
    refused(UNIT_MALFORMED, "m^9*m^9*m^9*m^9*m^9*m^9*m^9", "m^9*m^9*m^9*m^9*m^9*m^9*m^9");
    refused(UNIT_MALFORMED, "km^9*A^9*km^9*A^9*MPa^9*MPa^9*MPa^9*MPa^9*MPa^9",
            "km^9*A^9*km^9*A^9*MPa^9*MPa^9*MPa^9*MPa^9*MPa^9");
}

static void long_text_is_no_unit(void **state)
{
    (void)state;
    enum { LONG = 1 << 20 };
    char *text = arena_take(a, LONG);
    for (int i = 0; i < LONG; i++) text[i] = i % 2 == 0 ? 'm' : '/';
    unit u;
    str bad;
    assert_int_equal(unit_read(a, (str){text, LONG - 1}, NULL, &u, &bad), UNIT_NOT_FOUND);
    assert_int_equal(bad.n, 200);
    assert_int_equal(unit_read(a, (str){text, 99}, NULL, &u, &bad), UNIT_FOUND);
    assert_int_equal(u.dim.power[BASE_LENGTH], 1 - 49);
    /* Cut between characters, not within one. */
    for (int i = 1; i + 1 < LONG; i += 2) memcpy(text + i, "\u00B5", 2);
    assert_int_equal(unit_read(a, (str){text, LONG - 1}, NULL, &u, &bad), UNIT_NOT_FOUND);
    assert_int_equal(bad.n, 199);
}

static void what_is_wanted_decides(void **state)
{
    (void)state;
    assert_true(read("oz").dim.power[BASE_MASS] == 1);
    assert_true(read_as("oz", "volume").factor == read("fl oz").factor);
    assert_true(read_as("ounces", "volume").factor == read("fl oz").factor);
    assert_true(read_as("OZ", "mass").factor == read("lb").factor / 16);
    assert_true(read_as("oz/min", "flow").dim.power[BASE_LENGTH] == 3);
    unit dilution = read_as("oz per gal", "dilution");
    assert_true(dimension_is_none(dilution.dim));
    near_to(dilution.factor, 1.0 / 128, 1e-17);
    assert_true(read_as("oz per gal", "density").dim.power[BASE_MASS] == 1);
    assert_true(read_as("oz", "time").dim.power[BASE_MASS] == 1); /* neither: the first */
    assert_true(read_as("lb", "force").factor == read("lbf").factor);
    assert_true(read_as("ppm", "hardness").factor == 1e-3);
    assert_true(read("ppm").factor == 1e-6);
}

static void temperatures(void **state)
{
    (void)state;
    assert_int_equal(read("degF").form, UNIT_SCALE);
    same("°F", "degF");
    same("deg F", "degF");
    same("F", "degF");
    same("degrees Celsius", "degC");
    assert_int_equal(read("degF interval").form, UNIT_PLAIN);
    same("°F interval", "degF interval");
    same("deg. F difference", "degF interval");
    assert_int_equal(read("/degF").form, UNIT_PLAIN);
    same("/degF", "/degF interval");
    assert_true(read("/degF").offset == 0);
    assert_int_equal(read("degF/min").form, UNIT_PLAIN);
    assert_true(read("degC*m").offset == 0);
    assert_true(read("degC^1").form == UNIT_PLAIN);
    unit scale = read("degF"), interval = read("degF interval"), celsius = read("degC");
    assert_true(unit_fits(&scale, &celsius));
    assert_false(unit_fits(&scale, &interval));
    assert_false(unit_fits(&interval, &scale));
    assert_false(unit_fits(&celsius, &unit_none));
}

static void converts(double number, const char *from, double wanted, const char *to)
{
    unit f = read(from), t = read(to);
    assert_true(unit_fits(&f, &t));
    double got = unit_convert(&f, &t, number), back = unit_convert(&t, &f, got);
    if (fabs(got - wanted) > 1e-12 * fmax(1, fabs(wanted)))
        fail_msg("%.17g %s is %.17g %s, not %.17g", number, from, got, to, wanted);
    if (fabs(back - number) > 1e-12 * fmax(1, fabs(number)))
        fail_msg("%.17g %s comes back as %.17g", number, from, back);
    double base = unit_to_base(&f, number);
    near_to(unit_from_base(&t, base), wanted, 1e-9 * fmax(1, fabs(wanted)));
}

static void converting(void **state)
{
    (void)state;
    converts(32, "degF", 0, "degC");
    converts(212, "degF", 100, "degC");
    converts(-40, "degF", -40, "degC");
    converts(140, "degF", 60, "degC");
    converts(18, "degF interval", 10, "degC interval");
    converts(10, "degC interval", 10, "K interval");
    converts(20, "degC", 293.15, "K");
    converts(1, "ft", 12, "in");
    converts(1, "mile", 5280, "ft");
    converts(1, "gal", 231, "in3");
    converts(1, "gal", 128, "fl oz");
    converts(1, "imp gal", 160, "imp fl oz");
    converts(1, "ft3", 1728, "in3");
    converts(2, "%", 20000, "ppm");
    converts(60, "rpm", 1, "Hz");
    converts(120, "cars/h", 2, "cars/min");
    converts(1, "ton", 2000, "lb");
    converts(100, "°fH", 1000, "mg/L");
    unit gallons = read("gallons per minute"), gpm = read("gpm");
    assert_true(unit_convert(&gallons, &gpm, 0.1) == 0.1);
    unit parts = read("1:N"), one_in = read("1 in N"), percent = read("%");
    assert_int_equal(parts.form, UNIT_PARTS);
    assert_int_equal(read("1 : n").form, UNIT_PARTS);
    assert_int_equal(one_in.form, UNIT_ONE_IN);
    assert_int_equal(read("1 IN n").form, UNIT_ONE_IN);
    near_to(unit_convert(&parts, &percent, 0.02), 2, 1e-15);
    assert_true(unit_convert(&parts, &one_in, 0.02) == 0.02);
    assert_true(unit_fits(&parts, &percent) && unit_fits(&unit_none, &one_in));
}

static void dimensions(void **state)
{
    (void)state;
    assert_str(dimension_words(a, dim("pressure")), "pressure");
    assert_str(dimension_words(a, read("gal/min").dim), "flow");
    assert_str(dimension_words(a, unit_none.dim), "a plain number");
    assert_str(dimension_words(a, read("gpm/psi").dim), "length⁴ × time per mass");
    assert_str(dimension_words(a, read("/ft").dim), "1 per length");
    assert_str(dimension_words(a, read("/ft^9/ft^3").dim), "1 per length¹²");
    assert_str(dimension_words(a, read("m/s^3").dim), "length per time³");
    dimension d;
    assert_false(dimension_named(STR("foam-height"), &d));
    assert_false(dimension_named(STR(""), &d));
    assert_false(dimension_named(STR("level"), &d));
    assert_true(dimension_same(dim("weight"), dim("mass")));
    assert_true(dimension_same(dim("torque"), read("N m").dim));
    assert_true(dimension_same(dim("water hardness"), read("gpg").dim));
    assert_true(dimension_same(dimension_times(dim("speed"), dim("time")), dim("length")));
    assert_true(dimension_same(dimension_over(dim("volume"), dim("time")), dim("flow")));
    assert_false(dimension_same(dim("mass"), dim("length")));
}

static void suggesting(void **state)
{
    (void)state;
    assert_str(unit_examples(a, dim("pressure"), 3), "psi, bar, kPa");
    assert_str(unit_examples(a, dim("flow"), 2), "gpm, L/min");
    assert_str(unit_examples(a, dim("dilution"), 4), "%, ppm, 1:N, 1 in N");
    assert_str(unit_examples(a, dim("acceleration"), 3), "");
    assert_str(unit_examples(a, dim("pressure"), 0), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_spelling_is_its_row),
        cmocka_unit_test(the_table_is_sound),
        cmocka_unit_test(no_spelling_is_taken_twice),
        cmocka_unit_test(case_decides_where_it_must),
        cmocka_unit_test(composing),
        cmocka_unit_test(what_is_no_unit),
        cmocka_unit_test(long_text_is_no_unit),
        cmocka_unit_test(what_is_wanted_decides),
        cmocka_unit_test(temperatures),
        cmocka_unit_test(converting),
        cmocka_unit_test(dimensions),
        cmocka_unit_test(suggesting),
    };
    return cmocka_run_group_tests(tests, arena_ready, NULL);
}
