/* Formulas: what is read, what is refused and where, types, values. */
#include "testing.h"

#include <float.h>
#include <math.h>
#include <stdio.h>

#include "formula_kit.h"

static formula_kit wash(void)
{
    formula_kit k = formula_kit_new();
    formula_kit_name(&k, "cut-in", 40, "psi");
    formula_kit_name(&k, "cut-out", 4, "bar");
    formula_kit_name(&k, "dwell", 2, "min");
    formula_kit_name(&k, "speed", 30, "ft/min");
    formula_kit_name(&k, "zone", 10, "ft");
    formula_kit_name(&k, "cars", 100, "");
    formula_kit_name(&k, "water", 60, "degF");
    formula_kit_name(&k, "rinse", 30, "degC");
    formula_kit_name(&k, "batch", 64, "fl oz");
    formula_kit_name(&k, "nothing", 0, "psi");
    uint32_t first = formula_kit_name(&k, "drop of left", 5, "psi");
    formula_kit_name(&k, "drop of right", 0.5, "bar");
    formula_kit_name(&k, "drop of first", 9, "psi");
    formula_kit_every(&k, "drop of every filter", first, 2, "psi");
    formula_kit_every(&k, "drop of every ghost", 0, 0, "psi");
    return k;
}

#define assert_near(got, wanted) assert_double_within((got), (wanted), 1e-12, __LINE__)
static void assert_double_within(double got, double wanted, double share, int line)
{
    if (!(fabs(got - wanted) <= share * fmax(fabs(got), fabs(wanted))))
        fail_msg("line %d: %.17g, wanted %.17g", line, got, wanted);
}

/* ---- values ---- */

static void values(void **state)
{
    (void)state;
    static const struct {
        const char *text, *in;
        double value;
    } cases[] = {
        {"cut-in", "psi", 40},
        {"cut-in + 2 psi", "psi", 42},
        {"cut-in - 5 psi", "psi", 35},
        {"-cut-in", "psi", -40},
        {"-(cut-in - 50 psi)", "psi", 10},
        {"2 * cut-in", "psi", 80},
        {"2*cut-in+1 psi", "psi", 81},
        {"cut-in - 3 psi - 2 psi", "psi", 35},
        {"cut-in - (3 psi - 2 psi)", "psi", 39},
        {"24 / 4 / 2", "", 3},
        {"24 / (4 / 2)", "", 12},
        {"2 + 3 * 4", "", 14},
        {"(2 + 3) * 4", "", 20},
        {"2 - -3", "", 5},
        {"2 * -3", "", -6},
        {"- 3", "", -3},
        {"zone / speed", "s", 20},
        {"zone / speed / dwell", "%", 100.0 / 6},
        {"3 gal/min * dwell", "gal", 6},
        {"3 gal / cars", "gal", 0.03},
        {"60 /h * 20 ft", "ft/h", 1200},
        {"60/h * 20 ft", "ft/h", 1200},
        {"0.015 /degF * (water - 50 degF)", "%", 15},
        {"1:50", "%", 100.0 / 51},
        {"1 in 50", "%", 2},
        {"1:32.333", "%", 100 / 33.333},
        {"1:49 * 10 gal", "gal", 0.2},
        {"2 % * 10 gal", "gal", 0.2},
        {"2% * 10 gal", "gal", 0.2},
        {"1/2 * 3 gal", "gal", 1.5},
        {"1 1/2 in", "in", 1.5},
        {"batch / 8 fl oz per 5 gal", "gal", 40},
        {"1 in", "in", 1},
        {"1 in * 50", "in", 50},
        {"\xC2\xBD in", "in", 0.5},
        {"2\xC2\xBD in", "in", 2.5},
        {"2 \xC2\xBE in", "in", 2.75},
        {".5 psi", "psi", 0.5},
        {"310kPa", "kPa", 310},
        {"5 ft + 6 in", "in", 66},
        {"3 in^2 / 3 in", "in", 1},
        {"min(cut-in, cut-out, 50 psi)", "psi", 40},
        {"max(cut-in, cut-out)", "bar", 4},
        {"max (cut-in,cut-out)", "bar", 4},
        {"mean(1, 2, 6)", "", 3},
        {"sum(1, 2, 6)", "", 9},
        {"abs(cut-in - 50 psi)", "psi", 10},
        {"sqrt(9 ft^2)", "ft", 3},
        {"sqrt(cut-in / 10 psi)", "", 2},
        {"sqrt(0)", "", 0},
        {"drop of left", "psi", 5},
        {"drop of  left\n + drop\nof first", "psi", 14},
        {"max(drop of every filter)", "bar", 0.5},
        {"min(drop of every filter, 2 psi)", "psi", 2},
        {"sum(drop of every filter) - drop of left", "bar", 0.5},
        {"mean(drop of every filter, drop of left + drop of right)", "psi",
         (5 + 7.2518868865068754) * 2 / 3},
        {"sum(drop of every ghost) + 3 psi", "psi", 3},
        {"max(drop of every ghost, 3 psi)", "psi", 3},
        {"sum(drop of every ghost)", "psi", 0},
        {"nothing * 3", "psi", 0},
    };
    formula_kit k = wash();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_double_within(formula_kit_in(&k, cases[i].text, cases[i].in), cases[i].value, 1e-12,
                             (int)i);
    formula_kit_free(&k);
}

