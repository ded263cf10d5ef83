/* Risk levels and signal words against the standards they are taken from: through the engine's
 * table, through fixes of a book, and as the program prints them. */
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/risk_matrix.h"
#include "small_book.h"

static const char *const worsts[] = {"catastrophic", "critical", "marginal", "negligible"};
static const char *const chances[] = {"frequent", "probable",   "occasional",
                                      "remote",   "improbable", "eliminated"};
static const char *const levels[] = {"low", "medium", "serious", "high"};

/* Table III as it stands in print, by rows A to F: H, S, M, L and E for eliminated. */
static const char table_iii[6][5] = {"HHSM", "HHSM", "HSML", "SMML", "MMML", "EEEE"};

/* Telltale knows no fifth band: what is eliminated counts as Low, with the same gate and no price.
 */
static risk_level printed(unsigned row, unsigned column)
{
    switch (table_iii[row][column]) {
    case 'H':
        return RISK_HIGH;
    case 'S':
        return RISK_SERIOUS;
    case 'M':
        return RISK_MEDIUM;
    default:
        return RISK_LOW;
    }
}

/* ---- Table III ---- */

/* outside-check: all 24 cells of the risk matrix, in the engine's table
 * source: MIL-STD-882E (11 May 2012), Table III, from two independent copies
 * standing: VERIFIED
 */
static void every_cell(void **state)
{
    (void)state;
    unsigned bands[4] = {0};
    for (unsigned row = 0; row < 6; row++)
        for (unsigned column = 0; column < 4; column++) {
            risk_level got = risk_of((risk_severity)column, (risk_probability)row);
            if (got != printed(row, column))
                fail_msg("%s, %s: %s", worsts[column], chances[row], levels[got]);
            if (row < 5) bands[got]++;
        }
    /* High 1A 1B 1C 2A 2B, Serious 1D 2C 3A 3B, Medium eight cells, Low 4C 4D 4E */
    assert_int_equal(bands[RISK_HIGH], 5);
    assert_int_equal(bands[RISK_SERIOUS], 4);
    assert_int_equal(bands[RISK_MEDIUM], 8);
    assert_int_equal(bands[RISK_LOW], 3);
}

/* outside-check: the same cells follow from the older table of indices, 1 to 20, and its four bands
 * source: MIL-STD-882D (10 February 2000), Table A-III (the indices); that these four runs of them
 * are the bands, by 882E standing: VERIFIED, COMPUTED
 */
static void cells_from_the_older_indices(void **state)
{
    (void)state;
    static const int indices[5][4] = {
        {1, 3, 7, 13}, {2, 5, 9, 16}, {4, 6, 11, 18}, {8, 10, 14, 19}, {12, 15, 17, 20}};
    for (unsigned row = 0; row < 5; row++)
        for (unsigned column = 0; column < 4; column++) {
            int index = indices[row][column];
            risk_level band = index <= 5    ? RISK_HIGH
                              : index <= 9  ? RISK_SERIOUS
                              : index <= 17 ? RISK_MEDIUM
                                            : RISK_LOW;
            assert_int_equal(risk_of((risk_severity)column, (risk_probability)row), band);
        }
}

#define BOOK_BEGINS \
    "book:\n  title: Risks\n  roles: [anybody, expert]\n" \
    "questions:\n  works:\n    ask: Does it work?\n" \
    "symptoms:\n  dead:\n    text: It does not work\n    when: {works: no}\n" \
    "    shown-by: {broken: usually}\n" \
    "causes:\n  broken:\n    text: It is broken\n    how-often: common\n"

/* A book with a fix for each cell, named by its column and row: "fix-2-e". */
static tt_book *book_of_cells(void)
{
    char *text;
    size_t length;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    fprintf(out, BOOK_BEGINS "fixes:\n");
    for (unsigned row = 0; row < 6; row++)
        for (unsigned column = 0; column < 4; column++)
            fprintf(
                out,
                "  fix-%u-%c:\n    text: A fix\n    role: expert\n    cures: {broken: usually}\n"
                "    put-back: not needed\n    protect: [Gloves]\n    harm:\n"
                "      from: [chemicals]\n"
                "      unprotected: {worst: catastrophic, chance: frequent}\n"
                "      protected: {worst: %s, chance: %s}\n",
                column + 1, "abcdef"[row], worsts[column], chances[row]);
    assert_int_equal(fclose(out), 0);
    tt_book *book = small_book(text);
    free(text);
    return book;
}

