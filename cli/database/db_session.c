/* Sessions by libpq: each of its functions through pq(). */
#include "database/db_session.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <time.h>
#include <unistd.h>

#include "database/libpq.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"

bool db_is_address(const char *text)
{
    return strncmp(text, "postgresql://", 13) == 0 || strncmp(text, "postgres://", 11) == 0;
}

db_value db_text(const char *text)
{
    return (db_value){text, text != NULL ? strlen(text) : 0, false};
}

db_value db_bytes(str bytes)
{
    return (db_value){bytes.p != NULL ? bytes.p : "", bytes.n, true};
}

db_value db_number(arena *keep, int64_t number)
{
    return db_text(arena_text(keep, "%lld", (long long)number));
}

const char *db_cell_text(const db_rows *rows, size_t row, size_t column)
{
    return db_cell(rows, row, column).p;
}

uint64_t db_cell_number(const db_rows *rows, size_t row, size_t column)
{
    return strtoull(db_cell_text(rows, row, column), NULL, 10);
}

#ifdef TELLTALE_HAS_LIBPQ

enum { MOST_VALUES = 24, TRIES = 2000, WAITS = 100, WAIT_MILLISECONDS = 100, NOT_ASKED_AGAIN = 3 };

bool db_is_built_in(void)
{
    return pq() != NULL;
}

struct db_session {
    char *address, *why;
    PGconn *way;
    pid_t owner; /* a process that was forked has its own ways */
};

/* The way that was let go last, for whoever wants the same one next: a list of many cases opens
 * each of them. And the address that could not be reached, so that a person waits for it once. A
 * program has one of each; what is in them decides nothing. */
static struct {
    db_session *idle;
    char *away;
    time_t since;
    bool slow; /* to be found away took long enough to be felt */
} last;

/* ---- what went wrong ---- */

static void note_why(db_session *s, const char *said)
{
    char *clean = clean_text(said), *line = trim_text(clean);
    for (char *c = line; *c != 0; c++)
        if (*c == '\n') *c = ' ';
    free(clean);
    free(s->why);
    s->why = line;
}

/* By the classes of SQLSTATE (ISO/IEC 9075-2, and PostgreSQL's manual, appendix A). */
static db_end end_of_state(const char *state)
{
    static const struct {
        const char *begins;
        db_end end;
    } known[] = {{"08", DB_AWAY},         {"57P", DB_AWAY},          {"40", DB_AGAIN},
                 {"23505", DB_TAKEN},     {"42501", DB_NOT_ALLOWED}, {"42P01", DB_NO_TABLES},
                 {"3F000", DB_NO_TABLES}, {"42703", DB_NO_TABLES}};
    for (size_t i = 0; state != NULL && i < sizeof known / sizeof known[0]; i++)
        if (strncmp(state, known[i].begins, strlen(known[i].begins)) == 0) return known[i].end;
    return DB_WRONG;
}

static db_end note_end(db_session *s, const PGresult *result)
{
    const ExecStatusType status = pq()->PQresultStatus(result);
    if (status == PGRES_COMMAND_OK || status == PGRES_TUPLES_OK) return DB_DONE;
    const char *said =
        result != NULL ? pq()->PQresultErrorField(result, PG_DIAG_MESSAGE_PRIMARY) : NULL;
    note_why(s, said != NULL ? said : pq()->PQerrorMessage(s->way));
    if (pq()->PQstatus(s->way) == CONNECTION_BAD) return DB_AWAY;
    return end_of_state(result != NULL ? pq()->PQresultErrorField(result, PG_DIAG_SQLSTATE) : NULL);
}

const char *db_why(const db_session *s)
{
    return s->why;
}

exit_status db_say(const db_session *s, db_end end, const char *what)
{
    assert(end != DB_DONE);
    if (end == DB_NOT_ALLOWED)
        complain("%s: your role in the database has no right to it (%s)", what, s->why);
    else if (end == DB_NO_TABLES)
        complain("%s: there are no tables for cases in the database, or not those of this version. "
                 "Whoever keeps it makes them with cases.sql, "
                 "which comes with this program (%s)",
                 what, s->why);
    else if (end == DB_AWAY)
        complain("%s: the database can't be reached. %s", what, s->why);
    else
        complain("%s: %s", what, s->why);
    return end == DB_AWAY          ? EXIT_AWAY
           : end == DB_NOT_ALLOWED ? EXIT_NOT_ALLOWED
           : end == DB_NO_TABLES   ? EXIT_NO_FILE
                                   : EXIT_IO;
}

/* ---- the way to the server ---- */