static void temperatures(void **state)
{
    (void)state;
    formula_kit k = wash();
    assert_near(formula_kit_in(&k, "water", "degF"), 60);
    assert_near(formula_kit_in(&k, "rinse", "degF"), 86);
    assert_near(formula_kit_in(&k, "rinse - water", "degF interval"), 26);
    assert_near(formula_kit_in(&k, "rinse - water", "degC interval"), 26 / 1.8);
    assert_near(formula_kit_in(&k, "water + (rinse - water)", "degC"), 30);
    assert_near(formula_kit_in(&k, "(rinse - water) + water", "degC"), 30);
    assert_near(formula_kit_in(&k, "water - (rinse - water)", "degF"), 34);
    assert_near(formula_kit_in(&k, "water - 5 degF interval", "degF"), 55);
    assert_near(formula_kit_in(&k, "water + 5 degC interval", "degF"), 69);
    assert_near(formula_kit_in(&k, "water - rinse + water", "degF"), 34);
    assert_near(formula_kit_in(&k, "mean(rinse, 50 degF)", "degF"), 68);
    assert_near(formula_kit_in(&k, "max(rinse, water)", "degC"), 30);
    assert_near(formula_kit_in(&k, "2 * (rinse - water)", "degF interval"), 52);
    assert_near(formula_kit_in(&k, "(rinse - water) / 2 degF", ""), 13);
    /* below freezing, not the negative of five degrees */
    assert_near(formula_kit_in(&k, "-5 degC", "degC"), -5);
    assert_near(formula_kit_in(&k, "- 5 degC", "degC"), -5);
    assert_near(formula_kit_in(&k, "rinse - -5 degC", "degC interval"), 35);
    formula_kit_free(&k);
}

static void ounces(void **state)
{
    (void)state;
    formula_kit k = wash();
    assert_near(formula_kit_in(&k, "batch + 64 oz", "gal"), 1);
    assert_near(formula_kit_in(&k, "64 oz + batch", "gal"), 1);
    assert_near(formula_kit_in(&k, "max(2 oz, batch)", "fl oz"), 64);
    assert_near(formula_kit_in(&k, "max(batch, 128 oz)", "gal"), 1);
    assert_near(formula_kit_in(&k, "16 oz", "lb"), 1);
    formula_kit_free(&k);
}

/* ---- errors ---- */

/* The text with the faulty bytes between > and <. */
static str marked(formula_kit *k, const char *text)
{
    str t = str_of(text);
    assert_true(k->error.from <= k->error.to && k->error.to <= t.n);
    return str_printf(k->keep, "%.*s>%.*s<%.*s", (int)k->error.from, text,
                      (int)(k->error.to - k->error.from), text + k->error.from,
                      (int)(t.n - k->error.to), text + k->error.to);
}

typedef struct fault_case {
    const char *marked;      /* the faulty bytes between > and < */
    const char *what, *help; /* parts of them */
} fault_case;

