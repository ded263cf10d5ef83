/* Memory ends at every place in turn while formulas are read and written again: no crash, no leak,
 * and the way out is the guard. */
#include "testing.h"

#include <stdlib.h>

#include "measure/formula.h"
#include "memory_sweep.h"
#include "test_sources.h"

static const char *const texts[] = {
    "cut-in + 2 psi",
    "29.83 gal/min/in^2 * share * 2.5 in * 2.5 in * sqrt(cut-in / 1 psi)",
    "max(drop of every filter, mean(cut-in, 3 bar) - 1/2 psi) * 1:50",
    "a + b + c + d + e + f + g + h + i + j + k + l + m + n + o + p + q + r",
    "batch + 8 oz",
    "cut-in -5 psi",
    "cut-in + 3 psl",
    "cut-in + 30 min",
    "max(3,1)",
    "maxx(cut-in, cut-in)",
    "Cut_In \xC3\x97 2",
    "sqrt(cut-in)",
    "2 * drop of every filter",
};

typedef struct names {
    formula_input inputs[2];
    unit pressure, volume;
} names;

static bool look_up(void *context, str name, uint32_t from, uint32_t to,
                    const formula_input **inputs, uint32_t *count)
{
    names *n = context;
    assert_true(from < to);
    bool many = str_find(name, STR("every")) != SIZE_MAX;
    *count = many ? 2 : 1;
    *inputs = n->inputs;
    uint32_t subject = name.n == 1 ? (uint32_t)(unsigned char)name.p[0] : 1000;
    unit u = str_is(name, "share") ? unit_none : str_is(name, "batch") ? n->volume : n->pressure;
    for (uint32_t i = 0; i < 2; i++) n->inputs[i] = (formula_input){subject + i, u};
    return true;
}

static str name_of(void *context, uint32_t subject)
{
    (void)context;
    (void)subject;
    return STR("name");
}

/* What comes of one text: the formula written again, or what is wrong with it. */
static str outcome(arena *keep, arena *scratch, const char *text)
{
    names n = {.volume = unit_none};
    str bad;
    unit_read(scratch, STR("psi"), NULL, &n.pressure, &bad);
    unit_read(scratch, STR("gal"), NULL, &n.volume, &bad);
    formula_error error;
    const formula *f = formula_parse(keep, scratch, str_of(text), look_up, &n, &error);
    if (f != NULL) return formula_words(keep, f, name_of, NULL);
    return str_printf(keep, "%u %u %s %s", error.from, error.to, error.what, error.help);
}

typedef struct reading {
    const char *text;
    str wanted;
} reading;

static bool reads_alike(void *of, arena *keep, arena *scratch)
{
    const reading *r = of;
    return str_eq(outcome(keep, scratch, r->text), r->wanted);
}

static void memory_runs_out(void **state)
{
    (void)state;
    arena *keep = test_arena(), *scratch = test_arena();
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        reading r = {texts[i], outcome(keep, scratch, texts[i])};
        print_message("%s\n", r.text);
        memory_sweeps(reads_alike, &r);
    }
    arena_free(keep);
    arena_free(scratch);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(memory_runs_out)};
    return cmocka_run_group_tests_name("allocation while reading formulas", tests, NULL, NULL);
}
