/* Where the case stands: events, then what may be asked and done, then the view. What comes next is
 * decide's to say (tt_look). */
#include "session/session.h"

static tt_status stand(void *context)
{
    tt_case *c = context;
    if (c->stands) return TT_OK;
    arena_back_to(c->scratch, (arena_mark){NULL, 0});
    case_stand(c);
    c->stands = true;
    return TT_OK;
}

tt_status case_stood(tt_case *c)
{
    return guarded_case(c, stand, c);
}

static tt_status know(void *context)
{
    tt_case *c = context;
    if (!c->stands) case_stand_unweighed(c);
    return TT_OK;
}

tt_status case_known(tt_case *c)
{
    return guarded_case(c, know, c);
}

static tt_status see(void *context)
{
    tt_case *c = context;
    if (c->fresh) return TT_OK;
    stand(c);
    c->options = case_options(c);
    case_view(c, &c->options);
    c->fresh = true;
    c->decided = false;
    return TT_OK;
}

tt_status case_see(tt_case *c)
{
    return guarded_case(c, see, c);
}
