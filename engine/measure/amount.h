/* Amounts as people write them: "45 psi", "3.1 bar", "3,1 bar", "310kPa", "5' 6\"", "1 1/2 in", "½ in", "1:50", "1 in 50", "2 %", "1/2 oz per gal". */
#ifndef TT_MEASURE_AMOUNT_H
#define TT_MEASURE_AMOUNT_H

#include "measure/unit.h"

typedef enum amount_found {
    AMOUNT_FOUND,
    AMOUNT_NO_NUMBER,     /* does not begin with a number; *bad is the text */
    AMOUNT_UNCLEAR,       /* "1,500": a comma for decimals or for thousands? *bad is the number */
    AMOUNT_NO_UNIT,       /* a number alone where a unit is needed; *number is the number as it stands */
    AMOUNT_UNKNOWN_UNIT,  /* *bad is what is no unit */
    AMOUNT_OTHER_KIND,    /* a unit of another dimension; *bad is the unit, *as holds it */
    AMOUNT_OTHER_FORM,    /* a temperature where an interval is wanted, or the reverse */
} amount_found;

typedef struct amount {
    double number; /* in `in` */
    unit in;       /* the unit it was written in */
} amount;

/* Reads an amount for `wanted`: *number in that unit, the same number where it was written in that very unit. `as` (may be null) holds it as written;
 * `bad` (may be null) what could not be used. Several parts add up ("5 ft 6 in"). A number without unit is AMOUNT_NO_UNIT unless wanted has
 * no dimension and form UNIT_PLAIN with factor 1.
 * A comma is a decimal sign where it can't be mistaken: "3,1" and "0,500" are, "1,500" is AMOUNT_UNCLEAR, "1,500.5" and "1,500,000" are thousands. */
amount_found amount_read(arena *keep, str text, const unit *wanted, double *number, amount *as, str *bad);

/* "45 psi", "1:50", "1 in 50", "2 %": at most `digits` significant digits, no trailing zeros, never an exponent. */
str amount_words(arena *keep, double number, const unit *in, int digits);

#endif
