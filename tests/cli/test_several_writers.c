/* Several who work on one case: who has it, joining, taking over, what others did meanwhile,
 * answers that contradict each other, notes for whoever goes on. */
#include "run_telltale.h"

#include <signal.h>

#include "window.h"

static char number[16];

static int fresh(void **state)
{
    (void)state;
    return sh("rm -rf cases && mkdir cases");
}

/* Danger is ruled out, so there is a case. */
static window *begin_as(const char *name)
{
    const char *const words[] = {"ask", WELL, "--cases", "cases", "--name", name, NULL};
    window *w = window_open(&(window_plan){.words = words, .copy = name});
    window_await(w, "Case number: ");
    window_await_next_prompt(w);
    sscanf(strstr(window_text(w), "Case number: "), "Case number: %15s", number);
    window_type(w, "no");
    window_await(w, "What is wrong?");
    window_await_next_prompt(w);
    return w;
}

static window *come_as(const char *name)
{
    const char *const words[] = {"ask", "--case", number, "--cases", "cases", "--name", name, NULL};
    return window_open(&(window_plan){.words = words, .copy = name});
}

/* Chooses this at the question who has it; then danger is ruled out here, too. */
static window *come_and_choose(const char *name, const char *choice, const char *then)
{
    window *w = come_as(name);
    window_await(w, "This case is open elsewhere. What do you want to do?\n");
    window_await_next_prompt(w);
    window_type(w, choice);
    window_await(w, "Is there smoke at the pump?");
    window_await_next_prompt(w);
    window_type(w, "no");
    window_await(w, then);
    window_await_next_prompt(w);
    return w;
}

static int resume(const char *lines)
{
    return sh("printf '%s\\n' | $T ask --cases cases --case %s --name south >out 2>err", lines,
              number);
}

/* Typed, answered, and a line is awaited again. */
static void say(window *w, const char *line, const char *then)
{
    window_type(w, line);
    window_await(w, then);
    window_await_next_prompt(w);
}

static void only_look(void)
{
    assert_int_equal(sh("$T ask --case %s --cases cases --no-input >out 2>err", number), 3);
}

/* ---- who has it ---- */

static void everybody_sees_who_has_it_since_when(void **state)
{
    (void)state;
    window *east = begin_as("east"), *west = come_as("west");
    window_await(west, "east (");
    window_await(west, ") has it open, since ");
    window_await(west, "What do you want to do?\n 1  Only look at it\n 2  Work on it together\n 3  "
                       "Take it over\n");
    assert_int_equal(window_close(west), 75);
    assert_holds("west", " is left as it is: others have it open");
    assert_int_equal(window_close(east), 3);
    assert_int_equal(resume("no"), 3);
    assert_false(holds("out", "open elsewhere"));
}

static void who_views_writes_nothing(void **state)
{
    (void)state;
    window *east = begin_as("east"), *west = come_as("west");
    window_await(west, "Only look at it");
    say(west, "1", "  - Is there smoke at the pump? No\n");
    window_type(west, "");
    window_await(west, "The case is as it was.");
    assert_int_equal(window_close(west), 3);
    assert_int_equal(sh("ls cases/*/*/*/* | wc -l | grep -qx 1"), 0);
    assert_int_equal(window_close(east), 3);
    assert_int_equal(sh("cat cases/*/*/*/* >before"), 0);
    only_look();
    assert_int_equal(sh("cat cases/*/*/*/* | cmp - before"), 0);
    assert_holds("out", "  - Is there smoke at the pump? No\n");
}

static void what_one_answers_the_other_sees_at_the_next_turn(void **state)
{
    (void)state;
    window *east = begin_as("east"), *west = come_and_choose("west", "2", "What is wrong?");
    window_type(east, "cautions");
    window_await(east, "Meanwhile:\n");
    window_await(east, " west: joined\n");
    window_await(east, " west: Is there smoke at the pump? No\n");
    say(east, "", "What is wrong?");
    say(east, "short cycling", "Is it this");
    say(east, "1", "What does the gauge at the tank read");
    window_type(west, "known");
    window_await(west, " east: the trouble: The pump starts and stops\n");
    say(west, "", "What does the gauge at the tank read");
    assert_int_equal(window_close(west), 3);
    assert_int_equal(window_close(east), 3);
    assert_int_equal(resume(""), 3);
    assert_holds(
        "out",
        "Trouble: The pump starts and stops\nPoints to: The tank has lost its air cushion (");
}

