/* The way through a fix: the things to do in order, how far they are done, and what stays locked.
 */
#include <assert.h>

#include "talk/talk.h"

static void add_thing(tt_talk *t, walk_things *w, uint32_t fix, tt_part_kind kind, const char *text)
{
    GROW(t->shown, w->items, w->count, w->room);
    w->items[w->count++] = (walk_thing){kind, text, NULL, fix};
}

static void add_things(tt_talk *t, walk_things *w, uint32_t fix, tt_part_kind kind,
                       const char *const *items, const tt_picture *const *pictures, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        add_thing(t, w, fix, kind, items[i]);
        if (pictures != NULL) w->items[w->count - 1].picture = pictures[i];
    }
}

static void add_isolating(tt_talk *t, walk_things *w, uint32_t fix, const tt_safety *s)
{
    add_things(t, w, fix, TT_PART_ANNOUNCE, s->tell, NULL, s->tell_count);
    add_things(t, w, fix, TT_PART_ISOLATE, s->isolate, s->isolate_pictures, s->isolate_count);
    add_things(t, w, fix, TT_PART_RELEASE, s->release, s->release_pictures, s->release_count);
    add_things(t, w, fix, TT_PART_PROVE, s->prove, s->prove_pictures, s->prove_count);
}

bool talk_is_isolating(tt_part_kind kind)
{
    return kind == TT_PART_ANNOUNCE || kind == TT_PART_ISOLATE || kind == TT_PART_RELEASE ||
           kind == TT_PART_PROVE;
}

/* What is isolated by lines without a way back stays so from one step of a setting to the next;
 * what was given back is isolated again. */
static bool stays_isolated(const tt_talk *t, uint32_t fix, const tt_fix_plan *plan)
{
    if (plan->safety.restore_count > 0) return false;
    return t->fix.fix == fix ? t->fix.goes_on : plan->adjust.under_way && t->explained == fix;
}

/* Its own work, after all is isolated and before anything is given back. */
static void add_work(tt_talk *t, walk_things *w, uint32_t fix, const tt_fix_plan *plan,
                     bool goes_on)
{
    const uint32_t before = w->count;
    if (!goes_on)
        add_things(t, w, fix, TT_PART_STEP, plan->steps, plan->step_pictures, plan->step_count);
    if (plan->adjust.step > 0)
        add_thing(t, w, fix, TT_PART_CHANGE,
                  SAY(t, TEXT_SET_FROM_TO, plan->adjust.from_text, plan->adjust.to_text));
    if (w->count == before) add_thing(t, w, fix, TT_PART_STEP, plan->text);
}

static void add_once_running(tt_talk *t, walk_things *w, uint32_t fix, const tt_fix_plan *plan)
{
    add_things(t, w, fix, TT_PART_STEP, plan->once_running, plan->once_running_pictures,
               plan->once_running_count);
}

walk_things walk_list(tt_talk *t, uint32_t fix)
{
    assert(fix != TT_NONE);
    const tt_fix_plan plan = talk_plan(t, fix);
    const uint32_t with = talk_with(t, fix);
    const tt_fix_plan second = with != TT_NONE ? talk_plan(t, with) : (tt_fix_plan){0};
    walk_things w = {0};
    const bool back = t->fix.fix == fix && t->fix.back, goes_on = stays_isolated(t, fix, &plan);
    if (!goes_on) add_isolating(t, &w, fix, &plan.safety);
    if (back)
        add_thing(t, &w, fix, TT_PART_PUT_BACK, plan.put_back);
    else
        add_work(t, &w, fix, &plan, goes_on);
    if (with != TT_NONE) add_work(t, &w, with, &second, false);
    add_things(t, &w, fix, TT_PART_RESTORE, plan.safety.restore, plan.safety.restore_pictures,
               plan.safety.restore_count);
    if (!back) add_once_running(t, &w, fix, &plan);
    if (with != TT_NONE) add_once_running(t, &w, with, &second);
    assert(w.count > 0);
    return w;
}

uint32_t walk_begins(const walk_things *things, uint32_t fix)
{
    uint32_t i = 0;
    while (i < things->count &&
           (things->items[i].fix != fix || talk_is_isolating(things->items[i].kind)))
        i++;
    return i;
}

uint32_t walk_gives_back(const walk_things *things)
{
    uint32_t i = 0;
    while (i < things->count && things->items[i].kind != TT_PART_RESTORE) i++;
    return i;
}

uint32_t walk_reached(const walk *w)
{
    return w->before > w->done ? w->before : w->done;
}

bool walk_is_procedure(tt_part_kind kind)
{
    return talk_is_isolating(kind) || kind == TT_PART_RESTORE;
}

bool walk_stands(const tt_talk *t, const walk_things *things, uint32_t thing)
{
    assert(thing < things->count);
    const bool given_back = t->fix.before >= things->count;
    if (thing < t->fix.done) return true;
    return thing < t->fix.before && !(given_back && walk_is_procedure(things->items[thing].kind));
}

/* Isolated by a procedure, it is given back as that says; and what was put back is not to be
 * undone.
 */
bool walk_is_undone(const tt_talk *t, const walk_things *things, uint32_t thing, bool restores)
{
    const tt_part_kind kind = things->items[thing].kind;
    return walk_stands(t, things, thing) && kind != TT_PART_PUT_BACK &&
           !(restores && walk_is_procedure(kind));
}

uint32_t talk_with(const tt_talk *t, uint32_t fix)
{
    return t->fix.fix == fix && !t->fix.back ? t->fix.with : TT_NONE;
}

const tt_fix *talk_standing_of(tt_talk *t, uint32_t fix)
{
    assert(fix != TT_NONE);
    const tt_view *v = talk_look(t);
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (v->fixes[i].fix == fix) return &v->fixes[i];
    return NULL;
}

/* Another person has tried it meanwhile, or a caution holds it. */
bool walk_lost_second(tt_talk *t)
{
    const bool any = t->fix.fix != TT_NONE && talk_with(t, t->fix.fix) != TT_NONE;
    const tt_fix *second = any ? talk_standing_of(t, t->fix.with) : NULL;
    return any && (second == NULL || second->standing == TT_OTHER_ROLE || second->held);
}

/* After danger, and in a new sitting, a fix begins again: at isolating and proving, or at putting
 * on what is to be worn. */
bool talk_walks(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    const bool due = t->fix.back ? v->step == TT_PUT_BACK : v->step == TT_FIX;
    return due && t->fix.fix == v->fix && !t->interrupted && !walk_lost_second(t);
}

/* What the first needs is done, and everything is still locked. */
bool talk_asks_second(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    if (!talk_walks(t) || t->fix.back || t->fix.alone || v->with == TT_NONE) return false;
    if (talk_with(t, v->fix) != TT_NONE) return false;
    const walk_things things = walk_list(t, v->fix);
    return t->fix.done > 0 && t->fix.done == walk_gives_back(&things);
}

bool talk_may_undo_begun(const tt_talk *t)
{
    assert(t->fix.fix != TT_NONE);
    return talk_may_do(t, t->fix.fix) && (t->fix.with == TT_NONE || talk_may_do(t, t->fix.with));
}
