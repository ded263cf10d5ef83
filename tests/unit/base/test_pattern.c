#include "testing.h"

#include <stdio.h>

#include "base/pattern.h"
#include "base/unicode.h"
#include "memory_sweep.h"
#include "test_sources.h"

static pattern *compiled(arena *a, str written)
{
    str reason = STR("");
    size_t offset = 0, filled = 0;
    pattern *p = pattern_compile(a, written, &filled, &reason, &offset);
    if (p == NULL) fail_msg("%.*s: %.*s at %zu", STR_ARG(written), STR_ARG(reason), offset);
    return p;
}

static pattern_result match(const char *written, const char *subject)
{
    arena *a = test_arena(), *scratch = test_arena();
    uint32_t patience = PATTERN_PATIENCE;
    pattern_result r = pattern_match(compiled(a, str_of(written)), scratch,
                                     unicode_nfc(a, str_of(subject)), &patience, NULL, NULL);
    assert_int_equal(arena_size(scratch), 0);
    arena_free(a);
    arena_free(scratch);
    return r;
}

static size_t refused_at(const char *written)
{
    arena *a = test_arena();
    str reason = STR("");
    size_t offset = SIZE_MAX, filled = 0;
    assert_null(pattern_compile(a, str_of(written), &filled, &reason, &offset));
    assert_true(reason.n > 0);
    assert_true(offset <= strlen(written));
    arena_free(a);
    return offset;
}

static void matching(void **state)
{
    (void)state;
    assert_int_equal(match("on (and|then) off", "It goes ON then OFF"), PATTERN_YES);
    assert_int_equal(match("on (and|then) off", "on, off"), PATTERN_NO);
    assert_int_equal(match("^$", ""), PATTERN_YES);
    assert_int_equal(match("\\bfoam\\b", "foamy"), PATTERN_NO);
    assert_int_equal(match("b\xC3\x9CRSTE", "B\xC3\xBCrste"), PATTERN_YES);
    assert_int_equal(match("caf\xC3\xA9", "CAFE\xCC\x81"), PATTERN_YES);
    assert_int_equal(match("cafe\xCC\x81", "caf\xC3\xA9"), PATTERN_YES);
    assert_int_equal(match("^\\w+$", "gr\xC3\xBC\xC3\x9F"
                                     "e"),
                     PATTERN_YES);
    assert_int_equal(match("a.b", "a\xE6\xB0\xB4"
                                  "b"),
                     PATTERN_YES);
}

static void places(void **state)
{
    (void)state;
    arena *a = test_arena();
    size_t from = 99, to = 99;
    uint32_t patience = PATTERN_PATIENCE;
    const pattern *p = compiled(a, STR("air"));
    assert_int_equal(pattern_match(p, a, STR("\xC3\xA9 air low"), &patience, &from, &to),
                     PATTERN_YES);
    assert_int_equal(from, 3);
    assert_int_equal(to, 6);
    from = 99;
    assert_int_equal(pattern_match(p, a, STR("water"), &patience, &from, NULL), PATTERN_NO);
    assert_int_equal(from, 99);
    assert_int_equal(pattern_match(p, a, (str){NULL, 0}, &patience, NULL, NULL), PATTERN_NO);
    arena_free(a);
}

static void bad_patterns_say_where(void **state)
{
    (void)state;
    assert_int_equal(refused_at("on (and"), 7);
    assert_int_equal(refused_at("a[b"), 3);
    assert_int_equal(refused_at("*"), 0);
    refused_at("\\C");
    refused_at("a\\");
    refused_at("(?<n>a)(?<n>b)");
    assert_int_equal(refused_at("ab\xFF"), 2);
    /* composing makes the text shorter; the place is that of the text as written */
    assert_int_equal(refused_at("e\xCC\x81(e\xCC\x81"), 7);
    assert_int_equal(refused_at("e\xCC\x81[b-a]x"), refused_at("x[b-a]x") + 2);
}

static char *repeated(arena *a, const char *piece, size_t times)
{
    text_builder b = {.keep = a};
    for (size_t i = 0; i < times; i++) text_add(&b, str_of(piece));
    return b.bytes;
}

static void length_and_nesting_have_limits(void **state)
{
    (void)state;
    arena *a = test_arena();
    assert_non_null(compiled(a, str_of(repeated(a, "a", PATTERN_LENGTH_MAX))));
    assert_non_null(compiled(a, str_of(repeated(a, "\xC3\xA9", PATTERN_LENGTH_MAX))));
    refused_at(repeated(a, "a", PATTERN_LENGTH_MAX + 1));
    str deepest = str_printf(a, "%sa%s", repeated(a, "(", PATTERN_NESTING_MAX),
                             repeated(a, ")", PATTERN_NESTING_MAX));
    assert_non_null(compiled(a, deepest));
    refused_at(str_printf(a, "(%s)", deepest.p).p);
    refused_at("((a{1,9999}){1,9999}){1,9999}");
    arena_free(a);
}

