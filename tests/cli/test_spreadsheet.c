/* The table through the hands of a spreadsheet: LibreOffice Calc opens and saves it, headless. What
 * nobody changed changes no byte; what was changed comes back. */
#include "run_telltale.h"
#include "skips.h"

static void need_spreadsheet(void)
{
    if (sh("command -v soffice >found") != 0)
        skip_since("tables in a spreadsheet: soffice is not here; " BY_EVERYTHING);
}

/* 44: comma, 34: quote, 76: UTF-8; texts as they are shown. */
static void through_calc(const char *name)
{
    assert_int_equal(
        sh("rm -rf ods out && soffice -env:UserInstallation=file://\"$PWD\"/profile --headless "
           "--infilter='CSV:44,34,76' "
           "--convert-to ods --outdir ods %s.csv >said 2>&1 && "
           "soffice -env:UserInstallation=file://\"$PWD\"/profile --headless "
           "--convert-to 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false' --outdir "
           "out ods/%s.ods >said 2>&1",
           name, name),
        0);
    assert_int_equal(sh("test -s out/%s.csv", name), 0);
}

static void opened_and_saved_changes_nothing(void **state)
{
    (void)state;
    need_spreadsheet();
    for (const char *const *book =
             (const char *const[]){"foam-line", "dosing-and-pumping", "standby-generator", NULL};
         *book != NULL; book++) {
        assert_int_equal(sh("$T table '%s/rules/%s' --csv >a.csv", TT_SOURCE_DIR, *book), 0);
        through_calc("a");
        assert_int_equal(sh("cmp -s a.csv out/a.csv"), 1); /* it writes otherwise: 85%% for 85 %% */
        assert_int_equal(
            sh("$T table '%s/rules/%s' --from out/a.csv >patch 2>err", TT_SOURCE_DIR, *book), 0);
        assert_int_equal(sh("test -s patch"), 1);
        assert_holds("err", "there is nothing to patch");
    }
}

static void what_was_changed_comes_back(void **state)
{
    (void)state;
    need_spreadsheet();
    assert_int_equal(sh("rm -rf book && cp -r $WELL book && chmod -R u+w book"), 0);
    assert_int_equal(sh("$T table book --csv | sed "
                        "'s/^,breaker-off,\\(.*\\),usually,/,breaker-off,\\1,62.5 %%,/' >b.csv"),
                     0);
    through_calc("b");
    assert_int_equal(sh("$T table book --from out/b.csv >patch && patch -s -p1 -d book <patch && "
                        "grep -c '^[-+] ' patch >count"),
                     0);
    assert_holds("count", "2\n");
    assert_holds("patch", "62.5 %");
    assert_int_equal(sh("$T check book >out.txt && $T table book --csv | grep -v strongest >now; "
                        "grep -v strongest b.csv | cmp - now"),
                     0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(opened_and_saved_changes_nothing),
        cmocka_unit_test(what_was_changed_comes_back),
    };
    return cmocka_run_group_tests_name("spreadsheet", tests, NULL, NULL);
}
