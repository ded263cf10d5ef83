/* Networks of two levels, causes above and signs below, each sign a noisy or with a leak: as
 * others write them down, and as a book for the engine.
 *
 * Others let any number of causes be there at once, each with a chance of its own. Here one or two
 * are, so what they give is to be taken on that condition; none at all is a cause of its own here
 * (`nothing`), which stands with no other. Their sign numbers are net of the leak; an author's
 * include it: 1 - (1 - leak)(1 - alone). */
#ifndef TT_SUPPORT_TWO_LEVEL_H
#define TT_SUPPORT_TWO_LEVEL_H

#include <stdbool.h>
#include <stdint.h>

enum { TWO_LEVEL_CAUSES = 10, TWO_LEVEL_SIGNS = 12 };
#define TWO_LEVEL_LEAK_LEAST 1e-6 /* the engine holds every chance of an author above it */

typedef struct two_level_sign {
    double leak;
    double alone[TWO_LEVEL_CAUSES]; /* chance that the cause brings it about, net of the leak; 0: no
                                       edge */
    double read_right, minutes;
} two_level_sign;

typedef struct two_level {
    uint32_t cause_count, sign_count;
    double prior[TWO_LEVEL_CAUSES]; /* each by itself */
    two_level_sign signs[TWO_LEVEL_SIGNS];
    double not_listed;    /* share of calls; 0 if `nothing` */
    uint32_t most_faults; /* 1 or 2 */
    bool nothing;         /* no cause at all is possible too */
} two_level;

/* The book, to be freed. Causes are c00, c01 …, then nothing-wrong; signs are questions s00,
 * s01 … that are answered yes or no. */
char *two_level_rules(const two_level *n);

/* Sums of odds over the sets of exactly one cause (and none, if `nothing`), and of exactly two. */
void two_level_odds(const two_level *n, double *one, double *two);

/* P(sign | these causes, as bits, and no others). */
double two_level_chance(const two_level *n, uint32_t sign, uint32_t causes);

/* tests/reference/data/<name>.json: any number of causes, read right, none listed otherwise. */
two_level two_level_load(const char *name);

#endif
