/* The belief written down as plainly as the mathematics says it: every hypothesis a set of causes,
 * every component summed over all its cells, in long double. Slow, and a second opinion on
 * engine/believe. Random networks and answers to try both on. */
#ifndef TT_SUPPORT_BELIEF_TWIN_H
#define TT_SUPPORT_BELIEF_TWIN_H

#include "believe/belief.h"

enum { TWIN_SETS = 64 }; /* most hypotheses */

/* Up to 6 causes, up to 6 findings of up to 3 states, symptoms over one to three findings. */
net_input twin_draw_input(arena *keep, uint64_t *random);
/* Two instruments, and which findings are read from one of them, or both. */
void twin_draw_sources(arena *keep, uint64_t *random, net_input *in);
/* An answer to a finding: hard, not sure, an exclusion, a likely one. */
const double *twin_draw_answer(arena *keep, uint64_t *random, uint32_t states);
/* Answers to about half the findings. */
evidence twin_draw_evidence(arena *keep, uint64_t *random, const net *n);
/* Factors between 1/4 and 4; one in eight is 0 if `with_zero`. */
double *twin_draw_factors(arena *keep, uint64_t *random, uint32_t causes, bool with_zero);

/* Hypotheses as sets of causes (bits), in the engine's order. Returns their number. */
uint32_t twin_sets(const net *n, uint32_t most_faults, uint32_t *sets);

void twin_prior(const net *n, const uint32_t *sets, uint32_t count, const double *factor,
                long double *out);
/* P(answers | exactly these causes); no cause: something not listed. */
long double twin_likelihood(const net *n, uint32_t set, const evidence *seen);
/* The same evidence, with one finding's answer replaced (null: taken out). */
evidence twin_with(arena *keep, const net *n, const evidence *seen, uint32_t finding,
                   const double *weights);

/* Sum made 1. Returns what it was. */
long double twin_normalise(long double *p, uint32_t count);
long double twin_entropy(const long double *p, uint32_t count); /* bits */

/* Unnormalised weights after an outcome: sum over sets and what is removed from each. */
void twin_outcome(const uint32_t *sets, uint32_t count, const long double *w, const double *cure,
                  fix_outcome outcome, const outcome_rates *rates, long double *out);

#endif
