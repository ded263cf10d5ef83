/* What the gain of a question is added up in; of this room alone. */
#ifndef TT_BELIEVE_GAIN_H
#define TT_BELIEVE_GAIN_H

#include "believe/belief.h"

/* Gain = H(p) - sum P(y) H(p|y). With w and rows r, m_y = sum w r_y, M = sum m_y:
 *     ln W - (sum w ln w)/W - (1/M) sum_y [m_y ln m_y - sum_S w r_y ln(w r_y)],
 * and sum_S w r_y ln(w r_y) = sum_S [r_y (w ln w) + w (r_y ln r_y)] needs totals for all that share
 * the base row. */
typedef struct gain_tally {
    double sum, sum_log; /* of the hypotheses that no row was added for yet */
    double *mass;        /* [y] m_y */
    double inner;        /* sum over S, y of w r ln(w r) */
    uint32_t states;
} gain_tally;

/* Hypotheses that share a row: their weights' sum, and that of w ln w. */
void gain_add(gain_tally *t, const double *row, double sum, double sum_log);
/* All that no row was added for has the base's. `before`: entropy of the hypotheses, in nats. Bits;
 * `answer` (may be null) gets P(y). */
double gain_finish(gain_tally *t, const double *base, double before, double *answer);

#endif
