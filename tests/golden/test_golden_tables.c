/* Component tables of the golden cases. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "golden_model.h"
#include "test_sources.h"

typedef struct fixture {
    arena *keep, *scratch;
} fixture;

static int set_up(void **state)
{
    static fixture f;
    f.keep = arena_new(NULL, NULL);
    f.scratch = arena_new(NULL, NULL);
    *state = &f;
    return 0;
}

static int tear_down(void **state)
{
    fixture *f = *state;
    arena_free(f->keep);
    arena_free(f->scratch);
    return 0;
}

static void check_whole(const json_t *expected, const uint32_t *got, uint32_t count)
{
    assert_int_equal(json_array_size(expected), count);
    for (uint32_t i = 0; i < count; i++)
        assert_int_equal(json_integer_value(json_array_get(expected, i)), got[i]);
}

static void check_component(const json_t *expected, const component *g, uint32_t causes)
{
    double tolerance = g->finding_count > 1 ? 1e-11 : 1e-12;
    check_whole(golden_at(expected, "findings"), g->findings, g->finding_count);
    check_whole(golden_at(expected, "cell_atom"), g->cell_atom, g->cell_count);
    assert_int_equal(json_integer_value(golden_at(expected, "usual_atom")), g->usual_atom);
    golden_check(golden_at(expected, "within_atom"), g->within, g->cell_count, 1e-12);
    golden_check(golden_at(expected, "base"), g->base, g->atom_count, tolerance);
    golden_check(golden_at(expected, "P_given_other"), g->other, g->atom_count, tolerance);
    const json_t *rows = golden_at(expected, "P_given_cause");
    assert_int_equal(json_array_size(rows), causes);
    for (uint32_t c = 0; c < causes; c++)
        golden_check(json_array_get(rows, c), component_row(g, c), g->atom_count, tolerance);
}

static void check_case(void **state, const char *name)
{
    fixture *f = *state;
    golden g = golden_load(f->keep, name);
    const net *n = net_build(f->keep, f->scratch, &g.in, NULL);
    const json_t *components = golden_at(g.root, "components");
    assert_int_equal(json_array_size(components), n->component_count);
    for (uint32_t i = 0; i < n->component_count; i++)
        check_component(json_array_get(components, i), &n->components[i], g.in.cause_count);
    golden_free(&g);
}

static void tables_of_answers_that_exclude_each_other(void **state)
{
    check_case(state, "g1_k1_categorical");
}

static void tables_with_a_usual_state_and_mixed_reliability(void **state)
{
    check_case(state, "g2_soft_answers");
}

static void tables_of_two_state_findings(void **state)
{
    check_case(state, "g3_k2_noisy_or");
}

static void tables_of_six_symptoms_over_three_findings(void **state)
{
    check_case(state, "g4_compound");
}

static void tables_without_a_usual_state(void **state)
{
    check_case(state, "g5_decisions");
}

/* A case put into the folder is checked without being named here. */
static void every_case_in_the_folder(void **state)
{
    fixture *f = *state;
    file_names found = files_ending(f->keep, TT_SOURCE_DIR "/tests/golden/data", ".json");
    assert_true(found.count >= 5);
    for (size_t i = 0; i < found.count; i++)
        check_case(state, str_copy(f->keep, str_slice(found.items[i], 0, found.items[i].n - 5)).p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(tables_of_answers_that_exclude_each_other, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(tables_with_a_usual_state_and_mixed_reliability, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(tables_of_two_state_findings, set_up, tear_down),
        cmocka_unit_test_setup_teardown(tables_of_six_symptoms_over_three_findings, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(tables_without_a_usual_state, set_up, tear_down),
        cmocka_unit_test_setup_teardown(every_case_in_the_folder, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
