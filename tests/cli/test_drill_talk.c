/* A drill at the prompt and for programs: danger first and for real, nothing among the cases,
 * scores on this machine alone, the same call by its seed. */
#include "run_telltale.h"

#include "window.h"

#define SAMPLE TT_SOURCE_DIR "/cli/sample"
#define DRILL  "$T drill '" SAMPLE "' --seed 3 --plain "

static int afresh(void **state)
{
    (void)state;
    return sh("rm -rf .local cases state; mkdir cases") != 0;
}

static void it_ends_with_what_each_step_was_worth(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf 'no\\n1\\n1\\nSend somebody, and end the call\\n' | TELLTALE_CASES=cases " DRILL
           " >out 2>err"),
        0);
    assert_holds("out", "This is a drill.");
    assert_holds("out", "What was wrong");
    assert_holds("out", "What each step was worth");
    assert_holds("out", "The program would have");
    assert_holds("out", "How the program would have gone");
    assert_holds("out", "drill " SAMPLE " --seed 3");
    assert_int_equal(sh("test -z \"$(ls cases)\""), 0);
    assert_int_equal(sh("test ! -e .local/share/telltale/cases"), 0);
    assert_holds(".local/state/telltale/drills.jsonl", "\"seed\":3");
    assert_int_equal(sh("test \"$(stat -c %%a .local/state/telltale/drills.jsonl)\" = 600"), 0);
}

static void danger_that_is_said_is_real(void **state)
{
    (void)state;
    sh("printf 'no\\nsomebody is bleeding\\n' | " DRILL " >out 2>err");
    assert_holds("out", "bleed");
    assert_int_equal(sh("grep -q 'What was wrong' out"), 1);
    assert_int_equal(sh("test ! -e .local/state/telltale/drills.jsonl"), 0);
    sh("printf 'yes\\n' | " DRILL " >out 2>err"); /* at the first question */
    assert_int_equal(sh("grep -q 'The caller says' out"), 1);
}

/* Danger is ruled out first; one fix does nothing, the next one cures. What is left by "none of
 * these" is no step. */
static void a_call_that_is_cured_says_how(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf 'no\\nAsk the caller something\\nIs anything dangerous going on at the "
           "cabinet?\\nAsk the caller something\\nNone of these\\nHave the caller try "
           "something\\nNone of these\\nHave the caller try something\\nTake out every second "
           "tray\\nHave the caller try something\\nFill the water pan\\n' | $T drill '" SAMPLE
           "' --seed 1 --plain >out 2>err"),
        0);
    assert_holds("out",
                 "Take out every second tray: done. The caller says that nothing has changed.");
    assert_holds("out", "The drill is over: the trouble is gone.");
    assert_holds("out", "No danger was missed.");
    assert_holds("out", "1. Is anything dangerous going on at the cabinet? No, nothing like that");
    assert_holds("out", "2. Take out every second tray");
    assert_holds("out", "3. Fill the water pan");
    assert_false(holds("out", "  - 4. "));
    assert_holds("out", "Drills: 1. The trouble was gone in 1.");
    assert_holds("out", "Dangers missed: 0.");
    assert_holds(".local/state/telltale/drills.jsonl", "\"dangers_missed\":0");
}

/* Places are gone to one by one, and each shows what is seen there. */
static void a_place_is_looked_at_as_a_whole(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf 'no\\nHave the caller look here: the fuel tank\\n1\\nSend somebody, "
           "and end the call\\n' | $T drill " TT_SOURCE_DIR
           "/rules/standby-generator --seed 1 --plain >out 2>err"),
        0);
    assert_holds("out", "The caller answers:");
    assert_holds("out", "The drill is over: somebody was sent.");
}

/* The question about danger, and all that the drill says, in the language that was asked for. */
static void it_is_held_in_the_language_asked_for(void **state)
{
    (void)state;
    sh("printf 'no\\npeligro\\n' | $T drill " TT_SOURCE_DIR
       "/rules/foam-line --seed 3 --plain --language es >out 2>err");
    assert_holds("out", "escriba peligro en cualquier momento");
    assert_holds("out", "¿Está pasando algo peligroso en este momento?");
    assert_holds("out", "¿Qué hace usted ahora?");
    assert_false(holds("out", "Is anything dangerous"));
    assert_false(holds("out", "What do you do now?"));
    assert_holds("out", "ALTO. No se hace nada más hasta que esto sea seguro.");
    assert_false(holds("out", "No se pudo guardar") ||
                 holds("out", "no se pudo guardar")); /* no disk is full */
}

