/* Every way a file can be wrong as text: one tiny file each in faults/, with the exact message
 * beside it. */
#include "testing.h"

#include "fault_files.h"
#include "load/nodes.h"
#include "test_sources.h"

#define FOLDER TT_SOURCE_DIR "/tests/unit/load/faults"

static const char *const none[] = {NULL};

static str tell(arena *keep, const char *folder, str stem)
{
    arena *scratch = test_arena();
    str path = str_printf(keep, "%s/%.*s.yaml", folder, STR_ARG(stem));
    sources all = source_from_text(keep, "rules.yaml", file_bytes(keep, path.p));
    faults *list = faults_new(keep);
    (void)load_sources(keep, scratch, &all, list);
    arena_free(scratch);
    return faults_text(list, keep, &all, 0);
}

static void each_file_has_its_message(void **state)
{
    (void)state;
    assert_int_equal(fault_files_check(FOLDER, ".yaml", tell, none), 0);
}

static void each_code_has_a_file(void **state)
{
    (void)state;
    static const char *const beginnings[] = {"T10", "T11", "T12", "T13", NULL};
    /* too large for a file here: test_load_limits.c */
    static const char *const elsewhere[] = {"T102", "T103", "T105", NULL};
    assert_int_equal(fault_codes_without_file(FOLDER, ".yaml", beginnings, elsewhere), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_file_has_its_message),
        cmocka_unit_test(each_code_has_a_file),
    };
    return cmocka_run_group_tests_name("load faults", tests, NULL, NULL);
}
