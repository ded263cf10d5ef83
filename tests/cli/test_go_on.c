/* The command that is printed for going on works as it stands: in any folder, and without what was
 * set when it was printed. */
#include "run_telltale.h"

#include "telltale.h"

static const char first_lines[] = "printf 'no\\nshort cycling\\n1\\nstop\\n'";

/* The command in "out", typed elsewhere and on another day; its output is in "again". */
static int go_on(void)
{
    return sh("here=$PWD; cd / && eval \"env -u TELLTALE_CASES -u XDG_DATA_HOME $(sed -n 's/^"
              "\\(.* ask .*--case .*\\)/\\1/p' \"$here/out\")\""
              " </dev/null >\"$here/again\" 2>&1");
}

static void it_leads_back_from_anywhere(void **state)
{
    (void)state;
    static const char *const ways[][2] = {{"", ""},
                                          {"", "--cases cases"},
                                          {"", "--cases ../$(basename $PWD)/cases"},
                                          {"TELLTALE_CASES=by-name", ""},
                                          {"XDG_DATA_HOME=$PWD/data", ""}};
    for (unsigned i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        assert_int_equal(
            sh("%s | env %s $T ask $WELL %s >out 2>err", first_lines, ways[i][0], ways[i][1]), 3);
        assert_int_equal(go_on(), 3);
        assert_holds("again", "the trouble: The pump starts and stops");
        bool usual = *ways[i][0] == 0 && *ways[i][1] == 0;
        assert_int_equal(sh("grep -q -e \"--cases '*/\" out"), usual ? 1 : 0);
    }
}

static void the_list_says_the_same(void **state)
{
    (void)state;
    assert_int_equal(
        sh("rm -rf by-name; %s | TELLTALE_CASES=by-name $T ask $WELL >out", first_lines), 3);
    assert_int_equal(sh("grep ' ask --case' out >one"), 0);
    static const char *const lists[] = {"cases --full by-name", "cases --full --cases by-name",
                                        "cases --full"};
    for (unsigned i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        assert_int_equal(sh("TELLTALE_CASES=by-name $T %s >out && sed -n 's/^ *\\(.* ask "
                            "--case\\)/\\1/p' out >two",
                            lists[i]),
                         0);
        assert_same("one", "two");
    }
    assert_int_equal(
        sh("$T cases by-name --json | sed 's/.*\"go_on\":\"\\([^\"]*\\)\".*/\\1/' >two"), 0);
    assert_same("one", "two");
}

/* A case that lies elsewhere is not found by its number. */
static void a_case_elsewhere_is_named_by_its_folder(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf sent; %s | $T ask $WELL --cases sent >out", first_lines), 3);
    assert_int_equal(sh("$T ask --case sent/*/*/* </dev/null >out"), 3);
    assert_int_equal(go_on(), 3);
    assert_holds("again", "the trouble: The pump starts and stops");
    assert_int_equal(sh("grep -q \" ask --case '*$PWD/sent/.*/.*/[^ ]*$\" out"), 0);
}

static void what_the_case_does_not_remember_is_said_again(void **state)
{
    (void)state;
    assert_int_equal(
        sh("rm -rf other; cp -r $WELL other; %s | $T ask $WELL --telephone >out", first_lines), 3);
    assert_int_equal(sh("grep -q ' ask --case [^ ]*$' out"), 0); /* it remembers the telephone */
    assert_int_equal(go_on(), 3);
    assert_holds("again", "Say: ");
    assert_int_equal(sh("n=$(sed -n 's/^Case number: //p' out | head -1); $T ask other --case $n "
                        "--as technician </dev/null >out"),
                     3);
    assert_int_equal(sh("grep -q ' ask other --case [^ ]* --as technician$' out"), 0);
}

static void two_folders_of_cases_are_one_too_many(void **state)
{
    (void)state;
    assert_int_equal(sh("mkdir -p a b; $T cases a --cases b 2>err"), 2);
    assert_holds("err", "a and --cases b are two folders of cases");
    assert_int_equal(sh("$T learn $WELL a --cases b 2>err"), 2);
    assert_holds("err", "a and --cases b are two folders of cases");
    assert_int_equal(sh("$T cases a >out && $T cases --cases a >two"), 0);
    assert_same("out", "two");
}

