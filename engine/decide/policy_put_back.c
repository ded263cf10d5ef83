/* What a fix that did not help has changed is put back before anything else is tried: the last one
 * first. */
#include <assert.h>

#include "decide/situation.h"

static bool is_due(situation *s, uint32_t fix)
{
    const tt_case *c = s->c;
    const bool due = !case_adjusts(c, fix) && fix_changed_in_vain(c, fix) &&
                     !c->now.restored[fix] && !c->now.left_so[fix];
    if (due) s->fix = fix;
    return due;
}

bool something_is_to_be_put_back(situation *s)
{
    const tt_case *c = s->c;
    s->fix = c->now.adjust.fix;
    if (s->fix != NO_ID && c->now.adjust.put_back_due) return true;
    s->fix = NO_ID;
    for (uint32_t i = c->event_count; i > 0; i--) {
        const event *e = &c->events[i - 1];
        if (e->kind != EVENT_OUTCOME) continue;
        if ((e->together && is_due(s, e->with)) || is_due(s, e->subject)) return true;
    }
    return false;
}

void put_back_step(situation *s)
{
    const adjusting *a = &s->c->now.adjust;
    assert(s->fix < s->c->book->book->fix_count);
    if (!case_may_do(s->c, s->fix)) {
        call_for(s, s->fix);
        return;
    }
    if (a->fix == s->fix && a->stuck) {
        call_step(s);
        return;
    }
    s->view->step = TT_PUT_BACK;
    s->view->fix = s->fix;
}
