/* What the cases that fit come to, counted by the database. Their quartiles are those of
 * cases_counts.h: percentile_cont goes linearly between two values, too. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "depots/database_parts.h"
#include "host/memory.h"
#include "host/plain_text.h"

static double number_at(const db_rows *rows, size_t row, size_t column)
{
    double number;
    return str_to_double(db_cell(rows, row, column), &number) ? number : NAN;
}

/* ---- states ---- */

static void take_state(const db_rows *rows, size_t i, cases_counts *out)
{
    const size_t count = (size_t)db_cell_number(rows, i, 1);
    int state = 0;
    while (state < TT_CASE_UNREADABLE &&
           strcmp(tt_case_state_name((tt_case_state)state), db_cell_text(rows, i, 0)) != 0)
        state++;
    out->states[state] += count;
    out->all += count;
    out->done += (size_t)db_cell_number(rows, i, 2);
    out->left_out += (size_t)db_cell_number(rows, i, 3);
}

static db_end count_states(db_session *w, const db_value *values, cases_counts *out)
{
    db_rows *rows;
    const db_end end = db_run(w,
                              "SELECT state, count(*)::text, count(*) FILTER (WHERE state = "
                              "'closed' AND kind <> 'fault')::text,"
                              " sum(left_out)::text" THAT_FIT " GROUP BY state",
                              values, QUERY_VALUES, &rows);
    for (size_t i = 0; end == DB_DONE && i < db_count(rows); i++) take_state(rows, i, out);
    db_free(rows);
    return end;
}

/* ---- causes ---- */

static minutes_spread spread_at(const db_rows *rows, size_t i)
{
    return (minutes_spread){(size_t)db_cell_number(rows, i, 5), number_at(rows, i, 6),
                            number_at(rows, i, 7), number_at(rows, i, 8)};
}

static void take_cause(arena *keep, const db_rows *rows, size_t i, cases_counts *out)
{
    const bool is_all = strcmp(db_cell_text(rows, i, 0), "all") == 0;
    if (is_all) out->minutes = spread_at(rows, i);
    if (is_all) return;
    out->causes[out->cause_count++] =
        (cause_count){.name = arena_copy(keep, db_cell_text(rows, i, 1)),
                      .text = arena_copy(keep, db_cell_text(rows, i, 2)),
                      .count = (size_t)db_cell_number(rows, i, 3),
                      .confirmed = (size_t)db_cell_number(rows, i, 4),
                      .minutes = spread_at(rows, i)};
}

#define QUARTILE(share) \
    "coalesce(percentile_cont(" share ") WITHIN GROUP (ORDER BY minutes)::text, '')"
/* Of the case with the greatest id: an id has 36 letters, which sort by their bytes as ids do. */
#define LAST_CAUSE \
    "coalesce(substr(max((id::text || cause) COLLATE \"C\") FILTER (WHERE cause <> ''), 37), '')"

static db_end count_causes(db_session *w, arena *keep, const db_value *values, cases_counts *out)
{
    db_rows *rows;
    const db_end end =
        db_run(w,
               "SELECT CASE grouping(title) WHEN 1 THEN 'all' ELSE 'one' END, coalesce(cause_name, "
               "''), " LAST_CAUSE ", count(*)::text, count(*) FILTER (WHERE confirmed)::text, "
               "count(minutes)::text, " QUARTILE("0.25") ", " QUARTILE("0.5") ", " QUARTILE("0.75")
                   THAT_FIT " AND state = 'closed' AND kind = 'fault'"
                            " GROUP BY GROUPING SETS ((title, cause_name), ())",
               values, QUERY_VALUES, &rows);
    out->minutes = (minutes_spread){0, NAN, NAN, NAN};
    out->causes = take_memory(((end == DB_DONE ? db_count(rows) : 0) + 1) * sizeof *out->causes);
    for (size_t i = 0; end == DB_DONE && i < db_count(rows); i++) take_cause(keep, rows, i, out);
    cases_counts_sort(out);
    db_free(rows);
    return end;
}

db_end database_count(db_session *w, arena *scratch, const case_query *q, case_overview *out)
{
    db_value values[QUERY_VALUES];
    query_values(scratch, q, values);
    const db_end end = count_states(w, values, &out->counts);
    return end == DB_DONE ? count_causes(w, out->keep, values, &out->counts) : end;
}

/* ---- months ---- */

static void take_month(arena *keep, const db_rows *rows, size_t i, month_count *out)
{
    *out = (month_count){.site = arena_copy(keep, db_cell_text(rows, i, 1)),
                         .name = arena_copy(keep, db_cell_text(rows, i, 2)),
                         .text = arena_copy(keep, db_cell_text(rows, i, 3)),
                         .count = (size_t)db_cell_number(rows, i, 4),
                         .confirmed = (size_t)db_cell_number(rows, i, 5)};
    memcpy(out->month, db_cell_text(rows, i, 0),
           db_cell(rows, i, 0).n < 8 ? db_cell(rows, i, 0).n : 7);
}

db_end database_by_month(db_session *w, arena *scratch, const case_query *q, case_overview *out)
{
    db_rows *rows;
    db_value values[QUERY_VALUES];
    query_values(scratch, q, values);
    const db_end end = db_run(w,
                              "SELECT left(began, 7), site, cause_name, " LAST_CAUSE
                              ", count(*)::text, count(*) FILTER (WHERE confirmed)::text" THAT_FIT
                              " AND state = 'closed' GROUP BY left(began, 7), site, cause_name"
                              " ORDER BY left(began, 7) COLLATE \"C\", site COLLATE \"C\", "
                              "count(*) DESC, cause_name COLLATE \"C\"",
                              values, QUERY_VALUES, &rows);
    out->months.items =
        take_memory(((end == DB_DONE ? db_count(rows) : 0) + 1) * sizeof *out->months.items);
    for (size_t i = 0; end == DB_DONE && i < db_count(rows); i++)
        take_month(out->keep, rows, i, &out->months.items[out->months.count++]);
    db_free(rows);
    return end;
}
