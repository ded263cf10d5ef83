#include "testing.h"

#include "base/unicode.h"
#include "test_sources.h"

static void bad_bytes_are_found(void **state)
{
    (void)state;
    assert_int_equal(unicode_first_bad(STR("")), SIZE_MAX);
    assert_int_equal(unicode_first_bad(STR("caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x92\xA7")), SIZE_MAX);
    assert_int_equal(unicode_first_bad(STR("\xF4\x8F\xBF\xBF")), SIZE_MAX);
    static const char *const bad[] = {"\x80",     /* no start */
                                      "\xC0\xAF", /* overlong */
                                      "\xC1\xBF",
                                      "\xE0\x80\xAF",
                                      "\xF0\x80\x80\xAF",
                                      "\xED\xA0\x80", /* surrogate */
                                      "\xED\xBF\xBF",
                                      "\xF4\x90\x80\x80", /* above U+10FFFF */
                                      "\xF5\x80\x80\x80",
                                      "\xFE",
                                      "\xFF",
                                      "\xC3",
                                      "\xE2\x82",
                                      "\xF0\x9F\x92", /* cut short */
                                      "\xC3\x41",
                                      "\xE2\x82\x41"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        char text[8] = "ok";
        memcpy(text + 2, bad[i], strlen(bad[i]));
        assert_int_equal(unicode_first_bad((str){text, 2 + strlen(bad[i])}), 2);
    }
}

/* Eight bytes at once say what each says alone: every byte, in every place of the eight. */
static void what_is_plain_is_seen_eight_at_a_time(void **state)
{
    (void)state;
    for (int byte = 0; byte < 256; byte++)
        for (size_t at = 0; at < 17; at++) {
            char text[] = "a b\nc~ d\n\ne f g h";
            text[at] = (char)byte;
            const bool plain = (byte >= 0x20 && byte < 0x7F) || byte == '\n';
            const str whole = {text, sizeof text - 1};
            assert_int_equal(unicode_plain_end(whole, 0), plain ? whole.n : at);
            assert_int_equal(unicode_plain_end(whole, at + 1), whole.n);
            uint32_t point;
            size_t next = at;
            if (plain) point = unicode_next(whole, &next);
            if (plain) assert_true(point == (uint32_t)byte && !unicode_unsafe(point));
        }
    assert_int_equal(unicode_plain_end(STR(""), 0), 0);
}

/* So do very many at once, in every place of two such lots and of what is left behind them. */
static void what_is_plain_is_seen_in_long_texts(void **state)
{
    (void)state;
    static char text[300];
    for (size_t i = 0; i < sizeof text; i++) text[i] = i % 40 == 39 ? '\n' : (char)(' ' + i % 95);
    const str whole = {text, sizeof text};
    assert_int_equal(unicode_plain_end(whole, 0), whole.n);
    for (size_t at = 0; at < sizeof text; at++) {
        const char before = text[at];
        for (int byte = 0; byte < 256; byte++) {
            const bool plain = (byte >= 0x20 && byte < 0x7F) || byte == '\n';
            text[at] = (char)byte;
            assert_int_equal(unicode_plain_end(whole, at / 2), plain ? whole.n : at);
            assert_int_equal(unicode_plain_end(whole, at + 1), whole.n);
        }
        text[at] = before;
    }
}

/* Every code point there is, and back. */
static void all_characters_decode(void **state)
{
    (void)state;
    for (uint32_t c = 0x80; c <= 0x10FFFF; c++) {
        if (c >= 0xD800 && c <= 0xDFFF) continue;
        unsigned char b[4];
        size_t n = c < 0x800 ? 2 : c < 0x10000 ? 3 : 4;
        for (size_t i = n; i-- > 1;) b[i] = (unsigned char)(0x80 | (c >> 6 * (n - 1 - i) & 0x3F));
        b[0] = (unsigned char)((n == 2 ? 0xC0U : n == 3 ? 0xE0U : 0xF0U) | c >> 6 * (n - 1));
        size_t offset = 0;
        if (unicode_next((str){(char *)b, n}, &offset) != c || offset != n) fail_msg("U+%04X", c);
    }
}

static void a_bad_byte_is_one_character(void **state)
{
    (void)state;
    size_t i = 0;
    str text = STR("\xE2\x82x");
    assert_int_equal(unicode_next(text, &i), 0xFFFD);
    assert_int_equal(i, 1);
    assert_int_equal(unicode_next(text, &i), 0xFFFD);
    assert_int_equal(unicode_next(text, &i), 'x');
    assert_int_equal(i, 3);
}

