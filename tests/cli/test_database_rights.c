/* A database whose keeper has given less than is needed, or has taken something back: each time it
 * is said what can't be done, nothing is told as kept that isn't, and cases that can't be named
 * apart by six digits get more. */
#include "database/db_session.h"
#include "database_kit.h"
#include "run_telltale.h"
#include "telltale.h"

#define NO_RIGHT "your role in the database has no right to it"
#define BEGIN \
    "'{\"begin\":{\"case\":\"%s\",\"writer\":\"phone\",\"now\":\"2026-11-29T09:00:00Z\"}}' " \
    "'{\"choice\":\"no\"}' '{\"word\":\"stop\"}' | $T ask $WELL --json --practice --cases $D "

static int fresh(void **state)
{
    (void)state;
    free(database_sql("SET client_min_messages TO warning; TRUNCATE telltale.cases CASCADE"));
    setenv("D", database_address("writer"), 1);
    return sh("rm -rf back .local; $T cases kept --copy-to $D >copied 2>err");
}

static void make_kept(void)
{
    setenv("D", database_address("writer"), 1);
    assert_int_equal(sh("rm -rf kept; printf 'no\nno water\n' | $T ask $WELL --practice --plain "
                        "--cases kept --caller 'the night shift' >out 2>err"),
                     3);
    assert_int_equal(
        sh("$T cases kept --json | sed 's/.*\"case\":\"\\([^\"]*\\)\".*/\\1/' >number"), 0);
    char *number = contents("number");
    number[strcspn(number, "\n")] = 0;
    setenv("N", number, 1);
    free(number);
}

/* What was there before is there, byte for byte. */
static void assert_nothing_lost(void)
{
    assert_int_equal(sh("rm -rf back && $T cases $D --copy-to back >copied 2>err && "
                        "(cd kept && find . -name '*.jsonl') >names && "
                        "while read f; do cmp -n $(stat -c %%s kept/$f) kept/$f back/$f || exit 9; "
                        "done <names"),
                     0);
}

#define CALL "printf 'no\nno water\n' | $T ask $WELL --practice --plain --cases $D "

static void each_right_that_is_missing_is_told(void **state)
{
    static const struct {
        const char *right, *words; /* what is taken from a writer */
        int status;
        const char *said;
    } rows[] = {
        {"SELECT ON telltale.cases", "$T cases $D", 77, "the cases can't be listed: " NO_RIGHT},
        {"SELECT ON telltale.cases", "$T cases $D --json --case $N", 77, NO_RIGHT},
        {"SELECT ON telltale.cases", "$T cases $D --count", 77, NO_RIGHT},
        {"SELECT ON telltale.cases", "$T cases $D --by month", 77, NO_RIGHT},
        {"SELECT ON telltale.cases", "$T sheet $N --cases $D", 77,
         "the case can't be looked for: " NO_RIGHT},
        {"SELECT ON telltale.cases", "$T cases $D --copy-to gone", 74,
         "the cases can't be read: " NO_RIGHT},
        {"SELECT ON telltale.cases", "$T learn $WELL $D", 74, "the cases can't be read: " NO_RIGHT},
        {"SELECT ON telltale.cases", CALL, 77, "the case can't be kept: " NO_RIGHT},
        {"SELECT ON telltale.records", "$T sheet $N --cases $D", 77,
         "the case can't be read: " NO_RIGHT},
        {"SELECT ON telltale.records", "$T cases $D --copy-to gone", 77,
         "the case can't be read: " NO_RIGHT},
        {"SELECT ON telltale.records", CALL, 74, "permission denied for table records"},
        {"INSERT ON telltale.cases", CALL, 74, "permission denied for table cases"},
        {"INSERT ON telltale.records", CALL, 74, "permission denied for table records"},
        {"UPDATE ON telltale.cases", CALL, 74, "permission denied for table cases"},
        {"INSERT ON telltale.cases", "$T cases other --copy-to $D", 77,
         "the case can't be kept: " NO_RIGHT},
        {"INSERT ON telltale.records", "$T cases other --copy-to $D", 77,
         "the case can't be kept: " NO_RIGHT},
        {"SELECT ON telltale.records", "$T cases other --copy-to $D", 77, NO_RIGHT},
        {"SELECT ON telltale.contacts", "$T cases $D --contact", 77,
         "who called can't be read: " NO_RIGHT},
        {"SELECT ON telltale.contacts", "$T cases other --copy-to $D", 77,
         "who called can't be read: " NO_RIGHT},
        {"INSERT ON telltale.contacts", "$T cases other --copy-to $D", 77,
         "who called can't be kept: " NO_RIGHT},
        {"DELETE ON telltale.contacts", "$T cases $D --erase", 77,
         "who called can't be erased: " NO_RIGHT}};
    (void)state;
    assert_int_equal(sh("rm -rf other; printf 'no\nno water\n' | $T ask $WELL --practice --plain "
                        "--cases other --caller 'the day shift' >out 2>err"),
                     3);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char sql[160];
        snprintf(sql, sizeof sql, "REVOKE %s FROM telltale_writer", rows[i].right);
        free(database_sql(sql));
        const int status = sh("rm -rf gone\n%s >out 2>err", rows[i].words);
        snprintf(sql, sizeof sql, "GRANT %s TO telltale_writer", rows[i].right);
        free(database_sql(sql));
        if (status != rows[i].status)
            print_error("%s without %s: status %d, not %d\n", rows[i].words, rows[i].right, status,
                        rows[i].status);
        assert_holds("err", rows[i].said);
        assert_int_equal(status, rows[i].status);
        assert_nothing_lost();
    }
}

