/* What the person takes for true at one look: read amiss as the belief has it, by the same
 * instruments that mislead in this call, or at this look alone. */
#ifndef TT_REHEARSE_SIGHT_H
#define TT_REHEARSE_SIGHT_H

#include "rehearse/made_call.h"

/* The state that is told, at the n-th look from 0; where what is so is another than what `is`. */
uint32_t sight_of(const made_call *call, uint32_t question, uint32_t time, bool another);

/* What was said of it last leaves out what is so. `said`[question]: weights, or null. */
bool is_amiss(const made_call *call, uint32_t question, const double *const *said);

#endif
