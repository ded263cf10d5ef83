/* What is known of a case by certainty: answers as masks and weights, and what the working memory
 * makes of them. */
#include <assert.h>

#include "session/session.h"

const double *reply_weights(arena *keep, const program *p, const reply *r)
{
    if (r->kind == REPLY_UNSURE) return NULL;
    uint32_t states = program_states(p, r->question);
    assert(states > 0 && states <= EXPR_STATES_MAX);
    double *weights = ARENA_ARRAY(keep, double, states);
    bool known;
    state_mask mask = reply_mask(p, r, &known);
    for (uint32_t s = 0; s < states; s++)
        weights[s] = r->kind == REPLY_LIKELY ? r->weights[s] : (double)((mask >> s) & 1);
    return weights;
}

evidence case_evidence(const tt_case *c)
{
    return (evidence){.weights = c->now.weights, .looks = c->now.looks, .person = c->speaker};
}

void case_remember(tt_case *c, uint32_t question, state_mask possible, bool known)
{
    assert(question < c->book->book->question_count && possible != 0);
    if (c->told[question] == possible && c->told_known[question] == known) return;
    assert((possible & ~every_state(program_states(c->book->prog, question))) == 0);
    wm_set(c->memory, question, possible, known);
    c->told[question] = possible;
    c->told_known[question] = known;
}

truth case_truth(const tt_case *c, uint32_t atom)
{
    return atom == NO_ID ? TRUTH_TRUE : wm_truth(c->memory, atom);
}

/* While a setting is being changed, what may change with it stays as evidence as it was found. */
bool adjust_holds(const tt_case *c, uint32_t question)
{
    return c->now.adjust.held != NULL && c->now.adjust.held[question];
}
