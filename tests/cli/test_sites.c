/* Sites: what equipment there is comes from a file, from the person, or from the book; and what
 * is learnt of it goes into the file. */
#include "run_telltale.h"

#include "books/site_text.h"
#include "host/plain_text.h"

#define FILTERS TT_SOURCE_DIR "/tests/cli/filters"

static int fresh(void **state)
{
    (void)state;
    setenv("FILTERS", FILTERS, 1);
    return sh("rm -rf cases config *.yaml book && mkdir cases");
}

static int session(const char *lines, const char *more)
{
    return sh("printf '%s\\n' | XDG_CONFIG_HOME=$PWD/config $T ask --cases cases %s >out 2>err",
              lines, more);
}

static void note_number(void)
{
    assert_int_equal(sh("sed -n 's/^Case number: //p' out | head -1 >number && test -s number"), 0);
}

static int resume(const char *lines, const char *more)
{
    return sh("printf '%s\\n' | XDG_CONFIG_HOME=$PWD/config $T ask --cases cases --case \"$(cat "
              "number)\" %s >out 2>err",
              lines, more);
}

/* A site file of two filters, with a remark that must stay. */
static void write_site(void)
{
    assert_int_equal(sh("printf 'site:\\n  title: The north house\\n  # measured by the baker\\n"
                        "  units:\\n    filter:\\n      coarse: {text: the coarse filter, "
                        "comes-before: [fine]}\\n      fine:\\n        text: the fine filter\\n'"
                        " >north.yaml"),
                     0);
}

/* All that is to be known of the case, so that its first fix is next. */
static void write_answers(void)
{
    assert_int_equal(
        sh("printf 'danger-now: no\\nflow: trickle\\nhardness: 8 gpg\\nkind-of of coarse: paper\\n"
           "cartridge of coarse: caked\\ncartridge of fine: clean\\n' >all.yaml"),
        0);
}

/* The fix is begun and done, the look at it taken, and it helped. */
#define TO_A_CURE   "begin\\ndone\\n1\\nyes"
#define AND_ANSWERS " --answers all.yaml"

static void what_is_said_is_written_and_taken_next_time(void **state)
{
    (void)state;
    assert_int_equal(
        session("no\\n1\\nThe north house\\nthe coarse filter, the fine filter\\n1\\n1\\nstop",
                "$FILTERS"),
        3);
    assert_holds("out", "Which filters are there, in the order the water goes through them?");
    assert_holds("out",
                 "There are, in this order:\n  - the coarse filter\n  - the fine filter\nIs that");
    assert_holds("out", " 1  Yes, in ~/config/telltale/sites/filters.yaml\n");
    sh("printf '# What there is, for the book \"House well and filters\".\\nsite:\\n  title: "
       "The "
       "north house\\n  units:\\n    filter:\\n      coarse:\\n        text: the coarse filter\\n  "
       " "
       "     comes-before: [fine]\\n      fine:\\n        text: the fine filter\\n' >wanted");
    assert_same("config/telltale/sites/filters.yaml", "wanted");
    assert_int_equal(session("no\\nstop", "$FILTERS"), 3);
    assert_holds("out", "Site: The north house\n");
    assert_false(holds("out", "Which filters"));
    assert_int_equal(sh("ls config/telltale/sites | grep -qvx filters.yaml"), 1);
}

/* Whatever is asked, somebody who tells of danger is not taken for a name. */
static void danger_is_heard_while_the_site_is_described(void **state)
{
    (void)state;
    static const char *const before[] = {"no\n",
                                         "no\n1\n",
                                         "no\n1\nThe north house\n",
                                         "no\n1\nThe north house\nthe coarse filter\n",
                                         "no\n1\nThe north house\ncoarse, fine\n",
                                         "no\n1\nThe north house\ncoarse, fine\n1\n",
                                         "no\n1\nThe north house\ncoarse, fine\n1\n2\n"};
    for (size_t i = 0; i < sizeof before / sizeof before[0]; i++) {
        char lines[256];
        sh("rm -rf cases/* config");
        snprintf(lines, sizeof lines, "%ssomebody is hurt\nstop", before[i]);
        session(lines, "$FILTERS");
        if (!holds("out", "DANGER\n")) fail_msg("%s: not heard", before[i]);
        assert_false(holds("out", "  - somebody is hurt"));
        assert_int_equal(sh("ls config 2>ls | grep -q hurt"), 1);
    }
}

