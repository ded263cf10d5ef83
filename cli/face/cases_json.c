/* A list of cases for programs, as docs/cases.schema.json describes it: one JSON object a line. */
#include <stdlib.h>

#include "base/str.h"
#include "face/cases.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "show/case_fields.h"
#include "show/json.h"

static void print_line(FILE *out, arena *keep, const tt_value *value)
{
    const str line = json_write(keep, value, JSON_DIGITS_SHOWN);
    fwrite(line.p, 1, line.n, out);
    fputc('\n', out);
}

/* Names of folders may be no text at all, which JSON has to be. Frees what it is given. */
static const char *as_text(arena *keep, char *made)
{
    char *clean = clean_text(made);
    const char *kept = arena_copy(keep, clean);
    free(clean);
    free(made);
    return kept;
}

/* Null: nothing is kept, or it can't be read. */
static const shown_contact *contact_of(arena *keep, const case_summary *s, exit_status *worst)
{
    case_contact c;
    const exit_status read = case_contact_read(keep, s->folder, &c);
    if (*worst == EXIT_DONE) *worst = read;
    if (read != EXIT_DONE || !case_contact_says_something(&c)) return NULL;
    shown_contact *shown = ARENA_NEW(keep, shown_contact);
    *shown = (shown_contact){c.caller, c.call_back, c.ticket};
    return shown;
}

static tt_value case_value(arena *keep, const way_back *way, const case_summary *s,
                           const shown_contact *contact)
{
    const listed_case listed = {
        .number = s->number,
        .id = s->uuid,
        .folder = as_text(keep, copy_text(s->folder)),
        .go_on = case_is_open(s) ? as_text(keep, go_on_command(way, &(go_on){.number = s->number}))
                                 : NULL,
        .left_out = s->left_out,
        .contact = contact,
        .says = &s->says};
    return listed_case_value(keep, &listed);
}

exit_status print_cases_json(FILE *out, const way_back *way, const case_list *list, bool contacts)
{
    exit_status worst = EXIT_DONE;
    arena *keep = host_arena();
    const arena_mark here = arena_here(keep);
    for (size_t i = 0; i < list->count; i++) {
        const case_summary *s = &list->cases[i];
        const shown_contact *contact = contacts ? contact_of(keep, s, &worst) : NULL;
        const tt_value value = case_value(keep, way, s, contact);
        print_line(out, keep, &value);
        arena_back_to(keep, here);
    }
    arena_free(keep);
    return worst;
}

static shown_spread spread_of(const minutes_spread *m)
{
    return (shown_spread){m->count, m->low, m->median, m->high};
}

static const shown_month *months_of(arena *keep, const month_counts *months)
{
    shown_month *shown = ARENA_ARRAY(keep, shown_month, months->count);
    for (size_t i = 0; i < months->count; i++) {
        const month_count *m = &months->items[i];
        shown[i] = (shown_month){m->month, m->site, m->name, m->text, m->count, m->confirmed};
    }
    return shown;
}

void print_counts_json(FILE *out, const cases_counts *counts, const month_counts *months,
                       size_t failed)
{
    arena *keep = host_arena();
    shown_cause_count *causes = ARENA_ARRAY(keep, shown_cause_count, counts->cause_count);
    shown_counts shown = {.cases = counts->all,
                          .minutes = spread_of(&counts->minutes),
                          .left_out = counts->left_out,
                          .failed = failed};
    for (size_t i = 0; i < counts->cause_count; i++) {
        const cause_count *c = &counts->causes[i];
        causes[i] =
            (shown_cause_count){c->name, c->text, c->count, c->confirmed, spread_of(&c->minutes)};
    }
    for (int i = 0; i < TT_CASE_STATES; i++) shown.states[i] = counts->states[i];
    shown.months = months_of(keep, months);
    shown.months_count = (uint32_t)months->count;
    shown.causes = causes;
    shown.causes_count = (uint32_t)counts->cause_count;
    const tt_value value = counts_value(keep, &shown);
    print_line(out, keep, &value);
    arena_free(keep);
}
