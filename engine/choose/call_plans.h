/* What plans of whoever is called next cost, made ahead for the beliefs that a decision looks at.
 */
#ifndef TT_CHOOSE_CALL_PLANS_H
#define TT_CHOOSE_CALL_PLANS_H

#include "choose/call_out.h"

/* Makes the plans for weights `now` and for what the listed questions may make of them. */
void make_call_plans(arena *keep, fix_course *own, const double *now, const uint32_t *listed,
                     uint32_t listed_count);

#endif
