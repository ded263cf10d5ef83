/* Rows of cases and of their records. What stands in a case's row beside its number is what its
 * records mean, as engine/journal says it: nothing here says it a second time. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "base/value.h"
#include "depots/database_parts.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "summary/case_summary.h"
#include "summary/summary_row.h"

static void twelve_digits(const char *id, char digits[TT_CASE_NUMBER_SIZE])
{
    tt_case_number(id, MOST_DIGITS, digits);
    digits[MOST_DIGITS] = 0;
}

/* ---- numbers ---- */

static db_end is_shared(db_session *w, arena *scratch, const char *id, unsigned digits,
                        bool *shared)
{
    db_rows *rows;
    char all[TT_CASE_NUMBER_SIZE];
    twelve_digits(id, all);
    const db_value values[] = {db_text(all), db_number(scratch, digits), db_text(id)};
    const db_end end =
        db_run(w,
               "SELECT id::text FROM telltale.cases WHERE right(digits, 6) = right($1::text, 6)"
               " AND right(digits, $2::int) = right($1::text, $2::int) AND id <> $3::uuid LIMIT 1",
               values, 3, &rows);
    *shared = end == DB_DONE && db_count(rows) > 0;
    db_free(rows);
    return end;
}

db_end rows_number(db_session *w, arena *scratch, const char *id, char number[TT_CASE_NUMBER_SIZE])
{
    bool shared = true;
    db_end end = DB_DONE;
    unsigned digits = LEAST_DIGITS;
    while (end == DB_DONE) {
        end = is_shared(w, scratch, id, digits, &shared);
        if (!shared || digits == MOST_DIGITS) break;
        digits += MORE_DIGITS;
    }
    tt_case_number(id, digits, number);
    return end;
}

/* ---- rows ---- */

/* The first 48 bits of a UUID of version 7 are milliseconds since 1970. */
static int64_t began_at(const char *id)
{
    char digits[13];
    memcpy(digits, id, 8);
    memcpy(digits + 8, id + 9, 4);
    digits[12] = 0;
    return (int64_t)strtoull(digits, NULL, 16);
}

db_end rows_begin_case(db_session *w, const case_name *name)
{
    char all[TT_CASE_NUMBER_SIZE];
    arena *scratch = host_arena();
    twelve_digits(name->id, all);
    const db_value values[] = {db_text(name->id), db_text(name->number), db_text(all),
                               db_number(scratch, began_at(name->id))};
    const db_end end = db_run(w,
                              "INSERT INTO telltale.cases (id, number, digits, began_at) VALUES "
                              "($1::uuid, $2, $3, $4::bigint)"
                              " ON CONFLICT (id) DO NOTHING",
                              values, 4, NULL);
    arena_free(scratch);
    return end;
}

db_end rows_lock(db_session *w, const char *id)
{
    const db_value value = db_text(id);
    return db_run(w, "SELECT id::text FROM telltale.cases WHERE id = $1::uuid FOR UPDATE", &value,
                  1, NULL);
}

/* The same line may have come before the way was lost, unheard. */
static db_end is_same_line(db_session *w, const db_value *values, str line)
{
    db_rows *rows;
    db_end end = db_run(w,
                        "SELECT data FROM telltale.records WHERE case_id = $1::uuid AND writer = "
                        "$2 AND number = $3::bigint",
                        values, 3, &rows);
    if (end == DB_DONE && (db_count(rows) != 1 || !str_eq(db_cell(rows, 0, 0), line)))
        end = DB_TAKEN;
    db_free(rows);
    return end;
}

static db_value moment_of(arena *scratch, const char *time)
{
    tt_moment moment;
    const bool read = time != NULL && tt_moment_read(time, &moment);
    return db_text(read ? arena_text(scratch, "%.3f", (double)moment.milliseconds / 1000) : NULL);
}

db_end rows_add_line(db_session *w, arena *scratch, const char *id, const char *writer,
                     uint64_t number, str line)
{
    db_rows *rows;
    bool follows;
    tt_record record = {.kind = NULL};
    const size_t length = line.n - (line.n > 0 && line.p[line.n - 1] == '\n');
    if (record_of_line(scratch, line.p, length, id, "", &record, &follows) != NULL)
        record = (tt_record){.kind = NULL};
    const db_value values[] = {db_text(id),
                               db_text(writer),
                               db_number(scratch, (int64_t)number),
                               moment_of(scratch, record.time),
                               db_text(record.kind),
                               db_bytes(line)};
    db_end end = db_run(
        w,
        "INSERT INTO telltale.records (case_id, writer, number, moment, kind, data)"
        " VALUES ($1::uuid, $2, $3::bigint, to_timestamp($4::double precision), $5, $6::bytea)"
        " ON CONFLICT (case_id, writer, number) DO NOTHING RETURNING writer",
        values, 6, &rows);
    const bool was_there = end == DB_DONE && db_count(rows) == 0;
    db_free(rows);
    return was_there ? is_same_line(w, values, line) : end;
}

/* ---- what they mean ---- */

/* Each writer's lines as one file, to be read as such. */
static size_t files_of(const db_rows *rows, case_bytes **out)
{
    size_t count = 0;
    case_bytes *files = take_memory((db_count(rows) + 1) * sizeof *files);
    for (size_t i = 0; i < db_count(rows); i++) {
        const bool is_next =
            i == 0 || strcmp(db_cell_text(rows, i, 0), db_cell_text(rows, i - 1, 0)) != 0;
        const str line = db_cell(rows, i, 1);
        if (is_next) files[count++] = (case_bytes){NULL, 0};
        case_bytes *f = &files[count - 1];
        f->bytes = more_memory(f->bytes, f->length + line.n + 1);
        memcpy(f->bytes + f->length, line.p, line.n);
        f->length += line.n;
        f->bytes[f->length] = 0;
    }
    *out = files;
    return count;
}

static const char *meaning_of(arena *scratch, const char *id, const db_rows *rows)
{
    case_bytes *files;
    case_summary summary;
    case_findable by;
    const size_t count = files_of(rows, &files);
    case_summarize_whole(id, files, count, &summary, &by);
    const char *json = summary_row_text(scratch, &summary, &by, db_count(rows));
    case_summary_free(&summary);
    for (size_t i = 0; i < count; i++) free(files[i].bytes);
    free(files);
    free(by.site_path);
    free(by.words);
    return json;
}

static db_end tell_others(db_session *w, const char *id)
{
    const db_value value = db_text(id);
    return db_run(w, "SELECT pg_notify('telltale', $1)::text", &value, 1, NULL);
}

db_end rows_tell(db_session *w, arena *scratch, const char *id)
{
    db_rows *rows;
    const db_value value = db_text(id);
    db_end end = db_run(w,
                        "SELECT writer, data FROM telltale.records WHERE case_id = $1::uuid ORDER "
                        "BY writer, number",
                        &value, 1, &rows);
    if (end != DB_DONE) return end;
    const db_value values[] = {value, db_text(meaning_of(scratch, id, rows))};
    db_free(rows);
    end =
        db_run(w,
               "UPDATE telltale.cases SET (" SUMMARY_COLUMNS ") = (SELECT " SUMMARY_COLUMNS
               " FROM jsonb_populate_record(NULL::telltale.cases, $2::jsonb)) WHERE id = $1::uuid",
               values, 2, NULL);
    return end == DB_DONE ? tell_others(w, id) : end;
}
