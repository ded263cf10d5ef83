/* The reading that a fix is about, before and after it: as the records say, so that it is shown
 * whatever the case made of it later. */
#include <assert.h>

#include "talk/talk.h"

measure *measure_of(tt_talk *t, uint32_t fix)
{
    assert(fix != TT_NONE);
    for (uint32_t i = t->measure_count; i-- > 0;)
        if (t->measures[i].fix == fix) return &t->measures[i];
    return NULL;
}

static void add(tt_talk *t, measure m)
{
    GROW(t->keep, t->measures, t->measure_count, t->measure_room);
    t->measures[t->measure_count++] = m;
}

void measure_before(tt_talk *t, uint32_t fix)
{
    assert(fix != TT_NONE);
    const tt_fix_plan plan = talk_plan(t, fix);
    const tt_fact *fact = plan.about != TT_NONE ? talk_fact(t, plan.about) : NULL;
    const bool known = fact != NULL && fact->is_number && !fact->stale;
    add(t, (measure){.fix = fix,
                     .question = plan.about,
                     .before = known ? str_copy(t->keep, str_of(fact->text)).p : NULL});
}

/* A fix may be reported without having been begun here: then nothing was read. */
void measure_ended(tt_talk *t, uint32_t fix)
{
    measure *m = measure_of(t, fix);
    if (m != NULL && !m->ended)
        m->ended = true;
    else
        add(t, (measure){.fix = fix, .question = TT_NONE, .ended = true});
}

/* ---- what is to be taken ---- */

/* About a reading that this person may take: above their role somebody else's fix would rest on it.
 */
static bool is_measured_by(tt_talk *t, const tt_fix_plan *plan)
{
    return plan->adjust.reading == TT_NONE && plan->about != TT_NONE &&
           talk_may_look(t, plan->about);
}

static uint32_t unread(tt_talk *t, uint32_t fix)
{
    assert(fix != TT_NONE);
    const tt_fix_plan plan = talk_plan(t, fix);
    const bool due =
        is_measured_by(t, &plan) && !plan.about_known && talk_fact(t, plan.about) == NULL;
    return due ? plan.about : TT_NONE;
}

uint32_t talk_reading_before(tt_talk *t, uint32_t fix)
{
    const tt_view *v = talk_look(t);
    const uint32_t with = v->fix == fix && v->step == TT_FIX ? v->with : TT_NONE;
    const uint32_t first = unread(t, fix);
    return first != TT_NONE || with == TT_NONE ? first : unread(t, with);
}

/* Two that are about one reading take it once. */
uint32_t talk_to_measure(tt_talk *t)
{
    const uint32_t fix = t->fix.fix, with = talk_with(t, fix);
    assert(fix != TT_NONE);
    const tt_fix_plan first = talk_plan(t, fix);
    const bool measures = is_measured_by(t, &first);
    if (measures && !t->fix.measured) return fix;
    if (with == TT_NONE || t->fix.measured_with) return TT_NONE;
    const tt_fix_plan second = talk_plan(t, with);
    const bool is_same = measures && first.about == second.about;
    return is_measured_by(t, &second) && !is_same ? with : TT_NONE;
}

/* ---- beside the fixes that were tried ---- */

/* Of one that was tried several times, the one that is the same number from the last. */
static const measure *ended_measure(const tt_talk *t, uint32_t fix, uint32_t later)
{
    for (uint32_t i = t->measure_count; i-- > 0;) {
        const measure *m = &t->measures[i];
        if (m->fix == fix && m->ended && later-- == 0) return m;
    }
    return NULL;
}

static uint32_t tried_later(const tt_tried *tried, uint32_t count, uint32_t i)
{
    uint32_t later = 0;
    assert(i < count);
    for (uint32_t k = i + 1; k < count; k++) later += tried[k].fix == tried[i].fix;
    return later;
}

static const char *or_none(const char *text)
{
    return text != NULL ? text : "";
}

/* A setting that is changed step by step knows both by itself. */
static tt_measured measured_with(tt_talk *t, const tt_tried *tried, uint32_t count, uint32_t i)
{
    const tt_tried *fix = &tried[i];
    const measure *m = ended_measure(t, fix->fix, tried_later(tried, count, i));
    tt_measured out = {.fix = fix->fix,
                       .question = TT_NONE,
                       .name = fix->name,
                       .ask = "",
                       .before = "",
                       .after = ""};
    if (fix->reading != TT_NONE) {
        out.question = fix->reading;
        out.before = fix->found;
        out.after = fix->left;
    } else if (m != NULL && talk_plan(t, fix->fix).adjust.reading == TT_NONE) {
        out.question = m->question;
        out.before = or_none(m->before);
        out.after = or_none(m->after);
    }
    if (out.question != TT_NONE) out.ask = talk_question(t, out.question).ask;
    return out;
}

const tt_measured *talk_measured(tt_talk *t, const tt_tried *tried, uint32_t count)
{
    tt_measured *all = ARENA_ARRAY(t->shown, tt_measured, count);
    for (uint32_t i = 0; i < count; i++) all[i] = measured_with(t, tried, count, i);
    return all;
}

typedef struct asked_measured {
    tt_talk *t;
    const tt_measured *items;
    uint32_t count;
} asked_measured;

static tt_status tell_measured(void *context)
{
    asked_measured *a = context;
    const tt_tried *tried;
    const tt_status status = tt_tried_fixes(a->t->c, &tried, &a->count);
    if (status == TT_OK) a->items = talk_measured(a->t, tried, a->count);
    return status;
}

tt_status tt_talk_measured(tt_talk *t, const tt_measured **out, uint32_t *count)
{
    assert(t->begun && out != NULL && count != NULL);
    asked_measured a = {.t = t};
    const tt_status status = guarded_talk(t, tell_measured, &a);
    *out = status == TT_OK ? a.items : NULL;
    *count = status == TT_OK ? a.count : 0;
    return status;
}

/* The reading that a fix is about, after it: it says whether the fix did what it should, and counts
 * as an answer once it is told whether that helped. */
bool talk_is_after_fix(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    return t->turn.kind == TT_TURN_LOOK_AGAIN && v->step == TT_FIX && t->fix.fix == v->fix &&
           !t->interrupted && talk_to_measure(t) != TT_NONE;
}
