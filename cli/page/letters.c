#include "page/letters.h"

#include <assert.h>

static const char letters[] =
    "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ.-:+=^!/*?_~()[]{}@%$#;";
enum { LETTERS = sizeof letters - 1, OF_BYTES = 4, IN_LETTERS = 5 };

str letters_of_bytes(arena *keep, const uint8_t *bytes, size_t length)
{
    assert(LETTERS == 85 && (bytes != NULL || length == 0));
    char *out = ARENA_ARRAY(keep, char, length / OF_BYTES * IN_LETTERS + IN_LETTERS + 1);
    size_t written = 0;
    for (size_t at = 0; at < length; at += OF_BYTES) {
        const size_t given = length - at < OF_BYTES ? length - at : OF_BYTES;
        uint32_t number = 0, power = LETTERS * LETTERS * LETTERS * LETTERS;
        for (size_t i = 0; i < OF_BYTES; i++)
            number = number << 8 | (i < given ? bytes[at + i] : 0);
        for (size_t i = 0; i < given + 1; i++, power /= LETTERS)
            out[written++] = letters[number / power % LETTERS];
    }
    out[written] = 0;
    return (str){out, written};
}
