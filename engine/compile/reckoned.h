/* What is known once some questions are answered: the states an answer leaves, whether a condition
 * holds, and the numbers that formulas work out. */
#ifndef TT_COMPILE_RECKONED_H
#define TT_COMPILE_RECKONED_H

#include "compile/program.h"

state_mask every_state(uint32_t states);
/* Chaining needs certainty: what is unsure or soft leaves every state open. An exclusion closes
 * what it names; it makes the answer known only if it leaves one state. */
state_mask reply_mask(const program *p, const reply *r, bool *known);

/* The answers: what counts for a question, or null while it is not known. */
typedef struct known_replies {
    const program *p;
    const reply *(*of)(void *context, uint32_t question);
    void *context;
} known_replies;

/* Over questions and quantities only: symptoms and conclusions are not known. */
truth cond_truth(const known_replies *k, const cond *c);

/* The number that a quantity's formula works out of what is known; `why` is set if it has none
 * though all is known. */
bool quantity_reckoned(const known_replies *k, uint32_t question, reply *out, formula_lack *why);

#endif
