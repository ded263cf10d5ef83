/* docs/units.md says what the program reads: its examples are read, and its table is the program's
 * own. Run with TT_UPDATE_EXPECTED=1 to write the table anew after unit_table.h changed. */
#include "testing.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

#include "measure/amount.h"
#include "test_sources.h"

static arena *a;
static str page;

static const char path[] = TT_SOURCE_DIR "/docs/units.md";

static int page_read(void **state)
{
    (void)state;
    a = test_arena();
    page = file_bytes(a, path);
    return 0;
}

static unit read_unit(str text)
{
    unit u;
    if (unit_read(a, text, NULL, &u, NULL) != UNIT_FOUND)
        fail_msg("'%.*s' is no unit", STR_ARG(text));
    return u;
}

/* The n-th piece in backquotes of a line, or an empty text. */
static str quoted(str line, unsigned n)
{
    for (;; n--) {
        size_t open = str_find_byte(line, '`');
        if (open == SIZE_MAX) return STR("");
        line = str_slice(line, open + 1, line.n);
        size_t close = str_find_byte(line, '`');
        if (close == SIZE_MAX) return STR("");
        if (n == 0) return str_slice(line, 0, close);
        line = str_slice(line, close + 1, line.n);
    }
}

/* Rows of the table whose heading begins so; `check` gets each. */
static unsigned for_each_row(const char *heading, void (*check)(str row))
{
    size_t at = str_find(page, str_of(heading));
    if (at == SIZE_MAX) fail_msg("no table '%s'", heading);
    str rest = str_slice(page, at, page.n);
    unsigned rows = 0;
    for (unsigned line = 0; str_starts(rest, "|"); line++) {
        size_t end = str_find_byte(rest, '\n');
        if (line >= 2) check(str_slice(rest, 0, end));
        rows += line >= 2;
        rest = str_slice(rest, end + 1, rest.n);
    }
    return rows;
}

/* Right: a number and a unit, or a ratio, as the program writes them. Left: the same, as people
 * write it. */
static void written_is(str row)
{
    str left = quoted(row, 0), right = quoted(row, 1);
    size_t blank = str_find_byte(right, ' ');
    unit u = read_unit(blank == SIZE_MAX ? STR("1:N") : str_slice(right, blank + 1, right.n));
    dimension dim = u.dim;
    double number;
    str bad = STR("");
    amount_found found = amount_read(a, left, &u, &number, NULL, &bad);
    if (found != AMOUNT_FOUND) fail_msg("'%.*s': %d '%.*s'", STR_ARG(left), found, STR_ARG(bad));
    assert_true(dimension_same(dim, u.dim));
    str words = amount_words(a, number, &u, 12);
    if (!str_eq(words, right)) fail_msg("'%.*s' is %.*s", STR_ARG(left), STR_ARG(words));
}

static void the_examples_are_read(void **state)
{
    (void)state;
    assert_true(for_each_row("| written | is |", written_is) >= 20);
}

static void written_is_refused(str row)
{
    unit u = read_unit(quoted(row, 1));
    double number;
    if (amount_read(a, quoted(row, 0), &u, &number, NULL, NULL) == AMOUNT_FOUND)
        fail_msg("'%.*s' is read", STR_ARG(quoted(row, 0)));
}

static void what_is_refused_is_refused(void **state)
{
    (void)state;
    assert_true(for_each_row("| written | asked in |", written_is_refused) >= 10);
}

static void add_spellings(text_builder *b, const char *list)
{
    text_add(b, STR(" "));
    for (const char *p = list; *p != 0;) {
        size_t n = strcspn(p, "|");
        text_addf(b, "%s`%.*s`", p == list ? "" : ", ", (int)n, p);
        p += n + (p[n] == '|');
    }
    text_add(b, STR(" |"));
}

static void add_row(text_builder *b, const unit_row *row)
{
    text_addf(b, "| `%s` |", row->name);
    add_spellings(b, row->spellings);
    text_addf(b, " %s | ", row->says);
    if (row->form == UNIT_PLAIN || row->form == UNIT_SCALE)
        text_add(b, amount_words(a, row->factor, &unit_none, 15));
    if (row->offset > 0)
        text_addf(b, " and %.*s", STR_ARG(amount_words(a, row->offset, &unit_none, 15)));
    text_addf(b, " | %s%s |\n", row->source, row->exact ? "" : " (not exact)");
}

static bool seen_before(uint32_t index, dimension dim)
{
    unit_row row;
    for (uint32_t i = 0; i < index && unit_table_row(i, &row); i++)
        if (dimension_same(row.dim, dim)) return true;
    return false;
}

/* "m⁻¹ kg s⁻²" */
static void add_base(text_builder *b, dimension dim)
{
    static const char *const bases[BASE_COUNT] = {"m", "kg", "s", "K", "A", "rad"};
    for (int i = 0; i < BASE_COUNT; i++) {
        if (dim.power[i] == 0) continue;
        text_addf(b, " %s", bases[i]);
        if (dim.power[i] != 1) text_addf(b, "^%d", dim.power[i]);
    }
    if (dimension_is_none(dim)) text_add(b, STR(" 1"));
}

static str table_text(void)
{
    text_builder b = {.keep = a};
    unit_row row, other;
    for (uint32_t i = 0; unit_table_row(i, &row); i++) {
        if (seen_before(i, row.dim)) continue;
        text_addf(&b, "### %.*s\n\n", STR_ARG(dimension_words(a, row.dim)));
        text_add(&b, STR("| unit | also written | which is | in"));
        add_base(&b, row.dim);
        text_add(&b, STR(" | source |\n| --- | --- | --- | --- | --- |\n"));
        for (uint32_t j = i; unit_table_row(j, &other); j++)
            if (dimension_same(row.dim, other.dim)) add_row(&b, &other);
        text_add(&b, STR("\n"));
    }
    return (str){b.bytes, b.length - 1}; /* no empty line at the end */
}

static void the_table_is_the_programs(void **state)
{
    (void)state;
    str heading = STR("## The table\n\n"), table = table_text();
    size_t at = str_find(page, heading);
    assert_true(at != SIZE_MAX);
    str before = str_slice(page, 0, at + heading.n);
    if (getenv("TT_UPDATE_EXPECTED") != NULL) {
        FILE *out = fopen(path, "wb");
        assert_non_null(out);
        fprintf(out, "%.*s%.*s", STR_ARG(before), STR_ARG(table));
        assert_int_equal(fclose(out), 0);
    } else if (!str_eq(str_slice(page, before.n, page.n), table)) {
        fail_msg("docs/units.md lists other units than unit_table.h: run this test with "
                 "TT_UPDATE_EXPECTED=1");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_examples_are_read),
        cmocka_unit_test(what_is_refused_is_refused),
        cmocka_unit_test(the_table_is_the_programs),
    };
    return cmocka_run_group_tests(tests, page_read, NULL);
}
