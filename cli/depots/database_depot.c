/* Cases in a database: a row for each, and one for each of its records (docs/cases.sql). Which
 * there are, and what new ones are called. */
#include <string.h>

#include "depots/case_id.h"
#include "depots/database_parts.h"
#include "depots/refuge.h"
#include "host/memory.h"
#include "host/screen.h"
#include "summary/case_apart.h"

enum { MOST_TRIES = 100 };

static exit_status look(const char *root, bool may_be_missing, bool *there)
{
    db_session *w;
    (void)may_be_missing;
    const exit_status status = db_open(root, &w);
    *there = status == EXIT_DONE;
    db_close(w);
    return status;
}

/* ---- all ---- */

static void tell_found(const char *root, const db_rows *rows, case_found *found, void *context)
{
    for (size_t i = 0; i < db_count(rows); i++) found(context, root, db_cell_text(rows, i, 0));
}

/* Whoever is told of a case may open it, by the same way: so that is free by then. */
static size_t walk(const char *root, case_found *found, void *context)
{
    db_session *w;
    db_rows *rows;
    if (db_open(root, &w) != EXIT_DONE) return 1;
    const db_end end = db_run(
        w, "SELECT id::text FROM telltale.cases WHERE records > 0 ORDER BY id", NULL, 0, &rows);
    if (end != DB_DONE) db_say(w, end, "the cases can't be read");
    db_close(w);
    if (end == DB_DONE) tell_found(root, rows, found, context);
    db_free(rows);
    return end != DB_DONE;
}

/* ---- finding one ---- */

static void take_name(arena *keep, const char *root, const db_rows *rows, case_name *out)
{
    memcpy(out->id, db_cell_text(rows, 0, 0), TT_CASE_ID_SIZE);
    memcpy(out->number, db_cell_text(rows, 0, 1), db_cell(rows, 0, 1).n + 1);
    out->folder = arena_text(keep, "%s/%s", root, out->id);
}

static exit_status say_several(arena *keep, const char *root, const char *number)
{
    case_list list;
    text_builder lines = {.keep = keep};
    const case_query query = case_query_of_number(number);
    const exit_status status = database_list(root, &query, &list);
    if (status != EXIT_DONE) return status;
    for (size_t i = 0; i < list.count; i++)
        text_addf(&lines, "\n  %s", case_apart(keep, &list.cases[i]));
    complain("%s stands for %zu cases. Give the longer number of the one that is meant:%s", number,
             list.count, text_done(&lines).p);
    case_list_free(&list);
    return EXIT_USAGE;
}

static exit_status take_one(arena *keep, const char *root, const char *named, const db_rows *rows,
                            case_name *out)
{
    if (db_count(rows) > 1) return say_several(keep, root, named);
    if (db_count(rows) == 1) take_name(keep, root, rows, out);
    if (db_count(rows) == 0) complain("there is no case %s in %s", named, root);
    return db_count(rows) == 1 ? EXIT_DONE : EXIT_NO_FILE;
}

#define NAME_COLUMNS "SELECT id::text, number FROM telltale.cases"

static db_end find_rows(db_session *w, const char *id, const char *digits, db_rows **rows)
{
    const db_value value = db_text(id != NULL ? id : digits);
    return id != NULL
               ? db_run(w, NAME_COLUMNS " WHERE id = $1::uuid", &value, 1, rows)
               : db_run(w,
                        NAME_COLUMNS
                        " WHERE right(digits, 6) = right($1::text, 6)"
                        " AND right(digits, length($1::text)) = $1 AND records > 0 ORDER BY id",
                        &value, 1, rows);
}

static exit_status find(arena *keep, const char *root, const char *named, case_name *out)
{
    db_session *w;
    db_rows *rows;
    const char *address = root, *id = tt_is_case_id(named) ? named : NULL;
    if (db_is_address(named)) place_parts(keep, named, &address, &id);
    if (id == NULL && case_number_typed(named, out->number) != EXIT_DONE) return EXIT_USAGE;
    const char *digits =
        id == NULL ? arena_text(keep, "%.*s", (int)strlen(out->number) - 1, out->number) : NULL;
    exit_status status = db_open(address, &w);
    if (status != EXIT_DONE) return status;
    const db_end end = find_rows(w, id, digits, &rows);
    status = end == DB_DONE ? take_one(keep, address, id != NULL ? id : out->number, rows, out)
                            : db_say(w, end, "the case can't be looked for");
    db_free(rows);
    db_close(w);
    return status;
}

/* ---- a new one ---- */

static db_end is_known(db_session *w, const char *id, bool *known)
{
    db_rows *rows;
    const db_value value = db_text(id);
    const db_end end =
        db_run(w, "SELECT id::text FROM telltale.cases WHERE id = $1::uuid", &value, 1, &rows);
    *known = end == DB_DONE && db_count(rows) > 0;
    db_free(rows);
    return end;
}

/* Few digits are easier to tell: so an id is drawn again whose number somebody else has. */
static db_end draw(db_session *w, arena *keep, case_name *out)
{
    db_end end = DB_DONE;
    for (unsigned tries = 0; end == DB_DONE && tries < MOST_TRIES; tries++) {
        if (!case_id_new(out->id)) return DB_WRONG;
        end = rows_number(w, keep, out->id, out->number);
        if (strlen(out->number) == LEAST_DIGITS + 1) break;
    }
    return end;
}

static exit_status choose(db_session *w, arena *keep, const char *id, case_name *out)
{
    bool known = false;
    db_end end = DB_DONE;
    if (id != NULL) {
        memcpy(out->id, id, TT_CASE_ID_SIZE);
        end = is_known(w, id, &known);
        if (end == DB_DONE) end = rows_number(w, keep, id, out->number);
    } else {
        end = draw(w, keep, out);
    }
    if (known) complain("the case can't be kept. There is a case %s already", id);
    if (known) return EXIT_CANNOT_CREATE;
    return end == DB_DONE ? EXIT_DONE : db_say(w, end, "the case can't be kept");
}

static exit_status name(arena *keep, const char *root, const char *id, case_name *out)
{
    db_session *w;
    exit_status status = db_open(root, &w);
    if (status != EXIT_DONE) return status;
    status = choose(w, keep, id, out);
    db_close(w);
    out->folder = arena_text(keep, "%s/%s", root, out->id);
    return status;
}

const case_depot database_depot = {
    .look = look,
    .walk = walk,
    .list = database_list,
    .overview = database_overview,
    .find = find,
    .name = name,
    .read = database_read,
    .has_news = database_has_news,
    .join = database_join,
    .keep = database_keep,
    .is_alive = database_is_alive,
    .descriptor = database_descriptor,
    .close = database_close,
    .refuge = refuge_root,
    .make = database_make,
    .lines = database_lines,
    .add = database_add,
    .contact_read = database_contact_read,
    .contact_write = database_contact_write,
    .contact_erase = database_contact_erase,
};
