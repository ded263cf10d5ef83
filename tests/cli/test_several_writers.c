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

static window *begin_as(const char *name)
{
    const char *const words[] = {"ask", WELL, "--cases", "cases", "--name", name, NULL};
    window *w = window_open(&(window_plan){.words = words, .copy = name});
    window_await(w, "Case number: ");
    window_await_next_prompt(w);
    sscanf(strstr(window_text(w), "Case number: "), "Case number: %15s", number);
    return w;
}

static window *come_as(const char *name)
{
    const char *const words[] = {"ask", "--case", number, "--cases", "cases", "--name", name, NULL};
    return window_open(&(window_plan){.words = words, .copy = name});
}

static window *join_as(const char *name)
{
    window *w = come_as(name);
    window_await(w, "is open elsewhere: ");
    window_await_next_prompt(w);
    window_type(w, "2");
    window_await(w, "Question 1");
    window_await_next_prompt(w);
    return w;
}

static int resume(const char *lines)
{
    return sh("printf '%s\\n' | $T ask --cases cases --case %s --name cleo >out 2>err", lines, number);
}

static void everybody_sees_who_has_it_since_when(void **state)
{
    (void)state;
    window *east = begin_as("east"), *west = come_as("west");
    window_await(west, "is open elsewhere: east (");
    window_await(west, "), since ");
    window_await(west, "1. Only view it\n  2. Join: work on it together\n  3. Take it over");
    assert_int_equal(window_close(west), 75);
    assert_int_equal(window_close(east), 3);
    assert_int_equal(resume("no"), 3);
    assert_false(holds("out", "open elsewhere"));
}

static void who_views_writes_nothing(void **state)
{
    (void)state;
    window *east = begin_as("east"), *west = come_as("west");
    window_await(west, "Take it over");
    window_type(west, "1");
    window_await(west, "only viewed");
    window_await(west, "Next question: Is there smoke at the pump?");
    assert_int_equal(window_close(west), 3);
    assert_int_equal(sh("ls cases/*/*/*/* | wc -l | grep -qx 1"), 0);
    assert_int_equal(window_close(east), 3);
    assert_int_equal(sh("cat cases/*/*/*/* >before; $T ask --case %s --cases cases --no-input >out; cat cases/*/*/*/* | cmp - before", number), 0);
    assert_holds("out", "Trouble: ");
}

static void what_one_answers_the_other_sees_at_the_next_turn(void **state)
{
    (void)state;
    window *east = begin_as("east"), *west = join_as("west");
    window_type(west, "no");
    window_await(west, "What is wrong?");
    window_type(east, "known");
    window_await(east, "Meanwhile:\n");
    window_await(east, " west: joined\n");
    window_await(east, " west: Is there smoke at the pump? No\n");
    window_await(east, "What is wrong?");
    window_type(east, "short cycling");
    window_await(east, "Is it this");
    window_type(east, "1");
    window_await(east, "did it help?");
    window_type(west, "known");
    window_await(west, " east: the trouble: The pump starts and stops\n");
    window_await(west, "did it help?");
    assert_int_equal(window_close(west), 3);
    assert_int_equal(window_close(east), 3);
    assert_int_equal(resume("known"), 3);
    assert_holds("out", "Trouble: The pump starts and stops\nAnswers: Is there smoke at the pump? No\nPoints to: ");
}

/* Danger is ruled out, the trouble is none of the list, and both stand at the first question. */
static void begin_at_a_question(window **east, window **west)
{
    *east = begin_as("east");
    window_type(*east, "no");
    window_await(*east, "What is wrong?");
    window_type(*east, "none of these");
    window_await(*east, "What do you hear at the pump?");
    window_await_next_prompt(*east);
    *west = come_as("west");
    window_await(*west, "Take it over");
    window_type(*west, "2");
    window_await(*west, "What do you hear at the pump?");
    window_await_next_prompt(*west);
}

