/* From counts to shares and means with their uncertainty. */
#ifndef TT_REHEARSE_ESTIMATE_H
#define TT_REHEARSE_ESTIMATE_H

#include "rehearse/tally.h"
#include "telltale.h"

/* Wilson, E. B. (1927). Probable inference, the law of succession, and statistical inference. JASA
 * 22: with z = 1.96, centre (p + z²/2n) / (1 + z²/n), half width z sqrt(p(1-p)/n + z²/4n²) / (1 +
 * z²/n). */
tt_share share_of(uint64_t count, uint64_t of);
/* `unit`: what 1 of the sums is in the mean's unit. */
tt_mean mean_of(const moments *m, uint64_t of, double unit);

/* What a role worked, over the calls in which it did. */
tt_worked worked_by(const tally *t, uint32_t role, const char *name);

/* Minutes that a call would take more with number i turned in this direction. */
tt_mean moved_by(const tally *t, uint32_t i, int direction);

/* All but names, roles and confused pairs. */
void estimate(const tally *t, tt_rehearsed *out);

#endif
