/* Where to go: each question says where it is answered, each complaint where it is seen. */
#include "book_folder.h"
#include "talk_kit.h"
#include "testing.h"

#include <stdlib.h>

static const char *place_named(const tt_book *b, const char *name)
{
    for (uint32_t i = 0; i < tt_spot_count(b); i++)
        if (strcmp(tt_spot_show(b, i, NULL).name, name) == 0) return tt_spot_show(b, i, NULL).text;
    fail_msg("there is no place '%s'", name);
    return "";
}

static void questions_say_where_to_go(void **state)
{
    (void)state;
    tt_book *b = book_folder("rules/foam-line");
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", NULL, NULL, "2026-11-29T09:00:00+01:00");
    assert_turn(turn_of(&t), TT_TURN_DANGER);
    assert_string_equal(turn_of(&t)->place, "");
    choose(&t, "safe");
    assert_turn(choose(&t, "drum-empties-soon"), TT_TURN_QUESTION);
    for (unsigned told = 0, asked = 0; turn_of(&t)->kind == TT_TURN_QUESTION && asked < 6;
         asked++) {
        tt_question q;
        assert_int_equal(
            tt_question_show(tt_talk_case(t.talk), tt_question_find(b, turn_of(&t)->subject), &q),
            TT_OK);
        assert_string_equal(turn_of(&t)->place, q.place_text);
        told += *q.place_text != 0;
        if (q.place != TT_NONE)
            assert_string_equal(q.place_text, tt_spot_show(b, q.place, NULL).text);
        choose(&t, "unsure");
        if (asked == 5) assert_true(told >= 2);
    }
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

static void complaints_say_where_they_are_seen(void **state)
{
    static const char *const where[][2] = {
        {"foam-too-dry", "walkway"}, {"streaks-on-roof", "exit"}, {"drum-empties-soon", "drums"}};
    (void)state;
    tt_book *b = book_folder("rules/foam-line");
    tt_complaint *all;
    uint32_t count, found = 0;
    assert_int_equal(tt_complaints(b, &all, &count), TT_OK);
    for (uint32_t i = 0; i < count; i++)
        for (size_t k = 0; k < sizeof where / sizeof *where; k++) {
            if (strcmp(all[i].name, where[k][0]) != 0) continue;
            assert_string_equal(tt_spot_show(b, all[i].place, NULL).text,
                                place_named(b, where[k][1]));
            found++;
        }
    assert_int_equal(found, 3);
    free(all);
    assert_true(tt_walk(b, 0, 0) <= 0);
    tt_book_free(b);
}

/* Words that mean nothing lead to where one sees it, then to what can be wrong there: never to a
 * dead end. */
static void what_is_not_understood_leads_to_the_places(void **state)
{
    (void)state;
    tt_book *b = book_folder("rules/foam-line");
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", NULL, NULL, "2026-11-29T09:00:00+01:00");
    static const char asked[] = "What is wrong? Say it in your own words, or type a number.";
    const tt_turn *turn = choose(&t, "safe");
    assert_string_equal(turn->prompt, asked);
    assert_string_equal(turn->say, asked);
    turn = type(&t, "xyzzy plugh");
    assert_turn(turn, TT_TURN_COMPLAINT);
    assert_string_not_equal(turn->prompt, asked);
    assert_string_equal(turn->wrong_code, "not-understood");
    assert_true(turn_offers(turn, "drums") && turn_offers(turn, "exit") &&
                turn_offers(turn, "all"));
    assert_false(turn_offers(turn, "foam-too-dry"));
    turn = choose(&t, "drums");
    assert_true(turn_offers(turn, "drum-empties-soon") && turn_offers(turn, "none"));
    assert_false(turn_offers(turn, "foam-too-dry"));
    assert_true(turn_offers(choose(&t, "another-place"), "exit"));
    assert_true(turn_offers(choose(&t, "all"), "foam-too-dry"));
    assert_string_equal(turn_of(&t)->prompt, asked);
    type(&t, "xyzzy plugh");
    turn = type(&t, "the foam is dry"); /* words are still heard */
    assert_turn(turn, TT_TURN_CONFIRM);
    assert_turn(choose(&t, "foam-too-dry"), TT_TURN_QUESTION);
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_not_understood_leads_to_the_places),
        cmocka_unit_test(questions_say_where_to_go),
        cmocka_unit_test(complaints_say_where_they_are_seen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
