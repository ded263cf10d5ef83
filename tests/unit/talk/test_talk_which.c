/* A complaint about one of several alike: which of them is meant, by choice, by number, by name or
 * by a word of the name. */
#include "one_desk.h"
#include "small_book.h"
#include "testing.h"

#include <string.h>

#include "base/value.h"

typedef one_desk scene;

/* Invented here: a house well. A site may call its pieces by their numbers. */
#define BOOK(units) \
    "book: {title: 'House well', roles: [householder], two-faults: 0}\n" \
    "kinds:\n  filter: {one: filter, ask: 'Which filters are there?'}\n" \
    "site:\n  units:\n    filter: {" units "}\n" \
    "questions:\n" \
    "  danger: {ask: 'Danger?', about: today, safe: [no]}\n" \
    "  drop: {for-each: filter, ask: 'Does {filter} hold the water back?', usual: no}\n" \
    "symptoms:\n" \
    "  held-back: {for-each: filter, text: '{filter} holds the water back', when: {drop: yes},\n" \
    "              heard: [held back], shown-by: {full: usually}}\n" \
    "causes:\n  full: {for-each: filter, text: 'The cartridge is full'}\n" \
    "fixes:\n" \
    "  change: {for-each: filter, text: 'Change the cartridge', role: householder,\n" \
    "           cures: {full: usually}, harm: none, takes: 5 min, put-back: impossible}\n"

static int ask_which(void **state, const char *book)
{
    scene *s = one_desk_new(small_book(book));
    assert_turn(turn_of(&s->east), TT_TURN_DANGER);
    choose(&s->east, "no");
    assert_turn(choose(&s->east, "held-back"), TT_TURN_WHICH);
    *state = s;
    return 0;
}

static int two_named(void **state)
{
    return ask_which(state,
                     BOOK("coarse: {text: 'the coarse filter'}, fine: {text: 'the fine filter'}"));
}

static int three_numbered(void **state)
{
    return ask_which(state, BOOK("f1: {text: '1204'}, f2: {text: '1205'}, f3: {text: '1206'}"));
}

/* The pieces that the complaint was kept with. */
static void assert_kept_at(const scene *s, const char *first, const char *second)
{
    const tt_record *r = last_record(s->f, "complaint");
    assert_non_null(r);
    const tt_value *at = value_get(r->data, "at");
    assert_non_null(at);
    assert_int_equal(at->count, (first != NULL) + (second != NULL));
    if (first != NULL) assert_string_equal(at->items[0].text, first);
    if (second != NULL) assert_string_equal(at->items[1].text, second);
}

static void one_is_kept_by_its_name(void **state)
{
    scene *s = *state;
    choose(&s->east, "fine");
    assert_kept_at(s, "fine", NULL);
}

static void all_of_them_are_kept(void **state)
{
    scene *s = *state;
    choose(&s->east, "all");
    assert_kept_at(s, "coarse", "fine");
}

static void not_knowing_names_none(void **state)
{
    scene *s = *state;
    choose(&s->east, "unsure");
    assert_kept_at(s, NULL, NULL);
}

static void a_word_of_the_name_is_enough(void **state)
{
    scene *s = *state;
    type(&s->east, "that coarse thing");
    assert_kept_at(s, "coarse", NULL);
}

static void both_are_all_of_two(void **state)
{
    scene *s = *state;
    type(&s->east, "it is both of them");
    assert_kept_at(s, "coarse", "fine");
}

static void words_that_name_none_are_asked_again(void **state)
{
    scene *s = *state;
    const tt_turn *turn = type(&s->east, "xyzzy plugh");
    assert_turn(turn, TT_TURN_WHICH);
    assert_string_equal(turn->wrong_code, "not-understood");
    assert_null(last_record(s->f, "complaint"));
}

static void several_are_said_by_their_places(void **state)
{
    scene *s = *state;
    type(&s->east, "1, 3");
    assert_kept_at(s, "f1", "f3");
}

/* A number that is no place in the list may be a name. */
static void several_are_said_by_names_that_are_numbers(void **state)
{
    scene *s = *state;
    type(&s->east, "1204, 1206");
    assert_kept_at(s, "f1", "f3");
}

/* As few letters as one of them alone begins with; what begins two of them names none. */
static void several_are_said_by_how_their_names_begin(void **state)
{
    static const char *const none[] = {"the c, the", "the c, the x"};
    scene *s = *state;
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        type(&s->east, none[i]);
        assert_turn(turn_of(&s->east), TT_TURN_WHICH);
        assert_null(last_record(s->f, "complaint"));
    }
    type(&s->east, "the c, the f");
    assert_kept_at(s, "coarse", "fine");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(one_is_kept_by_its_name, two_named, one_desk_end),
        cmocka_unit_test_setup_teardown(all_of_them_are_kept, two_named, one_desk_end),
        cmocka_unit_test_setup_teardown(not_knowing_names_none, two_named, one_desk_end),
        cmocka_unit_test_setup_teardown(a_word_of_the_name_is_enough, two_named, one_desk_end),
        cmocka_unit_test_setup_teardown(both_are_all_of_two, two_named, one_desk_end),
        cmocka_unit_test_setup_teardown(words_that_name_none_are_asked_again, two_named,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(several_are_said_by_how_their_names_begin, two_named,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(several_are_said_by_their_places, three_numbered,
                                        one_desk_end),
        cmocka_unit_test_setup_teardown(several_are_said_by_names_that_are_numbers, three_numbered,
                                        one_desk_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