/* What was listed before it, in the same line too, is not asked for twice; neither is the place's
 * name, nor where all of it is kept. */
static void what_was_listed_before_danger_is_kept(void **state)
{
    (void)state;
    static const char ruled_out[] = "somebody is hurt\n2\nno\n";
    char lines[400];
    snprintf(lines, sizeof lines,
             "no\n1\nThe north house\nthe coarse filter\nthe fine filter, the last filter, "
             "%s\n%s1\n%s1\nstop",
             ruled_out, ruled_out, ruled_out);
    assert_int_equal(session(lines, "$FILTERS"), 3);
    assert_int_equal(sh("test $(grep -c '^DANGER$' out) -eq 3"), 0);
    assert_int_equal(sh("test $(grep -c 'What do you call this place' out) -eq 1"), 0);
    assert_holds("out", "There are, in this order:\n  - the coarse filter\n  - the fine filter\n"
                        "  - the last filter\nIs that");
    assert_int_equal(sh("grep -c 'text: the .* filter' config/telltale/sites/filters.yaml >count; "
                        "grep -qx 3 count"),
                     0);
    assert_int_equal(sh("grep -q hurt config/telltale/sites/filters.yaml"), 1);
    sh("rm -rf cases/* config");
    assert_int_equal(session("no\n1\nThe north house\nsomebody is hurt, the fine "
                             "filter\n2\nno\nthe coarse filter\n\n1\n3\nstop",
                             "$FILTERS"),
                     3);
    assert_holds("out", "There is one:\n  - the coarse filter\n");
}

/* A name that reads like a slip of danger is asked about once, and what is meant holds. */
static void a_name_a_letter_from_danger_is_asked_about(void **state)
{
    (void)state;
    assert_int_equal(
        session("no\n1\nSmokley\n2\nSmokley, the fine filter\n2\n1\n3\nstop", "$FILTERS"), 3);
    assert_holds("out", "“Smokley”: is that a name, or is somebody in danger?");
    assert_holds("out", "There are, in this order:\n  - Smokley\n  - the fine filter\n");
    assert_false(holds("out", "DANGER\n"));
    sh("rm -rf cases/* config");
    assert_int_equal(session("no\n1\nsmkoe\n1\nstop", "$FILTERS"), 3);
    assert_holds("out", "DANGER\n");
    sh("rm -rf cases/* config");
    assert_int_equal(session("no\n1\nsmkoe\na man is bleeding\nstop", "$FILTERS"), 3);
    assert_holds("out", "DANGER\n");
    sh("rm -rf cases/* config");
    assert_int_equal(
        session("no\n1\nFuegor\n2\nfiltro uno\n\n1\n3\nparar", "$FILTERS --language es"), 3);
    assert_holds("out", "“Fuegor”: ¿es un nombre, o alguien está en peligro?");
    assert_false(holds("out", "PELIGRO\n"));
}

static void a_word_of_ours_is_no_name_and_back_takes_the_last_away(void **state)
{
    (void)state;
    session("no\n1\nback\nThe north house\nthe coarse filter\nwhy\nthe fin filter\nback\nthe fine "
            "filter\n\n1\n3\nstop",
            "$FILTERS");
    assert_holds("out",
                 "\"back\" does nothing here. If it is part of a name, type the whole name.");
    assert_holds("out", "\"why\" does nothing here.");
    assert_holds("out",
                 "There are, in this order:\n  - the coarse filter\n  - the fine filter\nIs that");
}

static void a_list_may_be_typed_in_several_ways(void **state)
{
    (void)state;
    assert_int_equal(
        session("no\\n1\\n\\ncoarse\\nCoarse\\n\\n2\\n0\\n2\\n3\\n2\\n\\n2\\nrear\\nfront "
                "{x}: \"y\"\\n\\n1\\n2\\nmine.yaml\\nstop",
                "$FILTERS"),
        3);
    assert_holds("out", "Coarse is on the list already.");
    assert_holds("out", "There is one:\n  - coarse\n");
    assert_holds("out", "  - water filter 1\n  - water filter 2\n  - water filter 3\nIs that");
    assert_holds("out", "There is no water filter.");
    assert_holds("out", "  - rear\n  - front (x): \"y\"\nIs that");
    assert_holds("mine.yaml", "      rear:\n        text: rear\n        comes-before: [front-x-y]\n"
                              "      front-x-y:\n        text: \"front (x): \\\"y\\\"\"\n");
    assert_int_equal(sh("$T check $FILTERS --site mine.yaml >out"), 0);
}

