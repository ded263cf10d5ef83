/* People who did not know of each other answered a question, or reported on a fix, differently:
 * which of them is right? Whoever keeps the case says so (tt_unsettled), since only the records
 * tell who knew what. */
#include <assert.h>

#include "decide/situation.h"

bool something_is_unsettled(situation *s)
{
    const standing *now = &s->c->now;
    for (s->question = 0; s->question < s->c->book->book->question_count; s->question++)
        if (now->unsettled_question[s->question]) return true;
    s->question = NO_ID;
    for (s->fix = 0; s->fix < s->c->book->book->fix_count; s->fix++)
        if (now->unsettled_fix[s->fix]) return true;
    s->fix = NO_ID;
    return false;
}

void settle_step(situation *s)
{
    assert((s->question == NO_ID) != (s->fix == NO_ID));
    s->view->step = TT_SETTLE;
    s->view->fix = s->fix;
    if (s->question == NO_ID) return;
    s->view->next.question = s->question;
    s->view->next.minutes = s->c->book->book->questions[s->question].minutes;
}