/* What is wrong with an address, or null. It is not shown: there may be a password in it. */
static char *fault_of(const char *address)
{
    char *message = NULL, *fault = NULL;
    PQconninfoOption *all = pq()->PQconninfoParse(address, &message);
    if (all == NULL)
        fault = copy_text(
            "the address of the database can't be read. Write it like postgresql://HOST/DATABASE");
    for (PQconninfoOption *o = all; o != NULL && o->keyword != NULL && fault == NULL; o++)
        if (o->val != NULL && *o->dispchar == '*')
            fault = copy_text("there is a password in the address of the database, which others on "
                              "this machine can see. Take it out, "
                              "and put it into the file that PGPASSFILE names, or ~/.pgpass, for "
                              "you alone to read");
    pq()->PQconninfoFree(all);
    pq()->PQfreemem(message);
    return fault;
}

/* What is kept must be on the server's disk before it counts, whatever the server was told to be
 * content with. */
static bool prepare(db_session *s)
{
    PGresult *r =
        pq()->PQexec(s->way, "SET synchronous_commit TO on; SET client_min_messages TO warning");
    const bool fine = note_end(s, r) == DB_DONE;
    pq()->PQclear(r);
    return fine;
}

static void hear_no_notices(void *context, const PGresult *notice)
{
    (void)context;
    (void)notice;
}

/* A way that lets nothing through any more, and says nothing, counts as lost after some ten
 * seconds: with words underway by tcp_user_timeout (RFC 5482), else by asking again and again
 * whether anybody is there (RFC 9293, 3.8.4). What the address says of these comes last, and
 * counts. A server that is there and thinks may take as long as it likes. */
static const char *const keys[] = {
    "connect_timeout",  "keepalives_idle",  "keepalives_interval",
    "keepalives_count", "tcp_user_timeout", "fallback_application_name",
    "client_encoding",  "dbname",           NULL};

typedef struct key_values {
    const char *items[sizeof keys / sizeof keys[0]];
} key_values;

static key_values values_of_keys(const db_session *s)
{
    return (key_values){{"5", "5", "3", "2", "10000", "telltale", "UTF8", s->address, NULL}};
}

static bool connect_once(db_session *s)
{
    const key_values values = values_of_keys(s);
    pq()->PQfinish(s->way);
    s->way = pq()->PQconnectdbParams(keys, values.items, 1);
    if (s->way == NULL) memory_ended();
    pq()->PQsetNoticeReceiver(s->way, hear_no_notices, NULL);
    if (pq()->PQstatus(s->way) == CONNECTION_OK && prepare(s)) return true;
    note_why(s, pq()->PQerrorMessage(s->way));
    return false;
}

/* A server that was killed needs a moment to read its log. */
static bool is_starting(const db_session *s)
{
    const key_values values = values_of_keys(s);
    return pq()->PQpingParams(keys, values.items, 1) == PQPING_REJECT;
}

static bool connect_patiently(db_session *s)
{
    const struct timespec moment = {.tv_nsec = WAIT_MILLISECONDS * 1000000L};
    for (unsigned tries = 0; tries < WAITS; tries++) {
        if (connect_once(s)) return true;
        if (!is_starting(s)) return false;
        nanosleep(&moment, NULL);
    }
    return false;
}

static time_t seconds(void)
{
    struct timespec now = {.tv_sec = 0};
    clock_gettime(CLOCK_MONOTONIC, &now);
    return now.tv_sec;
}

static void note_away(const char *address, time_t asked)
{
    free(last.away);
    last.away = copy_text(address);
    last.since = seconds();
    last.slow = last.since - asked > 1;
}

static bool was_just_away(const char *address)
{
    return last.away != NULL && strcmp(last.away, address) == 0 &&
           seconds() - last.since <= NOT_ASKED_AGAIN;
}

static void end_session(db_session *s)
{
    if (s == NULL) return;
    if (s->owner == getpid()) pq()->PQfinish(s->way);
    free(s->address);
    free(s->why);
    free(s);
}

static db_session *take_idle(const char *address)
{
    db_session *s = last.idle;
    if (s == NULL || s->owner != getpid() || strcmp(s->address, address) != 0) return NULL;
    last.idle = NULL;
    PGresult *r = pq()->PQexec(s->way, "SELECT"); /* it may have been cut since */
    const bool alive = pq()->PQresultStatus(r) == PGRES_TUPLES_OK;
    pq()->PQclear(r);
    if (alive) return s;
    end_session(s);
    return NULL;
}

