/* A fix that changes a setting step by step: from what to what, and back again if it did not help.
 */
#include <stdlib.h>
#include <string.h>

#include "ask.h"
#include "begin_case.h"
#include "plain_text.h"
#include "turn_parts.h"

void show_adjust_step(const ask *a, const tt_fix_plan *plan)
{
    const tt_adjust *step = &plan->adjust;
    if (step->step == 0) return;
    if (step->under_way) say(&a->s, "It was found at %s.", step->found_text);
    say(&a->s, "Step %u of at most %u: set it from %s to %s.", step->step, step->at_most,
        step->from_text, step->to_text);
}

void show_settings(const ask *a, const tt_tried *tried, uint32_t count)
{
    bool first = true;
    for (uint32_t i = 0; i < count; i++) {
        if (*tried[i].setting == 0) continue;
        if (first) say(&a->s, "Different from before:");
        first = false;
        say_item(&a->s, "  - ", "%s", tried[i].setting);
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

void ask_put_back(ask *a, const tt_view *view)
{
    uint32_t fix = view->fix;
    tt_fix_plan plan;
    note_failure(a, status_of(tt_fix_show(a->c, fix, &plan)));
    if (a->leaving != STAYING) return;
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