static void scores_add_up(void **state)
{
    (void)state;
    for (int i = 0; i < 2; i++)
        assert_int_equal(
            sh("printf 'no\\nSend somebody, and end the call\\n' | XDG_STATE_HOME=$PWD/state " DRILL
               " >out 2>err"),
            0);
    assert_holds("out", "Drills: 2. The trouble was gone in 0.");
    assert_holds("out", "Dangers missed: 2.");
    assert_int_equal(sh("test $(wc -l <state/telltale/drills.jsonl) = 2"), 0);
    assert_int_equal(sh("echo 'no score' >>state/telltale/drills.jsonl; printf 'no\\nSend "
                        "somebody, and end the call\\n' | "
                        "XDG_STATE_HOME=$PWD/state " DRILL " --unsaved >out 2>err"),
                     0);
    assert_holds("out", "Drills: 3.");
    assert_int_equal(sh("test $(wc -l <state/telltale/drills.jsonl) = 3"), 0);
}

/* The file is the learner's own, and may have been edited, cut or joined with another. */
static void lines_that_are_no_scores_count_for_nothing(void **state)
{
    static const char *const lines[] = {
        "{}",
        "[]",
        "{\"book\":\"Another\",\"minutes\":3,\"engine_minutes\":3,\"dangers_missed\":0}",
        "{\"book\":7,\"minutes\":3,\"engine_minutes\":3,\"dangers_missed\":0}",
        "{\"book\":\"Proving cabinet\",\"engine_minutes\":3,\"dangers_missed\":0}",
        "{\"book\":\"Proving cabinet\",\"minutes\":3,\"dangers_missed\":0}",
        "{\"book\":\"Proving cabinet\",\"minutes\":3,\"engine_minutes\":3}",
        "{\"book\":\"Proving cabinet\",\"minutes\":-3,\"engine_minutes\":3,"
        "\"dangers_missed\":0}",
        "{\"book\":\"Proving cabinet\",\"minutes\":1e300,\"engine_minutes\":3,"
        "\"dangers_missed\":0}",
        "{\"book\":\"Proving cabinet\",\"minutes\":3,\"engine_minutes\":-3,"
        "\"dangers_missed\":0}",
        "{\"book\":\"Proving cabinet\",\"minutes\":3,\"engine_minutes\":1e300,"
        "\"dangers_missed\":0}",
        "{\"book\":\"Proving cabinet\",\"minutes\":3,\"engine_minutes\":3,"
        "\"dangers_missed\":-1}",
        "{\"book\":\"Proving cabinet\",\"minutes\":3,\"engine_minutes\":3,"
        "\"dangers_missed\":1e99}",
        "",
    };
    (void)state;
    assert_int_equal(sh("rm -rf edited && mkdir -p edited/telltale"), 0);
    FILE *file = fopen("edited/telltale/drills.jsonl", "w");
    assert_non_null(file);
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) fprintf(file, "%s\n", lines[i]);
    fputs(
        "{\"book\":\"Proving cabinet\",\"minutes\":3,\"engine_minutes\":0,\"dangers_missed\":4,"
        "\"cured\":true}\n{\"book\":\"Proving cabinet\",\"minutes\":3,\"engine_mi", /* cut short */
        file);
    assert_int_equal(fclose(file), 0);
    assert_int_equal(sh("printf 'no\\nSend somebody, and end the call\\n' | "
                        "XDG_STATE_HOME=$PWD/edited " DRILL " --unsaved >out 2>err"),
                     0);
    assert_holds("out", "Drills: 2. The trouble was gone in 1.");
    assert_holds("out", "Dangers missed: 5.");
}

/* A line that was cut short, when the power went, takes no other along. */
static void a_score_behind_one_cut_short_counts(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf cut && mkdir -p cut/telltale && "
                        "printf '{\"book\":\"Prov' >cut/telltale/drills.jsonl"),
                     0);
    for (int i = 0; i < 2; i++)
        assert_int_equal(sh("printf 'no\\nSend somebody, and end the call\\n' | "
                            "XDG_STATE_HOME=$PWD/cut " DRILL " >out 2>err"),
                         0);
    assert_holds("out", "Drills: 2.");
}

