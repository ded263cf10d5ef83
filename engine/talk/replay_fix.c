/* What records of fixes do to the case, and to the way through one. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "session/session.h"
#include "talk/replay_parts.h"

/* Somebody has set something: rules that would set it otherwise now can't take that for theirs. */
static bool sets_the_same(const tt_value *data, bool sets, double from, double to)
{
    const tt_value *set = value_get(data, "set");
    double was = NAN, became = NAN;
    if (set == NULL) return !sets;
    value_number(set, "from", &was);
    value_number(set, "to", &became);
    return sets && fabs(was - from) <= 1e-9 * fmax(1, fabs(was)) &&
           fabs(became - to) <= 1e-9 * fmax(1, fabs(became));
}

static bool steps_the_same(tt_talk *t, const tt_value *data, uint32_t fix, tt_outcome outcome)
{
    if (outcome == TT_COULD_NOT || !case_adjusts(t->c, fix))
        return sets_the_same(data, false, 0, 0);
    const tt_adjust a = talk_plan(t, fix).adjust;
    return sets_the_same(data, a.step > 0, a.from, a.to);
}

static void end_walk(tt_talk *t, uint32_t fix)
{
    assert(fix != TT_NONE);
    if (t->fix.fix == fix) t->fix = (walk){.fix = TT_NONE};
}

/* TT_NONE: it says none; or the rules no longer know it, and then the outcome is no longer that of
 * the first alone. */
static uint32_t fix_with(tt_talk *t, const tt_record *r, bool *known)
{
    const char *name = record_text(r->data, "with");
    const uint32_t with = *name != 0 ? tt_fix_find(t->book, name) : TT_NONE;
    *known = *name == 0 || with != TT_NONE;
    return with;
}

/* The second of two could not be done: the first one's own is done, and it is given back. */
static void leave_second(tt_talk *t, uint32_t fix)
{
    const walk_things things = walk_list(t, t->fix.fix);
    assert(t->fix.with == fix);
    if (t->fix.done > walk_begins(&things, fix)) t->fix.done = walk_begins(&things, fix);
    t->fix.with = TT_NONE;
    t->fix.alone = true;
}

static bool is_second(const tt_talk *t, uint32_t fix)
{
    return t->fix.fix != TT_NONE && t->fix.with == fix && fix != TT_NONE;
}

bool replay_tried(tt_talk *t, const tt_record *r)
{
    const uint32_t fix = tt_fix_find(t->book, record_text(r->data, "fix"));
    bool known;
    const uint32_t with = fix_with(t, r, &known);
    tt_outcome outcome;
    if (!known) return false;
    if (fix == TT_NONE || !tt_outcome_find(record_text(r->data, "outcome"), &outcome)) return false;
    if (!steps_the_same(t, r->data, fix, outcome)) return false;
    if (!talk_is_ok(t, tt_fixes_tried(t->c, fix, with, outcome))) return false;
    measure_ended(t, fix);
    if (with != TT_NONE) measure_ended(t, with);
    if (outcome == TT_COULD_NOT && is_second(t, fix) && replay_is_ours(t, r))
        leave_second(t, fix);
    else if (outcome != TT_WORSE)
        end_walk(t, fix); /* where it got worse what is locked stays so, until it is put back */
    t->explained = replay_is_ours(t, r) ? fix : TT_NONE;
    return true;
}

bool replay_put_back(tt_talk *t, const tt_record *r)
{
    const uint32_t fix = tt_fix_find(t->book, record_text(r->data, "fix"));
    if (fix == TT_NONE) return false;
    const tt_fix_plan plan = talk_plan(t, fix);
    if (!sets_the_same(r->data, plan.adjust.reading != TT_NONE, plan.adjust.from,
                       plan.adjust.found))
        return false;
    if (!talk_is_ok(t, tt_put_back(t->c, fix))) return false;
    end_walk(t, fix);
    return true;
}

bool replay_left_so(tt_talk *t, const tt_record *r)
{
    const uint32_t fix = tt_fix_find(t->book, record_text(r->data, "fix"));
    if (fix == TT_NONE || !talk_is_ok(t, tt_left_so(t->c, fix))) return false;
    end_walk(t, fix);
    return true;
}

bool replay_came_back(tt_talk *t, const tt_record *r)
{
    const uint32_t fix = tt_fix_find(t->book, record_text(r->data, "fix"));
    return fix != TT_NONE && talk_is_ok(t, tt_came_back(t->c, fix));
}

static bool replay_begun_with(tt_talk *t, const tt_record *r);

/* Begun anew after danger, or in another sitting: what was done of it stands as it was left. Of
 * another way through it only what it isolated is the same. */
static void begin_walk(tt_talk *t, const walk *anew)
{
    const walk old = t->fix;
    t->fix = *anew;
    if (old.fix != anew->fix) return;
    const walk_things things = walk_list(t, anew->fix);
    const uint32_t isolated = walk_begins(&things, anew->fix), reached = walk_reached(&old);
    const bool same = old.back == anew->back && old.with == TT_NONE;
    t->fix.before = same || reached < isolated ? reached : isolated;
}