/* "first" is a word of the rule language, and cannot name anything. */
/* Where there is none of their equipment the rules have nothing to find: that is said, and asked
 * again. */
static void a_site_with_nothing_in_it_is_asked_about_again(void **state)
{
    (void)state;
    assert_int_equal(
        sh("printf 'no\\n1\\nplant\\n\\n1\\n\\n1\\n\\n1\\n\\n1\\n2\\nstop\\n' | HOME=$PWD $T "
           "ask " TT_SOURCE_DIR "/rules/dosing-and-pumping --cases cases --plain >out 2>err"),
        3);
    assert_int_equal(sh("test ! -s err"), 0);
    assert_holds("out", "With that, these rules have nothing to find.");
    assert_holds("out", "What is wrong?");
}

static void names_never_clash_with_the_language(void **state)
{
    (void)state;
    assert_int_equal(session("no\\n1\\n\\nthe first water filter, 2nd, filter 2, "
                             "\xC3\xA4\\n1\\n2\\nmine.yaml\\nstop",
                             "$FILTERS"),
                     3);
    assert_int_equal(sh("$T check $FILTERS --site mine.yaml >out"), 0);
    assert_holds("mine.yaml", "      first-filter:\n        text: the first water filter\n");
    assert_holds("mine.yaml", "      filter-2nd:\n        text: 2nd\n");
    assert_holds("mine.yaml", "text: \xC3\xA4\n");
}

static void nothing_is_written_over_unasked(void **state)
{
    (void)state;
    write_site();
    sh("cp north.yaml before");
    assert_int_equal(session("no\\n1\\nb\\n2\\n1\\n2\\nnorth.yaml\\n1\\n3\\nstop", "$FILTERS"), 3);
    assert_holds("out", "north.yaml is there already");
    assert_same("north.yaml", "before");
    assert_int_equal(session("no\\n1\\nc\\n1\\n1\\n2\\nbefore/x.yaml\\n3\\nstop", "$FILTERS"), 3);
    assert_int_equal(sh("cat out err | grep -q 'before/x.yaml'"), 0);
}

static void a_site_file_is_read_and_its_faults_are_told(void **state)
{
    (void)state;
    write_site();
    assert_int_equal(session("stop", "$FILTERS --site north.yaml"), 3);
    assert_holds("out", "Site: The north house\n");
    assert_int_equal(sh("sed -i 's/coarse:/Coarse:/' north.yaml; $T check $FILTERS --site "
                        "./north.yaml >out"),
                     1);
    assert_holds("out", "./north.yaml:6:7: error");
    assert_int_equal(session("stop", "$FILTERS --site north.yaml"), 65);
    assert_holds("err", "north.yaml:6:7: error");
    assert_holds("err", "telltale: north.yaml can't be used before this is mended");
    assert_int_equal(sh("echo 'flow: trickle' | $T rank $FILTERS - --site north.yaml 2>err"), 65);
    assert_int_equal(sh("$T check $FILTERS --site nowhere.yaml 2>err"), 66);
}

static void programs_name_the_site(void **state)
{
    (void)state;
    write_site();
    assert_int_equal(sh("echo 'flow: trickle' >a.yaml; $T rank $FILTERS a.yaml 2>err"), 2);
    assert_holds("err", "add --site FILE");
    assert_int_equal(sh("$T rank $FILTERS - --site - </dev/null 2>err"), 2);
    assert_int_equal(sh("$T ask $FILTERS --site - </dev/null 2>err"), 2);
    assert_int_equal(session("", "$FILTERS --no-input"),
                     3); /* danger first: what is there is asked after it */
    assert_int_equal(sh("$T rank $FILTERS a.yaml --site north.yaml --json >ranked"), 0);
    assert_holds("ranked", "\"title\": \"The north house\"");
    assert_int_equal(sh("grep -q \"\\\"revision\\\": \\\"$(sha256sum <north.yaml | cut -c1-64)\" "
                        "ranked"),
                     0);
    assert_holds("ranked", "\"full of coarse\"");
}

