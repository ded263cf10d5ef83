/* Where a case stands, in words on a screen. */
#include "face/show_standing.h"

#include <string.h>

#include "base/str.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "say/catalogue.h"
#include "show/figures.h"
#include "show/standing_text.h"
#include "show/told.h"
#include "show/why_text.h"

enum { MOST_SHOWN = 20 };

/* Fixes are numbered on through all their parts. */
static void show_part(const screen *s, arena *keep, const tt_turn_part *part, uint32_t *number)
{
    const bool titled = *part->title != 0, fixes = part->kind == TT_PART_FIXES && titled;
    if (titled) say(s, "%s", part->title);
    if (!fixes) *number = 0;
    for (uint32_t i = 0; i < part->item_count; i++) {
        const bool numbered = part->numbered || fixes;
        const char *lead = numbered ? arena_text(keep, "%3u. ", ++*number) : titled ? "  - " : "";
        say_item(s, lead, "%s", part->items[i]);
    }
}

static void show_parts(const screen *s, const part_list *parts)
{
    uint32_t number = 0;
    for (uint32_t i = 0; i < parts->count; i++)
        show_part(s, parts->keep, &parts->items[i], &number);
}

/* ---- parts of it ---- */

static void show_cautions(const screen *s, arena *keep, tongue in, const tt_view *view)
{
    for (uint32_t i = 0; i < view->caution_count; i++)
        say(s, "%s",
            FILL(keep, in, PAGE_SIGNAL, signal_word(in, view->cautions[i].signal),
                 view->cautions[i].text));
    if (view->caution_count > 0) say_nothing(s);
}

static void show_fixes(const screen *s, arena *keep, tongue in, const standing_about *about)
{
    part_list parts = {.keep = keep, .in = in};
    uint32_t shown = 0;
    tell_fixes(&parts, about, MOST_SHOWN);
    for (uint32_t i = 0; i < parts.count; i++) shown += parts.items[i].item_count;
    if (about->view->fix_count > 0 && about->view->gate.state == TT_GATE_OPEN)
        say(s, "%s", catalogue_text(in, TEXT_FIXES_ORDER));
    show_parts(s, &parts);
    if (about->view->fix_count > shown)
        say(s, "%s",
            FILL(keep, in, TEXT_FIXES_MORE, count_words(keep, about->view->fix_count - shown)));
}

static void show_stop(const screen *s, arena *keep, tongue in, const tt_view *view)
{
    if (view->stop_text != NULL) say(s, "%s", FILL(keep, in, TEXT_STOP_NOW, view->stop_text));
    if (view->call_text != NULL) say(s, "%s", FILL(keep, in, TEXT_CALL_NOW, view->call_text));
}

static void show_next(const screen *s, arena *keep, tongue in, const standing_about *about)
{
    const tt_view *view = about->view;
    tt_question question;
    tt_fix_plan plan;
    say_nothing(s);
    if (view->step == TT_STOP || view->step == TT_CALL) {
        show_stop(s, keep, in, view);
    } else if (view->step == TT_FIX) {
        if (is_told(keep, tt_fix_show(about->c, view->fix, &plan)))
            say(s, "%s", FILL(keep, in, TEXT_DO_NEXT, plan.text));
        if (view->with != TT_NONE && is_told(keep, tt_fix_show(about->c, view->with, &plan)))
            say_item(s, "  ", "%s", FILL(keep, in, TEXT_DO_TOGETHER, plan.text));
    } else if (view->next.question != TT_NONE &&
               is_told(keep, tt_question_show(about->c, view->next.question, &question))) {
        say(s, "%s", FILL(keep, in, TEXT_ASK_NEXT, question.ask));
        if (*view->next.reason != 0) say_item(s, "  ", "%s", view->next.reason);
    }
}

void show_standing(const screen *s, const tt_book *book, tt_case *c, const tt_view *view)
{
    arena *keep = host_arena();
    const tongue in = tongue_of(tt_case_language(c));
    const standing_about about = {.book = book, .c = c, .view = view, .most_of_site = UINT32_MAX};
    part_list known = {.keep = keep, .in = in}, causes = {.keep = keep, .in = in};
    show_cautions(s, keep, in, view);
    tell_facts(&known, &about);
    show_parts(s, &known);
    say_nothing(s);
    tell_causes(&causes, &about, MOST_SHOWN);
    show_parts(s, &causes);
    say_nothing(s);
    show_fixes(s, keep, in, &about);
    show_next(s, keep, in, &about);
    arena_free(keep);
}

void show_why_fix(const screen *s, tt_case *c, uint32_t fix)
{
    tt_why_fix why;
    const tt_status status = tt_why_fix_waits(c, fix, &why);
    if (status == TT_NO_MEMORY) memory_ended();
    if (status != TT_OK) return;
    arena *keep = host_arena();
    const tongue in = tongue_of(tt_case_language(c));
    part_list parts = {.keep = keep, .in = in};
    tell_why_fix(&parts, &why);
    show_parts(s, &parts);
    arena_free(keep);
}

void show_why(const screen *s, tt_case *c, uint32_t rank)
{
    tt_turning turning;
    const tt_status status = tt_what_turns(c, rank, TT_NONE, &turning);
    if (status == TT_NO_MEMORY) memory_ended();
    arena *keep = host_arena();
    const tongue in = tongue_of(tt_case_language(c));
    part_list parts = {.keep = keep, .in = in};
    if (status == TT_OK)
        tell_why(&parts, &turning);
    else
        part_line(&parts, TT_PART_NOTE, catalogue_text(in, TEXT_ONLY_ONE_LISTED));
    show_parts(s, &parts);
    arena_free(keep);
}
