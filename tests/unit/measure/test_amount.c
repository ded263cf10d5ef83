#include "testing.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>

#include "measure/amount.h"
#include "test_sources.h"

static arena *a;

static int arena_ready(void **state)
{
    (void)state;
    a = test_arena();
    return 0;
}

static unit unit_of(const char *text)
{
    unit u;
    if (unit_read(a, str_of(text), NULL, &u, NULL) != UNIT_FOUND) fail_msg("'%s' is no unit", text);
    return u;
}

static void near_to(double got, double wanted)
{
    if (!(fabs(got - wanted) <= 1e-12 * fmax(1, fabs(wanted))))
        fail_msg("%.17g is not %.17g", got, wanted);
}

/* `text` read for a question in `wanted` is `number` of that unit. */
static void is(const char *text, const char *wanted, double number)
{
    unit u = unit_of(wanted);
    double got;
    str bad = STR("");
    amount_found found = amount_read(a, str_of(text), &u, &got, NULL, &bad);
    if (found != AMOUNT_FOUND)
        fail_msg("'%s' in %s: %d, '%.*s'", text, wanted, found, STR_ARG(bad));
    if (!(fabs(got - number) <= 1e-12 * fmax(1, fabs(number))))
        fail_msg("'%s' is %.17g %s, not %.17g", text, got, wanted, number);
}

static void is_not(amount_found wanted_found, const char *text, const char *wanted,
                   const char *wanted_bad)
{
    unit u = unit_of(wanted);
    double got;
    str bad = STR("?");
    amount_found found = amount_read(a, str_of(text), &u, &got, NULL, &bad);
    if (found != wanted_found) fail_msg("'%s' in %s: %d", text, wanted, found);
    assert_true(isfinite(got));
    assert_str(bad, wanted_bad);
}

static void in_its_own_unit(void **state)
{
    (void)state;
    is("45 psi", "psi", 45);
    is("45psi", "psi", 45);
    is("  45 PSI  ", "psi", 45);
    is("45 psi.", "psi", 45);
    is("+45 psi", "psi", 45);
    is("-5 psi", "psi", -5);
    is("- 5 psi", "psi", -5);
    is("\u22125 psi", "psi", -5);
    is("\u20135 psi", "psi", -5);
    is("-40 °F", "degC", -40);
    is("0.1 gpm", "gallons per minute", 0.1);
    is(".5 gal", "gal", 0.5);
    is("45\u00A0psi", "psi", 45);
    is("\u202F45\u2009psi\u00A0", "psi", 45);
    is("120 cars/h", "cars/h", 120);
    is("3 times", "times", 3);
    is("3", "times", 3);
    is("-3.5", "", -3.5);
    is("½", "", 0.5);
    unit u = unit_of("gal");
    double number;
    assert_int_equal(amount_read(a, STR("0.3 gal"), &u, &number, NULL, NULL), AMOUNT_FOUND);
    assert_true(number == 0.3);
    assert_int_equal(amount_read(a, STR("-0 gal"), &u, &number, NULL, NULL), AMOUNT_FOUND);
    assert_false(signbit(number));
}

static void in_another_unit(void **state)
{
    (void)state;
    is("3.1 bar", "bar", 3.1);
    is("3,1 bar", "bar", 3.1);
    is("310kPa", "bar", 3.1);
    is("1 bar", "psi", 14.5037737730209);
    is("140 °F", "degC", 60);
    is("60C", "degF", 140);
    is("3 gal per hour", "gpm", 0.05);
    is("2 %", "ppm", 20000);
    is("10 in H2O", "inH2O", 10);
    is("10inH2O", "inH2O", 10);
    is("5 m3/h", "L/h", 5000);
    is("5 m3", "L", 5000);
    is("5 ft^2", "in2", 720);
}