static void a_file_that_is_missing_can_be_made(void **state)
{
    (void)state;
    assert_int_equal(session("", "$FILTERS --site south.yaml --no-input"), 66);
    assert_int_equal(
        session("no\\n1\\nThe south house\\n1\\n1\\nstop", "$FILTERS --site south.yaml"), 3);
    assert_holds("out", "Site: The south house\n");
    assert_holds("south.yaml", "      water-filter-1:\n");
    assert_int_equal(sh("test -e config"), 1);
}

/* No mark and no number of an example is taken for the caller's. */
static void the_example_of_the_book_is_practice(void **state)
{
    (void)state;
    write_site();
    sh("cp -r $FILTERS book && cp north.yaml book/site.yaml");
    assert_int_equal(session("no\\nstop", "book --practice"), 3);
    assert_holds("out", "PRACTICE: the example site");
    assert_int_equal(session("no\\n2\\nstop", "book"), 3);
    assert_false(holds("out", "The north house"));
    assert_false(holds("out", "PRACTICE"));
}

static void a_case_holds_its_site(void **state)
{
    (void)state;
    assert_int_equal(
        session("no\\n1\\na\\nthe coarse filter\\n\\n1\\n3\\nweak\\n1\\nstop", "$FILTERS"), 3);
    note_number();
    assert_int_equal(resume("no\\nknown\\nstop", ""), 3);
    assert_holds("out", "Site: a\n");
    assert_holds("out", "The cartridge of the coarse filter is full");
    assert_false(holds("out", "changed"));
}

static void another_site_is_asked_about(void **state)
{
    (void)state;
    write_site();
    session("no\\nweak\\n1\\nstop", "$FILTERS --site north.yaml");
    note_number();
    assert_int_equal(sh("grep -q \"\\\"path\\\":\\\"$PWD/north.yaml\\\"\" cases/*/*/*/*.jsonl"), 0);
    assert_int_equal(sh("echo '# moved' >>north.yaml"), 0);
    assert_int_equal(resume("no\\n2", ""), 3);
    assert_holds("out", "What is said about the site has changed");
    assert_holds("out", " 1  Go on with");
    assert_int_equal(resume("no\\n1\\nstop", ""), 3);
    assert_holds("out", "The water hardly runs");
    assert_int_equal(resume("stop", ""), 3);
    assert_false(holds("out", "has changed"));
    sh("rm north.yaml");
    assert_int_equal(resume("stop", ""), 3);
    assert_holds("err", "north.yaml is not there any more. The case goes on with what it said.");
    write_site();
    sh("sed 's/north/south/' north.yaml >south.yaml");
    assert_int_equal(resume("no\\n1\\nstop", "--site south.yaml"), 3);
    assert_holds("out", "has changed");
    assert_int_equal(resume("stop", ""), 3);
    assert_holds("out", "Site: The south house");
}

static void what_is_learnt_goes_into_the_file(void **state)
{
    (void)state;
    write_site();
    write_answers();
    assert_int_equal(session(TO_A_CURE "\\n1", "$FILTERS --site north.yaml" AND_ANSWERS), 0);
    assert_holds("out", "You said about the site:\n");
    assert_holds("out", "How hard is the water? 8 gpg");
    assert_holds("north.yaml", "  # measured by the baker\n");
    assert_int_equal(sh("grep -Eq '^    hardness: \\{value: 8 gpg, source: \"answered in case "
                        "[0-9]{6}[A-Z] on [0-9]{4}-[0-9]{2}-[0-9]{2}\"\\}$' north.yaml"),
                     0);
    assert_int_equal(
        sh("echo 'flow: trickle' | $T rank $FILTERS - --site north.yaml --json >ranked"), 0);
    assert_holds("ranked", "\"from\": \"site\"");
    note_number();
    assert_int_equal(resume("1", ""), 0);
    assert_false(holds("out", "has changed"));
    assert_false(holds("out", "You said about the site"));
}

