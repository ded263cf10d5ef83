/* The table of units against two outside sources:
 *   GNU Units (the program `units`, Debian package units): every row, to 1e-12
 *   NIST Special Publication 811 (2008), appendix B.8: its figures, to their digits, each
 * worked out here from the definitions of the units. Where B.8 rounds, our row is the exact value,
 * so it must round to the same digits. */
#include "testing.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

#include "measure/unit.h"
#include "skips.h"
#include "test_sources.h"

enum { LINE = 256 };

static arena *a;

static int arena_ready(void **state)
{
    (void)state;
    a = test_arena();
    return 0;
}

static double relative(double got, double wanted)
{
    return fabs(got - wanted) / fabs(wanted);
}

static unit read(const char *text)
{
    unit u;
    if (unit_read(a, str_of(text), NULL, &u, NULL) != UNIT_FOUND) fail_msg("'%s' is no unit", text);
    return u;
}

/* What base units are, in the words of GNU Units: "m^-1 kg^1 s^-2". */
static void base_words(FILE *out, dimension d)
{
    static const char *const bases[BASE_COUNT] = {"m", "kg", "s", "K", "A", "radian"};
    fprintf(out, "1");
    for (int i = 0; i < BASE_COUNT; i++)
        if (d.power[i] != 0) fprintf(out, " %s^%d", bases[i], d.power[i]);
    fprintf(out, "\n");
}

/* Two questions for each row: its 1 and its 100 in base units, so that an offset is seen. */
static void ask_row(FILE *out, const unit_row *row)
{
    static const int numbers[] = {1, 100};
    for (int i = 0; i < 2; i++) {
        if (row->form == UNIT_SCALE)
            fprintf(out, "%s(%d)\nK\n", row->gnu, numbers[i]);
        else
            fprintf(out, "%d (%s)\n", numbers[i], row->gnu);
        if (row->form != UNIT_SCALE) base_words(out, row->dim);
    }
}

/* Runs `units` on the file of questions; its answers, one a line. */
static FILE *answers_of_gnu(void)
{
    need_program("units", "units");
    assert_int_equal(system("units -t -o %.17g <asked >answered 2>&1"), 0);
    FILE *answers = fopen("answered", "r");
    assert_non_null(answers);
    return answers;
}

static double next_answer(FILE *answers, const char *about)
{
    char line[LINE], *end;
    if (fgets(line, sizeof line, answers) == NULL) fail_msg("no answer about %s", about);
    double number = strtod(line, &end);
    if (end == line || *end != '\n') fail_msg("about %s it says: %s", about, line);
    return number;
}

/* outside-check: the whole table of units, at 1 and at 100, to 1e-12
 * source: GNU Units (Debian package units), run live
 * standing: COMPUTED
 */
static void every_row_is_that_of_gnu_units(void **state)
{
    (void)state;
    FILE *asked = fopen("asked", "w");
    assert_non_null(asked);
    unit_row row;
    for (uint32_t i = 0; unit_table_row(i, &row); i++)
        if (row.gnu[0] != 0) ask_row(asked, &row);
    assert_int_equal(fclose(asked), 0);
    FILE *answers = answers_of_gnu();
    unsigned compared = 0;
    for (uint32_t i = 0; unit_table_row(i, &row); i++) {
        if (row.gnu[0] == 0) continue;
        compared++;
        unit u = {.dim = row.dim, .factor = row.factor, .offset = row.offset, .form = row.form};
        for (int number = 1; number <= 100; number += 99) {
            double gnu = next_answer(answers, row.name), ours = unit_to_base(&u, number);
            if (!(relative(ours, gnu) <= 1e-12))
                fail_msg("%d %s: %.17g here, %.17g there", number, row.name, ours, gnu);
        }
    }
    char more[LINE];
    assert_null(fgets(more, sizeof more, answers));
    fclose(answers);
    assert_true(compared > 100);
}

/* Only the forms of ratios have no word of GNU Units. */
/* outside-check: only the two forms of ratios have no word of GNU Units, so none of the rest is
 * left out source: GNU Units (Debian package units) standing: COMPUTED
 */
static void no_row_is_left_out(void **state)
{
    (void)state;
    unit_row row;
    for (uint32_t i = 0; unit_table_row(i, &row); i++)
        if (row.gnu[0] == 0 && row.form != UNIT_PARTS && row.form != UNIT_ONE_IN)
            fail_msg("%s is not compared", row.name);
}

/* What the units are defined by, exactly: inch, pound, gallon (231 cubic inches), standard gravity,
 * mercury at 0 °C. */
#define IN      0.0254
#define LB      0.45359237
#define GALLON  (231 * IN * IN * IN)
#define G       9.80665
#define MERCURY 13595.1

typedef struct printed_figure {
    const char *name, *figure; /* factor to SI base units, to the digits of the table */
    double defined;            /* the same from the definitions */
} printed_figure;

