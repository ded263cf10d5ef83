/* cli/start and tests/run in a checkout of their own, where cmake, ctest, apt-get and all that a
 * machine may lack are stand-ins: what is installed, what is said while one waits, and for whom one
 * waits. On a real bare machine: tests/bare-machine. */
#include "run_telltale.h"

/* Of this machine they have only these. */
#define TOOLS "sh cat chmod cmp cp dirname find grep head mkdir mv readlink rm sed sort touch ls"

/* Each stand-in is a shell script. A package is there once apt-get has installed it. */
static const struct stand_in {
    const char *name, *script;
} stand_ins[] = {
    {"id", "echo 0"},
    {"cc", "exit 0"},
    {"ninja", "exit 0"},
    {"patch", "exit 0"},
    {"units", "exit 0"},
    {"git", "exit 0"},
    {"rsync", "exit 0"},
    {"clingo", "exit 0"},
    {"flock", "printf '%s\\n' \"$*\" >>\"$STAGE/turns\""},
    {"pkg-config", "[ \"$2\" != libmd ] || test -e \"$STAGE/installed\""},
    {"apt-get", "echo \"$@\" >>\"$STAGE/apt\"; case \"$*\" in *install*) touch "
                "\"$STAGE/installed\";; *) exit 0;; esac;"
                " for p in 5 25 61 100; do echo \"dlstatus:3:$p.25:Retrieving file 3 of 7\"; done;"
                " for p in 0 33 66; do echo \"pmstatus:libmd-dev:amd64:$p.3333:Unpacking\"; done"},
    {"dpkg-deb", "touch weka_1.deb libdlib-dev_1.deb"},
    {"npm", "echo \"$@\" >>\"$STAGE/npm\""},
    {"cmake",
     "test ! -e \"$STAGE/broken\" || { echo 'engine/x.c:1: error: no such thing'; exit 1; };"
     " [ \"$1\" = --build ] || { while [ $# -gt 0 ]; do [ \"$1\" != -B ] || mkdir -p \"$2\"; "
     "shift; done; exit 0; }; n=0;"
     " while [ $n -lt 200 ]; do n=$((n+1)); echo \"[$n/200] Building C object $n\"; done;"
     " mkdir -p \"$2/cli\"; printf '#!/bin/sh\\necho the program \"$@\"\\n' >\"$2/cli/telltale\"; "
     "chmod +x \"$2/cli/telltale\""},
    {"ctest", "echo \"$@\" >>\"$STAGE/ctest\"; mkdir -p \"$2/Testing/Temporary\";"
              " printf 'skipped: one thing\\nskipped: one thing\\nnot skipped: x\\n' "
              ">\"$2/Testing/Temporary/LastTest.log\"; exit 3"},
};

static void put_script(const struct stand_in *it)
{
    char path[64];
    snprintf(path, sizeof path, "bin/%s", it->name);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fprintf(file, "#!/bin/sh\n%s\n", it->script);
    assert_int_equal(fclose(file), 0);
}

static int checkout(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf bin 'a checkout' turns apt npm ctest installed broken out err && "
                        "mkdir bin 'a checkout'"),
                     0);
    assert_int_equal(sh("for t in " TOOLS "; do ln -s \"$(command -v $t)\" bin/; done"), 0);
    for (size_t i = 0; i < sizeof stand_ins / sizeof *stand_ins; i++) put_script(&stand_ins[i]);
    assert_int_equal(sh("chmod +x bin/*"), 0);
    assert_int_equal(
        sh("cd 'a checkout' && mkdir -p engine cli tests/pages .ci && touch CMakeLists.txt "
           "engine/x.c tests/x.c &&"
           " touch tests/pages/package.json tests/pages/package-lock.json && cp '" TT_SOURCE_DIR
           "'/cli/start '" TT_SOURCE_DIR "'/cli/setup.sh cli/ && cp '" TT_SOURCE_DIR
           "/tests/run' tests/ && cp '" TT_SOURCE_DIR "/.ci/run' .ci/"),
        0);
    return 0;
}

/* Runs a script of the checkout; what it says is in "out" and "err". */
static int run(const char *script, const char *words)
{
    return sh(
        "STAGE=$PWD PATH=$PWD/bin; export STAGE PATH; unset CC CI; './a checkout/%s' %s >out 2>err",
        script, words);
}

