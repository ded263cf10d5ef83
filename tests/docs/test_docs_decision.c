/* docs/decision.md draws the table of decisions as it is. Run with TT_UPDATE_EXPECTED=1 to draw it
 * anew. */
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/str.h"
#include "decide/policies.h"
#include "test_sources.h"

static const char page_path[] = TT_SOURCE_DIR "/docs/decision.md";
static const char from[] = "<!-- made from engine/decide/policies.h -->\n", to[] = "<!-- end -->\n";

typedef enum looked_at { ANY_CASE, TROUBLE } looked_at;
static const struct {
    const char *name;
    looked_at when;
    const char *holds, *comes;
} rows[] = {
#define ROW(id, when, holds, make, when_text, then_text) {#id, when, when_text, then_text},
    POLICY_TABLE(ROW)
#undef ROW
};

static char *page(void)
{
    FILE *file = fopen(page_path, "rb");
    assert_non_null(file);
    char *text = calloc(1, 1 << 16);
    assert_non_null(text);
    assert_true(fread(text, 1, (1 << 16) - 1, file) < (1 << 16) - 1);
    fclose(file);
    return text;
}

/* "PUT_BACK" is "put back" to people. */
static str plain(arena *a, const char *name)
{
    text_builder b = {.keep = a};
    for (; *name != '\0'; name++) text_addf(&b, "%c", *name == '_' ? ' ' : *name - 'A' + 'a');
    return text_done(&b);
}

static str drawn(arena *a)
{
    text_builder b = {.keep = a};
    text_add(&b, STR("\n| | row | holds if | then comes | |\n| --- | --- | --- | --- | --- |\n"));
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        text_addf(&b, "| %zu | %.*s | %s | %s | %s |\n", i + 1, STR_ARG(plain(a, rows[i].name)),
                  rows[i].holds, rows[i].comes, rows[i].when == ANY_CASE ? "also then" : "");
    text_add(&b, STR("\n"));
    return text_done(&b);
}

static void draw_anew(const char *text, const char *start, const char *end, str table)
{
    FILE *file = fopen(page_path, "wb");
    assert_non_null(file);
    fwrite(text, 1, (size_t)(start - text), file);
    fwrite(table.p, 1, table.n, file);
    fputs(end, file);
    fclose(file);
}

static void the_table_is_drawn_as_it_is(void **state)
{
    (void)state;
    arena *a = test_arena();
    char *text = page(), *start = strstr(text, from), *end = strstr(text, to);
    assert_true(start != NULL && end != NULL && start < end);
    start += sizeof from - 1;
    str table = drawn(a);
    if (getenv("TT_UPDATE_EXPECTED") != NULL)
        draw_anew(text, start, end, table);
    else if (!str_eq(table, (str){start, (size_t)(end - start)}))
        fail_msg("docs/decision.md draws another table; see TT_UPDATE_EXPECTED. It is:\n%.*s",
                 STR_ARG(table));
    free(text);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_table_is_drawn_as_it_is)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
