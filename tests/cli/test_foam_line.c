/* The foam line's book: its arithmetic against worked values, and sites with other equipment.
 */
#include "run_telltale.h"

#define RULES TT_SOURCE_DIR "/rules/foam-line"
#define HERE  TT_SOURCE_DIR "/tests/cli"

static int fresh(void **state)
{
    (void)state;
    setenv("RULES", RULES, 1);
    setenv("SITES", HERE "/foam-sites", 1);
    setenv("SUMS", HERE "/foam-arithmetic", 1);
    return sh("rm -rf book out err");
}

static void worked_values_come_out(void **state)
{
    (void)state;
    assert_int_equal(sh("$T check $SUMS >out 2>err"), 0);
    assert_int_equal(sh("$T try $SUMS >out 2>err"), 0);
}

/* The bands about the worked values are narrow enough: another unit of gallon, another reading of
 * "1:10". */
static void other_values_do_not(void **state)
{
    (void)state;
    static const char *const slips[] = {
        "s/mix-flow: 4 gal.min/mix-flow: 4 imp gal\\/min/",
        "s/strength: \"1:10\"}/strength: 1 in 10}/",
        "s/marked-length: 18 ft/marked-length: 18.01 ft/",
        "s/sqrt(pressure-now . pressure-then)/(pressure-now \\/ pressure-then)/",
    };
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        assert_int_equal(
            sh("rm -rf book && mkdir book && sed '%s' $SUMS/book.yaml >book/book.yaml", slips[i]),
            0);
        assert_int_equal(sh("cmp -s $SUMS/book.yaml book/book.yaml"), 1);
        assert_int_equal(sh("$T check book >out 2>err"), 0);
        if (sh("$T try book >out 2>err") == 0) fail_msg("'%s' changes nothing", slips[i]);
    }
}

static void ask_at(const char *site, const char *answers)
{
    int status =
        sh("printf 'danger: safe\\n%s' | $T ask $RULES --answers - --site $SITES/%s.yaml --unsaved "
           "--no-input >out 2>err",
           answers, site);
    if (status != 0 && status != 1 && status != 3) fail_msg("%s ends with %d", site, status);
}

/* A site file as the first edition of the language had it, with no figure and no whom to call. */
static void a_first_site_file_is_read(void **state)
{
    (void)state;
    assert_int_equal(sh("$T check $RULES --site $SITES/first-edition.yaml >out 2>err"), 0);
    assert_holds("out", "No faults.");
    ask_at("first-edition", "bare-spot: low\\nfoam-look: clinging\\n");
    assert_holds("out", "the floor bar");
}

static void sites_are_asked_about_what_they_have(void **state)
{
    (void)state;
    const char *low =
        "bare-spot: low\\nfoam-spread: one-side\\nfoam-look: clinging\\narch-look: no\\n";
    ask_at("short-tunnel", low);
    assert_holds("out", "How does the foam come out of the left upright?");
    assert_false(holds("out", "floor bar"));
    ask_at("two-arches", low);
    assert_holds("out", "How does the left floor bar look?"); /* what confirms comes first */
    ask_at("cloth-first", low);
    assert_holds("out", "How does the foam come out of the left row?");
    assert_false(holds("out", "wrap"));
}

static void spot_free_water_is_read_where_there_is_a_meter(void **state)
{
    (void)state;
    const char *chalk =
        "car-out: streaky-roof\\nstreak-wipe: spots\\nwater-run: breaks\\nfoam-look: clinging\\n";
    ask_at("two-arches", chalk);
    assert_holds("out", "What does the meter at the spot-free unit read?");
    ask_at("short-tunnel", chalk);
    assert_false(holds("out", "meter at the spot-free unit read"));
    assert_false(holds("out", "The last rinse leaves minerals"));
    ask_at("cloth-first",
           "car-out: streaky-roof\\nstreak-wipe: spots\\nwater-run: breaks\\nfoam-look: clinging\\n"
           "drying-drum: under\\n"); /* what confirms comes first */
    assert_holds("out", "Is there a last rinse with spot-free water");
}

static void foam_lands_before_the_cloth_touches(void **state)
{
    (void)state;
    ask_at("cloth-first", "car-out: dirt\\n");
    assert_holds("out", "the roof cloth touches the car before any foam does");
    assert_holds(
        "out", "The controller starts the left row at 32 ft, which is behind its place at 28 ft.");
    ask_at("two-arches", "car-out: dirt\\n");
    assert_false(holds("out", "before any foam does"));
    assert_false(holds("out", "hardly any time before the cloth touches"));
    ask_at("short-tunnel", "car-out: dirt\\n");
    assert_holds("out",
                 "The foam of the overhead row lands less than 3 ft ahead of the wrap brush.");
}

/* 1.8 bar is the set point there; 2.1 bar is within 6 psi of it, 2.3 bar is not. At the other sites
 * both are low. */
static void a_set_point_is_the_sites_own(void **state)
{
    (void)state;
    ask_at("short-tunnel", "foam-air: 2.3 bar\\n");
    assert_holds("out", "The foam air reads high");
    ask_at("short-tunnel", "foam-air: 2.1 bar\\n");
    assert_false(holds("out", "The foam air reads"));
    ask_at("two-arches", "foam-air: 2.1 bar\\n");
    assert_holds("out", "The foam air reads low");
    ask_at("cloth-first", "foam-air: 2.1 bar\\n"); /* 30.5 psi, where nobody knows the set point */
    assert_false(holds("out", "The foam air reads"));
}

