/* How a case is called on the telephone: digits made from its UUID, and a letter that gives a slip
 * of the tongue away.
 *
 * Six digits do for most folders. Of 20,000 cases some 200 pairs share one, so a number may also be
 * told with nine or twelve digits: they end with the six, so that whoever knows a shorter one knows
 * the end of the longer. A number of any length that was ever told names the case for ever; where
 * it names several, they are listed to choose from. */
#ifndef TT_JOURNAL_SPOKEN_NUMBER_H
#define TT_JOURNAL_SPOKEN_NUMBER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "telltale.h"

enum { NUMBER_DIGITS_LEAST = 6, NUMBER_DIGITS_MORE = 3, NUMBER_DIGITS_MOST = 12 };

/* [count] how many digits each needs so that no other of these has the same number; the most, where
 * nothing helps. */
void case_number_digits(arena *scratch, const char *const *ids, uint32_t count, uint8_t *digits);

#endif
