/* Memory ends at every place in turn while formulas are read and written again: no crash, no leak,
 * and the way out is the guard. */
#include "testing.h"

#include <stdlib.h>

#include "failing_memory.h"
#include "measure/formula.h"
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

typedef enum ending { READ, READ_OTHERWISE, NO_MEMORY } ending;

static ending attempt(const memory_source *memory, const char *text, str wanted)
{
    guard way_out;
    arena *volatile keep = NULL, *volatile scratch = NULL;
    if (setjmp(way_out.place)) {
        arena_free(keep);
        arena_free(scratch);
        return NO_MEMORY;
    }
    keep = arena_new(memory, &way_out);
    scratch = keep == NULL ? NULL : arena_new(memory, &way_out);
    if (scratch == NULL) {
        arena_free(keep);
        return NO_MEMORY;
    }
    bool same = str_eq(outcome(keep, scratch, text), wanted);
    arena_free(keep);
    arena_free(scratch);
    return same ? READ : READ_OTHERWISE;
}

static size_t sweep(const char *text, bool from_then_on)
{
    arena *keep = test_arena(), *scratch = test_arena();
    str wanted = outcome(keep, scratch, text);
    ending last = NO_MEMORY;
    size_t n = 0;
    while (last == NO_MEMORY) {
        failing_memory m = {.fail_at = ++n, .from_then_on = from_then_on};
        memory_source memory = failing_memory_source(&m);
        last = attempt(&memory, text, wanted);
        assert_int_equal(m.live, 0);
        if ((last == NO_MEMORY) != (m.failures > 0))
            fail_msg("'%s', taking %zu: %s", text, n, last == NO_MEMORY ? "left" : "read");
    }
    if (last != READ) fail_msg("'%s' is read otherwise", text);
    arena_free(keep);
    arena_free(scratch);
    return n;
}

static void memory_runs_out(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        for (int from_then_on = 0; from_then_on < 2; from_then_on++)
            assert_true(sweep(texts[i], from_then_on == 1) > 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(memory_runs_out)};
    return cmocka_run_group_tests_name("allocation while reading formulas", tests, NULL, NULL);
}
