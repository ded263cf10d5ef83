/* Where a case goes while its database is away: a folder of this user's own, one for each database.
 * It is a folder of cases like any other; what lies in it is offered to be carried over once the
 * database is back. */
#ifndef TT_CLI_REFUGE_H
#define TT_CLI_REFUGE_H

#include "base/arena.h"
#include "cases/case_store.h"

/* Null: there is no place for it. */
const char *refuge_root(arena *keep, const char *address);
/* Whether lines of this writer wait there. */
bool refuge_holds(arena *keep, const char *address, const char *id, const char *writer);
/* How many cases wait there. */
size_t refuge_count(const char *address);
/* Carries all of them over; what has come over whole is gone from there. Says what went wrong. */
exit_status refuge_empty(const char *address, size_t *carried);

/* A case that is open in a database goes on in the refuge, with all that is known of it; `why` it
 * must, is said. False: it can't. */
bool refuge_take(case_store *s, const char *why);

#endif
