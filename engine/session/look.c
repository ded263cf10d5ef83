/* Where the case stands: events, then what may be asked and done, then the view, then what comes
 * next. */
#include "decide/decide.h"
#include "session/session.h"

static tt_status look(void *context)
{
    tt_case *c = context;
    if (c->fresh) return TT_OK;
    arena_back_to(c->scratch, (arena_mark){NULL, 0});
    case_stand(c);
    const options o = case_options(c);
    case_view(c, &o);
    decide_next(c, &o);
    c->fresh = true;
    return TT_OK;
}

tt_status tt_look(tt_case *c, const tt_view **out)
{
    tt_status status = guarded_case(c, look, c);
    *out = status == TT_OK ? &c->view : NULL;
    return status;
}
