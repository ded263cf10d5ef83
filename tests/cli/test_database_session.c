/* Sessions with a database by themselves: how each statement and transaction ends, what is done
 * again, and a way that was lost. */
#include "database/db_session.h"

#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include "database_kit.h"
#include "run_telltale.h"
#include "test_sources.h"

static db_session *open_as(const char *role)
{
    db_session *s = NULL;
    assert_int_equal(db_open(database_address(role), &s), EXIT_DONE);
    assert_non_null(s);
    return s;
}

static db_end run(db_session *s, const char *sql)
{
    return db_run(s, sql, NULL, 0, NULL);
}

/* A way is used again, and its tables with it. */
static void table_anew(db_session *s)
{
    assert_int_equal(run(s, "DROP TABLE IF EXISTS once"), DB_DONE);
    assert_int_equal(run(s, "CREATE TEMP TABLE once (n int UNIQUE)"), DB_DONE);
}

static const char *first_text(arena *keep, db_session *s, const char *sql)
{
    db_rows *rows;
    assert_int_equal(db_run(s, sql, NULL, 0, &rows), DB_DONE);
    assert_int_equal(db_count(rows), 1);
    const char *text = str_copy(keep, db_cell(rows, 0, 0)).p;
    db_free(rows);
    return text;
}

static const char *pid_of(arena *keep, db_session *s)
{
    return first_text(keep, s, "SELECT pg_backend_pid()::text");
}

/* The server ends the session, and what is asked of it next finds it gone. */
static void cut(const char *pid)
{
    char sql[96];
    snprintf(sql, sizeof sql, "SELECT pg_terminate_backend(%s, 5000)", pid);
    free(database_sql(sql));
}

static void an_address_begins_with_its_scheme(void **state)
{
    (void)state;
    assert_true(db_is_address("postgresql://host/cases"));
    assert_true(db_is_address("postgres://"));
    assert_false(db_is_address("postgres:/host"));
    assert_false(db_is_address("cases/postgresql://"));
    assert_false(db_is_address(""));
}

static void an_address_that_is_none_is_refused(void **state)
{
    db_session *s;
    (void)state;
    assert_int_equal(db_open("postgresql://[half/cases", &s), EXIT_USAGE);
    assert_null(s);
    assert_int_equal(db_open("postgresql://x:hushhush@/cases", &s), EXIT_USAGE);
    assert_null(s);
}

/* Any bytes go in as parameters and come out; what is no number counts as 0. */
static void values_are_only_values(void **state)
{
    static const char odd[] = "a\0'; DROP TABLE x; --";
    db_rows *rows;
    (void)state;
    arena *keep = test_arena();
    db_session *s = open_as("owner");
    const db_value values[] = {db_bytes((str){odd, sizeof odd}), db_bytes((str){NULL, 0}),
                               db_text(NULL), db_text("'; --"), db_number(keep, -7)};
    assert_int_equal(db_run(s,
                            "SELECT $1::bytea, $2::bytea, coalesce($3::text, 'none'), $4::text, "
                            "($5::bigint + 49)::text",
                            values, 5, &rows),
                     DB_DONE);
    assert_int_equal(db_cell(rows, 0, 0).n, sizeof odd);
    assert_memory_equal(db_cell(rows, 0, 0).p, odd, sizeof odd);
    assert_int_equal(db_cell(rows, 0, 1).n, 0);
    assert_string_equal(db_cell_text(rows, 0, 2), "none");
    assert_string_equal(db_cell_text(rows, 0, 3), "'; --");
    assert_int_equal(db_cell_number(rows, 0, 4), 42);
    assert_int_equal(db_cell_number(rows, 0, 3), 0);
    db_free(rows);
    db_free(NULL);
    db_close(s);
    arena_free(keep);
}

/* Each end, what the program says of it, and its exit status. */
static void each_end_is_told_apart(void **state)
{
    static const struct {
        const char *sql;
        db_end end;
        exit_status status;
    } rows[] = {
        {"SELECT 1 FROM telltale.no_such", DB_NO_TABLES, EXIT_NO_FILE},
        {"SELECT no_such FROM telltale.cases", DB_NO_TABLES, EXIT_NO_FILE},
        {"SELECT no_such.f(1)", DB_NO_TABLES, EXIT_NO_FILE},
        {"INSERT INTO once VALUES (1), (1)", DB_TAKEN, EXIT_IO},
        {"DO $$ BEGIN RAISE EXCEPTION 'again' USING ERRCODE = '40001'; END $$", DB_AGAIN, EXIT_IO},
        {"DO $$ BEGIN RAISE EXCEPTION 'going' USING ERRCODE = '57P01'; END $$", DB_AWAY, EXIT_AWAY},
        {"DO $$ BEGIN RAISE EXCEPTION 'lost' USING ERRCODE = '08006'; END $$", DB_AWAY, EXIT_AWAY},
        {"SELECT 1/0", DB_WRONG, EXIT_IO},
        {"SELEC", DB_WRONG, EXIT_IO},
    };
    (void)state;
    db_session *s = open_as("owner");
    table_anew(s);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        db_rows *none = (db_rows *)1;
        assert_int_equal(db_run(s, rows[i].sql, NULL, 0, &none), rows[i].end);
        assert_null(none);
        assert_true(strlen(db_why(s)) > 0);
        assert_null(strchr(db_why(s), '\n'));
        assert_int_equal(db_say(s, rows[i].end, "it can't be done"), rows[i].status);
    }
    db_close(s);
    s = open_as("stranger");
    assert_int_equal(run(s, "SELECT 1 FROM telltale.cases"), DB_NOT_ALLOWED);
    assert_int_equal(db_say(s, DB_NOT_ALLOWED, "it can't be done"), EXIT_NOT_ALLOWED);
    db_close(s);
}