/* 4 bar are 58.0150950920836 psi (1 bar = 14.50377377302090 psi). */
static void a_case_in_bar_is_the_case_in_psi(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'foam-look: stiff\\nfoam-air: 4 bar\\npump-air: 3 bar\\n' | $T "
                        "rank $RULES - --json >bar.json"),
                     0);
    assert_int_equal(sh("printf 'foam-look: stiff\\nfoam-air: 58.0150950920836 psi\\npump-air: "
                        "43.5113213190627 psi\\n' | "
                        "$T rank $RULES - --json >psi.json"),
                     0);
    /* what was said is kept as it was said; all else is the same */
    assert_int_equal(sh("sed 's/4 bar/58.0150950920836 psi/; s/3 bar/43.5113213190627 psi/' "
                        "bar.json >told.json && cmp told.json psi.json"),
                     0);
    assert_int_equal(sh("grep -q foam-air-high psi.json"), 0);
}

/* A site that only names its stations: danger first, then what each does, which rules out what
 * can't be there. */
static void a_new_site_is_asked_what_its_stations_do(void **state)
{
    (void)state;
    static const char here[] = "--site new.yaml --unsaved --no-input >out 2>err";
    assert_int_equal(
        sh("printf 'site:\\n  units:\\n    station:\\n      left: {text: the left row}\\n"
           "      wrap: {text: the wrap brush}\\n' >new.yaml"),
        0);
    sh("printf 'bare-spot: low\\n' | $T ask $RULES --answers - %s", here);
    assert_holds("out", "Is anything dangerous going on right now?");
    sh("printf 'bare-spot: low\\ndanger: safe\\n' | $T ask $RULES --answers - %s", here);
    assert_holds("out", "What does the left row do?");
    sh("printf 'bare-spot: low\\ndanger: safe\\njob of left: sides\\njob of wrap: touches\\n' "
       ">known.yaml");
    sh("$T ask $RULES --answers known.yaml %s", here);
    sh("sed -n '/^Question/,$p' out >next");
    assert_false(holds("next", "row do?") || holds("next", "brush do?"));
}

/* Whether the ranking in `out` gives the cause a chance at all. */
static bool is_possible(const char *cause)
{
    int status = sh("grep -A2 '\"name\": \"%s\"' out | grep '\"chance\"' >chance", cause);
    if (status != 0) fail_msg("%s is not ranked", cause);
    return sh("grep -q '[1-9]' chance") == 0;
}

static void what_a_station_does_rules_causes_out(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'site: {units: {station: {left: {text: left}, wrap: {text: "
                        "wrap}}}}\\n' >new.yaml"),
                     0);
    assert_int_equal(
        sh("printf 'bare-spot: low\\n' | $T rank $RULES - --site new.yaml --json >out"), 0);
    assert_true(is_possible("floor-bar-buried of left") && is_possible("cloth-worn of left"));
    assert_int_equal(sh("printf 'bare-spot: low\\njob of left: sides\\njob of wrap: touches\\n' | "
                        "$T rank $RULES - --site new.yaml --json >out"),
                     0);
    assert_true(is_possible("nozzles-worn of left") && is_possible("cloth-worn of wrap"));
    assert_false(is_possible("floor-bar-buried of left") || is_possible("cloth-worn of left"));
}

/* 1:80 is 1/81; 0.2 % of the whole more is 1/69.71, which is 1:68.71. */
static void a_dilution_is_adjusted_in_percent(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf 'danger: safe\\ncar-out: dirt\\ndirt-where: all-over\\nfoam-look: runny\\n"
           "kit-strength: 1:80\\ndrum-lasts: longer\\nstrength-fits: weaker\\n"
           "dose-screw: yes\\nseason: mild\\n' >strength.yaml"),
        0);
    sh("printf '1\\nright\\nbegin\\ndone\\ndone\\ndone\\ndone\\n' | $T ask $RULES --practice "
       "--answers strength.yaml --as technician "
       "--unsaved >out 2>err");
    assert_holds("out", "Step 1 of at most 5. It was found at 1:80.\nAt: the pump stand\n"
                        "Set it from 1:80 to 1:68.71.");
}

/* From the danger question to the complaint that is meant. */
static void complaints_are_said_in_the_persons_language(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'no\\nespuma seca\\n' | $T ask %s/rules/foam-line --practice "
                        "--unsaved --plain --language es >out 2>err",
                        TT_SOURCE_DIR),
                     3);
    assert_holds("out", "  La espuma está muy seca\n");
    assert_holds("out", "¿Es esto: La espuma está muy seca?");
    assert_int_equal(sh("! grep -q 'The foam is too dry' out"), 0);
    /* Where it is seen, and at which row. */
    assert_int_equal(sh("printf 'no\\nxyzzy plugh\\n' | $T ask $RULES --practice --unsaved --plain "
                        "--language es >out 2>err"),
                     3);
    assert_holds("out", " el pasillo junto al túnel\n");
    assert_false(holds("out", "the walkway"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(worked_values_come_out, fresh),
        cmocka_unit_test_setup(other_values_do_not, fresh),
        cmocka_unit_test_setup(a_first_site_file_is_read, fresh),
        cmocka_unit_test_setup(sites_are_asked_about_what_they_have, fresh),
        cmocka_unit_test_setup(spot_free_water_is_read_where_there_is_a_meter, fresh),
        cmocka_unit_test_setup(foam_lands_before_the_cloth_touches, fresh),
        cmocka_unit_test_setup(a_set_point_is_the_sites_own, fresh),
        cmocka_unit_test_setup(a_case_in_bar_is_the_case_in_psi, fresh),
        cmocka_unit_test_setup(a_new_site_is_asked_what_its_stations_do, fresh),
        cmocka_unit_test_setup(what_a_station_does_rules_causes_out, fresh),
        cmocka_unit_test_setup(a_dilution_is_adjusted_in_percent, fresh),
        cmocka_unit_test_setup(complaints_are_said_in_the_persons_language, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
