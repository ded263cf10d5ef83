/* Amounts as people type them: in any unit that fits, said back where they could have been meant
 * otherwise; and the same case in other units is the same case. */
#include "run_telltale.h"

#include <jansson.h>

#define GAUGES "'" TT_SOURCE_DIR "/tests/cli/gauges'" /* a path may hold spaces */

static int fresh(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf cases *.yaml && mkdir cases"), 0);
    assert_int_equal(sh("printf 'site:\\n  answers: {gauge-set: 45 psi}\\n' >plain.yaml"), 0);
    return sh("printf 'site:\\n  answers: {gauge-set: 45 psi}\\n  show: [bar]\\n' >metric.yaml");
}

static void ask_at(const char *site, const char *lines)
{
    assert_int_equal(sh("printf 'no\\n%s\\nstop\\n' | $T ask --cases cases --site %s " GAUGES
                        " >out 2>err",
                        lines, site),
                     3);
}

/* What is said to one line at the first question, about the pressure. */
static void at_the_gauge(const char *line, const char *said)
{
    ask_at("plain.yaml", line);
    assert_holds("out", said);
}

static void a_reading_in_another_unit_is_said_back(void **state)
{
    (void)state;
    at_the_gauge("3 bar", "3 bar is 43.51 psi.\n");
    at_the_gauge("310kPa", "310 kPa is 44.96 psi.\n");
    at_the_gauge("3,1 bar", "3.1 bar is 44.96 psi.\n");
    at_the_gauge("43,5", "Taken as 43.5 psi.\n");
    at_the_gauge("43.5", "\nQuestion 3");
    at_the_gauge("43.5 psi", "\nQuestion 3");
}

static void what_can_t_be_is_asked_again_with_the_reason(void **state)
{
    (void)state;
    at_the_gauge(
        "200",
        "200 psi can't be right: it lies between 0 psi and 150 psi. Please read it again.\n");
    at_the_gauge(
        "20 bar",
        "20 bar can't be right: it lies between 0 psi and 150 psi. Please read it again.\n");
    at_the_gauge("2 gpm", "'gpm' does not fit here. Type it such as 40 psi; other units are fine "
                          "too, such as psi, bar, kPa.\n");
    at_the_gauge("1,500", "'1,500' could mean two things.");
    at_the_gauge("high", "That is not a number. Type the number you read, for example 40 psi.\n");
}

static void at_the_mix(const char *line, const char *said)
{
    char lines[256];
    snprintf(lines, sizeof lines, "unsure\\n%s", line);
    ask_at("plain.yaml", lines);
    assert_holds("out", said);
}

static void a_dilution_is_said_back_in_both_forms(void **state)
{
    (void)state;
    at_the_mix("1:50", "Type it such as 1:50, which is 1 part of product to 50 of water.\n");
    at_the_mix("1:50", "1:50: product is 1.96 % of the mix, 1 part to 50 of water.\n");
    at_the_mix("1 in 50", "1 in 50: product is 2 % of the mix, 1 part to 49 of water.\n");
    at_the_mix("1/2 oz per gal",
               "0.5 oz per gal: product is 0.391 % of the mix, 1 part to 255 of water.\n");
    at_the_mix(
        "50",
        "Is that 1:50 (1 part of product and 50 of water) or 1 in 50 (1 part in 50 of the mix)?");
    at_the_mix("50:1", "Which of the two in '50:1' is the product? Type it first, such as 1:50.\n");
    at_the_mix("1:5",
               "1:5 can't be right: it lies between 1:400 and 1:10. Please read it again.\n");
}

static void a_site_s_unit_is_the_one_that_is_asked_for_and_shown(void **state)
{
    (void)state;
    ask_at("metric.yaml", "3.5");
    assert_holds(
        "out",
        "What does the gauge read?\nType the number in bar, or with the unit that you read.\n");
    assert_holds("out", "\nQuestion 3");
    ask_at("metric.yaml", "50 psi");
    assert_holds("out", "50 psi is 3.447 bar.\n");
    ask_at("metric.yaml", "20");
    assert_holds("out", "20 bar can't be right: it lies between 0 bar and 10.34 bar.");
}

static void the_book_s_unit_gives_way_to_the_site_s(void **state)
{
    (void)state;
    assert_int_equal(
        sh("rm -rf book && mkdir book && sed 's/^  title: Gauges/&\\n  show: [kPa, m]/' " GAUGES
           "/rules.yaml >book/rules.yaml"),
        0);
    assert_int_equal(
        sh("printf 'no\\n310\\nstop\\n' | $T ask --cases cases --site plain.yaml book >out 2>err"),
        3);
    assert_holds("out", "Type the number in kPa, or with the unit that you read.\n");
    assert_int_equal(sh("printf 'no\\n3.1\\nunsure\\n90\\n6\\nstop\\n' | $T ask --cases cases "
                        "--site metric.yaml book >out 2>err"),
                     3);
    assert_holds("out", "Type the number in bar, or with the unit that you read.\n");
    assert_holds("out", "Type the number in m, or with the unit that you read.\n");
}

/* ---- the same case in other units ---- */

static json_t *ranked(const char *answers, const char *site)
{
    assert_int_equal(
        sh("printf '%s' | $T rank " GAUGES " - --site %s --json >ranked 2>err", answers, site), 0);
    json_t *all = json_load_file("ranked", 0, NULL);
    assert_non_null(all);
    return all;
}

