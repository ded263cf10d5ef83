/* What facts, and what was tried, make of one fix. */
#include <assert.h>

#include "session/session.h"

bool fix_applies(tt_case *c, uint32_t fix)
{
    return !c->now.skip_fixes[fix] && case_truth(c, c->book->prog->fix_atom[fix]) != TRUTH_FALSE &&
           adjust_is_possible(c, fix);
}

bool fix_is_possible(tt_case *c, uint32_t fix)
{
    return !safety_forbids(&c->book->book->fixes[fix].harm) && fix_applies(c, fix);
}

bool fix_waits(const tt_case *c, uint32_t fix)
{
    return case_truth(c, c->book->prog->fix_atom[fix]) == TRUTH_UNKNOWN;
}

/* A setting that did not help; or what else a fix changed that did not. */
bool fix_changed_in_vain(const tt_case *c, uint32_t fix)
{
    const standing *now = &c->now;
    if (case_adjusts(c, fix)) return now->adjust.fix == fix && now->adjust.put_back_due;
    bool no_help = now->outcomes[fix] == TT_NO_CHANGE || now->outcomes[fix] == TT_WORSE;
    return c->book->book->fixes[fix].undo.kind == PUT_BACK_TEXT && now->tried[fix] && no_help;
}

bool case_was_told_of(const tt_case *c, uint32_t fix)
{
    bool told = false;
    for (uint32_t i = 0; i < c->event_count && !told; i++) {
        const event *e = &c->events[i];
        told = e->kind == EVENT_OUTCOME && (e->subject == fix || (e->together && e->with == fix));
    }
    return told;
}

uint32_t fix_is_about(const tt_case *c, uint32_t fix)
{
    assert(fix < c->book->book->fix_count);
    const struct fix *f = &c->book->book->fixes[fix];
    uint32_t about = f->adjust.reading;
    for (uint32_t i = 0; about == NO_ID && i < f->look_again.count; i++)
        if (c->book->book->questions[f->look_again.items[i]].kind == QUESTION_READING)
            about = f->look_again.items[i];
    return about;
}
