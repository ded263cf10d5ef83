/* A fix as a person goes through it: the answers once more, what it is and what it can do to you,
 * one thing to do after the other, whether it helped, putting back what did not. */
#include <assert.h>
#include <string.h>

#include "talk/talk_turns.h"

/* ---- before it ---- */

/* Somebody's money, or somebody's skin. */
static bool is_dear(tt_talk *t, uint32_t fix)
{
    const tt_fix_plan plan = talk_plan(t, fix);
    return *plan.cost != 0 || plan.part_count > 0 || plan.cannot_put_back ||
           strcmp(plan.safety.risk, "medium") == 0 || strcmp(plan.safety.risk, "serious") == 0;
}

static void make_review(tt_talk *t)
{
    turn_afresh(t, TT_TURN_REVIEW);
    turn_cautions(t);
    t->turn.subject = talk_plan(t, talk_look(t)->fix).name;
    t->turn.prompt = t->turn.say = OURS(t, TEXT_REVIEW);
    turn_facts(t);
    turn_choice(t, "right", OURS(t, TEXT_REVIEW_RIGHT));
    turn_choice(t, "change", OURS(t, TEXT_REVIEW_CHANGE));
    turn_words(t, OFFER_MORE);
}

static void add_cost(tt_talk *t, const tt_fix_plan *plan)
{
    turn_list(t, TT_PART_NEED, OURS(t, TEXT_YOU_NEED), plan->parts, plan->part_count);
    if (*plan->cost != 0) turn_line(t, TT_PART_NOTE, "", SAY(t, TEXT_COST, plan->cost));
    if (plan->cannot_put_back) turn_line(t, TT_PART_NOTE, "", OURS(t, TEXT_CANT_BE_UNDONE));
}

/* ---- two under one lockout ---- */

static void announce_second(tt_talk *t, uint32_t fix)
{
    const tt_view *v = talk_look(t);
    if (v->fix != fix || v->with == TT_NONE || v->step != TT_FIX) return;
    const double saved = v->with_saves;
    const tt_fix_plan second = talk_plan(t, v->with);
    t->turn.together = second.name;
    turn_list(t, TT_PART_NEED, OURS(t, TEXT_YOU_NEED), second.parts, second.part_count);
    turn_line(t, TT_PART_NOTE, "",
              SAY(t, TEXT_UNDER_SAME_LOCKOUT, second.text, talk_minutes(t, saved)));
}

/* Its own page, with its own dangers and what it wears, before anything of it is done. */
static void make_second(tt_talk *t, uint32_t fix, uint32_t with)
{
    const tt_fix_plan plan = talk_plan(t, with);
    const double saved = talk_look(t)->with_saves;
    turn_afresh(t, TT_TURN_BEFORE_FIX);
    turn_cautions(t);
    t->turn.subject = plan.name;
    t->turn.together = talk_plan(t, fix).name;
    t->turn.title = plan.text;
    t->turn.place = plan.place_text;
    t->turn.prompt = t->turn.say = SAY(t, TEXT_STILL_LOCKED, plan.text);
    const tt_fix *standing = talk_standing_of(t, with);
    if (standing != NULL)
        turn_line(t, TT_PART_NOTE, "",
                  SAY(t, TEXT_FIX_STANDING, talk_percent(t, standing->chance),
                      chance_words(t->tongue, standing->chance),
                      talk_minutes(t, plan.minutes - saved), standing->role_text));
    turn_line(t, TT_PART_NOTE, "", OURS(t, TEXT_LOCKOUT_COUNTS_ONCE));
    turn_safety(t, &plan.safety);
    if (*plan.put_back != 0) turn_line(t, TT_PART_NOTE, "", SAY(t, TEXT_IF_IN_VAIN, plan.put_back));
    add_cost(t, &plan);
    turn_choice(
        t, "together",
        OURS(t, plan.safety.protect_count > 0 ? TEXT_DO_THIS_TOO_DRESSED : TEXT_DO_THIS_TOO));
    turn_choice(t, "alone", OURS(t, TEXT_GIVE_BACK_FIRST));
    turn_choice(t, "could-not", OURS(t, TEXT_CANT_DO_FIX));
    turn_words(t, OFFER_FIX);
}

