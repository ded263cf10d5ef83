/* What the program prints for programs fits its schemas; turns are in tests/cli/test_turns.c. */
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
                 "rm -rf cases; i=%d; while [ $i -gt 0 ]; do printf 'no\\nsilent\\n1\\n1\\n1\\n' | "
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
        {"well", "no\\nit goes on and off\\n1\\n2\\n40 psi\\nback\\nstop"},
        {"well", "no\\nit goes on and off\\n1\\n1\\n1"},
        {"regulator", "stiff foam\\n1\\n52\\n2\\n1\\nno\\n2\\n2\\nyes\\nstop"},
    };
    json_t *schema = json_load_file(TT_SOURCE_DIR "/docs/sheet.schema.json", 0, NULL);
    assert_non_null(schema);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        json_t *sheet = sheet_of(cases[i][0], cases[i][1]);
        if (!fits_schema(schema, sheet))
            fail_msg("the sheet of '%s' does not fit its schema", cases[i][1]);
        json_object_set_new(json_object_get(sheet, "next"), "do", json_string("dance"));
        assert_false(fits_schema(schema, sheet));
        json_object_del(sheet, "next");
        assert_false(fits_schema(schema, sheet));
        json_decref(sheet);
    }
    json_decref(schema);
}

static bool is_kind(const json_t *kinds, const char *kind)
{
    for (size_t i = 0; i < json_array_size(kinds); i++)
        if (strcmp(json_string_value(json_array_get(kinds, i)), kind) == 0) return true;
    return false;
}

/* A prompt that the schema does not know would leave programs without a word for it. */
static void every_prompt_has_its_kind(void **state)
{
    (void)state;
    json_t *schema = json_load_file(TT_SOURCE_DIR "/docs/turn.schema.json", 0, NULL);
    const json_t *kind = json_object_get(json_object_get(schema, "properties"), "kind");
    const json_t *kinds = json_object_get(kind, "enum");
    char name[64];
    unsigned found = 0;
    FILE *prompts = popen("cat '" TT_SOURCE_DIR "'/cli/*/*.c | tr '\\n' ' ' | grep -oE "
                          "'(ask_for|ask_silently|ask_line|choose|hear_words)\\(a, +\"[a-z-]+\"' | "
                          "sed 's/.*\"\\(.*\\)\"/\\1/'",
                          "r");
    assert_non_null(prompts);
    while (fscanf(prompts, "%63s", name) == 1) {
        if (!is_kind(kinds, name)) fail_msg("the prompt %s is not in the schema", name);
        found++;
    }
    assert_int_equal(pclose(prompts), 0);
    assert_true(found >= 20);
    for (size_t i = 0; i < json_array_size(kinds); i++) {
        char search[256];
        const char *listed = json_string_value(json_array_get(kinds, i));
        snprintf(search, sizeof search, "grep -q '\"%s\"' '%s'/cli/*/*.c", listed, TT_SOURCE_DIR);
        if (system(search) != 0) fail_msg("no prompt is of the kind %s", listed);
    }
    json_decref(schema);
}

static void fits_line_by_line(const json_t *schema, const char *path, unsigned lines)
{
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    json_t *line;
    unsigned count = 0;
    while ((line = json_loadf(file, JSON_DISABLE_EOF_CHECK, NULL)) != NULL) {
        if (!fits_schema(schema, line)) fail_msg("line %u of %s does not fit its schema", count + 1, path);
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
             "rm -rf kept; T='%s'; W='%s/tests/cli/well'; mkdir -p kept/2026/01/019b1b48-9420-7e45-8172-00002235a41d;"
             " printf 'no\\nshort cycling\\n1\\nstop\\n' | \"$T\" ask \"$W\" --cases kept >said; \"$T\" ask \"$W\" --cases kept </dev/null >said;"
             " printf 'no\\nshort cycling\\n1\\n1\\n1\\n' | \"$T\" ask \"$W\" --cases kept >said;"
             " \"$T\" cases kept --json >listed && \"$T\" cases kept --json --count >counted",
             TT_PROGRAM, TT_SOURCE_DIR);
    assert_int_equal(system(command), 0);
    fits_line_by_line(schema, "listed", 4);
    fits_line_by_line(schema, "counted", 1);
    json_decref(schema);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rank_fits_its_schema),        cmocka_unit_test(sheets_fit_their_schema),
        cmocka_unit_test(rehearsals_fit_their_schema), cmocka_unit_test(every_prompt_has_its_kind),
        cmocka_unit_test(lessons_fit_their_schema),
        cmocka_unit_test(cases_fit_their_schema),
    };
    return cmocka_run_group_tests_name("docs schemas", tests, NULL, NULL);
}
