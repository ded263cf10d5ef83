/* What was acknowledged is there: in a database with many writers at once, cut in mid-record, got
 * in each other's way, killed. TELLTALE_KILLS: how often the server is killed (left out: 3). */
#include "case_bench.h"

#include <errno.h>

#include "cases/case_depot.h"
#include "cases/case_file.h"
#include "database/db_session.h"
#include "database_kit.h"
#include "depots/refuge.h"

/* A new case in the database, with nothing in it; freed by the caller. */
static char *new_place(void)
{
    case_name name;
    const char *place;
    arena *keep = host_arena();
    const char *address = database_address("writer");
    assert_int_equal(database_depot.name(keep, address, NULL, &name), EXIT_DONE);
    assert_int_equal(database_depot.make(keep, address, name.id, &place), EXIT_DONE);
    char *kept = strdup(place);
    arena_free(keep);
    return kept;
}

/* The number of rows that hold a record of it, and the summary's. */
static void check_rows(const char *place, size_t count)
{
    char sql[512], wanted[64];
    snprintf(sql, sizeof sql,
             "SELECT count(*), count(DISTINCT (writer, number)), (SELECT records FROM "
             "telltale.cases WHERE id = '%s')"
             " FROM telltale.records WHERE case_id = '%s'",
             strrchr(place, '/') + 1, strrchr(place, '/') + 1);
    snprintf(wanted, sizeof wanted, "%zu|%zu|%zu", count, count, count);
    char *got = database_sql(sql);
    assert_string_equal(got, wanted);
    free(got);
}

/* So many acknowledgements, the last of them; less if the writer ended before. */
static long acknowledged(int acks, int count)
{
    long last = -1, n;
    while (count-- > 0 && read(acks, &n, sizeof n) == (ssize_t)sizeof n) last = n;
    return last;
}

/* Each writer's numbers from its first on, without a gap. All have the case open to the end: a name
 * that is given back may be taken by the next. */
static void add_by_many(const char *place, int writers, int each)
{
    pid_t pids[64];
    int acks[64], status;
    assert_true(writers <= 64);
    for (int i = 0; i < writers; i++)
        pids[i] = start_one(
            &(numbers){.folder = place, .first = 1000 * i, .most = each, .stays = true}, &acks[i]);
    for (int i = 0; i < writers; i++)
        assert_int_equal(acknowledged(acks[i], each), 1000 * i + each - 1);
    for (int i = 0; i < writers; i++) {
        assert_int_equal(kill(pids[i], SIGKILL), 0);
        assert_int_equal(waitpid(pids[i], &status, 0), pids[i]);
        close(acks[i]);
    }
    bench *b = read_case(place);
    if (lines_said() > 0) print_message("%s", text_of_file("err", &(size_t){0}));
    assert_int_equal(lines_said(), 0);
    assert_int_equal(b->count, writers * each);
    assert_int_equal(case_store_writers(b->store), writers);
    long next[64] = {0};
    for (size_t i = 0; i < b->count; i++) {
        const long n = number_at(b, i);
        assert_int_equal(n % 1000, next[n / 1000]++);
    }
    close_bench(b);
    check_rows(place, (size_t)(writers * each));
}

static void fifty_writers_lose_and_double_nothing(void **state)
{
    (void)state;
    char *place = new_place();
    add_by_many(place, 50, 6);
    free(place);
}

/* With all transactions as if one came after the other, the server refuses many: each is done
 * again. */
static void what_gets_in_anothers_way_is_done_again(void **state)
{
    (void)state;
    free(database_sql(
        "ALTER DATABASE postgres SET default_transaction_isolation TO 'serializable'"));
    char *place = new_place();
    add_by_many(place, 20, 6);
    free(place);
    free(database_sql("ALTER DATABASE postgres RESET default_transaction_isolation"));
}

/* Between a record and its COMMIT, at every second one. */
static void set_trap(const char *what)
{
    char sql[1024];
    snprintf(sql, sizeof sql,
             "CREATE SEQUENCE telltale.trap; GRANT USAGE ON telltale.trap TO telltale_writer;"
             " CREATE FUNCTION telltale.spring() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER "
             "AS $$ BEGIN"
             " IF nextval('telltale.trap') %% 2 = 0 THEN %s; END IF; RETURN NEW; END $$;"
             " CREATE TRIGGER trap BEFORE UPDATE ON telltale.cases FOR EACH ROW EXECUTE FUNCTION "
             "telltale.spring()",
             what);
    free(database_sql(sql));
}

static void take_trap_away(void)
{
    char *sprung = database_sql("SELECT last_value > 10 FROM telltale.trap");
    assert_string_equal(sprung, "t");
    free(sprung);
    free(database_sql("DROP TRIGGER trap ON telltale.cases; DROP FUNCTION telltale.spring; DROP "
                      "SEQUENCE telltale.trap"));
}

static void cut_in_mid_record_it_is_kept_once(void **state)
{
    (void)state;
    char *place = new_place();
    set_trap("PERFORM pg_terminate_backend(pg_backend_pid())");
    add_by_many(place, 1, 10);
    take_trap_away();
    free(place);
}

