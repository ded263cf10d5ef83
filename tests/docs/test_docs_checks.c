/* docs/outside-checks.md is made from the tests: each block "outside-check" above a test function
 * is one row. Run with TT_UPDATE_EXPECTED=1 to write it anew. */
#include "testing.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>

#include "test_sources.h"

static const char page_path[] = TT_SOURCE_DIR "/docs/outside-checks.md";
static const char head[] = "# Checked against the world outside\n\n"
                           "Made from the tests, so it can't go stale: `TT_UPDATE_EXPECTED=1 ctest "
                           "-R test_docs_checks`. Each row is a test "
                           "of\n`tests/reference`; `ctest -L reference` runs them all, `ctest -LE "
                           "reference` leaves them out.\n\n"
                           "What the standings mean: **VERIFIED** the value was read in the source "
                           "or in a copy of it; **COMPUTED** it was worked\n"
                           "out from the source's own inputs by independent software or by hand, "
                           "or counted out in the test itself;\n"
                           "**common practice** a habit of the trade without a source.\n";

static arena *a;

static int by_name(const void *x, const void *y)
{
    return strcmp(*(char *const *)x, *(char *const *)y);
}

static size_t reference_tests(char **names, size_t most)
{
    DIR *folder = opendir(TT_SOURCE_DIR "/tests/reference");
    assert_non_null(folder);
    size_t count = 0;
    for (struct dirent *e = readdir(folder); e != NULL; e = readdir(folder)) {
        str name = str_of(e->d_name);
        if (!str_starts(name, "test_") || !str_ends(name, ".c")) continue;
        assert_true(count < most);
        names[count++] = (char *)(uintptr_t)str_copy(a, name).p;
    }
    closedir(folder);
    qsort(names, count, sizeof *names, by_name);
    return count;
}

/* The text of a comment's lines up to the next key, as one line; `|` would end a cell. */
static str joined(str text)
{
    text_builder b = {.keep = a};
    bool gap = false;
    for (size_t i = 0; i < text.n; i++) {
        char c = text.p[i];
        bool blank = c == ' ' || c == '\n' || (c == '*' && gap && (i == 0 || text.p[i - 1] == ' '));
        if (blank) {
            gap = true;
            continue;
        }
        if (gap && b.length > 0) text_add(&b, STR(" "));
        gap = false;
        text_add(&b, c == '|' ? STR("\\|") : (str){&c, 1});
    }
    return b.length == 0 ? STR("") : text_done(&b);
}

/* What stands behind `key` in a block, up to `next` or the block's end. */
static str field(str block, const char *key, const char *next)
{
    size_t from = str_find(block, str_of(key));
    if (from == SIZE_MAX) return STR("");
    str rest = str_slice(block, from + strlen(key), block.n);
    size_t end = next == NULL ? SIZE_MAX : str_find(rest, str_of(next));
    return joined(str_slice(rest, 0, end == SIZE_MAX ? rest.n : end));
}

static str function_at(str text, size_t from)
{
    str rest = str_slice(text, from + 12, text.n);
    size_t end = str_find_byte(rest, '(');
    return end == SIZE_MAX ? STR("") : str_slice(rest, 0, end);
}

/* The function that the block at `at` stands in, else the one below it. */
static str function_of(str text, size_t at)
{
    size_t last = SIZE_MAX, from = 0;
    for (size_t found = str_find(text, STR("static void ")); found != SIZE_MAX && from + found < at;
         found = str_find(str_slice(text, from, text.n), STR("static void "))) {
        last = from + found;
        from = last + 1;
    }
    bool inside = last != SIZE_MAX && str_find(str_slice(text, last, at), STR("\n}")) == SIZE_MAX &&
                  str_find(str_slice(text, last, at), STR("\n{")) != SIZE_MAX;
    if (inside) return function_at(text, last);
    size_t below = str_find(str_slice(text, at, text.n), STR("static void "));
    return below == SIZE_MAX ? STR("") : function_at(text, at + below);
}

static bool standing_is_known(str standing)
{
    static const char *const words[] = {"VERIFIED", "COMPUTED", "common practice"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (str_find(standing, str_of(words[i])) != SIZE_MAX) return true;
    return false;
}

/* The rows of one test program. */
static unsigned add_program(text_builder *page, const char *name)
{
    str text = file_bytes(a, str_printf(a, TT_SOURCE_DIR "/tests/reference/%s", name).p);
    unsigned rows = 0;
    text_addf(page, "\n## %.*s\n\n| what | source | standing | test |\n| --- | --- | --- | --- |\n",
              (int)strlen(name) - 2, name);
    size_t at = 0;
    for (size_t found = str_find(text, STR("/* outside-check:")); found != SIZE_MAX;
         found = str_find(str_slice(text, at, text.n), STR("/* outside-check:"))) {
        at += found;
        size_t end = str_find(str_slice(text, at, text.n), STR("*/"));
        assert_true(end != SIZE_MAX);
        str block = str_slice(text, at + 3, at + end);
        str what = field(block, "outside-check:", "source:"),
            source = field(block, "source:", "standing:");
        str standing = field(block, "standing:", NULL), function = function_of(text, at);
        at += end;
        if (what.n == 0 || source.n == 0 || function.n == 0 || !standing_is_known(standing))
            fail_msg("%s: a block lacks what, source, standing or function near '%.*s'", name,
                     STR_ARG(what));
        text_addf(page, "| %.*s | %.*s | %.*s | `%.*s` |\n", STR_ARG(what), STR_ARG(source),
                  STR_ARG(standing), STR_ARG(function));
        rows++;
    }
    if (rows == 0) fail_msg("%s has no block 'outside-check': what does it check against?", name);
    return rows;
}

static void the_page_is_made_from_the_tests(void **state)
{
    (void)state;
    enum { PROGRAMS_MAX = 200 };
    a = test_arena();
    char *names[PROGRAMS_MAX];
    size_t count = reference_tests(names, PROGRAMS_MAX);
    text_builder page = {.keep = a};
    unsigned rows = 0;
    text_add(&page, str_of(head));
    for (size_t i = 0; i < count; i++) rows += add_program(&page, names[i]);
    assert_true(rows >= 25);
    str made = text_done(&page);
    if (getenv("TT_UPDATE_EXPECTED") != NULL) {
        FILE *out = fopen(page_path, "w");
        assert_non_null(out);
        assert_int_equal(fwrite(made.p, 1, made.n, out), made.n);
        assert_int_equal(fclose(out), 0);
    }
    str written = file_bytes(a, page_path);
    if (!str_eq(made, written))
        fail_msg("docs/outside-checks.md is not what the tests say; TT_UPDATE_EXPECTED=1 writes it "
                 "anew");
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_page_is_made_from_the_tests)};
    return cmocka_run_group_tests_name("docs_checks", tests, NULL, NULL);
}
