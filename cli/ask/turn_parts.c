#include "ask/turn_parts.h"

#include "face/standing_json.h"
#include "face/wordings.h"
#include "host/json_parts.h"

json_t *texts_json(const char *const *texts, uint32_t count)
{
    json_t *list = json_array();
    for (uint32_t i = 0; i < count; i++) json_array_append_new(list, json_string(texts[i]));
    return list;
}

static json_t *safety_json(const tt_safety *safety)
{
    json_t *item = json_object();
    json_object_set_new(item, "hazards", texts_json(safety->hazards, safety->hazard_count));
    json_object_set_new(item, "unprotected_risk", text_or_null(safety->unprotected_risk));
    json_object_set_new(item, "risk", text_or_null(safety->risk));
    json_object_set_new(item, "wear", texts_json(safety->protect, safety->protect_count));
    json_object_set_new(item, "isolate", texts_json(safety->isolate, safety->isolate_count));
    return item;
}

/* ---- a question ---- */

static const char *const kind_names[] = {[TT_YES_NO] = "yes-no",
                                         [TT_CHOICE] = "choice",
                                         [TT_READING] = "reading",
                                         [TT_COUNT] = "count",
                                         [TT_QUANTITY] = "quantity"};

static json_t *plausible_json(const tt_question *question)
{
    if (!question->has_plausible) return json_null();
    json_t *item = json_object();
    json_object_set_new(item, "low", number_json(question->plausible_low));
    json_object_set_new(item, "high", number_json(question->plausible_high));
    return item;
}

json_t *question_json(ask *a, uint32_t index, const tt_question *question)
{
    const tt_view *view = look(a);
    bool next = view != NULL && view->step == TT_ASK && view->next.question == index;
    json_t *item = json_object();
    json_object_set_new(item, "name", json_string(question->name));
    json_object_set_new(item, "ask", json_string(question->ask));
    json_object_set_new(item, "look", text_or_null(question->look));
    json_object_set_new(item, "say", text_or_null(question->say));
    json_object_set_new(item, "kind", json_string(kind_names[question->kind]));
    json_object_set_new(item, "measures", text_or_null(question->measures));
    json_object_set_new(item, "unit", text_or_null(question->unit));
    json_object_set_new(item, "plausible", plausible_json(question));
    json_object_set_new(item, "minutes", number_json(question->minutes));
    json_object_set_new(item, "danger_first", json_boolean(next && question->gate));
    json_object_set_new(item, "once_more", json_boolean(has_answer(a, index)));
    json_object_set_new(item, "of_site", json_boolean(question->of_site));
    json_object_set_new(item, "safety", safety_json(&question->safety));
    json_object_set_new(item, "put_back", text_or_null(question->put_back));
    return item;
}

/* ---- a fix ---- */

static json_t *adjust_json(ask *a, const tt_adjust *adjust)
{
    tt_question reading;
    if (adjust->reading == TT_NONE || tt_question_show(a->c, adjust->reading, &reading) != TT_OK)
        return json_null();
    bool known = adjust->known;
    json_t *item = json_object();
    json_object_set_new(item, "reading", json_string(reading.name));
    json_object_set_new(item, "unit", text_or_null(reading.unit));
    json_object_set_new(item, "under_way", json_boolean(adjust->under_way));
    json_object_set_new(item, "step", json_integer(known ? adjust->step : 0));
    json_object_set_new(item, "at_most", json_integer(known ? adjust->at_most : 0));
    json_object_set_new(item, "found", known ? number_json(adjust->found) : json_null());
    json_object_set_new(item, "from", known ? number_json(adjust->from) : json_null());
    json_object_set_new(item, "to",
                        known && adjust->step > 0 ? number_json(adjust->to) : json_null());
    json_object_set_new(item, "found_text", text_or_null(known ? adjust->found_text : NULL));
    json_object_set_new(item, "from_text", text_or_null(known ? adjust->from_text : NULL));
    json_object_set_new(item, "to_text",
                        text_or_null(known && adjust->step > 0 ? adjust->to_text : NULL));
    return item;
}

static json_t *look_again_json(ask *a, const tt_fix_plan *plan)
{
    json_t *list = json_array();
    for (uint32_t i = 0; i < plan->look_again_count; i++) {
        tt_question question;
        if (tt_question_show(a->c, plan->look_again[i], &question) != TT_OK) continue;
        json_t *item = json_object();
        json_object_set_new(item, "name", json_string(question.name));
        json_object_set_new(item, "ask", json_string(question.ask));
        json_array_append_new(list, item);
    }
    return list;
}

json_t *plan_json(ask *a, const tt_fix_plan *plan, const tt_fix *standing)
{
    json_t *item = json_object();
    json_object_set_new(item, "name", json_string(plan->name));
    json_object_set_new(item, "text", json_string(plan->text));
    json_object_set_new(item, "role", text_or_null(plan->role));
    json_object_set_new(item, "chance",
                        standing != NULL ? number_json(standing->chance) : json_null());
    json_object_set_new(item, "minutes",
                        number_json(standing != NULL ? standing->minutes : plan->minutes));
    json_object_set_new(item, "safety", safety_json(&plan->safety));
    json_object_set_new(item, "parts", texts_json(plan->parts, plan->part_count));
    json_object_set_new(item, "cost", text_or_null(plan->cost));
    json_object_set_new(item, "cannot_put_back", json_boolean(plan->cannot_put_back));
    json_object_set_new(item, "put_back", text_or_null(plan->put_back));
    json_object_set_new(item, "steps", texts_json(plan->steps, plan->step_count));
    json_object_set_new(item, "adjust", adjust_json(a, &plan->adjust));
    json_object_set_new(item, "look_again", look_again_json(a, plan));
    return item;
}

/* ---- somebody to call ---- */

