/* What writing and reading letters (letters.h) have in common. The module that unpacks the page
 * reads them, so nothing of the engine is seen here. */
#ifndef TT_CLI_LETTER_TEXTS_H
#define TT_CLI_LETTER_TEXTS_H

#include <stddef.h>
#include <stdint.h>

#include "page/exported.h"

enum {
    LETTERS_OF_ONE = 93,   /* '!' to '~' without '<' */
    LETTERS_OF_TWO = 1888, /* U+00A0 to U+07FF */
    FIRST_OF_ONE = '!',
    NOT_A_LETTER = '<',
    FIRST_OF_TWO = 0xA0,
    TEXT_BYTES = 8,
    TEXT_BITS = 54,
};

/* How many texts of letters are this many bytes long. */
static inline uint64_t texts_of_length(unsigned bytes)
{
    uint64_t shorter = 0, these = 1;
    for (unsigned length = 0; length < bytes; length++) {
        const uint64_t longer = LETTERS_OF_ONE * these + LETTERS_OF_TWO * shorter;
        shorter = these;
        these = longer;
    }
    return these;
}

/* The bytes that `text` is; `length` is in bytes and a whole number of texts. How many they are.
 * `bytes` has room for 54 bits a text. */
size_t bytes_of_letters(const uint8_t *text, size_t length, uint8_t *bytes);

#endif