static void unsafe_characters_are_found(void **state)
{
    (void)state;
    static const uint32_t unsafe[] = {0,      1,      0x0B,   '\r',   0x1B,   0x1F,   0x7F,
                                      0x80,   0x9B,   0x9F,   0x061C, 0x200E, 0x200F, 0x2028,
                                      0x2029, 0x202A, 0x202E, 0x2066, 0x2069, 0xFEFF};
    for (size_t i = 0; i < sizeof unsafe / sizeof *unsafe; i++)
        assert_true(unicode_unsafe(unsafe[i]));
    static const uint32_t safe[] = {'\t',   '\n',   ' ',    '~',    0xA0,   0xE9,   0x061B,
                                    0x200D, 0x2010, 0x202F, 0x2065, 0x206A, 0xFFFD, 0x1F4A7};
    for (size_t i = 0; i < sizeof safe / sizeof *safe; i++) assert_false(unicode_unsafe(safe[i]));
    assert_int_equal(unicode_first_unsafe(STR("one\ttwo\n\xC3\xA9")), SIZE_MAX);
    assert_int_equal(unicode_first_unsafe(STR("\xC3\xA9\x1B[0m")), 2);
    assert_int_equal(unicode_first_unsafe(STR("ab\0c")), 2);
    assert_int_equal(unicode_first_unsafe(STR("a\xE2\x80\xAE")), 1);
}

static void cleaning(void **state)
{
    (void)state;
    arena *a = test_arena();
    assert_str(unicode_clean(a, STR("a\x1B[31;1mred\x1B[0m b")), "ared b");
    assert_str(unicode_clean(a, STR("\x1B[2K\x1B[1A")), "");
    assert_str(unicode_clean(a, STR("\xC2\x9B"
                                    "31mred")),
               "red");
    assert_str(unicode_clean(a, STR("cut \x1B[31")), "cut ");
    assert_str(unicode_clean(a, STR("\x1B"
                                    "c bell\x07")),
               "c bell");
    assert_str(unicode_clean(a, STR("one\xE2\x80\xAEtwo\r\n\tthree")), "onetwo\n\tthree");
    assert_str(unicode_clean(a, STR("b\xFCrste")), "b\xEF\xBF\xBDrste");
    assert_str(unicode_clean(a, STR("")), "");
    str dirty = STR("x\0\x1B[\xFF\x7F\xC2\x85z");
    assert_int_equal(unicode_first_unsafe(unicode_clean(a, dirty)), SIZE_MAX);
    arena_free(a);
}

static void composing_and_folding(void **state)
{
    (void)state;
    arena *a = test_arena();
    assert_str(unicode_nfc(a, STR("e\xCC\x81")), "\xC3\xA9");
    assert_str(unicode_nfc(a, STR("\xE1\x84\x92\xE1\x85\xA1\xE1\x86\xAB")),
               "\xED\x95\x9C"); /* Hangul */
    assert_str(unicode_nfc(a, STR("Plain text")), "Plain text");
    assert_str(unicode_nfc(a, STR("\xFF\xC3\xA9")), "\xEF\xBF\xBD\xC3\xA9");
    assert_str(unicode_fold(a, STR("PUMP 3")), "pump 3");
    assert_str(unicode_fold(a, STR("STRA\xC3\x9F"
                                   "E \xC3\x89")),
               "strasse \xC3\xA9");
    assert_str(unicode_fold(a, STR("\xCE\xA3\xCF\x82")), "\xCF\x83\xCF\x83"); /* both sigmas */
    assert_str(unicode_fold(a, STR("")), "");
    arena_free(a);
}

/* All of four signs: with a letter behind it that is none of ASCII's it takes the way of all
 * others. */