/* Both answer before either can know. */
static void answer_differently(window *east, window *west)
{
    window_signal(east, SIGSTOP);
    window_signal(west, SIGSTOP);
    window_type(east, "nothing");
    window_type(west, "cannot");
    window_signal(east, SIGCONT);
    window_await(east, "nothing\n");
    window_await_next_prompt(east);
    window_signal(west, SIGCONT);
    window_await(west, "answered differently by people who did not know of each other");
}

static void contradicting_answers_are_settled_and_both_kept(void **state)
{
    (void)state;
    window *east, *west;
    begin_at_a_question(&east, &west);
    answer_differently(east, west);
    window_await(west, "1. What do you hear at the pump? ");
    window_await(west, "2. What do you hear at the pump? ");
    window_await(west, "3. Ask it again");
    window_type(east, "known");
    window_await(east, "answered differently");
    window_type(west, "What do you hear at the pump? Nothing at all");
    window_await(west, "did it help?");
    window_type(east, "back");
    window_await(east, "Meanwhile:\n");
    window_await(east, "west: settled which answer is right");
    window_await_next_prompt(east);
    assert_int_equal(window_close(west), 3);
    assert_int_equal(window_close(east), 3);
    assert_int_equal(sh("cat cases/*/*/*/* | grep -c '\"kind\":\"answer\"' | grep -qx 3"), 0);
}

static void an_answer_given_anew_settles_too(void **state)
{
    (void)state;
    window *east, *west;
    begin_at_a_question(&east, &west);
    answer_differently(east, west);
    window_type(west, "3");
    window_await(west, "Once more:");
    window_type(west, "nothing");
    window_await(west, "did it help?");
    assert_int_equal(window_close(west), 3);
    assert_int_equal(window_close(east), 3);
    assert_int_equal(resume(""), 3);
    assert_false(holds("out", "answered differently"));
    assert_false(holds("out", "To settle"));
}

static void settling_can_be_taken_back(void **state)
{
    (void)state;
    window *east, *west;
    begin_at_a_question(&east, &west);
    answer_differently(east, west);
    window_type(west, "1");
    window_await(west, "did it help?");
    window_type(west, "back");
    window_await(west, "answered differently");
    assert_int_equal(window_close(west), 3);
    assert_int_equal(window_close(east), 3);
    assert_int_equal(sh("$T ask --case %s --cases cases --no-input >out", number), 3);
    assert_holds("out", "To settle: What do you hear at the pump? ");
    assert_int_equal(resume("1"), 3);
    assert_holds("out", "did it help?");
}

static void the_same_answer_twice_is_no_dispute(void **state)
{
    (void)state;
    window *east = begin_as("east"), *west = join_as("west");
    window_signal(west, SIGSTOP);
    window_type(west, "no");
    window_type(east, "no");
    window_await(east, "What is wrong?");
    window_signal(west, SIGCONT);
    window_await(west, "What is wrong?");
    assert_int_equal(window_close(west), 3);
    assert_int_equal(window_close(east), 3);
    assert_false(holds("west", "answered differently"));
}

/* They come one after the other, and both stand at the fix. */
static window *begin_at_the_fix(void)
{
    window *east = begin_as("east");
    window_type(east, "no");
    window_await(east, "What is wrong?");
    window_type(east, "short cycling");
    window_await(east, "Is it this");
    window_type(east, "1");
    window_await(east, "did it help?");
    window_await_next_prompt(east);
    return east;
}

static window *join_at_the_fix(void)
{
    window *west = come_as("west");
    window_await(west, "Take it over");
    window_type(west, "2");
    window_await(west, "did it help?");
    window_await_next_prompt(west);
    return west;
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
    window_close(one);
    window_close(other);
    assert_int_equal(sh("$T ask --case %s --cases cases --no-input >out 2>err", number), 3);
}