static void fractions(void **state)
{
    (void)state;
    is("1/2 in", "in", 0.5);
    is("1 1/2 in", "in", 1.5);
    is("1-1/2 in", "in", 1.5);
    is("1-1/2\"", "in", 1.5);
    is("½ in", "in", 0.5);
    is("1½ in", "in", 1.5);
    is("1 ½in", "in", 1.5);
    is("1⁄4 in", "in", 0.25);
    is("¾ gal", "qt", 3);
    is("⅛ in", "in", 0.125);
    is("⅐ in", "in", 1.0 / 7);
    is("-1 1/2 in", "in", -1.5);
    is("3/2 in", "in", 1.5);
    is("1/2 oz per gal", "oz per gal", 0.5);
    is("3/h", "/h", 3);
    is_not(AMOUNT_UNCLEAR, "5 3/2 in", "in", "5 3/2");
    is_not(AMOUNT_NO_NUMBER, "1/0 in", "in", "1/0 in");
    is_not(AMOUNT_OTHER_KIND, "1.5/2 in", "in", "/2 in");
    is_not(AMOUNT_UNCLEAR, "½ ½ in", "in", "½ ½ in");
}

static void feet_and_inches(void **state)
{
    (void)state;
    is("5' 6\"", "in", 66);
    is("5'6\"", "in", 66);
    is("5′ 6″", "in", 66);
    is("5’ 6”", "in", 66);
    is("5' 6''", "in", 66);
    is("5 ft 6 in", "ft", 5.5);
    is("5ft6in", "in", 66);
    is("5 ft, 6 in", "in", 66);
    is("5 feet and 6 inches", "in", 66);
    is("5' 6 1/2\"", "in", 66.5);
    is("5' 6½\"", "in", 66.5);
    is("-5 ft 6 in", "in", -66);
    is("1 in 3 mm", "mm", 28.4);
    is("1 h 30 min", "min", 90);
    is("1h30min", "min", 90);
    is("1ft2.5in", "in", 14.5);
    is("1 ft2 16 in2", "in2", 160);
    is("2 min 30 s", "s", 150);
    is("3 lb 8 oz", "lb", 3.5);
}

static void parts_that_do_not_add_up(void **state)
{
    (void)state;
    is_not(AMOUNT_UNCLEAR, "5 ft 6", "in", "5 ft 6");
    is_not(AMOUNT_UNCLEAR, "6 in 5 ft", "in", "6 in 5 ft");
    is_not(AMOUNT_UNCLEAR, "20 psi 30 psi", "psi", "20 psi 30 psi");
    is_not(AMOUNT_UNCLEAR, "5 ft 6 psi", "ft", "5 ft 6 psi");
    is_not(AMOUNT_UNKNOWN_UNIT, "5 ft -6 in", "ft", "ft -6 in");
    is_not(AMOUNT_UNCLEAR, "20 degC 5 degF", "degC", "20 degC 5 degF");
    is_not(AMOUNT_UNCLEAR, "1 500 psi", "psi", "1 500 psi");
    is_not(AMOUNT_UNCLEAR, "1'500", "", "1'500");
    is_not(AMOUNT_UNCLEAR, "5 ft 1,500 in", "in", "1,500");
}

static void commas(void **state)
{
    (void)state;
    is("0,500 gal", "gal", 0.5);
    is(",500 gal", "gal", 0.5);
    is("1234,500 gal", "gal", 1234.5);
    is("1,5 gal", "gal", 1.5);
    is("1,50 gal", "gal", 1.5);
    is("1,5000 gal", "gal", 1.5);
    is("1,500.5 gal", "gal", 1500.5);
    is("1,500,000 gal", "gal", 1500000);
    is("12,345,678.25 gal", "gal", 12345678.25);
    is("1.500.000 gal", "gal", 1500000);
    is("1.500,5 gal", "gal", 1500.5);
    is("1.500 gal", "gal", 1.5);
    is_not(AMOUNT_UNCLEAR, "1,500 gal", "gal", "1,500");
    is_not(AMOUNT_UNCLEAR, "123,456", "times", "123,456");
    is_not(AMOUNT_UNCLEAR, "1,50,000 gal", "gal", "1,50,000");
    is_not(AMOUNT_UNCLEAR, "0,500,000 gal", "gal", "0,500,000");
    is_not(AMOUNT_UNCLEAR, "1.2.3 gal", "gal", "1.2.3");
    is_not(AMOUNT_UNCLEAR, "1,500.000,5 gal", "gal", "1,500.000,5");
    is_not(AMOUNT_UNCLEAR, "1234,500.5 gal", "gal", "1234,500.5");
}

