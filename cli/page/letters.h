/* Bytes as text that means nothing in HTML, as dense as UTF-8 allows: 0.84 of it is what they say.
 *
 * The letters are those of one byte that can be seen, but for '<', and all of two bytes that are no
 * control characters. The texts of eight bytes that they make, in order, are numbered: the shorter
 * letters first, each by its code point. There are more than 2^54 of them, so eight bytes of text
 * are the number that 54 bits are; the first bit counts most, and behind the end are zeros. */
#ifndef TT_CLI_LETTERS_H
#define TT_CLI_LETTERS_H

#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"

str letters_of_bytes(arena *keep, const uint8_t *bytes, size_t length);

#endif
