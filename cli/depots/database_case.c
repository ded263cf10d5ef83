/* A case that is open in a database: what others have added is read by the order in which it came,
 * and what is kept goes in one transaction. A writer is whoever holds the lock on its name for as
 * long as the session lasts. */
#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/grow.h"
#include "depots/database_parts.h"
#include "depots/refuge.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"

enum {
    MOST_WAYS = 10
}; /* one after the other, for one record: a server that is there is not given up soon */

/* ---- the way ---- */

static const char *address_of(case_store *s)
{
    const char *address, *id;
    place_parts(s->keep, s->name.folder, &address, &id);
    return address;
}

void database_close(case_store *s)
{
    if (s->held != NULL) db_close(s->held->way);
    if (s->held != NULL) s->held->way = NULL;
}

/* Listened to before anything is read: so nothing is missed in between. */
static db_end listen(case_store *s)
{
    s->held->news = true; /* what was told meanwhile, nobody heard */
    return db_run(s->held->way, "LISTEN telltale", NULL, 0, NULL);
}

/* One that was lost before it was ever used is looked for once more. What can't be had is let go,
 * so that the next try begins anew. */
static exit_status open_way(case_store *s)
{
    if (s->held == NULL) {
        s->held = ARENA_NEW(s->keep, database_case);
        *s->held = (database_case){.way = NULL};
    }
    if (s->held->way != NULL) return EXIT_DONE;
    const exit_status status = db_open(address_of(s), &s->held->way);
    if (status != EXIT_DONE) return status;
    db_end end = listen(s);
    if (end == DB_AWAY && db_open_again(s->held->way) == DB_DONE) end = listen(s);
    if (end == DB_DONE) return EXIT_DONE;
    const exit_status said = db_say(s->held->way, end, "the case can't be opened");
    database_close(s);
    return said;
}

int database_descriptor(const case_store *s)
{
    return s->held != NULL && s->held->way != NULL ? db_descriptor(s->held->way) : -1;
}

bool database_has_news(const case_store *s)
{
    database_case *h = s->held;
    if (h == NULL || h->way == NULL) return false;
    h->news = h->news || db_heard(h->way, s->name.id);
    return h->news;
}

/* ---- taking rows ---- */

static void hold_line(case_store *s, const char *writer, str line)
{
    database_case *h = s->held;
    GROW(s->keep, h->lines, h->count, h->room);
    h->lines[h->count++] = (held_line){writer, str_copy(s->keep, line)};
}

static void take_row(case_store *s, const char *writer, str line, bool aloud)
{
    case_part *part = case_part_named(s, writer, strlen(writer));
    if (part == NULL) part = case_part_add(s, writer, strlen(writer));
    hold_line(s, part->name, line);
    const bool whole = line.n > 0 && line.p[line.n - 1] == '\n';
    case_taking t = {.store = s, .part = part, .aloud = aloud};
    const case_line one = {line.p, line.n - whole, 1, whole, part->read + (off_t)line.n};
    case_take_line(&t, &one);
    case_taking_done(&t);
}

static void take_rows(case_store *s, const db_rows *rows, bool takes_own, bool aloud)
{
    database_case *h = s->held;
    for (size_t i = 0; i < db_count(rows); i++) {
        const char *writer = db_cell_text(rows, i, 0);
        h->read = db_cell_number(rows, i, 2);
        if (takes_own || !case_is_own(s, writer)) take_row(s, writer, db_cell(rows, i, 1), aloud);
    }
    h->news = false;
    h->is_there = true;
}

/* ---- who writes ---- */

static db_end try_lock(db_session *w, arena *scratch, const char *id, const char *writer,
                       bool *locked)
{
    db_rows *rows;
    const db_value value = db_text(arena_text(scratch, "%s/%s", id, writer));
    const db_end end =
        db_run(w, "SELECT pg_try_advisory_lock(hashtextextended($1, 0))::text", &value, 1, &rows);
    *locked = end == DB_DONE && strcmp(db_cell_text(rows, 0, 0), "true") == 0;
    db_free(rows);
    return end;
}