static void ratios(void **state)
{
    (void)state;
    is("1:50", "%", 100.0 / 51);
    is("1 : 50", "%", 100.0 / 51);
    is("2:100", "%", 100.0 / 51);
    is("1:1", "%", 50);
    is("1:0.5", "%", 100 / 1.5);
    is("1:0", "%", 100);
    is("0.5:25", "1:N", 1.0 / 51);
    is("1 in 50", "%", 2);
    is("1 IN 50", "%", 2);
    is("3 out of 100", "%", 3);
    is("1 in 1", "%", 100);
    is("2 %", "1:N", 0.02);
    is("2%", "1 in N", 0.02);
    is("2 percent", "1 in N", 0.02);
    is("1 fl oz per gal", "1 in N", 1.0 / 128);
    is("1 oz per gal", "1 in N", 1.0 / 128);
    is("1/2 oz per gal", "1:N", 1.0 / 256);
    is("1 oz/gal", "%", 0.78125);
    is("8 mL/L", "%", 0.8);
    is("4 oz per 5 gal", "%", 0.625);
    is_not(AMOUNT_UNCLEAR, "50:1", "1:N", "50:1");
    is_not(AMOUNT_UNCLEAR, "3:2", "1:N", "3:2");
    is_not(AMOUNT_UNCLEAR, "50 in 1", "1:N", "50 in 1");
    is_not(AMOUNT_UNCLEAR, "0:0", "1:N", "0:0");
    is_not(AMOUNT_UNCLEAR, "-1:50", "1:N", "-1:50");
    is_not(AMOUNT_UNCLEAR, "1:1,500", "1:N", "1,500");
    is_not(AMOUNT_OTHER_KIND, "1:50", "psi", "1:50");
    is_not(AMOUNT_OTHER_KIND, "1 in 50", "ft", "1 in 50");
    is_not(AMOUNT_NO_UNIT, "50", "1:N", "");
    is_not(AMOUNT_UNKNOWN_UNIT, "1:-50", "1:N", ":-50");
    is_not(AMOUNT_UNKNOWN_UNIT, "1:2:3", "1:N", ":2:3");
}

static void what_is_written_is_kept(void **state)
{
    (void)state;
    unit u = unit_of("bar");
    amount as;
    double number;
    assert_int_equal(amount_read(a, STR("45 psi"), &u, &number, &as, NULL), AMOUNT_FOUND);
    near_to(as.number, 45);
    assert_str(as.in.text, "psi");
    assert_int_equal(amount_read(a, STR("45 gal/min"), &u, &number, &as, NULL), AMOUNT_OTHER_KIND);
    near_to(as.number, 45);
    assert_str(as.in.text, "gal/min");
    assert_int_equal(amount_read(a, STR("45"), &u, &number, &as, NULL), AMOUNT_NO_UNIT);
    near_to(number, 45);
    near_to(as.number, 45);
    assert_str(as.in.text, "");
    u = unit_of("ft");
    assert_int_equal(amount_read(a, STR("5' 6\""), &u, &number, &as, NULL), AMOUNT_FOUND);
    near_to(as.number, 5.5);
    assert_str(as.in.text, "'");
    u = unit_of("%");
    assert_int_equal(amount_read(a, STR("1:50"), &u, &number, &as, NULL), AMOUNT_FOUND);
    assert_int_equal(as.in.form, UNIT_PARTS);
    near_to(as.number, 1.0 / 51);
    assert_str(amount_words(a, as.number, &as.in, 6), "1:50");
    u = unit_of("degF interval");
    assert_int_equal(amount_read(a, STR("45 degF"), &u, &number, &as, NULL), AMOUNT_OTHER_FORM);
    assert_int_equal(as.in.form, UNIT_SCALE);
}

