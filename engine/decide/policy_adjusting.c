/* While a setting is being changed nothing else is tried. */
#include <assert.h>

#include "decide/situation.h"

bool adjustment_is_under_way(situation *s)
{
    return s->c->now.adjust.fix != NO_ID;
}

/* A reading of long ago carries no step. */
static uint32_t old_setting(const tt_case *c)
{
    uint32_t reading = c->book->book->fixes[c->now.adjust.fix].adjust.reading;
    return c->now.old[reading] && case_could_look(c, reading) ? reading : NO_ID;
}

void adjusting_step(situation *s)
{
    assert(!s->c->now.adjust.put_back_due); /* that comes before */
    uint32_t old = old_setting(s->c), looks = old != NO_ID ? old : adjust_looks(s->c);
    if (looks != NO_ID) {
        ask_step(s, looks, old != NO_ID ? TEXT_BECAUSE_SET_LONG_AGO : TEXT_BECAUSE_STEP_CHANGED);
        return;
    }
    if (!case_may_do(s->c, s->c->now.adjust.fix)) {
        call_for(s, s->c->now.adjust.fix);
        return;
    }
    s->view->step = TT_FIX;
    s->view->fix = s->c->now.adjust.fix;
}
