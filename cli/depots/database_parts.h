/* What the files of the database as a depot share: database_depot.c finds and names cases and is
 * the table, database_case.c reads and keeps one, database_rows.c are the rows, database_list.c
 * lists and counts, database_whole.c carries a case elsewhere and keeps who calls, refuge.c is
 * where a case goes while the database is away. The tables are docs/cases.sql. */
#ifndef TT_CLI_DATABASE_PARTS_H
#define TT_CLI_DATABASE_PARTS_H

#include "cases/case_depot.h"
#include "cases/case_store_parts.h"
#include "database/db_session.h"

typedef struct held_line {
    const char *writer;
    str bytes; /* with its newline */
} held_line;

/* A case that is open. */
typedef struct database_case {
    db_session *way;  /* null: not yet */
    uint64_t read;    /* arrival of the last row that was read */
    bool news;        /* more was told of */
    held_line *lines; /* all, as far as they were read or kept */
    uint32_t count, room;
    bool is_there; /* the row of the case */
} database_case;

/* ---- rows ---- each in a transaction, behind rows_lock, which makes writers of one case wait for
 * each other */

/* The row of a new case; one that is there already stays. DB_TAKEN: another case has the number. */
db_end rows_begin_case(db_session *w, const case_name *name);
db_end rows_lock(db_session *w, const char *id);
/* A line of a writer, its newline too. One that is there already with the same bytes is kept; with
 * others: DB_TAKEN. */
db_end rows_add_line(db_session *w, arena *scratch, const char *id, const char *writer,
                     uint64_t number, str line);
/* After lines were added: what they mean is worked out anew, and others are told. */
db_end rows_tell(db_session *w, arena *scratch, const char *id);

/* The shortest number that no other case has. */
db_end rows_number(db_session *w, arena *scratch, const char *id, char number[TT_CASE_NUMBER_SIZE]);

/* database_place.c: "ADDRESS/ID" */
void place_parts(arena *keep, const char *place, const char **address, const char **id);

/* ---- queries ---- */

enum { QUERY_VALUES = 13 };
/* database_query.c. "{open,on-hold}" of a set of states. */
const char *query_states(arena *keep, unsigned states);
/* $1 to $13 of what follows. */
void query_values(arena *keep, const case_query *q, db_value out[QUERY_VALUES]);

#define OF_ITS_NAME \
    " FROM telltale.cases c WHERE records > 0 AND began_at BETWEEN $3::bigint AND $4::bigint" \
    " AND ($5::text IS NULL OR (right(digits, 6) = right($5::text, 6) AND right(digits, " \
    "length($5::text)) = $5::text))"
#define THAT_FIT \
    OF_ITS_NAME \
    " AND state = ANY ($1::text[]) AND kind = ANY ($2::text[])" \
    " AND ($6::text IS NULL OR position($6::text IN site_words) > 0)" \
    " AND ($7::text IS NULL OR position($7::text IN to_words) > 0)" \
    " AND ($8::text IS NULL OR position($8::text IN cause_words) > 0)" \
    " AND ($11::text IS NULL OR title = $11::text)" \
    " AND ($12::text IS NULL OR (site_path = $12::text AND site_path <> '') OR (site = " \
    "$13::text AND site <> ''))" \
    " AND ($10::bigint IS NULL OR ended_at <= $10::bigint)" \
    " AND ($9::text IS NULL OR NOT EXISTS (SELECT FROM regexp_split_to_table($9::text, " \
    "E'\\n') AS w (word) WHERE position(word IN words) = 0))"

/* ---- the table's parts ---- */
exit_status database_list(const char *root, const case_query *query, case_list *out);
db_end database_count(db_session *w, arena *scratch, const case_query *q, case_overview *out);
db_end database_by_month(db_session *w, arena *scratch, const case_query *q, case_overview *out);
exit_status database_overview(const char *root, const case_wish *wish, case_overview *out);

exit_status database_read(case_store *s, bool takes_own, bool aloud);
bool database_has_news(const case_store *s);
const char *database_join(case_store *s, bool *busy);
bool database_keep(case_store *s);
bool database_is_alive(const case_store *s, const char *writer);
int database_descriptor(const case_store *s);
void database_close(case_store *s);

exit_status database_make(arena *keep, const char *root, const char *id, const char **place);
exit_status database_lines(arena *keep, const char *place, writers_lines *out);
exit_status database_add(arena *keep, const char *place, const char *writer, str bytes);
exit_status database_contact_read(arena *keep, const char *place, str *out);
exit_status database_contact_write(arena *keep, const char *place, str text);
exit_status database_contact_erase(arena *keep, const char *place, bool *erased);

#endif