static void the_same_report_twice_happened_once(void **state)
{
    (void)state;
    window *east = begin_at_the_fix(), *west = join_at_the_fix();
    type_at_once(east, "No change", west, "No change");
    end_both(east, west);
    sh("cp out twice; cat cases/*/*/*/* | grep -c 'no-change' >count");
    assert_holds("count", "2");
    assert_holds("out", "Tried: Charge the tank with air: no change; to be put back: Let the air out again.\n");
    assert_int_equal(sh("cd cases/*/*/*/ && for f in *-2.jsonl; do sed -i '/no-change/,$d' $f; done"), 0);
    assert_int_equal(sh("$T ask --case %s --cases cases --no-input | grep '^Points to' >once; grep '^Points to' twice | cmp - once", number), 0);
}

static void different_reports_on_a_fix_are_settled(void **state)
{
    (void)state;
    window *east = begin_at_the_fix(), *west = join_at_the_fix();
    type_at_once(east, "No change", west, "Better, but not gone");
    end_both(east, west);
    assert_holds("out", "To settle: Charge the tank with air: ");
    assert_int_equal(resume("Charge the tank with air: no change"), 3);
    assert_holds("out", "This fix was reported on differently by people who did not know of each other. Which is right?");
    assert_holds("out", "Is it put back?");
    assert_int_equal(resume(""), 3);
    assert_holds("out", "Tried: Charge the tank with air: no change; to be put back");
}

static void put_back_and_left_are_settled(void **state)
{
    (void)state;
    window *east = begin_at_the_fix(), *west = join_at_the_fix();
    window_type(east, "No change");
    window_await(east, "Is it put back?");
    window_await_next_prompt(east);
    window_type(west, "known");
    window_await(west, "Is it put back?");
    window_await_next_prompt(west);
    type_at_once(east, "1", west, "2");
    end_both(east, west);
    assert_holds("out", "To settle: Charge the tank with air: ");
    assert_int_equal(resume("Charge the tank with air: left\nstop"), 3);
    assert_holds("out", "See that this was put back:\n  - Let the air out again.");
}

/* `back` names its step: what another has answered meanwhile stays. */
static void back_takes_back_the_step_that_was_meant(void **state)
{
    (void)state;
    window *east = begin_as("east");
    window_type(east, "no");
    window_await(east, "What is wrong?");
    window_await_next_prompt(east);
    window *west = come_as("west");
    window_await(west, "Take it over");
    window_type(west, "2");
    window_await(west, "What is wrong?");
    window_await_next_prompt(west);
    window_signal(east, SIGSTOP);
    window_type(east, "back");
    window_type(west, "short cycling");
    window_type(west, "1");
    window_await(west, "did it help?");
    window_signal(east, SIGCONT);
    window_await(east, "west: the trouble: The pump starts and stops");
    window_await(east, "Is there smoke at the pump?");
    assert_int_equal(window_close(west), 3);
    assert_int_equal(window_close(east), 3);
    assert_int_equal(resume(""), 3);
    assert_holds("out", "Trouble: The pump starts and stops\nAnswers: none yet\n");
}

static void whoever_is_taken_over_is_told(void **state)
{
    (void)state;
    window *east = begin_as("east"), *west = come_as("west");
    window_await(west, "Take it over");
    window_type(west, "3");
    window_await(west, "Is there smoke");
    window_type(east, "no");
    window_await(east, "west: took the case over");
    window_await(east, "Somebody has taken this case over.\n  1. Leave it to them\n  2. Go on too");
    window *cleo = come_as("cleo");
    window_await(cleo, "is open elsewhere: west (");
    assert_int_equal(window_close(cleo), 75);
    assert_false(holds("cleo", "east ("));
    window_type(east, "1");
    window_await(east, "To go on, type:");
    assert_int_equal(window_close(east), 3);
    window_type(west, "known");
    window_await(west, "east: Is there smoke at the pump? No");
    assert_int_equal(window_close(west), 3);
}

/* Records that came from another machine say that it was opened there, and nothing says that it was
 * left. */