static void make_before(tt_talk *t, uint32_t fix)
{
    assert(fix != TT_NONE);
    const tt_fix_plan plan = talk_plan(t, fix);
    const tt_fix *standing = talk_standing_of(t, fix);
    turn_afresh(t, TT_TURN_BEFORE_FIX);
    turn_cautions(t);
    t->turn.subject = plan.name;
    t->turn.title = plan.text;
    t->turn.place = plan.place_text;
    t->turn.picture = talk_cause_picture(t);
    t->turn.prompt = t->turn.say = SAY(t, TEXT_TRY_THIS, plan.text);
    turn_causes(t, 2);
    if (standing != NULL)
        turn_line(t, TT_PART_NOTE, "",
                  SAY(t, TEXT_FIX_STANDING, talk_percent(t, standing->chance),
                      chance_words(t->tongue, standing->chance), talk_minutes(t, standing->minutes),
                      standing->role_text));
    turn_safety(t, &plan.safety);
    if (plan.safety.isolate_count > 0)
        turn_line(t, TT_PART_NOTE, "",
                  SAY(t, TEXT_ISOLATE_COUNT, talk_number(t, plan.safety.isolate_count)));
    for (uint32_t i = 0; i < plan.after_count; i++)
        turn_line(t, TT_PART_NOTE, "", SAY(t, TEXT_TRIED_FIRST, talk_plan(t, plan.after[i]).text));
    add_cost(t, &plan);
    announce_second(t, fix);
    if (t->fix.fix != fix || walk_lost_second(t)) turn_unfinished(t);
    turn_choice(t, "begin",
                OURS(t, plan.safety.protect_count > 0 ? TEXT_BEGIN_DRESSED : TEXT_BEGIN));
    turn_choice(t, "could-not", OURS(t, TEXT_CANT_DO_FIX));
    if (plan.safety.procedure_count > 0) turn_choice(t, "whole", OURS(t, TEXT_WHOLE_LOCKOUT));
    turn_words(t, OFFER_FIX);
}

/* ---- doing it ---- */

/* Which part of the procedure this is, so that one line is not taken for the other. */
static void add_phase(tt_talk *t, tt_part_kind kind)
{
    if (kind == TT_PART_ANNOUNCE) turn_line(t, kind, "", OURS(t, TEXT_FIRST_TELL));
    if (kind == TT_PART_ISOLATE) turn_line(t, kind, "", OURS(t, TEXT_LOCK_RULE));
    if (kind == TT_PART_RELEASE) turn_line(t, kind, "", OURS(t, TEXT_THEN_RELEASE));
    if (kind == TT_PART_PROVE) turn_line(t, kind, "", OURS(t, TEXT_THEN_PROVE));
    if (kind == TT_PART_RESTORE) turn_line(t, kind, "", OURS(t, TEXT_THEN_RESTORE));
}

/* Of two under one lockout. */
static void name_other(tt_talk *t, uint32_t fix)
{
    const uint32_t with = talk_with(t, t->fix.fix);
    if (with != TT_NONE) t->turn.together = talk_plan(t, fix == with ? t->fix.fix : with).name;
}

static void make_step(tt_talk *t, const walk_things *things)
{
    assert(t->fix.done < things->count);
    const walk_thing *thing = &things->items[t->fix.done];
    const tt_fix_plan plan = talk_plan(t, thing->fix);
    turn_afresh(t, TT_TURN_FIX_STEP);
    t->turn.subject = plan.name;
    t->turn.title = plan.text;
    name_other(t, thing->fix);
    t->turn.place = plan.place_text;
    t->turn.step = t->fix.done + 1;
    t->turn.steps = things->count;
    t->turn.prompt = t->turn.say = thing->text;
    t->turn.picture = thing->picture;
    turn_cautions(t);
    turn_list(t, TT_PART_WEAR, OURS(t, TEXT_WEAR), plan.safety.protect, plan.safety.protect_count);
    add_phase(t, thing->kind);
    if (thing->kind == TT_PART_CHANGE && plan.adjust.step > 0)
        turn_line(t, TT_PART_CHANGE, "",
                  SAY(t, TEXT_STEP_AT_MOST, talk_number(t, plan.adjust.step),
                      talk_number(t, plan.adjust.at_most), plan.adjust.found_text));
    turn_choice(t, "done", OURS(t, TEXT_DONE_IT));
    turn_choice(t, "could-not", OURS(t, TEXT_CANT_DO_STEP));
    if (!t->fix.back) turn_choice(t, "worse", OURS(t, TEXT_CHOICE_WORSE));
    turn_words(t, OFFER_FIX);
}

static void make_outcome(tt_talk *t, uint32_t fix)
{
    assert(fix != TT_NONE);
    const tt_fix_plan plan = talk_plan(t, fix);
    turn_afresh(t, TT_TURN_OUTCOME);
    turn_cautions(t);
    t->turn.subject = plan.name;
    t->turn.title = plan.text;
    const uint32_t with = talk_with(t, fix);
    if (with != TT_NONE) {
        name_other(t, fix);
        t->turn.title = SAY(t, TEXT_TWO_FIXES, plan.text, talk_plan(t, with).text);
    }
    t->turn.prompt = t->turn.say = SAY(t, TEXT_DID_IT_HELP, t->turn.title);
    turn_choice(t, "gone", OURS(t, TEXT_CHOICE_GONE));
    turn_choice(t, "better", OURS(t, TEXT_CHOICE_BETTER));
    turn_choice(t, "no-change", OURS(t, TEXT_CHOICE_NO_CHANGE));
    turn_choice(t, "could-not", OURS(t, TEXT_CHOICE_COULD_NOT));
    turn_choice(t, "worse", OURS(t, TEXT_CHOICE_WORSE));
    turn_words(t, OFFER_FIX);
}

