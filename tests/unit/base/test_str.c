#include "testing.h"

#include <locale.h>
#include <math.h>

#include "base/str.h"
#include "test_sources.h"

static void comparing(void **state)
{
    (void)state;
    str none = {NULL, 0};
    assert_true(str_eq(none, STR("")));
    assert_true(str_eq(str_of(NULL), none));
    assert_false(str_eq(STR("ab"), STR("a")));
    assert_true(str_cmp(STR("a"), STR("b")) < 0);
    assert_true(str_cmp(STR("b"), STR("ab")) > 0);
    assert_true(str_cmp(STR("a"), STR("ab")) < 0);
    assert_int_equal(str_cmp(none, STR("")), 0);
    assert_true(str_cmp(STR("z"), STR("\xC3\xA9")) < 0); /* bytes, not signed characters */
    assert_true(str_is(STR("of"), "of"));
    assert_true(str_starts(STR("not known"), "not"));
    assert_false(str_starts(STR("no"), "not"));
    assert_true(str_ends(STR("air.yaml"), ".yaml"));
    assert_false(str_ends(STR("yaml"), ".yaml"));
    assert_true(str_starts(none, "") && str_ends(none, ""));
}

static void cutting_and_finding(void **state)
{
    (void)state;
    assert_str(str_trim(STR(" \t one two\r\n ")), "one two");
    assert_str(str_trim(STR(" \n ")), "");
    assert_str(str_slice(STR("foam"), 1, 3), "oa");
    assert_int_equal(str_slice((str){NULL, 0}, 0, 0).n, 0);
    assert_int_equal(str_find_byte(STR("a: b"), ':'), 1);
    assert_int_equal(str_find_byte(STR("ab"), ':'), SIZE_MAX);
    assert_int_equal(str_find(STR("below 20 to 40"), STR(" to ")), 8);
    assert_int_equal(str_find(STR("aab"), STR("ab")), 1);
    assert_int_equal(str_find(STR("ab"), STR("abc")), SIZE_MAX);
    assert_int_equal(str_find(STR("ab"), STR("")), 0);
}

static void making_text(void **state)
{
    (void)state;
    arena *a = test_arena();
    str copy = str_copy(a, STR("foam"));
    assert_int_equal(copy.p[copy.n], '\0');
    assert_str(str_printf(a, "%s %d%% %.*s", "at", 40, STR_ARG(copy)), "at 40% foam");
    assert_str(str_printf(a, "%s", ""), "");
    text_builder b = {.keep = a};
    assert_str(text_done(&b), "");
    for (int i = 0; i < 200; i++) text_addf(&b, "%d,", i % 10);
    text_add(&b, (str){NULL, 0});
    text_add(&b, STR("end"));
    str done = text_done(&b);
    assert_int_equal(done.n, 403);
    assert_memory_equal(done.p, "0,1,2,3,4,5,6,7,8,9,0,", 22);
    assert_string_equal(done.p + 400, "end");
    arena_free(a);
}

static void check_number(const char *text, double wanted)
{
    double number = -77;
    assert_true(str_to_double(str_of(text), &number));
    assert_true(number == wanted);
}

static void refuse_number(const char *text)
{
    double number;
    if (str_to_double(str_of(text), &number)) fail_msg("'%s' was taken for %g", text, number);
}

static void numbers(void **state)
{
    (void)state;
    check_number("0", 0);
    check_number("010", 10);
    check_number(".5", 0.5);
    check_number("5.", 5);
    check_number("-1.25e2", -125);
    check_number("+3E-1", 0.3);
    check_number("0.1", 0.1);
    check_number("9007199254740993", 9007199254740992.0);
    const char *const refused[] = {"",      " 1",    "1 ",   "1,5", "0x10", "inf",   "nan",
                                   "1e",    "e5",    ".",    "+",   "1e+",  "1e999", "--1",
                                   "1.2.3", "1_000", "1:50", "1\n", "1f"};
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) refuse_number(refused[i]);
    char many[200];
    memset(many, '1', sizeof many);
    double number;
    assert_false(str_to_double((str){many, sizeof many}, &number));
    assert_true(str_to_double((str){"12345", 2}, &number) && number == 12);
}

/* Where a comma is the decimal sign our numbers still have a point. */
static void numbers_in_any_locale(void **state)
{
    (void)state;
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "C"};
    const char *chosen = NULL;
    for (size_t i = 0; chosen == NULL; i++) chosen = setlocale(LC_NUMERIC, names[i]);
    check_number("0.75", 0.75);
    refuse_number("0,75");
    setlocale(LC_NUMERIC, "C");
}

static size_t nearest(const char *wrong, const str *names, size_t count)
{
    arena *a = test_arena();
    size_t found = str_nearest(a, str_of(wrong), names, count);
    assert_int_equal(arena_size(a), 0);
    arena_free(a);
    return found;
}

static void suggestions(void **state)
{
    (void)state;
    const str names[] = {STR("foam-air-high"), STR("foam-air-low"), STR("pump"), STR("ab")};
    assert_int_equal(nearest("foam-air-hihg", names, 4), 0);
    assert_int_equal(nearest("foam-air-lwo", names, 4), 1);
    assert_int_equal(nearest("pumps", names, 4), 2);
    assert_int_equal(nearest("pmup", names, 4), 2); /* two neighbours swapped are one mistake */
    assert_int_equal(nearest("ba", names, 4), 3);
    assert_int_equal(nearest("xy", names, 4), SIZE_MAX);
    assert_int_equal(nearest("brush", names, 4), SIZE_MAX);
    assert_int_equal(nearest("foam", names, 0), SIZE_MAX);
    const str twins[] = {STR("cat"), STR("cut")};
    assert_int_equal(nearest("cot", twins, 2), 0);
    char many[80];
    memset(many, 'a', sizeof many - 1);
    many[79] = '\0';
    assert_int_equal(nearest(many, names, 4), SIZE_MAX);
}

/* Insert, delete, change, swap of neighbours: each is one. */
static void distances(void **state)
{
    static const struct {
        const char *a, *b;
        size_t distance;
    } pairs[] = {{"", "", 0},         {"foam", "foam", 0},   {"", "foam", 4},
                 {"foam", "fom", 1},  {"foam", "foams", 1},  {"foam", "form", 1},
                 {"foam", "faom", 1}, {"brush", "rbuhs", 2}, {"dry", "wet", 3},
                 {"ca", "abc", 3}}; /* what was swapped stays together */
    (void)state;
    arena *a = test_arena();
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        assert_int_equal(str_distance(a, str_of(pairs[i].a), str_of(pairs[i].b)),
                         pairs[i].distance);
        assert_int_equal(str_distance(a, str_of(pairs[i].b), str_of(pairs[i].a)),
                         pairs[i].distance);
    }
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(distances),
        cmocka_unit_test(comparing),
        cmocka_unit_test(cutting_and_finding),
        cmocka_unit_test(making_text),
        cmocka_unit_test(numbers),
        cmocka_unit_test(numbers_in_any_locale),
        cmocka_unit_test(suggestions),
    };
    return cmocka_run_group_tests_name("str", tests, NULL, NULL);
}
