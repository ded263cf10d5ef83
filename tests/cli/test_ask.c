/* `ask` from a pipe and from a terminal, as a person would go through it. */
#include "run_telltale.h"

#include "window.h"

/* Types these lines ("\n" between them); output in "out" and "err". */
static int session(const char *lines, const char *more)
{
    return sh("printf '%s\\n' | $T ask --cases cases %s >out 2>err", lines, more);
}

/* Byte offset of a text in "out", which must be there. */
static long place_of(const char *part)
{
    char *text = contents("out"), *found = strstr(text, part);
    if (found == NULL) print_error("\"%s\" is not in:\n%s\n", part, text);
    assert_non_null(found);
    long place = found - text;
    free(text);
    return place;
}

static void a_cured_case_ends_well(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nit goes on and off\\n1\\n1", "$WELL"), 0);
    assert_holds("out", "Is it this: The pump starts and stops?");
    assert_holds("out", "Question 1\nIs there smoke at the pump?");
    assert_holds("out", "The trouble is gone. What helped: Charge the tank with air");
    assert_holds("out", "The case is closed.");
    assert_int_equal(sh("test -s err"), 1);
}

static void safety_comes_before_the_first_step(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nshort cycling\\n1", "$WELL"), 3);
    long cautions = place_of("Stand dry."), complaint = place_of("What is wrong?"),
         fix = place_of("Try this: ");
    long who = place_of("Who: householder"), danger = place_of("Danger from:"),
         risk = place_of("Risk: serious; with what follows: medium");
    long lock = place_of("Switch the pump off at its breaker"), wear = place_of("Safety glasses"),
         step = place_of("Drain the tank.");
    assert_true(cautions < complaint && complaint < fix && fix < who && who < step);
    assert_true(danger < risk && risk < wear && wear < lock && lock < step);
    assert_true(step < place_of("did it help?"));
}

static void what_did_not_help_is_put_back(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nshort cycling\\n1\\nNo change\\nstop", "$WELL"), 3);
    assert_holds("out", "Before anything else is tried, put it back: Let the air out again.\n");
    assert_holds("out", "See that this was put back:\n  - Let the air out again.");
    assert_holds("out", "Charge the tank with air: no change");
}

static void better_looks_again(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nshort cycling\\n1\\n2\\n45\\nknown", "$WELL"), 3);
    assert_true(place_of("did it help?") <
                place_of("What does the gauge at the tank read while nobody draws water?\nType"));
    assert_holds("out", "nobody draws water? 45 psi");
}

static void a_danger_stops_the_case(void **state)
{
    (void)state;
    assert_int_equal(session("yes\\n1", "$WELL"), 1);
    assert_true(place_of("DANGER: Something burns.") <
                place_of("STOP: Leave the room and close the door."));
    assert_holds("out", "Call: technician.");
    assert_false(holds("out", "Try this:"));
}

static void nobody_is_left_without_a_call(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nsilent\\n1\\n4\\nunsure\\nunsure\\nunsure\\n1\\n1\\n1", "$WELL"),
                     1);
    assert_holds("out", "There is nothing left here that is worth trying yourself.");
    assert_holds("out", "Call: technician.");
    assert_holds("out", "Switch the breaker on: could not be done");
}

static void a_wrong_answer_never_ends_it(void **state)
{
    (void)state;
    assert_int_equal(
        session("purple\\n7\\n\\nno\\nquxx\\n99\\n\\n4\\nlots\\n900\\n3 bar\\n45 psi\\nstop",
                "$WELL"),
        3);
    assert_holds("out", "These words are not in the list.");
    assert_holds("out", "That is none of the answers. Type a number from 1 to 2");
    assert_int_equal(sh("test \"$(grep -c 'Is there smoke' out)\" -ge 4"), 0);
}

static void every_word_works(void **state)
{
    (void)state;
    assert_int_equal(
        session("?\\nknown\\nback\\nchange\\nwhy\\nknown\\nno\\nback\\nno\\nshort "
                "cycling\\n1\\nchange\\n1\\nyes\\n:STOP",
                "$WELL"),
        3);
    assert_holds("out", "I looked, and can't tell");
    assert_holds("out", "Nothing is known so far.");
    assert_holds("out", "There is no step to take back.");
    assert_holds("out", "There is no answer to change yet.");
    assert_holds("out", "It rules out a danger");
    assert_holds("out", "What it points to:");
    assert_holds("out", "One step back.");
    assert_holds("out", "Which answer was wrong?");
    assert_holds("out", "Once more:\nIs there smoke at the pump?");
    assert_true(place_of("Which answer was wrong?") < place_of("DANGER: Something burns."));
}

