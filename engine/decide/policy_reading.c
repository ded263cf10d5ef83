/* The fix that comes next may wait for an answer: where its setting stands, whether it can be tried
 * at all, or what was read too long ago. */
#include <assert.h>

#include "decide/situation.h"

static bool found(situation *s, uint32_t question, text_id reason)
{
    s->question = question;
    s->reason = reason;
    return question != NO_ID;
}

/* A reading speaks through what is reckoned from it: how far it is from its good value. */
static bool speaks_for(const book *b, const bool *speaks, uint32_t question)
{
    bool any = speaks[question];
    for (uint32_t k = 0; k < b->reckon_count && !any; k++) {
        const ids *beneath = &b->questions[b->reckon_order[k]].beneath;
        for (uint32_t i = 0; i < beneath->count && speaks[b->reckon_order[k]]; i++)
            any = any || beneath->items[i] == question;
    }
    return any;
}

/* The first answer of long ago that speaks for this fix and can be given again. */
static uint32_t old_answer(tt_case *c, uint32_t fix)
{
    const bool *speaks = fix_findings(c, fix);
    uint32_t about = fix_is_about(c, fix);
    for (uint32_t q = 0; q < c->book->book->question_count; q++)
        if (c->now.old[q] && (speaks_for(c->book->book, speaks, q) || q == about) &&
            case_could_look(c, q))
            return q;
    return NO_ID;
}

static bool fix_starts_from_answer(situation *s, uint32_t fix)
{
    return found(s, adjust_asks(s->c, fix), TEXT_BECAUSE_FIX_STARTS) ||
           found(s, old_answer(s->c, fix), TEXT_BECAUSE_ANSWERED_LONG_AGO);
}

/* The first question that a fix waits for and that may be asked, or NO_ID. */
static uint32_t missing_for_fix(tt_case *c, uint32_t fix)
{
    justification why = wm_why(c->memory, c->derived, c->book->prog->fix_atom[fix]);
    for (uint32_t i = 0; i < why.finding_count; i++)
        if (case_asks_for(c, why.findings[i]) != NO_ID) return case_asks_for(c, why.findings[i]);
    return NO_ID;
}

/* Before anybody is called: is there a fix worth trying that only waits for an answer? */
static bool fix_needs_answer(situation *s)
{
    const book *b = s->c->book->book;
    for (uint32_t i = 0; i < s->view->fix_count; i++) {
        const tt_fix *f = &s->view->fixes[i];
        double worth = s->o->in.rules.worth_trying[safety_risk(&b->fixes[f->fix].harm, true)];
        if (!case_may_do(s->c, f->fix) || !fix_waits(s->c, f->fix) || f->chance < worth) continue;
        if (found(s, missing_for_fix(s->c, f->fix), TEXT_BECAUSE_FIX_DEPENDS)) return true;
    }
    return false;
}

/* No fix comes next before somebody has said what is wrong and has answered what belongs to it. */
bool fix_waits_for_reading(situation *s)
{
    if (complaint_is_open(s) || option_beneath_complaint(s) != NO_ID) return false;
    const choice *step = balanced_choice(s);
    if (step->step == STEP_FIX && step->with != UINT32_MAX &&
        fix_starts_from_answer(s, s->o->fix_of[step->with]))
        return true;
    if (step->step == STEP_FIX) return fix_starts_from_answer(s, s->o->fix_of[step->fix]);
    return step->step == STEP_CALL && fix_needs_answer(s);
}

void reading_step(situation *s)
{
    assert(s->question != NO_ID);
    ask_step(s, s->question, s->reason);
}