static void only_the_beginning_of_a_long_complaint_counts(void **state)
{
    (void)state;
    arena *a = test_arena();
    const char *before = repeated(a, "\xC3\xA9", PATTERN_SUBJECT_MAX - 1);
    assert_int_equal(match("x", str_printf(a, "%sx", before).p), PATTERN_YES);
    assert_int_equal(match("x", str_printf(a, "%s\xC3\xA9x", before).p), PATTERN_NO);
    arena_free(a);
}

static void hard_patterns_end_soon(void **state)
{
    (void)state;
    arena *a = test_arena();
    const char *subject = str_printf(a, "%s!", repeated(a, "a", 900)).p;
    assert_int_equal(match("^(a+)+$", subject), PATTERN_TOO_HARD);
    assert_int_equal(match("(a|aa)+$", subject), PATTERN_TOO_HARD);
    assert_int_equal(match("^(.*?a){30}[^a!]", subject), PATTERN_TOO_HARD);
    assert_int_equal(match("^((?:a(?1)?b?)+)[^ab!]", subject), PATTERN_TOO_HARD);
    /* a pattern can't raise the limits */
    assert_int_equal(match("(*LIMIT_MATCH=4000000000)^(a+)+$", subject), PATTERN_TOO_HARD);
    arena_free(a);
}

/* Not each place where a match may begin has patience of its own: these stay below it at each. */
static void a_match_is_given_up_as_a_whole(void **state)
{
    static const char *const slow[] = {"\\X*[xy]", "a*a*[xy]", "(?:a?){120}[xy]"};
    (void)state;
    arena *a = test_arena();
    const char *subject = repeated(a, "a", 900);
    for (size_t i = 0; i < sizeof slow / sizeof *slow; i++)
        assert_int_equal(match(slow[i], subject), PATTERN_TOO_HARD);
    arena_free(a);
}

static void what_it_costs_is_taken_from_what_is_left(void **state)
{
    (void)state;
    arena *a = test_arena();
    const pattern *easy = compiled(a, STR("bar")), *hard = compiled(a, STR("^(a+)+$"));
    const str long_word = str_of(str_printf(a, "%s!", repeated(a, "a", 900)).p);
    uint32_t patience = 3 * PATTERN_MATCH_MAX;
    assert_int_equal(pattern_match(easy, a, long_word, &patience, NULL, NULL), PATTERN_NO);
    assert_int_equal(patience, 3 * PATTERN_MATCH_MAX - PATTERN_MATCH_COSTS);
    uint32_t matches = 0;
    for (uint32_t before = 0; patience != 0 && patience != before; matches++) {
        before = patience;
        assert_int_equal(pattern_match(hard, a, long_word, &patience, NULL, NULL),
                         PATTERN_TOO_HARD);
        assert_true(before - patience <= PATTERN_MATCH_MAX + PATTERN_MATCH_COSTS);
    }
    assert_true(matches >= 3);
    assert_int_equal(patience, 0);
    assert_int_equal(pattern_match(easy, a, STR("bar"), &patience, NULL, NULL), PATTERN_TOO_HARD);
    arena_free(a);
}

static void what_it_fills_is_told(void **state)
{
    (void)state;
    arena *a = test_arena();
    str reason;
    size_t offset, small = 0, large = 0, refused = 0;
    assert_non_null(pattern_compile(a, STR("foam"), &small, &reason, &offset));
    assert_non_null(pattern_compile(a, STR("(\\w+ ?){1,500}"), &large, &reason, &offset));
    assert_null(pattern_compile(a, STR("(foam"), &refused, &reason, &offset));
    assert_in_range(small, sizeof(void *), 1000);
    assert_in_range(large, 10000, 100000);
    assert_in_range(refused, 1, 1000);
    arena_free(a);
}

static bool matches(void *of, arena *keep, arena *scratch)
{
    const str subject = str_of("first \xC3\xA9t\xC3\xA9, then a long way of words to the end");
    const pattern *p = compiled(keep, str_of("(f(i)r|s)t (\xC3\xA9t\xC3\xA9|(?:x)+)(.*?w(.*))+d$"));
    (void)of;
    return pattern_match(p, scratch, subject, &(uint32_t){PATTERN_PATIENCE}, NULL, NULL) ==
           PATTERN_YES;
}

static void every_allocation_may_fail(void **state)
{
    (void)state;
    memory_sweeps(matches, NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(matching),
        cmocka_unit_test(places),
        cmocka_unit_test(bad_patterns_say_where),
        cmocka_unit_test(length_and_nesting_have_limits),
        cmocka_unit_test(only_the_beginning_of_a_long_complaint_counts),
        cmocka_unit_test(hard_patterns_end_soon),
        cmocka_unit_test(a_match_is_given_up_as_a_whole),
        cmocka_unit_test(what_it_costs_is_taken_from_what_is_left),
        cmocka_unit_test(what_it_fills_is_told),
        cmocka_unit_test(every_allocation_may_fail),
    };
    return cmocka_run_group_tests_name("pattern", tests, NULL, NULL);
}