static void one_seed_is_one_call(void **state)
{
    (void)state;
    assert_int_equal(
        sh("for i in 1 2; do printf 'no\\n1\\n1\\nSend somebody, and end the call\\n' | " DRILL
           "--unsaved >out$i; done; cmp out1 out2"),
        0);
    assert_int_equal(sh("$T drill '" SAMPLE "' --seed x 2>err"), 2);
    assert_holds("err", "--seed x: write a whole number");
    assert_int_equal(sh("$T drill '" SAMPLE "' --as nobody 2>err </dev/null"), 2);
    assert_int_equal(sh("printf 'no\\n' | " DRILL " >out"), 3); /* left */
    assert_int_equal(sh("printf 'no\\nSend somebody, and end the call\\n' | " DRILL " >&- 2>err"),
                     74);
}

static void for_programs(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf '%%s\\n' '{\"choice\":\"nothing\"}' '{\"choice\":\"call\"}' | $T drill '" SAMPLE
           "' --seed 3 --json --unsaved >out 2>err"),
        0);
    assert_holds("out", "\"kind\":\"drill\"");
    assert_holds("out", "\"kind\":\"drill-review\"");
}

#define FOAM_DRILL "$T drill " TT_SOURCE_DIR "/rules/foam-line --seed 7 --json --unsaved >out 2>err"

/* Of the last turn, and that it is the last. */
static void assert_ends(const char *how, const char *status)
{
    assert_int_equal(sh("tail -n 1 out >last; test \"$(grep -c '\"kind\":\"end\"' out)\" = 1"), 0);
    assert_holds("last", "\"kind\":\"end\"");
    assert_holds("last", how);
    assert_holds("last", status);
}

/* Who reads turns knows that no more will come, and why, as of a case. */
static void a_program_is_told_how_it_ended(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf '%%s\n' '{\"choice\":\"safe\"}' '{\"choice\":\"call\"}' | " FOAM_DRILL), 0);
    assert_ends("\"how\":\"call\"", "\"status\":0");
    assert_int_equal(
        sh("printf '%%s\n' '{\"choice\":\"safe\"}' '{\"word\":\"stop\"}' | " FOAM_DRILL), 3);
    assert_ends("\"how\":\"stopped\"", "\"status\":3");
    assert_int_equal(sh("printf '{\"choice\":\"safe\"}\n' | " FOAM_DRILL), 3);
    assert_ends("\"how\":\"input-ended\"", "\"status\":3");
    assert_int_equal(sh("true | " FOAM_DRILL), 3);
    assert_ends("\"how\":\"input-ended\"", "\"kept\":false");
}

/* A turn that takes no reply says so: whoever replied to it would be one reply ahead. */
static void a_program_is_told_what_takes_no_reply(void **state)
{
    (void)state;
    sh("printf '%%s\n' '{\"choice\":\"safe\"}' '{\"choice\":\"call\"}' | " FOAM_DRILL);
    assert_int_equal(sh("grep '\"takes\":\\[\\]' out | cut -d, -f4 >told; "
                        "printf '%%s\n' '\"kind\":\"drill\"' '\"kind\":\"drill-review\"' "
                        "'\"kind\":\"end\"' | cmp - told"),
                     0);
}

/* Kept is what is on the disk, not what was to be there. */
static void a_score_that_was_not_kept_is_told(void **state)
{
    static const char *const folders[] = {"there", "full"};
    int statuses[2];
    (void)state;
    assert_int_equal(sh("rm -rf there full; echo >full"), 0);
    for (int i = 0; i < 2; i++) {
        statuses[i] = sh("printf '%%s\\n' '{\"choice\":\"safe\"}' '{\"choice\":\"call\"}' | "
                         "XDG_STATE_HOME=$PWD/%s $T drill " TT_SOURCE_DIR
                         "/rules/foam-line --seed 7 --json >out 2>err",
                         folders[i]);
        assert_ends("\"how\":\"call\"", i == 0 ? "\"kept\":true" : "\"kept\":false");
    }
    assert_int_equal(statuses[0], 0);
    assert_holds("err", "the score can't be kept in ");
}

/* A person has read the review of one that is over. Who leaves sooner is told that it ends, and
 * takes along what to do about a danger that is real. */
