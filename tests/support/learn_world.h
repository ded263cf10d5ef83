/* Worlds for tests of learning: a book's tables, and rows of chances drawn as the author's numbers
 * are taken to be uncertain, each from the Dirichlet distribution around the author's. */
#ifndef TT_SUPPORT_LEARN_WORLD_H
#define TT_SUPPORT_LEARN_WORLD_H

#include "learn/row.h"
#include "net_kit.h"

enum { WORLD_FINDINGS = 9, WORLD_LISTED = 4, WORLD_STATES = 3 };

typedef struct learn_world {
    uint32_t causes, listed, stride; /* a finding lists so many causes, from stride * its id on */
    const double *chances;           /* [listed] of its first sign; half of each: of a second */
    net_kit *k;
    const net *n;
    /* Row `listed` of each finding is that of the causes it doesn't list. */
    double truth[WORLD_FINDINGS][WORLD_LISTED + 1][WORLD_STATES];
    learn_row *rows[WORLD_FINDINGS][WORLD_LISTED + 1];
} learn_world;

/* Every third question has three answers, two of them a symptom. What else it needs is added to
 * `k` before it is built. */
void learn_world_begin(learn_world *w, double right);
void learn_world_build(learn_world *w);

/* Near the author's numbers, or his own. */
void learn_world_draw(learn_world *w, uint64_t *drawn, bool own);
void learn_world_near(uint64_t *drawn, const double *mean, uint32_t count, double strength,
                      double *out);

/* Its row of the finding's table, and a state drawn from what is true of it. */
uint32_t learn_world_row(const learn_world *w, uint32_t finding, uint32_t cause);
uint32_t learn_world_state(const learn_world *w, uint64_t *drawn, uint32_t finding, uint32_t cause);

#endif