static void check_fault(formula_kit *k, const fault_case *c)
{
    char text[256];
    size_t used = 0;
    assert_true(strlen(c->marked) < sizeof text);
    for (const char *p = c->marked; *p != 0; p++)
        if (*p != '\x01' && *p != '\x02') text[used++] = *p;
    text[used] = 0;
    if (formula_kit_parse(k, text) != NULL) fail_msg("'%s' is taken", text);
    if (k->error.what == NULL)
        fail_msg("'%s': no error, but '%s' is not known", text, k->refused.p);
    str got = marked(k, text);
    char wanted[256];
    snprintf(wanted, sizeof wanted, "%s", c->marked);
    for (char *p = wanted; *p != 0; p++) *p = *p == '\x01' ? '>' : *p == '\x02' ? '<' : *p;
    assert_str(got, wanted);
    if (strstr(k->error.what, c->what) == NULL)
        fail_msg("'%s': '%s', wanted '%s'", text, k->error.what, c->what);
    if (k->error.help == NULL || strstr(k->error.help, c->help) == NULL)
        fail_msg("'%s': '%s', wanted '%s'", text, k->error.help, c->help);
    assert_true(k->error.what[strlen(k->error.what) - 1] == '.');
}

/* \1 and \2 stand round the faulty bytes. */
#define AT(before, faulty, after) before "\x01" faulty "\x02" after

static void check_all(const fault_case *cases, size_t count)
{
    formula_kit k = wash();
    for (size_t i = 0; i < count; i++) check_fault(&k, &cases[i]);
    formula_kit_free(&k);
}
#define CHECK_ALL(cases) check_all((cases), sizeof(cases) / sizeof *(cases))

static void tight_signs(void **state)
{
    (void)state;
    static const fault_case cases[] = {
        {AT("cut-in ", "-", "5 psi"), "hold hyphens", "Write 'cut-in - 5 psi'."},
        {AT("cut-in", "-", " 5 psi"), "hold hyphens", "Write 'cut-in - 5 psi'."},
        {AT("(cut-in)", "-", "5 psi * 2"), "blank on each side", "'(cut-in) - 5 psi'"},
        {AT("3 psi", "-", "2 psi"), "blank on each side", "'3 psi - 2 psi'"},
        {AT("3 psi ", "-", "2 psi"), "blank on each side", "'3 psi - 2 psi'"},
        {AT("3", "-", "2"), "blank on each side", "'3 - 2'"},
        {AT("zone", "/", "speed"), "belongs to a unit", "Write 'zone / speed'."},
        {AT("zone ", "/", "speed"), "belongs to a unit", "Write 'zone / speed'."},
        {AT("zone", "/", " speed"), "belongs to a unit", "Write 'zone / speed'."},
        {AT("2 * (zone)", "/", "speed"), "belongs to a unit", "Write '2 * (zone) / speed'."},
    };
    CHECK_ALL(cases);
}

static void units(void **state)
{
    (void)state;
    static const fault_case cases[] = {
        {AT("cut-in + 3 ", "psl", ""), "'psl' is no unit", "Did you mean 'psi'?"},
        {AT("3 ", "zone", ""), "'zone' is no unit", "To multiply, write '3 * zone'."},
        {AT("3 gal/", "car-count", " * 2"), "'car-count' is no unit", "blank on each side of '/'"},
        {AT("3 gal/min ", "foo", ""), "There is no sign before 'foo'", "between two values"},
        {AT("", "3,1", " bar"), "more than one way", "Write '3.1' for decimals"},
        {AT("max(", "3,1", ")"), "more than one way", "'3, 1' for two of a list"},
        {AT("", "1,500", " gal"), "more than one way", "'1500'"},
        {AT("max(", ",", "5)"), "value is missing", "Write a name"},
        {AT("", "1.2.3", ""), "more than one way", "one point"},
        {AT("", "1/0", " gal"), "'1/0' is no number", "Write a number"},
        {AT("", "2:50", ""), "does not begin with one part", "Write '1:25'."},
        {AT("", "50:1", ""), "no ratio", "1:50"},
        {AT("5", "'6\"", ""), "is no unit", "5 ft + 6 in"},
        {AT("3 gal", "/", ""), "'/' is no unit", "blank on each side"},
        {AT("", "K", " * 3"), "a unit without a number", "'1 K'"},
        {AT("", "1:0", ""), "no ratio", "1:50"},
        {AT("", "-1:50", ""), "can't be negative", "minus"},
        {AT("", "2 in 50", ""), "does not begin with one part", "Write '1 in 25'."},
        {AT("", "1 in 0.5", ""), "no ratio", "1:50"},
        {AT("", "0 in 5", ""), "no ratio", "1:50"},
        {AT("dwell + 3 ", "months", ""), "'months' is no unit", "Months and years differ"},
        {AT("dwell + 3 ", "years", ""), "'years' is no unit", "Months and years differ"},
        {AT("5 ft ", "6", " in"), "no sign before '6'", "5 ft + 6 in"},
    };
    CHECK_ALL(cases);
}

