/* Good values go into the file of a site, and nothing else in it changes. */
#include <stdlib.h>
#include <string.h>

#include "telltale.h"
#include "testing.h"

static const tt_good air = {.fact = "air-set of top",
                            .value = "33 psi",
                            .day = "2026-11-29",
                            .role = "fitter",
                            .how = "a gauge"},
                     water = {.fact = "water-set", .value = "1:80", .day = "2026-11-29"};

static char *with(const char *text, const tt_good *good, uint32_t count)
{
    char *out = NULL;
    assert_int_equal(tt_site_with_good(text, strlen(text), good, count, &out), TT_OK);
    return out;
}

static void assert_becomes(const char *before, const tt_good *good, const char *after)
{
    char *made = with(before, good, 1);
    assert_string_equal(made, after);
    free(made);
}

static void what_was_there_stays(void **state)
{
    (void)state;
    assert_becomes(
        "# by hand\nsite:\n  answers:\n    water-set: 1:100   # old card\n    tip: small\n", &water,
        "# by hand\nsite:\n  answers:\n"
        "    water-set: {value: \"1:80\", day: 2026-11-29}   # old card\n    tip: small\n");
    assert_becomes(
        "site:\n  answers:\n    water-set: {value: 1:100, source: the card, role: boss} # x\n",
        &water,
        "site:\n  answers:\n"
        "    water-set: {value: \"1:80\", source: the card, day: 2026-11-29} # x\n");
    assert_becomes(
        "site:\n  answers:\n    water-set:\n      # read twice\n      value: 1:100 # here\n"
        "      source: the card\n",
        &water,
        "site:\n  answers:\n    water-set:\n      # read twice\n      value: \"1:80\" # here\n"
        "      source: the card\n      day: 2026-11-29\n");
}

/* Who told the older value, and how it was read, says nothing of the new one. */
static void what_was_told_of_the_older_goes(void **state)
{
    (void)state;
    static const tt_good seen = {.fact = "water-set",
                                 .value = "1:80",
                                 .day = "2026-11-29",
                                 .how = "on the \"small\" \\ gauge"};
    assert_becomes("site:\n  answers:\n    water-set:\n      value: 1:100\n      role: boss\n"
                   "      source: the card\n      how: by eye # badly\n      day: 2020-01-01\n",
                   &water,
                   "site:\n  answers:\n    water-set:\n      value: \"1:80\"\n"
                   "      source: the card\n      # badly\n      day: 2026-11-29\n");
    assert_becomes(
        "site:\n  answers:\n    water-set:\n      value: 1:100\n      day: 2020-01-01\n"
        "      role: boss",
        &seen,
        "site:\n  answers:\n    water-set:\n      how: \"on the \\\"small\\\" \\\\ gauge\"\n"
        "      value: \"1:80\"\n      day: 2026-11-29\n");
    assert_becomes("site: {answers: {water-set: {value: 1:100, how: by eye, day: 2020-01-01}}}",
                   &water, "site: {answers: {water-set: {value: \"1:80\", day: 2026-11-29}}}");
}

static void a_piece_has_its_own(void **state)
{
    (void)state;
    assert_becomes(
        "site:\n  units:\n    row:\n      top:\n        text: the top\n      low: {text: x}\n",
        &air,
        "site:\n  units:\n    row:\n      top:\n        text: the top\n"
        "        air-set: {value: 33 psi, day: 2026-11-29, role: fitter, how: a gauge}\n"
        "      low: {text: x}\n");
    assert_becomes("site:\n  units: {row: {top: {text: x}}}\n", &air,
                   "site:\n  units: {row: {top: {air-set: {value: 33 psi, day: 2026-11-29, role: "
                   "fitter, how: a gauge}, text: x}}}\n");
}

static void answers_are_made_where_there_are_none(void **state)
{
    (void)state;
    assert_becomes(
        "site:\n  title: North\n", &water,
        "site:\n  title: North\n  answers: \n    water-set: {value: \"1:80\", day: 2026-11-29}\n");
    assert_becomes("site: {title: x}", &water,
                   "site: {answers: {water-set: {value: \"1:80\", day: 2026-11-29}}, title: x}");
    assert_becomes("{\"site\":{\"title\":\"x\"}}", &water,
                   "{\"site\":{answers: {water-set: {value: \"1:80\", day: 2026-11-29}}, "
                   "\"title\":\"x\"}}");
    assert_becomes("{\"site\":{\"answers\":{\"water-set\":\"1:100\"}}}", &water,
                   "{\"site\":{\"answers\":{\"water-set\":{value: \"1:80\", day: 2026-11-29}}}}");
    assert_becomes("site:\n  answers: {}\n", &water,
                   "site:\n  answers: {water-set: {value: \"1:80\", day: 2026-11-29}}\n");
    assert_becomes(
        "site:\n  title: x", &water,
        "site:\n  answers: \n    water-set: {value: \"1:80\", day: 2026-11-29}\n  title: x");
    assert_becomes("site:\n  answers:\n    water-set: {likely: {a: 1}}\n", &water,
                   "site:\n  answers:\n    water-set: {value: \"1:80\", day: 2026-11-29}\n");
    assert_becomes("site:\r\n  answers:\r\n    tip: small\r\n", &water,
                   "site:\r\n  answers:\r\n    tip: small\r\n"
                   "    water-set: {value: \"1:80\", day: 2026-11-29}\r\n");
}

/* Two who record at once: each reads what the other has written, so that nothing is lost. */
static void one_after_the_other(void **state)
{
    (void)state;
    const tt_good both[] = {air, water};
    const char *text = "site:\n  units:\n    row:\n      top: {}\n  answers:\n    tip: small\n";
    char *once = with(text, both, 2), *first = with(text, &air, 1),
         *second = with(first, &water, 1);
    assert_string_equal(once, second);
    assert_non_null(strstr(once, "air-set: {value: 33 psi"));
    assert_non_null(strstr(once, "tip: small"));
    free(once);
    free(first);
    free(second);
}

static void what_is_no_site_is_refused(void **state)
{
    (void)state;
    static const char *const texts[] = {"",
                                        "[]",
                                        "site: [",
                                        "book:\n  title: x\n",
                                        "site:\n  - x\n",
                                        "site: {}\n",
                                        "site: x\n",
                                        "site:\n  answers: x\n",
                                        "site: {units: {row: {top: x}}}\n"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        char *out;
        const tt_good both[] = {strstr(texts[i], "units") != NULL ? air : water, water};
        assert_int_equal(tt_site_with_good(texts[i], strlen(texts[i]), both, 2, &out), TT_FAULTY);
        assert_null(out);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_was_there_stays),
        cmocka_unit_test(what_was_told_of_the_older_goes),
        cmocka_unit_test(a_piece_has_its_own),
        cmocka_unit_test(answers_are_made_where_there_are_none),
        cmocka_unit_test(one_after_the_other),
        cmocka_unit_test(what_is_no_site_is_refused),
    };
    return cmocka_run_group_tests_name("good values", tests, NULL, NULL);
}
