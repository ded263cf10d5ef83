/* One row of a table, learned from answers that may be misread. What was there is not seen, only
 * what somebody answered, so the row is found by expectation and maximisation (Dempster, Laird and
 * Rubin 1977), gone through until it stands still, and how sure it is from the information that
 * the answers themselves carry (Louis 1982). */
#ifndef TT_LEARN_ROW_H
#define TT_LEARN_ROW_H

#include <stdbool.h>

#include "base/arena.h"
#include "compile/net.h"
#include "learn/learn.h"

/* An answer that was given (or something else that was seen) so many times. */
typedef struct learn_answer {
    const double *chance; /* [atom] of the answer; of one to a finding, its largest is 1 */
    uint32_t count[LEARN_ENDS];
    struct learn_answer *next;
} learn_answer;

typedef struct learn_row {
    uint32_t atoms;
    const double *written; /* [atom], sums to 1 */
    double strength;       /* as how many cases that counts */
    learn_answer *answers;
    double *fitted; /* [atom], once learn_row_fit was called */
    struct learn_row *next;
} learn_row;

learn_row *learn_row_new(arena *keep, const double *written, uint32_t atoms, double strength);

/* An answer to the one finding of a component, seen in a case: weights[state] ≥ 0, not all 0, as
 * evidence has them. The component has the row's atoms. */
void learn_row_add(arena *keep, learn_row *r, const net *n, const component *g,
                   const double *weights, learn_end end);

/* [atom] chance of that answer, which must not be all 0; the largest is 1. */
void learn_row_chances(const net *n, const component *g, const double *weights, double *out);

/* The same of whatever tells the atoms apart: chance[atom] ≥ 0 of what was seen, not all 0. */
void learn_row_saw(arena *keep, learn_row *r, const double *chance, learn_end end);

/* The row that is likeliest, with the author's as so many cases beside. */
void learn_row_fit(arena *scratch, learn_row *r, const learn_weights *w);

typedef struct learn_count {
    double written, mean; /* chance of a set of atoms, as the author has it and as fitted */
    double cases, of;     /* how many of the answers came with it, on the mean */
    double worth;         /* as many cases seen without any doubt would be as sure; ≥ 0 */
} learn_count;
learn_count learn_row_count(arena *scratch, const learn_row *r, const learn_weights *w,
                            const bool *inside);

#endif
