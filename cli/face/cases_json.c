/* A list of cases for programs, as docs/cases.schema.json describes it. */
#include <math.h>
#include <stdlib.h>

#include "face/cases.h"
#include "host/json_parts.h"

enum { CASES_VERSION = 1 };

static void print_line(FILE *out, json_t *line)
{
    json_dumpf(line, out, JSON_COMPACT | JSON_REAL_PRECISION(JSON_DIGITS));
    fputc('\n', out);
    json_decref(line);
}

static json_t *cause_json(const tt_case_summary *s)
{
    if (*s->cause_name == 0 && *s->cause == 0) return json_null();
    json_t *item = json_object();
    json_object_set_new(item, "name", text_or_null(s->cause_name));
    json_object_set_new(item, "text", text_or_null(s->cause));
    json_object_set_new(item, "confirmed", json_boolean(s->confirmed));
    return item;
}

static json_t *complaint_json(const tt_case_summary *s)
{
    if (*s->complaint_name == 0 && *s->said == 0) return json_null();
    json_t *item = json_object();
    json_object_set_new(item, "name", text_or_null(s->complaint_name));
    json_object_set_new(item, "text", text_or_null(s->complaint));
    json_object_set_new(item, "said", text_or_null(s->said));
    return item;
}

static json_t *named_book_json(const tt_case_summary *s)
{
    json_t *item = json_object();
    json_object_set_new(item, "name", text_or_null(s->title));
    json_object_set_new(item, "edition", text_or_null(s->edition));
    json_object_set_new(item, "revision", text_or_null(s->revision));
    json_object_set_new(item, "folder", text_or_null(s->book));
    return item;
}

static json_t *holder_json(const tt_case_summary *s)
{
    if (*s->writer == 0) return json_null();
    json_t *item = json_object();
    json_object_set_new(item, "writer", json_string(s->writer));
    json_object_set_new(item, "person", text_or_null(s->person));
    json_object_set_new(item, "place", text_or_null(s->place));
    json_object_set_new(item, "since", text_or_null(s->since));
    json_object_set_new(item, "left", json_boolean(!s->held));
    json_object_set_new(item, "for", text_or_null(s->to));
    json_object_set_new(item, "until", text_or_null(s->until));
    json_object_set_new(item, "note", text_or_null(s->note));
    return item;
}

static json_t *stands_json(const case_summary *s)
{
    if (s->says.stands_is == TT_STANDS_NOTHING) return json_null();
    json_t *item = json_object();
    json_object_set_new(item, "is", json_string(s->says.stands_is == TT_STANDS_NEXT ? "next" : "last"));
    json_object_set_new(item, "text", json_string(stands_words(s)));
    return item;
}

static json_t *case_json(const way_back *way, const case_summary *s)
{
    const tt_case_summary *says = &s->says;
    bool open = case_is_open(s);
    char *command = open ? go_on_command(way, &(go_on){.number = s->number}) : NULL;
    json_t *item = json_object();
    json_object_set_new(item, "version", json_integer(CASES_VERSION));
    json_object_set_new(item, "case", json_string(s->number));
    json_object_set_new(item, "id", json_string(s->uuid));
    json_object_set_new(item, "folder", json_string(s->folder));
    json_object_set_new(item, "state", json_string(tt_case_state_name(says->state)));
    json_object_set_new(item, "began", text_or_null(says->began));
    json_object_set_new(item, "last", text_or_null(says->last));
    json_object_set_new(item, "ended", text_or_null(says->ended));
    json_object_set_new(item, "minutes", number_json(says->minutes));
    json_object_set_new(item, "rulebook", named_book_json(says));
    json_object_set_new(item, "site", text_or_null(says->site));
    json_object_set_new(item, "complaint", complaint_json(says));
    json_object_set_new(item, "cause", cause_json(says));
    json_object_set_new(item, "cause_disputed", json_boolean(says->disputed));
    json_object_set_new(item, "answers", json_integer(says->answers));
    json_object_set_new(item, "tried", json_integer(says->tried));
    json_object_set_new(item, "stands", open ? stands_json(s) : json_null());
    json_object_set_new(item, "holder", holder_json(says));
    json_object_set_new(item, "go_on", text_or_null(command));
    json_object_set_new(item, "left_out", json_integer(s->left_out));
    free(command);
    return item;
}

void print_cases_json(FILE *out, const way_back *way, const case_list *list)
{
    for (size_t i = 0; i < list->count; i++)
        print_line(out, case_json(way, &list->cases[i]));
}

static json_t *spread_json(const minutes_spread *m)
{
    json_t *item = json_object();
    json_object_set_new(item, "count", json_integer((json_int_t)m->count));
    json_object_set_new(item, "low", number_json(m->low));
    json_object_set_new(item, "median", number_json(m->median));
    json_object_set_new(item, "high", number_json(m->high));
    return item;
}

static json_t *cause_count_json(const cause_count *c)
{
    json_t *item = json_object();
    json_object_set_new(item, "name", text_or_null(c->name));
    json_object_set_new(item, "text", text_or_null(c->text));
    json_object_set_new(item, "count", json_integer((json_int_t)c->count));
    json_object_set_new(item, "confirmed", json_integer((json_int_t)c->confirmed));
    json_object_set_new(item, "minutes", spread_json(&c->minutes));
    return item;
}

void print_counts_json(FILE *out, const cases_counts *counts, size_t failed)
{
    json_t *item = json_object(), *states = json_object(), *causes = json_array();
    for (int i = 0; i < TT_CASE_STATES; i++)
        json_object_set_new(states, tt_case_state_name((tt_case_state)i), json_integer((json_int_t)counts->states[i]));
    for (size_t i = 0; i < counts->cause_count; i++)
        json_array_append_new(causes, cause_count_json(&counts->causes[i]));
    json_object_set_new(item, "version", json_integer(CASES_VERSION));
    json_object_set_new(item, "cases", json_integer((json_int_t)counts->all));
    json_object_set_new(item, "states", states);
    json_object_set_new(item, "causes", causes);
    json_object_set_new(item, "minutes", spread_json(&counts->minutes));
    json_object_set_new(item, "left_out", json_integer((json_int_t)counts->left_out));
    json_object_set_new(item, "failed", json_integer((json_int_t)failed));
    print_line(out, item);
}
