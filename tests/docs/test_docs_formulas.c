/* What docs/formulas.md shows is what formulas do. Its blocks, a line each:
 *   ```names       NAME   AMOUNT              what was read
 *   ```formula     FORMULA   = AMOUNT         its value, to five digits
 *   ```refused     FORMULA   WORDS            it is not taken; the words stand in the fault or in
 * its help
 *   ```undefined   FORMULA   WORDS            it has no value, and why
 * Two blanks or more part the columns. */
#include "testing.h"

#include <math.h>
#include <stdio.h>

#include "formula_kit.h"
#include "session/session.h"
#include "test_sources.h"

/* The two columns of a line. */
static void columns(arena *keep, str line, const char **left, const char **right)
{
    size_t gap = str_find(line, STR("  "));
    if (gap == SIZE_MAX) fail_msg("no second column in '%.*s'", STR_ARG(line));
    *left = str_copy(keep, str_slice(line, 0, gap)).p;
    *right = str_copy(keep, str_trim(str_slice(line, gap, line.n))).p;
}

static void check_name(formula_kit *k, const char *name, const char *amount_text)
{
    const formula *f = formula_kit_good(k, amount_text);
    formula_result r = formula_kit_value(k, f);
    assert_int_equal(r.state, FORMULA_VALUE);
    /* the unit is what stands behind the number; a ratio is a plain number */
    const char *unit_text = strchr(amount_text, ' ');
    unit u = formula_kit_unit(k, unit_text == NULL ? "" : unit_text);
    formula_kit_name(k, name, unit_from_base(&u, r.base), unit_text == NULL ? "" : unit_text);
}

static void check_value(formula_kit *k, const char *text, const char *wanted)
{
    if (wanted[0] != '=') fail_msg("'%s': no '=' before '%s'", text, wanted);
    const formula *f = formula_kit_good(k, text), *w = formula_kit_good(k, wanted + 1);
    formula_result got = formula_kit_value(k, f), as = formula_kit_value(k, w);
    if (got.state != FORMULA_VALUE) fail_msg("'%s' has no value", text);
    assert_true(dimension_same(formula_type(f).dim, formula_type(w).dim));
    assert_int_equal(formula_type(f).scale, formula_type(w).scale);
    if (!(fabs(got.base - as.base) <= 5e-5 * fabs(as.base)))
        fail_msg("'%s' is not '%s': %g for %g", text, wanted + 1, got.base, as.base);
}

static void check_refused(formula_kit *k, const char *text, const char *words)
{
    if (formula_kit_parse(k, text) != NULL) fail_msg("'%s' is taken", text);
    assert_non_null(k->error.what);
    if (strstr(k->error.what, words) == NULL && strstr(k->error.help, words) == NULL)
        fail_msg("'%s': '%s' '%s', the page shows '%s'", text, k->error.what, k->error.help, words);
}

static void check_undefined(formula_kit *k, const char *text, const char *why)
{
    formula_result r = formula_kit_value(k, formula_kit_good(k, text));
    assert_int_equal(r.state, FORMULA_UNDEFINED);
    assert_string_equal(catalogue_text(TONGUE_EN, lack_text(r.why)), why);
}

static const struct {
    const char *heading;
    void (*check)(formula_kit *k, const char *left, const char *right);
    uint32_t least;
} kinds[] = {
    {"names", check_name, 10},
    {"formula", check_value, 20},
    {"refused", check_refused, 5},
    {"undefined", check_undefined, 3},
};
enum { KINDS = sizeof kinds / sizeof *kinds };

static void check_line(formula_kit *k, uint32_t kind, str line, uint32_t *seen)
{
    const char *left, *right;
    columns(k->keep, line, &left, &right);
    kinds[kind].check(k, left, right);
    seen[kind]++;
}

static void what_the_page_shows_holds(void **state)
{
    (void)state;
    formula_kit k = formula_kit_new();
    uint32_t seen[KINDS] = {0}, kind = KINDS;
    str page = file_bytes(k.keep, TT_SOURCE_DIR "/docs/formulas.md");
    while (page.n > 0) {
        size_t end = str_find_byte(page, '\n');
        str line = str_slice(page, 0, end);
        page = str_slice(page, end + 1, page.n);
        bool fence = str_starts(line, "```");
        if (!fence && kind < KINDS) check_line(&k, kind, line, seen);
        if (!fence) continue;
        bool opens = line.n > 3;
        for (kind = 0; kind < KINDS; kind++)
            if (opens && str_is(str_slice(line, 3, line.n), kinds[kind].heading)) break;
        if (opens && kind == KINDS) fail_msg("nothing reads a block '%.*s'", STR_ARG(line));
    }
    for (uint32_t i = 0; i < KINDS; i++) assert_true(seen[i] >= kinds[i].least);
    formula_kit_free(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(what_the_page_shows_holds)};
    return cmocka_run_group_tests_name("docs: formulas", tests, NULL, NULL);
}
