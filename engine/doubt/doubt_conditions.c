/* Conditions that can never hold, or can't fail to. */
#include <assert.h>

#include "doubt/doubt.h"

static void see_condition(const doubter *d, const cond *c, const char *what, const label *owner)
{
    assert(c != NULL && owner->name.n > 0);
    if (!can_hold(d, &c, 1)) {
        fault *f =
            fault_add(d->list, FAULT_NEVER_HOLDS, c->at,
                      "The condition of the %s '%.*s' can never hold: what it asks for excludes "
                      "itself, or is never asked then.",
                      what, STR_ARG(owner->name));
        fault_help(d->list, f, "Write 'any' where one of them is enough, or take one of them out.");
    } else if (!can_fail(d, c)) {
        fault *f = fault_add(d->list, FAULT_ALWAYS_HOLDS, c->at,
                             "The condition of the %s '%.*s' holds whatever is answered.", what,
                             STR_ARG(owner->name));
        fault_help(d->list, f,
                   "Take an answer out of it, or leave the condition out if it is to hold always.");
    }
}

void doubt_conditions(const doubter *d)
{
    each_condition(d, see_condition);
}
