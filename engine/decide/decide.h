/* What comes next: to ask, to try, to put back, to call. One ordered table (policies.h), read by
 * everybody: guided cases, rank, worked cases, rehearsals, sheets and programs that use the
 * library. */
#ifndef TT_DECIDE_DECIDE_H
#define TT_DECIDE_DECIDE_H

#include "session/session.h"

/* Fills in what of the view is about the next step: gate, step, policy, next, fix, whom to call.
 * What the view says of fixes must be in it; while the gate is not open all of them are held, and
 * while a setting is being changed no other is to be tried. */
void decide_next(tt_case *c, const options *o);

/* Of that, the gate alone, and which fixes are held: for who doesn't want to know what comes next,
 * which is what costs most. The view's step, policy and next are of no use then. */
tt_status look_at_gate(tt_case *c, const tt_view **out);

/* The question that the gate waits for, or what must be known before it; NO_ID: the gate is open,
 * or shut. Nothing is weighed for it. */
tt_status gate_waits_for(tt_case *c, uint32_t *question);

#endif
