/* Book to program: readings cut where conditions cut them, symptoms expanded to what people answer.
 */
#include "testing.h"

#include "base/faults.h"
#include "compile/program.h"
#include "load/nodes.h"
#include "read/book_read.h"
#include "test_sources.h"

static const char head[] = "book:\n  title: T\n  roles: [helper]\n"
                           "causes:\n  c:\n    text: C\n    how-often: common\n"
                           "fixes:\n  f:\n    text: F\n    role: helper\n    cures: {c: often}\n   "
                           " harm: none\n    put-back: not needed\n";

typedef struct built {
    arena *keep, *scratch;
    sources files;
    faults *list;
    const book *book;
    const program *prog;
} built;

static built build(str rules)
{
    built b = {test_arena(), test_arena(), {0}, NULL, NULL, NULL};
    b.files = sources_from_texts(b.keep, "head.yaml", head, "rules.yaml", rules.p, (char *)NULL);
    b.list = faults_new(b.keep);
    const node *const *roots = load_sources(b.keep, b.scratch, &b.files, b.list);
    b.book = book_read(b.keep, b.scratch, &b.files, NO_FILE, roots, b.list);
    if (b.book == NULL) print_error("%s", faults_text(b.list, b.keep, &b.files, 0).p);
    assert_non_null(b.book);
    b.prog = program_build(b.keep, b.scratch, b.book, b.list);
    return b;
}

static void drop(built *b)
{
    arena_free(b->scratch);
    arena_free(b->keep);
}

static void assert_fault(built *b, fault_code code, const char *text)
{
    uint32_t count;
    const fault *all = faults_sorted(b->list, b->scratch, &count);
    for (uint32_t i = 0; i < count; i++)
        if (all[i].code == code) {
            assert_str(all[i].text, text);
            return;
        }
    fail_msg("no %s", fault_id(code));
}

/* below and above leave the number out; at least, at most and ranges take it in. */
static void edges_fall_as_the_language_says(void **state)
{
    (void)state;
    built b = build(
        STR("questions:\n  air:\n    ask: Air?\n    reading: pressure\n    unit: psi\n    usual: "
            "20 to 40 psi\n"
            "symptoms:\n"
            "  low:\n    text: L\n    when: {air: below 20 psi}\n    shown-by: {c: often}\n"
            "  high:\n    text: H\n    when: {air: above 40 psi}\n    shown-by: {c: seldom}\n"
            "  middle:\n    text: M\n    when: {air: 20 to 40 psi}\n    shown-by: {c: seldom}\n"));
    assert_non_null(b.prog);
    uint32_t air = book_question(b.book, STR("air"));
    assert_int_equal(program_states(b.prog, air), 3);
    assert_int_equal(program_state_of(b.prog, air, 19.99), 0);
    assert_int_equal(program_state_of(b.prog, air, 20), 1);
    assert_int_equal(program_state_of(b.prog, air, 40), 1);
    assert_int_equal(program_state_of(b.prog, air, 40.01), 2);
    assert_int_equal(b.prog->evidence->in.findings[air].usual, 1);
    drop(&b);
}

static void both_sides_of_one_number_make_a_state_of_it(void **state)
{
    (void)state;
    built b = build(
        STR("questions:\n  air:\n    ask: Air?\n    reading: pressure\n    unit: psi\n"
            "symptoms:\n"
            "  low:\n    text: L\n    when: {air: below 20 psi}\n    shown-by: {c: often}\n"
            "  high:\n    text: H\n    when: {air: above 20 psi}\n    shown-by: {c: seldom}\n"));
    assert_non_null(b.prog);
    uint32_t air = book_question(b.book, STR("air"));
    assert_int_equal(program_states(b.prog, air), 3);
    assert_int_equal(program_state_of(b.prog, air, 20), 1);
    uint32_t middle[] = {1};
    for (uint32_t s = 0; s < 2; s++)
        assert_false(expr_holds(b.prog->evidence->in.symptoms[s].when, middle));
    drop(&b);
}

