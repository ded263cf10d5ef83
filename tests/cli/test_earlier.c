/* History first: a new case at a site is told what the earlier ones with the same complaint came
 * to, and can go on in one of them; in every face. */
#include "run_telltale.h"

#define BOOK  TT_SOURCE_DIR "/tests/cli/filtered-well"
#define SITES "sites/" /* copies: what is answered of a site may be written into its file */
#define CURED \
    "no\\nshort " \
    "cycling\\n1\\nnone\\n1\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndon" \
    "e\\nunsure\\ngone\\n1\\n"
/* The third time, one more thing is asked before the same is done again. */
#define CURED_AGAIN \
    "no\\nshort " \
    "cycling\\n1\\nnone\\n2\\n1\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\" \
    "ndon" \
    "e\\nunsure\\ngone\\n1\\n"
#define TOLD_FIRST \
    "no\\nshort " \
    "cycling\\n1\\n1\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\nuns" \
    "ure\\ngone\\n1\\n"

static int fresh(void **state)
{
    (void)state;
    return sh("chmod -R u+w sites 2>/dev/null; rm -rf cases sites out err number && mkdir cases && "
              "cp -r '" TT_SOURCE_DIR
              "/tests/cli/filtered-well-sites' sites && chmod -R u+w sites");
}

static int call(const char *site, const char *lines, const char *options)
{
    return sh("printf '%s' | $T ask " BOOK " --site " SITES "%s.yaml --cases cases %s >out 2>err",
              lines, site, options);
}

static void told(const char *text)
{
    assert_holds("out", text);
}

static void not_told(const char *text)
{
    assert_false(holds("out", text));
}

static void number_of_open_case(void)
{
    assert_int_equal(
        sh("$T cases cases --state open --json | sed 's/.*\"case\":\"\\([^\"]*\\).*/\\1/' "
           "| head -1 >number && test -s number"),
        0);
}

static void the_fourth_of_the_same_is_told(void **state)
{
    (void)state;
    assert_int_equal(call("farm", TOLD_FIRST, ""), 0);
    not_told("The same trouble here");
    assert_int_equal(call("farm", CURED, ""), 0);
    assert_int_equal(call("farm", CURED_AGAIN, ""), 0);
    assert_int_equal(call("farm", "no\\nshort cycling\\n1\\nstop\\n", ""), 3);
    told("The same trouble here: 4 times in one day, with this one.");
    told("Charge the tank with air. It helped.");
    told("That fix has ended 3 of these cases, and the trouble came again.");
    assert_int_equal(call("garden", "no\\nshort cycling\\n1\\nstop\\n", ""), 3); /* another site */
    not_told("The same trouble here");
    assert_int_equal(call("farm", "no\\n2\\nstop\\n", ""), 3); /* another trouble */
    not_told("The same trouble here");
}

/* Days apart: the records say when, and a program may say it. */
static void days_are_counted(void **state)
{
    (void)state;
    assert_int_equal(call("farm", TOLD_FIRST, ""), 0);
    assert_int_equal(sh("printf '%%s\\n' '{\"version\":2,\"begin\":{\"now\":\"'$(date -d '+8 days "
                        "12 hours' -Iseconds)'\"}}' "
                        "'{\"choice\":\"no\"}' '{\"choice\":\"short-cycling\"}' | $T ask " BOOK
                        " --site " SITES "farm.yaml --cases cases --json >out 2>err"),
                     3);
    told("The same trouble here: 2 times in 9 days, with this one.");
    told("\"kind\":\"past\"");
    told("\"kind\":\"earlier\"");
    told("\"name\":\"back-");
}

static void an_open_one_is_offered_and_goes_on(void **state)
{
    (void)state;
    assert_int_equal(call("farm", "no\\nshort cycling\\n1\\nstop\\n", "--name east"), 3);
    number_of_open_case();
    assert_int_equal(call("farm", "no\\nshort cycling\\n1\\n1\\nno\\nstop\\n",
                          "--name west --caller 'north gate'"),
                     3);
    told("Is it one of these cases?");
    told(", with east: It starts and stops every few seconds");
    assert_int_equal(sh("grep -q \"^Case number: $(cat number)\" out"), 0);
    assert_int_equal(
        sh("$T cases cases --state elsewhere --json >one && test $(wc -l <one) = 1 && "
           "$T cases cases --state open --json --contact >one && test $(wc -l <one) = 1 && "
           "grep -q 'north gate' one && test $(find cases -name contact.json | wc -l) = 1"),
        0);
    assert_int_equal(
        sh("grep -h '\"close\"' -r cases | grep -q \"\\\"case\\\":\\\"$(cat number)\\\"\""), 0);
    /* What went on elsewhere is no case of its own. */
    assert_int_equal(call("farm", "no\\nshort cycling\\n1\\nstop\\n", ""), 3);
    not_told("The same trouble here");
    told("Take up");
}

static void none_of_them_is_said_once(void **state)
{
    (void)state;
    assert_int_equal(call("farm", "no\\nshort cycling\\n1\\nstop\\n", ""), 3);
    assert_int_equal(call("farm", "no\\nshort cycling\\n1\\nno\\nstop\\n", ""), 3);
    told("Before you begin: is all of this right?");
    assert_int_equal(sh("test $(grep -c 'Is it one of these' out) = 1 && grep -hq "
                        "'\"kind\":\"apart\",\"data\":{\"cases\":\\[\"' -r cases"),
                     0);
    assert_int_equal(sh("$T sheet $(sed -n 's/^Case number: //p' out) --cases cases >sheet && "
                        "grep -q 'none of the earlier cases' sheet"),
                     0);
}

static void it_helped_and_came_back(void **state)
{
    (void)state;
    assert_int_equal(call("farm", TOLD_FIRST, ""), 0);
    assert_int_equal(call("farm", "no\\nshort cycling\\n1\\nit came back\\nno\\nstop\\n", ""), 3);
    told("It came back. It had helped on");
    assert_int_equal(sh("grep -hq '\"came-back\"' -r cases && $T cases cases --state closed --json "
                        ">one && test ! -s one"),
                     0);
    assert_int_equal(call("farm", "no\\nshort cycling\\n1\\nstop\\n", ""), 3); /* and is open now */
    told("Take up");
}

static void at_the_desk_and_on_the_telephone(void **state)
{
    (void)state;
    assert_int_equal(call("farm", TOLD_FIRST, ""), 0);
    assert_int_equal(sh("printf 'new\\nno\\nshort cycling\\n1\\nboard\\nnew\\nno\\nshort "
                        "cycling\\n1\\n1\\nno\\nboard\\nstop\\n' | "
                        "$T desk " BOOK " --site " SITES
                        "farm.yaml --cases cases --name east --telephone >out 2>err"),
                     0);
    told("The same trouble here: 2 times in one day");
    told("Take up");
    assert_int_equal(sh("$T cases cases --state open --json >one && test $(wc -l <one) = 1"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(the_fourth_of_the_same_is_told, fresh),
        cmocka_unit_test_setup(days_are_counted, fresh),
        cmocka_unit_test_setup(an_open_one_is_offered_and_goes_on, fresh),
        cmocka_unit_test_setup(none_of_them_is_said_once, fresh),
        cmocka_unit_test_setup(it_helped_and_came_back, fresh),
        cmocka_unit_test_setup(at_the_desk_and_on_the_telephone, fresh),
    };
    return cmocka_run_group_tests_name("earlier cases", tests, NULL, NULL);
}
