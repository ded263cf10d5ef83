/* The schemas in docs/ are those that come from the tables of fields. Run with TT_UPDATE_EXPECTED=1
 * to write them anew. */
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>

#include "show/author_fields.h"
#include "show/case_fields.h"
#include "show/compare_fields.h"
#include "show/history_fields.h"
#include "show/json.h"
#include "show/lesson_fields.h"
#include "show/part_fields.h"
#include "show/rank_fields.h"
#include "show/rehearsal_fields.h"
#include "show/sheet_fields.h"
#include "test_sources.h"

static const struct {
    const char *path;
    tt_value (*made)(arena *keep);
} schemas[] = {
    {TT_SOURCE_DIR "/docs/cases.schema.json", cases_schema},
    {TT_SOURCE_DIR "/docs/check.schema.json", fault_schema},
    {TT_SOURCE_DIR "/docs/compare.schema.json", compared_schema},
    {TT_SOURCE_DIR "/docs/history.schema.json", history_schema},
    {TT_SOURCE_DIR "/docs/learn.schema.json", lesson_schema},
    {TT_SOURCE_DIR "/docs/rank.schema.json", standing_schema},
    {TT_SOURCE_DIR "/docs/rehearse.schema.json", rehearsal_schema},
    {TT_SOURCE_DIR "/docs/rehearse-part.schema.json", rehearsal_part_schema},
    {TT_SOURCE_DIR "/docs/sheet.schema.json", sheet_schema},
    {TT_SOURCE_DIR "/docs/try.schema.json", trials_schema},
    {TT_SOURCE_DIR "/docs/try-case.schema.json", tried_case_schema},
    {TT_SOURCE_DIR "/docs/try-numbers.schema.json", holding_schema},
};

static void write_anew(const char *path, str text)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text.p, 1, text.n, file), text.n);
    assert_int_equal(fclose(file), 0);
}

static void each_schema_is_that_of_its_table(void **state)
{
    (void)state;
    const bool anew = getenv("TT_UPDATE_EXPECTED") != NULL;
    for (size_t i = 0; i < sizeof schemas / sizeof schemas[0]; i++) {
        arena *a = test_arena();
        const tt_value schema = schemas[i].made(a);
        const str made = json_write_lines(a, &schema, JSON_DIGITS_SHOWN, 1);
        if (anew)
            write_anew(schemas[i].path, made);
        else if (!str_eq(made, file_bytes(a, schemas[i].path)))
            fail_msg("%s is not what its table of fields says; TT_UPDATE_EXPECTED=1 writes it",
                     schemas[i].path);
        arena_free(a);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_schema_is_that_of_its_table)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
