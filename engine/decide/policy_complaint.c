/* What is wrong, in the words of whoever is there. */
#include <assert.h>

#include "decide/situation.h"

bool complaint_is_open(situation *s)
{
    return s->c->asks_complaint && !s->c->now.complained;
}

void complaint_step(situation *s)
{
    assert(complaint_is_open(s));
    s->view->step = TT_COMPLAINT;
}
