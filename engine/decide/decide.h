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

#endif
