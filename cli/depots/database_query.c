/* A query over the rows of cases as values that a statement takes. */
#include <string.h>

#include "depots/database_parts.h"
#include "host/memory.h"

const char *query_states(arena *keep, unsigned states)
{
    text_builder b = {.keep = keep};
    text_add(&b, str_of("{"));
    for (int i = 0; i < TT_CASE_STATES; i++)
        if ((states >> i & 1) != 0)
            text_addf(&b, "%s%s", b.length > 1 ? "," : "", tt_case_state_name((tt_case_state)i));
    text_add(&b, str_of("}"));
    return text_done(&b).p;
}

static const char *kinds_of(arena *keep, unsigned kinds)
{
    text_builder b = {.keep = keep};
    text_add(&b, str_of("{"));
    for (int i = 0; i < TT_CASE_KINDS; i++)
        if ((kinds >> i & 1) != 0)
            text_addf(&b, "%s%s", b.length > 1 ? "," : "", tt_case_kind_name((tt_case_kind)i));
    text_add(&b, str_of("}"));
    return text_done(&b).p;
}

/* Words to look for, one a line. */
static const char *words_of(arena *keep, const case_query *q)
{
    text_builder b = {.keep = keep};
    for (size_t i = 0; i < q->word_count; i++)
        text_addf(&b, "%s%s", i > 0 ? "\n" : "", q->words[i]);
    return b.length > 0 ? text_done(&b).p : NULL;
}

static const char *digits_of(arena *keep, const char *number)
{
    return number != NULL ? arena_text(keep, "%.*s", (int)strlen(number) - 1, number) : NULL;
}

void query_values(arena *keep, const case_query *q, db_value out[QUERY_VALUES])
{
    const db_value values[QUERY_VALUES] = {db_text(query_states(keep, q->states)),
                                           db_text(kinds_of(keep, q->kinds)),
                                           db_number(keep, q->since),
                                           db_number(keep, q->until),
                                           db_text(digits_of(keep, q->number)),
                                           db_text(q->at),
                                           db_text(q->to),
                                           db_text(q->cause),
                                           db_text(words_of(keep, q)),
                                           q->by_end ? db_number(keep, q->ended_until)
                                                     : db_text(NULL),
                                           db_text(q->book),
                                           db_text(q->site_path),
                                           db_text(q->site_title)};
    memcpy(out, values, sizeof values);
}