static const printed_figure sp811[] = {
    {"psi", "6.894757e+03", LB *G / IN / IN},
    {"bar", "1.0e+05", 1e5},
    {"inHg", "3.386389e+03", IN *MERCURY *G},
    {"inH2O", "2.490889e+02", IN * 1000 * G},
    {"ftH2O", "2.989067e+03", 12 * IN * 1000 * G},
    {"mmHg", "1.333224e+02", 1e-3 * MERCURY *G},
    {"torr", "1.333224e+02", 101325.0 / 760},
    {"atm", "1.01325e+05", 101325},
    {"kgf/cm2", "9.80665e+04", G * 1e4},
    {"gal", "3.785412e-03", GALLON},
    {"imp gal", "4.54609e-03", 4.54609e-3},
    {"fl oz", "2.957353e-05", GALLON / 128},
    {"imp fl oz", "2.841306e-05", 4.54609e-3 / 160},
    {"qt", "9.463529e-04", GALLON / 4},
    {"pt", "4.731765e-04", GALLON / 8},
    {"cup", "2.365882e-04", GALLON / 16},
    {"ft3", "2.831685e-02", 1728 * IN *IN *IN},
    {"in3", "1.638706e-05", IN *IN *IN},
    {"ft", "3.048e-01", 12 * IN},
    {"in", "2.54e-02", IN},
    {"mile", "1.609344e+03", 5280 * 12 * IN},
    {"mph", "4.4704e-01", 5280 * 12 * IN / 3600},
    {"ft/min", "5.08e-03", 12 * IN / 60},
    {"gpm", "6.309020e-05", GALLON / 60},
    {"cfm", "4.719474e-04", 1728 * IN *IN *IN / 60},
    {"lb", "4.535924e-01", LB},
    {"oz", "2.834952e-02", LB / 16},
    {"grain", "6.479891e-05", LB / 7000},
    {"ton", "9.071847e+02", 2000 * LB},
    {"lbf", "4.448222e+00", LB *G},
    {"ft lbf", "1.355818e+00", 12 * IN *LB *G},
    {"in lbf", "1.129848e-01", IN *LB *G},
    {"hp", "7.456999e+02", 550 * 12 * IN *LB *G},
    {"Btu", "1.055056e+03", 4186.8 * LB * 5 / 9},
    {"kWh", "3.6e+06", 3.6e6},
};

/* outside-check: 35 factors to seven digits, from the definitions of the units
 * source: NIST Special Publication 811 (2008), appendix B.8 (its definitions and digits); each
 * figure computed here standing: VERIFIED, COMPUTED
 */
static void the_printed_figures_of_sp811(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof sp811 / sizeof *sp811; i++) {
        char ours[64], defined[64];
        const int decimals = (int)(strchr(sp811[i].figure, 'e') - sp811[i].figure) - 2;
        snprintf(ours, sizeof ours, "%.*e", decimals, read(sp811[i].name).factor);
        snprintf(defined, sizeof defined, "%.*e", decimals, sp811[i].defined);
        if (strcmp(ours, sp811[i].figure) != 0 || strcmp(defined, sp811[i].figure) != 0)
            fail_msg("%s: %s here, %s by definition, %s in the table", sp811[i].name, ours, defined,
                     sp811[i].figure);
    }
    assert_true(read("degF interval").factor == 5.0 / 9);
}

/* SP 811 has three inches of mercury and of water (VERIFIED); ours are the conventional ones, which
 * the others must not pass for. */
/* outside-check: inches of mercury and of water are the conventional ones
 * source: NIST Special Publication 811 (2008), appendix B.8
 * standing: VERIFIED
 */
static void water_and_mercury_are_conventional(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        double other;
    } others[] = {{"inHg", 3386.38},  /* at 32 °F */
                  {"inHg", 3376.85},  /* at 60 °F */
                  {"inH2O", 249.082}, /* at 39.2 °F */
                  {"inH2O", 248.84}}; /* at 60 °F */
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        assert_true(relative(read(others[i].name).factor, others[i].other) > 1e-6);
}

/* Conversions worked out by GNU Units 2.22, to the 15 digits it printed. */
/* outside-check: temperatures and derived conversions to 15 digits
 * source: GNU Units 2.22
 * standing: COMPUTED
 */
static void conversions_worked_out_by_gnu_units(void **state)
{
    (void)state;
    static const struct {
        double number;
        const char *from;
        double wanted;
        const char *to;
    } cases[] = {
        {32, "degF", 0, "degC"},
        {212, "degF", 100, "degC"},
        {140, "degF", 60, "degC"},
        {-40, "degF", -40, "degC"},
        {1, "bar", 14.5037737730209, "psi"},
        {1, "psi", 0.0689475729316836, "bar"},
        {1, "imp gal", 1.20094992550486, "gal"},
        {1, "L", 0.264172052358148, "gal"},
        {1, "L", 33.814022701843, "fl oz"},
        {1, "gpm", 3.785411784, "L/min"},
        {1, "imp gpm", 4.54609, "L/min"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        unit from = read(cases[i].from), to = read(cases[i].to);
        double got = unit_convert(&from, &to, cases[i].number);
        if (!(fabs(got - cases[i].wanted) <= 1e-13 * fmax(1, fabs(cases[i].wanted))))
            fail_msg("%g %s is %.17g %s", cases[i].number, cases[i].from, got, cases[i].to);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_row_is_that_of_gnu_units),
        cmocka_unit_test(no_row_is_left_out),
        cmocka_unit_test(the_printed_figures_of_sp811),
        cmocka_unit_test(water_and_mercury_are_conventional),
        cmocka_unit_test(conversions_worked_out_by_gnu_units),
    };
    return cmocka_run_group_tests(tests, arena_ready, NULL);
}