static void cannot_is_kept_as_said(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nnone of these\\ncannot\\nknown", "$WELL"), 3);
    assert_holds("out", "1 question nobody could answer");
}

/* "stop" as an answer is the answer; as the beginning of one it is our word. */
static void an_answer_wins_over_a_word(void **state)
{
    (void)state;
    sh("rm -rf words && cp -r $WELL words && sed -i 's/      stopped: .*/      stop: It stops/' "
       "words/parts/questions.yaml");
    sh("printf 'smoke: no\\ntank-gauge: 10 psi\\n' >a.yaml");
    assert_int_equal(session("stop\\nknown", "words --answers a.yaml"), 3);
    assert_holds("out", "Or type: unsure, cannot, why, known, change, back, :stop, ?");
    assert_holds("out", "What do you hear at the pump? It stops");
    assert_int_equal(session("stop\\nknown", "$WELL --answers a.yaml"), 3);
    assert_holds("out", "Or type: unsure, cannot, why, known, change, back, stop, ?");
    assert_int_equal(sh("grep -q '^> known' out"), 1);
}

static void answers_may_come_from_a_file(void **state)
{
    (void)state;
    sh("printf 'smoke: no\\npump-sound: rapid\\n' >a.yaml");
    assert_int_equal(session("", "$WELL --answers a.yaml --no-input"), 3);
    assert_holds("out", "What it points to:\n  1. The tank has lost its air cushion");
    assert_holds("out", "Fixes, in the order to try them");
    assert_int_equal(sh("grep -c '^>' out | grep -qx 0"), 0);
    assert_int_equal(sh("$T ask $WELL --unsaved --no-input --answers - <a.yaml >out 2>err"), 3);
    assert_holds("out", "Nothing of this case was kept.");
    assert_int_equal(sh("$T ask $WELL --answers - <a.yaml >out 2>err"), 2);
    sh("echo 'smoke: blue' >a.yaml");
    assert_int_equal(session("", "$WELL --answers a.yaml --no-input"), 65);
    assert_holds("err", "a.yaml:1");
}

static void what_is_typed_steers_no_terminal(void **state)
{
    (void)state;
    assert_int_equal(
        session("\\033[2Jshort\\033]0;x\\007 cycling\\342\\200\\256\\n1\\nstop", "$WELL"), 3);
    assert_int_equal(sh("LC_ALL=C grep -q '[^[:print:][:space:]]' out"), 1);
    assert_int_equal(sh("! LC_ALL=C grep -q '[^ -~]' cases/*/*/*/*.jsonl"), 0);
}

static void a_long_line_is_survived(void **state)
{
    (void)state;
    assert_int_equal(sh("(head -c 100000 /dev/zero | tr '\\0' x; printf '\\n4\\nno\\n') | $T ask "
                        "$WELL --cases cases >out 2>err"),
                     3);
    assert_holds("out", "Is there smoke at the pump?");
}

static void forty_columns_are_enough(void **state)
{
    (void)state;
    const char *const words[] = {"ask", WELL, "--unsaved", NULL};
    window *w = window_open(&(window_plan){.words = words, .rows = 24, .columns = 40});
    window_type_lines(w, "short cycling\n1\nno\nknown\nstop");
    window_await_end(w);
    assert_non_null(strstr(window_text(w), "Charge the tank with air"));
    assert_in_range(widest_line(window_text(w)), 30, 40);
    assert_int_equal(window_close(w), 3);
}

static void nothing_is_wrapped_in_a_pipe(void **state)
{
    (void)state;
    assert_int_equal(sh("COLUMNS=20 $T check $WELL >out"), 0);
    assert_int_equal(sh("test \"$(wc -l <out)\" = 2"), 0);
}

