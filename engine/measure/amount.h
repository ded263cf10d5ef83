/* Amounts as people write them: "45 psi", "3.1 bar", "3,1 bar", "310kPa", "5' 6\"", "1 1/2 in", "½
 * in", "1:50", "1 in 50", "2 %", "1/2 oz per gal". */
#ifndef TT_MEASURE_AMOUNT_H
#define TT_MEASURE_AMOUNT_H

#include "measure/unit.h"

typedef enum amount_found {
    AMOUNT_FOUND,
    AMOUNT_NO_NUMBER, /* does not begin with a number; *bad is the text */
    AMOUNT_UNCLEAR, /* "1,500": a comma for decimals or for thousands? "5 ft 6", "50:1": two ways to
                       read it. *bad is that part */
    AMOUNT_NO_UNIT, /* a number alone where a unit is needed; *number is the number as it stands */
    AMOUNT_UNKNOWN_UNIT, /* *bad is what is no unit */
    AMOUNT_OTHER_KIND,   /* a unit of another dimension; *bad is the unit, *as holds it */
    AMOUNT_OTHER_FORM,   /* a temperature where an interval is wanted, or the reverse */
} amount_found;

typedef struct amount {
    double number; /* in `in` */
    unit in;       /* the unit it was written in */
} amount;

/* Reads an amount for `wanted`: *number in that unit, the same number where it was written in that
 * very unit. `as` (may be null) holds it as written; `bad` (may be null) what could not be used. A
 * number without unit is AMOUNT_NO_UNIT unless wanted has no dimension and form UNIT_PLAIN with
 * factor 1; its `as` is in unit_none.
 *
 *   amount = [sign] ( number unit { [","|"and"] number unit } | number ":" number | number ("in" |
 * "out of") number | number )
 *
 * Numbers: see number.h. Several parts add up where each unit is smaller than the one before ("5 ft
 * 6 in", "1 h 30 min"); `as` is then in the first. "1:50" is 1 part of product to 50 of water,
 * "2:100" the same strength; "1 in 50" is one part in 50 of the whole. Where the first number is
 * the greater one ("50:1") nobody can tell which is the product: AMOUNT_UNCLEAR, but for "1:0.5",
 * which says so by its 1. */
amount_found amount_read(arena *keep, str text, const unit *wanted, double *number, amount *as,
                         str *bad);

/* "45 psi", "1:50", "1 in 50", "2 %", "1 car/h": at most `digits` (1 to 17) significant digits, no
 * trailing zeros, never an exponent. A unit written as a word is singular with 1 and plural
 * without. Shares that no ratio can say (0, below, above 1) are in %. amount_read reads it back. */
str amount_words(arena *keep, double number, const unit *in, int digits);

#endif
