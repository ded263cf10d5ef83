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

/* Nowhere but in a file of their own, which goes without a trace of them in the case. */
static void who_called_is_kept_apart_and_erased(void **state)
{
    (void)state;
    at_desk("east", "new\\nno\\nshort cycling\\n1\\ncaller\\nnorth gate post\\n555 0100\\n\\nboard\\nstop");
    assert_holds("out", "Caller: north gate post, 555 0100");
    assert_int_equal(sh("test $(grep -c 'What does another system' out) = 1"), 0); /* Enter leaves it out */
    assert_holds("out", "Enter: that is not said");
    assert_int_equal(sh("grep -l 'north gate' -r cases | grep -qv jsonl && ! grep -rq 'north gate' cases --include=*.jsonl"), 0);
    assert_int_equal(sh("test $(stat -c %%a cases/*/*/*/contact.json) = 600"), 0);
    assert_int_equal(sh("$T cases cases --full >out && ! grep -q 'north gate' out"), 0);
    listed("--contact", "Caller: north gate post, 555 0100");
    listed("--json", "\"contact\":null");
    assert_int_equal(sh("N=$($T cases cases --json | sed 's/.*\"case\":\"\\([^\"]*\\).*/\\1/') && echo $N >number && "
                        "$T cases cases --case $N --ticket 'INC 12' >out 2>err"),
                     0);
    listed("--json --contact", "\"caller\":\"north gate post\",\"call-back\":\"555 0100\",\"ticket\":\"INC 12\"");
    assert_int_equal(sh("$T sheet $(cat number) --cases cases >out && ! grep -q 'north gate' out"), 0);
    assert_int_equal(sh("$T sheet $(cat number) --cases cases --contact >out && grep -q 'north gate post, 555 0100, ticket INC 12' out"), 0);
    listed("--until 2020-01-01 --erase", "were erased: 0");
    listed("--erase", "were erased: 1");
    assert_int_equal(sh("! grep -rq '555 0100' cases"), 0);
    listed("--json --contact", "\"contact\":null");
}

static void a_caller_is_said_of_one_case(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'no\\nshort cycling\\n1\\nstop\\n' | $T ask $WELL --cases cases --caller 'the east post' >out 2>err"), 3);
    listed("--contact", "Caller: the east post");
    assert_int_equal(sh("printf 'no\\nshort cycling\\n1\\nstop\\n' | $T ask $WELL --cases cases >out 2>err"), 3);
    assert_int_equal(sh("$T cases cases --caller somebody 2>err"), 2);
    assert_holds("err", "Name it with --case NUMBER");
}

static void causes_are_counted_by_month_and_site(void **state)
{
    (void)state;
    for (int i = 0; i < 2; i++)
        assert_int_equal(sh("printf 'no\\nshort cycling\\n1\\nunsure\\nright\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\n"
                            "unsure\\ngone\\n1\\n' | $T ask $WELL --cases cases >out 2>err"),
                         0);
    listed("--by month", "^  - no site said: The tank has lost its air cushion: 2, 2 of them confirmed");
    assert_int_equal(sh("grep -qx \"$(date +%%Y-%%m)\" out"), 0);
    listed("--by month --json", "\"months\":\\[\\{\"month\":\"[0-9-]+\",\"site\":null,\"name\":\"tank-waterlogged\"");
    assert_int_equal(sh("$T cases cases --by year 2>err"), 2);
    assert_holds("err", "There is: --by month");
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
        cmocka_unit_test_setup(who_called_is_kept_apart_and_erased, fresh),
        cmocka_unit_test_setup(a_caller_is_said_of_one_case, fresh),
        cmocka_unit_test_setup(causes_are_counted_by_month_and_site, fresh),
        cmocka_unit_test_setup(orders_and_limits, fresh),
    };
    return cmocka_run_group_tests_name("desk", tests, NULL, NULL);
}
