/* Random numbers with a name. Every drawing of a rehearsal has dice of its own, made from the seed,
 * the number of the call, what is drawn and the name of what it is drawn for; so a call is the same
 * whoever plays it, when, and beside what other calls, two ways of playing meet the same luck, and
 * so do two editions of a book in all that has the same name in both.
 *
 * SplitMix64 (Steele, Lea, Flood 2014, "Fast splittable pseudorandom number generators"; in the
 * public domain). */
#ifndef TT_REHEARSE_DICE_H
#define TT_REHEARSE_DICE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/str.h"

typedef struct dice {
    uint64_t state;
} dice;

/* What is drawn. */
typedef enum dice_use {
    DICE_FACT,
    DICE_SIZE,
    DICE_CAUSE,
    DICE_SIGNS,
    DICE_READING,
    DICE_SLIP,
    DICE_COMPLAINT,
    DICE_CURE,
    DICE_REPORT,
    DICE_STEPS,
    DICE_NUMBERS,
    DICE_PERFECT,
    DICE_DONE,
    DICE_INSTRUMENT,
    DICE_MISLED
} dice_use;

dice dice_for(uint64_t seed, uint64_t call, dice_use use, uint64_t which);
/* `which` by name, for the n-th time; by two names, in this order. */
uint64_t dice_named(str name, uint32_t time);
uint64_t dice_named_both(str first, str second);
uint64_t dice_next(dice *d);
double dice_share(dice *d); /* [0, 1), evenly */
bool dice_falls(dice *d, double chance);
uint32_t dice_below(dice *d, uint32_t count); /* 0 … count-1, evenly; count > 0 */
/* How long one waits for what comes at this rate, INFINITY if it never does. Of several that each
 * wait with dice of their own, one is first with chance rate over the sum of rates (competing
 * exponentials); so one more of them changes no draw but those that it wins. */
double dice_wait(dice *d, double rate);
/* An index with chance weights[i] of their sum, which must be above 0. */
uint32_t dice_pick(dice *d, const double *weights, uint32_t count);

#endif
