/* One fix: what it is and whether it helps, then everything that keeps people safe, then its steps,
 * then "did it help?". */
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "ask/turn_parts.h"
#include "face/show_standing.h"
#include "face/standing_json.h"
#include "face/wordings.h"
#include "host/begin_case.h"
#include "host/plain_text.h"

enum { CAUSES_SHOWN = 4 };

static const tt_fix *standing_of(const tt_view *view, uint32_t fix)
{
    for (uint32_t i = 0; i < view->fix_count; i++)
        if (view->fixes[i].fix == fix) return &view->fixes[i];
    return NULL;
}

static void show_standing(const screen *s, const tt_fix *fix)
{
    if (fix == NULL) return;
    char *chance = percent_words(fix->chance), *minutes = minutes_words(fix->minutes);
    say(s, "Chance to help: %s, %s", chance, chance_words(fix->chance));
    say(s, "Who: %s", fix->role);
    say(s, "Time: %s", minutes);
    free(minutes);
    free(chance);
}

static void show_steps(const screen *s, const tt_fix_plan *plan)
{
    say_list(s, "You need:", plan->parts, plan->part_count);
    if (*plan->cost != 0) say(s, "Cost: %s", plan->cost);
    if (plan->cannot_put_back) say(s, "This can't be undone.");
    if (plan->step_count > 0) say(s, "Then:");
    for (uint32_t i = 0; i < plan->step_count; i++) {
        char *lead = format_text("%3u. ", i + 1);
        say_item(s, lead, "%s", plan->steps[i]);
        free(lead);
    }
}

static void show_look_again(ask *a, const uint32_t *questions, uint32_t count)
{
    if (count > 0) say(&a->s, "Afterwards look again:");
    for (uint32_t i = 0; i < count; i++) {
        tt_question question;
        if (tt_question_show(a->c, questions[i], &question) == TT_OK)
            say_item(&a->s, "  - ", "%s", question.ask);
    }
}

/* Safety was told with the first step, and what is isolated stays so. */
static void show_next_step(ask *a, const tt_fix_plan *plan)
{
    say_nothing(&a->s);
    show_adjust_step(a, plan);
    show_look_again(a, plan->look_again, plan->look_again_count);
}

static void show_fix(ask *a, const tt_view *view, const tt_fix_plan *plan)
{
    const screen *s = &a->s;
    if (plan->adjust.under_way && a->fix_explained == view->fix) {
        show_next_step(a, plan);
        return;
    }
    a->fix_explained = view->fix;
    say_nothing(s);
    show_causes(s, view, CAUSES_SHOWN);
    say_nothing(s);
    say(s, "Try this: %s", plan->text);
    show_standing(s, standing_of(view, view->fix));
    show_safety(a, &plan->safety);
    show_steps(s, plan);
    show_adjust_step(a, plan);
    show_look_again(a, plan->look_again, plan->look_again_count);
}

static void put_fix(ask *a, const tt_view *view, const tt_fix_plan *plan)
{
    if (a->turn == NULL) return;
    turn_put(a->turn, "fix", plan_json(a, plan, standing_of(view, view->fix)));
    for (uint32_t i = 0; i < view->cause_count; i++)
        turn_add(a->turn, "causes", cause_json(&view->causes[i]));
}

void ask_fix(ask *a, const tt_view *view)
{
    static const char *const names[] = {"gone", "better", "no-change", "could-not"};
    static const char *const outcomes[] = {
        [TT_GONE] = "Yes, the trouble is gone",
        [TT_BETTER] = "Better, but not gone",
        [TT_NO_CHANGE] = "No change",
        [TT_COULD_NOT] = "I could not do it",
    };
    uint32_t fix = view->fix;
    tt_fix_plan plan;
    note_failure(a, status_of(tt_fix_show(a->c, fix, &plan)));
    if (a->leaving != STAYING) return;
    if (a->fix_shown != fix) show_fix(a, view, &plan);
    a->fix_shown = fix;
    say_nothing(&a->s);
    put_fix(a, view, &plan);
    ask_for(a, "fix", "%s: did it help?", plan.text);
    int chosen = choose_one(a, names, outcomes, TT_COULD_NOT + 1, AT_FIX);
    if (chosen >= 0) step_tried(a, fix, (tt_outcome)chosen);
}
