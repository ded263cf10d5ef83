/* Quantities of a made-up call. */
#include "rehearse/drawn_quantity.h"

#include <assert.h>

bool call_draws_quantity(const made_call *call, uint32_t question)
{
    const program *p = call->from->prog;
    assert(question < p->book->question_count);
    return p->book->questions[question].kind == QUESTION_QUANTITY && p->is_evidence[question] &&
           !call->fixed[question];
}

tt_status call_tell_quantity(const made_call *call, tt_case *c, uint32_t quantity, uint32_t *times)
{
    assert(quantity < c->book->book->question_count);
    const tt_reply reply = call_reply(call, quantity, times[quantity]++);
    return tt_answer(c, quantity, &reply);
}

tt_status call_tell_quantities(const made_call *call, tt_case *c, uint32_t *times, bool *changed)
{
    const book *b = c->book->book;
    const standing *now = &c->now;
    tt_status status = TT_OK;
    for (uint32_t i = 0; i < b->reckon_count && status == TT_OK; i++) {
        const uint32_t q = b->reckon_order[i];
        if (!call_draws_quantity(call, q) || now->replies[q] == NULL || now->adjust.fix != NO_ID)
            continue;
        if (now->reckoned[q])
            status = call_tell_quantity(call, c, q, times);
        else if (now->stale[q])
            status = tt_retract(c, q); /* or it would not be asked again */
        else
            continue;
        *changed = true;
    }
    return status;
}
