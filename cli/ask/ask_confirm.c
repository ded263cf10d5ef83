/* When the trouble is gone: was it the cause that it seemed to be? Only cases in which somebody
 * said so are learned from. */
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "ask/case_replay.h"
#include "ask/record_texts.h"
#include "host/begin_case.h"
#include "host/plain_text.h"

enum { SHOWN_FIRST = 8 };

static int choose(ask *a, const char *question, const char *const *names,
                  const char *const *choices, unsigned count)
{
    size_t steps = a->step_count;
    int chosen = -1;
    while (chosen < 0 && a->leaving == STAYING && a->step_count == steps) {
        say_nothing(&a->s);
        ask_for(a, "cause", "%s", question);
        chosen =
            choose_one(a, names, choices, count, 1 << WORD_BACK | 1 << WORD_STOP | 1 << WORD_HELP);
    }
    return a->leaving == STAYING && a->step_count == steps ? chosen : -1;
}

/* `cause` null: nobody is sure. */
static void keep_confirmation(ask *a, const char *how, const char *cause)
{
    json_t *data = json_object();
    json_object_set_new(data, "how", json_string(how));
    json_object_set_new(data, "cause", cause != NULL ? json_string(cause) : json_null());
    add_cause_text(a, data, cause);
    keep_note(a, "confirm", data);
    if (a->leaving == STAYING)
        say_note(a, cause != NULL ? "Thank you. That is kept with the case."
                                  : "Thank you. Whoever finds out later can still say so.");
}

/* ---- which one ---- */

typedef struct candidates {
    const char **texts, **names; /* name null: one of the answers below the causes */
    unsigned count;
} candidates;

static void add_candidate(candidates *all, const char *name, const char *text)
{
    all->names[all->count] = name;
    all->texts[all->count++] = text;
}

/* Causes that this person may confirm, the likeliest first; `but` was said to be wrong. */
static candidates find_candidates(ask *a, const tt_view *view, const char *but)
{
    size_t most = (size_t)view->cause_count + 1;
    candidates all = {take_memory(most * sizeof *all.texts), take_memory(most * sizeof *all.names),
                      0};
    for (uint32_t i = 0; i < view->cause_count; i++) {
        const char *name = view->causes[i].name;
        if (name == NULL || strcmp(name, but) == 0 || *tt_who_confirms(a->c, name) != 0) continue;
        add_candidate(&all, name, view->causes[i].text);
    }
    return all;
}

/* The first `shown` of them, and what else may be said. */
static int choose_among(ask *a, const candidates *all, unsigned shown)
{
    static const char *const more[] = {"Something that these rules don't list", "Not sure",
                                       "Another one: show them all"};
    static const char *const more_names[] = {"something-not-listed", "unsure", "more"};
    unsigned count = shown;
    const char **choices = take_memory((shown + 3) * sizeof *choices);
    const char **names = take_memory((shown + 3) * sizeof *names);
    memcpy(choices, all->texts, shown * sizeof *choices);
    memcpy(names, all->names, shown * sizeof *names);
    for (unsigned i = 0; i < (shown < all->count ? 3 : 2); i++) {
        names[count] = more_names[i];
        choices[count++] = more[i];
    }
    int chosen = choose(a, "What was it?", names, choices, count);
    free(names);
    free(choices);
    return chosen;
}

static void ask_which(ask *a, const tt_view *view, const char *but)
{
    candidates all = find_candidates(a, view, but);
    unsigned shown = all.count > SHOWN_FIRST ? SHOWN_FIRST : all.count;
    int chosen = choose_among(a, &all, shown);
    if (chosen == (int)shown + 2) chosen = choose_among(a, &all, shown = all.count);
    if (chosen >= 0 && chosen < (int)shown) keep_confirmation(a, "other", all.names[chosen]);
    if (chosen == (int)shown) keep_confirmation(a, "not-listed", "something-not-listed");
    if (chosen == (int)shown + 1) keep_confirmation(a, "unsure", NULL);
    free(all.texts);
    free(all.names);
}

static void ask_whether(ask *a, const tt_view *view, const tt_tried *last)
{
    static const char *const names[] = {"yes", "no", "unsure"};
    static const char *const choices[] = {"Yes", "No, it was something else", "Not sure"};
    char *question = format_text("Was that the cause: %s?", last->cured);
    int chosen = choose(a, question, names, choices, 3);
    free(question);
    if (chosen == 0) keep_confirmation(a, "yes", last->cured_name);
    if (chosen == 1) ask_which(a, view, last->cured_name);
    if (chosen == 2) keep_confirmation(a, "unsure", NULL);
}

static void ask_cause(ask *a)
{
    const tt_view *view = look(a);
    const tt_tried *tried;
    uint32_t count;
    if (view == NULL) return;
    note_failure(a, status_of(tt_tried_fixes(a->c, &tried, &count)));
    if (a->leaving != STAYING || view->step != TT_CLOSED || count == 0) return;
    const tt_tried *last = &tried[count - 1];
    const char *who = *last->cured_name != 0 ? tt_who_confirms(a->c, last->cured_name) : "";
    if (*who != 0)
        say_note(
            a, "Whether that was the cause is for the %s to say, who can take up this case for it.",
            who);
    else if (*last->cured_name != 0)
        ask_whether(a, view, last);
    else
        ask_which(a, view, "");
}

bool offer_to_confirm(ask *a)
{
    size_t steps = a->step_count;
    if (!a->confirm_due || a->file == NULL) return false;
    a->confirm_due = false;
    leaving before = a->leaving;
    a->leaving = STAYING;
    ask_cause(a);
    if (a->leaving == STAYING && a->step_count != steps) return true;
    if (a->leaving != LEAVING_FAILED && a->leaving != LEAVING_SIGNAL) a->leaving = before;
    return false;
}
