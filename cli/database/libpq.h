/* libpq, taken in when it is first needed: with all that it needs itself it takes the system four
 * times as long to start as the rest of the program, and most calls need no database. The two files
 * here that include this are the only ones that see it. */
#ifndef TT_CLI_LIBPQ_H
#define TT_CLI_LIBPQ_H

#include "host/exits.h"

#ifdef TELLTALE_HAS_LIBPQ

#include <libpq-fe.h>

#define LIBPQ_CALLS(X) \
    X(PQbackendPID) \
    X(PQclear) \
    X(PQconnectdbParams) \
    X(PQconninfoFree) \
    X(PQconninfoParse) \
    X(PQconsumeInput) \
    X(PQerrorMessage) \
    X(PQexec) \
    X(PQexecParams) \
    X(PQfinish) \
    X(PQfreemem) \
    X(PQgetlength) \
    X(PQgetvalue) \
    X(PQnfields) \
    X(PQnotifies) \
    X(PQntuples) \
    X(PQpingParams) \
    X(PQresultErrorField) \
    X(PQresultStatus) \
    X(PQsetNoticeReceiver) \
    X(PQsocket) \
    X(PQstatus) \
    X(PQtransactionStatus)

#define LIBPQ_CALL(name) __typeof__(name) *name;
typedef struct libpq {
    LIBPQ_CALLS(LIBPQ_CALL)
} libpq;
#undef LIBPQ_CALL

/* Null: it is not on this machine, or lacks a function. */
const libpq *pq(void);
/* Says so, and what to install: EXIT_NO_FILE. */
exit_status libpq_say_absent(void);

#endif

#endif
