/* The numbers that an author has written: how often a cause occurs, how often it shows a sign, how
 * often a sign shows otherwise, how often a fix cures. What is written once for every piece of a
 * kind is one number, with a place at each piece. */
#ifndef TT_COMPILE_NUMBERS_H
#define TT_COMPILE_NUMBERS_H

#include "compile/program.h"

typedef enum number_kind {
    NUMBER_HOW_OFTEN, /* of the cause `entry` */
    NUMBER_SHOWN_BY,  /* rate `rate` of the symptom `entry` */
    NUMBER_OTHERWISE, /* of the symptom `entry` */
    NUMBER_CURES      /* rate `rate` of the fix `entry` */
} number_kind;

typedef struct number_place {
    uint32_t entry, rate;
} number_place;

typedef struct written_number {
    number_kind kind;
    span said; /* where, in the file */
    const number_place *places;
    uint32_t count;
} written_number;

/* In the order in which they are written. What was left out, or made, is none of them. */
const written_number *program_numbers(arena *keep, arena *scratch, const program *p,
                                      uint32_t *count);

/* A chance; of how often a cause occurs the weight as written, which is a kind's together. */
double number_value(const program *p, const written_number *n);
/* at its first place; NO_ID: otherwise */
uint32_t number_cause(const program *p, const written_number *n);
str number_text(const program *p, const written_number *n); /* "usually" */

/* The program with another value there. All else is shared with `p`, which must outlive it. */
const program *program_with(arena *keep, arena *scratch, const program *p, const written_number *n,
                            double value);

#endif