static bool is_offered(const tt_view *v, uint32_t fix)
{
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (v->fixes[i].fix == fix) return true;
    return false;
}

/* outside-check: a fix of each cell shows its risk, lower before higher, and High is never offered
 * source: MIL-STD-882E (11 May 2012), Tables I to III, from two independent copies
 * standing: VERIFIED
 */
static void every_cell_as_a_fix(void **state)
{
    (void)state;
    tt_case *c;
    tt_book *book = book_of_cells();
    const tt_view *v;
    tt_fix_plan plan;
    char name[16];
    assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
    for (unsigned row = 0; row < 6; row++)
        for (unsigned column = 0; column < 4; column++) {
            snprintf(name, sizeof name, "fix-%u-%c", column + 1, "abcdef"[row]);
            uint32_t fix = tt_fix_find(book, name);
            assert_int_equal(tt_fix_show(c, fix, &plan), TT_OK);
            assert_string_equal(plan.name, name);
            assert_string_equal(plan.safety.risk, levels[printed(row, column)]);
            assert_string_equal(plan.safety.unprotected_risk, "high");
            assert_int_equal(tt_look(c, &v), TT_OK);
            assert_int_equal(is_offered(v, fix), printed(row, column) != RISK_HIGH);
        }
    assert_int_equal(v->fix_count, 19);
    unsigned before = RISK_LOW;
    for (uint32_t i = 0; i < v->fix_count; i++) {
        unsigned level = 0;
        while (strcmp(levels[level], v->fixes[i].risk) != 0) level++;
        assert_true(level >= before);
        before = level;
    }
    tt_case_free(c);
    tt_book_free(book);
}

/* ---- signal words ---- */

/* Names and places in the file go against the order of the words. */
static const char signals[] =
    BOOK_BEGINS "fixes:\n  mend:\n    text: Mend it\n    role: anybody\n    cures: {broken: "
                "usually}\n    harm: none\n"
                "    put-back: not needed\n"
                "rules:\n"
                "  a:\n    when: {works: no}\n    then:\n      caution:\n        signal: notice\n"
                "        text: The paint may suffer.\n"
                "  b:\n    when: {works: no}\n    then:\n      caution: The floor is wet.\n"
                "  c:\n    when: {works: no}\n    then:\n      caution:\n        signal: warning\n "
                "       holds: none\n"
                "        text: The belt can catch a sleeve.\n"
                "  d:\n    when: {works: no}\n    then:\n      caution:\n        signal: danger\n  "
                "      holds: none\n"
                "        text: The cable is live.\n";

static void write_file(const char *name, const char *text)
{
    FILE *out = fopen(name, "w");
    assert_non_null(out);
    fputs(text, out);
    assert_int_equal(fclose(out), 0);
}

/* What the program prints for `rank`, freed by the caller. */
static char *ranked(void)
{
    assert_int_equal(system("mkdir -p signals"), 0);
    write_file("signals/rules.yaml", signals);
    write_file("answers.yaml", "works: no\n");
    assert_int_equal(system("'" TT_PROGRAM "' rank signals answers.yaml >ranked 2>&1"), 0);
    char *text = calloc(1, 1 << 16);
    FILE *in = fopen("ranked", "r");
    assert_true(text != NULL && in != NULL);
    (void)!fread(text, 1, (1 << 16) - 1, in);
    fclose(in);
    return text;
}

/* outside-check: signal words by how grave they are: danger, warning, caution, notice
 * source: ANSI Z535.4-2007, by its wording on labels (our order follows from it)
 * standing: VERIFIED
 */
static void danger_stands_first(void **state)
{
    (void)state;
    static const char *const wanted[] = {
        "DANGER: The cable is live.", "WARNING: The belt can catch a sleeve.",
        "CAUTION: The floor is wet.", "NOTICE: The paint may suffer."};
    char *text = ranked();
    const char *at = text;
    for (int i = 0; i < 4; i++) {
        const char *found = strstr(at, wanted[i]);
        if (found == NULL) fail_msg("'%s' is not in its place:\n%s", wanted[i], text);
        at = found;
    }
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_cell),
        cmocka_unit_test(cells_from_the_older_indices),
        cmocka_unit_test(every_cell_as_a_fix),
        cmocka_unit_test(danger_stands_first),
    };
    return cmocka_run_group_tests_name("risk matrix", tests, NULL, NULL);
}
