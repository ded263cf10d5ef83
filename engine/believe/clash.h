/* Two answers that don't fit together: even with the likeliest cause, what was said is far less
 * likely than what one would hear, without one of the answers much less so, and by all that was
 * said one of the two was rather read amiss than not. Mathematics: docs/mathematics.md, "Answers
 * that clash". */
#ifndef TT_BELIEVE_CLASH_H
#define TT_BELIEVE_CLASH_H

#include "believe/belief.h"

#define CLASH_LESS_LIKELY_THAN 1e-3
#define CLASH_RAISED_BY        50.0
#define CLASH_AMISS            0.5

typedef struct clash {
    uint32_t weaker, other; /* findings: the one without which the rest fits best, and the one that
                               it is most at odds with */
    double fit;             /* P(answers | likeliest cause) over that of the likeliest answers */
    double raised;          /* so many times as much without the weaker */
    double amiss;           /* chance that one of the two, or both, was read amiss */
} clash;

/* `single`: as it was weighed with `seen`. `pairs` may be null. `may`[finding]: it can be one of
 * the two. */
bool belief_clash(const belief *single, const belief *pairs, arena *scratch, const evidence *seen,
                  const bool *may, clash *out);

/* Chance that the last look at one of the two, or at both, was read amiss; by single faults, as
 * `single` was weighed with `seen`. */
double belief_amiss(const belief *single, arena *scratch, const evidence *seen, uint32_t one,
                    uint32_t other);

/* ln P(answers | hypothesis) less that of the likeliest answer to each question, as belief_clash
 * has it. */
double belief_fit(const belief *b, arena *scratch, const evidence *seen, uint32_t hypothesis);

#endif
