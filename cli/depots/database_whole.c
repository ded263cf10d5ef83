/* A case whole, from a database and into one; and who called. */
#include <string.h>

#include "base/grow.h"
#include "depots/database_parts.h"
#include "host/memory.h"
#include "host/screen.h"

/* Something that is done in one transaction at one case. */
typedef struct at_case {
    const char *id;
    case_name name;
    const char *writer;
    str bytes;
    db_rows *rows;
} at_case;

static exit_status do_at(arena *keep, const char *place, const char *what, at_case *a,
                         db_work *work)
{
    db_session *w;
    const char *address;
    if (a->id == NULL)
        place_parts(keep, place, &address, &a->id);
    else
        address = place;
    const exit_status status = db_open(address, &w);
    if (status != EXIT_DONE) return status;
    const db_end end = db_transact(w, work, a);
    const exit_status done = end == DB_DONE ? EXIT_DONE : db_say(w, end, what);
    db_close(w);
    return done;
}

/* ---- a new one ---- */

static db_end make_row(void *context, db_session *w)
{
    at_case *a = context;
    arena *scratch = host_arena();
    db_end end = rows_number(w, scratch, a->id, a->name.number);
    if (end == DB_DONE) end = rows_begin_case(w, &a->name);
    arena_free(scratch);
    return end == DB_TAKEN ? DB_AGAIN : end; /* somebody has taken the number since */
}

exit_status database_make(arena *keep, const char *root, const char *id, const char **place)
{
    at_case a = {.id = id};
    memcpy(a.name.id, id, TT_CASE_ID_SIZE);
    *place = arena_text(keep, "%s/%s", root, id);
    return do_at(keep, root, "the case can't be kept", &a, make_row);
}

/* ---- lines ---- */

static db_end read_lines(void *context, db_session *w)
{
    at_case *a = context;
    const db_value value = db_text(a->id);
    db_free(a->rows); /* of a time before, that got in another's way */
    return db_run(w,
                  "SELECT writer, data FROM telltale.records WHERE case_id = $1::uuid ORDER BY "
                  "writer, number",
                  &value, 1, &a->rows);
}

static void take_writer(arena *keep, const db_rows *rows, size_t from, size_t to,
                        writers_lines *out)
{
    text_builder b = {.keep = keep};
    for (size_t i = from; i < to; i++) text_add(&b, db_cell(rows, i, 1));
    GROW(keep, out->items, out->count, out->room);
    out->items[out->count++] =
        (writer_lines){arena_copy(keep, db_cell_text(rows, from, 0)), text_done(&b)};
}

exit_status database_lines(arena *keep, const char *place, writers_lines *out)
{
    at_case a = {.id = NULL};
    *out = (writers_lines){.count = 0};
    const exit_status status = do_at(keep, place, "the case can't be read", &a, read_lines);
    for (size_t from = 0, to; status == EXIT_DONE && from < db_count(a.rows); from = to) {
        for (to = from + 1; to < db_count(a.rows); to++)
            if (strcmp(db_cell_text(a.rows, to, 0), db_cell_text(a.rows, from, 0)) != 0) break;
        take_writer(keep, a.rows, from, to, out);
    }
    db_free(a.rows);
    return status;
}

static db_end last_number(db_session *w, const at_case *a, uint64_t *number)
{
    db_rows *rows;
    const db_value values[] = {db_text(a->id), db_text(a->writer)};
    const db_end end = db_run(w,
                              "SELECT coalesce(max(number), 0)::text FROM telltale.records WHERE "
                              "case_id = $1::uuid AND writer = $2",
                              values, 2, &rows);
    if (end == DB_DONE) *number = db_cell_number(rows, 0, 0);
    db_free(rows);
    return end;
}

static db_end add_each(db_session *w, arena *scratch, const at_case *a, uint64_t number)
{
    db_end end = DB_DONE;
    for (str rest = a->bytes; rest.n > 0 && end == DB_DONE;) {
        const char *stop = memchr(rest.p, '\n', rest.n);
        const size_t length = stop != NULL ? (size_t)(stop - rest.p) + 1 : rest.n;
        end = rows_add_line(w, scratch, a->id, a->writer, ++number, (str){rest.p, length});
        rest = (str){rest.p + length, rest.n - length};
    }
    return end;
}

static db_end add_lines(void *context, db_session *w)
{
    uint64_t number = 0;
    const at_case *a = context;
    arena *scratch = host_arena();
    db_end end = rows_lock(w, a->id);
    if (end == DB_DONE) end = last_number(w, a, &number);
    if (end == DB_DONE) end = add_each(w, scratch, a, number);
    if (end == DB_DONE) end = rows_tell(w, scratch, a->id);
    arena_free(scratch);
    return end;
}

exit_status database_add(arena *keep, const char *place, const char *writer, str bytes)
{
    at_case a = {.writer = writer, .bytes = bytes};
    return do_at(keep, place, "the case can't be kept", &a, add_lines);
}

/* ---- who called ---- */

static db_end read_contact(void *context, db_session *w)
{
    at_case *a = context;
    const db_value value = db_text(a->id);
    db_free(a->rows);
    return db_run(w, "SELECT data FROM telltale.contacts WHERE case_id = $1::uuid", &value, 1,
                  &a->rows);
}

exit_status database_contact_read(arena *keep, const char *place, str *out)
{
    at_case a = {.id = NULL};
    *out = str_of("");
    const exit_status status = do_at(keep, place, "who called can't be read", &a, read_contact);
    if (status == EXIT_DONE && db_count(a.rows) > 0) *out = str_copy(keep, db_cell(a.rows, 0, 0));
    db_free(a.rows);
    return status;
}

static db_end write_contact(void *context, db_session *w)
{
    const at_case *a = context;
    const db_value values[] = {db_text(a->id), {a->bytes.p, a->bytes.n, false}};
    return db_run(w,
                  "INSERT INTO telltale.contacts (case_id, data) VALUES ($1::uuid, $2)"
                  " ON CONFLICT (case_id) DO UPDATE SET data = EXCLUDED.data",
                  values, 2, NULL);
}

exit_status database_contact_write(arena *keep, const char *place, str text)
{
    at_case a = {.bytes = text};
    return do_at(keep, place, "who called can't be kept", &a, write_contact);
}

static db_end erase_contact(void *context, db_session *w)
{
    at_case *a = context;
    const db_value value = db_text(a->id);
    db_free(a->rows);
    return db_run(w,
                  "DELETE FROM telltale.contacts WHERE case_id = $1::uuid RETURNING case_id::text",
                  &value, 1, &a->rows);
}

exit_status database_contact_erase(arena *keep, const char *place, bool *erased)
{
    at_case a = {.id = NULL};
    const exit_status status = do_at(keep, place, "who called can't be erased", &a, erase_contact);
    *erased = status == EXIT_DONE && db_count(a.rows) > 0;
    db_free(a.rows);
    return status;
}