static void unlock(db_session *w, arena *scratch, const char *id, const char *writer)
{
    const db_value value = db_text(arena_text(scratch, "%s/%s", id, writer));
    db_run(w, "SELECT pg_advisory_unlock(hashtextextended($1, 0))::text", &value, 1, NULL);
}

/* Of our own session this is true too, and the lock stays. */
bool database_is_alive(const case_store *s, const char *writer)
{
    bool locked = false;
    if (s->held == NULL || s->held->way == NULL) return false;
    const db_end end = try_lock(s->held->way, s->keep, s->name.id, writer, &locked);
    if (locked) unlock(s->held->way, s->keep, s->name.id, writer);
    return end == DB_DONE && !locked;
}

/* A name under which lines wait in the refuge is not given to another: they come behind those that
 * are there. */
static db_end take_writer(case_store *s, bool *taken)
{
    db_end end = DB_DONE;
    *taken = false;
    for (unsigned window = 1; end == DB_DONE && !*taken && window <= MOST_WINDOWS; window++) {
        snprintf(s->writer, sizeof s->writer, window > 1 ? "%s-%u" : "%s", s->base, window);
        if (!refuge_holds(s->keep, address_of(s), s->name.id, s->writer))
            end = try_lock(s->held->way, s->keep, s->name.id, s->writer, taken);
    }
    return end;
}

/* DB_AWAY: there is no way to the server. */
static db_end join(case_store *s)
{
    if (open_way(s) != EXIT_DONE) return DB_AWAY;
    db_end end = take_writer(s, &s->joined);
    if (end == DB_AWAY && db_open_again(s->held->way) == DB_DONE && listen(s) == DB_DONE)
        end = take_writer(s, &s->joined);
    return end;
}

const char *database_join(case_store *s, bool *busy)
{
    const db_end end = join(s);
    *busy = end == DB_DONE && !s->joined;
    if (s->joined) return NULL;
    return s->held->way == NULL ? "the database can't be reached"
           : *busy              ? ""
                                : arena_copy(s->keep, db_why(s->held->way));
}

/* ---- what there is ---- */

/* Rows of one case come one transaction after the other (rows_lock), so what has arrived later has
 * the higher number. */
static db_end read_rows(case_store *s, bool takes_own, bool aloud)
{
    db_rows *rows;
    arena *scratch = host_arena();
    const db_value values[] = {db_text(s->name.id), db_number(scratch, (int64_t)s->held->read)};
    const db_end end = db_run(s->held->way,
                              "SELECT writer, data, arrival::text FROM telltale.records r WHERE "
                              "case_id = $1::uuid AND arrival > $2::bigint"
                              " ORDER BY r.arrival",
                              values, 2, &rows);
    arena_free(scratch);
    if (end == DB_DONE) take_rows(s, rows, takes_own, aloud);
    db_free(rows);
    return end;
}

/* The lock went with the session; that nobody else has written under the name since, rows_add_line
 * sees. */
static db_end find_way_again(case_store *s)
{
    bool locked;
    db_end end = db_open_again(s->held->way);
    if (end == DB_DONE) end = listen(s);
    if (end == DB_DONE && s->joined)
        end = try_lock(s->held->way, s->keep, s->name.id, s->writer, &locked);
    return end;
}

/* A case that is worked on goes on without what others add, until something of it is to be kept:
 * then it is said. */
exit_status database_read(case_store *s, bool takes_own, bool aloud)
{
    exit_status status = open_way(s);
    if (status != EXIT_DONE) return status;
    db_end end = read_rows(s, takes_own, aloud);
    if (end == DB_AWAY && find_way_again(s) == DB_DONE) end = read_rows(s, takes_own, aloud);
    if (end == DB_AWAY && !takes_own) {
        s->held->news = false;
        return EXIT_DONE;
    }
    return end == DB_DONE ? EXIT_DONE : db_say(s->held->way, end, "the case can't be read");
}

/* ---- keeping ---- */

typedef struct adding {
    case_store *s;
    str *lines; /* of those that wait */
} adding;

