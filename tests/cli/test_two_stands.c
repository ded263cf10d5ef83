/* The foam line's book at a site with two pump stands, each with a drum, a pump and rows of its
 * own. */
#include "run_telltale.h"

#define RULES TT_SOURCE_DIR "/rules/foam-line"
#define TWO   TT_SOURCE_DIR "/rules/foam-line-two-stands.yaml"

static int fresh(void **state)
{
    (void)state;
    setenv("RULES", RULES, 1);
    setenv("TWO", TWO, 1);
    return sh("rm -f out err typed one.yaml answers.yaml");
}

static void its_worked_cases_come_out(void **state)
{
    (void)state;
    assert_int_equal(sh("$T check $RULES --site $TWO >out 2>err"), 0);
    assert_holds("out", "No faults.");
    assert_int_equal(sh("$T try $RULES --site $TWO >out 2>err"), 0);
    assert_holds("out", "All 8 worked cases came out as expected.");
    assert_false(holds(
        "out", "No worked case touches")); /* one site's cases say nothing of the whole book */
    assert_int_equal(sh("$T try $RULES thin-foam-on-the-cloth --site $TWO >out 2>err"), 0);
    assert_holds("out", "The friction stand: The product drum is empty or nearly so");
}

static void say(const char *lines)
{
    assert_int_equal(sh("printf '%s' >typed", lines), 0);
    sh("$T ask $RULES --site $TWO --unsaved --plain <typed >out 2>err");
}

/* It is asked once at which stand, then about that one; what is told of a gauge is told of its
 * gauge. */
static void a_call_is_about_one_stand(void **state)
{
    (void)state;
    say("no\\nthe foam is too wet\\n2\\nfoam air 12 psi\\n");
    assert_holds("out", "Which pump stand is it?");
    assert_holds("out", "Understood: The friction stand: What does the foam-air gauge read while "
                        "foam is on? 12 psi.");
    assert_holds("out", "20 psi is good here; it is 12 psi now."); /* the friction stand's mark, not
                                                                      the foam stand's */
    assert_false(holds("out", "The foam stand:"));
}

/* Nothing English among the Spanish, not where the book leaves yes and no to us either. */
static void a_call_in_spanish_is_all_spanish(void **state)
{
    (void)state;
    assert_int_equal(sh("printf '1\\nla espuma sale seca\\n1\\n1\\n' >typed"), 0);
    sh("$T ask $RULES --site $TWO --language es --unsaved --plain <typed >out 2>err");
    assert_holds("out", "\xC2\xBFQu\xC3\xA9 tablero de bomba es?");
    assert_int_equal(sh("printf '1\\nno sale espuma atras\\n1\\n1\\n1\\n' >typed"), 0);
    sh("$T ask $RULES --site $TWO --language es --unsaved --plain <typed >out 2>err");
    assert_holds("out", "en el mismo lugar en cada carro?");
    assert_holds("out", " 1  S\xC3\xAD\n 2  No\n");
    assert_false(holds("out", "Yes"));
}

/* Which gauge is asked back of that stand's alone; not knowing goes on. */
static void what_is_asked_back_is_of_that_stand(void **state)
{
    (void)state;
    say("no\\nthe foam is too wet\\n2\\nair 12 psi\\nunsure\\n");
    assert_holds("out", "2  The friction stand: What does the pump-air gauge read while foam is "
                        "on?\n 3  None of these");
    assert_int_equal(sh("test $(grep -c 'Which is meant by' out) -eq 1"), 0);
    say("no\\nthe foam is too wet\\n1\\nair 12 psi\\nfoam air 12 psi\\n");
    assert_int_equal(sh("test $(grep -c 'Which is meant by' out) -eq 1"), 0);
}

