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
/* The same of a finding that is looked at with so many instruments, which mislead so often. */
look_parting look_parting_with(const double *wrong, uint32_t count, double slip);

/* What may have misled looks at one finding: an instrument, a person, or a look by itself. */
typedef struct look_mishap {
    uint32_t source; /* its place among those of the finding; NO_SOURCE: no instrument */
    bool fresh;      /* of one look by itself; else, without an instrument, of a person */
    latent of;       /* an instrument's */
} look_mishap;
#define NO_SOURCE UINT32_MAX
enum { MISHAPS_MAX = LOOKS_MAX * (SOURCES_MAX + 1) };
uint32_t looks_mishaps(const net *n, uint32_t finding, looks all, look_mishap *out);
/* [what happened, as bits of those] chance of what all looks said if that state is so. Of a state
 * that is never read amiss nothing happens: all as if nothing had. */
void looks_said(const net *n, uint32_t finding, looks all, uint32_t state, double *out);

#endif