/* The site's facts fill pages, and nobody typed what was reckoned from them. */
static void answers_to_change_are_those_of_the_case(void **state)
{
    (void)state;
    const char *book = "--site '" TT_SOURCE_DIR "/rules/foam-line/site.yaml' '" TT_SOURCE_DIR "/rules/foam-line'";
    assert_int_equal(session("1\\nfoam too dry\\n1\\n2,6\\n2,6 psi\\nchange\\n1\\n2.6 bar\\nknown\\nchange\\n4\\nstop", book), 3);
    assert_holds("out", "2.6 psi is far from what is usual here, 20 psi to 40 psi. If it is right, type it with its unit: 2.6 psi.");
    long list = place_of("Which answer was wrong?\n  1. What does the foam-air gauge read while foam is on? 2.6 psi\n  2. ");
    long typed = place_of("2.6 bar is 37.71 psi."), site = place_of("  4. Something known of this site\n");
    assert_true(list < site && site < typed);
    assert_true(typed < place_of("Which answer was wrong?\n  1. Which strength does the card"));
    assert_holds("out", "while foam is on? 37.71 psi\n");
    assert_false(holds("out", "37.709"));
    assert_false(holds("out", "minus"));
    assert_false(holds("out", "9999"));
}

/* A list as high as the screen would push the help off it. */
static void help_is_not_hidden_by_the_complaints(void **state)
{
    (void)state;
    assert_int_equal(session("no\\n?\\n\\nblue moon\\nshort cycling\\n?\\n1\\nstop", "$WELL"), 3);
    assert_holds("out", "You can close this window at any time.\n\nWhat is wrong? Say it in your own words, or type a number.\nEnter alone shows the list.\n");
    assert_holds("out", "> \n\nWhat is wrong? Say it in your own words, or type a number.\n  1. ");
    assert_holds("out", "not in the list. Try other words, or type a number.\n\nWhat is wrong? Say it in your own words, or type a number.\nEnter alone");
    assert_holds("out", "at any time.\n\nIs it this: The pump starts and stops?\n  1. Yes\n");
}

/* Neither the cause that leads nor a number means anything while danger is on. */
static void a_stop_explains_itself(void **state)
{
    (void)state;
    assert_int_equal(session("yes\\nwhy\\n7\\nstop", "$WELL"), 3);
    assert_holds("out", "> why\n\nWhat was answered asks for this stop.");
    assert_false(holds("out", "Why rather this"));
    assert_holds("out", "Type a number from 1 to 2, or one of the words.");
}

static void who_cannot_name_the_trouble_goes_on(void **state)
{
    (void)state;
    assert_int_equal(session("no\\ndont know\\n4\\nstop", "$WELL"), 3);
    assert_holds("out", "If you can't say what is wrong, type 4.\n");
    assert_holds("out", "> 4\n\nQuestion 2\n");
}

static void what_is_no_outcome_says_what_to_type(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nshort cycling\\n1\\nunsure\\ncannot\\nstop", "$WELL"), 3);
    assert_holds("out", "If you see no difference, that is no change.\n");
    assert_holds("out", "Charge the tank with air: could not be done");
}

static void not_to_know_may_be_said_in_many_words(void **state)
{
    (void)state;
    static const char *const said[] = {"unsure", "not sure", "I am not sure", "Dont know", "no idea"};
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        char typed[100];
        snprintf(typed, sizeof typed, "no\\nshort cycling\\n1\\n1\\n%s", said[i]);
        session(typed, "$WELL");
        assert_false(holds("out", "That is no answer here."));
        assert_false(holds("out", "none of the answers"));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_cured_case_ends_well),
        cmocka_unit_test(safety_comes_before_the_first_step),
        cmocka_unit_test(what_did_not_help_is_put_back),
        cmocka_unit_test(better_looks_again),
        cmocka_unit_test(a_danger_stops_the_case),
        cmocka_unit_test(nobody_is_left_without_a_call),
        cmocka_unit_test(a_wrong_answer_never_ends_it),
        cmocka_unit_test(every_word_works),
        cmocka_unit_test(cannot_is_kept_as_said),
        cmocka_unit_test(an_answer_wins_over_a_word),
        cmocka_unit_test(answers_may_come_from_a_file),
        cmocka_unit_test(what_is_typed_steers_no_terminal),
        cmocka_unit_test(a_long_line_is_survived),
        cmocka_unit_test(forty_columns_are_enough),
        cmocka_unit_test(nothing_is_wrapped_in_a_pipe),
        cmocka_unit_test(answers_to_change_are_those_of_the_case),
        cmocka_unit_test(help_is_not_hidden_by_the_complaints),
        cmocka_unit_test(a_stop_explains_itself),
        cmocka_unit_test(who_cannot_name_the_trouble_goes_on),
        cmocka_unit_test(what_is_no_outcome_says_what_to_type),
        cmocka_unit_test(not_to_know_may_be_said_in_many_words),
    };
    return cmocka_run_group_tests_name("ask", tests, NULL, NULL);
}