static unsigned questions_asked(const char *whose, const char *site)
{
    unsigned count = 0;
    assert_int_equal(sh("printf 'danger: safe\\nfoam-look%s: runny\\n' >answers.yaml", whose), 0);
    sh("yes unsure | head -16 | $T ask $RULES --answers answers.yaml --site %s --unsaved --plain "
       ">out 2>err",
       site);
    sh("grep -c '^Question' out >count");
    FILE *f = fopen("count", "r");
    assert_non_null(f);
    assert_int_equal(fscanf(f, "%u", &count), 1);
    fclose(f);
    return count;
}

/* A second stand does not double what a beginner hears. */
static void no_call_is_twice_as_long(void **state)
{
    (void)state;
    const unsigned one = questions_asked("", "$RULES/site.yaml"),
                   two = questions_asked(" of foam-stand", "$TWO");
    assert_true(one >= 5);
    if (two * 2 > one * 3) fail_msg("%u questions with one stand, %u with two", one, two);
}

/* A word of its own name, or of a row that hangs on it, says which; a word that both have does not.
 */
static void a_word_of_its_name_says_which(void **state)
{
    (void)state;
    static const struct {
        const char *said, *at;
    } rows[] = {{"friction", "The friction stand"},
                {"the friction row", "The friction stand"},
                {"friction stand", "The friction stand"},
                {"the wrap", "The friction stand"},
                {"the left row", "The foam stand"},
                {"not the friction", NULL},
                {"the stand", NULL}};
    char lines[128], first[64];
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        snprintf(lines, sizeof lines, "no\\nthe foam is too wet\\n%s\\n", rows[i].said);
        say(lines);
        assert_holds("out", "Which pump stand is it?");
        snprintf(first, sizeof first, "%s: ", rows[i].at == NULL ? "none" : rows[i].at);
        if (rows[i].at == NULL)
            assert_holds("out", "That is none of the answers.");
        else
            assert_holds("out", first);
    }
    say("no\\nthe foam is runny on the friction row\\n1\\n");
    assert_false(holds("out", "Which pump stand is it?"));
    assert_holds("out", "The friction stand: ");
    say("no\\nno foam on the friction\\n1\\n");
    assert_false(holds("out", "Which pump stand is it?"));
    say("no\\nthe foam is too wet at the stand\\n1\\n");
    assert_holds("out", "Which pump stand is it?");
    say("no\\nthe foam is too wet, not on the friction\\n1\\n");
    assert_holds("out", "Which pump stand is it?");
}

/* Named or not, one stand alone is the same. */
static void one_stand_named_is_the_one_that_goes_unnamed(void **state)
{
    (void)state;
    assert_int_equal(sh("sed 's/^    station:/    stand: {main: {text: {en: the old stand, es: el "
                        "tablero viejo}}}\\n    station:/' $RULES/site.yaml >one.yaml && "
                        "! cmp -s one.yaml $RULES/site.yaml"),
                     0);
    assert_int_equal(sh("printf 'foam-look: stiff\\nfoam-air: 55 psi\\n' >answers.yaml"), 0);
    assert_int_equal(sh("$T rank $RULES answers.yaml --site one.yaml --json 2>err | grep -v -e "
                        "revision -e '\"at\":' >named"),
                     0);
    assert_int_equal(sh("$T rank $RULES answers.yaml --site $RULES/site.yaml --json 2>err | grep "
                        "-v -e revision -e '\"at\":' >unnamed; cmp named unnamed"),
                     0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(its_worked_cases_come_out, fresh),
        cmocka_unit_test_setup(a_call_is_about_one_stand, fresh),
        cmocka_unit_test_setup(a_call_in_spanish_is_all_spanish, fresh),
        cmocka_unit_test_setup(what_is_asked_back_is_of_that_stand, fresh),
        cmocka_unit_test_setup(a_word_of_its_name_says_which, fresh),
        cmocka_unit_test_setup(no_call_is_twice_as_long, fresh),
        cmocka_unit_test_setup(one_stand_named_is_the_one_that_goes_unnamed, fresh),
    };
    return cmocka_run_group_tests_name("two pump stands", tests, NULL, NULL);
}
