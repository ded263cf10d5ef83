/* A sheet of the foam book in the hands of an attendant: it leads into none of the hazards that a
 * call doesn't. */
#include "run_telltale.h"

#define RULES TT_SOURCE_DIR "/rules/foam-line"

static int fresh(void **state)
{
    (void)state;
    setenv("RULES", RULES, 1);
    return sh("rm -rf cases out err sheet hoja answers.yaml");
}

/* A case from these answers, and its sheet in both languages. */
static void sheet_of(const char *answers)
{
    assert_int_equal(sh("printf '%s' >answers.yaml", answers), 0);
    sh("$T ask $RULES --practice --cases cases --answers answers.yaml --no-input --plain >out "
       "2>err");
    assert_int_equal(sh("n=$(sed -n 's/.*--case \\([0-9A-Z]*\\).*/\\1/p' out) && $T sheet $n "
                        "--cases cases --plain >sheet 2>err && "
                        "$T sheet $n --cases cases --plain --language es >hoja 2>err"),
                     0);
}

static void comes_before(const char *file, const char *first, const char *second)
{
    if (sh("a=$(grep -nm1 -F '%s' %s | cut -d: -f1); b=$(grep -nm1 -F '%s' %s | cut -d: -f1); test "
           "-n \"$a\" && test -n \"$b\" && test $a -lt $b",
           first, file, second, file) != 0)
        fail_msg("%s: '%s' does not come before '%s'", file, first, second);
}

/* "Change the drum" while the label is another's. */
static void a_wrong_label_is_read_before_anything_to_do(void **state)
{
    (void)state;
    sheet_of("danger: safe\\nfoam-look: liquid\\ndrum-level: bare\\ndrum-label: no\\n");
    comes_before("sheet", "WARNING: Two products in one hose can react.", "What comes next");
    comes_before("hoja", "ADVERTENCIA: Dos productos en una manguera", "Lo que sigue");
    assert_false(holds("hoja", "WARNING"));
    assert_false(holds("sheet", "Change the empty drum"));
}

/* Whoever reads it later has ruled nothing out. */
static void danger_is_asked_first(void **state)
{
    (void)state;
    sheet_of("danger: safe\\nfoam-look: stiff\\nfoam-air: 120 psi\\nfoam-air-holds: yes\\n");
    comes_before("sheet", "First ask: Is anything dangerous going on right now?",
                 "Turn the foam air down");
    comes_before("hoja", "Primero pregunte:", "Bajar el aire de espuma");
    assert_holds("hoja", "Siga solo si la respuesta es: No, nada de eso.");
}

/* While danger stands, no line says to do anything at the stand. */
static void while_danger_stands_nothing_is_to_be_done(void **state)
{
    (void)state;
    sheet_of("danger: spraying\\nfoam-look: stiff\\nfoam-air: 120 psi\\n");
    assert_holds("sheet", "STOP: Press the nearest stop button.");
    assert_false(holds("sheet", "turn it down before"));
    assert_holds("sheet", "Nothing is to be tried until danger is ruled out.");
    assert_false(holds("sheet", "First ask:"));
}

/* A limit that the book leaves out is left out on paper, too, in words; sheet and handbook say the
 * same. */
