/* Inputs made to hurt: they are told by the right code, and the work grows with their size, not
 * with its square. What is counted is the engine's own work; the library that reads YAML is stopped
 * by the limits that these codes stand for. */
#include "testing.h"

#include "hostile.h"
#include "work.h"

/* So many pieces between two ends. */
static const struct hostile {
    const char *name, *before, *piece;
    size_t count;
    const char *after, *codes;
} hostile[] = {
    {"many brackets", "", "[", 100000, "", "T104"},
    {"many braces", "", "{a: ", 100000, "", "T104"},
    {"many dashes", "", "- ", 200000, "x\n", "T104"},
    {"many questions", "", "? ", 200000, "x\n", "T104"},
    {"tag lines", "", "%TAG !a! tag:example,2026:\n", 20000, "---\na: b\n", "T108"},
    {"comment then tag lines", "# x\r\n", "%TAG !a! tag:x:\r\n", 20000, "---\na: b\n", "T108"},
    {"anchors", "", "- &a x\n", 40000, "", "T110 T110 T110"},
    {"long text", "a: ", "word ", 80000, "\n", "T106"},
    {"long quoted", "a: \"", "\\u00e9", 70000, "\"\n", "T106"},
    {"long folded", "a: >\n", "  word\n\n", 50000, "", "T106"},
    {"open quote", "a: \"", "one two\n", 50000, "", "T122"},
    {"many documents", "", "--- a\n", 200000, "", "T109"},
    {"many comments", "", "# comment\n", 200000, "", ""},
    {"blank lines", "a: b", "\n", 400000, "c: d\n", ""},
    {"wide text", "- ", "\xF0\x9F\x92\xA7", 100000, "\n- b\n", "T106"},
    {"many same keys", "", "a: b\n", 100000, "", "T115 T115 T115"},
    {"many flow pairs", "[", "{a}, ", 20000, "]\n", "T126 T126 T126"},
    {"bad bytes", "", "\xFF", 100000, "", "T101"},
    {"long key", "", "k", 100000, ": x\n", "T121"},
};

/* For eight times the pieces it is eight times as much; if it grew with the square, 64 times. */
enum { PART = 8, MOST_TIMES = 12, ONCE = 1000000 };

static uint64_t work_of(const struct hostile *h, size_t count, const char *wanted)
{
    arena *a = test_arena();
    str bytes = times(a, h->before, h->piece, count, h->after);
    uint64_t before = work_done();
    const char *codes = codes_of(a, bytes);
    uint64_t work = work_done() - before;
    if (wanted != NULL && strcmp(codes, wanted) != 0)
        fail_msg("%s: %s, not %s", h->name, codes, wanted);
    arena_free(a);
    return work;
}

static void hostile_inputs(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof hostile / sizeof *hostile; i++) {
        const struct hostile *h = &hostile[i];
        uint64_t part = work_of(h, h->count / PART, NULL), whole = work_of(h, h->count, h->codes);
        assert_true(part > 0);
        if (whole > MOST_TIMES * part)
            fail_msg("%s: %llu steps, and %llu for %d times as much", h->name,
                     (unsigned long long)part, (unsigned long long)whole, PART);
    }
}

static str alias_bomb(arena *a)
{
    text_builder b = {.keep = a};
    text_add(&b, STR("a0: &a0 [x, x]\n"));
    for (int i = 1; i < 10; i++) {
        text_addf(&b, "a%d: &a%d [", i, i);
        for (int j = 0; j < 9; j++) text_addf(&b, "%s*a%d", j == 0 ? "" : ", ", i - 1);
        text_add(&b, STR("]\n"));
    }
    return text_done(&b);
}

/* Ten lines that would be 2 * 9^9 texts. */
static void an_alias_is_not_followed(void **state)
{
    (void)state;
    arena *a = test_arena();
    str bytes = alias_bomb(a);
    uint64_t before = work_done();
    assert_string_equal(codes_of(a, bytes), "T110 T110 T111");
    assert_in_range(work_done() - before, 1000, ONCE);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hostile_inputs),
        cmocka_unit_test(an_alias_is_not_followed),
    };
    return cmocka_run_group_tests_name("load work", tests, NULL, NULL);
}
