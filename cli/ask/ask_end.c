/* How a case ends: somebody to call, the summary, how to go on. */
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "ask/turn_parts.h"
#include "face/show_standing.h"
#include "face/wordings.h"
#include "host/begin_case.h"
#include "host/go_on.h"
#include "host/plain_text.h"

enum { CAUSES_SHOWN = 3 };

static void show_put_back(const ask *a, const tt_tried *tried, uint32_t count)
{
    bool first = true;
    for (uint32_t i = 0; i < count; i++) {
        if (*tried[i].put_back == 0) continue;
        if (first) say(&a->s, "See that this was put back:");
        first = false;
        say_item(&a->s, "  - ", "%s (after: %s)", tried[i].put_back, tried[i].text);
    }
}

/* A fix that was on the screen when the person left may be half done. */
static void show_unfinished(const ask *a)
{
    tt_fix_plan plan;
    if (a->fix_shown == TT_NONE || tt_fix_show(a->c, a->fix_shown, &plan) != TT_OK) return;
    say(&a->s, "Begun, and not finished: %s", plan.text);
    if (*plan.put_back != 0 && !plan.adjust.under_way) say_item(&a->s, "  - ", "If it is left so: %s", plan.put_back);
    if (plan.safety.isolate_count > 0)
        say_item(&a->s, "  - ", "Take your own lock off when everybody is clear, or leave it on and "
                                "tell whoever comes next.");
}

static void show_outcome(const ask *a, const tt_tried *tried)
{
    const char *words = outcome_words(tried->outcome);
    tt_fix_plan plan;
    bool adjusts = tt_fix_show(a->c, tried->fix, &plan) == TT_OK && plan.adjust.reading != TT_NONE;
    if (tried->was_put_back && tried->outcome == TT_NO_CHANGE && adjusts)
        words = "the trouble was not gone"; /* some steps may have made it better */
    say_item(&a->s, "  - ", "%s: %s%s", tried->text, words,
             tried->was_put_back ? "; put back as found"
             : tried->under_way  ? "; not finished"
                                 : "");
}

static void show_tried(const ask *a, const tt_tried *tried, uint32_t count)
{
    if (count > 0) say(&a->s, "What was tried:");
    for (uint32_t i = 0; i < count; i++) show_outcome(a, &tried[i]);
    show_settings(a, tried, count);
    show_put_back(a, tried, count);
    show_unfinished(a);
}

void show_what_was_tried(ask *a)
{
    const tt_tried *tried;
    uint32_t count;
    note_failure(a, status_of(tt_tried_fixes(a->c, &tried, &count)));
    if (a->leaving != LEAVING_FAILED) show_tried(a, tried, count);
}

static void show_found(const ask *a, const tt_view *view, const tt_tried *tried, uint32_t count)
{
    if (view->step != TT_CLOSED || count == 0) {
        show_causes(&a->s, view, CAUSES_SHOWN);
        return;
    }
    const tt_tried *last = &tried[count - 1];
    say(&a->s, "The trouble is gone. What helped: %s", last->text);
    if (*last->cured != 0) say(&a->s, "What it most likely was: %s", last->cured);
}

void show_summary(ask *a)
{
    const tt_tried *tried;
    uint32_t count;
    const tt_view *view = look(a);
    if (view == NULL) return;
    note_failure(a, status_of(tt_tried_fixes(a->c, &tried, &count)));
    if (a->leaving == LEAVING_FAILED) return;
    say_nothing(&a->s);
    show_found(a, view, tried, count);
    show_tried(a, tried, count);
    show_focus(&a->s, a->book.book, view);
    show_facts_briefly(&a->s, a->c, view);
    if (a->file != NULL) say(&a->s, "Case number: %s", case_file_number(a->file));
}

const tt_fix *their_fix(const tt_view *view)
{
    for (uint32_t i = 0; i < view->fix_count; i++)
        if (view->fixes[i].standing == TT_OTHER_ROLE) return &view->fixes[i];
    return NULL;
}

static void show_their_fix(const ask *a, const tt_view *view)
{
    const tt_fix *theirs = their_fix(view);
    if (theirs != NULL) say(&a->s, "They may begin with: %s", theirs->text);
}

/* A setting that is not as it was found: an adjustment under way. Null if there is none. */
static const tt_tried *left_changed(const tt_tried *tried, uint32_t count)
{
    return count > 0 && tried[count - 1].under_way ? &tried[count - 1] : NULL;
}