/* ---- transactions ---- */

typedef struct work {
    unsigned done, again; /* how often it is to be done again */
    const char *sql, *cut;
    db_end end;
} work;

static db_end do_work(void *context, db_session *s)
{
    work *w = context;
    assert_int_equal(run(s, "INSERT INTO once VALUES (7)"), DB_DONE);
    if (w->cut != NULL) cut(w->cut);
    if (w->done++ < w->again) return DB_AGAIN;
    return w->sql != NULL ? run(s, w->sql) : w->end;
}

static void a_transaction_is_done_whole_or_not_at_all(void **state)
{
    (void)state;
    arena *keep = test_arena();
    db_session *s = open_as("owner");
    table_anew(s);

    work bad = {.sql = "SELECT 1/0"};
    assert_int_equal(db_transact(s, do_work, &bad), DB_WRONG);
    assert_non_null(strstr(db_why(s), "zero")); /* and not what ROLLBACK said */
    assert_string_equal(first_text(keep, s, "SELECT count(*)::text FROM once"), "0");

    work refused = {.end = DB_NOT_ALLOWED};
    assert_int_equal(db_transact(s, do_work, &refused), DB_NOT_ALLOWED);
    assert_string_equal(first_text(keep, s, "SELECT count(*)::text FROM once"), "0");

    work thrice = {.again = 2};
    assert_int_equal(db_transact(s, do_work, &thrice), DB_DONE);
    assert_int_equal(thrice.done, 3);
    assert_string_equal(first_text(keep, s, "SELECT count(*)::text FROM once"), "1");
    db_close(s);
    arena_free(keep);
}

/* Others in the way for ever: it ends, and nothing of it is there. */
static void in_the_way_for_ever_ends(void **state)
{
    (void)state;
    arena *keep = test_arena();
    db_session *s = open_as("owner");
    table_anew(s);
    work never = {.again = UINT32_MAX};
    assert_int_equal(db_transact(s, do_work, &never), DB_AGAIN);
    assert_true(never.done > 1000);
    assert_string_equal(first_text(keep, s, "SELECT count(*)::text FROM once"), "0");
    db_close(s);
    arena_free(keep);
}

/* Whether it is found at a statement, or only when it is taken back. */
static void cut_in_a_transaction_it_is_away(void **state)
{
    (void)state;
    arena *keep = test_arena();
    for (int late = 0; late < 2; late++) {
        db_session *s = open_as("owner");
        table_anew(s);
        work lost = {.cut = pid_of(keep, s), .sql = late == 0 ? "SELECT 1" : NULL, .end = DB_WRONG};
        assert_int_equal(db_transact(s, do_work, &lost), DB_AWAY);
        assert_int_equal(db_descriptor(s), -1);
        assert_int_equal(db_open_again(s), DB_DONE);
        assert_true(db_descriptor(s) >= 0);
        assert_int_equal(run(s, "SELECT 1"), DB_DONE);
        db_close(s);
    }
    arena_free(keep);
}

/* ---- a way that is let go ---- */

static void a_way_that_is_let_go_is_used_again(void **state)
{
    (void)state;
    arena *keep = test_arena();
    db_session *s = open_as("owner");
    const char *pid = pid_of(keep, s);
    assert_int_equal(run(s, "LISTEN things; SELECT 1"), DB_WRONG); /* one statement at a time */
    assert_int_equal(run(s, "SELECT pg_advisory_lock(7)::text"), DB_DONE);
    db_close(s);
    char *held = database_sql("SELECT count(*) FROM pg_locks WHERE locktype = 'advisory'");
    assert_string_equal(held, "0"); /* what was held is let go */
    free(held);

    db_session *other = open_as("reader"); /* another address: another way */
    assert_string_not_equal(pid_of(keep, other), pid);
    s = open_as("owner");
    assert_string_equal(pid_of(keep, s), pid);
    db_close(s);
    db_close(other); /* and now this is the one that waits */
    s = open_as("owner");
    assert_string_not_equal(pid_of(keep, s), pid);
    db_close(s);
    db_close(NULL);
    arena_free(keep);
}

