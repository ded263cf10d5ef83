/* A complaint about a kind of equipment: which piece is asked, is one step, and comes back. */
#include "run_telltale.h"

#define FILTERS TT_SOURCE_DIR "/tests/cli/filters"

static int fresh(void **state)
{
    (void)state;
    setenv("FILTERS", FILTERS, 1);
    return sh(
        "rm -rf cases && mkdir cases && printf 'site:\\n  units:\\n    filter:\\n      zero:\\n "
        "       text: the inlet filter\\n        comes-before: [middle]\\n      middle:\\n      "
        "  text: the middle filter\\n        comes-before: [after]\\n      after:\\n        "
        "text: the outlet filter\\n' >three.yaml");
}

static int session(const char *lines, const char *more)
{
    return sh("printf 'no\\n%s\\n' | XDG_CONFIG_HOME=$PWD/config $T ask $FILTERS --site three.yaml "
              "--cases "
              "cases %s >out 2>err",
              lines, more);
}

static int resume(const char *lines)
{
    return sh("printf '%s\\n' | $T ask --cases cases --case \"$(sed -n 's/^Case number: //p' out | "
              "head -1)\" >again 2>err",
              lines);
}

static void they_are_listed_as_the_water_meets_them(void **state)
{
    (void)state;
    assert_int_equal(session("dirty filter\\n1", ""), 3);
    assert_holds("out",
                 "Which water filter is it? If it is several, type their numbers, like 1,2.\n");
    assert_holds("out", " 1  the inlet filter\n 2  the middle filter\n 3  the outlet filter\n"
                        " 4  All of them\n 5  Not sure which\nOr type: danger, known, back, stop, "
                        "hold, hand over, ?\n");
}

static void one_is_named_by_number_name_or_words(void **state)
{
    (void)state;
    const char *const ways[] = {"2", "middle", "the mid", "The Middle Filter"};
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        char lines[100];
        snprintf(lines, sizeof lines, "1\\n%s\\nknown\\nstop", ways[i]);
        assert_int_equal(session(lines, ""), 3);
        assert_holds("out", "It is about:\n  - the middle filter\n");
        assert_holds("out", "Open the middle filter. How does the cartridge look? Caked");
        assert_false(holds("out", "The cartridge of the inlet filter is full"));
    }
}

static void several_are_one_step(void **state)
{
    (void)state;
    const char *const ways[] = {"1,3", "3 1", "zero, 3", "the outlet filter, zero, 1"};
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        char lines[100];
        snprintf(lines, sizeof lines, "1\\n%s\\nknown\\nstop", ways[i]);
        fresh(state);
        assert_int_equal(session(lines, ""), 3);
        assert_holds("out", "Open the inlet filter. How does the cartridge look? Caked");
        assert_holds("out", "Open the outlet filter. How does the cartridge look? Caked");
        assert_false(holds("out", "Open the middle filter. How does the cartridge look? Caked"));
        assert_int_equal(sh("grep -c '\"kind\":\"complaint\"' cases/*/*/*/*.jsonl | grep -qx 1"),
                         0);
    }
    fresh(state);
    assert_int_equal(session("1\\n1,3\\nback\\nknown\\nstop", ""), 3);
    assert_int_equal(sh("sed '1,/One step back/d' out >later"), 0);
    assert_holds("later", "What is wrong?");
    assert_false(holds("later", "cartridge look?"));
    assert_false(holds("later", "It is about"));
    assert_int_equal(resume("no\\nknown\\nstop"), 3);
    assert_false(holds("again", "cartridge look?"));
}

