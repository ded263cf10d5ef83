/* Lists of cases from a database: what is asked for is a query over the cases' rows, and no record
 * is read. */
#include <assert.h>
#include <limits.h>

#include "depots/database_parts.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "summary/summary_row.h"

/* Without what is only there to be searched; made of those alone that are shown. */
#define ROW \
    "SELECT (to_jsonb(c) - ARRAY['words', 'site_words', 'to_words', 'cause_words', 'digits', " \
    "'site_path'])::text FROM (SELECT *"

static void take_rows(const char *root, const db_rows *rows, case_list *out)
{
    out->cases = take_memory((db_count(rows) + 1) * sizeof *out->cases);
    for (size_t i = 0; i < db_count(rows); i++) {
        const str row = db_cell(rows, i, 0);
        case_summary *one = &out->cases[out->count];
        if (!summary_row_read(row.p, row.n, one)) {
            if (out->failed++ == 0) complain("a case in the database can't be read: %.40s", row.p);
            continue;
        }
        one->folder = format_text("%s/%s", root, one->uuid);
        out->count++;
    }
}

/* Whether there is any of that number and time, or what was asked for does not fit it. */
static db_end count_looked_at(db_session *w, const db_value *values, case_list *out)
{
    db_rows *rows;
    const db_end end = db_run(w, "SELECT count(*)::text, min($1::text), min($2::text)" OF_ITS_NAME,
                              values, 5, &rows);
    if (end == DB_DONE) out->looked_at = db_cell_number(rows, 0, 0);
    db_free(rows);
    return end;
}

/* Each order from its end, so that the last of the list can be asked for; read back it is brought
 * into its order. */
static const char *from_the_end(case_order order)
{
    static const char *const orders[CASE_ORDERS] = {
        [ORDER_LISTED] = " ORDER BY state IN ('open', 'on-hold', 'waiting') DESC, id DESC",
        [ORDER_BEGAN] = " ORDER BY id DESC",
        [ORDER_MOVED] = " ORDER BY last_moment DESC, id DESC",
        [ORDER_SITE] = " ORDER BY site COLLATE \"C\" DESC, id DESC",
        [ORDER_STATE] = " ORDER BY array_position($15::text[], state) DESC, id DESC",
        [ORDER_UNTIL] = " ORDER BY until_at DESC NULLS FIRST, id DESC"};
    assert(order < CASE_ORDERS);
    return orders[order];
}

static db_end read_list(db_session *w, arena *scratch, const char *root, const case_wish *wish,
                        case_list *out)
{
    db_rows *rows = NULL;
    db_value values[QUERY_VALUES + 2];
    query_values(scratch, &wish->query, values);
    values[QUERY_VALUES + 1] = db_text(query_states(scratch, UINT_MAX)); /* in their order */
    values[QUERY_VALUES] =
        wish->limit < SIZE_MAX ? db_number(scratch, (int64_t)wish->limit) : db_text(NULL);
    db_end end = wish->query.number != NULL ? count_looked_at(w, values, out) : DB_DONE;
    /* Each value has to stand somewhere, whatever the order. */
    const char *sql = arena_text(scratch, "%s%s%s", ROW THAT_FIT, from_the_end(wish->order),
                                 " LIMIT $14::bigint + 0 * cardinality($15::text[])) AS c");
    if (end == DB_DONE) end = db_run(w, sql, values, QUERY_VALUES + 2, &rows);
    if (end == DB_DONE) take_rows(root, rows, out);
    case_list_sort(out, wish->order);
    db_free(rows);
    return end;
}

exit_status database_list(const char *root, const case_query *query, case_list *out)
{
    case_overview o = {.keep = NULL};
    const case_wish wish = {
        .query = *query, .order = ORDER_BEGAN, .limit = SIZE_MAX, .lists = true};
    const exit_status status = database_overview(root, &wish, &o);
    *out = o.list;
    return status;
}

static db_end read_parts(db_session *w, arena *scratch, const char *root, const case_wish *wish,
                         case_overview *out)
{
    db_end end = wish->lists ? read_list(w, scratch, root, wish, &out->list) : DB_DONE;
    if (end == DB_DONE && wish->counts) end = database_count(w, scratch, &wish->query, out);
    if (end == DB_DONE && wish->months) end = database_by_month(w, scratch, &wish->query, out);
    return end;
}

exit_status database_overview(const char *root, const case_wish *wish, case_overview *out)
{
    db_session *w;
    exit_status status = db_open(root, &w);
    if (status != EXIT_DONE) return status;
    arena *scratch = host_arena();
    const db_end end = read_parts(w, scratch, root, wish, out);
    out->shown = out->list;
    status = end == DB_DONE ? EXIT_DONE : db_say(w, end, "the cases can't be listed");
    arena_free(scratch);
    db_close(w);
    return status;
}
