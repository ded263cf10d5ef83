/* Numbers as people write them: "45", "3.1", "3,1", "1,500.5", "1/2", "1 1/2", "1-1/2", "½", "1½".
 * No sign, no exponent.
 *
 * A comma or a point is read where it can be read in one way only. One point is always the decimal
 * sign. One comma is it too, unless three digits follow one to three that don't begin with 0:
 * "1,500" may be 1.5 or 1500. Several of one kind in groups of three are thousands, and the other
 * sign behind them is the decimal one: "1,500,000", "1.500.000", "1,500.5", "1.500,5". */
#ifndef TT_MEASURE_NUMBER_H
#define TT_MEASURE_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/str.h"

typedef enum number_found {
    NUMBER_FOUND,
    NUMBER_NONE,    /* no number here, or one that is no finite number: "1/0", 400 digits */
    NUMBER_UNCLEAR, /* two ways to read it: "1,500", "1,50,0", "5 3/2" */
} number_found;

/* The number at the start of the text. *length: its bytes, of the unclear one too. */
number_found number_read(str text, double *number, size_t *length);

/* Could a number begin here? */
bool number_begins(str text);

/* Bytes of the blank at the start of the text: space, tab, line end, no-break and thin space; 0 if
 * there is none. */
size_t blank_length(str text);
/* Without blanks at the start; without blanks at both ends. */
str without_blanks(str text);
str blanks_trimmed(str text);

/* At most so many bytes from the start, whole characters only: for messages about text of any
 * length. */
str beginning(str text, size_t most);

#endif
