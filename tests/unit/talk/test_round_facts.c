/* A round where what is looked at hangs on something that nobody has told yet: that is asked first,
 * and then the round goes on or leaves it out. */
#include "small_book.h"
#include "talk_kit.h"
#include "testing.h"

static const char rules[] =
    "book: {title: Room, roles: [helper]}\n"
    "questions:\n"
    "  two: {ask: 'Are there two pumps?', about: the site}\n"
    "  left: {ask: 'Does the left pump hum?', round: daily, usual: yes}\n"
    "  right: {ask: 'Does the right pump hum?', round: daily, usual: yes, only-when: {two: "
    "yes}}\n"
    "  tank: {ask: 'Is the tank full?', round: daily, usual: yes}\n"
    "symptoms:\n"
    "  still: {text: Still, when: {left: no}, shown-by: {power: often}}\n"
    "  silent: {text: Silent, when: {right: no}, shown-by: {power: often}}\n"
    "  empty: {text: Empty, when: {tank: no}, shown-by: {leak: often}}\n"
    "causes:\n  power: {text: Power}\n  leak: {text: Leak}\n";

static void assert_walk(const char *told, const char *const *wanted, size_t count)
{
    tt_book *b = small_book(rules);
    record_folder *f = record_folder_new();
    const tt_talk_options options = {.writer = "east",
                                     .role = "helper",
                                     .kept = true,
                                     .number = "000001A",
                                     .kind = TT_KIND_ROUND,
                                     .every = TT_DAILY};
    told_talk t = talk_open_with(b, f, &options, "2026-11-29T09:00:00Z");
    choose(&t, turn_of(&t)->choices[0].id); /* no danger */
    for (size_t i = 0; i < count; i++) {
        assert_string_equal(turn_of(&t)->subject, wanted[i]);
        choose(&t, strcmp(wanted[i], "two") == 0 ? told : "yes");
    }
    assert_turn(turn_of(&t), TT_TURN_WALKED);
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

static void what_it_hangs_on_is_asked_first(void **state)
{
    (void)state;
    static const char *const both[] = {"left", "two", "right", "tank"};
    static const char *const one[] = {"left", "two", "tank"};
    assert_walk("yes", both, 4);
    assert_walk("no", one, 3);
    assert_walk("unsure", one, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(what_it_hangs_on_is_asked_first)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
