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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_wrong_label_is_read_before_anything_to_do, fresh),
        cmocka_unit_test_setup(danger_is_asked_first, fresh),
        cmocka_unit_test_setup(while_danger_stands_nothing_is_to_be_done, fresh),
    };
    return cmocka_run_group_tests_name("sheets and hazards", tests, NULL, NULL);
}