static void dimensions(void **state)
{
    (void)state;
    static const fault_case cases[] = {
        {AT("cut-in + ", "30 min", ""), "'30 min' is time and can't be added to pressure", "psi"},
        {AT("cut-in - ", "dwell * 2", " + 3 psi"), "is time and can't be taken from pressure", ""},
        {AT("cut-in + ", "5", ""), "'5' is a plain number", "'5 psi'"},
        {AT("5 + ", "cut-in", ""), "pressure and can't be added to a plain number", "'5 psi'"},
        {AT("min(cut-in, ", "zone", ", 3)"), "before it in the list is pressure", "pressure"},
        {AT("min(drop of every filter, ", "zone", ")"), "in the list is pressure", ""},
        {AT("sum(drop of every ghost) + ", "zone", ""), "length", "pressure"},
        {AT("sqrt(", "cut-in", ")"), "of which there is no root", "'sqrt(cut-in / 1 psi)'"},
        {AT("sqrt(", "zone * zone * zone", ")"), "no root", "1 gal"},
        {AT("sqrt(", "zone + 3 ft", ")"), "no root", "'sqrt((zone + 3 ft) / 1 ft)'"},
        {AT("water + ", "rinse", ""), "two temperatures can't be added", "mean(a, b)"},
        {AT("water + ", "5 degF", ""), "two temperatures", "5 degF interval"},
        {AT("(water - rinse) - ", "water", ""), "taken from a difference", "first"},
        {AT("2 * ", "water", ""), "on its scale and can't be multiplied", "'(water - 32 degF)'"},
        {AT("", "water", " * 2"), "on its scale", "difference first"},
        {AT("2 / ", "water", ""), "can't be divided by", "difference"},
        {AT("-", "water", ""), "can't be made negative", "difference"},
        {AT("abs(", "water", ")"), "on its scale", "difference"},
        {AT("sqrt(", "water", ")"), "on its scale", "difference"},
        {AT("sum(", "water", ", rinse)"), "can't be added up", "difference"},
        {AT("mean(water, ", "water - rinse", ")"), "is a difference of temperatures",
         "temperature"},
        {AT("water + ", "cut-in", ""), "is pressure and can't be added to a temperature", ""},
    };
    CHECK_ALL(cases);
}

