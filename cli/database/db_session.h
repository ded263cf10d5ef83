/* A session with a PostgreSQL server: statements with parameters, transactions that are done again,
 * and what others tell. It knows nothing of cases. Who built the program without libpq gets a word
 * what to install, and EXIT_NO_FILE.
 *
 * An address is a URI, postgresql://HOST/DATABASE?..., as libpq reads it. A password in it is
 * refused, since all on a machine see each other's command lines: libpq has a file for it
 * (PGPASSFILE), and one for whole services (PGSERVICEFILE). */
#ifndef TT_CLI_DB_SESSION_H
#define TT_CLI_DB_SESSION_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"
#include "host/exits.h"

typedef struct db_session db_session;
typedef struct db_rows db_rows;

/* How a statement or a transaction ended. */
typedef enum db_end {
    DB_DONE,
    DB_AWAY,  /* the server, or the way to it; whether a transaction was done can't be known */
    DB_AGAIN, /* it got in another's way: nothing of the transaction was done */
    DB_TAKEN, /* a value that may be there once was there */
    DB_NOT_ALLOWED, /* the role has no right to it */
    DB_NO_TABLES,   /* or not those that are asked for */
    DB_WRONG,       /* anything else: db_why says it */
} db_end;

bool db_is_address(const char *text);
bool db_is_built_in(void); /* libpq is known to this program, and on this machine */

/* ---- opening ---- */

/* Says what went wrong; EXIT_AWAY: it can't be reached. One that could not be reached a moment ago
 * is not said again, and not waited for again if that took long. */
exit_status db_open(const char *address, db_session **out);
/* Another way to the same server, after DB_AWAY: one that is just starting is waited for. DB_DONE,
 * or DB_AWAY. */
db_end db_open_again(db_session *s);
/* What was listened to and held is let go. The way stays open for whoever opens the same address
 * next; null is fine. */
void db_close(db_session *s);

/* ---- statements ---- */

typedef struct db_value {
    const char *p; /* null: no value */
    size_t n;
    bool bytes; /* as they are; else a text */
} db_value;
db_value db_text(const char *text); /* null: no value */
db_value db_bytes(str bytes);
db_value db_number(arena *keep, int64_t number);

/* Values are only ever parameters: $1, $2 ... Each column must come as a text or as bytes. *rows
 * may be null; else it is freed by db_free, and null if it did not end well. */
db_end db_run(db_session *s, const char *sql, const db_value *values, size_t count, db_rows **rows);
size_t db_count(const db_rows *rows);
/* NUL-ended; lives as long as the rows */
str db_cell(const db_rows *rows, size_t row, size_t column);
const char *db_cell_text(const db_rows *rows, size_t row, size_t column);
/* one that is none counts as 0 */
uint64_t db_cell_number(const db_rows *rows, size_t row, size_t column);
void db_free(db_rows *rows);

/* What the last that did not end well said; never a password. */
const char *db_why(const db_session *s);
/* Says it, of what was wanted ("the case can't be read"), and gives the status for it. */
exit_status db_say(const db_session *s, db_end end, const char *what);

/* Between BEGIN and COMMIT; once more where it got in another's way. What `work` returns ends it.
 */
typedef db_end db_work(void *context, db_session *s);
db_end db_transact(db_session *s, db_work *work, void *context);

/* ---- what others tell ---- */

int db_descriptor(const db_session *s); /* readable when something came; -1: the way is lost */
/* Whether another session has told this very word on what this one listens to, since the last call;
 * cheap. */
bool db_heard(db_session *s, const char *word);

#endif
