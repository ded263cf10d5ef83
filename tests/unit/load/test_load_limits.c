/* Limits, at the limit and one beyond it; and inputs made to hurt: they end soon and are told by
 * the right code. */
#include "testing.h"

#include <stdlib.h>
#include <time.h>

#include "load/nodes.h"
#include "test_sources.h"

/* Of the processor's time; what grows with the square of the input takes ten times as long. */
#ifdef TT_ARENA_EACH
enum { MOST_MILLISECONDS = 15000 };
#else
enum { MOST_MILLISECONDS = 1500 };
#endif

static str times(arena *a, const char *before, const char *piece, size_t count, const char *after)
{
    size_t n = strlen(piece), length = strlen(before) + n * count + strlen(after);
    char *bytes = arena_try(a, length + 1), *end = bytes;
    assert_non_null(bytes);
    end = stpcpy(end, before);
    for (size_t i = 0; i < count; i++) end = stpcpy(end, piece);
    stpcpy(end, after);
    return (str){bytes, length};
}

/* The codes found, in order of place, such as "T104 T107"; at most three. */
static const char *codes_of_all(arena *keep, const sources *all)
{
    arena *scratch = test_arena();
    faults *list = faults_new(keep);
    load_sources(keep, scratch, all, list);
    uint32_t count;
    const fault *sorted = faults_sorted(list, keep, &count);
    text_builder b = {.keep = keep};
    for (uint32_t i = 0; i < count && i < 3; i++)
        text_addf(&b, "%s%s", i == 0 ? "" : " ", fault_id(sorted[i].code));
    arena_free(scratch);
    return b.bytes == NULL ? "" : b.bytes;
}

static const char *codes_of(arena *keep, str bytes)
{
    sources all = source_from_text(keep, "rules.yaml", bytes);
    return codes_of_all(keep, &all);
}

static void check_codes(str (*make)(arena *a), const char *wanted)
{
    arena *a = test_arena();
    str bytes = make(a);
    clock_t start = clock();
    assert_string_equal(codes_of(a, bytes), wanted);
    long milliseconds = (long)((clock() - start) / (CLOCKS_PER_SEC / 1000));
    if (milliseconds > MOST_MILLISECONDS) fail_msg("%s: %ld ms", wanted, milliseconds);
    arena_free(a);
}

/* ---- limits ---- */

static str deep_flow(arena *a, size_t depth)
{
    str open = times(a, "", "[", depth, "");
    return times(a, open.p, "]", depth, "\n");
}

static void depth(void **state)
{
    (void)state;
    arena *a = test_arena();
    assert_string_equal(codes_of(a, deep_flow(a, LOAD_DEPTH_MAX)), "");
    assert_string_equal(codes_of(a, deep_flow(a, LOAD_DEPTH_MAX + 1)), "T104");
    assert_string_equal(codes_of(a, times(a, "", "- ", LOAD_DEPTH_MAX, "x\n")), "");
    assert_string_equal(codes_of(a, times(a, "", "- ", LOAD_DEPTH_MAX + 1, "x\n")), "T104");
    arena_free(a);
}

static void length_of_a_text(void **state)
{
    (void)state;
    arena *a = test_arena();
    assert_string_equal(codes_of(a, times(a, "a: ", "x", LOAD_SCALAR_MAX, "\n")), "");
    assert_string_equal(codes_of(a, times(a, "a: ", "x", LOAD_SCALAR_MAX + 1, "\n")), "T106");
    assert_string_equal(codes_of(a, times(a, "a: \"", "x", LOAD_SCALAR_MAX + 1, "\"\nb: *c\n")),
                        "T106 T111");
    assert_string_equal(codes_of(a, times(a, "? \"", "x", LOAD_SCALAR_MAX + 1, "\"\n: b\n")),
                        "T106");
    arena_free(a);
}

static void size_of_a_file(void **state)
{
    (void)state;
    arena *a = test_arena();
    assert_string_equal(codes_of(a, times(a, "a: b\n#", " ", LOAD_FILE_MAX - 6, "")), "");
    assert_string_equal(codes_of(a, times(a, "a: b\n#", " ", LOAD_FILE_MAX - 5, "")), "T102");
    arena_free(a);
}

static sources many_files(arena *a, uint32_t count, str bytes)
{
    source *items = ARENA_ARRAY(a, source, count);
    for (uint32_t i = 0; i < count; i++) items[i] = (source){str_printf(a, "%05u.yaml", i), bytes};
    return (sources){items, count};
}

static void number_of_files(void **state)
{
    (void)state;
    arena *a = test_arena();
    sources most = many_files(a, LOAD_FILES_MAX, STR("a: b\n")),
            more = many_files(a, LOAD_FILES_MAX + 1, STR("a: &x\n"));
    assert_string_equal(codes_of_all(a, &most), "");
    assert_string_equal(codes_of_all(a, &more), "T103");
    arena_free(a);
}

static void number_of_nodes(void **state)
{
    (void)state;
    arena *a = test_arena();
    /* a list, and its items */
    assert_string_equal(codes_of(a, times(a, "", "- a\n", LOAD_NODES_MAX - 1, "")), "");
    assert_string_equal(codes_of(a, times(a, "", "- a\n", LOAD_NODES_MAX, "")), "T105");
    arena_free(a);
}

