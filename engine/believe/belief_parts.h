/* What a belief holds, and the steps that its files share; nobody else includes this. */
#ifndef TT_BELIEVE_BELIEF_PARTS_H
#define TT_BELIEVE_BELIEF_PARTS_H

#include <assert.h>

#include "believe/belief.h"

struct given_latents;

#define LIKELIHOOD_LEAST 1e-300

/* How often each atom but the usual one is brought about, as independent Poisson clocks (competing
 * risks): two causes together race, with the base as the leak. */
typedef struct race {
    double *hazard; /* [listed][atom] H_c, 0 at the usual atom */
    double *leak;   /* [atom] H_0 */
} race;

struct belief {
    const net *n;
    uint32_t causes, count; /* count: hypotheses */
    bool pairs;
    bool has_room;      /* for all that follows; made when it is first weighed */
    race *races;        /* [component], with pairs */
    double **pair_rows; /* [component] P(atom | both) of its listed pairs, made when first wanted;
                           null: too many to keep */
    arena *keep;
    const uint32_t *first_pair; /* [cause] hypothesis of the pair with the next cause */
    const bool *barred;         /* [hypothesis] pairs that never stand together */

    /* What was answered, as last handed in, but for what has grown stale since. */
    const double **weights; /* [finding] */
    struct looks *looks;    /* [finding] */
    evidence seen;          /* both of them */

    /* Prior with the factors as last handed in. */
    bool has_prior;    /* it was weighed for these: */
    double *factor;    /* [cause] */
    double *how_often; /* [cause] of the network then, which may be gone now; as are: */
    double not_listed, two_faults;
    double *share, *log_share; /* [cause] */
    double log_one, log_two; /* prior of a single is share × one, of a pair share × share × two */
    bool all_ruled_out;

    double *log_prior; /* [0] not listed, [1 + cause] */
    bool had_outcome;  /* of a fix, since it was forgotten */
    double *history; /* [hypothesis] ln of what outcomes of fixes did, over the likelihood standing
                        then; holds nothing before one, and has no room before the first */
    double *log_failed; /* [cause] ln of the chance that every failed fix missed it */
    double *log_likelihood, *posterior; /* [hypothesis] */
    double *marginal;                   /* [0] not listed, [1 + cause] */
    double log_evidence;

    double *cure; /* [cause] room for a fix's chances */

    /* Room for one component at a time. */
    double *atom_weight, *row; /* [largest atom count] */
    double *log_listed;        /* [causes] */
};

/* Hypothesis of a pair, first < second. */
static inline uint32_t pair_at(const belief *b, uint32_t first, uint32_t second)
{
    assert(first < second && second < b->causes);
    return b->first_pair[first] + (second - first - 1);
}

static inline double history_of(const belief *b, uint32_t hypothesis)
{
    return b->had_outcome ? b->history[hypothesis] : 0;
}

/* belief.c: room that is written before it is read. */
double *belief_numbers(arena *keep, uint32_t count);

/* atoms_said.c */
race *races_of(arena *keep, const net *n);
void race_of(const component *g, race *out); /* into the room it has */
/* P(atom | both causes), given by their places in the component's list. */
void race_row(const component *g, const race *r, uint32_t one, uint32_t two, double *row);
/* The answers to a component's findings as lambda[slot], null where nothing was answered and at
 * slot `but_for`. `given` (may be null): whether some instruments mislead. */
const double *const *answers_in(arena *a, const net *n, const component *g, const evidence *seen,
                                uint32_t but_for, const struct given_latents *given);
uint32_t states_in(const component *g, uint32_t slot);
/* w_a: chance of the answers in each atom. lambda[slot] is null where nothing was answered. */
void weigh_atoms(const component *g, const double *const *lambda, double *out);
double log_likelihood_of(const double *row, const double *atom_weight, uint32_t atoms);
/* As much of it as counts, since signs of one fault hang together. */
double log_counted(const net *n, const double *row, const double *atom_weight, uint32_t atoms);
/* likelihood.c */
/* ln P(answers remembered | hypothesis), for all. */
void belief_weigh_answers(belief *b);

/* belief.c: prior, history and likelihood to posterior. */
void belief_combine(belief *b);

#endif