static void plain_ascii_is_what_all_others_are(void **state)
{
    static const char signs[] = "aZz09@[`{/:' -\x01\x7f\n";
    enum { SIGNS = sizeof signs }; /* its zero, too */
    (void)state;
    arena *a = test_arena();
    for (uint32_t n = 0; n < SIGNS * SIGNS * SIGNS * SIGNS; n++) {
        char text[8] = {signs[n % SIGNS], signs[n / SIGNS % SIGNS],
                        signs[n / SIGNS / SIGNS % SIGNS], signs[n / SIGNS / SIGNS / SIGNS], ' '};
        memcpy(text + 5, "\xC3\xA9", 2);
        const arena_mark mark = arena_here(a);
        const str quick = unicode_plain(a, (str){text, 4}), slow = unicode_plain(a, (str){text, 7});
        assert_int_equal(slow.n, quick.n + (quick.n > 0 ? 2 : 1));
        assert_memory_equal(slow.p, quick.p, quick.n);
        arena_back_to(a, mark);
    }
    arena_free(a);
}

static void plain_words(void **state)
{
    (void)state;
    arena *a = test_arena();
    assert_str(unicode_plain(a, STR("  The Pump, it's  RATTLING!! ")), "the pump its rattling");
    assert_str(unicode_plain(a, STR("It won\xE2\x80\x99t start")), "it wont start");
    assert_str(unicode_plain(a, STR("caf\xC3\xA9 / CAFE\xCC\x81")), "cafe cafe");
    assert_str(unicode_plain(a, STR("B\xC3\xBCrste \xC2\xBD")), "burste 1 2");
    assert_str(unicode_plain(a, STR("on-and-off 1:50")), "on and off 1 50");
    assert_str(unicode_plain(a, STR("\xEF\xBC\xB0\xEF\xBC\xB5")), "pu"); /* full width */
    assert_str(unicode_plain(a, STR("?!")), "");
    assert_str(unicode_plain(a, STR("'low' air")), "low air");
    assert_str(unicode_plain(a, STR("a\x01\xC3\xA9\x02z")), "a e z");
    arena_free(a);
}

static void assert_words(const char *text, const char *const *wanted)
{
    size_t at = 0;
    str word;
    for (; *wanted != NULL; wanted++) {
        assert_true(unicode_next_word(str_of(text), &at, &word));
        assert_str(word, *wanted);
    }
    assert_false(unicode_next_word(str_of(text), &at, &word));
    assert_int_equal(at, strlen(text));
}
#define WORDS(...) \
    (const char *const[]) \
    { \
        __VA_ARGS__, NULL \
    }

static void words_one_by_one(void **state)
{
    (void)state;
    assert_words("foam is dry", WORDS("foam", "is", "dry"));
    assert_words("  (air: 45psi), wet!", WORDS("air", "45psi", "wet"));
    assert_words("won't don\xE2\x80\x99t 'quoted'", WORDS("won't", "don\xE2\x80\x99t", "quoted"));
    assert_words("se\xC3\xB1or e\xCC\x81l", WORDS("se\xC3\xB1or", "e\xCC\x81l"));
    assert_words("1:50 a\xFF"
                 "b",
                 WORDS("1", "50", "a", "b"));
    assert_words(" -- ", (const char *const[]){NULL});
    assert_words("", (const char *const[]){NULL});
}

static void widths(void **state)
{
    (void)state;
    assert_int_equal(unicode_width(STR("pump"), 0), 4);
    assert_int_equal(unicode_width(STR("\xE6\xB0\xB4\xE6\xB0\xB4"), 0), 4);
    assert_int_equal(unicode_width(STR("e\xCC\x81"), 0), 1);
    assert_int_equal(unicode_width(STR("\t"), 0), 8);
    assert_int_equal(unicode_width(STR("\t"), 7), 1);
    assert_int_equal(unicode_width(STR("ab\tc"), 0), 9);
    assert_int_equal(unicode_width(STR("\xF0\x9F\x92\xA7"), 0), 2);
    assert_int_equal(unicode_width(STR("\xFF"), 0), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bad_bytes_are_found),
        cmocka_unit_test(what_is_plain_is_seen_eight_at_a_time),
        cmocka_unit_test(what_is_plain_is_seen_in_long_texts),
        cmocka_unit_test(all_characters_decode),
        cmocka_unit_test(a_bad_byte_is_one_character),
        cmocka_unit_test(unsafe_characters_are_found),
        cmocka_unit_test(cleaning),
        cmocka_unit_test(composing_and_folding),
        cmocka_unit_test(plain_words),
        cmocka_unit_test(plain_ascii_is_what_all_others_are),
        cmocka_unit_test(words_one_by_one),
        cmocka_unit_test(widths),
    };
    return cmocka_run_group_tests_name("unicode", tests, NULL, NULL);
}