json_t *call_json(const tt_view *view, const tt_tried *changed)
{
    const tt_fix *theirs = view->step == TT_STOP || changed != NULL ? NULL : their_fix(view);
    json_t *call = json_object();
    json_object_set_new(call, "role", text_or_null(view->call_role));
    json_object_set_new(call, "text", text_or_null(view->stop_text));
    json_object_set_new(call, "put_back_first",
                        text_or_null(changed != NULL ? changed->put_back : NULL));
    json_object_set_new(call, "they_may", text_or_null(theirs != NULL ? theirs->text : NULL));
    return call;
}

/* ---- where the case stands ---- */

/* With what a person wants to read of it. */
static json_t *told_json(ask *a, const tt_fact *fact)
{
    tt_question question;
    bool asked =
        fact->question != TT_NONE && tt_question_show(a->c, fact->question, &question) == TT_OK;
    json_t *item = fact_json(fact);
    json_object_set_new(item, "ask", asked ? json_string(question.ask) : json_null());
    json_object_set_new(item, "text", json_string(fact->text));
    json_object_set_new(item, "stale", json_boolean(fact->stale));
    return item;
}

json_t *known_json(ask *a, const tt_view *view)
{
    json_t *item = json_object(), *facts = json_array(), *causes = json_array(),
           *fixes = json_array();
    for (uint32_t i = 0; i < view->fact_count; i++)
        json_array_append_new(facts, told_json(a, &view->facts[i]));
    for (uint32_t i = 0; i < view->cause_count; i++)
        json_array_append_new(causes, cause_json(&view->causes[i]));
    for (uint32_t i = 0; i < view->fix_count; i++)
        json_array_append_new(fixes, fix_json(&view->fixes[i]));
    json_object_set_new(item, "focus", focus_json(a->book.book, view));
    json_object_set_new(item, "facts", facts);
    json_object_set_new(item, "causes", causes);
    json_object_set_new(item, "fixes", fixes);
    return item;
}

static json_t *tried_json(const tt_tried *tried)
{
    json_t *item = json_object();
    json_object_set_new(item, "name", json_string(tried->name));
    json_object_set_new(item, "text", json_string(tried->text));
    json_object_set_new(item, "outcome", json_string(outcome_name(tried->outcome)));
    json_object_set_new(item, "under_way", json_boolean(tried->under_way));
    json_object_set_new(item, "was_put_back", json_boolean(tried->was_put_back));
    json_object_set_new(item, "put_back", text_or_null(tried->put_back));
    json_object_set_new(item, "cured", text_or_null(tried->cured));
    return item;
}

static void put_tried(ask *a)
{
    const tt_tried *tried;
    uint32_t count;
    if (tt_tried_fixes(a->c, &tried, &count) != TT_OK) return;
    turn_put(a->turn, "tried", json_array());
    turn_put(a->turn, "different", json_array());
    for (uint32_t i = 0; i < count; i++) {
        turn_add(a->turn, "tried", tried_json(&tried[i]));
        if (*tried[i].setting != 0) turn_add(a->turn, "different", json_string(tried[i].setting));
    }
}

/* A fix that was on the screen when the person left may be half done. */
static void put_unfinished(ask *a)
{
    tt_fix_plan plan;
    if (a->fix_shown == TT_NONE || tt_fix_show(a->c, a->fix_shown, &plan) != TT_OK) return;
    turn_put(a->turn, "unfinished", plan_json(a, &plan, NULL));
}

void turn_standing(ask *a)
{
    const tt_view *view = NULL;
    if (a->turn == NULL || a->c == NULL || tt_look(a->c, &view) != TT_OK) return;
    turn_put(a->turn, "known", known_json(a, view));
    put_tried(a);
    put_unfinished(a);
}

static const tt_fix *standing_of(const tt_view *view, uint32_t fix)
{
    for (uint32_t i = 0; i < view->fix_count; i++)
        if (view->fixes[i].fix == fix) return &view->fixes[i];
    return NULL;
}

void turn_next(ask *a, const tt_view *view)
{
    tt_question question;
    tt_fix_plan plan;
    bool fixes = view->step == TT_FIX || view->step == TT_PUT_BACK;
    if (a->turn == NULL) return;
    if (view->step == TT_ASK && tt_question_show(a->c, view->next.question, &question) == TT_OK)
        turn_put(a->turn, "question", question_json(a, view->next.question, &question));
    if (fixes && tt_fix_show(a->c, view->fix, &plan) == TT_OK)
        turn_put(a->turn, "fix", plan_json(a, &plan, standing_of(view, view->fix)));
    if (view->step == TT_CALL || view->step == TT_STOP)
        turn_put(a->turn, "call", call_json(view, NULL));
}

/* ---- the end ---- */

static const char *how_it_closed(const ask *a, exit_status status)
{
    const tt_view *view = NULL;
    if (status == EXIT_DONE) return "gone";
    return tt_look(a->c, &view) == TT_OK && view->step == TT_STOP ? "stop" : "call";
}

static const char *how_it_ended(const ask *a, exit_status status)
{
    switch (a->leaving) {
    case LEAVING_CLOSED:
        return how_it_closed(a, status);
    case LEAVING_STOPPED:
        return "stopped";
    case LEAVING_ENDED:
        return "input-ended";
    case LEAVING_SIGNAL:
        return "signal";
    default:
        return "failed";
    }
}

void turn_end(ask *a, exit_status status)
{
    if (a->turn == NULL) return;
    turn_put(a->turn, "kind", json_string("end"));
    turn_put(a->turn, "prompt", json_string(""));
    turn_put(a->turn, "how", json_string(how_it_ended(a, status)));
    turn_put(a->turn, "status", json_integer(status));
    turn_standing(a);
    send_turn(a);
}
