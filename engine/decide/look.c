/* The whole of where a case stands: what is known, what may be done, and what comes next. */
#include <assert.h>

#include "decide/decide.h"
#include "session/session.h"

static const char *call_words(tt_case *c)
{
    const tt_view *v = &c->view;
    if (v->call_role != NULL) return tt_role_text(c->book, v->call_role, tt_case_language(c));
    return v->step == TT_CALL ? case_says(c, TEXT_SOMEBODY_OUTSIDE) : NULL;
}

static tt_status decide(void *context)
{
    tt_case *c = context;
    if (c->decided) return TT_OK;
    options_questions(c, &c->options);
    decide_next(c, &c->options);
    c->view.call_text = call_words(c);
    c->decided = true;
    return TT_OK;
}

tt_status tt_look(tt_case *c, const tt_view **out)
{
    assert(c != NULL && out != NULL);
    tt_status status = case_see(c);
    if (status == TT_OK) status = guarded_case(c, decide, c);
    *out = status == TT_OK ? &c->view : NULL;
    return status;
}