exit_status db_open(const char *address, db_session **out)
{
    *out = NULL;
    if (pq() == NULL) return libpq_say_absent();
    *out = take_idle(address);
    if (*out != NULL) return EXIT_DONE;
    const bool was_said = was_just_away(address);
    if (was_said && last.slow) return EXIT_AWAY;
    const time_t asked = seconds();
    char *fault = fault_of(address);
    if (fault != NULL) complain("%s", fault);
    free(fault);
    if (fault != NULL) return EXIT_USAGE;
    db_session *s = take_memory(sizeof *s);
    s->address = copy_text(address);
    s->why = copy_text("");
    s->owner = getpid();
    if (connect_patiently(s)) {
        *out = s;
        return EXIT_DONE;
    }
    if (!was_said) complain("the database can't be reached. %s", s->why);
    note_away(address, asked);
    end_session(s);
    return EXIT_AWAY;
}

db_end db_open_again(db_session *s)
{
    return connect_patiently(s) ? DB_DONE : DB_AWAY;
}

/* One that is not as it was when it was opened is no use to another. */
void db_close(db_session *s)
{
    if (s == NULL) return;
    PGresult *r =
        pq()->PQstatus(s->way) == CONNECTION_OK && pq()->PQtransactionStatus(s->way) == PQTRANS_IDLE
            ? pq()->PQexec(s->way, "UNLISTEN *; SELECT pg_advisory_unlock_all()")
            : NULL;
    const bool clean = r != NULL && pq()->PQresultStatus(r) == PGRES_TUPLES_OK;
    pq()->PQclear(r);
    db_session *old = clean ? last.idle : s;
    if (clean) last.idle = s;
    end_session(old);
}

/* ---- statements ---- */

struct db_rows {
    PGresult *result;
};

static PGresult *send(db_session *s, const char *sql, const db_value *values, size_t count)
{
    const char *texts[MOST_VALUES] = {NULL};
    int lengths[MOST_VALUES] = {0}, formats[MOST_VALUES] = {0};
    assert(count <= MOST_VALUES);
    for (size_t i = 0; i < count; i++) {
        texts[i] = values[i].p;
        lengths[i] = (int)values[i].n;
        formats[i] = values[i].bytes;
    }
    return pq()->PQexecParams(s->way, sql, (int)count, NULL, texts, lengths, formats, 1);
}

db_end db_run(db_session *s, const char *sql, const db_value *values, size_t count, db_rows **rows)
{
    PGresult *result = send(s, sql, values, count);
    const db_end end = note_end(s, result);
    if (rows != NULL) *rows = NULL;
    if (end == DB_DONE && rows != NULL) {
        *rows = take_memory(sizeof **rows);
        (*rows)->result = result;
    } else {
        pq()->PQclear(result);
    }
    return end;
}

size_t db_count(const db_rows *rows)
{
    return (size_t)pq()->PQntuples(rows->result);
}

str db_cell(const db_rows *rows, size_t row, size_t column)
{
    assert(row < db_count(rows) && column < (size_t)pq()->PQnfields(rows->result));
    return (str){pq()->PQgetvalue(rows->result, (int)row, (int)column),
                 (size_t)pq()->PQgetlength(rows->result, (int)row, (int)column)};
}

void db_free(db_rows *rows)
{
    if (rows == NULL) return;
    pq()->PQclear(rows->result);
    free(rows);
}

static db_end run_plain(db_session *s, const char *sql)
{
    return db_run(s, sql, NULL, 0, NULL);
}

/* A COMMIT that a server answers with ROLLBACK was none; one that it does not answer may have been
 * one. */
static db_end transact_once(db_session *s, db_work *work, void *context)
{
    db_end end = run_plain(s, "BEGIN");
    if (end == DB_DONE) end = work(context, s);
    if (end == DB_DONE) end = run_plain(s, "COMMIT");
    if (end == DB_DONE || end == DB_AWAY) return end;
    char *why = copy_text(s->why);
    const db_end back = run_plain(s, "ROLLBACK");
    note_why(s, back == DB_DONE ? why : s->why);
    free(why);
    return back == DB_AWAY ? DB_AWAY : end;
}

db_end db_transact(db_session *s, db_work *work, void *context)
{
    db_end end = DB_AGAIN;
    for (unsigned tries = 0; end == DB_AGAIN && tries < TRIES; tries++)
        end = transact_once(s, work, context);
    return end;
}

/* ---- what others tell ---- */

int db_descriptor(const db_session *s)
{
    return pq()->PQstatus(s->way) == CONNECTION_OK ? pq()->PQsocket(s->way) : -1;
}

bool db_heard(db_session *s, const char *word)
{
    bool heard = false;
    if (pq()->PQstatus(s->way) != CONNECTION_OK || pq()->PQconsumeInput(s->way) == 0) return false;
    for (PGnotify *told; (told = pq()->PQnotifies(s->way)) != NULL; pq()->PQfreemem(told))
        heard =
            heard || (told->be_pid != pq()->PQbackendPID(s->way) && strcmp(told->extra, word) == 0);
    return heard;
}

#endif
