/* What the balanced test says of the case, weighed once. */
#include "decide/situation.h"

const choice *balanced_choice(situation *s)
{
    if (!s->weighed) s->balanced = choose_step(&s->o->in, s->c->scratch, s->c->now.planning);
    s->weighed = true;
    return &s->balanced;
}