/* What was never tried has changed nothing, and then nobody need work out what comes next. */
static bool is_to_be_put_back(tt_talk *t, uint32_t fix)
{
    if (!case_was_told_of(t->c, fix)) return false;
    const tt_view *v = talk_look(t);
    return v->step == TT_PUT_BACK && v->fix == fix;
}

bool replay_begun(tt_talk *t, const tt_record *r)
{
    const uint32_t fix = tt_fix_find(t->book, record_text(r->data, "fix"));
    if (*record_text(r->data, "with") != 0) return replay_begun_with(t, r);
    if (fix == TT_NONE) return false;
    const bool goes_on = t->explained == fix && talk_plan(t, fix).adjust.under_way,
               back = is_to_be_put_back(t, fix);
    const walk_before before = {t->fix, t->interrupted, t->measure_count};
    if (!back) measure_before(t, fix);
    if (!replay_is_ours(t, r)) return true;
    t->before = before;
    t->interrupted = false;
    begin_walk(t, &(walk){.fix = fix, .with = TT_NONE, .goes_on = goes_on, .back = back});
    return true;
}

/* Under the lockout of the first, of which nothing is done again. */
static bool replay_begun_with(tt_talk *t, const tt_record *r)
{
    bool known;
    const uint32_t fix = tt_fix_find(t->book, record_text(r->data, "fix")),
                   with = fix_with(t, r, &known);
    if (fix == TT_NONE || !known) return false;
    measure_before(t, with);
    if (replay_is_ours(t, r) && t->fix.fix == fix && !t->fix.back) t->fix.with = with;
    return true;
}

/* What is measured again is not measured yet. What is only put back was measured. */
static void go_back_in_fix(tt_talk *t, uint32_t to)
{
    const uint32_t both[] = {t->fix.fix, t->fix.with};
    t->fix.done = to;
    t->fix.measured = t->fix.measured_with = false;
    for (unsigned i = 0; i < 2 && !t->fix.back; i++) {
        measure *m = both[i] != TT_NONE ? measure_of(t, both[i]) : NULL;
        if (m != NULL) m->after = NULL;
    }
}

/* Not begun after all: it stands as before. So what was begun to be put back, whose outcome is
 * taken back then, is at its outcome once more. */
static void leave_walk(tt_talk *t)
{
    const walk_before *b = &t->before;
    const bool own =
        t->measure_count == b->measure_count + 1; /* what it was, when this was begun */
    t->fix = b->fix;
    t->interrupted = t->interrupted || b->interrupted;
    if (own) t->measure_count = b->measure_count;
    t->before = (walk_before){.fix = {.fix = TT_NONE}, .measure_count = t->measure_count};
}

bool replay_thing(tt_talk *t, const tt_record *r)
{
    const char *how = record_text(r->data, "how");
    const uint32_t fix = tt_fix_find(t->book, record_text(r->data, "fix"));
    uint64_t index = 0;
    value_counter(r->data, "index", &index);
    if (fix == TT_NONE) return false;
    if (t->fix.fix != fix || !replay_is_ours(t, r)) return true;
    if (strcmp(how, "not-begun") == 0)
        leave_walk(t);
    else if (index >= walk_list(t, fix).count)
        return true; /* of rules that had more steps */
    else if (strcmp(how, "back") == 0)
        go_back_in_fix(t, (uint32_t)index);
    else
        t->fix.done = (uint32_t)index + 1;
    t->fix.alone |= strcmp(how, "alone") == 0;
    return true;
}

/* One reading that both under a lockout are about is told of both. */
static void note_after(tt_talk *t, uint32_t fix, uint32_t question, const char *words)
{
    const uint32_t both[] = {fix, t->fix.fix == fix ? t->fix.with : TT_NONE};
    assert(question != TT_NONE);
    for (unsigned i = 0; i < 2; i++) {
        measure *m = both[i] != TT_NONE ? measure_of(t, both[i]) : NULL;
        if (m != NULL && (i == 0 || m->question == question)) m->after = words;
    }
}

bool replay_measured(tt_talk *t, const tt_record *r)
{
    const uint32_t fix = tt_fix_find(t->book, record_text(r->data, "fix")),
                   question = tt_question_find(t->book, record_text(r->data, "question"));
    if (fix == TT_NONE || question == TT_NONE) return false;
    double number;
    if (value_number(value_get(r->data, "reply"), "number", &number))
        note_after(t, fix, question, str_copy(t->keep, str_of(record_text(r->data, "words"))).p);
    if ((t->fix.fix != fix && !is_second(t, fix)) || !replay_is_ours(t, r)) return true;
    const tt_value *reply = value_get(r->data, "reply");
    if (t->fix.fix == fix)
        t->fix.measured = reply_of_value(t->keep, t->book, question, reply, &t->fix.after);
    else
        t->fix.measured_with =
            reply_of_value(t->keep, t->book, question, reply, &t->fix.after_with);
    return true;
}