/* ---- two who say different things ---- */

/* The trouble is none of the list, and both stand at the first question. */
static void begin_at_a_question(window **east, window **west)
{
    *east = begin_as("east");
    say(*east, "none of these", "What do you hear at the pump?");
    *west = come_and_choose("west", "2", "What do you hear at the pump?");
}

/* Each types it before he can know of the other's. */
static void type_at_once(window *one, const char *line, window *other, const char *its_line)
{
    window_signal(one, SIGSTOP);
    window_type(one, line);
    window_type(other, its_line);
    window_await_next_prompt(other);
    window_signal(one, SIGCONT);
    window_await_next_prompt(one);
}

static void end_both(window *one, window *other)
{
    assert_int_equal(window_close(one), 3);
    assert_int_equal(window_close(other), 3);
}

/* Since it was typed to last. */
static void assert_shows(const window *w, const char *text)
{
    if (strstr(window_page(w), text) == NULL)
        fail_msg("\"%s\" is not shown, but:\n%s", text, window_page(w));
}

#define DISPUTED \
    "This was answered differently by people who did not know of each other. Which is right?\n"

static void answer_differently(window *east, window *west)
{
    type_at_once(west, "cannot", east, "nothing");
    assert_shows(west, DISPUTED);
}

static void contradicting_answers_are_settled_and_both_kept(void **state)
{
    (void)state;
    window *east, *west;
    begin_at_a_question(&east, &west);
    answer_differently(east, west);
    say(east, "known", "Meanwhile:\n");
    say(east, "", DISPUTED " 1  ");
    say(west, "1", "Try this: Switch the breaker on");
    window_type(east, "known");
    window_await(east, "west: settled which answer is right");
    say(east, "", "Try this: Switch the breaker on");
    end_both(east, west);
    assert_int_equal(
        sh("grep -q '^ 1  .* east: What do you hear at the pump? Nothing at all$' west && "
           "grep -q '^ 2  .* west: What do you hear at the pump? can.t look there$' west && grep "
           "-q '^ 3  Ask it again$' west"),
        0);
    assert_int_equal(sh("cat cases/*/*/*/* | grep -c '\"question\":\"pump-sound\"' | grep -qx 2"),
                     0);
}

static void an_answer_given_anew_settles_too(void **state)
{
    (void)state;
    window *east, *west;
    begin_at_a_question(&east, &west);
    answer_differently(east, west);
    say(west, "3", "What do you hear at the pump?");
    say(west, "nothing", "Try this: Switch the breaker on");
    end_both(east, west);
    assert_int_equal(resume("no"), 3);
    assert_false(holds("out", "answered differently"));
    assert_holds("out", "Try this: Switch the breaker on");
}

static void settling_can_be_taken_back(void **state)
{
    (void)state;
    window *east, *west;
    begin_at_a_question(&east, &west);
    answer_differently(east, west);
    say(west, "1", "Try this: Switch the breaker on");
    say(west, "back", "answered differently");
    end_both(east, west);
    assert_int_equal(resume("no\\n1"), 3);
    assert_holds("out", DISPUTED);
    assert_holds("out", "Try this: Switch the breaker on");
}

static void the_same_answer_twice_is_no_dispute(void **state)
{
    (void)state;
    window *east, *west;
    begin_at_a_question(&east, &west);
    type_at_once(east, "nothing", west, "nothing");
    assert_shows(east, "Try this: Switch the breaker on");
    assert_shows(west, "Try this: Switch the breaker on");
    end_both(east, west);
    assert_int_equal(resume("no"), 3);
    assert_false(holds("out", "answered differently"));
}

/* They come one after the other, and both have done the fix. */
static void begin_at_the_outcome(window **east, window **west)
{
    *east = begin_as("east");
    say(*east, "silent", "Is it this");
    say(*east, "1", "Try this: Switch the breaker on");
    *west = come_and_choose("west", "2", "Try this: Switch the breaker on");
    say(*east, "begin", "1 of 1");
    say(*east, "done", "did it help?");
    say(*west, "begin", "1 of 1");
    say(*west, "done", "did it help?");
}