/* ---- numbers ---- */

enum { DRAWN = 4000 };

/* Two ids with the same number of six digits. */
static void draw_twins(char ids[2][TT_CASE_ID_SIZE])
{
    static char all[DRAWN][TT_CASE_ID_SIZE], numbers[DRAWN][TT_CASE_NUMBER_SIZE];
    for (unsigned i = 0; i < DRAWN; i++) {
        snprintf(all[i], sizeof all[i], "019b1b48-9420-7e45-8172-%012x", i);
        tt_case_number(all[i], 6, numbers[i]);
        for (unsigned j = 0; j < i; j++) {
            if (strcmp(numbers[i], numbers[j]) != 0) continue;
            memcpy(ids[0], all[i], TT_CASE_ID_SIZE);
            memcpy(ids[1], all[j], TT_CASE_ID_SIZE);
            return;
        }
    }
    fail_msg("%d numbers, and no two alike", DRAWN);
}

/* Two desks drew them, and their folders were brought together. */
static void a_number_that_stands_for_two_is_told_apart(void **state)
{
    (void)state;
    char ids[2][TT_CASE_ID_SIZE], number[TT_CASE_NUMBER_SIZE], longer[2][TT_CASE_NUMBER_SIZE];
    draw_twins(ids);
    tt_case_number(ids[0], 6, number);
    assert_int_equal(sh("rm -rf twins made; %s | $T ask $WELL --cases made >out", first_lines), 3);
    for (unsigned i = 0; i < 2; i++) {
        tt_case_number(ids[i], 9, longer[i]);
        assert_int_equal(sh("to=twins/2025/12/%s; mkdir -p $to && for file in made/*/*/*/*; do sed "
                            "\"s/$(basename $(dirname $file))/%s/\" $file"
                            " >$to/$(basename $file); done",
                            ids[i], ids[i]),
                         0);
    }
    assert_int_equal(sh("$T ask --case %s --cases twins </dev/null >out 2>err", number), 2);
    assert_holds("err", "stands for 2 cases. Give the longer number");
    assert_holds("err", "House well: The pump starts and stops, 20");
    assert_int_equal(sh("! grep -q -e twins/ -e 019b1b48 err"), 0);
    /* A program, and whoever sits at a terminal, chooses instead. */
    assert_int_equal(
        sh("echo '{\"choice\":\"%s\"}' | $T ask --case %s --cases twins --json >turns 2>said",
           longer[1], number),
        3);
    assert_holds("turns", "Which one is meant?");
    assert_int_equal(
        sh("head -1 turns | grep -q '\"name\":\"%s\"' && ! head -1 turns | grep -q 019b1b48",
           longer[0]),
        0);
    assert_int_equal(sh("sed -n 2p turns | grep -q '\"case\":\"%s\"'", longer[1]), 0);
    for (unsigned i = 0; i < 2; i++) assert_holds("err", longer[i]);
    assert_int_equal(sh("$T cases twins >out 2>err && $T cases twins --json >json"), 0);
    for (unsigned i = 0; i < 2; i++) {
        assert_holds("out", longer[i]);
        assert_holds("json", longer[i]);
    }
    assert_int_equal(sh("test $($T cases twins --case %s --json | wc -l) = 2 && test $($T cases "
                        "twins --case %s --json | wc -l) = 1",
                        number, longer[0]),
                     0);
    for (unsigned i = 0; i < 2; i++) {
        assert_int_equal(sh("$T ask --case %s --cases twins </dev/null >out 2>err", longer[i]), 3);
        assert_int_equal(
            sh("grep -q 'Case number: %s' out && grep -q ' ask --case %s --cases ' out", longer[i],
               longer[i]),
            0);
        assert_int_equal(go_on(), 3);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_leads_back_from_anywhere),
        cmocka_unit_test(the_list_says_the_same),
        cmocka_unit_test(a_case_elsewhere_is_named_by_its_folder),
        cmocka_unit_test(what_the_case_does_not_remember_is_said_again),
        cmocka_unit_test(a_number_that_stands_for_two_is_told_apart),
        cmocka_unit_test(two_folders_of_cases_are_one_too_many),
    };
    return cmocka_run_group_tests_name("go on", tests, NULL, NULL);
}
