/* What there is at a site, said at the prompt by somebody who slips, has braces in a name, no home,
 * or names a file that can't be written: each is told, and nothing of it is asked for twice. */
#include "run_telltale.h"

#define FILTERS "'" TT_SOURCE_DIR "/tests/cli/filters'"

static int afresh(void **state)
{
    (void)state;
    return sh("rm -rf cases config sites mine.yaml");
}

static void describe(const char *lines)
{
    assert_int_equal(
        sh("printf 'no\\n1\\n%s\\nstop\\n' | XDG_CONFIG_HOME=$PWD/config $T ask " FILTERS
           " --cases cases --plain >out 2>err",
           lines),
        3);
}

static void so_many_are_a_slip(void **state)
{
    (void)state;
    describe("\\n500\\n99999999999999999999\\n3\\n1\\n3");
    assert_holds("out",
                 "> 500\n\nBy number there can be 40 at most. Say each as you call it, or type "
                 "how many again.\nWhich filters are there");
    assert_holds("out", "> 3\n\nThere are, in this order:\n  - water filter 1\n  - water filter 2\n"
                        "  - water filter 3\n");
    assert_int_equal(sh("grep -q -- '- 500' out"), 1);
}

static void braces_are_for_rules_alone(void **state)
{
    (void)state;
    describe("{North} house\\nthe {coarse} filter,, the fine filter, the fine filter\\n1\\n2\\n"
             "mine.yaml");
    assert_holds("out", "Site: (North) house\n");
    assert_holds("mine.yaml", "  title: (North) house\n");
    assert_holds("mine.yaml", "text: the (coarse) filter\n");
    assert_int_equal(sh("grep -c 'text: the fine filter' mine.yaml >count; test $(cat count) = 1"),
                     0);
}

static void a_path_is_at_home_as_in_a_shell(void **state)
{
    (void)state;
    describe("\\n1\\n1\\n2\\n~/sites/north.yaml");
    assert_int_equal(sh("test -f \"$HOME/sites/north.yaml\" && ! test -e '~'"), 0);
    assert_holds("out", "What is there is written in ~/sites/north.yaml.");
}

/* Without a home there is no usual place. */
static void without_a_home_a_file_is_named(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'no\\n1\\n\\n1\\n1\\n1\\nmine.yaml\\nstop\\n' | env -u HOME -u "
                        "XDG_CONFIG_HOME $T ask " FILTERS " --cases cases --plain >out 2>err"),
                     3);
    assert_holds("out", "Keep this, so that nobody is asked again?\n 1  Yes, in another file\n"
                        " 2  No, only for this case\n");
    assert_holds("mine.yaml", "site:\n");
}

/* No folder is called "~" for want of a home: it is said, and asked again. */
static void without_a_home_it_is_no_place(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf 'no\\n1\\n\\n1\\n1\\n1\\n~/north.yaml\\n~root/x.yaml\\nmine.yaml\\nstop\\n' "
           "| env -u HOME -u XDG_CONFIG_HOME $T ask " FILTERS " --cases cases --plain >out 2>err"),
        3);
    assert_holds("out", "\xE2\x80\x9C~/north.yaml\xE2\x80\x9D: ~ is no folder here.");
    assert_holds("out", "\xE2\x80\x9C~root/x.yaml\xE2\x80\x9D: ~ is no folder here.");
    assert_holds("mine.yaml", "site:\n");
    assert_int_equal(sh("! test -e '~' && ! test -e '~root'"), 0);
}

static void what_can_not_be_written_is_said_and_asked_again(void **state)
{
    (void)state;
    assert_int_equal(sh("echo mine >taken.yaml"), 0);
    describe("\\n1\\n1\\n2\\n/proc/none/north.yaml\\n2\\ntaken.yaml\\n1\\n2\\ntaken.yaml\\n2");
    assert_holds("out", "/proc/none/north.yaml: No such file or directory\nKeep this");
    assert_holds("out", "taken.yaml is there already");
    assert_int_equal(sh("grep -q '^site:' taken.yaml"),
                     0); /* the second time it was written over */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(so_many_are_a_slip, afresh),
        cmocka_unit_test_setup(braces_are_for_rules_alone, afresh),
        cmocka_unit_test_setup(a_path_is_at_home_as_in_a_shell, afresh),
        cmocka_unit_test_setup(without_a_home_a_file_is_named, afresh),
        cmocka_unit_test_setup(without_a_home_it_is_no_place, afresh),
        cmocka_unit_test_setup(what_can_not_be_written_is_said_and_asked_again, afresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