static void grammar(void **state)
{
    (void)state;
    static const fault_case cases[] = {
        {AT("", "", ""), "no formula", "set-point"},
        {AT("", "", "   "), "no formula", "set-point"},
        {AT("cut-in +", "", ""), "value is missing", "Write a name"},
        {AT("cut-in + ", "*", " 3"), "value is missing", "Write a name"},
        {AT("(", ")", ""), "value is missing", ""},
        {AT("2 * ", "(", "cut-in + 3 psi"), "never closed", "Put ')'"},
        {AT("max", "(", "cut-in, 3 psi"), "never closed", "Put ')'"},
        {AT("cut-in", ")", ""), "closes nothing", "Leave it out"},
        {AT("cut-in", ",", " 3 psi"), "only in the list", "2.5"},
        {AT("(cut-in", ",", " 3 psi)"), "only in the list", "2.5"},
        {AT("", "maxx", "(cut-in, 3 psi)"), "no function 'maxx'", "Did you mean 'max'?"},
        {AT("", "round", "(cut-in)"), "no function 'round'", "min, max, abs, sqrt, sum and mean"},
        {AT("", "max", " cut-in"), "is a function", "max(a, b)"},
        {AT("abs(cut-in, ", "3 psi", ")"), "takes one value", "Leave"},
        {AT("min(", ")", ""), "value is missing", ""},
        {AT("cut-in ", "cut-out", ""), "no sign before 'cut-out'", "between two values"},
        {AT("cut-in ", "plus", " 3 psi"), "'plus' is no sign", "' + '"},
        {AT("cut-in ", "x", " 3"), "'x' is no sign", "' * '"},
        {AT("3 ", "x", " cut-in"), "'x' is no sign", "' * '"},
        {AT("zone ", "per", " dwell"), "'per' is no sign", "' / '"},
        {AT("cut-in ", "\xE2\x88\x92", " 5 psi"), "can't stand here", "Write '-'"},
        {AT("2 ", "\xC3\x97", " cut-in"), "can't stand here", "Write '*'"},
        {AT("zone ", "^", " 2"), "can't stand here", "a * a"},
        {AT("zone ", "**", " 2"), "can't stand here", "a * a"},
        {AT("cut-in ", ">", " 3 psi"), "can't stand here", "above"},
        {AT("", "[", "cut-in]"), "can't stand here", "round brackets"},
        {AT("", "{", "cut-in}"), "can't stand here", "braces"},
        {AT("cut-in + ", "\xC3\xBC", ""), "can't stand here", "names, amounts"},
        {AT("", "Cut_In", " + 3 psi"), "is no name", "Write 'cut-in'."},
        {AT("", "drop of every filter", " + 3 psi"), "several 'drop'", "max(drop of every filter)"},
        {AT("max(2 * ", "drop of every filter", ")"), "several 'drop'", "for-each"},
        {AT("abs(", "drop of every filter", ")"), "several 'drop'", "max("},
        {AT("max(drop of ", "any", " filter)"), "'of any' is no number", "'of every filter'"},
        {AT("max(drop of ", "all", " filter)"), "'of all' is no number", "'of every filter'"},
        {AT("max(drop of ", "each", " filter)"), "'of each' is no number", "'of every filter'"},
        {AT("max(drop of ", "none", " filter)"), "'of none' is no number", "'of every filter'"},
        {AT("max(drop of ", "any", ")"), "'of any' is no number", "'of every kind'"},
        {AT("max(drop of ", "any", " filter)"), "'of any' is no number", "'of every filter'"},
        {AT("drop ", "of", ""), "a name is missing", "'of every'"},
    };
    CHECK_ALL(cases);
}

static void depth_and_length(void **state)
{
    (void)state;
    formula_kit k = wash();
    for (uint32_t depth = FORMULA_DEEPEST; depth <= FORMULA_DEEPEST + 1; depth++) {
        text_builder b = {.keep = k.keep};
        for (uint32_t i = 0; i < depth; i++) text_add(&b, i % 2 == 0 ? STR("(") : STR("abs("));
        text_add(&b, STR("cut-in"));
        for (uint32_t i = 0; i < depth; i++) text_add(&b, STR(")"));
        assert_int_equal(formula_kit_parse(&k, text_done(&b).p) != NULL, depth == FORMULA_DEEPEST);
    }
    assert_string_equal(k.error.what, "Brackets stand too deep in each other.");
    char text[FORMULA_LONGEST + 2];
    memset(text, ' ', sizeof text);
    text[0] = '1';
    text[FORMULA_LONGEST] = 0;
    assert_non_null(formula_kit_parse(&k, text));
    text[FORMULA_LONGEST] = ' ';
    text[FORMULA_LONGEST + 1] = 0;
    assert_null(formula_kit_parse(&k, text));
    assert_string_equal(k.error.what, "This formula is too long.");
    formula_kit_free(&k);
}

/* Every name that is not known is told, and nothing is said of what they would have been added to.
 */
static void unknown_names(void **state)
{
    (void)state;
    formula_kit k = wash();
    assert_null(formula_kit_parse(&k, "cut-inn + sqrt(mx) * (cut-in - max(drop of every valve))"));
    assert_str(k.refused, "cut-inn mx drop of every valve ");
    assert_null(k.error.what);
    assert_null(formula_kit_parse(&k, "cut-in-5 psi"));
    assert_non_null(k.error.what);
    formula_kit_free(&k);
}

/* ---- undefined and waiting ---- */

static void assert_undefined(formula_kit *k, const char *text, const char *at, formula_lack why)
{
    formula_result r = formula_kit_value(k, formula_kit_good(k, text));
    assert_int_equal(r.state, FORMULA_UNDEFINED);
    assert_int_equal(r.why, why);
    assert_str(str_slice(str_of(text), r.from, r.to), at);
}

