/* A second look, and two answers that don't fit together, as each face tells of them. The page
 * draws the parts of JSON turns as they come. */
#include "run_telltale.h"

#include <jansson.h>

#define PUMP "'" TT_SOURCE_DIR "/tests/cli/second-look'"
#define SPARE \
    "It is worth a second look before more is done, with another: the spare gauge. Both answers " \
    "are kept."
#define CLASH \
    "These two answers don't fit together. Please look again at what is asked here. Both answers " \
    "are kept."

static void ask(const char *lines, const char *options)
{
    assert_int_equal(sh("printf 'lamp: yes\\nvent: yes\\n' >clash.yaml; printf '%s' | $T ask " PUMP
                        " --unsaved %s >out 2>err",
                        lines, options),
                     3);
}

/* The dial shows what only a worn wheel explains, and the wheel is dear. */
#define TO_SPARE "no\\nno\\nno\\nno\\nno\\n"

static void a_terminal_says_why_and_with_what(void **state)
{
    (void)state;
    ask(TO_SPARE "yes\\nknown\\n", "--plain");
    assert_holds("out", SPARE);
    assert_holds("out", "Does the gauge stand in the green?\nUse the spare gauge.\n");
    assert_holds("out", "Does the gauge stand in the green? Yes (seen before: No)");
}

static void two_that_clash_are_shown_with_what_was_said(void **state)
{
    (void)state;
    ask("no\\nno\\n", "--plain --answers clash.yaml");
    assert_holds("out", CLASH "\n  - Does the red lamp burn? Yes\n  - Does the vent blow? Yes\n");
    assert_holds("out", "Does the red lamp burn? It was: Yes. Now: No.");
}

static void the_telephone_says_it_to_the_agent_and_asks_the_caller(void **state)
{
    (void)state;
    ask(TO_SPARE, "--telephone");
    assert_holds("out", SPARE);
    assert_holds("out", "Say: “Does the gauge stand in the green?”\nUse the spare gauge.");
    ask("no\\n", "--telephone --answers clash.yaml");
    assert_holds("out", CLASH);
    assert_holds("out", "Say: “Does the red lamp burn?”");
}

/* The question of the last turn that has one. */
static json_t *last_question(void)
{
    FILE *in = fopen("out", "r");
    assert_non_null(in);
    json_t *last = NULL;
    for (json_t *turn; (turn = json_loadf(in, JSON_DISABLE_EOF_CHECK, NULL)) != NULL;
         json_decref(turn)) {
        json_t *question = json_object_get(turn, "question");
        if (!json_is_object(question)) continue;
        json_decref(last);
        last = json_incref(question);
    }
    fclose(in);
    assert_non_null(last);
    return last;
}

static void assert_says(json_t *question, const char *key, const char *wanted)
{
    const char *is = json_string_value(json_object_get(question, key));
    assert_non_null(is);
    assert_string_equal(is, wanted);
}

static void programs_get_it_by_names(void **state)
{
    (void)state;
    ask("{\"answer\":\"no\"}\\n{\"answer\":\"no\"}\\n{\"answer\":\"no\"}\\n{\"answer\":\"no\"}\\n{"
        "\"answer\":\"no\"}\\n",
        "--json");
    json_t *spare = last_question();
    assert_says(spare, "name", "dial");
    assert_says(spare, "second_look", "another");
    assert_says(spare, "second_with", "the spare gauge");
    assert_true(json_is_null(json_object_get(spare, "clashes_with")));
    json_decref(spare);
    ask("{\"answer\":\"no\"}\\n", "--json --answers clash.yaml");
    json_t *clash = last_question();
    assert_says(clash, "name", "lamp");
    assert_says(clash, "second_look", "again");
    assert_says(clash, "clashes_with", "vent");
    json_decref(clash);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_terminal_says_why_and_with_what),
        cmocka_unit_test(two_that_clash_are_shown_with_what_was_said),
        cmocka_unit_test(the_telephone_says_it_to_the_agent_and_asks_the_caller),
        cmocka_unit_test(programs_get_it_by_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