static void the_same_report_twice_happened_once(void **state)
{
    (void)state;
    window *east, *west;
    begin_at_the_outcome(&east, &west);
    type_at_once(east, "No change", west, "No change");
    end_both(east, west);
    only_look();
    sh("cp out twice; cat cases/*/*/*/* | grep -c '\"outcome\":\"no-change\"' >count");
    assert_holds("count", "2");
    assert_int_equal(sh("sed -n '/^What was tried/,/^See that/p; /^The case is as/q' twice | grep "
                        "-c 'no change' | grep -qx 1"),
                     0);
    assert_int_equal(
        sh("cd cases/*/*/*/ && for f in *-2.jsonl; do sed -i '/no-change/,$d' $f; done"), 0);
    only_look();
    assert_int_equal(sh("for f in out twice; do sed -n '/^What it points to/,/^The case is as/p' "
                        "$f >$f.causes; done; test -s out.causes && cmp out.causes twice.causes"),
                     0);
}

static void different_reports_on_a_fix_are_settled(void **state)
{
    (void)state;
    window *east, *west;
    begin_at_the_outcome(&east, &west);
    type_at_once(east, "No change", west, "Better, but not gone");
    end_both(east, west);
    assert_int_equal(resume("no\\n1"), 3);
    assert_holds("out", "This fix was reported on differently by people who did not know of each "
                        "other. Which is right?\n 1  ");
    assert_holds("out", "Is it put back?");
    only_look();
    assert_holds("out", "What was tried:\n  - Switch the breaker on: no change\n");
    assert_false(holds("out", "better"));
}

static void put_back_and_left_are_settled(void **state)
{
    (void)state;
    window *east, *west;
    begin_at_the_outcome(&east, &west);
    say(east, "No change", "Is it put back?");
    say(west, "known", "Meanwhile:\n");
    say(west, "", "Is it put back?");
    type_at_once(east, "1", west, "2");
    end_both(east, west);
    assert_int_equal(resume("no\\n2\\nstop"), 3);
    assert_holds("out", "people who did not know of each other. Which is right?\n 1  ");
    assert_int_equal(sh("grep -q '^ 2  .* west: Switch the breaker on: left as it is now$' out"),
                     0);
    assert_holds("out", "See that this was put back:\n  - Switch it off again.");
}

/* `back` names its step: what another has answered meanwhile stays. */
static void back_takes_back_the_step_that_was_meant(void **state)
{
    (void)state;
    window *east, *west;
    begin_at_a_question(&east, &west);
    type_at_once(east, "back", west, "nothing");
    assert_shows(east, "One step back.");
    assert_shows(east, "west: What do you hear at the pump? Nothing at all");
    end_both(east, west);
    assert_int_equal(sh("cat cases/*/*/*/* | grep '\"kind\":\"back\"' | grep -q "
                        "'\"steps\":\\[{\"writer\":\"[0-9a-f]*\",\"seq\":3}\\]'"),
                     0);
    assert_int_equal(resume("no\\nknown"), 3);
    assert_holds("out", "  - What do you hear at the pump? Nothing at all\n");
}

/* ---- one after the other ---- */

static void whoever_is_taken_over_is_told(void **state)
{
    (void)state;
    window *east = begin_as("east"), *west = come_and_choose("west", "3", "What is wrong?");
    window_type(east, "none of these");
    window_await(east, "west: took the case over");
    window_await(east, "Somebody has taken this case over.\n 1  Leave it to them\n 2  Go on too\n");
    window *south = come_as("south");
    window_await(south, "west (");
    window_await(south, ") has it open, since ");
    assert_int_equal(window_close(south), 75);
    assert_false(holds("south", "east ("));
    window_type(east, "1");
    window_await(east, "To go on with it:");
    assert_int_equal(window_close(east), 3);
    window_type(west, "known");
    window_await(west, "east: said that it is nothing of the list");
    assert_int_equal(window_close(west), 3);
}

/* Records that came from another machine say that it was opened there, and nothing says that it was
 * left. */
