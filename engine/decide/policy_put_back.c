/* What a fix that did not help has changed is put back before anything else is tried: the last one
 * first. */
#include <assert.h>

#include "decide/situation.h"

bool something_is_to_be_put_back(situation *s)
{
    const tt_case *c = s->c;
    s->fix = c->now.adjust.fix;
    if (s->fix != NO_ID && c->now.adjust.put_back_due) return true;
    for (uint32_t i = c->event_count; i > 0; i--) {
        s->fix = c->events[i - 1].subject;
        bool tried = c->events[i - 1].kind == EVENT_OUTCOME && !case_adjusts(c, s->fix);
        if (tried && fix_changed_in_vain(c, s->fix) && !c->now.restored[s->fix] &&
            !c->now.left_so[s->fix])
            return true;
    }
    s->fix = NO_ID;
    return false;
}

void put_back_step(situation *s)
{
    const adjusting *a = &s->c->now.adjust;
    assert(s->fix < s->c->book->book->fix_count);
    no_question(s);
    if (a->fix == s->fix && a->stuck) {
        call_step(s);
        return;
    }
    s->view->step = TT_PUT_BACK;
    s->view->fix = s->fix;
}
