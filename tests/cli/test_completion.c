/* What a shell is told may stand next, and that bash, zsh and fish do ask for it. */
#include "run_telltale.h"

#include "skips.h"
#include "verb/verbs.h"

#define SHELLS TT_SOURCE_DIR "/cli/completion/"

static int fresh(void **state)
{
    (void)state;
    return sh("rm -rf out err cases *.yaml && mkdir -p cases");
}

static bool offers(const char *candidate)
{
    char *text = contents("out");
    bool found = false;
    const size_t length = strlen(candidate);
    for (const char *at = text; at != NULL && *at != 0 && !found;
         at = strchr(at, '\n'), at = at != NULL ? at + 1 : NULL)
        found = strncmp(at, candidate, length) == 0 && (at[length] == '\t' || at[length] == '\n');
    free(text);
    return found;
}

static void every_verb_is_offered(void **state)
{
    (void)state;
    assert_int_equal(sh("$T complete -- '' >out 2>err && test ! -s err"), 0);
    for (unsigned i = 0; i < verb_count; i++) assert_true(offers(verb_table[i].name));
    assert_int_equal(sh("test $(wc -l <out) = %u", verb_count), 0);
    assert_int_equal(sh("$T complete -- che >out && test \"$(cut -f 1 out)\" = check"), 0);
}

static void each_verb_has_its_own_options(void **state)
{
    (void)state;
    for (unsigned v = 0; v < verb_count; v++) {
        assert_int_equal(sh("$T complete -- %s -- >out; $T complete -- %s - >out",
                            verb_table[v].name, verb_table[v].name),
                         0);
        for (int i = 0; i < OPTION_COUNT; i++) {
            char name[64];
            snprintf(name, sizeof name, "--%s", option_table[i].name);
            if (offers(name) != ((option_table[i].verbs & verb_table[v].bit) != 0))
                fail_msg("%s and complete -- %s -", name, verb_table[v].name);
        }
    }
}

static void what_was_given_is_not_offered_again(void **state)
{
    (void)state;
    assert_int_equal(sh("$T complete -- rank --json --why $WELL --w >out"), 0);
    assert_int_equal(sh("test -s out"), 1);
    assert_int_equal(sh("$T complete -- rank --json $WELL --w >out"), 0);
    assert_true(offers("--why"));
}

static void values_are_those_there_are(void **state)
{
    (void)state;
    assert_int_equal(sh("$T complete -- ask --color '' >out"), 0);
    assert_true(offers("auto") && offers("always") && offers("never"));
    assert_int_equal(sh("$T complete -- ask $WELL --as '' >out"), 0);
    assert_true(offers("householder") && offers("technician"));
    assert_int_equal(sh("$T complete -- cases --state=on >out"), 0);
    assert_true(offers("--state=on-hold") && !offers("--state=open"));
    assert_int_equal(sh("$T complete -- round --every w >out"), 0);
    assert_true(offers("weekly"));
    assert_int_equal(sh("$T complete -- try $WELL d >out"), 0);
    assert_true(offers("dark"));
    assert_int_equal(sh("$T complete -- sheet --into x >out"), 0);
    assert_holds("out", "\tfiles\n");
    assert_int_equal(sh("$T complete -- new x >out"), 0);
    assert_holds("out", "\tfolders\n");
}

/* Each word of a verb and each value by what the tables call it; one word more than a verb takes is
 * nobody's. */