static void what_is_no_amount(void **state)
{
    (void)state;
    is_not(AMOUNT_NO_NUMBER, "", "psi", "");
    is_not(AMOUNT_NO_NUMBER, "  ", "psi", "");
    is_not(AMOUNT_NO_NUMBER, "about 45 psi", "psi", "about 45 psi");
    is_not(AMOUNT_NO_NUMBER, "nan psi", "psi", "nan psi");
    is_not(AMOUNT_NO_NUMBER, "-inf", "", "-inf");
    is_not(AMOUNT_NO_NUMBER, "--5 psi", "psi", "--5 psi");
    is_not(AMOUNT_NO_NUMBER, "- psi", "psi", "- psi");
    is_not(AMOUNT_NO_NUMBER, ". psi", "psi", ". psi");
    is_not(AMOUNT_NO_UNIT, "45", "psi", "");
    is_not(AMOUNT_NO_UNIT, "2", "%", "");
    is_not(AMOUNT_UNKNOWN_UNIT, "45 psy", "psi", "psy");
    is_not(AMOUNT_UNKNOWN_UNIT, "45 gal/mn", "gpm", "mn");
    is_not(AMOUNT_UNKNOWN_UNIT, "45.", "psi", ".");
    is_not(AMOUNT_UNKNOWN_UNIT, "1e3 psi", "psi", "e3 psi");
    is_not(AMOUNT_UNKNOWN_UNIT, "0x10 psi", "psi", "x10 psi");
    is_not(AMOUNT_UNKNOWN_UNIT, "45 psi or so", "psi", "psi or so");
    is_not(AMOUNT_UNKNOWN_UNIT, "20 to 30 psi", "psi", "to 30 psi");
    is_not(AMOUNT_OTHER_KIND, "45 gpm", "psi", "gpm");
    is_not(AMOUNT_OTHER_KIND, "45 psi", "", "psi");
    is_not(AMOUNT_OTHER_KIND, "3 times", "psi", "times");
    is_not(AMOUNT_OTHER_KIND, "1 oz per gal", "psi", "oz per gal");
    is_not(AMOUNT_OTHER_FORM, "45 degC", "degF interval", "degC");
    is_not(AMOUNT_OTHER_FORM, "45 degC interval", "degF", "degC interval");
}

static void too_much(void **state)
{
    (void)state;
    char text[1024];
    memset(text, '9', sizeof text);
    text[400] = 0;
    is_not(AMOUNT_NO_NUMBER, text, "times", text);
    memset(text, '9', sizeof text);
    memcpy(text + 100, " m^9", 5);
    is_not(AMOUNT_FOUND, text, "m^9", "");
    /* Units so small or large that a number in them could overflow are none. */
    static const char *const absurd[] = {"µm^9*µm^9*µm^9", "km^9*km^9*km^9*km^9",
                                         "1/km^9/km^9/km^9/km^9"};
    unit none;
    str bad;
    for (size_t i = 0; i < sizeof absurd / sizeof *absurd; i++)
        assert_int_not_equal(unit_read(a, str_of(absurd[i]), NULL, &none, &bad), UNIT_FOUND);
    double number;
    memset(text, '9', 125);
    memcpy(text + 125, " km^9*km^7", 11);
    const unit tiny = unit_of("µm^9*µm^7");
    assert_int_equal(amount_read(a, str_of(text), &tiny, &number, NULL, &bad), AMOUNT_FOUND);
    assert_true(isfinite(number));
    /* Long nonsense is refused without trying every way to cut it. */
    char *long_text = arena_take(a, 1 << 20);
    for (int i = 0; i + 1 < 1 << 20; i++) long_text[i] = i % 2 == 0 ? '1' : 'x';
    unit psi = unit_of("psi");
    assert_int_equal(amount_read(a, str_of(long_text), &psi, &number, NULL, &bad),
                     AMOUNT_UNKNOWN_UNIT);
    assert_true(bad.n <= 80);
}

