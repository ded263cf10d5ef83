/* `desk`: several calls in one window, each goes on where it was put down; what is pressing stands
 * first. And the same line for a case in `cases`, with its orders. */
#include "run_telltale.h"

static int fresh(void **state)
{
    (void)state;
    return sh("rm -rf cases out err && mkdir cases");
}

static void at_desk(const char *name, const char *lines)
{
    assert_int_equal(sh("printf '%s\\n' | $T desk $WELL --cases cases --name %s >out 2>err", lines, name), 0);
    assert_int_equal(sh("test ! -s err"), 0);
}

static void listed(const char *options, const char *pattern)
{
    assert_int_equal(sh("$T cases cases %s >out 2>err && test ! -s err", options), 0);
    if (sh("grep -Eq '%s' out", pattern) == 0) return;
    char *text = contents("out");
    print_error("%s, in:\n%s", pattern, text);
    free(text);
    fail();
}

/* Each call stops at another place of the talk; the board's first choice is who waits longest. */
static void five_calls_go_on_where_they_were_put_down(void **state)
{
    (void)state;
    at_desk("east", "new\\nboard\\n"
                    "new\\nno\\nboard\\n"
                    "new\\nno\\nshort cycling\\nboard\\n"
                    "new\\nno\\nshort cycling\\n1\\nboard\\n"
                    "new\\nno\\nshort cycling\\n1\\nunsure\\nBOARD\\n"
                    "new\\nno\\nshort cycling\\n1\\nunsure\\nright\\nboard\\nstop");
    assert_int_equal(sh("test $(ls -d cases/*/*/* | wc -l) = 5"), 0); /* of the first nothing was said */
    assert_int_equal(sh("grep -q 'Which case' out && test $(grep -c 'Yours, since' out) = 15"), 0);
    listed("--name east", "Yours, since");
    at_desk("east", "1\\nboard\\n1\\nboard\\n1\\nboard\\n1\\nboard\\n1\\nno\\nboard\\nstop");
    assert_int_equal(sh("test $(grep -c '^Case number' out) = 5"), 0);
    /* Whatever was looked at in between: what was said before still counts, once danger is ruled out. */
    at_desk("east", "5\\nno\\nright\\nboard\\nstop");
    assert_holds("out", "Charge the tank with air");
}

static void what_presses_stands_first(void **state)
{
    (void)state;
    at_desk("west", "new\\nno\\nshort cycling\\n1\\nhand over\\neast\\nlook at the gauge\\nstop");
    at_desk("west", "new\\nno\\nshort cycling\\n1\\nhold\\nthe caller rings back\\nstop");
    at_desk("west", "new\\nno\\nshort cycling\\n1\\nboard\\nstop");
    at_desk("east", "new\\nno\\nshort cycling\\n1\\nboard\\n"
                    "new\\nthere is smoke\\nboard\\nstop");
    assert_int_equal(sh("tail -12 out | grep -Eo 'DANGER|For you|Yours|Nobody.s|Left by west' | tr '\\n' , "
                        "| grep -qx \"DANGER,For you,Yours,Nobody's,Left by west,\""),
                     0);
    assert_holds("out", "look at the gauge");
    listed("--for EAST", "Cases: 1");
    listed("--name east", "For you, since [0-9:]+: look at the gauge");
    listed("--name east", "DANGER\\. ");
    listed("--json", "\"danger\":true");
}

static void whoever_takes_it_has_it(void **state)
{
    (void)state;
    at_desk("west", "new\\nno\\nshort cycling\\n1\\nhand over\\neast\\nlook at the gauge\\nstop");
    at_desk("east", "1\\nboard\\nstop"); /* a look answers nothing, so the note stands */
    assert_holds("out", "For you, since");
    at_desk("east", "1\\nno\\nunsure\\nboard\\nstop");
    listed("--name east", "Yours, since");
    listed("--name west", "Left by east");
}

static void danger_said_to_the_board_is_heard(void **state)
{
    (void)state;
    at_desk("east", "the motor burns\\nboard\\nstop");
    assert_holds("out", "DANGER");
    listed("--json", "\"danger\":true");
    at_desk("east", "1\\nno\\nno\\nboard\\nstop"); /* it is over */
    listed("--json", "\"danger\":false");
}

static void orders_and_limits(void **state)
{
    (void)state;
    at_desk("east", "new\\nno\\nshort cycling\\n1\\nboard\\nnew\\nno\\nshort cycling\\n1\\nunsure\\nboard\\nstop");
    assert_int_equal(sh("$T cases cases >out 2>err && $T cases cases --sort began >two && cmp out two"), 0);
    listed("--limit 1", "Cases: 2"); /* the counts are of all */
    assert_int_equal(sh("test $(grep -c 'starts and stops' out) = 1"), 0);
    assert_int_equal(sh("$T cases cases --json --limit 1 >one && $T cases cases --json | tail -1 | cmp - one"), 0);
    assert_int_equal(sh("for o in moved site state until; do $T cases cases --sort $o >out || exit 1; done"), 0);
    assert_int_equal(sh("$T cases cases --sort size 2>err"), 2);
    assert_holds("err", "There are: began, moved, site, state, until");
    assert_int_equal(sh("$T cases cases --limit 0 2>err"), 2);
    assert_holds("err", "Write one from 1");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(five_calls_go_on_where_they_were_put_down, fresh),
        cmocka_unit_test_setup(what_presses_stands_first, fresh),
        cmocka_unit_test_setup(whoever_takes_it_has_it, fresh),
        cmocka_unit_test_setup(danger_said_to_the_board_is_heard, fresh),
        cmocka_unit_test_setup(orders_and_limits, fresh),
    };
    return cmocka_run_group_tests_name("desk", tests, NULL, NULL);
}