static void each_place_has_its_own_words(void **state)
{
    static const struct {
        const char *line, *first, *other, *never;
    } rows[] = {
        {"ask --language ''", "en\tEnglish\n", "es\t", "fault"},
        {"cases --kind ''", "fault\t\n", "record\t\n", "drill"},
        {"cases --sort ''", "began\t\n", "until\t\n", "listed"},
        {"cases --by ''", "month\t\n", "", "day"},
        {"compare ''", "foam-line\t", "\tfolders\n", "\tfiles"},
        {"compare $WELL ''", "foam-line\t", "\tfolders\n", "\tfiles"},
        {"sheet N ''", "foam-line\t", "\tfolders\n", "\tfiles"},
        {"rehearse ''", "foam-line\t", "\tfolders\n", "\tfiles"},
        {"rehearse $WELL ''", "\tfiles\n", "", "foam-line"},
        {"rename ''", "foam-line\t", "\tfolders\n", "\tfiles"},
        {"rank ''", "foam-line\t", "\tfolders\n", "\tfiles"},
        {"rank $WELL ''", "\tfiles\n", "", "foam-line"},
        {"help ''", "ask\t", "complete\t", "--"},
        {"ask --cases ''", "\tfolders\n", "", "\tfiles"},
        {"page --site ''", "\tfiles\n", "", "\tfolders"},
        {"ask --cases=x", "", "\tfolders", "foam-line"},
    };
    static const char *const nothing[] = {"rename $WELL ''", "rename $WELL x ''", "check a b ''",
                                          "ask --caller ''", "drill --seed ''"};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_int_equal(sh("$T complete -- %s >out 2>err && test ! -s err", rows[i].line), 0);
        assert_holds("out", rows[i].first);
        assert_holds("out", rows[i].other);
        if (holds("out", rows[i].never)) fail_msg("%s offers %s", rows[i].line, rows[i].never);
    }
    for (size_t i = 0; i < sizeof nothing / sizeof *nothing; i++)
        if (sh("$T complete -- %s >out 2>err && test ! -s err && test ! -s out", nothing[i]) != 0)
            fail_msg("%s offers something", nothing[i]);
}

/* Open ones to go on with; for a sheet, ended ones too; of the folder that the line names. */
static void cases_are_offered_by_number(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf 'no\\nshort cycling\\nstop\\n' | $T ask $WELL --cases cases >page 2>err"), 3);
    assert_int_equal(sh("sed -n 's/.*--case \\([0-9A-Z]*\\).*/\\1/p' page | head -n 1 >number && "
                        "test -s number"),
                     0);
    char *number = contents("number");
    number[strcspn(number, "\n")] = 0;
    assert_int_equal(sh("$T complete -- ask --cases cases --case '' >out"), 0);
    assert_true(offers(number));
    assert_holds("out", "open, House well: ");
    assert_int_equal(sh("$T complete -- sheet --cases cases '' >out"), 0);
    assert_true(offers(number));
    assert_int_equal(sh("$T complete -- --cases cases --case '' >out"), 0); /* before its verb */
    assert_true(offers(number));
    assert_int_equal(
        sh("mkdir -p none && $T complete -- ask --cases none --case '' >out && test ! -s out"), 0);
    free(number);
}

/* What is typed before may be wrong or half done: then nothing is offered, and nothing is said. */
static void nonsense_is_met_with_silence(void **state)
{
    (void)state;
    static const char *const lines[] = {"''",
                                        "nonsense ''",
                                        "ask --nonsense ''",
                                        "ask ./nowhere --as ''",
                                        "ask -- --as ''",
                                        "ask --color=",
                                        "rank a b c ''",
                                        "--answers x --as ''"};
    for (unsigned i = 0; i < sizeof lines / sizeof lines[0]; i++)
        assert_int_equal(sh("$T complete -- %s >out 2>err", lines[i]), 0);
    assert_int_equal(sh("$T complete >out 2>err && test ! -s err"), 0);
}

/* ---- in the shells ---- */

static void bash_completes(void **state)
{
    (void)state;
    need_program("bash", "bash");
    static const char asks[] =
        "bash --norc -c 'IFS=\" \"; . \"$0\"; COMP_WORDS=(\"$@\"); COMP_CWORD=$(($# - 1)); "
        "_telltale;"
        " printf \"%%s\\n\" \"${COMPREPLY[@]}\"' " SHELLS "telltale.bash $T %s >out 2>err";
    char command[1024];
    snprintf(command, sizeof command, asks, "rank --so");
    assert_int_equal(sh("%s", command), 0);
    assert_int_equal(sh("test \"$(cat out)\" = --soonest"), 0);
    snprintf(command, sizeof command, asks, "cases --state = on");
    assert_int_equal(sh("%s", command), 0);
    assert_int_equal(sh("test \"$(cat out)\" = on-hold"), 0);
    assert_int_equal(sh("touch answers.yaml"), 0);
    snprintf(command, sizeof command, asks, "ask --answers ans");
    assert_int_equal(sh("%s", command), 0);
    assert_int_equal(sh("test \"$(cat out)\" = answers.yaml"), 0);
    /* Names are taken as they are: with what they are quoted with, and never as patterns or
     * commands. */
    assert_int_equal(sh("rm -rf run 'my well' && cp -r $WELL 'my well' && touch 'q[1]' q1"), 0);
    snprintf(command, sizeof command, asks, "ask --answers q");
    assert_int_equal(sh("%s", command), 0);
    assert_int_equal(sh("test \"$(sort out)\" = \"$(printf 'q1\\nq[1]' | sort)\""), 0);
    static const char *const quoted[] = {"'my\\ well'", "'\"my well\"'", "\"'my well'\""};
    for (unsigned i = 0; i < sizeof quoted / sizeof quoted[0]; i++) {
        char line[64];
        snprintf(line, sizeof line, "ask %s --as house", quoted[i]);
        snprintf(command, sizeof command, asks, line);
        assert_int_equal(sh("IFS=' '; %s", command), 0);
        assert_int_equal(sh("test \"$(cat out)\" = householder"), 0);
    }
    snprintf(command, sizeof command, asks, "ask '$(touch run)' --as '`touch run`'");
    assert_int_equal(sh("IFS=' '; %s", command), 0);
    assert_int_equal(sh("test -e run"), 1);
}