static void words(double number, const char *in, int digits, const char *wanted)
{
    unit u = unit_of(in);
    assert_str(amount_words(a, number, &u, digits), wanted);
}

static void writing(void **state)
{
    (void)state;
    words(45, "psi", 6, "45 psi");
    words(45.5, "psi", 2, "46 psi"); /* to even: 45.5 is exact */
    words(3.10264, "bar", 3, "3.1 bar");
    words(-0.0, "bar", 3, "0 bar");
    words(-2.5, "bar", 3, "-2.5 bar");
    words(0.000123456, "m", 3, "0.000123 m");
    words(1234567, "gal", 3, "1230000 gal");
    words(999.96, "gal", 4, "1000 gal");
    words(0.09996, "gal", 3, "0.1 gal");
    words(1e22, "", 17, "10000000000000000000000");
    words(0.1, "", 17, "0.10000000000000001");
    words(0.1, "", 99, "0.10000000000000001");
    words(7.5, "", 0, "8");
    words(2, "%", 3, "2 %");
    words(5.5, "'", 3, "5.5'");
    words(3, "/h", 3, "3 /h");
    words(1.0 / 51, "1:N", 12, "1:50");
    words(0.02, "1 in N", 12, "1 in 50");
    words(0, "1:N", 3, "0 %");
    words(1, "1:N", 3, "1:0");
    words(1, "1 in N", 3, "1 in 1");
    words(1.5, "1:N", 3, "150 %");
    words(-0.5, "1 in N", 3, "-50 %");
    words(2.0 / 3, "1:N", 3, "1:0.5");
}

static void singular_and_plural(void **state)
{
    (void)state;
    words(1, "cars/h", 3, "1 car/h");
    words(2, "car/h", 3, "2 cars/h");
    words(1.001, "cars/h", 3, "1 car/h");
    words(1, "notches", 3, "1 notch");
    words(2, "notch", 3, "2 notches");
    words(0, "turn", 3, "0 turns");
    words(-1, "turns", 3, "-1 turn");
    words(1, "gallons per minute", 3, "1 gallon per minute");
    words(1.5, "gallon", 3, "1.5 gallons");
    words(1, "lbs", 3, "1 lb");
    words(2, "lb", 3, "2 lb");
    words(2, "min", 3, "2 min");
    words(1, "feet", 3, "1 foot");
    words(2, "foot", 3, "2 feet");
    words(2, "inch", 3, "2 inches");
    words(1, "Hz", 3, "1 Hz");
    words(1, "times", 3, "1 time");
    words(2, "fluid ounce/min", 3, "2 fluid ounces/min");
    words(2, "fl oz", 3, "2 fl oz");
    words(2, "rev", 3, "2 revs");
    words(2, "CAR", 3, "2 CAR"); /* as written, where it is not the table's spelling */
}

/* Numbers have a point in every locale. If the machine has no other locale, this shows less. */
static void whatever_the_locale(void **state)
{
    (void)state;
    setlocale(LC_NUMERIC, "de_DE.UTF-8");
    words(3.25, "bar", 3, "3.25 bar");
    is("3.25 bar", "bar", 3.25);
    is("3,25 bar", "bar", 3.25);
    setlocale(LC_NUMERIC, "C");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(in_its_own_unit),
        cmocka_unit_test(in_another_unit),
        cmocka_unit_test(fractions),
        cmocka_unit_test(feet_and_inches),
        cmocka_unit_test(parts_that_do_not_add_up),
        cmocka_unit_test(commas),
        cmocka_unit_test(ratios),
        cmocka_unit_test(what_is_written_is_kept),
        cmocka_unit_test(what_is_no_amount),
        cmocka_unit_test(too_much),
        cmocka_unit_test(writing),
        cmocka_unit_test(singular_and_plural),
        cmocka_unit_test(whatever_the_locale),
    };
    return cmocka_run_group_tests(tests, arena_ready, NULL);
}
