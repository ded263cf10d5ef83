/* What is read quickly of JSON is what jansson reads: of texts made of any pieces of it. */
#include "luck.h"
#include "testing.h"

#include <stdlib.h>

#include "show/json.h"
#include "show/json_plain.h"
#include "test_sources.h"

enum { TEXTS = 40000, PIECES_MOST = 16 };

static const char *const pieces[] = {
    "\"a\":", "\"b\": ", "\"c\":{", "\"d\":[", "\"\\\"e\":", "1", "-2.50", "0.1", "123456789.125",
    "true", "false", "null", "\"x y\"", "\"\\n\\t\\\\\"", "\"\xC3\xA9\"", "\"\"", ",", ",", ",",
    ",", "]", "}", "}", "[", "{", " ", "\n",
    /* what is for jansson, or for nobody */
    "\"\\u00e9\"", "1e3", "01", "-", "1.", ".5", "-0", "999999999999999", "9999999999999999",
    "9007199254740993", "\"\\q\"", "\"\xFF\"", "\"\xED\xA0\x80\"", "\"a", "'", ":", "nul", "\x01",
    "0.1234567890123456", "-0.0", "\x7F", "//", "\"\\u0000\""};
enum { PIECES = sizeof pieces / sizeof *pieces, USUAL = 27 };

/* Whether it was read quickly. */
static bool compare(str text)
{
    arena *a = test_arena();
    tt_value quick, slow;
    json_fault fault = {.line = 0};
    const bool is = json_plain(a, text, &quick);
    if (is && !json_parsed(a, text, &slow, &fault))
        fail_msg("'%.*s' is refused: %.*s", STR_ARG(text), STR_ARG(fault.text));
    if (is) {
        const str ours = json_write(a, &quick, JSON_DIGITS_EXACT),
                  theirs = json_write(a, &slow, JSON_DIGITS_EXACT);
        if (!str_eq(ours, theirs))
            fail_msg("'%.*s' is %.*s, not %.*s", STR_ARG(text), STR_ARG(ours), STR_ARG(theirs));
    }
    arena_free(a);
    return is;
}

static void any_pieces(void **state)
{
    (void)state;
    const char *more = getenv("TELLTALE_FUZZ");
    const uint32_t texts = TEXTS * (more == NULL ? 1 : 1 + (uint32_t)strtoul(more, NULL, 10));
    uint64_t luck = 19;
    uint32_t quick = 0;
    for (uint32_t i = 0; i < texts; i++) {
        arena *a = test_arena();
        text_builder b = {.keep = a};
        const uint32_t of = i % 4 != 0 ? USUAL : PIECES;
        if (i % 2 == 0) text_add(&b, STR("{\"k\":"));
        for (uint32_t k = 1 + luck_below(&luck, PIECES_MOST - 2); k > 0; k--)
            text_add(&b, str_of(pieces[luck_below(&luck, of)]));
        if (i % 2 == 0) text_add(&b, STR("}"));
        quick += compare(text_done(&b));
        arena_free(a);
    }
    print_message("%u of %u read quickly\n", quick, texts);
    assert_true(quick > texts / 100);
}

static void write_text(text_builder *b, uint64_t *luck, int depth)
{
    static const char *const texts[] = {
        "1", "-2.5",   "\"x\"", "\"it's \\\"so\\\"\"", "true", "null", "\"\xE2\x82\xAC\"",
        "0", "12.0625"};
    const uint32_t what = luck_below(luck, depth > 3 ? 3 : 5);
    const bool map = what == 3;
    if (what < 3) {
        text_add(b, str_of(texts[luck_below(luck, sizeof texts / sizeof *texts)]));
        return;
    }
    text_add(b, map ? STR("{") : STR("["));
    for (uint32_t i = 0, count = luck_below(luck, 6); i < count; i++) {
        if (i > 0) text_add(b, luck_below(luck, 3) == 0 ? STR(" , ") : STR(","));
        if (map) text_addf(b, "\"key%u\":", luck_below(luck, 9)); /* twice now and then */
        write_text(b, luck, depth + 1);
    }
    text_add(b, map ? STR("}") : STR("]"));
}

static void whole_trees(void **state)
{
    (void)state;
    uint64_t luck = 23;
    uint32_t quick = 0;
    for (uint32_t i = 0; i < TEXTS / 2; i++) {
        arena *a = test_arena();
        text_builder b = {.keep = a};
        write_text(&b, &luck, 0);
        quick += compare(text_done(&b));
        arena_free(a);
    }
    assert_true(quick > TEXTS / 4);
}

/* More than it has room for is not half read. */
static void large_ones(void **state)
{
    (void)state;
    arena *a = test_arena();
    text_builder b = {.keep = a};
    text_add(&b, STR("[0"));
    for (int i = 1; i < 60; i++) text_addf(&b, ",%d", i);
    text_add(&b, STR("]"));
    tt_value v;
    json_fault fault;
    assert_false(compare(text_done(&b)));
    assert_true(json_read(a, text_done(&b), 1 << 20, &v, &fault));
    assert_int_equal(v.count, 60);
    assert_false(compare(STR("[[[[[[[[[[1]]]]]]]]]]")));
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_pieces),
        cmocka_unit_test(whole_trees),
        cmocka_unit_test(large_ones),
    };
    return cmocka_run_group_tests_name("plain json", tests, NULL, NULL);
}
