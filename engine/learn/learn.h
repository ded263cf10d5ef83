/* What cases say about one of the author's numbers: a chance, and how sure it is. The author's
 * number counts as so many cases seen before (an equivalent sample). Mathematics:
 * docs/mathematics.md, section "Learning". */
#ifndef TT_LEARN_LEARN_H
#define TT_LEARN_LEARN_H

#include <stdbool.h>
#include <stdint.h>

/* How many cases the author's numbers count as, and from how many a cause on the mean there is
 * anything to show. */
enum {
    LEARN_SHARES_COUNT = 50,
    LEARN_ROW_COUNTS = 20,  /* chances with one cause */
    LEARN_BASE_COUNTS = 40, /* chances otherwise */
    LEARN_CASES_A_CAUSE = 4,
};

/* How a case ended whose cause somebody confirmed. They are counted apart, since the cause is
 * confirmed more often after one end than after the other. */
typedef enum learn_end { LEARN_CURED, LEARN_HANDED_OVER, LEARN_ENDS } learn_end;

/* What a case of each end counts as. */
typedef struct learn_weights {
    double of[LEARN_ENDS];
    bool held; /* one end would have to count more */
} learn_weights;

/* `confirmed` of `ended` cases, by how they ended. A case counts by the inverse of the chance that
 * its cause is confirmed, up to LEARN_WEIGHT_MOST times as much as one of the other end, and all
 * of them as many as they are worth (Kish 1965). All 1 while none of one end is confirmed. */
#define LEARN_WEIGHT_MOST 4.0
learn_weights learn_weights_of(const uint32_t confirmed[LEARN_ENDS],
                               const uint32_t ended[LEARN_ENDS]);

typedef struct learn_belief {
    double mean, low, high; /* low to high: 95 % credible, 2.5 % on either side */
} learn_belief;

/* A chance that is as sure as if `worth` cases had been seen, `mean` of them with it. */
learn_belief learn_belief_of(double mean, double worth);

#endif