static void what_the_file_cannot_take_is_shown(void **state)
{
    (void)state;
    sh("printf 'site: {units: {filter: {coarse: {}, fine: {}}}}\n' >north.yaml; cp north.yaml "
       "before");
    write_answers();
    assert_int_equal(session(TO_A_CURE "\n1", "$FILTERS --site north.yaml" AND_ANSWERS), 0);
    assert_same("north.yaml", "before");
    assert_holds("out", "Please write it there by hand:\n  - hardness: 8 gpg\n");
    sh("printf 'site:\n  units: {filter: {coarse: {kind-of: carbon}, fine: {}}}\n' >north.yaml; cp "
       "north.yaml before");
    assert_int_equal(session(TO_A_CURE "\n1", "$FILTERS --site north.yaml" AND_ANSWERS), 0);
    assert_holds(
        "out", "Please write it there by hand:\n  - hardness: 8 gpg\n  - kind-of of coarse: paper");
    assert_same("north.yaml", "before");
}

static void what_is_learnt_may_be_left_out(void **state)
{
    (void)state;
    write_site();
    write_answers();
    sh("cp north.yaml before");
    assert_int_equal(session(TO_A_CURE "\\n2", "$FILTERS --site north.yaml" AND_ANSWERS), 0);
    assert_same("north.yaml", "before");
    assert_int_equal(session(TO_A_CURE, "$FILTERS --site north.yaml" AND_ANSWERS), 0);
    assert_same("north.yaml", "before");
}

/* ---- by lines, whatever else stands there ---- */

/* The last question of all is asked after the case is closed. */
static void danger_at_the_last_question_is_heard(void **state)
{
    (void)state;
    write_site();
    write_answers();
    const char *const said[] = {"somebody is hurt", "danger", "hay fuego"};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        char lines[256];
        snprintf(lines, sizeof lines, TO_A_CURE "\\n%s\\nstop", said[i]);
        assert_int_equal(session(lines, "$FILTERS --site north.yaml" AND_ANSWERS), 3);
        assert_holds("out", "You said about the site:\n");
        assert_holds("out", "STOP");
        assert_int_equal(sh("test ! -s err"), 0);
    }
    assert_int_equal(session(TO_A_CURE "\\nstop", "$FILTERS --site north.yaml" AND_ANSWERS), 0);
    assert_int_equal(sh("test ! -s err && ! grep -q STOP out"), 0);
}

static void assert_edited(const char *before, const char *question, const char *after)
{
    site_fact fact = {question, "8 gpg", ""};
    char *made = site_text_with(before, &fact);
    assert_string_equal(made, after);
    char *again = site_text_with(made, &fact);
    assert_string_equal(again, after);
    free(again);
    free(made);
}

static void an_answer_finds_its_place(void **state)
{
    (void)state;
    assert_edited("site:\n  title: x", "h", "site:\n  title: x\n  answers:\n    h: 8 gpg\n");
    assert_edited("site:\n    answers:\n      a: 1\n      # why\n\n    title: x\n", "h",
                  "site:\n    answers:\n      a: 1\n      h: 8 gpg\n      # why\n\n    title: x\n");
    assert_edited("site:\n  answers:\n    h: 3 gpg   # old\n    i: 1\n", "h",
                  "site:\n  answers:\n    h: 8 gpg\n    i: 1\n");
    assert_edited("site:\n  answers:\n    h:\n      value: 3 gpg\n      source: me\n    i: 1\n",
                  "h", "site:\n  answers:\n    h: 8 gpg\n    i: 1\n");
    assert_edited(
        "site:\n  units:\n    kind:\n      one:\n        text: a\n      two:\n        text: "
        "b\n  title: x\n",
        "h of one",
        "site:\n  units:\n    kind:\n      one:\n        text: a\n        h: 8 gpg\n      "
        "two:\n        text: b\n  title: x\n");
    assert_edited("site:\n  units:\n    kind:\n      one: {}\n", "h of one",
                  "site:\n  units:\n    kind:\n      one: {}\n  answers:\n    h of one: 8 gpg\n");
}

/* As a person may write it: keys in quotes, ends of line of another system, remarks, a last line
 * without an end; a word that only begins like a key is none. */