static void a_way_that_is_not_as_it_was_is_not_used_again(void **state)
{
    (void)state;
    arena *keep = test_arena();
    db_session *s = open_as("owner");
    const char *pid = pid_of(keep, s);
    assert_int_equal(run(s, "BEGIN"), DB_DONE);
    db_close(s); /* in the middle of a transaction */
    s = open_as("owner");
    assert_string_not_equal(pid_of(keep, s), pid);
    pid = pid_of(keep, s);
    cut(pid);
    db_close(s); /* lost, and not known to be */
    s = open_as("owner");
    assert_string_not_equal(pid_of(keep, s), pid);
    pid = pid_of(keep, s);
    db_close(s);
    cut(pid); /* lost while it waited */
    s = open_as("owner");
    assert_string_not_equal(pid_of(keep, s), pid);
    db_close(s);
    arena_free(keep);
}

/* A child that closes what it got from its parent leaves the parent's way alone. */
static void a_forked_process_has_its_own_ways(void **state)
{
    (void)state;
    arena *keep = test_arena();
    db_session *s = open_as("owner");
    const char *pid = pid_of(keep, s);
    db_close(s); /* it waits */
    const pid_t child = fork();
    if (child == 0) {
        db_session *own = NULL;
        const bool fine = db_open(database_address("owner"), &own) == EXIT_DONE &&
                          strcmp(pid_of(keep, own), pid) != 0;
        db_close(own);
        _exit(fine ? 0 : 1);
    }
    int ended = 0;
    assert_int_equal(waitpid(child, &ended, 0), child);
    assert_true(WIFEXITED(ended) && WEXITSTATUS(ended) == 0);
    s = open_as("owner");
    assert_string_equal(pid_of(keep, s), pid);
    db_close(s);
    arena_free(keep);
}

/* ---- what others tell ---- */

static void await_word(const db_session *s)
{
    struct pollfd heard = {.fd = db_descriptor(s), .events = POLLIN};
    assert_int_equal(poll(&heard, 1, -1), 1);
}

static void only_what_others_tell_is_heard(void **state)
{
    (void)state;
    db_session *east = open_as("owner"), *west = open_as("owner");
    assert_int_equal(run(east, "LISTEN things"), DB_DONE);
    assert_false(db_heard(east, "word"));
    assert_int_equal(run(east, "NOTIFY things, 'word'"), DB_DONE);
    assert_false(db_heard(east, "word")); /* its own */
    assert_int_equal(run(west, "NOTIFY things, 'another'"), DB_DONE);
    await_word(east);
    assert_false(db_heard(east, "word"));
    assert_int_equal(run(west, "NOTIFY things, 'word'"), DB_DONE);
    await_word(east);
    assert_true(db_heard(east, "word"));
    assert_false(db_heard(east, "word")); /* once */
    arena *keep = test_arena();
    cut(pid_of(keep, east));
    arena_free(keep);
    while (db_descriptor(east) >= 0) assert_false(db_heard(east, "word"));
    assert_false(db_heard(east, "word"));
    db_close(west);
    db_close(east);
}

/* ---- away ---- */

static void where_no_server_is_it_says_so(void **state)
{
    db_session *s;
    (void)state;
    assert_int_equal(db_open(no_address(), &s), EXIT_AWAY);
    assert_null(s);
    assert_int_equal(db_open(no_address(), &s), EXIT_AWAY); /* once more, and not said again */
    assert_null(s);
    s = open_as("owner"); /* another is not held to be away for that */
    db_close(s);
}

static void after_a_crash_it_is_found_again(void **state)
{
    (void)state;
    db_session *s = open_as("owner");
    database_kill();
    db_end end;
    do /* its own process hears of it a little later */
        end = run(s, "SELECT 1");
    while (end == DB_DONE);
    assert_int_equal(end, DB_AWAY);
    assert_int_equal(db_open_again(s), DB_AWAY);
    assert_int_equal(db_say(s, DB_AWAY, "it can't be done"), EXIT_AWAY);
    database_again();
    assert_int_equal(db_open_again(s), DB_DONE);
    assert_int_equal(run(s, "SELECT 1"), DB_DONE);
    db_close(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_address_begins_with_its_scheme),
        cmocka_unit_test(an_address_that_is_none_is_refused),
        cmocka_unit_test(values_are_only_values),
        cmocka_unit_test(each_end_is_told_apart),
        cmocka_unit_test(a_transaction_is_done_whole_or_not_at_all),
        cmocka_unit_test(in_the_way_for_ever_ends),
        cmocka_unit_test(cut_in_a_transaction_it_is_away),
        cmocka_unit_test(a_way_that_is_let_go_is_used_again),
        cmocka_unit_test(a_way_that_is_not_as_it_was_is_not_used_again),
        cmocka_unit_test(a_forked_process_has_its_own_ways),
        cmocka_unit_test(only_what_others_tell_is_heard),
        cmocka_unit_test(where_no_server_is_it_says_so),
        cmocka_unit_test(after_a_crash_it_is_found_again),
    };
    if (!db_is_built_in() || !database_start()) return skip_all_since(NEEDS_DATABASE);
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    database_end();
    return failed;
}
