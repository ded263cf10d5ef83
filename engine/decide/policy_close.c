/* The trouble is gone. */
#include "decide/situation.h"

void close_step(situation *s)
{
    no_question(s);
    s->view->step = TT_CLOSED;
}