static void an_answer_finds_its_place_however_it_is_written(void **state)
{
    (void)state;
    assert_edited("\"site\":\n  'answers':\n    \"h\": 3 gpg\n", "h",
                  "\"site\":\n  'answers':\n    h: 8 gpg\n");
    assert_edited("site:\r\n  answers:\r\n    i: 1\r\n", "h",
                  "site:\r\n  answers:\r\n    i: 1\r\n    h: 8 gpg\n");
    assert_edited("site: # here\n  answers: # known\n    i: 1", "h",
                  "site: # here\n  answers: # known\n    i: 1\n    h: 8 gpg\n");
    assert_edited("site:\n  answers:\n    high: 1\n    \"h': 2\n    h :2\n", "h",
                  "site:\n  answers:\n    high: 1\n    \"h': 2\n    h :2\n    h: 8 gpg\n");
    assert_edited("site:\n  answers:\n    \"h", "h", "site:\n  answers:\n    \"h\n    h: 8 gpg\n");
    assert_edited("# all\nbook:\n  title: b\nsite:\n\n  title: x\nother: y\n", "h",
                  "# all\nbook:\n  title: b\nsite:\n\n  title: x\n  answers:\n    h: 8 gpg\n"
                  "other: y\n");
    assert_edited("site:\n  units:\n    # first\n    kind:\n      a: {}\n    none: {}\n\n    "
                  "other:\n      one:\n        text: a\n",
                  "h of one",
                  "site:\n  units:\n    # first\n    kind:\n      a: {}\n    none: {}\n\n    "
                  "other:\n      one:\n        text: a\n        h: 8 gpg\n");
    assert_edited("site:\n  units: {kind: {one: {}}}\n  answers:\n    i: 1\n", "h of one",
                  "site:\n  units: {kind: {one: {}}}\n  answers:\n    i: 1\n    h of one: 8 gpg\n");
}

/* Answers within braces stay one map, with whatever is remarked on them. */
static void an_answer_goes_into_the_braces_that_are_there(void **state)
{
    (void)state;
    assert_edited(
        "site:\n  answers: {i: 1, j: {value: 2, source: \"a, b\"}} # known\n  title: x\n", "h",
        "site:\n  answers: {i: 1, j: {value: 2, source: \"a, b\"}, h: 8 gpg} # known\n  title: "
        "x\n");
    assert_edited("site:\n  answers: {i: 1, h: 3 gpg, 'k': it's}\n", "h",
                  "site:\n  answers: {i: 1, h: 8 gpg, 'k': it's}\n");
    assert_edited("site:\n  answers: { \"h\" : {value: 3 gpg, source: h}, k: [h, 1] }\n", "h",
                  "site:\n  answers: { \"h\" : 8 gpg, k: [h, 1] }\n");
    assert_edited("site:\n  answers: {i: {h: 1}, h of one: 3}\n", "h of one",
                  "site:\n  answers: {i: {h: 1}, h of one: 8 gpg}\n");
    assert_edited("site:\n  answers: {}\n", "h", "site:\n  answers: {h: 8 gpg}\n");
    assert_edited("site:\n  answers: {i: 1,} # x\n", "h",
                  "site:\n  answers: {i: 1, h: 8 gpg} # x\n");
    assert_edited(
        "site:\n  answers: # one, {two}\n    {\n      i: 1, # first, h: 2\n      j: 2   # "
        "last }\n    }\n",
        "h",
        "site:\n  answers: # one, {two}\n    {\n      i: 1, # first, h: 2\n      j: 2, h: 8 "
        "gpg   # last }\n    }\n");
    assert_edited("site:\n  answers:\n", "h", "site:\n  answers:\n    h: 8 gpg\n");
    assert_edited("site:\n  answers: # none yet\n  title: x\n", "h",
                  "site:\n  answers: # none yet\n    h: 8 gpg\n  title: x\n");
}

/* Rather by hand than a second key, or a torn file. */
static void answers_that_cannot_be_added_to_are_left_alone(void **state)
{
    (void)state;
    static const char *const odd[] = {"site:\n  answers: {i: 1\n",  "site:\n  answers: ~\n",
                                      "site:\n  answers: *other\n", "site:\n  answers: {i: \"1}\n",
                                      "site:\n  answers: {i}\n",    "site:\n  answers: {i: 1, j}\n",
                                      "site:\n  answers: [i]\n"};
    const site_fact fact = {"h", "8 gpg", ""};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++)
        assert_null(site_text_with(odd[i], &fact));
}

