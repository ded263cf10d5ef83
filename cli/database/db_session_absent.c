/* In the place of db_session.c where libpq is not there: nothing can be opened, so nothing else is
 * ever called. */
#include "database/db_session.h"

#include <assert.h>

#include "host/screen.h"

#ifndef TELLTALE_HAS_LIBPQ

static void not_built_in(void)
{
    complain("this program was built without libpq, so it can't keep cases in a database. Install "
             "libpq-dev (Debian's name for it), "
             "and build it again");
}

bool db_is_built_in(void)
{
    return false;
}

exit_status db_open(const char *address, db_session **out)
{
    (void)address;
    *out = NULL;
    not_built_in();
    return EXIT_NO_FILE;
}

db_end db_open_again(db_session *s)
{
    (void)s;
    return DB_AWAY;
}

void db_close(db_session *s)
{
    assert(s == NULL);
    (void)s;
}

db_end db_run(db_session *s, const char *sql, const db_value *values, size_t count, db_rows **rows)
{
    (void)s, (void)sql, (void)values, (void)count, (void)rows;
    return DB_AWAY;
}

size_t db_count(const db_rows *rows)
{
    (void)rows;
    return 0;
}

str db_cell(const db_rows *rows, size_t row, size_t column)
{
    (void)rows, (void)row, (void)column;
    return (str){"", 0};
}

void db_free(db_rows *rows)
{
    (void)rows;
}

const char *db_why(const db_session *s)
{
    (void)s;
    return "";
}

exit_status db_say(const db_session *s, db_end end, const char *what)
{
    (void)s, (void)end, (void)what;
    not_built_in();
    return EXIT_NO_FILE;
}

db_end db_transact(db_session *s, db_work *work, void *context)
{
    (void)s, (void)work, (void)context;
    return DB_AWAY;
}

int db_descriptor(const db_session *s)
{
    (void)s;
    return -1;
}

bool db_heard(db_session *s, const char *word)
{
    (void)s, (void)word;
    return false;
}

#endif
