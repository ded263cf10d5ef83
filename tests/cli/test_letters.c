/* What a page carries as letters comes back as it was, and nothing in it means anything in HTML. */
#include <stdbool.h>
#include <string.h>

#include "base/arena.h"
#include "page/letter_texts.h"
#include "page/letters.h"
#include "test_sources.h"
#include "testing.h"

enum { LONGEST = 300 };

static uint32_t drawn(uint32_t *state)
{
    *state = *state * 1664525U + 1013904223U;
    return *state >> 24;
}

static void assert_comes_back(arena *keep, const uint8_t *bytes, size_t length)
{
    const str text = letters_of_bytes(keep, bytes, length);
    uint8_t *back = ARENA_ARRAY(keep, uint8_t, text.n + 1);
    assert_int_equal(text.n % TEXT_BYTES, 0);
    assert_true(text.n * TEXT_BITS / TEXT_BYTES < length * 8 + TEXT_BITS);
    const size_t read = bytes_of_letters((const uint8_t *)text.p, text.n, back);
    assert_true(read >= length);
    assert_memory_equal(back, bytes, length);
    for (size_t i = length; i < read; i++) assert_int_equal(back[i], 0);
}

static void bytes_come_back(void **state)
{
    uint8_t bytes[LONGEST];
    uint32_t seed = 20261129;
    (void)state;
    arena *keep = test_arena();
    for (size_t length = 0; length <= LONGEST; length++) {
        for (size_t i = 0; i < length; i++) bytes[i] = (uint8_t)drawn(&seed);
        assert_comes_back(keep, bytes, length);
    }
    for (unsigned fill = 0; fill < 256; fill++) {
        memset(bytes, (int)fill, sizeof bytes);
        assert_comes_back(keep, bytes, LONGEST - fill);
    }
    arena_free(keep);
}

/* Code points by the definition of UTF-8; each is one that may be. */
static void letters_mean_nothing_in_html(void **state)
{
    uint8_t bytes[8000];
    uint32_t seed = 7;
    bool seen[0x800] = {false};
    unsigned distinct = 0;
    (void)state;
    arena *keep = test_arena();
    for (size_t i = 0; i < sizeof bytes; i++) bytes[i] = (uint8_t)drawn(&seed);
    const str text = letters_of_bytes(keep, bytes, sizeof bytes);
    for (size_t i = 0; i < text.n;) {
        const unsigned first = (unsigned char)text.p[i], length = first < 0x80 ? 1 : 2;
        unsigned point = first;
        if (length == 2) {
            assert_int_equal(first & 0xE0, 0xC0);
            assert_int_equal((unsigned char)text.p[i + 1] & 0xC0, 0x80);
            point = (first & 0x1FU) << 6 | ((unsigned char)text.p[i + 1] & 0x3FU);
        }
        assert_true((point > ' ' && point < 0x7F && point != '<') ||
                    (point >= 0xA0 && point < 0x800));
        distinct += !seen[point];
        seen[point] = true;
        i += length;
    }
    assert_true(distinct > LETTERS_OF_ONE + LETTERS_OF_TWO / 4);
    arena_free(keep);
}

/* Worked out by hand: 93 letters of one byte, from '!' on; so 93 texts end in one more letter than
 * "!!!!!!!", and 93 times 93 stand before the first that ends in one of two bytes, U+00A0. */
static void texts_are_in_order(void **state)
{
    static const struct {
        uint8_t bytes[7]; /* a number of 54 bits, and two bits more */
        const char *text;
    } rows[] = {
        {{0, 0, 0, 0, 0, 0, 0}, "!!!!!!!!!!!!!!!!"},
        {{0, 0, 0, 0, 0, 0, 1 << 2}, "!!!!!!!\"!!!!!!!!"},
        {{0, 0, 0, 0, 0, 27 >> 6, (27 << 2) & 255}, "!!!!!!!=!!!!!!!!"}, /* no '<' */
        {{0, 0, 0, 0, 0, 93 >> 6, (93 << 2) & 255}, "!!!!!!\"!!!!!!!!!"},
        {{0, 0, 0, 0, 0, 8649 >> 6, (8649 << 2) & 255}, "!!!!!!\xC2\xA0!!!!!!!!"},
    };
    (void)state;
    arena *keep = test_arena();
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_string_equal(letters_of_bytes(keep, rows[i].bytes, 7).p, rows[i].text);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bytes_come_back),
        cmocka_unit_test(letters_mean_nothing_in_html),
        cmocka_unit_test(texts_are_in_order),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