static void a_person_who_leaves_is_told(void **state)
{
    (void)state;
    sh("printf 'no\nSend somebody, and end the call\n' | " DRILL " >out 2>err");
    assert_false(holds("out", "The drill ends here."));
    sh("printf 'no\nstop\n' | " DRILL " >out 2>err");
    assert_holds("out", "The drill ends here. Nothing of it is kept.");
    sh("printf '3\nstop\n' | $T drill " TT_SOURCE_DIR
       "/rules/foam-line --unsaved --plain >out 2>err; sed '1,/ends here/d' out >last");
    assert_holds("last", "Press the nearest stop button");
}

/* To ask the caller about danger is no danger here, though the question is called that. */
static void the_callers_danger_is_not_ones_own(void **state)
{
    (void)state;
    sh("printf '%%s\\n' '{\"choice\":\"safe\"}' '{\"choice\":\"ask\"}' "
       "'{\"choice\":\"look-danger\"}' | $T drill " TT_SOURCE_DIR
       "/rules/foam-line --seed 7 --json --unsaved >out 2>err");
    assert_holds("out", "\"name\":\"look-danger\"");
    assert_false(holds("out", "\"kind\":\"stop\""));
    assert_holds("out", "The caller answers:");
    sh("printf '%%s\\n' '{\"choice\":\"safe\"}' '{\"choice\":\"ask\"}' '{\"word\":\"danger\"}' | "
       "$T drill " TT_SOURCE_DIR "/rules/foam-line --seed 7 --json --unsaved >out 2>err");
    assert_holds("out", "\"kind\":\"stop\"");
}

/* What is typed in need is answered, and not swallowed by the call. */
static void help_is_answered(void **state)
{
    (void)state;
    sh("printf 'no\\nhelp\\n3\\n?\\n' | " DRILL " >out 2>err");
    assert_holds("out", "Which help do you need?");
    assert_holds("out", "Type the number in front of what you want to do, and press Enter.");
    sh("printf 'no\\nhelp\\n1\\n' | " DRILL " >out 2>err");
    assert_int_equal(sh("tail -25 out | grep -q 'The caller says'"), 1);
}

/* On a small screen, too, it is read that this is a drill and that danger is not, before danger is
 * asked. */
static void what_is_told_first_stays_on_a_small_screen(void **state)
{
    static const char *const words[] = {
        "drill", TT_SOURCE_DIR "/rules/foam-line", "--seed", "3", "--no-color", NULL};
    (void)state;
    window *w = window_open(&(window_plan){.words = words, .rows = 24, .columns = 40});
    window_await(w, "This is a drill.");
    window_await(w, "Enter: more. Or type: danger, stop");
    window_await_prompt(w, 1);
    assert_null(strstr(window_text(w), "Danger first:"));
    window_type(w, "");
    window_await(w, "Danger first:");
    window_await_prompt(w, 2);
    window_type(w, "stop");
    window_await_end(w);
    window_close(w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(it_ends_with_what_each_step_was_worth, afresh),
        cmocka_unit_test_setup(danger_that_is_said_is_real, afresh),
        cmocka_unit_test_setup(a_call_that_is_cured_says_how, afresh),
        cmocka_unit_test_setup(a_place_is_looked_at_as_a_whole, afresh),
        cmocka_unit_test_setup(it_is_held_in_the_language_asked_for, afresh),
        cmocka_unit_test_setup(scores_add_up, afresh),
        cmocka_unit_test_setup(lines_that_are_no_scores_count_for_nothing, afresh),
        cmocka_unit_test_setup(a_score_behind_one_cut_short_counts, afresh),
        cmocka_unit_test_setup(one_seed_is_one_call, afresh),
        cmocka_unit_test_setup(the_callers_danger_is_not_ones_own, afresh),
        cmocka_unit_test_setup(for_programs, afresh),
        cmocka_unit_test_setup(a_program_is_told_how_it_ended, afresh),
        cmocka_unit_test_setup(a_program_is_told_what_takes_no_reply, afresh),
        cmocka_unit_test_setup(a_score_that_was_not_kept_is_told, afresh),
        cmocka_unit_test_setup(a_person_who_leaves_is_told, afresh),
        cmocka_unit_test_setup(help_is_answered, afresh),
        cmocka_unit_test_setup(what_is_told_first_stays_on_a_small_screen, afresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
