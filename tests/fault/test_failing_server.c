/* A database that is lost at each word that goes to it or comes from it, once and from there on:
 * the way is found again, or it is said that it can't be; what somebody was told is kept is there,
 * in the database or on this machine, whole and once. */
#include "failing_run.h"

#include "database/db_session.h"
#include "database_kit.h"
#include "skips.h"

#if defined(TT_FAILING_CALLS) && !defined(__SANITIZE_ADDRESS__)

/* ---- what lies there before ---- */

static void empty(void)
{
    free(database_sql("SET client_min_messages TO warning; TRUNCATE telltale.cases CASCADE"));
    assert_int_equal(sh("rm -rf .local"), 0);
}

/* Two calls, of which one says who called. */
static void filled(void)
{
    empty();
    assert_int_equal(sh("$T cases kept --copy-to $D >out 2>err"), 0);
}

static void make_kept(void)
{
    put("said", "no\nno water\nstop\n");
    put("stop", "stop\n");
    put("desk", "1\nno\nno water\nboard\nlook\nboard\nstop\n");
    assert_int_equal(sh("rm -rf kept && $T ask $WELL --practice --plain --cases kept --caller 'the "
                        "night shift' <said >out 2>err; test $? = 3 && $T ask $WELL --practice "
                        "--plain --cases kept <said >out 2>err; test $? = 3"),
                     0);
    assert_int_equal(
        sh("$T cases kept --json | sed 's/.*\"case\":\"\\([^\"]*\\)\".*/\\1/' | head -n 1 "
           ">number"),
        0);
    char *number = contents("number");
    number[strcspn(number, "\n")] = 0;
    setenv("N", number, 1);
    free(number);
}

/* ---- what must hold afterwards ---- */

/* What waits on this machine is carried over, where the server takes calls again. */
static int carry_over(void)
{
    return sh("for r in .local/share/telltale/until-back/*\ndo test ! -e $r || $T cases $PWD/$r "
              "--copy-to $D >carried 2>carried.err || exit 9\ndone");
}

/* Numbers of each writer from 1 on, without a gap: nothing in between is lost. */
static bool has_gap(void)
{
    char *gaps =
        database_sql("SELECT count(*) FROM (SELECT count(*) AS n, max(number) AS last FROM "
                     "telltale.records GROUP BY case_id, writer) x WHERE n <> last");
    const bool any = strcmp(gaps, "0") != 0;
    free(gaps);
    return any;
}

static bool has_records(long count)
{
    char *there = database_sql("SELECT count(*) FROM telltale.records");
    const bool all = strtol(there, NULL, 10) >= count;
    free(there);
    return all;
}

/* How many records a call comes to that nobody disturbs. */
static long whole_records;

static const char *call_is_not_kept(int status)
{
    const bool told = holds("err", "can't be kept") || holds("out", "not kept") ||
                      status == EXIT_AWAY; /* before anything was asked */
    if (carry_over() != 0) return "what waits here can't be carried over";
    if (has_gap()) return "a record is lost";
    if (!told && !has_records(whole_records)) return "it is not kept, and nobody said so";
    return NULL;
}

/* A case that is copied is there whole, or is not there. */
static const char *copy_is_torn(int status)
{
    (void)status;
    return has_gap() ? "a record is lost" : NULL;
}

/* ---- the runs ---- */

static const failing_run asking[] = {
    {.words = "$T ask $WELL --practice --plain --cases $D --caller 'the night shift' <said",
     .partly = true,
     .anew = empty,
     .wrong_after = call_is_not_kept},
    {.words = "$T desk $WELL --practice --plain --cases $D --name east <desk",
     .partly = true,
     .anew = empty,
     .wrong_after = call_is_not_kept},
    {.words = "$T ask --case $N --plain --cases $D --name east <stop",
     .partly = true,
     .anew = filled,
     .wrong_after = call_is_not_kept},
};

static const failing_run changing[] = {
    {.words = "$T cases kept --copy-to $D", .anew = empty, .wrong_after = copy_is_torn},
    {.words = "$T cases kept --copy-to $D", .anew = filled, .wrong_after = copy_is_torn},
    {.words = "$T cases $D --erase", .anew = filled, .wrong_after = copy_is_torn},
};

static const failing_run reading[] = {
    {.words = "$T cases $D"},
    {.words = "$T cases $D --json --contact"},
    {.words = "$T cases $D --count"},
    {.words = "$T cases $D --by month"},
    {.words = "$T cases $D --case $N --contact"},
    {.words = "$T cases $D --copy-to copied", .made = "copied"},
    {.words = "$T sheet $N --cases $D --contact"},
    {.words = "$T learn $WELL $D"},
    {.words = "$T compare $WELL $WELL --cases $D --calls 5"},
    {.words = "$T complete -- sheet --cases $D ''", .partly = true},
};

static void assert_all_taken_well(const failing_run *runs, size_t count)
{
    faults = 0;
    for (size_t i = 0; i < count; i++) fail_along(&runs[i], "server");
    assert_int_equal(faults, 0);
}

static void what_is_said_in_a_call_is_kept(void **state)
{
    (void)state;
    faults = 0;
    for (size_t i = 0; i < sizeof asking / sizeof *asking; i++) {
        whole_records = 0;
        run_failing(&asking[i], "server", "once", 0);
        char *there = database_sql("SELECT count(*) FROM telltale.records");
        whole_records = strtol(there, NULL, 10);
        assert_true(whole_records > 2);
        free(there);
        fail_along(&asking[i], "server");
    }
    assert_int_equal(faults, 0);
}

static void what_is_carried_over_is_whole(void **state)
{
    (void)state;
    assert_all_taken_well(changing, sizeof changing / sizeof *changing);
}

static void what_is_read_is_all_of_it_or_it_is_said(void **state)
{
    (void)state;
    filled();
    assert_all_taken_well(reading, sizeof reading / sizeof *reading);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_said_in_a_call_is_kept),
        cmocka_unit_test(what_is_carried_over_is_whole),
        cmocka_unit_test(what_is_read_is_all_of_it_or_it_is_said),
    };
    if (!db_is_built_in() || !database_start()) return skip_all_since(NEEDS_DATABASE);
    setenv("D", database_address("writer"), 1);
    make_kept();
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    database_end();
    return failed;
}
#else
int main(void)
{
    return skip_all_since(
        "a server that is lost: this build has nothing to put before the C library");
}
#endif
