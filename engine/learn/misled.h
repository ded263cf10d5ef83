/* How often instruments mislead, learned from confirmed cases. One look by itself is misread as
 * often as `read-right` says, whatever misled it; so only looks that share an instrument tell: two
 * questions answered through it, or one looked at twice. Which instrument misled in which case is
 * not seen. With the cause known, and rows as learned, the chance of all that was said is summed
 * over what may have misled, and the numbers are those that make it likeliest, the author's
 * counting as LEARN_BASE_COUNTS cases. Mathematics: docs/mathematics.md, "Learning". */
#ifndef TT_LEARN_MISLED_H
#define TT_LEARN_MISLED_H

#include "believe/looks.h"
#include "learn/row.h"

typedef struct learn_instrument {
    double written; /* how often it misleads; 0: never, and nothing is learned of it */
    /* Once it is fitted: */
    double mean, low, high; /* low to high: 95 % credible */
    double uses, misled; /* of it or another of its kind in cases that tell of it; of these, those
                            in which it misled, on the mean */
} learn_instrument;

typedef struct learn_together learn_together;

typedef struct learn_misled {
    learn_instrument *all; /* [source] */
    uint32_t count;
    learn_together *groups;
} learn_misled;

learn_misled *learn_misled_new(arena *keep, const net_source *sources, uint32_t count);

/* What was answered in a case; rows[component] of what was wrong in it, of components with one
 * finding, or null where there is none to learn from. The net has the instruments of the book. */
void learn_misled_add(arena *keep, arena *scratch, learn_misled *m, const net *n,
                      const evidence *seen, learn_row *const *rows, learn_end end);

/* Rows must be fitted. */
void learn_misled_fit(arena *scratch, learn_misled *m, const learn_weights *w);

#endif
