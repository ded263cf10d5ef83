/* What closed and confirmed cases say about the author's numbers. The author's number counts as so
 * many cases seen before (an equivalent sample), cases are added, and what comes out is a beta
 * distribution: the marginal of a Dirichlet over the causes, or over the states of an answer.
 * Mathematics: docs/mathematics.md, section "Learning". */
#ifndef TT_LEARN_LEARN_H
#define TT_LEARN_LEARN_H

#include <stdint.h>

#include "compile/net.h"

/* How many cases the author's numbers count as, and from how many a cause on the mean there is
 * anything to show. */
enum {
    LEARN_SHARES_COUNT = 50,
    LEARN_ROW_COUNTS = 20,  /* chances with one cause */
    LEARN_BASE_COUNTS = 40, /* chances otherwise */
    LEARN_CASES_A_CAUSE = 4,
};

/* One of the author's numbers as a chance, and what was counted: `yes` of `of` (yes ≤ of; not
 * whole, where answers leave room). */
typedef struct learn_count {
    double written, strength; /* [0, 1]; > 0 */
    double yes, of;
} learn_count;

typedef struct learn_belief {
    double mean, low, high; /* low to high: 95 % credible, 2.5 % on either side */
} learn_belief;
learn_belief learn_from(const learn_count *c);

/* How often a cause is met, in the author's relative weights, after `cases` with it: weight
 * `before` of all weights `sum`. The weights of causes without a case stay as they are, which
 * leaves their shares as the Dirichlet has them. */
double learn_weight(double before, double sum, double cases);

/* P(atom | answer, cause) of a component with one finding: which of its states was there, seen
 * through how often people get it right. weights[state] ≥ 0, not all 0, as evidence has them.
 * out[atom_count] sums to 1. */
void learn_atoms(const net *n, uint32_t component_index, uint32_t cause, const double *weights,
                 double *out);

#endif
