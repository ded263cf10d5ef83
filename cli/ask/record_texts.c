#include "ask/record_texts.h"

#include <stdlib.h>
#include <string.h>

#include "host/begin_case.h"
#include "host/plain_text.h"

static void add_text(json_t *data, const char *key, const char *text)
{
    if (text != NULL && *text != 0) json_object_set_new(data, key, json_string(text));
}

/* Freed by the caller; null if there are no few words for it. */
static char *reply_text(const tt_question *question, const tt_reply *reply)
{
    const char *unit = reply->unit != NULL ? reply->unit : question->unit;
    switch (reply->kind) {
    case TT_UNSURE:
        return copy_text("not sure");
    case TT_CANNOT:
        return copy_text("can't look there");
    case TT_ANSWER:
        return copy_text(question->options[reply->option].text);
    case TT_NUMBER:
        return format_text("%.10g%s%s", reply->number, *unit != 0 ? " " : "", unit);
    case TT_NOT:
    case TT_LIKELY:
        break;
    }
    return NULL;
}

void add_answer_texts(json_t *data, const tt_question *question, const tt_reply *reply)
{
    char *words = reply_text(question, reply);
    add_text(data, "asked", question->ask);
    add_text(data, "words", words);
    free(words);
}

void add_site_title(const ask *a, json_t *data)
{
    tt_book_info info = tt_book_describe(a->book.book);
    if (info.has_site) add_text(data, "site_title", info.site_title);
}

void add_cause_text(ask *a, json_t *data, const char *cause)
{
    const tt_view *view = look(a);
    for (uint32_t i = 0; view != NULL && cause != NULL && i < view->cause_count; i++)
        if (view->causes[i].name != NULL && strcmp(view->causes[i].name, cause) == 0)
            add_text(data, "cause_text", view->causes[i].text);
}

void add_ending_texts(ask *a, json_t *data)
{
    const tt_tried *tried;
    uint32_t count;
    note_failure(a, status_of(tt_tried_fixes(a->c, &tried, &count)));
    if (a->leaving == LEAVING_FAILED || count == 0) return;
    const tt_tried *last = &tried[count - 1];
    add_text(data, "fix", last->name);
    add_text(data, "fix_text", last->text);
    add_text(data, "cause", last->cured_name);
    add_text(data, "cause_text", last->cured);
}

static const char *fix_text(const ask *a, uint32_t fix)
{
    tt_fix_plan plan;
    return tt_fix_show(a->c, fix, &plan) == TT_OK ? plan.text : NULL;
}

void add_next_text(ask *a, json_t *data)
{
    tt_question question;
    const tt_view *view = a->c != NULL ? look(a) : NULL;
    if (view == NULL) return;
    if (view->step == TT_ASK && tt_question_show(a->c, view->next.question, &question) == TT_OK)
        add_text(data, "next", question.ask);
    if (view->step == TT_FIX || view->step == TT_PUT_BACK)
        add_text(data, "next", fix_text(a, view->fix));
    if (view->step == TT_COMPLAINT) add_text(data, "next", "What is wrong?");
    if (view->step == TT_STOP) add_text(data, "next", view->stop_text);
    if (view->step == TT_CALL && view->call_role != NULL) {
        char *words = format_text("Call: %s", view->call_role);
        add_text(data, "next", words);
        free(words);
    }
}

void keep_stop(ask *a)
{
    json_t *data = json_object();
    if (a->file != NULL) add_next_text(a, data);
    keep_note(a, "stop", data);
}