static void of_another_machine_the_records_tell(void **state)
{
    (void)state;
    window *east = begin_as("east");
    window_signal(east, SIGKILL);
    assert_int_equal(window_close(east), 128 + SIGKILL);
    assert_int_equal(resume("no"), 3);
    assert_false(holds("out", "elsewhere"));
    assert_int_equal(sh("rm -rf cases"), 0);
    east = begin_as("east");
    window_signal(east, SIGKILL);
    window_close(east);
    assert_int_equal(sh("cd cases/*/*/*/ && f=$(ls) && w=${f%%.jsonl} && sed -i "
                        "\"s/$w/0000aaaa0000/\" $f && mv $f 0000aaaa0000.jsonl"),
                     0);
    assert_int_equal(resume(""), 75);
    assert_int_equal(sh("grep -q '^east (.*) opened it .* and did not leave it, as far as can be "
                        "seen from here$' out"),
                     0);
    assert_int_equal(resume("3\\nno"), 3);
    assert_holds("out", "What is wrong?");
    assert_int_equal(resume(""), 3);
    assert_false(holds("out", "elsewhere"));
}

static void on_hold_and_handed_over_the_note_is_there(void **state)
{
    (void)state;
    window *east = begin_as("east");
    say(east, "hold", "A note for whoever goes on?");
    window_type(east, "the caller fetches a gauge");
    window_await(east, "To go on with it:");
    assert_int_equal(window_close(east), 3);
    assert_int_equal(resume("no\\nhand over\\nWest\\nring back at noon"), 3);
    assert_holds("out", "A note was left:\n");
    assert_holds("out", " east: put the case on hold: the caller fetches a gauge\n");
    assert_int_equal(resume(""), 3);
    assert_holds("out", " south: handed the case over to West: ring back at noon\n");
    assert_false(holds("out", "elsewhere"));
    assert_int_equal(sh("printf 'hold\\n' | $T ask $WELL --unsaved >out"), 3);
    assert_holds("out", "Nothing of this case is kept, so nobody can go on with it.");
}

/* One login, one writer, one after the other. */
static void each_is_called_as_he_called_himself(void **state)
{
    (void)state;
    window_close(begin_as("east"));
    assert_int_equal(resume("no\\nhold\\nring back"), 3);
    assert_holds("out", " east: Is there smoke at the pump? No\n");
    only_look();
    assert_holds("out", " east: Is there smoke at the pump? No\n");
    assert_holds("out", " south: put the case on hold: ring back\n");
}

/* A copy that a program for sharing folders has made of a writer's file counts once. */
static void a_copy_of_a_file_changes_nothing(void **state)
{
    (void)state;
    window *east = begin_as("east");
    say(east, "short cycling", "Is it this");
    say(east, "1", "What does the gauge at the tank read");
    say(east, "back", "What is wrong?");
    window_close(east);
    only_look();
    assert_int_equal(
        sh("cp out whole; cd cases/*/*/*/ && f=$(ls) && cp $f ${f%%.jsonl}-copy.jsonl"), 0);
    only_look();
    assert_int_equal(sh("cmp out whole && test ! -s err"), 0);
}

#define IN_FRESH_FOLDER(test) cmocka_unit_test_setup(test, fresh)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FRESH_FOLDER(everybody_sees_who_has_it_since_when),
        IN_FRESH_FOLDER(who_views_writes_nothing),
        IN_FRESH_FOLDER(what_one_answers_the_other_sees_at_the_next_turn),
        IN_FRESH_FOLDER(contradicting_answers_are_settled_and_both_kept),
        IN_FRESH_FOLDER(an_answer_given_anew_settles_too),
        IN_FRESH_FOLDER(settling_can_be_taken_back),
        IN_FRESH_FOLDER(the_same_answer_twice_is_no_dispute),
        IN_FRESH_FOLDER(the_same_report_twice_happened_once),
        IN_FRESH_FOLDER(different_reports_on_a_fix_are_settled),
        IN_FRESH_FOLDER(put_back_and_left_are_settled),
        IN_FRESH_FOLDER(back_takes_back_the_step_that_was_meant),
        IN_FRESH_FOLDER(whoever_is_taken_over_is_told),
        IN_FRESH_FOLDER(of_another_machine_the_records_tell),
        IN_FRESH_FOLDER(on_hold_and_handed_over_the_note_is_there),
        IN_FRESH_FOLDER(each_is_called_as_he_called_himself),
        IN_FRESH_FOLDER(a_copy_of_a_file_changes_nothing),
    };
    return cmocka_run_group_tests_name("several writers", tests, NULL, NULL);
}
