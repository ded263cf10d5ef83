#include "page/letters.h"

#include <assert.h>

#include "page/letter_texts.h"

typedef struct bit_reader {
    const uint8_t *bytes;
    size_t length, at; /* `at`: in bits */
} bit_reader;

static uint64_t next_bits(bit_reader *from, unsigned count)
{
    uint64_t number = 0;
    for (; count > 0; count--, from->at++) {
        const size_t byte = from->at / 8;
        const unsigned bit = byte < from->length ? from->bytes[byte] >> (7 - from->at % 8) & 1U : 0;
        number = number << 1 | bit;
    }
    return number;
}

static char *put_letter_of_one(char *to, uint64_t which)
{
    const unsigned letter = FIRST_OF_ONE + (unsigned)which;
    *to++ = (char)(letter >= NOT_A_LETTER ? letter + 1 : letter);
    return to;
}

static char *put_letter_of_two(char *to, uint64_t which)
{
    const unsigned point = FIRST_OF_TWO + (unsigned)which;
    *to++ = (char)(0xC0 | point >> 6);
    *to++ = (char)(0x80 | (point & 0x3F));
    return to;
}

static void put_text(char to[TEXT_BYTES], uint64_t number)
{
    for (unsigned left = TEXT_BYTES; left > 0;) {
        const uint64_t of_one = texts_of_length(left - 1), begin_with_one = LETTERS_OF_ONE * of_one;
        if (number < begin_with_one) {
            to = put_letter_of_one(to, number / of_one);
            number %= of_one;
            left -= 1;
        } else {
            assert(left >= 2);
            const uint64_t of_two = texts_of_length(left - 2);
            to = put_letter_of_two(to, (number - begin_with_one) / of_two);
            number = (number - begin_with_one) % of_two;
            left -= 2;
        }
    }
    assert(number == 0);
}

str letters_of_bytes(arena *keep, const uint8_t *bytes, size_t length)
{
    assert(texts_of_length(TEXT_BYTES) >= UINT64_C(1) << TEXT_BITS);
    assert(bytes != NULL || length == 0);
    const size_t texts = (length * 8 + TEXT_BITS - 1) / TEXT_BITS;
    char *out = ARENA_ARRAY(keep, char, texts *TEXT_BYTES + 1);
    bit_reader from = {bytes, length, 0};
    for (size_t i = 0; i < texts; i++) put_text(out + i * TEXT_BYTES, next_bits(&from, TEXT_BITS));
    out[texts * TEXT_BYTES] = 0;
    return (str){out, texts * TEXT_BYTES};
}
