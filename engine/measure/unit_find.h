/* Spellings of the table of units: for the reader of units and the writer of amounts. */
#ifndef TT_MEASURE_UNIT_FIND_H
#define TT_MEASURE_UNIT_FIND_H

#include "measure/unit.h"

/* The row with this spelling; `meaning` 0 is the first, 1 the next one in the table, and so on. As
 * written, or else in any case where case does not decide. False if there is none. */
bool unit_find(str spelling, uint32_t meaning, unit_row *out);

/* Name and other spellings of a row, the latter separated by "|"; false past the end of the table.
 * None for the forms of ratios, which no spelling stands for. */
bool unit_row_spellings(uint32_t index, const char **name, const char **others);

/* Goes through a row's name and other spellings: *place begins at 0; false past the last. */
bool unit_next_spelling(const unit_row *row, size_t *place, str *spelling);

#endif
