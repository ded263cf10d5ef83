/* Lists of cases from a database: what is asked for is a query over the cases' rows, and no record is read. */
#include <stdlib.h>
#include <string.h>

#include "cases/database_parts.h"
#include "cases/summary_row.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"

/* "{open,on-hold}" */
static const char *states_of(arena *keep, unsigned states)
{
    text_builder b = {.keep = keep};
    text_add(&b, str_of("{"));
    for (int i = 0; i < TT_CASE_STATES; i++)
        if ((states >> i & 1) != 0) text_addf(&b, "%s%s", b.length > 1 ? "," : "", tt_case_state_name((tt_case_state)i));
    text_add(&b, str_of("}"));
    return text_done(&b).p;
}

static const char *kinds_of(arena *keep, unsigned kinds)
{
    text_builder b = {.keep = keep};
    text_add(&b, str_of("{"));
    for (int i = 0; i < TT_CASE_KINDS; i++)
        if ((kinds >> i & 1) != 0) text_addf(&b, "%s%s", b.length > 1 ? "," : "", tt_case_kind_name((tt_case_kind)i));
    text_add(&b, str_of("}"));
    return text_done(&b).p;
}

/* Words to look for, one a line. */
static const char *words_of(arena *keep, const case_query *q)
{
    text_builder b = {.keep = keep};
    for (size_t i = 0; i < q->word_count; i++) text_addf(&b, "%s%s", i > 0 ? "\n" : "", q->words[i]);
    return b.length > 0 ? text_done(&b).p : NULL;
}

static const char *digits_of(arena *keep, const char *number)
{
    return number != NULL ? arena_text(keep, "%.*s", (int)strlen(number) - 1, number) : NULL;
}

enum { QUERY_VALUES = 10 };

static void query_values(arena *keep, const case_query *q, db_value out[QUERY_VALUES])
{
    const db_value values[QUERY_VALUES] = {db_text(states_of(keep, q->states)),
                                           db_text(kinds_of(keep, q->kinds)),
                                           db_number(keep, q->since),
                                           db_number(keep, q->until),
                                           db_text(digits_of(keep, q->number)),
                                           db_text(q->at),
                                           db_text(q->to),
                                           db_text(q->cause),
                                           db_text(words_of(keep, q)),
                                           q->by_end ? db_number(keep, q->ended_until) : db_text(NULL)};
    memcpy(out, values, sizeof values);
}

#define OF_ITS_NAME " FROM telltale.cases c WHERE records > 0 AND began_at BETWEEN $3::bigint AND $4::bigint" \
    " AND ($5::text IS NULL OR (right(digits, 6) = right($5::text, 6) AND right(digits, length($5::text)) = $5::text))"
#define THAT_FIT OF_ITS_NAME " AND state = ANY ($1::text[]) AND kind = ANY ($2::text[])" \
    " AND ($6::text IS NULL OR position($6::text IN site_words) > 0)" \
    " AND ($7::text IS NULL OR position($7::text IN to_words) > 0)" \
    " AND ($8::text IS NULL OR position($8::text IN cause_words) > 0)" \
    " AND ($10::bigint IS NULL OR ended_at <= $10::bigint)" \
    " AND ($9::text IS NULL OR NOT EXISTS (SELECT FROM regexp_split_to_table($9::text, E'\\n') AS w (word) WHERE position(word IN words) = 0))"

/* Without what is only there to be searched. */
#define ROW "SELECT (to_jsonb(c) - ARRAY['words', 'site_words', 'to_words', 'cause_words', 'digits'])::text"

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
    const db_end end = db_run(w, "SELECT count(*)::text, min($1::text), min($2::text)" OF_ITS_NAME, values, 5, &rows);
    if (end == DB_DONE) out->looked_at = db_cell_number(rows, 0, 0);
    db_free(rows);
    return end;
}

exit_status database_list(const char *root, const case_query *query, case_list *out)
{
    db_session *w;
    db_rows *rows = NULL;
    db_value values[QUERY_VALUES];
    exit_status status = db_open(root, &w);
    if (status != EXIT_DONE) return status;
    arena *scratch = host_arena();
    query_values(scratch, query, values);
    db_end end = query->number != NULL ? count_looked_at(w, values, out) : DB_DONE;
    if (end == DB_DONE) end = db_run(w, ROW THAT_FIT " ORDER BY id", values, QUERY_VALUES, &rows);
    if (end == DB_DONE) take_rows(root, rows, out);
    status = end == DB_DONE ? EXIT_DONE : db_say(w, end, "the cases can't be listed");
    db_free(rows);
    arena_free(scratch);
    db_close(w);
    return status;
}
