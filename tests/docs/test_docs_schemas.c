/* What the program prints for programs fits its schemas; turns are in tests/cli/test_turns.c. That
 * the schemas are those of the tables is in test_docs_made_schemas.c. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <jansson.h>

#include "json_schema.h"

static void rank_fits_its_schema(void **state)
{
    (void)state;
    static const char *const answers[] = {"pump-sound: rapid", "smoke: yes", "tank-gauge: 45 psi",
                                          "drip: {likely: {yes: 0.7, no: 0.3}}"};
    json_t *schema = json_load_file(TT_SOURCE_DIR "/docs/rank.schema.json", 0, NULL);
    assert_non_null(schema);
    for (size_t i = 0; i < sizeof answers / sizeof answers[0]; i++) {
        char command[4096];
        snprintf(command, sizeof command,
                 "echo '%s' | '%s' rank '%s/tests/cli/well' - --json >ranked", answers[i],
                 TT_PROGRAM, TT_SOURCE_DIR);
        assert_int_equal(system(command), 0);
        json_t *ranked = json_load_file("ranked", 0, NULL);
        assert_non_null(ranked);
        if (!fits_schema(schema, ranked))
            fail_msg("what rank says of '%s' does not fit its schema", answers[i]);
        json_object_set_new(ranked, "do_next", json_string("dance"));
        assert_false(fits_schema(schema, ranked));
        json_object_del(ranked, "do_next");
        assert_false(fits_schema(schema, ranked));
        json_decref(ranked);
    }
    json_decref(schema);
}

static void rehearsals_fit_their_schema(void **state)
{
    (void)state;
    static const char *const options[] = {"--calls 1", "--calls 40 --as technician",
                                          "--calls 20 --misread 5 --numbers-off 30 --seed 7"};
    json_t *schema = json_load_file(TT_SOURCE_DIR "/docs/rehearse.schema.json", 0, NULL);
    assert_non_null(schema);
    for (size_t i = 0; i < sizeof options / sizeof options[0]; i++) {
        char command[4096];
        snprintf(command, sizeof command, "'%s' rehearse '%s/tests/cli/well' %s --json >rehearsed",
                 TT_PROGRAM, TT_SOURCE_DIR, options[i]);
        assert_int_equal(system(command), 0);
        json_t *rehearsed = json_load_file("rehearsed", 0, NULL);
        assert_non_null(rehearsed);
        if (!fits_schema(schema, rehearsed))
            fail_msg("rehearse %s does not fit its schema", options[i]);
        json_t *leads = json_object_get(json_object_get(rehearsed, "all"), "leads");
        json_object_set_new(leads, "count", json_string("many"));
        assert_false(fits_schema(schema, rehearsed));
        json_object_del(rehearsed, "all");
        assert_false(fits_schema(schema, rehearsed));
        json_decref(rehearsed);
    }
    json_decref(schema);
}

static void parts_fit_their_schema(void **state)
{
    (void)state;
    json_t *schema = json_load_file(TT_SOURCE_DIR "/docs/rehearse-part.schema.json", 0, NULL);
    assert_non_null(schema);
    assert_int_equal(
        system("'" TT_PROGRAM "' rehearse '" TT_SOURCE_DIR "/tests/cli/well' --calls 3..9 >part"),
        0);
    json_t *part = json_load_file("part", 0, NULL);
    assert_true(fits_schema(schema, part));
    json_object_set_new(part, "kind", json_string("something else"));
    assert_false(fits_schema(schema, part));
    json_decref(part);
    json_decref(schema);
}

/* With too few cases, and with enough that something is proposed. */
static void lessons_fit_their_schema(void **state)
{
    (void)state;
    static const int cases[] = {1, 12};
    json_t *schema = json_load_file(TT_SOURCE_DIR "/docs/learn.schema.json", 0, NULL);
    assert_non_null(schema);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char command[4096];
        snprintf(command, sizeof command,
                 "rm -rf cases; i=%d; while [ $i -gt 0 ]; do printf "
                 "'no\\nsilent\\n1\\n1\\n1\\n1\\n1\\n' | "
                 "'%s' ask --cases cases "
                 "'%s/tests/cli/well' >asked && i=$((i - 1)) || exit 1; done; '%s' learn "
                 "'%s/tests/cli/well' cases --json >learned",
                 cases[i], TT_PROGRAM, TT_SOURCE_DIR, TT_PROGRAM, TT_SOURCE_DIR);
        assert_int_equal(system(command), 0);
        json_t *learned = json_load_file("learned", 0, NULL);
        assert_non_null(learned);
        if (!fits_schema(schema, learned))
            fail_msg("what was learned of %d cases does not fit its schema", cases[i]);
        assert_int_equal(json_array_size(json_object_get(learned, "numbers")) > 0, i == 1);
        json_object_set_new(json_object_get(learned, "cases"), "counted", json_string("many"));
        assert_false(fits_schema(schema, learned));
        json_object_del(learned, "cases");
        assert_false(fits_schema(schema, learned));
        json_decref(learned);
    }
    json_decref(schema);
}