static void zsh_completes(void **state)
{
    (void)state;
    need_program("zsh", "zsh");
    /* A zsh of its own on a terminal, with a tab typed into it. */
    assert_int_equal(
        sh("mkdir -p functions bin && cp " SHELLS
           "telltale.zsh functions/_telltale && ln -sf $T bin/telltale && mkdir -p empty-folder"),
        0);
    assert_int_equal(
        sh("zsh -f -c '\n"
           "zmodload zsh/zpty; zpty z zsh -f -i\n"
           "zpty -w z \"PATH=$PWD/bin:\\$PATH; fpath=($PWD/functions \\$fpath); autoload -U "
           "compinit; compinit -u -D; PS1=; unset zle_bracketed_paste; print BE''GIN\"\n"
           "zpty -r -m z told \"*BEGIN*\"; print -r -- $told\n"
           "zpty -w -n z $'\"'\"'telltale --vers\\t; print EN\"\"D\\n'\"'\"'; zpty -r -m z told "
           "\"*END*\"; print -r -- $told\n"
           "zpty -w -n z $'\"'\"'telltale check emp\\t; print EN\"\"D\\n'\"'\"'; zpty -r -m z told "
           "\"*END*\"; print -r -- $told\n"
           "' >out 2>err </dev/null"),
        0);
    assert_int_equal(sh("grep -qaE '^telltale [0-9.]+' out && grep -qa 'empty-folder/*: there is "
                        "no .yaml file' out"),
                     0);
}

static void fish_completes(void **state)
{
    (void)state;
    need_program("fish", "fish");
    assert_int_equal(sh("touch answers.yaml && mkdir -p bin && ln -sf $T bin/telltale"), 0);
    assert_int_equal(
        sh("PATH=$PWD/bin:$PATH fish --no-config -c 'source " SHELLS
           "telltale.fish; complete -C \"telltale rank --so\"; complete -C \"telltale "
           "cases --state on\"; complete -C \"telltale ask --answers ans\"' >out 2>err"),
        0);
    assert_true(offers("--soonest") && offers("on-hold"));
    assert_holds("out", "answers.yaml");
    assert_holds("out", "--soonest\tamong the fixes allowed");
    /* Of a program in a folder whose name a shell would read as a command. */
    assert_int_equal(
        sh("rm -rf 'a b;touch run' run && mkdir 'a b;touch run' && ln -s $T 'a b;touch "
           "run/telltale'"),
        0);
    assert_int_equal(sh("fish --no-config -c 'source " SHELLS
                        "telltale.fish; complete -C \"./a\\\\ b\\\\;touch\\\\ "
                        "run/telltale rank --so\"; complete -C \"$PWD/bin/telltale ask "
                        "--answers=ans\"' >out 2>err && "
                        "test ! -s err"),
                     0);
    assert_true(offers("--soonest") && offers("--answers=answers.yaml"));
    assert_int_equal(sh("test -e run"), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(every_verb_is_offered, fresh),
        cmocka_unit_test_setup(each_verb_has_its_own_options, fresh),
        cmocka_unit_test_setup(what_was_given_is_not_offered_again, fresh),
        cmocka_unit_test_setup(values_are_those_there_are, fresh),
        cmocka_unit_test_setup(each_place_has_its_own_words, fresh),
        cmocka_unit_test_setup(cases_are_offered_by_number, fresh),
        cmocka_unit_test_setup(nonsense_is_met_with_silence, fresh),
        cmocka_unit_test_setup(bash_completes, fresh),
        cmocka_unit_test_setup(zsh_completes, fresh),
        cmocka_unit_test_setup(fish_completes, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
