/* Where the case stands, for a sheet. */
#include <stdlib.h>
#include <string.h>

#include "base/value.h"
#include "face/piece_order.h"
#include "face/sheet.h"
#include "face/wordings.h"
#include "host/begin_case.h"
#include "host/json_parts.h"
#include "host/plain_text.h"
#include "verb/sheet_case.h"

typedef struct gathering {
    seen_case *seen;
    tt_case *c;
    const char *language;
    tt_confirmation cause;
    tt_history history;
    const char *const *unsettled;
    uint32_t unsettled_count;
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

/* As the record that closed it says; null: it is open. */
static const char *how_closed(const seen_case *seen)
{
    static const char *const how[TT_CASE_STATES] = {
        [TT_CASE_CLOSED] = "gone", [TT_CASE_CALLED] = "call", [TT_CASE_STOPPED] = "stop", [TT_CASE_MADE_SAFE] = "made-safe"};
    return how[seen->says.state];
}

/* Who was called when it was closed without a cure. */
static json_t *handed_to(const gathering *g)
{
    tt_case_state state = g->seen->says.state;
    return clean_json(state == TT_CASE_CALLED || state == TT_CASE_STOPPED ? g->view->call_role : NULL);
}

/* The cause, if somebody has said what it was. */
static json_t *confirmed_json(const gathering *g)
{
    tt_entry said;
    if (g->cause.said != TT_CAUSE_CONFIRMED || tt_journal_entry(g->seen->journal, g->cause.entry, &said) != TT_OK)
        return json_null();
    if (strcmp(seen_case_text(said.record->data, "how"), "not-listed") == 0)
        return json_string(cause_words(&(tt_cause){.name = NULL}));
    for (uint32_t i = 0; i < g->view->cause_count; i++)
        if (g->view->causes[i].name != NULL && strcmp(g->view->causes[i].name, g->cause.cause) == 0)
            return clean_json(g->view->causes[i].text);
    return clean_json(g->cause.cause);
}

static json_t *case_json(const gathering *g)
{
    const seen_case *seen = g->seen;
    json_t *item = json_object();
    json_object_set_new(item, "number", json_string(case_store_number(seen->store)));
    json_object_set_new(item, "begun", clean_json(seen->says.began));
    json_object_set_new(item, "last", clean_json(seen->says.last));
    json_object_set_new(item, "closed", clean_json(how_closed(seen)));
    json_object_set_new(item, "handed_to", handed_to(g));
    json_object_set_new(item, "confirmed", confirmed_json(g));
    json_object_set_new(item, "role", clean_json(value_text(seen->places.begin, "role")));
    return item;
}

static json_t *language_json(const gathering *g)
{
    const char *asked = g->language;
    if (asked == NULL) asked = value_text(g->seen->places.begin, "language");
    return clean_json(asked != NULL ? asked : tt_book_describe(g->seen->book.book).language);
}

static json_t *sheet_book_json(const gathering *g)
{
    const opened_book *book = &g->seen->book;
    tt_book_info info = tt_book_describe(book->book);
    json_t *item = json_object();
    json_object_set_new(item, "name", clean_json(info.title));
    json_object_set_new(item, "edition", clean_json(info.edition));
    json_object_set_new(item, "revision", json_string(book->revision));
    json_object_set_new(item, "language", language_json(g));
    json_object_set_new(item, "same_as_in_case", json_boolean(strcmp(g->seen->places.revision, book->revision) == 0));
    return item;
}

static json_t *sheet_site_json(const opened_book *book)
{
    tt_book_info info = tt_book_describe(book->book);
    if (!info.has_site) return json_null();
    json_t *item = json_object();
    json_object_set_new(item, "title", clean_json(info.site_title));
    json_object_set_new(item, "revision", text_or_null(book->site_revision));
    return item;
}

static json_t *about_json(const tt_book *book, const tt_view *view)
{
    json_t *all = json_array();
    uint32_t *order = pieces_in_order(book);
    for (uint32_t i = 0; i < tt_piece_count(book); i++) {
        bool named = false;
        for (uint32_t f = 0; f < view->focus_count; f++) named = named || view->focus[f] == order[i];
        if (named) json_array_append_new(all, clean_json(tt_piece_show(book, order[i]).text));
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
        json_array_append_new(all, fact_json(g->c, &g->view->facts[i]));
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

/* What a fix has left different from before; null: nothing. Freed by the caller. */
static char *different_words(tt_case *c, const tt_tried *tried)
{
    tt_fix_plan plan;
    if (*tried->setting != 0) return copy_text(tried->setting);
    if (tt_fix_show(c, tried->fix, &plan) != TT_OK || plan.adjust.reading != TT_NONE) return NULL;
    bool helped = tried->outcome == TT_GONE || tried->outcome == TT_BETTER;
    bool stays = plan.cannot_put_back ? tried->outcome != TT_COULD_NOT : helped && *plan.put_back != 0;
    return stays ? format_text("%s: done%s", plan.text, plan.cannot_put_back ? ", can't be undone" : "") : NULL;
}

static json_t *one_tried_json(tt_case *c, const tt_tried *tried)
{
    json_t *item = json_object();
    char *different = different_words(c, tried);
    json_object_set_new(item, "name", clean_json(tried->name));
    json_object_set_new(item, "text", clean_json(tried->text));
    json_object_set_new(item, "outcome", json_string(outcome_of(c, tried)));
    json_object_set_new(item, "under_way", json_boolean(tried->under_way));
    json_object_set_new(item, "was_put_back", json_boolean(tried->was_put_back));
    json_object_set_new(item, "different", clean_json(different));
    json_object_set_new(item, "put_back", *tried->put_back != 0 ? clean_json(tried->put_back) : json_null());
    json_object_set_new(item, "cured", *tried->cured != 0 ? clean_json(tried->cured) : json_null());
    free(different);
    return item;
}

static json_t *tried_json(const gathering *g)
{
    json_t *all = json_array();
    for (uint32_t i = 0; i < g->tried_count; i++)
        json_array_append_new(all, one_tried_json(g->c, &g->tried[i]));
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
        json_array_append_new(all, fix_json(g->c, &g->view->fixes[i]));
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

static const char *const step_names[] = {[TT_ASK] = "ask",   [TT_FIX] = "fix",        [TT_CALL] = "call",
                                         [TT_STOP] = "stop", [TT_CLOSED] = "nothing", [TT_PUT_BACK] = "put back",
                                         [TT_PIECE] = "ask", [TT_SETTLE] = "ask",     [TT_COMPLAINT] = "ask"};

static json_t *next_question_json(const gathering *g)
{
    tt_question question;
    if (g->view->step == TT_PIECE) return clean_json(tt_kind_show(g->seen->book.book, g->view->kind).ask);
    bool asks = (g->view->step == TT_ASK || g->view->step == TT_SETTLE) && g->view->next.question != TT_NONE &&
                tt_question_show(g->c, g->view->next.question, &question) == TT_OK;
    return asks ? clean_json(question.ask) : json_null();
}

/* With all that keeps whoever does it safe. */
static json_t *next_fix_json(const gathering *g)
{
    tt_fix_plan plan;
    bool fixes = g->view->step == TT_FIX || g->view->step == TT_PUT_BACK;
    if (!fixes || tt_fix_show(g->c, g->view->fix, &plan) != TT_OK) return json_null();
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

static json_t *whole_sheet(const gathering *g)
{
    json_t *all = json_object();
    json_object_set_new(all, "version", json_integer(1));
    json_object_set_new(all, "case", case_json(g));
    json_object_set_new(all, "rulebook", sheet_book_json(g));
    json_object_set_new(all, "site", sheet_site_json(&g->seen->book));
    json_object_set_new(all, "about", about_json(g->seen->book.book, g->view));
    json_object_set_new(all, "steps", sheet_steps_json(&g->history));
    json_object_set_new(all, "to_settle", texts_json(g->unsettled, g->unsettled_count));
    json_object_set_new(all, "facts", facts_json(g));
    json_object_set_new(all, "causes", causes_json(g->view));
    json_object_set_new(all, "not_listed_leads", json_boolean(g->view->not_listed_leads));
    json_object_set_new(all, "all_ruled_out", json_boolean(g->view->all_ruled_out));
    json_object_set_new(all, "two_faults", number_json(g->view->two_faults));
    json_object_set_new(all, "pairs", pairs_json(g->view));
    json_object_set_new(all, "tried", tried_json(g));
    json_object_set_new(all, "cautions", sheet_cautions_json(&g->history));
    json_object_set_new(all, "next", next_json(g));
    json_object_set_new(all, "fixes", fixes_json(g));
    json_object_set_new(all, "parts", parts_json(g));
    return all;
}

/* The history first: it plays the records once more, and leaves a case that stands as before. */
json_t *sheet_of_case(seen_case *seen, const char *language)
{
    gathering g = {.seen = seen, .language = language};
    tt_status status = tt_talk_history(seen->talk, &g.history);
    if (status == TT_OK) status = tt_talk_unsettled(seen->talk, &g.unsettled, &g.unsettled_count);
    if (status == TT_OK) status = tt_journal_cause(seen->journal, &g.cause);
    g.c = tt_talk_case(seen->talk);
    if (status == TT_OK) status = tt_look(g.c, &g.view);
    if (status == TT_OK) status = tt_tried_fixes(g.c, &g.tried, &g.tried_count);
    if (status == TT_OK) status = tt_spare_parts(g.c, &g.spares, &g.spare_count);
    return status_of(status) == EXIT_DONE ? whole_sheet(&g) : NULL;
}
