/* What somebody would do who knows for certain what is wrong. */
#ifndef TT_REHEARSE_CLAIRVOYANT_H
#define TT_REHEARSE_CLAIRVOYANT_H

#include "rehearse/made_call.h"

/* The fix to try now so that the expected minutes to a cure are fewest, calling somebody counting
 * as the book says; NO_ID: calling at once is cheapest. Of the fixes that the case offers this role
 * as it stands: the gate, hazards, authority and facts bind the clairvoyant too, thresholds and
 * prices don't. */
uint32_t clairvoyant_fix(arena *scratch, tt_case *c, const made_call *call);

#endif