static void of_another_machine_the_records_tell(void **state)
{
    (void)state;
    window *east = begin_as("east");
    window_type(east, "no");
    window_await(east, "What is wrong?");
    window_signal(east, SIGKILL);
    assert_int_equal(window_close(east), 128 + SIGKILL);
    assert_int_equal(resume(""), 3);
    assert_false(holds("out", "elsewhere"));
    assert_int_equal(sh("rm -rf cases"), 0);
    east = begin_as("east");
    window_signal(east, SIGKILL);
    window_close(east);
    assert_int_equal(sh("cd cases/*/*/*/ && f=$(ls) && w=${f%%.jsonl} && sed -i \"s/$w/0000aaaa0000/\" $f && mv $f 0000aaaa0000.jsonl"), 0);
    assert_int_equal(resume(""), 75);
    assert_holds("out", "was opened elsewhere and not left, as far as can be seen from here: east (");
    assert_int_equal(resume("3\\nno"), 3);
    assert_holds("out", "What is wrong?");
    assert_int_equal(resume(""), 3);
    assert_false(holds("out", "elsewhere"));
}

static void on_hold_and_handed_over_the_note_is_there(void **state)
{
    (void)state;
    window *east = begin_as("east");
    window_type(east, "no");
    window_await(east, "What is wrong?");
    window_type(east, "hold");
    window_await(east, "A note for whoever goes on?");
    window_type(east, "the caller fetches a gauge");
    window_await(east, "To go on, type:");
    assert_int_equal(window_close(east), 3);
    assert_int_equal(resume("hand over\\nWest\\nring back at noon"), 3);
    assert_holds("out", " east: put the case on hold: the caller fetches a gauge\n");
    assert_int_equal(resume(""), 3);
    assert_holds("out", " cleo: handed the case over to West: ring back at noon\n");
    assert_false(holds("out", "elsewhere"));
    assert_int_equal(sh("printf 'hold\\n' | $T ask $WELL --unsaved >out"), 3);
    assert_holds("out", "Nothing of this case is kept, so nobody can go on with it.");
}

/* One login, one writer, one after the other. */
static void each_is_called_as_he_called_himself(void **state)
{
    (void)state;
    window *east = begin_as("east");
    window_close(east);
    assert_int_equal(resume("hold\\nring back"), 3);
    assert_holds("out", " east: stopped\n");
    assert_int_equal(sh("$T ask --case %s --cases cases --no-input >out 2>err", number), 3);
    assert_holds("out", " cleo: put the case on hold: ring back\n");
}

static void five_lines_say_where_it_stands(void **state)
{
    (void)state;
    window *east = begin_as("east");
    assert_int_equal(window_close(east), 3);
    assert_int_equal(resume("no\\nshort cycling\\n1"), 3);
    assert_int_equal(resume(""), 3);
    assert_int_equal(sh("sed -n '/taken up again/,/^Try this/p' out >lines; sed -n '3,7s/:.*//p' lines | tr '\\n' ',' | grep -qx 'Trouble,Answers,Points to,Tried,Last here,' && sed -n 8p lines | grep -qx ''"), 0);
}

/* A copy that a program for sharing folders has made of a writer's file counts once. */
static void a_copy_of_a_file_changes_nothing(void **state)
{
    (void)state;
    window *east = begin_as("east");
    window_type(east, "no");
    window_await(east, "What is wrong?");
    window_type(east, "short cycling");
    window_await(east, "Is it this");
    window_type(east, "1");
    window_await(east, "did it help?");
    window_type(east, "back");
    window_await(east, "What is wrong?");
    window_close(east);
    assert_int_equal(sh("$T ask --case %s --cases cases --no-input >out", number), 3);
    assert_int_equal(sh("cd cases/*/*/*/ && f=$(ls) && cp $f ${f%%.jsonl}-copy.jsonl"), 0);
    assert_int_equal(sh("$T ask --case %s --cases cases --no-input >copied 2>err; cmp out copied && test ! -s err", number), 0);
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
        IN_FRESH_FOLDER(five_lines_say_where_it_stands),
        IN_FRESH_FOLDER(a_copy_of_a_file_changes_nothing),
    };
    return cmocka_run_group_tests_name("several writers", tests, NULL, NULL);
}