/* A session on the case that stands in `lines`, and its sheet. */
static json_t *sheet_of(const char *book, const char *lines)
{
    char command[4096];
    snprintf(command, sizeof command,
             "rm -rf cases; printf '%s\\n' | '%s' ask '%s/tests/cli/%s' --cases cases >out 2>&1; "
             "'%s' sheet cases/*/*/* --json >sheet",
             lines, TT_PROGRAM, TT_SOURCE_DIR, book, TT_PROGRAM);
    assert_int_equal(system(command), 0);
    json_t *sheet = json_load_file("sheet", 0, NULL);
    assert_non_null(sheet);
    return sheet;
}

static void sheets_fit_their_schema(void **state)
{
    (void)state;
    static const char *const cases[][2] = {
        {"well", "no"},
        {"well", "yes\\n1"},
        {"well", "no\\nit goes on and off\\n1\\n40 psi\\nback\\nstop"},
        {"well", "no\\nsilent\\n1\\n1\\n1\\n1\\n1"},
        {"regulator", "no\\nstiff foam\\n1\\n52\\n1\\n1\\n3\\nstop"},
    };
    json_t *schema = json_load_file(TT_SOURCE_DIR "/docs/sheet.schema.json", 0, NULL);
    assert_non_null(schema);
    unsigned tried = 0;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        json_t *sheet = sheet_of(cases[i][0], cases[i][1]);
        if (!fits_schema(schema, sheet))
            fail_msg("the sheet of '%s' does not fit its schema", cases[i][1]);
        tried += json_array_size(json_object_get(sheet, "tried")) > 0;
        json_object_set_new(json_object_get(sheet, "next"), "do", json_string("dance"));
        assert_false(fits_schema(schema, sheet));
        json_object_del(sheet, "next");
        assert_false(fits_schema(schema, sheet));
        json_decref(sheet);
    }
    assert_int_equal(tried, 2); /* the last two */
    json_decref(schema);
}

static void fits_line_by_line(const json_t *schema, const char *path, unsigned lines)
{
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    json_t *line;
    unsigned count = 0;
    while ((line = json_loadf(file, JSON_DISABLE_EOF_CHECK, NULL)) != NULL) {
        if (!fits_schema(schema, line))
            fail_msg("line %u of %s does not fit its schema", count + 1, path);
        json_object_set_new(line, "version", json_integer(2));
        assert_false(fits_schema(schema, line));
        json_decref(line);
        count++;
    }
    fclose(file);
    assert_int_equal(count, lines);
}

static void cases_fit_their_schema(void **state)
{
    (void)state;
    char command[4096];
    json_t *schema = json_load_file(TT_SOURCE_DIR "/docs/cases.schema.json", 0, NULL);
    assert_non_null(schema);
    snprintf(command, sizeof command,
             "rm -rf kept; T='%s'; W='%s/tests/cli/well'; mkdir -p "
             "kept/2026/01/019b1b48-9420-7e45-8172-00002235a41d;"
             " printf 'no\\nshort cycling\\n1\\nstop\\n' | \"$T\" ask \"$W\" --cases kept >said; "
             "echo no | \"$T\" ask \"$W\" --cases kept >said;"
             " printf 'no\\nsilent\\n1\\n1\\n1\\n1\\n1\\n' | \"$T\" ask \"$W\" --cases kept >said;"
             " \"$T\" cases kept --json >listed && \"$T\" cases kept --json --count >counted",
             TT_PROGRAM, TT_SOURCE_DIR);
    assert_int_equal(system(command), 0);
    fits_line_by_line(schema, "listed", 4);
    fits_line_by_line(schema, "counted", 1);
    json_decref(schema);
}

