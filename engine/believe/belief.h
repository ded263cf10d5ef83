/* Posterior over causes, exact. Hypotheses: 0 is "something not listed", 1 + c is cause c alone,
 * then (with two faults) the pairs (c, c') in lexicographic order. Everything is recomputed from
 * scratch on each change, in log space between components and linear inside one, sums in index
 * order, ties to the lowest index. Mathematics: docs/mathematics.md (priors, likelihood, outcomes).
 */
#ifndef TT_BELIEVE_BELIEF_H
#define TT_BELIEVE_BELIEF_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "compile/net.h"

/* What was answered: weights[f] points to s[0 … states-1] ≥ 0, not all 0; null where nothing was
 * answered. Hard answer: one-hot; not sure: all 1; "not dry": 0 there, 1 elsewhere; "probably": any
 * weights. */
typedef struct evidence {
    const double *const *weights;
    const struct looks *looks; /* [finding] all looks, where there was more than one, or by somebody
                                  else than person 0; may be null */
    uint32_t person;           /* who looks next */
} evidence;

/* Looks at the same, each as if it were the only one. weights[f] is that of the last. */
typedef struct sighting {
    const double *weights;
    uint32_t person;
    bool another; /* with another instrument than the usual one */
    bool right;   /* weighed only as far as it was not read amiss */
} sighting;
typedef struct looks {
    const sighting *items;
    uint32_t count; /* 0: one, as weights[f] says */
} looks;
enum {
    LOOKS_MAX = 4, /* those that count: the last */
};

typedef struct belief belief;

/* `most_faults` 1 or 2. The result and all it needs live in `keep`, from which it also takes when
 * it is weighed for the first time and when the first outcome moves it. */
belief *belief_new(arena *keep, const net *n, uint32_t most_faults);
/* The same with nothing weighed: it says nothing until belief_weigh. */
belief *belief_room(arena *keep, const net *n, uint32_t most_faults);

/* From here on the net is this one: the same but for the tables that depend on facts (facts_mix).
 * It must stand until the next call. What was weighed before stays until belief_weigh. */
void belief_see_net(belief *b, const net *n);

/* Start again from the prior, no evidence, no outcomes. */
void belief_restart(belief *b);
/* The same with nothing weighed: what it says is from before until belief_weigh. */
void belief_forget(belief *b);
/* The same, but for the outcomes: they stay. */
void belief_forget_answers(belief *b);

/* Recompute with the evidence as it stands, which must stand until the next call. `factor[c]` ≥ 0
 * multiplies how often cause c occurs (0: ruled out); null: all 1. */
void belief_weigh(belief *b, const evidence *seen, const double *factor);

uint32_t belief_count(const belief *b);          /* hypotheses */
const double *belief_posterior(const belief *b); /* [hypothesis], sums to 1 */
/* natural log of P(answers); where answers count for less, of what counts */
double belief_log_evidence(const belief *b);
/* ln P(answers | hypothesis) as the tables have it, all of it. */
double belief_log_says(const belief *b, uint32_t hypothesis);
void belief_hypothesis(const belief *b, uint32_t hypothesis, uint32_t *size, uint32_t causes[2]);
/* [1 + c] chance of cause c: with pairs, the sum over hypotheses that hold it; [0]: something not
 * listed. */
void belief_marginals(const belief *b, double *out);
double belief_two_faults(const belief *b); /* P(two faults) */
/* P(atom | hypothesis) of a component, whatever was answered: row[atom_count]. */
void belief_row(const belief *b, uint32_t component_index, uint32_t hypothesis, double *row);
bool belief_all_ruled_out(const belief *b);
/* [0] and [1 + c]: weights for planning: w_c + ½ Σ pairs holding c (a projection; equals the
 * posterior with single faults). */
void belief_projected(const belief *b, double *out);

/* The fewest from the top of the list of causes (members: 0 something not listed, 1 + c) of which
 * at least one is there with a chance of `share` or more; `members` has room for all. Returns how
 * many, *mass that chance; all of them where rounding leaves less than `share`. */
uint32_t belief_likely_set(const belief *b, arena *scratch, double share, uint32_t *members,
                           double *mass);
/* In two steps: all of them, each once, put into the order of that list, which costs little where
 * they stood in it not long ago; and how many of them from the top. */
void belief_order(const belief *b, arena *scratch, uint32_t *members);
uint32_t belief_likely_head(const belief *b, arena *scratch, double share, const uint32_t *members,
                            double *mass);

/* P(next answer y of finding f | hypothesis, answers so far), for single hypotheses, sparse. For
 * planning it is as even as the answer will count for (to the power, over the sum), so that what is
 * expected of answers is what they will do, and nothing is on the mean. */
typedef struct prediction {
    uint32_t states;
    const double *base;  /* [y] every cause not in `listed` */
    const double *other; /* [y] something not listed */
    uint32_t listed_count;
    const uint32_t *listed; /* causes, rising */
    const double *rows;     /* [listed][y] */
    /* prediction_prepare; or null: */
    const double *logs;  /* r ln r of each number: [base, other, listed…][y] */
    const double *apart; /* [0] something not listed, [1 + place]: nats from its row to the base */
} prediction;
prediction belief_predict(arena *keep, const belief *b, const evidence *seen, uint32_t finding);
/* Nothing that was told has a say in it: as long as that holds, it is one and the same. */
bool belief_predicts_alike(const belief *b, const evidence *seen, uint32_t finding);
/* What was seen, to try sightings in: copied once for many of them. */
typedef struct tryout {
    const double **weights;
    struct looks *looks;
    uint32_t person;
} tryout;
tryout tryout_of(arena *keep, const net *n, const evidence *seen);
/* Of a further look at what was answered, with the usual instrument or another; planning's, too.
 * What was seen is as it was afterwards. */
