/* A fix that changes a setting step by step: from what to what, and back again if it did not help.
 */
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "ask/turn_parts.h"
#include "host/begin_case.h"
#include "host/plain_text.h"

void show_adjust_step(const ask *a, const tt_fix_plan *plan)
{
    const tt_adjust *step = &plan->adjust;
    if (step->step == 0) return;
    if (step->under_way) say(&a->s, "It was found at %s.", step->found_text);
    say(&a->s, "Step %u of at most %u: set it from %s to %s.", step->step, step->at_most,
        step->from_text, step->to_text);
}

/* What a fix that stays has changed: it helped, or can't be undone. Null: nothing that could be put back. */
char *change_words(const ask *a, const tt_tried *tried)
{
    tt_fix_plan plan;
    if (*tried->setting != 0) return copy_text(tried->setting);
    if (tt_fix_show(a->c, tried->fix, &plan) != TT_OK || plan.adjust.reading != TT_NONE) return NULL;
    bool helped = tried->outcome == TT_GONE || tried->outcome == TT_BETTER;
    bool stays = plan.cannot_put_back ? tried->outcome != TT_COULD_NOT : helped && *plan.put_back != 0;
    if (!stays) return NULL;
    return format_text("%s: done%s", plan.text, plan.cannot_put_back ? ", can't be undone" : "");
}

void show_settings(const ask *a, const tt_tried *tried, uint32_t count)
{
    bool first = true;
    for (uint32_t i = 0; i < count; i++) {
        char *change = change_words(a, &tried[i]);
        if (change == NULL) continue;
        if (first) say(&a->s, "Different from before:");
        first = false;
        say_item(&a->s, "  - ", "%s", change);
        free(change);
    }
}

static void show_put_back(ask *a, uint32_t fix, const tt_fix_plan *plan)
{
    say_nothing(&a->s);
    say(&a->s, "The trouble is not gone. Before anything else is tried, put this back:");
    say_item(&a->s, "  ", "%s", plan->put_back);
    say_item(&a->s, "  ", "It was found at %s and stands at %s.", plan->adjust.found_text,
             plan->adjust.from_text);
    if (a->fix_explained != fix) show_safety(a, &plan->safety);
    a->fix_explained = fix;
}

/* ---- what else a fix has changed ---- */

static void show_other_put_back(ask *a, uint32_t fix, const tt_fix_plan *plan)
{
    say_nothing(&a->s);
    say_note(a, "%s: it did not help. Before anything else is tried, put it back: %s", plan->text, plan->put_back);
    if (a->fix_explained != fix) show_safety(a, &plan->safety);
    a->fix_explained = fix;
}

static void ask_other_put_back(ask *a, uint32_t fix)
{
    static const char *const names[] = {"put-back", "leave"};
    static const char *const choices[] = {"Yes, it is as it was found", "No, leave it as it is now"};
    tt_fix_plan plan;
    note_failure(a, status_of(tt_fix_show(a->c, fix, &plan)));
    if (a->leaving != STAYING) return;
    show_other_put_back(a, fix, &plan);
    turn_put(a->turn, "fix", plan_json(a, &plan, NULL));
    say_nothing(&a->s);
    ask_for(a, "put-back", "Is it put back?");
    int chosen = choose_one(a, names, choices, 2, AT_FIX);
    if (chosen == 0) step_put_back(a, fix);
    if (chosen == 1) step_left_so(a, fix);
}

void ask_put_back(ask *a, const tt_view *view)
{
    uint32_t fix = view->fix;
    tt_fix_plan plan;
    note_failure(a, status_of(tt_fix_show(a->c, fix, &plan)));
    if (a->leaving != STAYING) return;
    if (plan.adjust.reading == TT_NONE) {
        ask_other_put_back(a, fix);
        return;
    }
    show_put_back(a, fix, &plan);
    char *done = format_text("Yes, it is at %s again", plan.adjust.found_text);
    static const char *const names[] = {"put-back", "could-not"};
    const char *const choices[] = {done, "I can't put it back"};
    turn_put(a->turn, "fix", plan_json(a, &plan, NULL));
    say_nothing(&a->s);
    ask_for(a, "put-back", "Is it put back?");
    int chosen = choose_one(a, names, choices, 2, AT_FIX);
    free(done);
    if (chosen == 0) step_put_back(a, fix);
    if (chosen == 1) step_tried(a, fix, TT_COULD_NOT);
}
