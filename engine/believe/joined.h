/* Components that answers through one instrument join: whether it misleads is one thing that all of
 * them depend on. Given that, and what is wrong, they are independent. Mathematics:
 * docs/mathematics.md, "Looking twice". */
#ifndef TT_BELIEVE_JOINED_H
#define TT_BELIEVE_JOINED_H

#include "believe/belief_parts.h"
#include "believe/looks.h"

enum {
    JOINED_MAX = 10
}; /* instruments summed over at once; further ones count for each question by itself */

typedef struct joined {
    const uint32_t *components; /* rising, those with an answer */
    uint32_t count;
    const latent *latents; /* through which two or more of their findings were answered */
    uint32_t latent_count;
    const uint32_t *listed; /* causes that any of them lists, rising */
    uint32_t listed_count;
} joined;

typedef struct joining {
    const joined *groups; /* by their first component */
    uint32_t count;
} joining;

joining joining_of(arena *keep, const net *n, const evidence *seen);
/* Its group that holds a component, alone; of none: count 0. */
joined joining_with(arena *keep, const net *n, const evidence *seen, uint32_t component_index);
/* The group that holds a component; of none: count 0. */
joined joined_with(const joining *all, uint32_t component_index);

/* P(answers | hypothesis) of a group. */
typedef struct joined_says {
    double base, other;
    double *listed; /* [listed] */
    double *pairs;  /* [i < k of listed]; null: not asked for */
} joined_says;

/* Only its components below `until` count. `races` null: no pairs. */
joined_says joined_weigh(arena *keep, const net *n, const race *races, const joined *j,
                         const evidence *seen, uint32_t until);

/* Of a hypothesis: something not listed, or a cause. */
double joined_of(const joined *j, const joined_says *s, uint32_t hypothesis);

/* As much of it as counts, in natural logarithms. */
double joined_counted(const net *n, double chance);

#endif