prediction belief_predict_again(arena *keep, const belief *b, const tryout *seen, uint32_t finding,
                                bool another);
/* The same in another arena: what it was worked out with need not stay. */
prediction prediction_copy(arena *keep, const prediction *p);
/* The first as the tables have it. */
prediction belief_foresee(arena *keep, const belief *b, const evidence *seen, uint32_t finding);

/* P(y) into answer[states] (if not null) and the expected information gain in bits, over all
 * hypotheses of b (pairs too). */
double belief_gain(const belief *b, arena *scratch, const evidence *seen, uint32_t finding,
                   double *answer);
/* The same from a prediction and single-hypothesis weights w[0 … n] (need not be normalised). Rows
 * need not sum to 1 per hypothesis; P(y) is then their share of the whole. */
double prediction_gain(const prediction *p, const double *w, uint32_t cause_count, double *answer);
/* The same given the totals of w, which every question shares: O(listed). */
typedef struct weight_totals {
    double sum, sum_log; /* Σ w, Σ w ln w */
    double spread;       /* entropy, nats; 0 where the sum is */
    const double *logs;  /* [hypothesis] w ln w, or null */
} weight_totals;
/* count: causes + 1; `logs` (may be null) has room for as many. */
weight_totals weight_totals_of(const double *w, uint32_t count, double *logs);
double prediction_gain_given(const prediction *p, const double *w, weight_totals all,
                             double *answer);
/* Works out once what every gain of it needs, whatever the weights: for one that is kept. */
void prediction_prepare(arena *keep, prediction *p);
/* Bits that its gain certainly doesn't exceed, on weights of this sum: sums and products alone.
 * INFINITY where it was not prepared, or a row doesn't sum to 1. */
double prediction_gain_most(const prediction *p, const double *w, double sum);

/* What happened after a fix was tried. */
typedef enum fix_outcome { OUTCOME_GONE, OUTCOME_BETTER, OUTCOME_SAME } fix_outcome;

typedef struct outcome_rates {
    double better_though_kept;  /* beta 0.10: "better" though nothing was removed, some cause
                                   targeted */
    double better_untargeted;   /* eta 0.02 */
    double same_though_removed; /* nu 0.20: "no change" though one of two causes is gone */
    double done_wrongly; /* of the fix at hand, [0, 1): part of its failures that it has with all
                            its causes at once */
} outcome_rates;
extern const outcome_rates outcome_rates_default;

/* Moves the belief over the outcome of a fix of which a try cures cause c with chance
 * cures[i].chance (0: it does not aim at it; no fix is certain). That it may be done wrongly is in
 * that chance already. Call belief_weigh first; the posterior holds the outcome at once. `stale[f]`
 * (may be null; set with BETTER) marks findings that may have changed: their likelihood starts
 * again at 1, and evidence handed in later on them counts as new. So leave weights[f] of a stale
 * finding null until it is answered again. Returns P(outcome). GONE leaves the belief as it is, and
 * so does an outcome of chance 0. With single faults BETTER restarts from the prior with the
 * factors (1 - chance) of all failed fixes. Afterwards belief_log_evidence is of answers and
 * outcomes together (with single faults: since the last BETTER). */
double belief_outcome(belief *b, const net_rate *cures, uint32_t cure_count, fix_outcome outcome,
                      const outcome_rates *rates, const bool *stale);

/* Bhattacharyya coefficient of two causes over the findings in `askable` (null: all): 1 means no
 * question tells them apart. `best` (may be null) gets the component with the smallest factor,
 * NO_COMPONENT if none tells them apart. */
double belief_overlap(const net *n, arena *scratch, uint32_t cause, uint32_t rival,
                      const bool *askable, uint32_t *best);

/* Weight of evidence in decibels for one single hypothesis (0: something not listed, 1 + cause)
 * against another, component by component (bars[component_count]), prior apart; they add up exactly
 * to 10 log10 of the posterior odds under single faults (outcomes of fixes excepted). Good 1950. */
void belief_bars(const belief *b, arena *scratch, const evidence *seen, uint32_t hypothesis,
                 uint32_t rival, double *prior, double *bars);
/* All of them together, each of what its component adds to those before that an instrument joins
 * with it; of a net that need not be the belief's: what a number changed in its tables would make
 * of it. */
double belief_bar_of_answers(const net *n, arena *scratch, const evidence *seen,
                             uint32_t hypothesis, uint32_t rival);
/* The bar of the prior with these factors, with single faults; null: as the author wrote it. */
double belief_bar_of_prior(const net *n, const double *factor, uint32_t hypothesis, uint32_t rival);
/* The bar of all outcomes of fixes together, in the same decibels; with it the bars add up after
 * outcomes too. */
double belief_bar_of_outcomes(const belief *b, uint32_t hypothesis, uint32_t rival);

#endif