/* What YAML would read otherwise stands in quotes. */
static void a_value_is_written_so_that_it_is_read(void **state)
{
    (void)state;
    const site_fact fact = {"h", "see: there", ""};
    char *made = site_text_with("site:\n  answers:\n    i: 1\n", &fact);
    assert_string_equal(made, "site:\n  answers:\n    i: 1\n    h: \"see: there\"\n");
    char *again = site_text_with(made, &fact);
    assert_string_equal(again, made);
    free(again);
    free(made);
}

static void whoever_wrote_it_first_is_its_source(void **state)
{
    (void)state;
    const char *const same[] = {"site:\n  answers:\n    h: 8 gpg\n",
                                "site:\n  answers:\n    h: 8 gpg  # by the gauge\n",
                                "site:\n  answers:\n    h: 8 gpg\r\n",
                                "site:\n  answers:\n    h: 8 gpg",
                                "site:\n  answers:\n    h: {value: 8 gpg}\n",
                                "site:\n  answers:\n    h: {value: 8 gpg, source: \"me\"}\n"};
    site_fact fact = {"h", "8 gpg", "you"}, other = {"h", "9 gpg", "you"};
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        char *made = site_text_with(same[i], &fact);
        assert_string_equal(made, same[i]);
        free(made);
        made = site_text_with(same[i], &other);
        assert_string_equal(made, "site:\n  answers:\n    h: {value: 9 gpg, source: \"you\"}\n");
        free(made);
    }
}

static void what_is_no_block_is_left_alone(void **state)
{
    (void)state;
    site_fact fact = {"h", "8 gpg", ""};
    assert_null(site_text_with("site: {title: x}\n", &fact));
    assert_null(site_text_with("", &fact));
}

#define IN_FRESH_FOLDER(test) cmocka_unit_test_setup(test, fresh)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FRESH_FOLDER(what_is_said_is_written_and_taken_next_time),
        IN_FRESH_FOLDER(danger_is_heard_while_the_site_is_described),
        IN_FRESH_FOLDER(what_was_listed_before_danger_is_kept),
        IN_FRESH_FOLDER(a_name_a_letter_from_danger_is_asked_about),
        IN_FRESH_FOLDER(a_word_of_ours_is_no_name_and_back_takes_the_last_away),
        IN_FRESH_FOLDER(a_list_may_be_typed_in_several_ways),
        IN_FRESH_FOLDER(a_site_with_nothing_in_it_is_asked_about_again),
        IN_FRESH_FOLDER(names_never_clash_with_the_language),
        IN_FRESH_FOLDER(nothing_is_written_over_unasked),
        IN_FRESH_FOLDER(a_site_file_is_read_and_its_faults_are_told),
        IN_FRESH_FOLDER(programs_name_the_site),
        IN_FRESH_FOLDER(a_file_that_is_missing_can_be_made),
        IN_FRESH_FOLDER(the_example_of_the_book_is_practice),
        IN_FRESH_FOLDER(a_case_holds_its_site),
        IN_FRESH_FOLDER(another_site_is_asked_about),
        IN_FRESH_FOLDER(what_is_learnt_goes_into_the_file),
        IN_FRESH_FOLDER(what_the_file_cannot_take_is_shown),
        IN_FRESH_FOLDER(what_is_learnt_may_be_left_out),
        IN_FRESH_FOLDER(danger_at_the_last_question_is_heard),
        cmocka_unit_test(an_answer_finds_its_place),
        cmocka_unit_test(an_answer_finds_its_place_however_it_is_written),
        cmocka_unit_test(an_answer_goes_into_the_braces_that_are_there),
        cmocka_unit_test(answers_that_cannot_be_added_to_are_left_alone),
        cmocka_unit_test(a_value_is_written_so_that_it_is_read),
        cmocka_unit_test(whoever_wrote_it_first_is_its_source),
        cmocka_unit_test(what_is_no_block_is_left_alone),
    };
    return cmocka_run_group_tests_name("sites", tests, NULL, NULL);
}
