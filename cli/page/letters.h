/* Bytes as text that means nothing in HTML. */
#ifndef TT_CLI_LETTERS_H
#define TT_CLI_LETTERS_H

#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"

/* Four bytes are five letters of 85, the first counting most; a rest of n bytes is n + 1 letters.
 * module.js reads them. */
str letters_of_bytes(arena *keep, const uint8_t *bytes, size_t length);

#endif
