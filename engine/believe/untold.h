/* How a fact that nobody has told will be answered: from the same joint distribution of causes and
 * facts that says what is believed before it is told. */
#ifndef TT_BELIEVE_UNTOLD_H
#define TT_BELIEVE_UNTOLD_H

#include "believe/belief.h"
#include "compile/facts.h"

/* P(state of the fact | hypothesis, what is told), where it applies. `prior` [cause] is what J
 * gives each cause (not normalised): something not listed comes with the facts that causes come
 * with. No cause is listed if all expect the same. */
prediction untold_predict(arena *keep, const facts_outlook *o, uint32_t finding,
                          const double *prior);

/* The same once questions are answered whose tables depend on facts: a state in which the answers
 * are likelier is likelier. Every cause is listed if any such question is answered. */
void untold_after_answers(arena *keep, const facts_outlook *o, const net *n, const evidence *seen,
                          uint32_t finding, const double *prior, prediction *p);

#endif
