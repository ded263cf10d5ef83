/* A round, or a record of what is good: its questions in the order of the way. Nothing is weighed
 * and nothing is tried; what is found out of order is for a case of its own. */
#include <assert.h>

#include "decide/situation.h"

bool is_a_walk(situation *s)
{
    return s->c->kind == TT_KIND_ROUND || s->c->kind == TT_KIND_RECORD;
}

void walk_step(situation *s)
{
    assert(is_a_walk(s));
    const uint32_t question = walk_next(s->c);
    if (question != NO_ID) {
        ask_step(s, question, TEXT_BECAUSE_ROUND);
        if (s->c->kind == TT_KIND_RECORD)
            s->view->next.reason = case_says(s->c, TEXT_BECAUSE_RECORD);
        return;
    }
    s->view->step = TT_WALKED;
}