/* Of work that is another's nobody is told how it is undone or given back: it may stand open. */
static void turn_others_unfinished(tt_talk *t, const tt_fix_plan *plan, const walk_things *things)
{
    turn_line(t, TT_PART_NOTE, SAY(t, TEXT_UNFINISHED, plan->text), OURS(t, TEXT_NOT_YOUR_LOCK));
    tt_turn_part *part = turn_part(t, TT_PART_LOCKED, turn_leave_so(t, plan));
    for (uint32_t i = 0; i < things->count; i++)
        if (walk_stands(t, things, i)) part_item(t, part, things->items[i].text);
}

/* What was done on the way through another fix, which an answer has overtaken. */
void turn_unfinished(tt_talk *t)
{
    if (t->fix.fix == TT_NONE || walk_reached(&t->fix) == 0) return;
    const tt_fix_plan plan = talk_plan(t, t->fix.fix);
    const walk_things things = walk_list(t, t->fix.fix);
    if (!talk_may_undo_begun(t)) {
        turn_others_unfinished(t, &plan, &things);
        return;
    }
    turn_line(t, TT_PART_NOTE, SAY(t, TEXT_UNFINISHED, plan.text), OURS(t, TEXT_OWN_LOCK));
    tt_turn_part undo = {.kind = TT_PART_PUT_BACK, .title = OURS(t, TEXT_UNDO_THESE)};
    const bool restores = plan.safety.restore_count > 0;
    for (uint32_t i = things.count; i-- > 0;)
        if (walk_is_undone(t, &things, i, restores)) part_item(t, &undo, things.items[i].text);
    if (undo.item_count > 0) *turn_part(t, undo.kind, undo.title) = undo;
    turn_restore(t, &plan.safety);
}

void make_fix(tt_talk *t)
{
    assert(talk_look(t)->step == TT_FIX);
    const uint32_t fix = talk_look(t)->fix;
    const bool begun = talk_walks(t);
    const uint32_t before = begun ? TT_NONE : talk_reading_before(t, fix);
    const walk_things things = walk_list(t, fix);
    if (before != TT_NONE)
        make_question(t, TT_TURN_QUESTION, before);
    else if (!begun && !t->reviewed && is_dear(t, fix) && talk_answers(t) > 0)
        make_review(t);
    else if (!begun)
        make_before(t, fix);
    else if (talk_asks_second(t))
        make_second(t, fix, talk_look(t)->with);
    else if (t->fix.done < things.count)
        make_step(t, &things);
    else if (talk_to_measure(t) != TT_NONE)
        make_question(t, TT_TURN_LOOK_AGAIN, talk_plan(t, talk_to_measure(t)).about);
    else
        make_outcome(t, fix);
}

/* ---- putting back ---- */

static void put_back_choices(tt_talk *t, const tt_fix_plan *plan, bool walked)
{
    const bool sets = plan->adjust.reading != TT_NONE;
    if (!walked)
        turn_choice(t, "begin", OURS(t, TEXT_BEGIN_PUT_BACK));
    else
        turn_choice(t, "put-back",
                    sets ? SAY(t, TEXT_IS_AT_AGAIN, plan->adjust.found_text)
                         : OURS(t, TEXT_IS_AS_FOUND));
    if (sets)
        turn_choice(t, "could-not", OURS(t, TEXT_CANT_PUT_BACK));
    else
        turn_choice(t, "leave", OURS(t, TEXT_LEAVE_AS_IS));
}

/* Whether it is put back; where a procedure was given back already it begins with that one again.
 */
static void make_put_back_page(tt_talk *t, uint32_t fix, const tt_fix_plan *plan, bool walked)
{
    const bool locks = plan->safety.restore_count > 0;
    turn_afresh(t, TT_TURN_PUT_BACK);
    turn_cautions(t);
    t->turn.subject = plan->name;
    t->turn.title = plan->text;
    t->turn.prompt = t->turn.say = OURS(t, walked ? TEXT_IS_IT_PUT_BACK : TEXT_PUT_BACK_SAFELY);
    turn_line(t, TT_PART_NOTE, "", SAY(t, TEXT_PUT_BACK_FIRST, plan->text));
    turn_line(t, TT_PART_PUT_BACK, "", plan->put_back);
    if (plan->adjust.reading != TT_NONE)
        turn_line(t, TT_PART_CHANGE, "",
                  SAY(t, TEXT_FOUND_STANDS, plan->adjust.found_text, plan->adjust.from_text));
    if (!walked || (t->explained != fix && !locks)) {
        turn_safety(t, &plan->safety);
        turn_procedure(t, &plan->safety);
        turn_restore(t, &plan->safety);
    }
    put_back_choices(t, plan, walked);
    turn_words(t, OFFER_FIX);
}

void make_put_back(tt_talk *t)
{
    const uint32_t fix = talk_look(t)->fix;
    const tt_fix_plan plan = talk_plan(t, fix);
    const bool walks = talk_walks(t) && t->fix.back;
    const walk_things things = walk_list(t, fix);
    if (walks && t->fix.done < things.count)
        make_step(t, &things);
    else
        make_put_back_page(t, fix, &plan, walks || plan.safety.restore_count == 0);
}