static void assert_same_value(const json_t *a, const json_t *b, const char *key)
{
    char *x = json_dumps(json_object_get(a, key), JSON_ENCODE_ANY | JSON_SORT_KEYS | JSON_COMPACT);
    char *y = json_dumps(json_object_get(b, key), JSON_ENCODE_ANY | JSON_SORT_KEYS | JSON_COMPACT);
    assert_non_null(x);
    assert_string_equal(x, y);
    free(x);
    free(y);
}

static void readings_in_other_units_rank_the_same_to_the_last_digit(void **state)
{
    (void)state;
    static const char *const same[] = {"causes",  "pairs",    "two_faults", "next",
                                       "do_next", "cautions", "stop"};
    static const struct {
        const char *one, *other;
    } cases[] = {
        {"gauge: 47.9 psi\\n", "gauge: 3.30259 bar\\n"},
        {"gauge: 50 psi\\nmix: 1:150\\n", "gauge: 344.7 kPa\\nmix: 1 in 151\\n"},
        {"rate: 120 cars/h\\npitch: 25 ft\\n", "rate: 2 cars/min\\npitch: 7.62 m\\n"},
        {"line-speed: 50 ft/min\\n", "line-speed: 15.24 m/min\\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        json_t *one = ranked(cases[i].one, "plain.yaml"),
               *other = ranked(cases[i].other, "plain.yaml");
        json_t *shown = ranked(cases[i].other, "metric.yaml");
        for (size_t k = 0; k < sizeof same / sizeof *same; k++) {
            assert_same_value(one, other, same[k]);
            assert_same_value(one, shown, same[k]);
        }
        json_decref(one);
        json_decref(other);
        json_decref(shown);
    }
}

static const json_t *fact_named(const json_t *all, const char *name)
{
    const json_t *facts = json_object_get(all, "facts");
    for (size_t i = 0; i < json_array_size(facts); i++)
        if (strcmp(json_string_value(json_object_get(json_array_get(facts, i), "name")), name) == 0)
            return json_array_get(facts, i);
    fail_msg("no fact %s", name);
    return NULL;
}

static void a_dilution_is_a_share_in_json(void **state)
{
    (void)state;
    json_t *all = ranked("mix: 1:49\\ngauge: 3 bar\\n", "metric.yaml");
    const json_t *mix = fact_named(all, "mix"), *gauge = fact_named(all, "gauge");
    assert_true(json_is_null(json_object_get(mix, "unit")));
    assert_float_equal(json_number_value(json_object_get(mix, "value")), 0.02, 1e-12);
    assert_string_equal(json_string_value(json_object_get(gauge, "unit")), "bar");
    assert_float_equal(json_number_value(json_object_get(gauge, "value")), 3, 1e-9);
    json_decref(all);
}

/* The set point plus 0.2 bar, met exactly in another unit, is not above it. */
static void the_edge_is_the_edge_in_every_unit(void **state)
{
    (void)state;
    static const struct {
        const char *answers;
        bool drifted;
    } cases[] = {
        {"gauge: 3.3026407817 bar\\n", false},
        {"gauge: 3.30265 bar\\n", true},
        {"gauge: 42 psi\\n", false},
        {"gauge: 41.99 psi\\n", true},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        json_decref(ranked(cases[i].answers, "plain.yaml"));
        if (holds("ranked", "\"drifted\"") != cases[i].drifted) fail_msg("%s", cases[i].answers);
    }
}

/* What was reckoned follows from the readings, and it is they that can be mended. */
static void a_quantity_follows_and_is_not_offered_for_change(void **state)
{
    (void)state;
    ask_at("plain.yaml", "unsure\\nunsure\\n120\\n25 ft\\nknown\\nchange");
    assert_holds("out", "From this follows:\n  - Line speed 50 ft/min\n  - The line is too fast\n");
    assert_false(holds("out", "  Line speed"));
    assert_holds("out", "  How far is it from one car to the next? 25 ft\n");
}

static void reports_end_with_a_line_end(void **state)
{
    (void)state;
    assert_int_equal(
        sh("mkdir -p bad && sed 's/unit: psi/unit: psy/' " GAUGES "/rules.yaml >bad/rules.yaml"),
        0);
    assert_int_equal(sh("$T check bad >out 2>err"), 1);
    assert_holds("out", "\n2 errors\n");
    assert_int_equal(sh("$T check bad 2>&1 | tail -c 1 | od -An -c | grep -q '\\\\n'"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_reading_in_another_unit_is_said_back, fresh),
        cmocka_unit_test_setup(what_can_t_be_is_asked_again_with_the_reason, fresh),
        cmocka_unit_test_setup(a_dilution_is_said_back_in_both_forms, fresh),
        cmocka_unit_test_setup(a_site_s_unit_is_the_one_that_is_asked_for_and_shown, fresh),
        cmocka_unit_test_setup(the_book_s_unit_gives_way_to_the_site_s, fresh),
        cmocka_unit_test_setup(readings_in_other_units_rank_the_same_to_the_last_digit, fresh),
        cmocka_unit_test_setup(a_dilution_is_a_share_in_json, fresh),
        cmocka_unit_test_setup(the_edge_is_the_edge_in_every_unit, fresh),
        cmocka_unit_test_setup(a_quantity_follows_and_is_not_offered_for_change, fresh),
        cmocka_unit_test_setup(reports_end_with_a_line_end, fresh),
    };
    return cmocka_run_group_tests_name("amounts", tests, NULL, NULL);
}
