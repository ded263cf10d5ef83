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
        ask_step(s, question, "It is looked at on each round.");
        if (s->c->kind == TT_KIND_RECORD)
            s->view->next.reason = "What is good is told by it later.";
        return;
    }
    no_question(s);
    s->view->step = TT_WALKED;
}
