/* Quantities of a made-up call. They are drawn like readings, not reckoned: the tables know nothing
 * of formulas. So once a case would reckon one, it is told. */
#ifndef TT_REHEARSE_DRAWN_QUANTITY_H
#define TT_REHEARSE_DRAWN_QUANTITY_H

#include "rehearse/made_call.h"

bool call_draws_quantity(const made_call *call, uint32_t question);
/* `times`: [question] how often it was told. */
tt_status call_tell_quantity(const made_call *call, tt_case *c, uint32_t quantity, uint32_t *times);
/* All that the case reckons as it was just looked at; *changed: it has to be looked at again. */
tt_status call_tell_quantities(const made_call *call, tt_case *c, uint32_t *times, bool *changed);

#endif
