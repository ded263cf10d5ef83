/* Formulas over named readings: parsed, checked for dimensions, evaluated.
 *
 *   formula  = term { ("+" | "-") term }
 *   term     = factor { ("*" | "/") factor }
 *   factor   = ["-"] ( amount | name | function "(" list ")" | "(" formula ")" )
 *   name     = a name, or "name of unit", "name of every kind", "name of first"
 *   amount   = a number with or without unit, which binds at once: 3 gal/min, 0.015 /degF, 1:50
 *   function = min max abs sqrt sum mean; abs and sqrt take one value, the others a list
 *
 * Signs stand between spaces (names hold hyphens; "gal/min" is one unit). Values are computed in
 * base units, so readings in any unit mix. Pure: no faults list, no book; errors are returned
 * with their place in the text. */
#ifndef TT_MEASURE_FORMULA_H
#define TT_MEASURE_FORMULA_H

#include "measure/amount.h"

/* What a value is: its dimension, and whether it is a temperature on its scale (scale - scale is an
 * interval; scale + interval a scale; anything else with a scale is an error). */
typedef struct value_type {
    dimension dim;
    bool scale;
} value_type;

/* An input a name stands for; several for "x of every K", inside min, max, sum, mean only. */
typedef struct formula_input {
    uint32_t subject; /* the caller's number for it */
    unit in;          /* unit of the values that the caller hands in */
} formula_input;

/* Looks a name up, which comes with one blank between its words; from and to are its bytes in the
 * text. False: unknown, or not a number; the caller has said so already. *count 0 is allowed (no
 * unit of that kind exists); if *inputs is not null even then, the unit of its first tells the type
 * of the list, else the list fits everything. */
typedef bool (*formula_look_up)(void *context, str name, uint32_t from, uint32_t to,
                                const formula_input **inputs, uint32_t *count);

typedef struct formula_error {
    uint32_t from, to;       /* bytes of the text; from == to: nothing was there */
    const char *what, *help; /* null `what`: the look-up has told it */
} formula_error;

typedef struct formula formula;

enum { FORMULA_LONGEST = 2000, FORMULA_DEEPEST = 40 }; /* bytes; brackets in each other */

/* Null with *error. `keep` holds the result and the words of the error; the text must live as long.
 * A name that the look-up refuses does not end the reading, so all of them are told in one go, and
 * *error may then hold something else besides. An amount whose spelling has two meanings (oz) takes
 * the one that the sum or the list around it needs, else what unit_read says. A temperature behind
 * a division sign is a difference. */
const formula *formula_parse(arena *keep, arena *scratch, str text, formula_look_up look_up,
                             void *context, formula_error *error);

value_type formula_type(const formula *f);
/* Distinct subjects, in order of first appearance. */
const uint32_t *formula_subjects(const formula *f, uint32_t *count);
/* The same formula with every name as the caller now writes it, one space round each sign: what two
 * formulas that mean the same text share. */
str formula_words(arena *keep, const formula *f, str (*name_of)(void *context, uint32_t subject),
                  void *context);

typedef enum formula_state {
    FORMULA_VALUE,
    FORMULA_WAITS,     /* an input that the value needs is not known */
    FORMULA_UNDEFINED, /* division by zero, root of a negative number, overflow */
} formula_state;

/* Numbers that differ by less than this share of what they were computed from are equal. */
#define FORMULA_ROUNDING 1e-9

/* Why there is no value. */
typedef enum formula_lack {
    FORMULA_LACKS_NOTHING,
    FORMULA_TOO_LARGE, /* the number */
    FORMULA_NO_NUMBER, /* a reading is none */
    FORMULA_BY_ZERO,   /* it divides by it */
    FORMULA_NO_ROOT,   /* of a negative number */
    FORMULA_NO_MEMBER, /* of a list to choose from */
    FORMULA_LACKS
} formula_lack;

/* `scale` is the magnitude that the value was computed from, at least its own: in a sum that of the
 * largest part, carried through products, quotients and roots. Less than FORMULA_ROUNDING * scale
 * is no difference. `why` says what is undefined, from and to where: the divisor, what is under the
 * root, the whole that is too large. */
typedef struct formula_result {
    formula_state state;
    double base, scale; /* VALUE: in base units */
    formula_lack why;   /* set where UNDEFINED, with from and to */
    uint32_t from, to;
} formula_result;

/* value(context, subject, &number): the number in the unit that look_up gave; false: not known. All
 * inputs are waited for, but what is undefined without them is UNDEFINED at once. A divisor within
 * rounding of zero is zero. 0 inputs of min, max, mean: UNDEFINED; of sum: 0. */
formula_result formula_value(const formula *f,
                             bool (*value)(void *context, uint32_t subject, double *number),
                             void *context);

#endif