static void all_and_not_sure_are_told_apart(void **state)
{
    (void)state;
    assert_int_equal(session("1\\n4\\nknown\\nstop", ""), 3);
    assert_holds(
        "out",
        "It is about:\n  - the inlet filter\n  - the middle filter\n  - the outlet filter\n");
    assert_holds("out", "  - The inlet filter is dirty\n");
    assert_holds("out", "  - The middle filter is dirty\n");
    assert_holds("out", "  - The outlet filter is dirty\n");
    fresh(state);
    assert_int_equal(session("1\\nnot sure\\nknown\\nstop", ""), 3);
    assert_holds("out", "It is about:");
    assert_false(holds("out", "  - The inlet filter is dirty\n"));
    assert_int_equal(sh("grep -q '\"symptom\":\"dirty\",\"said\":\"\",\"at\":\\[\\]' "
                        "cases/*/*/*/*.jsonl"),
                     0);
    assert_int_equal(resume("no\\nknown\\nstop"), 3);
    assert_holds("again", "It is about:");
}

static void a_slip_is_asked_again_and_back_goes_to_the_complaint(void **state)
{
    (void)state;
    assert_int_equal(session("1\\n9\\nneither\\n1,9\\n?\\nknown\\nback\\nback\\n2\\nstop", ""), 3);
    assert_int_equal(sh("test \"$(grep -c 'That is none of the answers' out)\" = 3"), 0);
    assert_int_equal(sh("test \"$(grep -c 'What is wrong?' out)\" = 2"), 0);
    assert_holds("out", "The water hardly runs");
}

static void a_piece_that_is_gone_leaves_the_step_out(void **state)
{
    (void)state;
    assert_int_equal(session("1\\n2\\nstop", ""), 3);
    sh("sed -i 's/middle/centre/' three.yaml");
    assert_int_equal(resume("no\\n1\\nknown\\nstop"), 3);
    assert_holds("again",
                 "Left out, because it does not fit the rules as they are now: complaint dirty");
    assert_false(holds("again", "It is about"));
}

static void the_only_one_is_not_asked_about(void **state)
{
    (void)state;
    sh("printf 'site:\\n  units:\\n    filter:\\n      only: {text: the filter}\\n' >three.yaml");
    assert_int_equal(session("1\\nknown\\nstop", ""), 3);
    assert_false(holds("out", "Which water filter"));
    assert_holds("out", "It is about:\n  - the filter\n");
}

static void programs_say_it_in_the_answers(void **state)
{
    (void)state;
    sh("printf 'at: [middle, zero]\\nflow: trickle\\n' >a.yaml");
    assert_int_equal(sh("$T rank $FILTERS a.yaml --site three.yaml >out"), 0);
    assert_holds("out", "It is about:\n  - the inlet filter\n  - the middle filter\n");
    assert_int_equal(sh("$T rank $FILTERS a.yaml --site three.yaml --json >out"), 0);
    assert_int_equal(sh("tr -d ' \\n' <out | grep -q '\"focus\":\\[\"middle\",\"zero\"\\]'"), 0);
    assert_int_equal(session("known\\nstop", "--answers a.yaml"), 3);
    assert_holds("out", "It is about:\n  - the inlet filter\n  - the middle filter\n");
    assert_int_equal(sh("echo 'at: [attic]' | $T rank $FILTERS - --site three.yaml 2>err"), 65);
    assert_holds("err", "attic");
}

#define IN_FRESH_FOLDER(test) cmocka_unit_test_setup(test, fresh)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FRESH_FOLDER(they_are_listed_as_the_water_meets_them),
        IN_FRESH_FOLDER(one_is_named_by_number_name_or_words),
        IN_FRESH_FOLDER(several_are_one_step),
        IN_FRESH_FOLDER(all_and_not_sure_are_told_apart),
        IN_FRESH_FOLDER(a_slip_is_asked_again_and_back_goes_to_the_complaint),
        IN_FRESH_FOLDER(a_piece_that_is_gone_leaves_the_step_out),
        IN_FRESH_FOLDER(the_only_one_is_not_asked_about),
        IN_FRESH_FOLDER(programs_say_it_in_the_answers),
    };
    return cmocka_run_group_tests_name("which piece", tests, NULL, NULL);
}
