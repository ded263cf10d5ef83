/* What a reply does on the way through a fix: begun, one thing done, what came of it, put back. */
#include <assert.h>
#include <string.h>

#include "talk/talk_replies.h"

void on_review(tt_talk *t, const char *id)
{
    if (strcmp(id, "change") == 0)
        t->doing = (aside){.kind = ASIDE_CHANGE};
    else
        keep_record(t, "reviewed", NULL);
}

/* What was learned after the fix counts now as evidence: it was looked at, and the trouble is still
 * there. */
static void count_measured(tt_talk *t, const walk *done)
{
    assert(done->fix != TT_NONE);
    if (done->measured) keep_answer(t, talk_plan(t, done->fix).about, &done->after, "");
    if (done->measured_with) keep_answer(t, talk_plan(t, done->with).about, &done->after_with, "");
}

/* Where giving back was a part of it, it is done. */
static void say_locks_off(tt_talk *t, const tt_fix_plan *plan)
{
    if (plan->safety.isolate_count > 0 && plan->safety.restore_count == 0)
        talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_LOCKS_OFF));
}

static void say_restore(tt_talk *t, const tt_safety *safety)
{
    for (uint32_t i = 0; i < safety->restore_count; i++)
        talk_news(t, TT_PART_RESTORE, i == 0 ? OURS(t, TEXT_THEN_RESTORE) : "", safety->restore[i]);
}

/* Things that were done of a fix that could not be finished are undone, the last first; what a
 * procedure has isolated is given back as it says. */
static void say_undo(tt_talk *t)
{
    assert(t->fix.fix != TT_NONE);
    if (!talk_may_undo_begun(t)) {
        talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_NOT_YOUR_LOCK));
        return;
    }
    const tt_fix_plan plan = talk_plan(t, t->fix.fix);
    const walk_things things = walk_list(t, t->fix.fix);
    const bool restores = plan.safety.restore_count > 0;
    bool first = true;
    for (uint32_t i = things.count; i-- > 0;) {
        if (!walk_is_undone(t, &things, i, restores)) continue;
        talk_news(t, TT_PART_PUT_BACK, first ? OURS(t, TEXT_UNDO_THESE) : "", things.items[i].text);
        first = false;
    }
    say_restore(t, &plan.safety);
}

/* Whether it was what it seemed to be; else what it was. */
void ask_cause(tt_talk *t)
{
    const char *cured = talk_cured(t);
    const bool may = *cured != 0 && *tt_who_confirms(t->c, cured) == 0;
    t->doing = (aside){.kind = may ? ASIDE_CAUSE : ASIDE_CAUSE_WHICH, .but = ""};
}

static void close_gone(tt_talk *t)
{
    keep_close(t, "gone");
    const char *cured = talk_cured(t);
    const char *who = *cured != 0 ? tt_who_confirms(t->c, cured) : "";
    t->left = true;
    t->how = "gone";
    if (!t->options.kept) return;
    if (*who != 0)
        talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_WHO_CONFIRMS, who));
    else
        ask_cause(t);
    t->left = *who != 0;
}

static void not_now(tt_talk *t)
{
    talk_wrong(t, "not-now", OURS(t, TEXT_NOT_NOW));
}

/* In the middle of the second of two, which can't be done: what was done of it is undone, and the
 * first, which is done, is given back and tried out. */
static bool leaves_second(tt_talk *t, uint32_t fix, tt_outcome outcome)
{
    const uint32_t with = talk_with(t, fix);
    if (with == TT_NONE || outcome != TT_COULD_NOT || !talk_may_undo_begun(t)) return false;
    const walk_things things = walk_list(t, fix);
    const uint32_t first = walk_begins(&things, with);
    if (t->fix.done < first || t->fix.done >= walk_gives_back(&things)) return false;
    for (uint32_t i = t->fix.done; i-- > first;)
        talk_news(t, TT_PART_PUT_BACK, i + 1 == t->fix.done ? OURS(t, TEXT_UNDO_THESE) : "",
                  things.items[i].text);
    if (!keep_tried(t, with, TT_NONE, outcome)) not_now(t);
    return true;
}

