/* Where the case stands, for a sheet. */
#include <stdlib.h>
#include <string.h>

#include "ask/case_replay.h"
#include "ask/sheet_case.h"
#include "face/piece_order.h"
#include "face/sheet.h"
#include "face/wordings.h"
#include "host/begin_case.h"
#include "host/json_parts.h"
#include "host/plain_text.h"

typedef struct gathering {
    ask *a;
    const sheet_steps *steps;
    const tt_view *view;
    const tt_tried *tried;
    uint32_t tried_count;
    const tt_spare *spares;
    uint32_t spare_count;
} gathering;

static json_t *texts_json(const char *const *texts, uint32_t count)
{
    json_t *all = json_array();
    for (uint32_t i = 0; i < count; i++) json_array_append_new(all, clean_json(texts[i]));
    return all;
}

/* ---- the case and what it rests on ---- */

static const char *how_closed(const case_file *file)
{
    if (!case_is_closed(file)) return NULL;
    const char *how = NULL;
    for (size_t i = 0; i < case_file_count(file); i++)
        if (strcmp(case_file_record(file, i)->kind, "close") == 0)
            how = sheet_text(case_file_record(file, i)->data, "how");
    return how;
}

static json_t *time_of_record(const case_file *file, size_t index)
{
    return index < case_file_count(file) ? clean_json(case_file_record(file, index)->time)
                                         : json_null();
}

/* Who was called when it was closed without a cure. */
static json_t *handed_to(const gathering *g)
{
    const char *how = how_closed(g->a->file);
    bool handed = how != NULL && (strcmp(how, "call") == 0 || strcmp(how, "stop") == 0);
    return clean_json(handed ? g->view->call_role : NULL);
}

/* The cause, if somebody has said what it was. */
static json_t *confirmed_json(const gathering *g)
{
    const json_t *said = case_confirmed(g->a->file);
    const char *name = json_string_value(json_object_get(said, "cause"));
    if (name == NULL) return json_null();
    if (strcmp(sheet_text(said, "how"), "not-listed") == 0)
        return json_string(cause_words(&(tt_cause){.name = NULL}));
    for (uint32_t i = 0; i < g->view->cause_count; i++)
        if (g->view->causes[i].name != NULL && strcmp(g->view->causes[i].name, name) == 0)
            return clean_json(g->view->causes[i].text);
    return clean_json(name);
}

static json_t *case_json(const gathering *g)
{
    const ask *a = g->a;
    const json_t *begun = case_beginning(a->file);
    json_t *item = json_object();
    json_object_set_new(item, "number", json_string(case_file_number(a->file)));
    json_object_set_new(item, "begun", time_of_record(a->file, 0));
    json_object_set_new(item, "last", time_of_record(a->file, case_file_count(a->file) - 1));
    json_object_set_new(item, "closed", clean_json(how_closed(a->file)));
    json_object_set_new(item, "handed_to", handed_to(g));
    json_object_set_new(item, "confirmed", confirmed_json(g));
    json_object_set_new(item, "role",
                        clean_json(json_string_value(json_object_get(begun, "role"))));
    return item;
}

static json_t *language_json(const ask *a)
{
    const char *asked = a->line->values[OPTION_LANGUAGE];
    if (asked == NULL)
        asked = json_string_value(json_object_get(case_beginning(a->file), "language"));
    return clean_json(asked != NULL ? asked : tt_book_describe(a->book.book).language);
}

static json_t *sheet_book_json(const ask *a)
{
    tt_book_info info = tt_book_describe(a->book.book);
    json_t *item = json_object();
    json_object_set_new(item, "name", clean_json(info.title));
    json_object_set_new(item, "edition", clean_json(info.edition));
    json_object_set_new(item, "revision", json_string(a->book.revision));
    json_object_set_new(item, "language", language_json(a));
    json_object_set_new(item, "same_as_in_case",
                        json_boolean(strcmp(case_last_revision(a->file), a->book.revision) == 0));
    return item;
}

static json_t *sheet_site_json(const ask *a)
{
    tt_book_info info = tt_book_describe(a->book.book);
    if (!info.has_site) return json_null();
    json_t *item = json_object();
    json_object_set_new(item, "title", clean_json(info.site_title));
    json_object_set_new(item, "revision", text_or_null(a->book.site_revision));
    return item;
}

static json_t *about_json(const ask *a, const tt_view *view)
{
    json_t *all = json_array();
    uint32_t *order = pieces_in_order(a->book.book);
    for (uint32_t i = 0; i < tt_piece_count(a->book.book); i++) {
        bool named = false;
        for (uint32_t f = 0; f < view->focus_count; f++)
            named = named || view->focus[f] == order[i];
        if (named)
            json_array_append_new(all, clean_json(tt_piece_show(a->book.book, order[i]).text));
    }
    free(order);
    return all;
}

/* ---- what is known ---- */