static void faults_and_worked_cases_fit_their_schemas(void **state)
{
    (void)state;
    char command[4096];
    json_t *of_fault = json_load_file(TT_SOURCE_DIR "/docs/check.schema.json", 0, NULL),
           *of_trials = json_load_file(TT_SOURCE_DIR "/docs/try.schema.json", 0, NULL);
    assert_true(of_fault != NULL && of_trials != NULL);
    snprintf(command, sizeof command,
             "mkdir -p wrong && printf 'book: {title: Wrong}\nquestons: 1\n' >wrong/a.yaml; '%s' "
             "check wrong --json >faults; '%s' try '%s/tests/cli/well' --json >trials",
             TT_PROGRAM, TT_PROGRAM, TT_SOURCE_DIR);
    assert_int_equal(system(command), 0);
    json_t *trials = json_load_file("trials", 0, NULL), *fault;
    assert_true(trials != NULL && json_array_size(json_object_get(trials, "cases")) > 0 &&
                fits_schema(of_trials, trials));
    FILE *file = fopen("faults", "r");
    assert_non_null(file);
    unsigned count = 0;
    for (; (fault = json_loadf(file, JSON_DISABLE_EOF_CHECK, NULL)) != NULL; count++) {
        assert_true(fits_schema(of_fault, fault));
        json_object_set_new(fault, "severity", json_string("doubt"));
        assert_false(fits_schema(of_fault, fault));
        json_decref(fault);
    }
    fclose(file);
    assert_true(count > 0);
    json_decref(trials);
    json_decref(of_fault);
    json_decref(of_trials);
}

static json_t *checked_against(const char *schema_path, const char *command)
{
    json_t *schema = json_load_file(schema_path, 0, NULL);
    assert_non_null(schema);
    assert_int_equal(system(command), 0);
    json_t *said = json_load_file("said", 0, NULL);
    assert_non_null(said);
    if (!fits_schema(schema, said)) fail_msg("what '%s' says does not fit its schema", command);
    json_decref(schema);
    return said;
}

static void why_fits_its_schemas(void **state)
{
    (void)state;
    char command[4096];
    snprintf(command, sizeof command,
             "'%s' try '%s/rules/foam-line' gauge-falls-while-foam-is-on --json >said", TT_PROGRAM,
             TT_SOURCE_DIR);
    json_t *one = checked_against(TT_SOURCE_DIR "/docs/try-case.schema.json", command);
    json_t *because = json_object_get(one, "because");
    assert_true(json_array_size(json_object_get(because, "missing")) > 0 &&
                json_array_size(json_object_get(because, "pivots")) > 0);
    json_decref(one);
    snprintf(command, sizeof command, "'%s' try '%s/tests/cli/well' --held --json >said",
             TT_PROGRAM, TT_SOURCE_DIR);
    json_decref(checked_against(TT_SOURCE_DIR "/docs/try-numbers.schema.json", command));
    snprintf(command, sizeof command,
             "echo 'pump-sound: rapid' | '%s' rank '%s/tests/cli/well' - --why --json >said",
             TT_PROGRAM, TT_SOURCE_DIR);
    json_t *ranked = checked_against(TT_SOURCE_DIR "/docs/rank.schema.json", command);
    assert_non_null(json_object_get(json_object_get(ranked, "why"), "decibels"));
    json_decref(ranked);
}

static void what_moved_fits_its_schema(void **state)
{
    (void)state;
    char command[4096];
    snprintf(command, sizeof command,
             "rm -rf newer && cp -r '%s/tests/cli/well' newer && sed -i 's/tank-waterlogged: "
             "almost always/tank-waterlogged: rarely/' newer/parts/faults.yml && "
             "'%s' compare '%s/tests/cli/well' newer --calls 10 --json >said",
             TT_SOURCE_DIR, TT_PROGRAM, TT_SOURCE_DIR);
    json_t *said = checked_against(TT_SOURCE_DIR "/docs/compare.schema.json", command),
           *moved = json_object_get(said, "moved");
    assert_true(json_array_size(moved) > 0);
    assert_true(json_array_size(json_object_get(json_array_get(moved, 0), "edits")) == 1);
    json_decref(said);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rank_fits_its_schema),
        cmocka_unit_test(sheets_fit_their_schema),
        cmocka_unit_test(rehearsals_fit_their_schema),
        cmocka_unit_test(parts_fit_their_schema),
        cmocka_unit_test(lessons_fit_their_schema),
        cmocka_unit_test(cases_fit_their_schema),
        cmocka_unit_test(faults_and_worked_cases_fit_their_schemas),
        cmocka_unit_test(why_fits_its_schemas),
        cmocka_unit_test(what_moved_fits_its_schema),
    };
    return cmocka_run_group_tests_name("docs schemas", tests, NULL, NULL);
}
