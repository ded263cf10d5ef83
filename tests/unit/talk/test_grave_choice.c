/* An answer whose words tell of a grave danger: typed in full it is taken, and danger is asked of
 * once more; by its number it is an answer and no more. */
#include "one_desk.h"
#include "small_book.h"
#include "testing.h"

typedef one_desk scene;

static const char rules[] =
    "book: {title: Mill, roles: [hand]}\n"
    "questions:\n"
    "  seen:\n    ask: What did the last sheet say?\n    answers:\n"
    "      nothing: Nothing at all\n      hurt: Somebody is bleeding\n"
    "symptoms:\n"
    "  odd: {text: 'It is odd', heard: [it is odd], when: {seen: hurt}, shown-by: {worn: often}}\n"
    "causes:\n  worn: {text: Worn}\n  loose: {text: Loose}\n"
    "fixes:\n  new:\n    text: Change it\n    role: hand\n    cures: {worn: often}\n"
    "    takes: 90 min\n    harm: none\n    put-back: not needed\n";

static void assert_after(void **state, const char *typed, bool asks_danger)
{
    scene *s = one_desk_new(small_book(rules));
    *state = s;
    say_it_is_safe(&s->east, "no");
    const tt_turn *what = turn_of(&s->east);
    choose(&s->east, what->choices[what->choice_count - 1].id); /* none of these */
    assert_string_equal(turn_of(&s->east)->subject, "seen");
    const tt_turn *turn = type(&s->east, typed);
    assert_non_null(last_record(s->f, "answer"));
    assert_int_equal(turn->kind == TT_TURN_DANGER, asks_danger);
}

static void words_of_danger_ask_again(void **state)
{
    assert_after(state, "Somebody is bleeding", true);
}

static void a_number_is_an_answer(void **state)
{
    assert_after(state, "2", false);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(words_of_danger_ask_again, one_desk_end),
        cmocka_unit_test_teardown(a_number_is_an_answer, one_desk_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