static json_t *fact_json(tt_case *c, const tt_fact *fact)
{
    tt_question question;
    bool asked =
        fact->question != TT_NONE && tt_question_show(c, fact->question, &question) == TT_OK;
    bool plain = asked || strcmp(fact->value, "shown") == 0 || strcmp(fact->value, "yes") == 0;
    json_t *item = json_object();
    json_object_set_new(item, "name", clean_json(fact->name));
    json_object_set_new(item, "text", clean_json(asked ? question.ask : fact->text));
    json_object_set_new(item, "value",
                        plain && !asked ? json_null()
                                        : clean_json(asked ? fact->text : fact->value));
    json_object_set_new(item, "from", json_string(fact->from));
    json_object_set_new(item, "source",
                        *fact->source != 0 ? clean_json(fact->source) : json_null());
    json_object_set_new(item, "reckoned", json_boolean(asked && question.kind == TT_QUANTITY));
    json_object_set_new(item, "stale", json_boolean(fact->stale));
    return item;
}

static json_t *facts_json(const gathering *g)
{
    json_t *all = json_array();
    for (uint32_t i = 0; i < g->view->fact_count; i++)
        json_array_append_new(all, fact_json(g->a->c, &g->view->facts[i]));
    return all;
}

/* ---- causes ---- */

static json_t *causes_json(const tt_view *view)
{
    json_t *all = json_array();
    for (uint32_t i = 0; i < view->cause_count; i++) {
        json_t *item = json_object();
        json_object_set_new(item, "name", clean_json(view->causes[i].name));
        json_object_set_new(item, "text", clean_json(cause_words(&view->causes[i])));
        json_object_set_new(item, "means", clean_json(view->causes[i].means));
        json_object_set_new(item, "chance", number_json(view->causes[i].chance));
        json_array_append_new(all, item);
    }
    return all;
}

static json_t *pairs_json(const tt_view *view)
{
    json_t *all = json_array();
    for (uint32_t i = 0; view->pairs_matter && i < view->pair_count; i++) {
        json_t *item = json_object();
        json_object_set_new(item, "first", clean_json(view->pairs[i].first_text));
        json_object_set_new(item, "second", clean_json(view->pairs[i].second_text));
        json_object_set_new(item, "chance", number_json(view->pairs[i].chance));
        json_array_append_new(all, item);
    }
    return all;
}

/* ---- fixes ---- */

static const char *outcome_of(tt_case *c, const tt_tried *tried)
{
    tt_fix_plan plan;
    bool adjusts = tt_fix_show(c, tried->fix, &plan) == TT_OK && plan.adjust.reading != TT_NONE;
    bool some_steps = adjusts && tried->was_put_back && tried->outcome == TT_NO_CHANGE;
    return some_steps ? "the trouble was not gone"
                      : outcome_words(tried->outcome); /* some may have made it better */
}

static json_t *one_tried_json(const ask *a, const tt_tried *tried)
{
    json_t *item = json_object();
    char *change = change_words(a, tried);
    json_object_set_new(item, "name", clean_json(tried->name));
    json_object_set_new(item, "text", clean_json(tried->text));
    json_object_set_new(item, "outcome", json_string(outcome_of(a->c, tried)));
    json_object_set_new(item, "under_way", json_boolean(tried->under_way));
    json_object_set_new(item, "was_put_back", json_boolean(tried->was_put_back));
    json_object_set_new(item, "different", clean_json(change));
    json_object_set_new(item, "put_back",
                        *tried->put_back != 0 ? clean_json(tried->put_back) : json_null());
    json_object_set_new(item, "cured", *tried->cured != 0 ? clean_json(tried->cured) : json_null());
    free(change);
    return item;
}

static json_t *tried_json(const gathering *g)
{
    json_t *all = json_array();
    for (uint32_t i = 0; i < g->tried_count; i++)
        json_array_append_new(all, one_tried_json(g->a, &g->tried[i]));
    return all;
}

static json_t *fix_json(tt_case *c, const tt_fix *fix)
{
    tt_fix_plan plan;
    json_t *item = json_object();
    json_object_set_new(item, "name", clean_json(fix->name));
    json_object_set_new(item, "text", clean_json(fix->text));
    json_object_set_new(item, "risk", json_string(fix->risk));
    json_object_set_new(item, "chance", number_json(fix->chance));
    json_object_set_new(item, "minutes", number_json(fix->minutes));
    json_object_set_new(item, "role", clean_json(fix->role));
    json_object_set_new(item, "standing", json_string(standing_words(fix->standing)));
    bool shown = tt_fix_show(c, fix->fix, &plan) == TT_OK;
    json_object_set_new(item, "needs",
                        texts_json(shown ? plan.parts : NULL, shown ? plan.part_count : 0));
    return item;
}

