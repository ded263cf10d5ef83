/* The facts of a made-up call, from the same joint distribution of causes and facts that the engine
 * reckons with. */
#ifndef TT_REHEARSE_DRAW_FACTS_H
#define TT_REHEARSE_DRAW_FACTS_H

#include "rehearse/dice.h"
#include "session/session.h"

/* Facts of the site and of today, given what the site's file says: one after the other, each given
 * those before. A gate question of which the author says no shares comes with its safe answers
 * only, or most calls would end before they begin. */
void facts_draw(arena *scratch, const program *p, uint64_t seed, uint64_t call, uint32_t *state);

/* How likely each state of what is no fact and has no table is with this cause (NO_ID: something
 * not listed), in a case that was told the facts. Null: no cause's factors read it. */
const double *facts_odds_with(arena *scratch, const program *p, const tt_case *told,
                              uint32_t question, uint32_t cause);

#endif