/* So many digits of another case are those of this id: from the last one on. */
static void share_digits(const char *with, const char *id, unsigned digits)
{
    char all[TT_CASE_NUMBER_SIZE], sql[256];
    tt_case_number(id, 12, all);
    all[12] = 0;
    for (unsigned i = 0; i < 12 - digits; i++) all[i] = all[i] == '9' ? '0' : (char)(all[i] + 1);
    snprintf(sql, sizeof sql, "UPDATE telltale.cases SET digits = '%s' WHERE id = '%s'", all, with);
    free(database_sql(sql));
}

/* A number has six digits, or nine or twelve if others that are there end alike; twelve are all
 * that an id has. */
static void cases_that_end_alike_get_longer_numbers(void **state)
{
    static const struct {
        const char *id;
        unsigned shared;
        const char *length;
    } rows[] = {{"019b1b48-9421-7e45-8172-00002235a41d", 5, "7"},
                {"019b1b48-9422-7e45-8172-00002235a41d", 6, "10"},
                {"019b1b48-9423-7e45-8172-00002235a41d", 9, "13"},
                {"019b1b48-9424-7e45-8172-00002235a41d", 12, "13"}};
    static const char first[] = "019b1b48-9420-7e45-8172-00002235a41d";
    (void)state;
    assert_int_equal(sh("printf '%%s\n' " BEGIN ">out 2>err", first), 3);
    assert_int_equal(sh("printf '%%s\n' " BEGIN ">out 2>err", first), 73);
    assert_holds("err", "There is a case 019b1b48-9420-7e45-8172-00002235a41d already");
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char sql[128];
        share_digits(first, rows[i].id, rows[i].shared);
        assert_int_equal(sh("printf '%%s\n' " BEGIN ">out 2>err", rows[i].id), 3);
        snprintf(sql, sizeof sql, "SELECT length(number) FROM telltale.cases WHERE id = '%s'",
                 rows[i].id);
        char *length = database_sql(sql);
        assert_string_equal(length, rows[i].length);
        free(length);
    }
    assert_nothing_lost();
}

/* A depot keeps what another program has written there, and gives it back as it is. */
static void lines_that_are_none_are_kept(void **state)
{
    (void)state;
    free(database_sql("INSERT INTO telltale.records (case_id, writer, number, data) SELECT id, "
                      "'eeee', 1, '\\x7b22' FROM telltale.cases; INSERT INTO telltale.records "
                      "(case_id, writer, number, data) SELECT id, 'ffff', 1, '' FROM "
                      "telltale.cases"));
    assert_int_equal(sh("$T sheet $N --cases $D >out 2>err"), 0);
    assert_holds("err", "left out");
    assert_int_equal(sh("printf 'stop\n' | $T ask --case $N --plain --cases $D >out 2>err"), 3);
    assert_int_equal(sh("$T cases $D --copy-to $D >out 2>err"), 0);
    assert_nothing_lost();
    assert_int_equal(sh("printf '{\"' >torn; cmp torn back/*/*/*/eeee.jsonl"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(each_right_that_is_missing_is_told, fresh),
        cmocka_unit_test_setup(cases_that_end_alike_get_longer_numbers, fresh),
        cmocka_unit_test_setup(lines_that_are_none_are_kept, fresh),
    };
    if (!db_is_built_in() || !database_start()) return skip_all_since(NEEDS_DATABASE);
    make_kept();
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    database_end();
    return failed;
}