static json_t *fixes_json(const gathering *g)
{
    json_t *all = json_array();
    for (uint32_t i = 0; i < g->view->fix_count; i++)
        json_array_append_new(all, fix_json(g->a->c, &g->view->fixes[i]));
    return all;
}

static json_t *parts_json(const gathering *g)
{
    json_t *all = json_array();
    for (uint32_t i = 0; i < g->spare_count; i++) {
        json_t *item = json_object();
        json_object_set_new(item, "text", clean_json(g->spares[i].text));
        json_object_set_new(item, "chance", number_json(g->spares[i].chance));
        json_array_append_new(all, item);
    }
    return all;
}

/* ---- what comes next ---- */

/* Of a case that is only looked at: nobody is asked for more. */
static const char *const step_names[] = {
    [TT_ASK] = "ask",   [TT_FIX] = "fix",        [TT_CALL] = "call",
    [TT_STOP] = "stop", [TT_CLOSED] = "nothing", [TT_PUT_BACK] = "put back"};

static json_t *next_question_json(const gathering *g)
{
    tt_question question;
    bool asks = g->view->step == TT_ASK &&
                tt_question_show(g->a->c, g->view->next.question, &question) == TT_OK;
    return asks ? clean_json(question.ask) : json_null();
}

/* With all that keeps whoever does it safe. */
static json_t *next_fix_json(const gathering *g)
{
    tt_fix_plan plan;
    bool fixes = g->view->step == TT_FIX || g->view->step == TT_PUT_BACK;
    if (!fixes || tt_fix_show(g->a->c, g->view->fix, &plan) != TT_OK) return json_null();
    json_t *item = json_object();
    json_object_set_new(item, "name", clean_json(plan.name));
    json_object_set_new(item, "text",
                        clean_json(g->view->step == TT_PUT_BACK ? plan.put_back : plan.text));
    json_object_set_new(item, "hazards", texts_json(plan.safety.hazards, plan.safety.hazard_count));
    json_object_set_new(item, "isolate",
                        texts_json(plan.safety.isolate, plan.safety.isolate_count));
    json_object_set_new(item, "protect",
                        texts_json(plan.safety.protect, plan.safety.protect_count));
    json_object_set_new(item, "steps", texts_json(plan.steps, plan.step_count));
    json_object_set_new(item, "needs", texts_json(plan.parts, plan.part_count));
    return item;
}

static json_t *next_json(const gathering *g)
{
    json_t *item = json_object();
    json_object_set_new(item, "do", json_string(step_names[g->view->step]));
    json_object_set_new(item, "question", next_question_json(g));
    json_object_set_new(item, "fix", next_fix_json(g));
    json_object_set_new(item, "stop", clean_json(g->view->stop_text));
    json_object_set_new(item, "call", clean_json(g->view->call_role));
    return item;
}

/* ---- all of it ---- */

static json_t *unsettled_json(ask *a)
{
    size_t count;
    char **texts = unsettled_words(a, &count);
    json_t *all = json_array();
    for (size_t i = 0; i < count; i++) {
        json_array_append_new(all, clean_json(texts[i]));
        free(texts[i]);
    }
    free(texts);
    return all;
}

static json_t *whole_sheet(const gathering *g)
{
    json_t *all = json_object();
    json_object_set_new(all, "version", json_integer(1));
    json_object_set_new(all, "case", case_json(g));
    json_object_set_new(all, "rulebook", sheet_book_json(g->a));
    json_object_set_new(all, "site", sheet_site_json(g->a));
    json_object_set_new(all, "about", about_json(g->a, g->view));
    json_object_set(all, "steps", g->steps->items);
    json_object_set_new(all, "to_settle", unsettled_json(g->a));
    json_object_set_new(all, "facts", facts_json(g));
    json_object_set_new(all, "causes", causes_json(g->view));
    json_object_set_new(all, "not_listed_leads", json_boolean(g->view->not_listed_leads));
    json_object_set_new(all, "all_ruled_out", json_boolean(g->view->all_ruled_out));
    json_object_set_new(all, "two_faults", number_json(g->view->two_faults));
    json_object_set_new(all, "pairs", pairs_json(g->view));
    json_object_set_new(all, "tried", tried_json(g));
    json_object_set(all, "cautions", g->steps->cautions);
    json_object_set_new(all, "next", next_json(g));
    json_object_set_new(all, "fixes", fixes_json(g));
    json_object_set_new(all, "parts", parts_json(g));
    return all;
}

json_t *sheet_of_case(ask *a, const sheet_steps *steps)
{
    gathering g = {.a = a, .steps = steps};
    tt_status status = tt_look(a->c, &g.view);
    if (status == TT_OK) status = tt_tried_fixes(a->c, &g.tried, &g.tried_count);
    if (status == TT_OK) status = tt_spare_parts(a->c, &g.spares, &g.spare_count);
    return status_of(status) == EXIT_DONE ? whole_sheet(&g) : NULL;
}
