/* A fixture without its message fails, one is written where it is asked for, and nothing else
 * passes that ought not to. What it says of each is on standard error. */
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include "fault_files.h"
#include "test_sources.h"

static const char *const none[] = {NULL};

/* The fixture's own text is what is said of it. */
static str tell(arena *keep, const char *folder, str stem)
{
    return file_bytes(keep, str_printf(keep, "%s/%.*s.yaml", folder, STR_ARG(stem)).p);
}

static void put(const char *path, const char *text)
{
    FILE *f = fopen(path, "wb");
    assert_non_null(f);
    fputs(text, f);
    assert_int_equal(fclose(f), 0);
}

static int one_fixture(void **state)
{
    (void)state;
    static const char *const all[] = {"fixtures/T120-a.expected", "fixtures/T120-a.2.yaml",
                                      "fixtures/T121-b.expected", "fixtures/slip.yaml"};
    mkdir("fixtures", 0700);
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) unlink(all[i]);
    unsetenv("TT_UPDATE_EXPECTED");
    put("fixtures/T120-a.yaml", "wrong [T120]\n");
    return 0;
}

static void without_its_message_it_fails_until_that_is_written(void **state)
{
    (void)state;
    assert_int_equal(fault_files_check("fixtures", ".yaml", tell, none), 1);
    setenv("TT_UPDATE_EXPECTED", "1", 1);
    assert_int_equal(fault_files_check("fixtures", ".yaml", tell, none), 0);
    unsetenv("TT_UPDATE_EXPECTED");
    assert_int_equal(fault_files_check("fixtures", ".yaml", tell, none), 0);
    put("fixtures/T120-a.yaml", "wrong otherwise [T120]\n");
    assert_int_equal(fault_files_check("fixtures", ".yaml", tell, none), 1);
}

static void the_message_shows_the_code(void **state)
{
    (void)state;
    put("fixtures/T120-a.yaml", "wrong [T121]\n");
    put("fixtures/T120-a.expected", "wrong [T121]\n");
    assert_int_equal(fault_files_check("fixtures", ".yaml", tell, none), 1);
}

static void files_of_one_fixture_are_one(void **state)
{
    (void)state;
    put("fixtures/T120-a.expected", "wrong [T120]\n");
    put("fixtures/T120-a.2.yaml", "more\n");
    assert_int_equal(fault_files_check("fixtures", ".yaml", tell, none), 0);
}

static void what_belongs_to_nothing_fails(void **state)
{
    (void)state;
    static const char *const slip[] = {"slip", NULL};
    put("fixtures/T120-a.expected", "wrong [T120]\n");
    put("fixtures/slip.yaml", "\n");
    assert_int_equal(fault_files_check("fixtures", ".yaml", tell, none), 1);
    assert_int_equal(fault_files_check("fixtures", ".yaml", tell, slip), 0);
    put("fixtures/T121-b.expected", "wrong [T121]\n");
    assert_int_equal(fault_files_check("fixtures", ".yaml", tell, slip), 1);
}

static void each_code_has_a_file_here_or_elsewhere(void **state)
{
    (void)state;
    static const char *const beginnings[] = {"T120", "T121", NULL}, *const elsewhere[] = {"T121",
                                                                                          NULL};
    assert_int_equal(fault_codes_without_file("fixtures", ".yaml", beginnings, none), 1);
    assert_int_equal(fault_codes_without_file("fixtures", ".yaml", beginnings, elsewhere), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(without_its_message_it_fails_until_that_is_written, one_fixture),
        cmocka_unit_test_setup(the_message_shows_the_code, one_fixture),
        cmocka_unit_test_setup(files_of_one_fixture_are_one, one_fixture),
        cmocka_unit_test_setup(what_belongs_to_nothing_fails, one_fixture),
        cmocka_unit_test_setup(each_code_has_a_file_here_or_elsewhere, one_fixture),
    };
    return cmocka_run_group_tests_name("fault files", tests, NULL, NULL);
}
