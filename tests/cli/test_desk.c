/* `desk`: several calls in one window, each goes on where it was put down; what is pressing stands
 * first. And the same line for a case in `cases`, with its orders. */
#include "run_telltale.h"

#include "window.h"

static int fresh(void **state)
{
    (void)state;
    return sh("rm -rf cases out err && mkdir cases");
}

static void at_desk(const char *name, const char *lines)
{
    assert_int_equal(
        sh("printf '%s\\n' | $T desk $WELL --cases cases --name %s >out 2>err", lines, name), 0);
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
    assert_int_equal(sh("test $(ls -d cases/*/*/* | wc -l) = 5"),
                     0); /* of the first nothing was said */
    assert_int_equal(sh("grep -q 'Which case' out && test $(grep -c 'Yours, since' out) = 15"), 0);
    listed("--name east", "Yours, since");
    at_desk("east", "1\\nboard\\n1\\nboard\\n1\\nboard\\n1\\nboard\\n1\\nno\\nboard\\nstop");
    assert_int_equal(sh("test $(grep -c '^Case number' out) = 5"), 0);
    /* Whatever was looked at in between: what was said before still counts, once danger is ruled
     * out. */
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
    assert_int_equal(
        sh("tail -12 out | grep -Eo 'DANGER|For you|Yours|Nobody.s|Left by west' | tr '\\n' , "
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

/* Whoever looks in, at the desk or not, and stops again answers no note. */
static void notes_stand_after_three_looks(void **state)
{
    static const char *const ways[] = {"hold\\nthe caller rings back",
                                       "hand over\\neast\\nlook at the gauge"};
    static const char *const lines[] = {"Nobody.s, since [0-9:]+: the caller rings back",
                                        "For you, since [0-9:]+: look at the gauge"};
    (void)state;
    for (unsigned way = 0; way < 2; way++) {
        assert_int_equal(sh("rm -rf cases && printf 'no\\nshort cycling\\n1\\n%s\\n' | $T ask "
                            "$WELL --cases cases --name west >out 2>err",
                            ways[way]),
                         3);
        assert_int_equal(
            sh("$T cases cases --json | sed 's/.*\"case\":\"\\([^\"]*\\).*/\\1/' >number"), 0);
        assert_int_equal(sh("printf 'stop\\n' | $T ask --case $(cat number) --cases cases --name "
                            "north >out 2>err"),
                         3);
        assert_int_equal(
            sh("$T ask --case $(cat number) --cases cases --name south --no-input >out 2>err"), 3);
        at_desk("other", "1\\nboard\\nstop");
        listed("--name east", lines[way]);
        assert_int_equal(sh("printf 'stop\\n' | $T ask --case $(cat number) --cases cases --name "
                            "east >out 2>err"),
                         3);
        assert_holds("out", "A note was left:");
        listed("--name east", lines[way]);
        assert_int_equal(sh("$T sheet $(cat number) --cases cases >out && grep -q '%s' out",
                            way == 0 ? "the caller rings back" : "look at the gauge"),
                         0);
    }
}

/* By how long ago a case ended: an open one keeps who called. */
static void callers_go_by_age(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'no\\nshort cycling\\n1\\nstop\\n' | $T ask $WELL --cases cases "
                        "--caller 'the open one' >out 2>err"),
                     3);
    for (int days = 10; days <= 100; days += 90)
        assert_int_equal(sh("printf '%%s\\n' '{\"version\":2,\"begin\":{\"now\":\"'$(date -d '-%d "
                            "days' -Iseconds)'\"}}' "
                            "'{\"choice\":\"no\"}' '{\"choice\":\"none\"}' '{\"word\":\"stop\"}' | "
                            "$T ask $WELL --cases cases --json --caller 'after %d days' >out 2>err",
                            days, days),
                         3);
    assert_int_equal(
        sh("for f in $(grep -l after cases/*/*/*/contact.json); do sed -i "
           "'s/\"kind\":\"stop\",\"data\":{/\"kind\":\"close\",\"data\":{\"how\":\"call\",/' "
           "$(dirname $f)/*.jsonl; done"),
        0);
    listed("--state called", "Cases: 2");
    listed("--ended-for 90 --erase", "were erased: 1");
    listed("--contact", "Caller: after 10 days");
    assert_int_equal(sh("! grep -q 'after 100 days' -r cases && grep -q 'the open one' -r cases"),
                     0);
    listed("--ended-for 0 --erase", "were erased: 1");
    listed("--contact", "Caller: the open one");
    assert_int_equal(sh("$T cases cases --ended-for soon 2>err"), 2);
    assert_holds("err", "Write one such as --ended-for 90");
}

static void a_list_on_a_terminal_goes_through_the_pager(void **state)
{
    static const char *const words[][6] = {{"cases", "cases", NULL},
                                           {"cases", "cases", "--no-pager", NULL},
                                           {"cases", "cases", "--json", NULL}};
    (void)state;
    assert_int_equal(
        sh("printf 'no\\nshort cycling\\n1\\nstop\\n' | $T ask $WELL --cases cases >out 2>err"), 3);
    for (unsigned i = 0; i < 3; i++) {
        window *w = window_open(&(window_plan){
            .words = words[i],
            .rows = 24,
            .columns = 80,
            .environment = (const char *const[]){"PAGER=sed 's/^/through: /'", NULL}});
        window_await_end(w);
        assert_int_equal(strstr(window_text(w), "through: Cases: 1") != NULL ? 1 : 0,
                         i == 0 ? 1 : 0);
        assert_non_null(strstr(window_text(w), i == 2 ? "\"state\":\"open\"" : "Cases: 1"));
        assert_int_equal(window_close(w), 0);
    }
    assert_int_equal(sh("PAGER=false $T cases cases >out && grep -q 'Cases: 1' out"),
                     0); /* no terminal, no pager */
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
/* By the words of the book that the desk was given, not of the usual one. */
static void danger_is_heard_by_the_desks_own_book(void **state)
{
    (void)state;
    assert_int_equal(
        sh("rm -rf own && cp -r $WELL own && chmod -R u+w own && "
           "printf 'emergencies:\n  ghost:\n    text: A ghost\n    heard: [white lady]\n"
           "    do: [Run]\n    source: common practice\n' >own/ghost.yaml"),
        0);
    sh("printf 'a white lady walks\nboard\nstop\n' | $T desk own --cases cases --name east >out "
       "2>err");
    assert_holds("out", "A ghost");
    assert_false(holds("out", "That is none of these."));
}

static void who_called_is_kept_apart_and_erased(void **state)
{
    (void)state;
    at_desk("east",
            "new\\nno\\nshort cycling\\n1\\ncaller\\nnorth gate post\\n555 0100\\n\\nboard\\nstop");
    assert_holds("out", "Caller: north gate post, 555 0100");
    assert_int_equal(sh("test $(grep -c 'What does another system' out) = 1"),
                     0); /* Enter leaves it out */
    assert_holds("out", "Enter: that is not said");
    assert_int_equal(sh("grep -l 'north gate' -r cases | grep -qv jsonl && ! grep -rq 'north gate' "
                        "cases --include=*.jsonl"),
                     0);
    assert_int_equal(sh("test $(stat -c %%a cases/*/*/*/contact.json) = 600"), 0);
    assert_int_equal(sh("$T cases cases --full >out && ! grep -q 'north gate' out"), 0);
    listed("--contact", "Caller: north gate post, 555 0100");
    listed("--json", "\"contact\":null");
    assert_int_equal(sh("N=$($T cases cases --json | sed 's/.*\"case\":\"\\([^\"]*\\).*/\\1/') && "
                        "echo $N >number && "
                        "$T cases cases --case $N --ticket 'INC 12' >out 2>err"),
                     0);
    listed("--json --contact",
           "\"caller\":\"north gate post\",\"call-back\":\"555 0100\",\"ticket\":\"INC 12\"");
    assert_int_equal(sh("$T sheet $(cat number) --cases cases >out && ! grep -q 'north gate' out"),
                     0);
    assert_int_equal(sh("$T sheet $(cat number) --cases cases --contact >out && grep -q 'north "
                        "gate post, 555 0100, ticket INC 12' out"),
                     0);
    listed("--until 2020-01-01 --erase", "were erased: 0");
    listed("--erase", "were erased: 1");
    assert_int_equal(sh("! grep -rq '555 0100' cases"), 0);
    listed("--json --contact", "\"contact\":null");
}

static void a_caller_is_said_of_one_case(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'no\\nshort cycling\\n1\\nstop\\n' | $T ask $WELL --cases cases "
                        "--caller 'the east post' >out 2>err"),
                     3);
    listed("--contact", "Caller: the east post");
    assert_int_equal(
        sh("printf 'no\\nshort cycling\\n1\\nstop\\n' | $T ask $WELL --cases cases >out 2>err"), 3);
    assert_int_equal(sh("$T cases cases --caller somebody 2>err"), 2);
    assert_holds("err", "Name it with --case NUMBER");
}