static void take_outcome(tt_talk *t, uint32_t fix, tt_outcome outcome)
{
    assert(fix != TT_NONE);
    if (leaves_second(t, fix, outcome)) return;
    const tt_fix_plan plan = talk_plan(t, fix);
    const walk done = t->fix;
    if (outcome == TT_COULD_NOT && t->fix.fix == fix && walk_reached(&t->fix) > 0)
        say_undo(t);
    else if (outcome != TT_WORSE)
        say_locks_off(t, &plan);
    const uint32_t with = talk_with(t, fix);
    const bool own = with == TT_NONE || talk_may_do(t, with); /* of another's they tell nothing */
    const bool taken = keep_tried(t, fix, own ? with : TT_NONE, outcome);
    if (outcome == TT_WORSE)
        keep_danger(t, "recheck", (danger_names){0},
                    ""); /* stays though the outcome be taken back, or not be taken at all */
    if (!taken) {
        not_now(t);
        return;
    }
    if (outcome == TT_GONE)
        close_gone(t);
    else if (done.fix == fix)
        count_measured(t, &done);
}

static void on_outcome_of(tt_talk *t, uint32_t fix, const char *id)
{
    tt_outcome outcome;
    if (tt_outcome_find(id, &outcome))
        take_outcome(t, fix, outcome);
    else
        nothing_such(t);
}

void on_outcome(tt_talk *t, const char *id)
{
    on_outcome_of(t, tt_fix_find(t->book, t->turn.subject), id);
}

void worse_after_fix(tt_talk *t)
{
    assert(talk_is_after_fix(t));
    take_outcome(t, t->fix.fix, TT_WORSE);
}

/* Asked while everything is still locked: the second of two. */
static void on_second(tt_talk *t, uint32_t with, const char *id)
{
    const uint32_t fix = t->fix.fix;
    if (strcmp(id, "together") == 0)
        keep_together(t, fix, with);
    else if (strcmp(id, "alone") == 0)
        keep_thing(t, fix, t->fix.done - 1, "alone");
    else
        take_outcome(t, with, TT_COULD_NOT);
}

void on_before(tt_talk *t, const char *id)
{
    const uint32_t fix = tt_fix_find(t->book, t->turn.subject);
    if (talk_asks_second(t))
        on_second(t, fix, id);
    else if (strcmp(id, "begin") == 0)
        keep_about_fix(t, "fix-begun", fix);
    else if (strcmp(id, "whole") == 0)
        t->doing = (aside){.kind = ASIDE_READ, .page = TT_TURN_PROCEDURE, .question = TT_NONE};
    else
        take_outcome(t, fix, TT_COULD_NOT);
}

/* It stays as it is now; what was isolated for putting it back is given back all the same. */
static void not_put_back(tt_talk *t, uint32_t fix)
{
    const bool sets = talk_plan(t, fix).adjust.reading != TT_NONE;
    assert(t->fix.fix == fix && t->fix.back);
    if (walk_reached(&t->fix) > 0) say_undo(t);
    if (!(sets ? keep_tried(t, fix, TT_NONE, TT_COULD_NOT) : keep_about_fix(t, "left", fix)))
        not_now(t);
}

void on_step(tt_talk *t, const char *id)
{
    assert(t->fix.fix != TT_NONE && !t->interrupted);
    if (strcmp(id, "done") == 0)
        keep_thing(t, t->fix.fix, t->fix.done, "done");
    else if (t->fix.back)
        not_put_back(t, t->fix.fix);
    else
        on_outcome_of(t, t->fix.fix, id);
}

void on_put_back(tt_talk *t, const char *id)
{
    const uint32_t fix = tt_fix_find(t->book, t->turn.subject);
    const bool taken = strcmp(id, "put-back") == 0 ? keep_put_back(t, fix)
                       : strcmp(id, "begin") == 0  ? keep_about_fix(t, "fix-begun", fix)
                       : strcmp(id, "leave") == 0  ? keep_about_fix(t, "left", fix)
                                                   : keep_tried(t, fix, TT_NONE, TT_COULD_NOT);
    if (!taken) not_now(t);
}