/* Over all files together, and said once. */
static void files_share_the_number_of_nodes(void **state)
{
    (void)state;
    arena *a = test_arena(), *scratch = test_arena();
    faults *list = faults_new(a);
    sources all = many_files(a, 4, STR("a: [b, c]\n"));
    uint32_t budget = 2 * 5 + 4;
    assert_non_null(load_source(a, scratch, &all, 0, &budget, list));
    assert_non_null(load_source(a, scratch, &all, 1, &budget, list));
    assert_int_equal(budget, 4);
    assert_null(load_source(a, scratch, &all, 2, &budget, list));
    assert_int_equal(budget, 0);
    assert_null(load_source(a, scratch, &all, 3, &budget, list));
    assert_int_equal(faults_errors(list), 1);
    arena_free(a);
    arena_free(scratch);
}

/* ---- made to hurt ---- */

static str many_brackets(arena *a)
{
    return times(a, "", "[", 100000, "");
}
static str many_braces(arena *a)
{
    return times(a, "", "{a: ", 100000, "");
}
static str many_dashes(arena *a)
{
    return times(a, "", "- ", 200000, "x\n");
}
static str many_questions(arena *a)
{
    return times(a, "", "? ", 200000, "x\n");
}
static str tag_lines(arena *a)
{
    return times(a, "", "%TAG !a! tag:example,2026:\n", 20000, "---\na: b\n");
}
static str comment_then_tag_lines(arena *a)
{
    return times(a, "# x\r\n", "%TAG !a! tag:x:\r\n", 20000, "---\na: b\n");
}
static str anchors(arena *a)
{
    return times(a, "", "- &a x\n", 40000, "");
}
static str long_text(arena *a)
{
    return times(a, "a: ", "word ", 80000, "\n");
}
static str long_quoted(arena *a)
{
    return times(a, "a: \"", "\\u00e9", 70000, "\"\n");
}
static str long_folded(arena *a)
{
    return times(a, "a: >\n", "  word\n\n", 50000, "");
}
static str open_quote(arena *a)
{
    return times(a, "a: \"", "one two\n", 50000, "");
}
static str many_documents(arena *a)
{
    return times(a, "", "--- a\n", 200000, "");
}
static str many_comments(arena *a)
{
    return times(a, "", "# comment\n", 200000, "");
}
static str blank_lines(arena *a)
{
    return times(a, "a: b", "\n", 400000, "c: d\n");
}
static str wide_text(arena *a)
{
    return times(a, "- ", "\xF0\x9F\x92\xA7", 100000, "\n- b\n");
}
static str many_same_keys(arena *a)
{
    return times(a, "", "a: b\n", 100000, "");
}
static str many_flow_pairs(arena *a)
{
    return times(a, "[", "{a}, ", 20000, "]\n");
}
static str bad_bytes(arena *a)
{
    return times(a, "", "\xFF", 100000, "");
}
static str long_key(arena *a)
{
    return times(a, "", "k", 100000, ": x\n");
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

static void hostile_inputs(void **state)
{
    (void)state;
    check_codes(many_brackets, "T104");
    check_codes(many_braces, "T104");
    check_codes(many_dashes, "T104");
    check_codes(many_questions, "T104");
    check_codes(tag_lines, "T108");
    check_codes(comment_then_tag_lines, "T108");
    check_codes(anchors, "T110 T110 T110");
    check_codes(alias_bomb, "T110 T110 T111");
    check_codes(long_text, "T106");
    check_codes(long_quoted, "T106");
    check_codes(long_folded, "T106");
    check_codes(open_quote, "T122");
    check_codes(many_documents, "T109");
    check_codes(many_comments, "");
    check_codes(blank_lines, "");
    check_codes(wide_text, "T106");
    check_codes(many_same_keys, "T115 T115 T115");
    check_codes(many_flow_pairs, "T126 T126 T126");
    check_codes(bad_bytes, "T101");
    check_codes(long_key, "T121");
}

/* Whatever the bytes: an end, and a fault if nothing came of them. */
static void random_bytes(void **state)
{
    (void)state;
    static const char *const pieces[] = {
        "a",     "b c",      ": ",           "- ",   "\n", "\n  ", "{",  "}",    "[",
        "]",     ", ",       "\"",           "'",    "#",  " #",   "|",  ">",    "&a ",
        "*a",    "!t ",      "? ",           "%",    "@",  "\t",   "\\", "\r\n", "---\n",
        "...\n", "\xC3\xA9", "\xE2\x80\xAE", "\xFF", "<<", "/x/",  "0"};
    uint32_t random = 20260101;
    for (uint32_t run = 0; run < 20000; run++) {
        arena *a = test_arena(), *scratch = test_arena();
        text_builder b = {.keep = a};
        for (uint32_t left = 1 + run % 40U; left > 0; left--) {
            random = random * 1664525U + 1013904223U;
            text_add(&b, str_of(pieces[(random >> 16) % (sizeof pieces / sizeof *pieces)]));
        }
        sources all = source_from_text(a, "rules.yaml", text_done(&b));
        faults *list = faults_new(a);
        const node **roots = load_sources(a, scratch, &all, list);
        str text = faults_text(list, a, &all, 0);
        str whole = str_trim(all.items[0].bytes);
        bool may_be_nothing = whole.n == 0 || strchr("#-.", whole.p[0]) != NULL;
        if (roots[0] == NULL && text.n == 0 && !may_be_nothing)
            fail_msg("nothing is said of: %.*s", STR_ARG(whole));
        arena_free(a);
        arena_free(scratch);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(depth),           cmocka_unit_test(length_of_a_text),
        cmocka_unit_test(size_of_a_file),  cmocka_unit_test(number_of_files),
        cmocka_unit_test(number_of_nodes), cmocka_unit_test(files_share_the_number_of_nodes),
        cmocka_unit_test(hostile_inputs),  cmocka_unit_test(random_bytes),
    };
    return cmocka_run_group_tests_name("load limits", tests, NULL, NULL);
}
