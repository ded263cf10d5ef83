/* What a course of fixes costs where the cause is known for certain: of all fixes only those that
 * cure it count, and those that they wait for. So it is worked out on a choice of one cause, and
 * takes as much for each of many causes as for the only one. */
#ifndef TT_CHOOSE_KNOWN_CAUSE_H
#define TT_CHOOSE_KNOWN_CAUSE_H

#include "choose/fix_order.h"

typedef struct known_causes known_causes;

/* Of whoever asks, in their place now; plans of whoever is called are made already. */
known_causes *known_causes_of(arena *scratch, const fix_course *own);

/* The minutes that fixing saves over calling at once; 0 where this person has no fix for it. */
double known_cause_saves(known_causes *k, uint32_t cause);

#endif
