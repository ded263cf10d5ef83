/* Limits, at the limit and one beyond it; and whatever the bytes, there is an end. */
#include "testing.h"

#include "hostile.h"

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
        cmocka_unit_test(random_bytes),
    };
    return cmocka_run_group_tests_name("load limits", tests, NULL, NULL);
}
