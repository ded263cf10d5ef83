/* docs/records.md has a row for each kind of record, with the fields of the table. */
#include "testing.h"

#include <stdio.h>

#include "base/str.h"
#include "journal/record_kinds.h"
#include "test_sources.h"

/* "answer reply" as the page has it: "`answer` `reply` ". */
static str fields_on_the_page(arena *a, const char *fields)
{
    text_builder b = {.keep = a};
    for (size_t length; *fields != '\0'; fields += length + strspn(fields + length, " ")) {
        length = strcspn(fields, " ");
        text_addf(&b, "`%.*s` ", (int)length, fields);
    }
    return text_done(&b);
}

/* The line of a kind, or the test fails. */
static str row_of(str page, arena *a, const char *word)
{
    size_t from = str_find(page, str_printf(a, "\n| `%s` | ", word));
    if (from == SIZE_MAX) fail_msg("docs/records.md has no row for %s", word);
    str rest = str_slice(page, from + 1, page.n);
    return str_slice(rest, 0, str_find_byte(rest, '\n'));
}

static void check_row(str page, arena *a, const char *word, unsigned does, record_author who,
                      const char *fields)
{
    str row = row_of(page, a, word),
        wanted = str_printf(a, "| %s|", fields_on_the_page(a, fields).p);
    if (!str_ends(row, wanted.p)) fail_msg("%.*s\nshould end %s", STR_ARG(row), wanted.p);
    bool gives_back = str_find(row, STR("step, taken back | ")) != SIZE_MAX;
    bool step = gives_back || str_find(row, STR("; step | ")) != SIZE_MAX;
    assert_int_equal(gives_back, (does & GIVES_BACK) != 0);
    assert_int_equal(step, (does & STEP) != 0);
    assert_int_equal(str_find(row, STR("a called role, a desk")) != SIZE_MAX, who == CALLED_ROLE);
}

static void each_kind_is_told(void **state)
{
    (void)state;
    arena *a = test_arena();
    str page = file_bytes(a, TT_SOURCE_DIR "/docs/records.md");
    unsigned rows = 0;
#define CHECK_ROW(id, word, does, who, about, says, fields) \
    if (strcmp(word, "step") != 0 && strcmp(word, "back") != 0) \
        check_row(page, a, word, (does), who, fields);
    RECORD_TABLE(CHECK_ROW)
#undef CHECK_ROW
    size_t kinds = str_find(page, STR("## Kinds"));
    for (size_t i = kinds; i + 4 < page.n; i++) rows += memcmp(page.p + i, "\n| `", 4) == 0;
    assert_int_equal(rows, RECORD_KINDS);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_kind_is_told)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