static void undefined_values(void **state)
{
    (void)state;
    formula_kit k = wash();
    uint32_t huge = formula_kit_name(&k, "huge", 1e300, "");
    const formula_lack zero = FORMULA_BY_ZERO, negative = FORMULA_NO_ROOT,
                       large = FORMULA_TOO_LARGE;
    assert_undefined(&k, "cut-in / nothing", "nothing", zero);
    assert_undefined(&k, "3 / (cut-in - 40 psi)", "(cut-in - 40 psi)", zero);
    /* 310 kPa is 3.1 bar: what is left of the difference is rounding */
    assert_undefined(&k, "3 / (3.1 bar - 310 kPa)", "(3.1 bar - 310 kPa)", zero);
    assert_undefined(&k, "3 / sqrt((3.1 bar - 310 kPa) / 1 psi)",
                     "sqrt((3.1 bar - 310 kPa) / 1 psi)", zero);
    assert_undefined(&k, "sqrt((cut-in - 50 psi) / 1 psi)", "(cut-in - 50 psi) / 1 psi", negative);
    assert_undefined(&k, "huge * huge + 1", "huge * huge", large);
    assert_undefined(&k, "1 + max(drop of every ghost) / 1 psi", "max(drop of every ghost)",
                     FORMULA_NO_MEMBER);
    assert_undefined(&k, "mean(drop of every ghost)", "mean(drop of every ghost)",
                     FORMULA_NO_MEMBER);
    k.numbers[huge] = INFINITY;
    assert_undefined(&k, "huge", "huge", FORMULA_NO_NUMBER);
    k.numbers[huge] = NAN;
    assert_undefined(&k, "0 * huge", "huge", FORMULA_NO_NUMBER);
    formula_kit_free(&k);
}

static void waiting_values(void **state)
{
    (void)state;
    formula_kit k = wash();
    uint32_t asked = formula_kit_name(&k, "asked", 3, "psi");
    static const char *const waits[] = {
        "asked",      "asked + 2 psi",       "2 psi - asked", "0 * asked",     "max(9 psi, asked)",
        "abs(asked)", "sqrt(asked / 1 psi)", "-asked",        "cut-in / asked"};
    for (size_t i = 0; i < sizeof waits / sizeof *waits; i++) {
        const formula *f = formula_kit_good(&k, waits[i]);
        k.known[asked] = false;
        assert_int_equal(formula_kit_value(&k, f).state, FORMULA_WAITS);
        k.known[asked] = true;
        assert_int_equal(formula_kit_value(&k, f).state, FORMULA_VALUE);
    }
    k.known[asked] = false;
    /* an answer would not help */
    assert_undefined(&k, "asked + cut-in / 0", "0", FORMULA_BY_ZERO);
    assert_undefined(&k, "cut-in / 0 + asked", "0", FORMULA_BY_ZERO);
    assert_undefined(&k, "asked / nothing", "nothing", FORMULA_BY_ZERO);
    assert_undefined(&k, "1 psi / nothing / asked", "nothing", FORMULA_BY_ZERO);
    formula_kit_free(&k);
}

/* ---- scale ---- */

static double scale_of(formula_kit *k, const char *text)
{
    formula_result r = formula_kit_value(k, formula_kit_good(k, text));
    assert_int_equal(r.state, FORMULA_VALUE);
    assert_true(r.scale >= fabs(r.base));
    return r.scale;
}

static void scales(void **state)
{
    (void)state;
    formula_kit k = wash();
    assert_near(scale_of(&k, "-3"), 3);
    assert_near(scale_of(&k, "3 * 4"), 12);
    assert_near(scale_of(&k, "1000 - 999"), 1000);
    assert_near(scale_of(&k, "1000 - 999 + 5"), 1000);
    assert_near(scale_of(&k, "(1000 - 999) * 3"), 3000);
    assert_near(scale_of(&k, "3 * (1000 - 999)"), 3000);
    assert_near(scale_of(&k, "(1000 - 999) / 4"), 250);
    assert_near(scale_of(&k, "8 / (1000 - 998)"), 2000); /* 4, known to 1/500 as well as 2 is */
    assert_near(scale_of(&k, "sqrt(1000 - 996)"), 500);
    assert_near(scale_of(&k, "sqrt(49)"), 7);
    assert_near(scale_of(&k, "abs(3 - 1000)"), 1000);
    assert_near(scale_of(&k, "min(2, 1000)"), 2);
    assert_near(scale_of(&k, "sum(1000, -999)"), 1000);
    assert_near(scale_of(&k, "mean(1000, -1000)"), 1000);
    assert_near(scale_of(&k, "rinse - 29 degC"), 303.15);
    assert_near(scale_of(&k, "-270 degC"), 273.15);
    assert_near(scale_of(&k, "0"), 0);
    formula_kit_free(&k);
}

