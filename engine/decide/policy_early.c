/* Facts of the site and of the day that are told right after the gate, since much of the rest
 * depends on them. */
#include <assert.h>

#include "decide/situation.h"

bool early_fact_is_open(situation *s)
{
    const book *b = s->c->book->book;
    if (is_a_walk(s))
        return false; /* it asks the facts that decide what of it applies, and no more */
    for (uint32_t q = 0; q < b->question_count; q++) {
        if (!b->questions[q].early || !case_could_ask(s->c, q)) continue;
        s->question = ask_or_what_it_needs(s, q);
        if (s->question != NO_ID) return true;
    }
    return false;
}

void early_step(situation *s)
{
    assert(s->question != NO_ID);
    ask_step(s, s->question, TEXT_BECAUSE_EARLY);
    s->view->next.first = true;
}