static void refused_in_mid_record_it_is_kept_once(void **state)
{
    (void)state;
    char *place = new_place();
    set_trap("RAISE EXCEPTION 'another came first' USING ERRCODE = '40001'");
    add_by_many(place, 1, 10);
    take_trap_away();
    free(place);
}

/* ---- killed ---- */

static long kills(void)
{
    const char *said = getenv("TELLTALE_KILLS");
    return said != NULL ? strtol(said, NULL, 10) : 3;
}

static void await_acks(int acks, int count)
{
    long n;
    for (int i = 0; i < count; i++) assert_int_equal(read(acks, &n, sizeof n), sizeof n);
}

/* The server goes down in the middle of a call and comes back at once, or when the call is over: by
 * then the rest of it waits on this machine. */
static void kill_in_mid_call(const char *place, long first, bool soon)
{
    int acks, status;
    size_t carried;
    enum { EACH = 12 };
    const pid_t pid = start_writer(place, first, EACH, &acks);
    await_acks(acks, (int)(first / EACH % (EACH - 2)) + 1);
    database_kill();
    if (soon) database_again();
    assert_int_equal(last_acknowledged(acks), first + EACH - 1);
    assert_int_equal(waitpid(pid, &status, 0), pid);
    assert_int_equal(status, 0);
    if (!soon) database_again();
    assert_int_equal(refuge_empty(database_address("writer"), &carried), EXIT_DONE);
    assert_int_equal(refuge_count(database_address("writer")), 0);
    bench *b = read_case(place);
    assert_int_equal(b->count, first + EACH);
    for (size_t i = 0; i < b->count; i++) assert_int_equal(number_at(b, i), i);
    close_bench(b);
}

static void killed_in_mid_call_nothing_acknowledged_is_lost(void **state)
{
    (void)state;
    char *place = new_place();
    for (long i = 0; i < kills(); i++) kill_in_mid_call(place, 12 * i, i % 2 == 0);
    free(place);
}

/* Somebody else has our file there: a child that holds the lock on it until it is killed. */
static pid_t hold_in_refuge(const bench *b)
{
    int ready[2];
    char byte;
    const char *place;
    arena *keep = host_arena();
    const char *root = refuge_root(keep, database_address("writer"));
    assert_int_equal(case_place_for(keep, root, case_store_id(b->store), &place), EXIT_DONE);
    const char *path = arena_text(keep, "%s/%s.jsonl", place, case_store_writer(b->store));
    assert_int_equal(pipe(ready), 0);
    const pid_t pid = fork();
    if (pid == 0) {
        struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
        const int fd = open(path, O_RDWR | O_CREAT | O_CLOEXEC, 0600);
        prctl(PR_SET_PDEATHSIG, SIGKILL);
        if (fcntl(fd, F_SETLK, &whole) != 0 || write(ready[1], "x", 1) != 1) _exit(1);
        while (true) pause();
    }
    close(ready[1]);
    assert_int_equal(read(ready[0], &byte, 1), 1);
    close(ready[0]);
    arena_free(keep);
    return pid;
}

/* Neither the server nor this machine can take it: it is said each time, and nothing is lost. */
static void what_nobody_can_take_waits_for_whoever_can(void **state)
{
    (void)state;
    int status;
    size_t carried;
    bench *b;
    const char *why;
    char *place = new_place();
    assert_int_equal(open_case(place, &b), EXIT_DONE);
    assert_true(add_number(b, 0));
    const pid_t holder = hold_in_refuge(b);
    database_kill();
    const int before = catch_complaints();
    long n = 1;
    while (add_number_or(b, n, &why)) n++; /* its own process hears of it a little later */
    for (int i = 0; i < 2; i++) {
        assert_non_null(strstr(why, "the database can't be reached"));
        assert_false(add_number_or(b, ++n, &why));
    }
    assert_int_equal(case_store_unkept(b->store), 3);
    assert_int_equal(kill(holder, SIGKILL), 0);
    assert_int_equal(waitpid(holder, &status, 0), holder);
    assert_true(add_number(b, ++n));
    assert_int_equal(case_store_unkept(b->store), 0);
    hear_again(before);
    close_bench(b);
    database_again();
    assert_int_equal(refuge_empty(database_address("writer"), &carried), EXIT_DONE);
    b = read_case(place);
    assert_int_equal(b->count, n + 1);
    for (size_t i = 0; i < b->count; i++) assert_int_equal(number_at(b, i), i);
    close_bench(b);
    free(place);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fifty_writers_lose_and_double_nothing),
        cmocka_unit_test(what_gets_in_anothers_way_is_done_again),
        cmocka_unit_test(cut_in_mid_record_it_is_kept_once),
        cmocka_unit_test(refused_in_mid_record_it_is_kept_once),
        cmocka_unit_test(killed_in_mid_call_nothing_acknowledged_is_lost),
        cmocka_unit_test(what_nobody_can_take_waits_for_whoever_can),
    };
    if (!db_is_built_in() || !database_start()) return skip_all_since(NEEDS_DATABASE);
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    database_end();
    return failed;
}
