/* docs/promises.md: the tests that it names are there, and its limits are those of the code.
 * docs/command-line.md: each of its 50 rows names tests, and these are there too. */
#include "testing.h"

#include <stdio.h>
#include <unistd.h>

#include "base/pattern.h"
#include "compile/facts.h"
#include "draw/svg_file.h"
#include "load/nodes.h"
#include "read/reader.h"
#include "summary/record_line.h"
#include "test_sources.h"

static arena *a;
static str page;

static int page_read(void **state)
{
    (void)state;
    a = test_arena();
    page = file_bytes(a, TT_SOURCE_DIR "/docs/promises.md");
    return 0;
}

static int page_end(void **state)
{
    (void)state;
    arena_free(a);
    return 0;
}

/* Behind the next of these words at or after *at; false: there is none. */
static bool next_after(const char *words, size_t *at)
{
    const size_t found = str_find(str_slice(page, *at, page.n), str_of(words));
    if (found == SIZE_MAX) return false;
    *at += found + strlen(words);
    return true;
}

static void tests_are_there(void **state)
{
    (void)state;
    unsigned named = 0;
    for (size_t at = 0; next_after("`tests/", &at); named++) {
        const str rest = str_slice(page, at, page.n),
                  name = str_slice(rest, 0, str_find_byte(rest, '`'));
        if (access(str_printf(a, "%s/tests/%.*s", TT_SOURCE_DIR, STR_ARG(name)).p, R_OK) != 0 &&
            !str_is(name, "run"))
            fail_msg("there is no tests/%.*s", STR_ARG(name));
    }
    assert_in_range(named, 40, 200);
}

static void each_promise_has_a_test(void **state)
{
    (void)state;
    unsigned rows = 0;
    for (size_t at = 0; next_after("| held by |\n| --- | --- |\n", &at);)
        for (str rest = str_slice(page, at, page.n); str_starts(rest, "| "); rows++) {
            const size_t end = str_find_byte(rest, '\n');
            if (str_find(str_slice(rest, 0, end), STR("`tests/")) == SIZE_MAX)
                fail_msg("without a test: %.*s", (int)end, rest.p);
            rest = str_slice(rest, end + 1, rest.n);
        }
    assert_in_range(rows, 20, 100);
}

static void limits_are_those_of_the_code(void **state)
{
    static const struct {
        const char *what;
        unsigned long most;
    } limits[] = {
        {"bytes of one file of a book", LOAD_FILE_MAX},
        {"files of a book", LOAD_FILES_MAX},
        {"entries of lists and maps in all files together", LOAD_NODES_MAX},
        {"lists and maps within each other", LOAD_DEPTH_MAX},
        {"bytes of one text", LOAD_SCALAR_MAX},
        {"answers of a question", ANSWERS_MAX},
        {"letters of a name", NAME_LENGTH_MAX},
        {"entries of a section", SECTION_ENTRIES_MAX},
        {"roles", ROLES_MAX},
        {"phrases that tell of danger, those at each piece counted", DANGER_PHRASES_MAX},
        {"kinds of equipment", KINDS_MAX},
        {"pieces of equipment", PIECES_MAX},
        {"places", PLACES_MAX},
        {"fixes that one fix waits for", FIRST_FIXES_MAX},
        {"the same, of all fixes together, those of each piece counted", WAITING_FIXES_MAX},
        {"bytes of what is written for each piece, times the pieces", GROUND_BYTES_MAX},
        {"entries, items and texts of what is written for each piece, times the pieces; a list "
         "that names no piece is one",
         GROUND_NODES_MAX},
        {"names meant by `of any` and `of every`", GROUND_NAMES_MAX},
        {"steps to weigh each fact once that rules read together "
         "([T511](faults-compile.md#t511-rules-read-too-many-facts-together))",
         FACTS_STEPS_MAX},
        {"bytes of a picture", DRAWING_BYTES_MAX},
        {"elements of a picture", DRAWING_ELEMENTS_MAX},
        {"letters of a pattern", PATTERN_LENGTH_MAX},
        {"bytes that all patterns of a book fill, made ready for matching", PATTERN_BYTES_MAX},
        {"items of a pattern that are tried in one match", PATTERN_MATCH_MAX},
        {"the same, of all patterns and all that is said at once", PATTERN_PATIENCE},
        {"bytes of one line of records", LONGEST_LINE},
    };
    (void)state;
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        const str row = str_printf(a, "\n| %s | %lu |\n", limits[i].what, limits[i].most);
        if (str_find(page, row) == SIZE_MAX) fail_msg("the page lacks:%s", row.p);
    }
}

/* What does not hold, or only in part, says so. */
static void each_row_of_the_command_line_has_a_test(void **state)
{
    (void)state;
    page = file_bytes(a, TT_SOURCE_DIR "/docs/command-line.md");
    for (unsigned number = 1; number <= 50; number++) {
        size_t at = 0;
        if (!next_after(str_printf(a, "\n| %u | ", number).p, &at))
            fail_msg("docs/command-line.md has no row %u", number);
        const str rest = str_slice(page, at, page.n),
                  row = str_slice(rest, 0, str_find_byte(rest, '\n'));
        if (str_find(row, STR("`tests/")) == SIZE_MAX &&
            str_find(row, STR("**in part**")) == SIZE_MAX)
            fail_msg("row %u names no test", number);
    }
    size_t at = 0;
    assert_false(next_after("\n| 51 | ", &at));
    tests_are_there(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tests_are_there), cmocka_unit_test(each_promise_has_a_test),
        cmocka_unit_test(limits_are_those_of_the_code),
        cmocka_unit_test(
            each_row_of_the_command_line_has_a_test), /* the last: it reads another page */
    };
    return cmocka_run_group_tests(tests, page_read, page_end);
}