static void causes_are_counted_by_month_and_site(void **state)
{
    (void)state;
    for (int i = 0; i < 2; i++)
        assert_int_equal(sh("printf 'no\\nshort "
                            "cycling\\n1\\nunsure\\nright\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndon"
                            "e\\ndone\\ndone\\ndone\\ndone\\n"
                            "unsure\\ngone\\n1\\n' | $T ask $WELL --cases cases >out 2>err"),
                         0);
    listed("--by month",
           "^  - no site said: The tank has lost its air cushion: 2, 2 of them confirmed");
    assert_int_equal(sh("grep -qx \"$(date +%%Y-%%m)\" out"), 0);
    listed("--by month --json",
           "\"months\":\\[\\{\"month\":\"[0-9-]+\",\"site\":null,\"name\":\"tank-waterlogged\"");
    assert_int_equal(sh("$T cases cases --by year 2>err"), 2);
    assert_holds("err", "There is: --by month");
}

static void orders_and_limits(void **state)
{
    (void)state;
    at_desk("east", "new\\nno\\nshort cycling\\n1\\nboard\\nnew\\nno\\nshort "
                    "cycling\\n1\\nunsure\\nboard\\nstop");
    assert_int_equal(
        sh("$T cases cases >out 2>err && $T cases cases --sort began >two && cmp out two"), 0);
    listed("--limit 1", "Cases: 2"); /* the counts are of all */
    assert_int_equal(sh("test $(grep -c 'starts and stops' out) = 1"), 0);
    assert_int_equal(
        sh("$T cases cases --json --limit 1 >one && $T cases cases --json | tail -1 | cmp - one"),
        0);
    assert_int_equal(
        sh("for o in moved site state until; do $T cases cases --sort $o >out || exit 1; done"), 0);
    assert_int_equal(sh("$T cases cases --sort size 2>err"), 2);
    assert_holds("err", "There are: began, moved, site, state, until");
    assert_int_equal(sh("$T cases cases --limit 0 2>err"), 2);
    assert_holds("err", "Write one from 1");
}

