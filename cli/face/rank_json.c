#include "face/rank_json.h"

#include <assert.h>
#include <jansson.h>
#include <string.h>

#include "face/standing_json.h"
#include "host/json_parts.h"

static json_t *pair_json(const tt_pair *pair)
{
    json_t *item = json_object(), *names = json_array();
    json_array_append_new(names, json_string(pair->first));
    json_array_append_new(names, json_string(pair->second));
    json_object_set_new(item, "names", names);
    json_object_set_new(item, "chance", number_json(pair->chance));
    return item;
}

static json_t *next_json(tt_case *c, const tt_next *next)
{
    tt_question question;
    if (next->question == TT_NONE || tt_question_show(c, next->question, &question) != TT_OK)
        return json_null();
    json_t *item = json_object();
    /* A sum of differences: what tells nothing may come out as a hair below nothing. */
    json_object_set_new(item, "question", json_string(question.name));
    json_object_set_new(item, "ask", json_string(question.ask));
    json_object_set_new(item, "bits", number_json(next->bits > 0 ? next->bits : 0));
    json_object_set_new(item, "minutes", number_json(next->minutes));
    json_object_set_new(item, "saves_minutes", number_json(next->saves_minutes));
    return item;
}

static json_t *stop_json(const tt_view *view)
{
    if (view->stop_text == NULL) return json_null();
    json_t *item = json_object();
    json_object_set_new(item, "text", json_string(view->stop_text));
    json_object_set_new(item, "call", text_or_null(view->call_role));
    return item;
}

/* What is wanted of whoever asks: an answer to it, or a safe one in place of the one that was given. */
static json_t *gate_json(tt_case *c, const tt_gate *gate)
{
    tt_question question;
    json_t *item = json_object();
    bool named = gate->question != TT_NONE && tt_question_show(c, gate->question, &question) == TT_OK;
    json_object_set_new(item, "open", json_boolean(gate->state == TT_GATE_OPEN));
    json_object_set_new(item, "question", named ? json_string(question.name) : json_null());
    return item;
}

static const char *step_name(tt_step step)
{
    return step == TT_ASK ? "ask" : step == TT_FIX ? "fix" : "call";
}

/* An array of `count` items, each made by `make`. */
#define ARRAY_OF(all, make, items, count) \
    for (uint32_t index = 0; index < (count); index++) \
    json_array_append_new(all, make(&(items)[index]))

void print_rank_json(FILE *out, const opened_book *book, tt_case *c, const tt_view *view)
{
    json_t *facts = json_array(), *causes = json_array(), *pairs = json_array(),
           *fixes = json_array();
    json_t *cautions = json_array(), *all = json_object();
    ARRAY_OF(facts, fact_json, view->facts, view->fact_count);
    ARRAY_OF(causes, cause_json, view->causes, view->cause_count);
    ARRAY_OF(pairs, pair_json, view->pairs, view->pair_count);
    ARRAY_OF(fixes, fix_json, view->fixes, view->fix_count);
    ARRAY_OF(cautions, caution_json, view->cautions, view->caution_count);
    json_object_set_new(all, "version", json_integer(1));
    json_object_set_new(all, "rulebook", book_json(book));
    json_object_set_new(all, "site", site_json(book));
    json_object_set_new(all, "focus", focus_json(book->book, view));
    json_object_set_new(all, "facts", facts);
    json_object_set_new(all, "causes", causes);
    json_object_set_new(all, "pairs", pairs);
    json_object_set_new(all, "two_faults", number_json(view->two_faults));
    json_object_set_new(all, "next", next_json(c, &view->next));
    json_object_set_new(all, "fixes", fixes);
    json_object_set_new(all, "gate", gate_json(c, &view->gate));
    json_object_set_new(all, "do_next", json_string(step_name(view->step)));
    json_object_set_new(all, "cautions", cautions);
    json_object_set_new(all, "stop", stop_json(view));
    json_dumpf(all, out, JSON_INDENT(2) | JSON_REAL_PRECISION(JSON_DIGITS));
    fputc('\n', out);
    json_decref(all);
}
