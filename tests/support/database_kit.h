/* A PostgreSQL server of the test's own: on a socket in a folder of its own, under a user of its
 * own, with docs/cases.sql in it. It ends, and its folder goes, with the test, however that ends. A
 * test program begins with
 *
 *     if (!db_is_built_in() || !database_start()) return skip_all_since(NEEDS_DATABASE);
 */
#ifndef TT_SUPPORT_DATABASE_KIT_H
#define TT_SUPPORT_DATABASE_KIT_H

#include <stdbool.h>

#include "skips.h"

#define NEEDS_DATABASE \
    "no PostgreSQL server, or no libpq when this was built: postgresql, libpq-dev; " BY_EVERYTHING

/* False: there is none on this machine, or none may be started. */
bool database_start(void);
/* The same, and it is called over TCP at this address, such as "127.0.0.1"; by database_address,
 * too. */
bool database_start_at(const char *ip);
void database_end(void);

/* For a role: "owner" may do anything; "writer" and "reader" are logins of cases.sql's roles,
 * "stranger" is of none. */
const char *database_address(const char *role);
/* Where there is no server. */
const char *no_address(void);

/* kill -9, and nobody is told. */
void database_kill(void);
/* Again, as it is after that; waits until it takes calls. */
void database_again(void);

/* By psql, as the owner; what comes out, freed by the caller. Fails the test if it fails. */
char *database_sql(const char *sql);

#endif
