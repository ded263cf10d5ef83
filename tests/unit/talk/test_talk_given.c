/* Answers that are handed in together, not asked for: a file of them, and several in one message.
 */
#include "one_desk.h"
#include "testing.h"

#include <string.h>

#include "base/value.h"

typedef one_desk scene;

static const tt_turn *hand_in_file(scene *s, const char *text)
{
    const tt_source file = {"shift.yaml", text, strlen(text)};
    return hand_in(&s->east, &(tt_heard){.answers = &file});
}

static const tt_fact *fact_named(scene *s, const char *name)
{
    const tt_view *v;
    assert_int_equal(tt_look(tt_talk_case(s->east.talk), &v), TT_OK);
    for (uint32_t i = 0; i < v->fact_count; i++)
        if (strcmp(v->facts[i].name, name) == 0) return &v->facts[i];
    return NULL;
}

static void a_file_of_answers_is_taken_or_named(void **state)
{
    scene *s = *state;
    choose(&s->east, "safe");
    const tt_turn *turn = hand_in_file(s, "foam-air: 55 psi\n");
    assert_string_equal(turn->wrong, "");
    assert_non_null(fact_named(s, "foam-air"));
    turn = hand_in_file(s, "no-such-question: 55 psi\n");
    assert_string_equal(turn->wrong_code, "no-answers");
    assert_non_null(strstr(turn->wrong, "shift.yaml"));
}

/* What is left out of an answer counts in the case that is played from the record, too. */
static void what_it_is_not_is_kept_by_name(void **state)
{
    static const char *const not_these[] = {"hiss"};
    const tt_given given = {.question = "nozzle-sound", .not_these = not_these, .not_count = 1};
    scene *s = *state;
    choose(&s->east, "safe");
    hand_in(&s->east, &(tt_heard){.given = &given, .given_count = 1});
    const tt_record *kept = last_record(s->f, "answer");
    const tt_value *options = value_get(value_get(kept->data, "reply"), "options");
    assert_non_null(options);
    assert_int_equal(options->count, 1);
    assert_string_equal(options->items[0].text, "hiss");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_file_of_answers_is_taken_or_named, foam_desk,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(what_it_is_not_is_kept_by_name, foam_desk, one_desk_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
