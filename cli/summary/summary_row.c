#include "summary/summary_row.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/value.h"
#include "host/fold_letters.h"
#include "host/memory.h"
#include "host/plain_text.h"

enum { EXACT_DIGITS = 17, LONGEST_ROW = 16 << 20 };

static void put_folded(value_builder *b, const char *key, const char *text)
{
    char *folded = fold_letters(text);
    value_put(b, key, value_of_str(b->keep, str_of(folded)));
    free(folded);
}

static void put_words(value_builder *b, const tt_case_summary *says, const case_findable *by)
{
    put_folded(b, "site_words", says->site);
    put_folded(b, "to_words", says->to);
    put_folded(b, "cause_words", arena_text(b->keep, "%s\n%s", says->cause, says->cause_name));
    value_put_text(b, "words", by->words);
    value_put_text(b, "site_path", by->site_path);
}

static void put_moment(value_builder *b, const char *key, const char *time)
{
    tt_moment moment;
    value_put(b, key,
              tt_moment_read(time, &moment) ? value_of_number((double)moment.milliseconds)
                                            : value_null);
}

static void put_figures(value_builder *b, const case_summary *s)
{
    const tt_case_summary *says = &s->says;
    value_put_text(b, "state", tt_case_state_name(says->state));
    value_put_text(b, "kind", tt_case_kind_name(says->kind));
    value_put_text(b, "every", tt_every_name(says->every));
    value_put_number(b, "last_moment", (double)says->last_moment);
    put_moment(b, "ended_at", says->ended);
    put_moment(b, "until_at", says->until);
    value_put_number(b, "minutes", says->minutes); /* a NAN gives null */
    value_put_bool(b, "confirmed", says->confirmed);
    value_put_bool(b, "disputed", says->disputed);
    value_put_bool(b, "danger", says->danger);
    value_put_bool(b, "held", says->held);
    value_put_number(b, "stands_is", says->stands_is);
    value_put_number(b, "answers", says->answers);
    value_put_number(b, "tried", says->tried);
    value_put_number(b, "left_out", s->left_out);
}

const char *summary_row_text(arena *keep, const case_summary *s, const case_findable *by,
                             size_t records)
{
    char *json = NULL;
    value_builder b = value_map(keep);
#define PUT_TEXT(name) value_put_text(&b, #name, s->says.name);
    TT_SUMMARY_TEXTS(PUT_TEXT)
#undef PUT_TEXT
    value_put_number(&b, "records", (double)records);
    value_put_number(&b, "meaning", SUMMARY_MEANING);
    put_figures(&b, s);
    put_words(&b, &s->says, by);
    const tt_value row = value_done(&b);
    if (tt_value_json(&row, EXACT_DIGITS, &json) != TT_OK) memory_ended();
    const char *kept = arena_copy(keep, json);
    free(json);
    return kept;
}

/* ---- and back ---- */

static const char *text_in(const tt_value *row, const char *key)
{
    const char *text = value_text(row, key);
    return text != NULL ? text : "";
}

static double number_in(const tt_value *row, const char *key, double missing)
{
    double number = missing;
    value_number(row, key, &number);
    return number;
}

static tt_case_state state_in(const tt_value *row)
{
    int state = 0;
    while (state < TT_CASE_UNREADABLE &&
           strcmp(tt_case_state_name((tt_case_state)state), text_in(row, "state")) != 0)
        state++;
    return (tt_case_state)state;
}

static void read_figures(const tt_value *row, case_summary *out)
{
    tt_case_summary *says = &out->says;
    says->state = state_in(row);
    tt_case_kind_find(text_in(row, "kind"), &says->kind);
    tt_every_find(text_in(row, "every"), &says->every);
    says->last_moment = (int64_t)number_in(row, "last_moment", 0);
    says->minutes = number_in(row, "minutes", NAN);
    says->confirmed = value_truth(row, "confirmed");
    says->disputed = value_truth(row, "disputed");
    says->danger = value_truth(row, "danger");
    says->held = value_truth(row, "held");
    says->stands_is = (tt_stands)number_in(row, "stands_is", 0);
    says->answers = (uint32_t)number_in(row, "answers", 0);
    says->tried = (uint32_t)number_in(row, "tried", 0);
    out->left_out = (unsigned)number_in(row, "left_out", 0);
}

static bool read_name(const tt_value *row, case_summary *out)
{
    const char *id = text_in(row, "id"), *number = text_in(row, "number");
    if (!tt_is_case_id(id) || strlen(number) >= TT_CASE_NUMBER_SIZE) return false;
    memcpy(out->uuid, id, TT_CASE_ID_SIZE);
    memcpy(out->number, number, strlen(number) + 1);
    return true;
}

bool summary_row_read(const char *json, size_t length, case_summary *out)
{
    tt_document *d = NULL;
    *out = (case_summary){.has_text = true};
    if (tt_document_read(json, length, LONGEST_ROW, &d) == TT_NO_MEMORY) memory_ended();
    const tt_value *row = tt_document_value(d);
    const bool fine = row != NULL && read_name(row, out);
    if (fine) {
        read_figures(row, out);
#define READ_TEXT(name) out->says.name = text_in(row, #name);
        TT_SUMMARY_TEXTS(READ_TEXT)
#undef READ_TEXT
        case_summary_keep(out);
    }
    tt_document_free(d);
    return fine;
}
