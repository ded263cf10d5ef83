/* After a fix that made it better or worse, all that its author wants to be looked at again is
 * asked, once each. */
#include <assert.h>

#include "decide/situation.h"

bool look_again_is_due(situation *s)
{
    for (uint32_t q = 0; q < s->c->book->book->question_count; q++) {
        s->question = q;
        if (s->c->now.look_due[q] && case_could_look(s->c, q)) return true;
    }
    s->question = NO_ID;
    return false;
}

void look_again_step(situation *s)
{
    assert(s->c->now.look_due[s->question]);
    ask_step(s, s->question, TEXT_BECAUSE_FIX_CHANGED);
}