/* What is equal but for rounding is within the share of the scale, through every step. */
static void rounding_stays_within(void **state)
{
    (void)state;
    static const char *const zeros[] = {
        "3.1 bar - 310 kPa",     "(3.1 bar - 310 kPa) * 1000", "(0.1 + 0.2 - 0.3) / 0.001",
        "sqrt(0.1 + 0.2 - 0.3)", "sqrt(0.3 - 0.2 - 0.1)",      "sqrt((0.1 + 0.2) * 10) - sqrt(3)",
        "86 degF - 30 degC",     "mean(0.1, 0.2, -0.3)",       "5' + 6 in - 66 in",
    };
    formula_kit k = wash();
    for (size_t i = 0; i < sizeof zeros / sizeof *zeros; i++) {
        formula_result r = formula_kit_value(&k, formula_kit_good(&k, zeros[i]));
        assert_int_equal(r.state, FORMULA_VALUE);
        if (fabs(r.base) > FORMULA_ROUNDING * r.scale)
            fail_msg("'%s': %g of %g", zeros[i], r.base, r.scale);
    }
    formula_kit_free(&k);
}

/* ---- subjects and words ---- */

static void subjects(void **state)
{
    (void)state;
    formula_kit k = wash();
    uint32_t count;
    const formula *f =
        formula_kit_good(&k, "drop of first + max(drop of every filter, cut-in) - drop of first");
    const uint32_t *s = formula_subjects(f, &count);
    assert_int_equal(count, 4);
    const char *const wanted[] = {"drop of first", "drop of left", "drop of right", "cut-in"};
    for (uint32_t i = 0; i < count; i++) assert_str(k.subject_names[s[i]], wanted[i]);
    formula_subjects(formula_kit_good(&k, "3 psi"), &count);
    assert_int_equal(count, 0);
    formula_kit_free(&k);
}

static void words(void **state)
{
    (void)state;
    static const char *const pairs[][2] = {
        {"cut-in+2psi", "cut-in + 2 psi"},
        {"((cut-in))  -\n (cut-out - 1 psi)", "cut-in - (cut-out - 1 psi)"},
        {"(2*3)*(4 / 5)", "(2 * 3) * (4 / 5)"},
        {"(2 * 3) + 4", "2 * 3 + 4"},
        {"-(3)", "-(3)"},
        {"- 3 psi", "-3 psi"},
        {"-cut-in * 2", "-cut-in * 2"},
        {"-max(1, 2)", "-max(1, 2)"},
        {"1  in 50 * 2%", "1 in 50 * 2 %"},
        {"1 1/2in", "1 1/2 in"},
        {"max( drop of every filter ,cut-in)", "max(drop of left, drop of right, cut-in)"},
        {"sum(drop of every ghost)", "sum()"},
    };
    formula_kit k = wash();
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        str once = formula_kit_words(&k, formula_kit_good(&k, pairs[i][0]));
        assert_str(once, pairs[i][1]);
        if (strstr(once.p, "()") == NULL)
            assert_str(formula_kit_words(&k, formula_kit_good(&k, once.p)), pairs[i][1]);
    }
    formula_kit_free(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values),
        cmocka_unit_test(temperatures),
        cmocka_unit_test(ounces),
        cmocka_unit_test(tight_signs),
        cmocka_unit_test(units),
        cmocka_unit_test(dimensions),
        cmocka_unit_test(grammar),
        cmocka_unit_test(depth_and_length),
        cmocka_unit_test(unknown_names),
        cmocka_unit_test(undefined_values),
        cmocka_unit_test(waiting_values),
        cmocka_unit_test(scales),
        cmocka_unit_test(rounding_stays_within),
        cmocka_unit_test(subjects),
        cmocka_unit_test(words),
    };
    return cmocka_run_group_tests_name("formulas", tests, NULL, NULL);
}
