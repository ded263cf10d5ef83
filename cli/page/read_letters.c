/* The program's tests read letters by it, and the module that unpacks the page. */
#include "page/letter_texts.h"

static uint64_t number_of_text(const uint8_t *text, const uint64_t texts[TEXT_BYTES + 1])
{
    uint64_t number = 0;
    for (unsigned at = 0; at < TEXT_BYTES;) {
        if (text[at] < 0x80) {
            const unsigned letter = text[at] > NOT_A_LETTER ? text[at] - 1U : text[at];
            number += (letter - FIRST_OF_ONE) * texts[TEXT_BYTES - at - 1];
            at += 1;
        } else {
            const unsigned left = TEXT_BYTES - at,
                           point = (text[at] & 0x1FU) << 6 |
                                   (at + 1 < TEXT_BYTES ? text[at + 1] & 0x3FU : 0);
            if (left < 2) return number; /* damaged: what is unpacked by it will say so */
            number += LETTERS_OF_ONE * texts[left - 1] + (point - FIRST_OF_TWO) * texts[left - 2];
            at += 2;
        }
    }
    return number;
}

PAGE_EXPORT(bytes_of_letters)
size_t bytes_of_letters(const uint8_t *text, size_t length, uint8_t *bytes)
{
    uint64_t texts[TEXT_BYTES + 1], number = 0;
    size_t written = 0;
    unsigned held = 0; /* bits, of which all but these have been written */
    for (unsigned i = 0; i <= TEXT_BYTES; i++) texts[i] = texts_of_length(i);
    for (size_t at = 0; at + TEXT_BYTES <= length; at += TEXT_BYTES) {
        number = number << TEXT_BITS | number_of_text(text + at, texts);
        for (held += TEXT_BITS; held >= 8; held -= 8)
            /* cppcheck-suppress shiftTooManyBits ; fewer than 8 are left each time */
            bytes[written++] = (uint8_t)(number >> (held - 8));
    }
    return written;
}
