/* A talk without a site, one whose site becomes known, and one in which nothing is said. */
#include "book_folder.h"
#include "talk_kit.h"
#include "testing.h"

#include <string.h>

static const char morning[] = "2026-11-29T09:00:00+01:00";

static void for_no_site_nothing_of_the_example_is_taken(void **state)
{
    (void)state;
    tt_book *bare = book_folder_bare("rules/foam-line"), *example = book_folder("rules/foam-line");
    assert_false(tt_book_describe(bare).has_site);
    assert_string_equal(tt_book_describe(bare).site_title, "");
    assert_int_equal(tt_contact_count(bare), 0);
    assert_int_equal(tt_piece_count(bare), 2 * tt_kind_count(bare)); /* stand-ins */
    assert_true(tt_book_describe(example).has_site);
    tt_book_free(example);
    tt_book_free(bare);
}

/* Danger was asked, then what there is: the case goes on at once, with the book for that site. */
static void a_site_that_becomes_known_asks_nothing_again(void **state)
{
    (void)state;
    tt_book *bare = book_folder_bare("rules/foam-line"), *known = book_folder("rules/foam-line");
    record_folder *f = record_folder_new();
    told_talk t = talk_open(bare, f, "east", NULL, NULL, morning);
    assert_true(turn_tells(turn_of(&t), TT_PART_NOTE, "Case number: 000001A"));
    assert_true(choose(&t, "safe")->gate_open);
    talk_close(&t);
    t = talk_open(known, f, "east", NULL, "site", morning);
    assert_true(turn_of(&t)->gate_open);
    assert_int_not_equal(turn_of(&t)->kind, TT_TURN_DANGER);
    assert_true(turn_tells(turn_of(&t), TT_PART_NOTE, tt_book_describe(known).site_title));
    assert_false(turn_tells(turn_of(&t), TT_PART_NOTE, "Case number")); /* told already */
    assert_non_null(last_record(f, "site"));
    assert_null(last_record(f, "resume"));
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(known);
    tt_book_free(bare);
}

static void what_is_left_before_anything_was_said_is_not_kept(void **state)
{
    (void)state;
    tt_book *b = book_folder("rules/foam-line");
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", NULL, NULL, morning);
    choose(&t, "known");
    choose(&t, "go-on");
    assert_turn(choose(&t, "stop"), TT_TURN_END);
    assert_string_equal(turn_of(&t)->how, "left");
    assert_int_equal(f->count, 0);
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

/* What is touched first in danger, and nowhere else. */
static void the_emergency_number_is_the_first_of_danger(void **state)
{
    (void)state;
    static const char book[] =
        "book: {title: Pump, roles: [hand, fitter]}\n"
        "questions:\n  look: {ask: 'How does it look?', answers: {good: Good, bad: Bad}, usual: "
        "good}\n"
        "symptoms:\n  bad-look: {text: 'It looks bad', when: {look: bad}, shown-by: {wear: "
        "often}}\n"
        "causes:\n  wear: {text: 'It is worn'}\n"
        "fixes:\n  renew: {text: 'Renew it', cures: {wear: often}, role: fitter, harm: none,\n"
        "          takes: 5 min, put-back: not needed}\n";
    static const char site[] = "site:\n  title: The tower\n  emergency-number: 911\n  contacts: "
                               "[{role: fitter, post: 'works "
                               "desk', telephone: 555-0150}]\n";
    const tt_source file = {"book.yaml", book, strlen(book)},
                    at = {"site.yaml", site, strlen(site)};
    tt_report *report;
    tt_book *b;
    if (tt_book_load_at(&file, 1, &at, &b, &report) != TT_OK)
        fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", NULL, NULL, morning);
    const tt_turn *turn = choose(&t, "danger");
    assert_turn(turn, TT_TURN_STOP);
    assert_int_equal(turn->contact_count, 2);
    assert_string_equal(turn->contacts[0].telephone, "911");
    assert_string_equal(turn->contacts[0].purpose, "emergency");
    assert_string_equal(turn->contacts[1].who, "works desk");
    assert_true(turn_tells(turn, TT_PART_CALL, "911"));
    assert_false(turn_tells(turn, TT_PART_CALL, "the emergency number: 911"));
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(for_no_site_nothing_of_the_example_is_taken),
        cmocka_unit_test(a_site_that_becomes_known_asks_nothing_again),
        cmocka_unit_test(the_emergency_number_is_the_first_of_danger),
        cmocka_unit_test(what_is_left_before_anything_was_said_is_not_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