static void a_symptom_on_a_conclusion_rests_on_the_questions_beneath(void **state)
{
    (void)state;
    built b =
        build(STR("questions:\n  p:\n    ask: P?\n  q:\n    ask: Q?\n"
                  "conclusions:\n  k:\n    text: K\n"
                  "rules:\n"
                  "  one:\n    when: {p: yes}\n    then:\n      set: {k: yes}\n"
                  "  two:\n    when: {q: yes}\n    then:\n      set: {k: yes}\n"
                  "symptoms:\n  s:\n    text: S\n    when: {k: yes}\n    shown-by: {c: often}\n"));
    assert_non_null(b.prog);
    assert_int_equal(b.prog->evidence->component_count, 1);
    assert_int_equal(b.prog->evidence->components[0].finding_count, 2);
    for (uint32_t cell = 0; cell < 4; cell++) {
        uint32_t answers[] = {cell / 2, cell % 2};
        assert_int_equal(expr_holds(b.prog->evidence->in.symptoms[0].when, answers), cell != 0);
    }
    drop(&b);
}

/* k follows from p, or from k itself: the loop adds nothing, so s holds just when p does. */
static void a_loop_without_negation_adds_nothing(void **state)
{
    (void)state;
    built b =
        build(STR("questions:\n  p:\n    ask: P?\n"
                  "conclusions:\n  k:\n    text: K\n"
                  "rules:\n"
                  "  one:\n    when: {p: yes}\n    then:\n      set: {k: yes}\n"
                  "  two:\n    when: {k: yes}\n    then:\n      set: {k: yes}\n"
                  "symptoms:\n  s:\n    text: S\n    when: {k: yes}\n    shown-by: {c: often}\n"));
    assert_non_null(b.prog);
    for (uint32_t p = 0; p < 2; p++)
        assert_int_equal(expr_holds(b.prog->evidence->in.symptoms[0].when, &p), p);
    drop(&b);
}

static void too_many_numbers_for_one_reading(void **state)
{
    (void)state;
    arena *keep = test_arena();
    text_builder t = {.keep = keep};
    text_addf(&t,
              "questions:\n  air:\n    ask: Air?\n    reading: pressure\n    unit: psi\nrules:\n");
    for (int i = 1; i <= 64; i++)
        text_addf(&t, "  r%d:\n    when: {air: below %d psi}\n    then:\n      caution: Low.\n", i,
                  i);
    built b = build(text_done(&t));
    assert_null(b.prog);
    assert_fault(
        &b, FAULT_READING_TOO_FINE,
        "The conditions judge 'air' by 64 different numbers; at most 63 can be told apart.");
    drop(&b);
    arena_free(keep);
}

/* Each conclusion doubles what the next one rests on. */
static void a_chain_that_doubles_ends_in_a_fault(void **state)
{
    (void)state;
    arena *keep = test_arena();
    text_builder t = {.keep = keep};
    text_addf(&t, "questions:\n  p:\n    ask: P?\nconclusions:\n  k0:\n    text: K\n");
    for (int i = 1; i <= 40; i++) text_addf(&t, "  k%d:\n    text: K\n", i);
    text_addf(&t, "rules:\n  r0:\n    when: {p: yes}\n    then:\n      set: {k0: yes}\n");
    for (int i = 1; i <= 40; i++)
        for (int twice = 0; twice < 2; twice++)
            text_addf(&t, "  r%d-%d:\n    when: {k%d: yes}\n    then:\n      set: {k%d: yes}\n", i,
                      twice, i - 1, i);
    text_addf(&t, "symptoms:\n  s:\n    text: S\n    when: {k40: yes}\n    shown-by: {c: often}\n");
    built b = build(text_done(&t));
    assert_null(b.prog);
    assert_fault(
        &b, FAULT_SYMPTOM_TOO_LONG,
        "The symptom 's' rests on rules that rest on rules, more than 4096 conditions in all.");
    drop(&b);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(edges_fall_as_the_language_says),
        cmocka_unit_test(both_sides_of_one_number_make_a_state_of_it),
        cmocka_unit_test(a_symptom_on_a_conclusion_rests_on_the_questions_beneath),
        cmocka_unit_test(a_loop_without_negation_adds_nothing),
        cmocka_unit_test(too_many_numbers_for_one_reading),
        cmocka_unit_test(a_chain_that_doubles_ends_in_a_fault),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