static void a_safe_range_is_told_with_its_ends(void **state)
{
    static const struct {
        const char *safe, *words, *palabras;
    } rows[] = {
        {"below 10 %%", "below 10 %", "menos de 10 %"},
        {"at most 10 %%", "at most 10 %", "como máximo 10 %"},
        {"above 18 %%", "above 18 %", "más de 18 %"},
        {"at least 18 %%", "at least 18 %", "como mínimo 18 %"},
        {"5 %% to 10 %%", "at least 5 % and at most 10 %", "como mínimo 5 % y como máximo 10 %"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char lines[2][128];
        assert_int_equal(
            sh("rm -rf shaft cases && mkdir shaft && printf 'book:\\n  title: Shaft\\n  roles: "
               "[helper]\\nquestions:\\n  gas:\\n    ask: What does the gas meter read?\\n    "
               "about: "
               "today\\n    reading: ratio\\n    unit: \"%%%%\"\\n    plausible: 0 %%%% to 100 "
               "%%%%\\n    safe: %s\\n  sound:\\n    ask: Does it hum?\\n    usual: "
               "no\\nsymptoms:\\n  hums:\\n    text: It hums\\n    when: {sound: yes}\\n    "
               "shown-by: "
               "{worn: often}\\ncauses:\\n  worn:\\n    text: Worn\\nfixes:\\n  turn:\\n    text: "
               "Turn it\\n    role: helper\\n    cures: {worn: usually}\\n    takes: 3 min\\n    "
               "harm: none\\n    put-back: Back\\n' >shaft/book.yaml",
               rows[i].safe),
            0);
        assert_int_equal(sh("$T handbook shaft >book 2>err"), 0);
        snprintf(lines[0], sizeof lines[0], "Go on only if the answer is: %s", rows[i].words);
        snprintf(lines[1], sizeof lines[1], "Siga solo si la respuesta es: %s", rows[i].palabras);
        assert_holds("book", lines[0]);
        sh("printf 'sound: yes\\n' >answers.yaml; $T ask shaft --practice --cases cases --answers "
           "answers.yaml --no-input --plain >out 2>err");
        assert_int_equal(
            sh("n=$(sed -n 's/.*--case \\([0-9A-Z]*\\).*/\\1/p' out) && $T sheet $n "
               "--cases cases --plain >sheet 2>err && $T sheet $n --cases cases --plain "
               "--language es >hoja 2>err"),
            0);
        assert_holds("sheet", lines[0]);
        assert_holds("hoja", lines[1]);
    }
}

/* What a file of answers says is wrong is said as well as what somebody types; one without it says
 * nothing of that. */
static void what_a_file_says_is_wrong_is_told(void **state)
{
    (void)state;
    fresh(state);
    sh("printf 'complaint: foam-too-dry\nanswers: {foam-look: stiff}\n' >answers.yaml");
    sh("printf 'no\nstop\n' | $T ask '" TT_SOURCE_DIR "/rules/foam-line' --answers answers.yaml "
       "--practice --cases cases >out 2>err");
    assert_int_equal(sh("$T sheet cases/*/*/* >sheet 2>err"), 0);
    assert_holds("sheet", "## What is wrong\n\nanswers.yaml: The foam is too dry\n");
    assert_holds("sheet", "| Answers came in a file | answers.yaml: The foam is too dry |");
    assert_int_equal(sh("$T cases --cases cases >out 2>err"), 0);
    assert_holds("out", ": The foam is too dry. ");
    assert_int_equal(sh("$T sheet cases/*/*/* --language es >hoja 2>err"), 0);
    assert_holds("hoja", "answers.yaml: La espuma est\xC3\xA1 muy seca");
    sh("rm -rf cases; printf 'answers: {foam-look: stiff}\n' >answers.yaml");
    sh("printf 'no\nstop\n' | $T ask '" TT_SOURCE_DIR "/rules/foam-line' --answers answers.yaml "
       "--practice --cases cases >out 2>err");
    assert_int_equal(sh("$T sheet cases/*/*/* >sheet 2>err"), 0);
    assert_holds("sheet", "Nobody has said yet what is wrong");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_a_file_says_is_wrong_is_told),
        cmocka_unit_test_setup(a_wrong_label_is_read_before_anything_to_do, fresh),
        cmocka_unit_test_setup(danger_is_asked_first, fresh),
        cmocka_unit_test_setup(while_danger_stands_nothing_is_to_be_done, fresh),
        cmocka_unit_test_setup(a_safe_range_is_told_with_its_ends, fresh),
    };
    return cmocka_run_group_tests_name("sheets and hazards", tests, NULL, NULL);
}
