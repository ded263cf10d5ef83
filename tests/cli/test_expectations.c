/* What people expect of a program on a command line, as docs/command-line.md lists it: the rows
 * that no other test holds. */
#include <jansson.h>

#include "run_telltale.h"

#include "skips.h"
#include "verb/verbs.h"
#include "window.h"

#define ASK "$T ask $WELL --unsaved "

static int fresh(void **state)
{
    (void)state;
    return sh("rm -rf out err one two three cases book *.yaml *.html && echo 'smoke: no' >a.yaml");
}

/* Rows 5 and 7. */
static void help_begins_with_examples(void **state)
{
    (void)state;
    assert_int_equal(sh("$T help >out && sed -n 3,5p out >head"), 0);
    char *head = contents("head");
    assert_string_equal(
        head,
        "Examples\n    telltale ask foam-line\n    telltale rank foam-line answers.yaml --json\n");
    free(head);
    for (int i = 0; i < OPTION_COUNT; i++)
        assert_true(option_table[i].name[0] != 0 && option_table[i].name[1] != 0);
    for (unsigned v = 0; v < verb_count; v++)
        assert_int_equal(sh("$T help %s >out && grep -q '^    telltale %s' out", verb_table[v].name,
                            verb_table[v].name),
                         0);
}

/* Row 9: a part of a verb is no verb, whether it could be only one or several. */
static void verbs_are_written_out(void **state)
{
    (void)state;
    for (unsigned v = 0; v < verb_count; v++) {
        const char *name = verb_table[v].name;
        assert_int_equal(sh("$T %.*s x </dev/null >out 2>err", (int)strlen(name) - 1, name), 2);
        assert_holds("err", "there is no verb ");
    }
}

/* Rows 12 and 13: a dash is a stream; results go to one stream, and what is said about them to the
 * other. */
static void streams_have_their_places(void **state)
{
    (void)state;
    assert_int_equal(
        sh("$T rank $WELL - <a.yaml >one 2>err && test ! -s err && $T rank $WELL a.yaml >two"), 0);
    assert_same("one", "two");
    assert_int_equal(sh("$T ask $WELL --unsaved --no-input --answers - <a.yaml >one 2>err; test ! "
                        "-s err && grep -q 'What is known' one"),
                     0);
    assert_int_equal(sh("$T handbook $WELL --into - >one 2>err && test ! -s err && $T handbook "
                        "$WELL --into two.html && cmp one two.html"),
                     0);
    assert_int_equal(sh("$T table $WELL --csv >t.csv && $T table $WELL --from - <t.csv >out 2>err; "
                        "test ! -s out"),
                     0);
    assert_int_equal(sh("$T rank $WELL ./nowhere.yaml >out 2>err; test ! -s out && test -s err"),
                     0);
}

/* Rows 15 and 16: one object, or an object a line. */
static void json_is_one_object_or_a_line_each(void **state)
{
    static const char *const whole[] = {"rank $WELL a.yaml --json", "try $WELL --json",
                                        "rehearse $WELL --calls 5 --json",
                                        "compare $WELL $WELL --calls 2 --json",
                                        "cases cases --count --json"},
                             *const lines[] = {"check book --json", "cases cases --json",
                                               "ask $WELL --json --cases cases"};
    (void)state;
    assert_int_equal(sh("printf 'no\\nshort cycling\\nstop\\n' | $T ask $WELL --cases cases >out"),
                     3);
    assert_int_equal(sh("cp -r $WELL book && echo 'causes: {x-x: {}}' >book/more.yaml"), 0);
    json_error_t why;
    for (size_t i = 0; i < sizeof whole / sizeof whole[0]; i++) {
        assert_int_equal(sh("$T %s >out 2>err", whole[i]), 0);
        json_t *value = json_load_file("out", JSON_REJECT_DUPLICATES, &why);
        if (!json_is_object(value)) fail_msg("%s: %s", whole[i], why.text);
        json_decref(value);
    }
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        assert_in_range(sh("$T %s </dev/null >out 2>err", lines[i]), 0, 3);
        char *text = contents("out");
        unsigned count = 0;
        for (char *at = text; *at != 0; count++) {
            char *end = strchr(at, '\n');
            assert_non_null(end);
            *end = 0;
            json_t *value = json_loads(at, JSON_REJECT_DUPLICATES, &why);
            if (!json_is_object(value)) fail_msg("%s: %s", lines[i], why.text);
            json_decref(value);
            at = end + 1;
        }
        assert_true(count > 0);
        free(text);
    }
}

