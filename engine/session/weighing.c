/* Answers as evidence and as facts: what is known, and what it makes of the belief. */
#include "session/session.h"

/* What the working memory holds is what counts now: a stale answer is no longer known. */
static void tell_memory(tt_case *c)
{
    const program *p = c->book->prog;
    for (uint32_t q = 0; q < p->book->question_count; q++) {
        bool known = false;
        state_mask mask = every_state(program_states(p, q));
        if (c->now.replies[q] != NULL && !c->now.stale[q])
            mask = reply_mask(p, c->now.replies[q], &known);
        case_remember(c, q, mask, known);
    }
}

/* Tables that depend on facts, as they are with what is told. */
static void see_net(tt_case *c)
{
    const net *written = c->book->prog->evidence;
    double *prior = ARENA_ARRAY(c->derived, double, written->in.cause_count);
    for (uint32_t i = 0; i < written->in.cause_count; i++)
        prior[i] = written->in.weights[i] * c->now.factor[i];
    c->now.net = facts_mix(c->derived, c->now.untold, written, prior);
    belief_see_net(c->now.single, c->now.net);
    if (c->now.pairs != NULL) belief_see_net(c->now.pairs, c->now.net);
}

void case_learn(tt_case *c)
{
    case_reckon(c);
    tell_memory(c);
}

void case_weigh(tt_case *c)
{
    case_learn(c);
    look_list(c);
    const evidence seen = case_evidence(c);
    focus_find(c);
    case_factors(c, c->now.factor);
    see_net(c);
    belief_weigh(c->now.single, &seen, c->now.factor);
    if (c->now.pairs != NULL) belief_weigh(c->now.pairs, &seen, c->now.factor);
}