/* The board in the language asked for; its words in any; a call switched at the turn it is said. */
static void the_desk_speaks_as_it_was_asked(void **state)
{
    (void)state;
    assert_int_equal(sh("printf '1\nno\nno water\nenglish\ntablero\nparar\n' | $T desk $WELL "
                        "--practice --language es --cases cases >out 2>err"),
                     0);
    assert_holds("out", "No hay ning\xc3\xban caso abierto.");
    assert_holds("out", "In English from here on.");
    assert_holds("out", "caller, board");
    assert_holds("out", "\xc2\xbfQu\xc3\xa9 caso?");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(five_calls_go_on_where_they_were_put_down, fresh),
        cmocka_unit_test_setup(what_presses_stands_first, fresh),
        cmocka_unit_test_setup(whoever_takes_it_has_it, fresh),
        cmocka_unit_test_setup(notes_stand_after_three_looks, fresh),
        cmocka_unit_test_setup(callers_go_by_age, fresh),
        cmocka_unit_test_setup(a_list_on_a_terminal_goes_through_the_pager, fresh),
        cmocka_unit_test_setup(danger_said_to_the_board_is_heard, fresh),
        cmocka_unit_test_setup(danger_is_heard_by_the_desks_own_book, fresh),
        cmocka_unit_test_setup(who_called_is_kept_apart_and_erased, fresh),
        cmocka_unit_test_setup(a_caller_is_said_of_one_case, fresh),
        cmocka_unit_test_setup(causes_are_counted_by_month_and_site, fresh),
        cmocka_unit_test_setup(orders_and_limits, fresh),
        cmocka_unit_test_setup(the_desk_speaks_as_it_was_asked, fresh),
    };
    return cmocka_run_group_tests_name("desk", tests, NULL, NULL);
}
