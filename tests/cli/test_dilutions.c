/* A strength that is read as 1:N goes whole wherever it is told on: from a round into the case of
 * the fault, into the site's file, and back to whoever changes it. */
#include "run_telltale.h"

#define MIXING TT_SOURCE_DIR "/tests/cli/mixing"

static int afresh(void **state)
{
    (void)state;
    return sh("rm -rf kept && printf 'site:\\n  title: North\\n  answers:\\n    mix-set: 1:50\\n' "
              ">site.yaml");
}

static void assert_lacks(const char *path, const char *part)
{
    if (holds(path, part)) fail_msg("%s has \"%s\"", path, part);
}

static void a_round_hands_it_on_to_the_case_of_the_fault(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'no\\n1:180\\n1\\nno\\nknown\\nstop\\n' | $T round '" MIXING
                        "' --site site.yaml --cases kept --plain >out 2>err"),
                     3);
    assert_int_equal(sh("sed -n '/^> 1$/,$p' out >after"), 0);
    assert_holds("after", "How strong is the mix? 1:180");
    assert_lacks("after", "1:N");
}

static void it_goes_into_the_sites_file(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'tip: 1:20\\nmix: 1:180\\n' >told.yaml; "
                        "printf 'no\\nbegin\\ndone\\n1\\n1\\nyes\\n' | $T ask '" MIXING
                        "' --site site.yaml --answers told.yaml --cases kept --plain >out 2>err"),
                     0);
    assert_holds("out", "How much does the tip add here? 1:20");
    assert_holds("site.yaml", "tip: {value: \"1:20\", source:");
    assert_holds("site.yaml", "mix-set: 1:50");
}

static void a_change_is_said_back(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf 'no\\nit is weak\\n1:180\\nchange\\n1\\n1:60\\nstop\\n' | $T ask '" MIXING
           "' --site site.yaml --cases kept --plain >out 2>err"),
        3);
    assert_holds("out", "It was: 1:180. Now: 1:60.");
    assert_int_equal(sh("grep -q '\"words\":\"1:60\"' kept/*/*/*/*.jsonl"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_round_hands_it_on_to_the_case_of_the_fault, afresh),
        cmocka_unit_test_setup(it_goes_into_the_sites_file, afresh),
        cmocka_unit_test_setup(a_change_is_said_back, afresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
