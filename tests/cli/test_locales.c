/* Neither the language of the machine nor its clock's place changes a byte of what programs get:
 * ten locales, made here, and six zones of time. */
#include "run_telltale.h"

#include "skips.h"

#define FOAM TT_SOURCE_DIR "/rules/foam-line"

static const char *const runs[] = {
    "$T rank " FOAM " answers.yaml --json",
    "$T rank " FOAM " answers.yaml --json --language es",
    "$T check book --json",
    "$T try $WELL --json",
    "$T rehearse $WELL --calls 4 --json",
    "$T table $WELL --csv",
    "$T schema $WELL",
    "$T cases cases --json",
    "printf '%s\\n' '{\"choice\":\"no\"}' '{\"words\":\"short cycling\"}' | $T ask $WELL --unsaved "
    "--json",
};
enum { RUNS = sizeof runs / sizeof runs[0] };

static int laid(void **state)
{
    (void)state;
    int failed = sh("rm -rf cases book && printf 'danger: safe\\nfoam-look: stiff\\nfoam-air: 55.5 "
                    "psi\\n' >answers.yaml");
    failed += sh("cp -r $WELL book && printf 'questions:\\n  smoke:\\n    ask: \"\\302\\277Humo? "
                 "\\304\\261I\\304\\260i\"\\n' >book/more.yaml");
    return failed +
           (sh("printf 'no\\nshort cycling\\nstop\\n' | $T ask $WELL --cases cases >out") != 3);
}

static void run_all(const char *environment, const char *into)
{
    assert_int_equal(sh("mkdir -p %s", into), 0);
    for (size_t i = 0; i < RUNS; i++)
        assert_in_range(
            sh("export %s; { %s; } >%s/%zu 2>/dev/null </dev/null", environment, runs[i], into, i),
            0, 3);
}

static void assert_all_alike(const char *environment)
{
    run_all(environment, "other");
    for (size_t i = 0; i < RUNS; i++)
        if (sh("cmp plain/%zu other/%zu >difference 2>&1", i, i) != 0)
            fail_msg("%s changes what %s gives: %s", environment, runs[i], contents("difference"));
}

static void locales_change_nothing(void **state)
{
    static const char *const locales[][2] = {
        {"de_DE", "UTF-8"}, {"tr_TR", "UTF-8"},     {"fr_FR", "ISO-8859-1"}, {"es_MX", "UTF-8"},
        {"ar_SA", "UTF-8"}, {"hi_IN", "UTF-8"},     {"ja_JP", "EUC-JP"},     {"ru_RU", "KOI8-R"},
        {"pt_BR", "UTF-8"}, {"el_GR", "ISO-8859-7"}};
    (void)state;
    need_program("localedef", "libc-bin");
    if (sh("test -r /usr/share/i18n/locales/tr_TR") != 0)
        skip_since("ten locales; apt-get install locales brings what they are made of");
    run_all("LC_ALL=C.UTF-8", "plain");
    for (size_t i = 0; i < RUNS; i++) assert_int_equal(sh("test -s plain/%zu", i), 0);
    for (size_t i = 0; i < sizeof locales / sizeof locales[0]; i++) {
        char environment[512];
        assert_in_range(sh("mkdir -p made && { test -d made/%s || localedef -c -i %s -f %s "
                           "made/%s; } >/dev/null 2>&1",
                           locales[i][0], locales[i][0], locales[i][1], locales[i][0]),
                        0, 1); /* 1: it was made, with a warning */
        assert_int_equal(sh("test -d made/%s", locales[i][0]), 0);
        assert_int_equal(
            sh("LOCPATH=$PWD/made LC_ALL=%s locale decimal_point >out 2>err && test ! -s err",
               locales[i][0]),
            0); /* it is one */
        snprintf(environment, sizeof environment, "LOCPATH=$PWD/made LC_ALL=%s LANGUAGE=%s",
                 locales[i][0], locales[i][0]);
        assert_all_alike(environment);
    }
    assert_all_alike("LC_ALL=C");
    assert_all_alike("LC_ALL=nowhere_XX");
}

static void zones_of_time_change_nothing(void **state)
{
    static const char *const zones[] = {
        "TZ=UTC0",           "TZ=Pacific/Kiritimati", "TZ=America/St_Johns",
        "TZ=Asia/Kathmandu", "TZ=XYZ+11:30",          "TZ=:nowhere"};
    (void)state;
    run_all("LC_ALL=C.UTF-8", "plain");
    for (size_t i = 0; i < sizeof zones / sizeof zones[0]; i++) assert_all_alike(zones[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(locales_change_nothing),
                                       cmocka_unit_test(zones_of_time_change_nothing)};
    return cmocka_run_group_tests(tests, laid, NULL);
}