/* Row 23: how far it is, on a terminal only. */
static void nothing_is_counted_into_a_pipe(void **state)
{
    (void)state;
    assert_int_equal(sh("$T rehearse $WELL --calls 300 >out 2>err && test ! -s err && ! grep -qE "
                        "'%% of [0-9]+ calls' out"),
                     0);
}

/* Rows 27 and 29. */
static void answers_are_heard_as_people_give_them(void **state)
{
    static const char *const ways[] = {"2", "no", "NO", "  No. ", "n"};
    (void)state;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        assert_int_equal(sh("printf '%s\\nstop\\n' | " ASK ">out 2>err", ways[i]), 3);
        assert_holds("out", "What is wrong?");
    }
    assert_int_equal(sh("printf 'no\\nqwertz\\nstop\\n' | " ASK
                        ">out 2>err; test $(grep -c 'Or type: ' out) = 3"),
                     0);
    assert_holds("out", "1  The tank pressure is low");
}

/* Rows 33 and 48: whatever the terminal, no cursor is moved and nothing is drawn over. */
static void a_terminal_gets_lines_and_colours_only(void **state)
{
    static const char *const kinds[] = {"TERM=xterm-256color", "TERM=dumb", "TERM=vt100",
                                        "TERM=screen", "TERM="};
    (void)state;
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        window *w = window_open(
            &(window_plan){.words = (const char *const[]){"ask", WELL, "--unsaved", NULL},
                           .environment = (const char *const[]){kinds[i], "NO_COLOR", NULL},
                           .rows = 24,
                           .columns = 40});
        window_type_lines(w, "no\nshort cycling\nwhy\nstop");
        window_await_end(w);
        for (const char *at = window_raw(w); (at = strchr(at, '\033')) != NULL;) {
            at += 1 + strspn(at + 1, "[0123456789;");
            if (*at != 'm')
                fail_msg("%s: an escape sequence that is no colour ends in '%c'", kinds[i], *at);
        }
        assert_int_equal(window_close(w), 3);
    }
}

/* Row 36: what goes elsewhere than to a terminal is never wrapped. */
static void a_pipe_is_not_wrapped(void **state)
{
    (void)state;
    assert_int_equal(sh("COLUMNS=40 $T help ask >one && COLUMNS=200 $T help ask >two"), 0);
    assert_same("one", "two");
}

/* Row 44: nothing on the line answers for somebody who has to look. */
static void no_option_rules_danger_out(void **state)
{
    (void)state;
    for (int i = 0; i < OPTION_COUNT; i++) assert_string_not_equal(option_table[i].name, "yes");
    assert_int_equal(sh("echo 'pump-sound: rapid' >b.yaml && yes '' | head -n 20 | " ASK
                        "--answers b.yaml --soonest --as technician --telephone >out 2>err"),
                     3);
    assert_holds("out", "Danger");
    assert_false(holds("out", "Do this"));
}

/* Row 45: the program has no way to the network of its own; a database's library is taken in when
 * one is named. */
static void it_knows_no_network(void **state)
{
    (void)state;
    need_program("nm", "binutils");
    assert_int_equal(sh("nm -D --undefined-only $T >out"), 0);
    assert_int_equal(
        sh("grep -wE "
           "'socket|connect|bind|listen|accept|getaddrinfo|gethostbyname|sendto|res_query' out"),
        1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(help_begins_with_examples, fresh),
        cmocka_unit_test_setup(verbs_are_written_out, fresh),
        cmocka_unit_test_setup(streams_have_their_places, fresh),
        cmocka_unit_test_setup(json_is_one_object_or_a_line_each, fresh),
        cmocka_unit_test_setup(nothing_is_counted_into_a_pipe, fresh),
        cmocka_unit_test_setup(answers_are_heard_as_people_give_them, fresh),
        cmocka_unit_test_setup(a_terminal_gets_lines_and_colours_only, fresh),
        cmocka_unit_test_setup(a_pipe_is_not_wrapped, fresh),
        cmocka_unit_test_setup(no_option_rules_danger_out, fresh),
        cmocka_unit_test_setup(it_knows_no_network, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
