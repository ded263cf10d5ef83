/* Looks at one finding. What is read amiss through a gauge that misleads is read amiss again
 * through the same gauge; somebody else's, or another gauge, is fresh. Mathematics:
 * docs/mathematics.md, "Looking twice". */
#ifndef TT_BELIEVE_LOOKS_H
#define TT_BELIEVE_LOOKS_H

#include "believe/belief.h"

/* One instrument, or one person's senses, which misleads or doesn't: hidden, the same at all looks
 * through it. */
typedef struct latent {
    uint32_t source, instance;
} latent;

/* Of looks at a finding by way of its source `at`. */
latent look_latent(const net *n, uint32_t source, const sighting *l);
bool latents_equal(latent a, latent b);

/* The looks at a finding that count, at most LOOKS_MAX; `one` is room for a single one. Count 0:
 * nothing is said of it. */
looks looks_at(const net *n, const evidence *seen, uint32_t finding, sighting *one);

/* Latents whose state is given, [latent]; where it is not among them a look's own is summed over.
 */
typedef struct given_latents {
    const struct latent *items;
    uint32_t count;
    uint64_t wrong; /* bit: that one misleads */
} given_latents;

/* [state] chance of what all looks said, given the true state. */
void looks_lambda(const net *n, uint32_t finding, looks all, const given_latents *given,
                  double *lambda);

/* How what is read amiss with this chance parts: what of the instruments' misleading comes to it,
 * of the same person's looks, and of one look alone. */
typedef struct look_parting {
    double here[SOURCES_MAX]; /* [its source] that it misleads here, where it misleads */
    double person, fresh;
} look_parting;
look_parting look_parting_of(const net *n, uint32_t finding, double slip);

#endif