static void what_is_missing_is_installed_with_its_tenths(void **state)
{
    (void)state;
    assert_int_equal(run("cli/start", "--version"), 0);
    assert_holds("out", "the program --version\n");
    assert_holds(
        "err",
        "telltale: installing libmd-dev\ntelltale:     fetched 20 %\ntelltale:     fetched 60 %\n"
        "telltale:     installed 30 %\ntelltale:     installed 60 %\n");
    assert_holds("apt", "install --no-install-recommends libmd-dev\n");
    assert_holds("err", "telltale: building .build/release\ntelltale:     built 10 %\n");
    assert_int_equal(sh("test \"$(grep -c ' built .* %%' err)\" = 9"), 0);
    assert_int_equal(sh("grep -q 'Building C object 1$' 'a checkout/.build/log.txt'"), 0);
}

/* The file is newer than the build: the disk's clock may have to go on a little. */
static void change(const char *path)
{
    assert_int_equal(sh("until [ 'a checkout/%s' -nt 'a checkout/.build/release/built' ]; do touch "
                        "'a checkout/%s'; done",
                        path, path),
                     0);
}

static void what_is_up_to_date_waits_for_nobody(void **state)
{
    (void)state;
    assert_int_equal(run("cli/start", "--version"), 0);
    assert_holds("turns", "-n 9\n");
    change("tests/x.c");
    assert_int_equal(sh("rm turns"), 0);
    assert_int_equal(run("cli/start", "--version"), 0);
    assert_int_equal(sh("test -e turns || test -s err"), 1);
    change("engine/x.c");
    assert_int_equal(run("cli/start", "--version"), 0);
    assert_holds("turns", "-n 9\n");
    assert_holds("err", "telltale: building .build/release\n");
}

static void a_build_that_fails_shows_its_log(void **state)
{
    (void)state;
    assert_int_equal(sh("touch broken"), 0);
    assert_int_equal(run("cli/start", "--version"), 1);
    assert_holds("err", "engine/x.c:1: error: no such thing\n");
    assert_holds("err", "telltale: this did not work: cmake");
}

static void tests_leave_out_what_is_large_and_say_so(void **state)
{
    (void)state;
    assert_int_equal(run("tests/run", "-L unit"), 3);
    assert_int_equal(sh("test -e npm || grep -q chromium apt"), 1);
    assert_holds("err", "telltale: left out: chromium (a browser; ");
    assert_holds("err", "telltale: left out: nodejs (");
    assert_holds("err", "telltale: left out: g++ (");
    assert_holds("err", "telltale: left out: weka (data sets; ");
    assert_holds("err", "telltale: left out: libdlib-dev (");
    assert_holds("err", "telltale: left out: what npm fetches (");
    assert_holds("err", "telltale: left out until ./tests/run --everything brings them\n");
    assert_holds("err", "telltale: skipped: one thing\n");
    assert_int_equal(sh("test \"$(grep -c skipped: err)\" = 1"), 0);
    assert_int_equal(sh("grep -qx -e '--test-dir .* --parallel 2 --output-on-failure "
                        "--no-tests=error -L unit' ctest"),
                     0);
}

static void everything_is_brought_where_it_is_asked_for(void **state)
{
    (void)state;
    assert_int_equal(run("tests/run", "--everything -L unit"), 3);
    assert_holds("apt", "install --no-install-recommends chromium nodejs libreoffice-calc parallel "
                        "g++ clang-format mandoc lintian zsh fish clang lld ");
    assert_holds("apt", "download weka\n");
    assert_holds("npm", "ci --prefix ");
    assert_false(holds("err", "left out"));
    assert_int_equal(sh("grep -q everything ctest"), 1);
    assert_int_equal(sh("grep -qe '-L unit$' ctest"), 0);
    assert_int_equal(sh("rm npm && rm -r 'a checkout/.build'"), 0);
    assert_int_equal(run(".ci/run", ""), 3);
    assert_holds("npm", "ci --prefix ");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(what_is_missing_is_installed_with_its_tenths, checkout),
        cmocka_unit_test_setup(what_is_up_to_date_waits_for_nobody, checkout),
        cmocka_unit_test_setup(a_build_that_fails_shows_its_log, checkout),
        cmocka_unit_test_setup(tests_leave_out_what_is_large_and_say_so, checkout),
        cmocka_unit_test_setup(everything_is_brought_where_it_is_asked_for, checkout),
    };
    return cmocka_run_group_tests_name("scripts", tests, NULL, NULL);
}
