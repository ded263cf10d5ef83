/* Which numbers the worked cases of a small book hold, where fixes stand in sequence. */
#include "testing.h"

#include "small_book.h"

static const char in_sequence[] =
    "book:\n  title: A pump\n  roles: [helper, fitter]\n"
    "questions:\n"
    "  sound:\n    ask: How does it sound?\n    answers: {even: Even, rough: Rough}\n    usual: "
    "even\n"
    "  flow:\n    ask: Does water come?\n"
    "symptoms:\n"
    "  rough-sound:\n    text: It sounds rough\n    when: {sound: rough}\n    shown-by: {worn: "
    "usually, loose: rarely}\n"
    "  no-flow:\n    text: No water comes\n    when: {flow: no}\n    shown-by: {loose: usually, "
    "worn: rarely}\n"
    "causes:\n  worn:\n    text: It is worn\n  loose:\n    text: It is loose\n"
    "fixes:\n"
    "  tighten:\n    text: Tighten it\n    role: helper\n    harm: none\n    takes: 5 min\n    "
    "put-back: not needed\n"
    "    cures: {loose: usually, worn: seldom}\n"
    "  renew:\n    text: Renew it\n    role: fitter\n    harm: none\n    takes: 60 min\n    "
    "put-back: not needed\n"
    "    after: tighten\n    cures: {worn: always}\n"
    "cases:\n"
    "  rough:\n    as: fitter\n    answers: {sound: rough, flow: yes}\n    expect: {leading-cause: "
    "worn, first-fix: tighten}\n"
    "  dry:\n    as: fitter\n    answers: {sound: even, flow: no}\n    expect: {leading-cause: "
    "loose, first-fix: tighten}\n"
    "  dry-for-a-helper:\n    answers: {flow: no}\n    expect: {leading-cause: loose, first-fix: "
    "tighten}\n";

/* Each case is put away before the next is played, so nothing of it may be left in use. */
static void what_waits_is_still_known_after_other_cases(void **state)
{
    (void)state;
    tt_book *book = small_book(in_sequence);
    tt_trials trials;
    tt_holding held;
    assert_int_equal(tt_try(book, &trials), TT_OK);
    for (uint32_t i = 0; i < trials.count; i++)
        if (!trials.items[i].passed) fail_msg("%s: %s", trials.items[i].name, trials.items[i].why);
    assert_int_equal(tt_numbers_held(book, &held), TT_OK);
    assert_true(held.held > 0 && held.held < held.count);
    tt_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_waits_is_still_known_after_other_cases)};
    return cmocka_run_group_tests_name("held", tests, NULL, NULL);
}
