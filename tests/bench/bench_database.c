/* A database with many cases, and how long `telltale cases` takes beside a bare query over the same
 * rows: bench_database 1000000 A thousand cases are made and carried over; the rest are copies of
 * their rows under other names, made by the database. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "database_kit.h"

enum { CARRIED = 1000 };

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static double run(const char *command)
{
    const double from = now();
    if (system(command) != 0) exit(1);
    return now() - from;
}

static double asked(const char *sql)
{
    const double from = now();
    free(database_sql(sql));
    return now() - from;
}

/* The second time, when what is on the disk was read once. */
static void compare(const char *options, const char *sql)
{
    char command[512];
    snprintf(command, sizeof command, "$T cases $D %s >/dev/null", options);
    run(command);
    const double ours = run(command);
    asked(sql);
    const double bare = asked(sql);
    printf("%-34s %8.3f s, %6.2f of  %s (%.3f s)\n", options, ours, ours / bare, sql, bare);
    fflush(stdout);
}

static void multiply(unsigned long wanted)
{
    char sql[2048];
    snprintf(
        sql, sizeof sql,
        "CREATE TEMP TABLE one AS SELECT * FROM telltale.cases;"
        " CREATE TEMP TABLE many AS SELECT one.* FROM one, generate_series(1, %lu);"
        " CREATE SEQUENCE numbers;"
        " UPDATE many SET id = gen_random_uuid(), digits = lpad(nextval('numbers')::text, 12, '0');"
        " UPDATE many SET number = digits || 'A';"
        " INSERT INTO telltale.cases SELECT * FROM many; ANALYZE telltale.cases",
        wanted / CARRIED - 1);
    free(database_sql(sql));
}

int main(int argc, char **argv)
{
    const unsigned long wanted = argc == 2 ? strtoul(argv[1], NULL, 10) : 0;
    if (wanted < 2 * CARRIED || !database_start()) {
        fputs("bench_database NUMBER, from 2000; it needs postgresql\n", stderr);
        return 2;
    }
    setenv("T", TT_PROGRAM, 1);
    setenv("D", database_address("owner"), 1);
    run("rm -rf bench-cases && $(dirname $T)/../tests/bench_many_cases bench-cases 1000");
    printf("carrying 1000 cases over: %.1f s\n", run("$T cases bench-cases --copy-to $D"));
    multiply(wanted);
    compare("--count", "SELECT state, count(*) FROM telltale.cases GROUP BY state");
    compare("--limit 20", "SELECT state, count(*) FROM telltale.cases GROUP BY state");
    compare("--json --limit 20", "SELECT * FROM telltale.cases ORDER BY id DESC LIMIT 20");
    compare("--json --limit 20 --sort moved",
            "SELECT * FROM telltale.cases ORDER BY last_moment DESC LIMIT 20");
    compare("--json --state open --for east",
            "SELECT * FROM telltale.cases WHERE state = 'open' AND to_words LIKE '%east%'");
    compare("--json --limit 20 --text 'number 77'",
            "SELECT count(*) FROM telltale.cases WHERE words LIKE '%number 77%'");
    compare(
        "--by month",
        "SELECT left(began, 7), site, cause_name, count(*) FROM telltale.cases GROUP BY 1, 2, 3");
    database_end();
    return 0;
}