static uint64_t own_lines(const case_store *s)
{
    uint64_t count = 0;
    for (uint32_t i = 0; i < s->held->count; i++)
        count += strcmp(s->held->lines[i].writer, s->writer) == 0;
    return count;
}

/* Lines as a folder would hold them, chained by their hashes; nothing of the store changes yet. */
static str *make_lines(case_store *s, case_tail *tail)
{
    arena *keep = s->waiting;
    str *lines = ARENA_ARRAY(keep, str, s->unkept_count);
    for (uint32_t i = 0; i < s->unkept_count; i++) {
        const str line = record_line(keep, s->name.id, tail->before, &s->unkept[i], NULL);
        lines[i] = str_printf(keep, "%s%.*s\n", tail->torn ? "\n" : "", STR_ARG(line));
        line_hash(line.p, line.n, tail->before);
        tail->torn = false;
    }
    return lines;
}

static db_end add_lines(void *context, db_session *w)
{
    adding *a = context;
    case_store *s = a->s;
    arena *scratch = host_arena();
    const uint64_t before = own_lines(s);
    db_end end = s->held->is_there ? DB_DONE : rows_begin_case(w, &s->name);
    if (end == DB_DONE) end = rows_lock(w, s->name.id);
    for (uint32_t i = 0; i < s->unkept_count && end == DB_DONE; i++)
        end = rows_add_line(w, scratch, s->name.id, s->writer, before + i + 1, a->lines[i]);
    if (end == DB_DONE) end = rows_tell(w, scratch, s->name.id);
    arena_free(scratch);
    return end;
}

static void note_kept(case_store *s, const str *lines, const case_tail *tail)
{
    const char *writer = arena_copy(s->keep, s->writer);
    for (uint32_t i = 0; i < s->unkept_count; i++) hold_line(s, writer, lines[i]);
    s->own = *tail;
    s->held->is_there = true;
    s->root = NULL;
    case_drop_first(s, s->unkept_count);
}

/* Another case took the number in the moment since it was chosen: it gets a longer one. */
static db_end number_anew(case_store *s)
{
    arena *scratch = host_arena();
    const db_end end = rows_number(s->held->way, scratch, s->name.id, s->name.number);
    arena_free(scratch);
    return end;
}

static db_end transact(case_store *s, str *lines)
{
    adding a = {s, lines};
    db_end end = db_transact(s->held->way, add_lines, &a);
    if (end == DB_TAKEN && !s->held->is_there && number_anew(s) == DB_DONE)
        end = db_transact(s->held->way, add_lines, &a);
    return end;
}

/* A new case is joined with the first that is kept of it. */
static db_end join_to_keep(case_store *s)
{
    if (s->joined) return DB_DONE;
    const db_end end = join(s);
    if (s->joined || end == DB_AWAY) return end;
    s->why = end == DB_DONE ? "too many windows have the case open"
                            : arena_copy(s->waiting, db_why(s->held->way));
    return DB_WRONG;
}

static bool keep_elsewhere(case_store *s)
{
    const char *why = s->held->way != NULL ? db_why(s->held->way) : "";
    if (refuge_take(s, why)) return s->depot->keep(s);
    s->why = arena_text(s->waiting, "the database can't be reached. %s", why);
    return false;
}

bool database_keep(case_store *s)
{
    case_tail tail = s->own;
    const db_end joined = join_to_keep(s);
    if (joined != DB_DONE) return joined == DB_AWAY && keep_elsewhere(s);
    str *lines = make_lines(s, &tail);
    db_end end = transact(s, lines);
    for (unsigned tries = 0; end == DB_AWAY && tries < MOST_WAYS && find_way_again(s) == DB_DONE;
         tries++)
        end = transact(s, lines);
    if (end == DB_DONE) note_kept(s, lines, &tail);
    if (end == DB_DONE) return true;
    if (end == DB_AWAY || end == DB_TAKEN) return keep_elsewhere(s);
    s->why = arena_text(s->waiting, "the case can't be kept: %s", db_why(s->held->way));
    return false;
}