/* Nothing may push a stop off a small screen, but whoever comes must know what is different. */
static void show_for_them(ask *a, const tt_view *view, const tt_tried *changed)
{
    bool stopped = view->step == TT_STOP;
    if (view->step == TT_CALL)
        say(&a->s, changed == NULL ? "There is nothing left here that is worth trying yourself."
                                   : "Nothing else is tried until this is put back: %s",
            changed == NULL ? "" : changed->put_back);
    show_stop(&a->s, view);
    if (view->step == TT_CALL && changed == NULL) show_their_fix(a, view);
    say(&a->s, "Tell them what %s.", stopped ? "you saw; 'known' shows the rest" : "stands here");
    if (!stopped) {
        show_summary(a);
        return;
    }
    if (changed != NULL) show_settings(a, changed, 1);
    if (a->file != NULL) say(&a->s, "Case number: %s", case_file_number(a->file));
}

static void close_for_them(ask *a, bool stopped)
{
    json_t *data = json_object();
    json_object_set_new(data, "how", json_string(stopped ? "stop" : "call"));
    keep_note(a, "close", data);
    if (a->leaving == STAYING) a->leaving = LEAVING_CLOSED;
}

static void put_call(ask *a, const tt_view *view, const tt_tried *changed)
{
    ask_silently(a, view->step == TT_STOP ? "stop" : "call",
                 view->stop_text != NULL ? view->stop_text : "");
    if (a->turn == NULL) return;
    turn_put(a->turn, "call", call_json(view, changed));
    turn_standing(a);
}

static void ask_danger_anew(ask *a, uint32_t question)
{
    while (a->leaving == STAYING && !ask_question(a, question)) {
    }
}

void ask_whom_to_call(ask *a, const tt_view *view)
{
    static const char *const names[2][2] = {{"close", "put-back"}, {"close", "ask-danger"}};
    static const char *const choices[2][2] = {{"Close the case", "It is put back now"}, {"Close the case", "It may be safe now: ask once more"}};
    const tt_tried *tried;
    uint32_t count;
    note_failure(a, status_of(tt_tried_fixes(a->c, &tried, &count)));
    if (a->leaving != STAYING) return;
    const tt_tried *changed = left_changed(tried, count);
    bool stopped = view->step == TT_STOP, may_put_back = changed != NULL && !stopped;
    uint32_t fix = changed != NULL ? changed->fix : TT_NONE;
    say_nothing(&a->s);
    show_for_them(a, view, changed);
    if (a->leaving != STAYING) return;
    say_nothing(&a->s);
    if (view->step == TT_CALL && changed == NULL && view->call_role != NULL && a->turn == NULL)
        say(&a->s, "So call: %s.", view->call_role); /* the top of this page is off a small screen */
    put_call(a, view, may_put_back ? changed : NULL);
    uint32_t danger = stopped ? view->gate.question : TT_NONE;
    int chosen = choose_one(a, names[stopped], choices[stopped], may_put_back || danger != TT_NONE ? 2 : 1, AT_FIX);
    if (chosen == 0) close_for_them(a, stopped);
    if (chosen == 1 && stopped) ask_danger_anew(a, danger);
    if (chosen == 1 && !stopped) step_put_back(a, fix);
}

/* What the case remembers from its beginning need not be said again, unless it was said otherwise now. */
static char *options_said(const ask *a)
{
    static const option_id at_any_time[] = {OPTION_TELEPHONE}, when_taken_up[] = {OPTION_AS, OPTION_LANGUAGE, OPTION_SOONEST};
    char *all = copy_text("");
    for (size_t i = 0; i < 4; i++) {
        option_id id = i == 0 ? at_any_time[0] : when_taken_up[i - 1];
        if (!is_given(a->line, id) || (i > 0 && !is_given(a->line, OPTION_CASE))) continue;
        char *value = shell_word(a->line->values[id]), *before = all;
        bool takes = option_table[id].value != NULL;
        all = format_text("%s --%s%s%s", before, option_table[id].name, takes ? " " : "", takes ? value : "");
        free(before);
        free(value);
    }
    return all;
}

static char *resume_command(const ask *a)
{
    char *options = options_said(a);
    bool other_book = is_given(a->line, OPTION_CASE) && a->line->count > 1;
    way_back way = way_back_to(a->line->program, a->line->values[OPTION_CASES]);
    char *command = go_on_command(&way, &(go_on){.number = case_file_number(a->file),
                                                 .folder = case_file_folder(a->file),
                                                 .book = other_book ? a->line->words[1] : NULL,
                                                 .options = options});
    way_back_free(&way);
    free(options);
    return command;
}

void show_leaving(ask *a)
{
    say_nothing(&a->s);
    if (a->leaving == LEAVING_CLOSED) {
        say(&a->s, "The case is closed.");
    } else if (a->file == NULL) {
        say(&a->s, "Nothing of this case was kept.");
    } else {
        char *command = resume_command(a);
        say(&a->s, "Everything you answered is kept. To go on, type:");
        say_command(&a->s, command);
        free(command);
    }
    fflush(a->s.out);
}
