/* One book at three sites with different filters: each is asked about what it has, and about
 * nothing else. */
#include "run_telltale.h"

#include <jansson.h>

#define BOOK       "'" TT_SOURCE_DIR "/tests/cli/filtered-well'"
#define SITE(name) "'" TT_SOURCE_DIR "/tests/cli/filtered-well-sites/" name ".yaml'"

static void worked_cases_come_out(void **state)
{
    (void)state;
    assert_int_equal(sh("$T check " BOOK " >checked"), 0);
    assert_holds("checked", "No faults.");
    assert_int_equal(sh("$T try " BOOK " >tried"), 0);
    assert_holds("tried", "All 5 worked cases came out as expected.");
}

/* What rank says of these answers at the site. */
static json_t *ranked(const char *answers, const char *site)
{
    assert_int_equal(sh("printf '%s' | $T rank " BOOK " - --json --site %s >ranked", answers, site),
                     0);
    json_t *all = json_load_file("ranked", JSON_REJECT_DUPLICATES, NULL);
    assert_non_null(all);
    return all;
}

static const char *next_of(const json_t *all)
{
    const char *name = json_string_value(json_object_get(json_object_get(all, "next"), "question"));
    return name == NULL ? "" : name;
}

static const char *leading_of(const json_t *all)
{
    return json_string_value(
        json_object_get(json_array_get(json_object_get(all, "causes"), 0), "name"));
}

static bool has_named(const json_t *all, const char *list, const char *name)
{
    const json_t *items = json_object_get(all, list);
    for (size_t i = 0; i < json_array_size(items); i++) {
        const json_t *one = json_object_get(json_array_get(items, i), "name");
        if (json_is_string(one) && strcmp(json_string_value(one), name) == 0) return true;
    }
    return false;
}

static double chance_of(const json_t *all, const char *cause)
{
    const json_t *causes = json_object_get(all, "causes");
    for (size_t i = 0; i < json_array_size(causes); i++) {
        const json_t *one = json_array_get(causes, i), *name = json_object_get(one, "name");
        if (json_is_string(name) && strcmp(json_string_value(name), cause) == 0)
            return json_number_value(json_object_get(one, "chance"));
    }
    fail_msg("there is no cause '%s'", cause);
    return 0;
}

#define WEAK "danger-now: no\\npump-sound: steady\\nflow: trickle\\ntank-gauge: 45 psi\\n"

static void each_site_is_asked_about_its_own(void **state)
{
    (void)state;
    json_t *cottage = ranked(WEAK, SITE("cottage")), *farm = ranked(WEAK, SITE("farm")),
           *garden = ranked(WEAK, SITE("garden"));
    assert_true(has_named(cottage, "fixes", "change-cartridge of sediment"));
    assert_false(has_named(cottage, "fixes", "change-cartridge of carbon"));
    assert_true(has_named(farm, "fixes", "change-cartridge of carbon"));
    assert_false(has_named(farm, "fixes", "change-cartridge of sediment"));
    assert_string_equal(leading_of(cottage), "cartridge-full of sediment");
    assert_string_equal(next_of(farm), "drop of fine");
    assert_string_equal(next_of(cottage), "drop of sediment");
    assert_string_equal(next_of(garden),
                        "tank-gauge"); /* once more, before the tank is charged on its word */
    assert_false(has_named(garden, "causes", "cartridge-full of sediment"));
    json_decref(cottage);
    json_decref(farm);
    json_decref(garden);
}

/* A cause with 'only-when' is none where the site's own facts say that it can't be. */
static void what_a_site_cannot_have_is_no_cause_there(void **state)
{
    (void)state;
    json_t *cottage = ranked(WEAK, SITE("cottage")), *farm = ranked(WEAK, SITE("farm"));
    assert_true(chance_of(farm, "bypass-closed of coarse") > 0.05);
    assert_true(chance_of(farm, "bypass-closed of carbon") <= 0);
    assert_true(chance_of(cottage, "bypass-closed of sediment") <= 0);
    json_decref(cottage);
    json_decref(farm);
}

static void pairs_are_those_of_the_site(void **state)
{
    (void)state;
    json_t *all = ranked("drop of coarse: 0 psi\\ncartridge of carbon: caked\\n", SITE("farm"));
    assert_true(json_array_size(json_object_get(all, "cautions")) > 0);
    assert_holds("ranked", "The coarse filter lets dirt through to the carbon filter.");
    assert_false(holds("ranked", "to the fine filter."));
    json_decref(all);
}

static void a_piece_of_another_site_is_told(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'drop of fine: 9 psi\\n' | $T rank " BOOK
                        " - --site " SITE("cottage") " >out 2>err"),
                     65);
    assert_holds("err", "The book has no question 'drop of fine'.");
    assert_int_equal(
        sh("printf 'drop: 9 psi\\n' | $T rank " BOOK " - --site " SITE("cottage") " >out 2>err"),
        65);
    assert_holds("err", "'drop' is there once for each filter, and this does not say for which.");
    assert_holds(
        "err", "Write such as 'drop of sediment', or say with 'at' which one all bare names mean.");
    assert_int_equal(sh("printf 'at: [sediment]\\ncomplaint: high-drop\\nanswers: {drop: 9 "
                        "psi}\\n' | $T rank " BOOK " - --site " SITE("cottage") " >out 2>err"),
                     0);
    assert_int_equal(sh("printf 'at: [sediment]\\ndrop: 9 psi\\n' | $T rank " BOOK
                        " - --site " SITE("cottage") " >out 2>err"),
                     0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(worked_cases_come_out),
        cmocka_unit_test(each_site_is_asked_about_its_own),
        cmocka_unit_test(what_a_site_cannot_have_is_no_cause_there),
        cmocka_unit_test(pairs_are_those_of_the_site),
        cmocka_unit_test(a_piece_of_another_site_is_told),
    };
    return cmocka_run_group_tests_name("equipment", tests, NULL, NULL);
}
