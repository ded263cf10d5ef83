/* What stands beside a question and beside what was tried: what is put back, with what to look, how
 * long it takes; which words of ours there are. */
#include "one_desk.h"
#include "small_book.h"
#include "testing.h"

#include <stdio.h>
#include <string.h>

#include "base/value.h"

/* Invented here: a pump behind a hatch. */
static const char rules[] =
    "book:\n  title: Pump\n  edition: 1\n  roles: [{hand: {authorised: yes}}, fitter]\n"
    "instruments:\n  dial: {text: the dial on the wall}\n"
    "questions:\n"
    "  oil:\n    ask: How much oil is there?\n    reading: length\n    unit: mm\n"
    "    plausible: 0 to 90 mm\n    look: Open the hatch.\n    put-back: Close the hatch\n"
    "    takes: %s\n    instrument: dial\n"
    "symptoms:\n"
    "  loud:\n    text: It is loud\n    heard: [it is loud]\n    when: {oil: below 20 mm}\n"
    "    shown-by: {dry: 90 %%, bent: 40 %%}\n    otherwise: 5 %%\n"
    "causes:\n  dry:\n    text: It runs dry\n    how-often: common\n"
    "  bent:\n    text: The shaft is bent\n    how-often: rare\n"
    "fixes:\n"
    "  fill:\n    text: Fill in oil\n    cures: {dry: 90 %%}\n    takes: 5 min\n    role: hand\n"
    "    harm: none\n    put-back: Drain the oil again\n"
    "  straighten:\n    text: Straighten the shaft\n    cures: {bent: 90 %%}\n    takes: 50 min\n"
    "    role: fitter\n    harm: none\n    put-back: not needed\n";

typedef one_desk scene;

static void at_oil(void **state, const char *takes, const tt_talk_options *options)
{
    char yaml[sizeof rules + 20];
    snprintf(yaml, sizeof yaml, rules, takes);
    scene *s = one_desk_new(small_book(yaml));
    *state = s;
    if (options != NULL) {
        talk_close(&s->east);
        s->east = talk_open_with(s->b, s->f, options, DESK_MORNING);
    }
    say_it_is_safe(&s->east, "no");
    choose(&s->east, "loud");
    if (turn_of(&s->east)->kind == TT_TURN_REVIEW) choose(&s->east, "right");
    assert_turn(turn_of(&s->east), TT_TURN_QUESTION);
    assert_string_equal(turn_of(&s->east)->subject, "oil");
}

static const char *news_of(const tt_turn *turn, tt_part_kind kind)
{
    for (uint32_t i = 0; i < turn->news_count; i++)
        if (turn->news[i].kind == kind) return turn->news[i].items[0];
    return "";
}

/* Told before as what comes afterwards, and once more when it is time; of what could not be looked
 * at nothing was opened. */
static void what_was_opened_to_look_is_closed(void **state)
{
    static const struct {
        const char *said;
        bool opened;
    } replies[] = {{"12 mm", true}, {"not sure", true}, {"can't", false}};
    for (size_t i = 0; i < sizeof replies / sizeof *replies; i++) {
        at_oil(state, "5 min", NULL);
        scene *s = *state;
        assert_true(turn_tells(turn_of(&s->east), TT_PART_PUT_BACK, "Close the hatch"));
        assert_string_equal(news_of(turn_of(&s->east), TT_PART_PUT_BACK), "");
        const tt_turn *turn = type(&s->east, replies[i].said);
        assert_string_equal(turn->wrong_code, "");
        assert_non_null(last_record(s->f, "answer"));
        assert_string_equal(news_of(turn, TT_PART_PUT_BACK),
                            replies[i].opened ? "Close the hatch" : "");
        if (i < 2) one_desk_end(state);
    }
}

static void it_is_told_where_with_what_and_how_long(void **state)
{
    static const char *const takes[][2] = {{"2 min", ""}, {"3 min", "3 min"}, {"40 min", "40 min"}};
    for (int i = 0; i < 3; i++) {
        at_oil(state, takes[i][0], NULL);
        const tt_turn *turn = turn_of(&((scene *)*state)->east);
        assert_true(turn_tells(turn, TT_PART_LOOK, "Open the hatch."));
        assert_true(turn_tells(turn, TT_PART_LOOK, "the dial on the wall"));
        assert_int_equal(turn_tells(turn, TT_PART_NOTE, "This takes"), i > 0);
        if (i > 0) assert_true(turn_tells(turn, TT_PART_NOTE, takes[i][1]));
        assert_true(turn->takes.reading && !turn->takes.count);
        assert_true(turn->takes.low == 0 && turn->takes.high == 90);
        assert_string_equal(turn->takes.unit, "mm");
        assert_int_equal(turn->progress.asked, 2); /* danger was the first */
        if (i < 2) one_desk_end(state);
    }
}

/* ---- our words ---- */

static bool has_word(const tt_turn *turn, const char *id)
{
    for (uint32_t i = 0; i < turn->word_count; i++)
        if (strcmp(turn->words[i].id, id) == 0) return true;
    return false;
}

/* Nobody can take up what isn't kept. */
static void only_a_case_that_is_kept_can_wait(void **state)
{
    for (int kept = 0; kept < 2; kept++) {
        const tt_talk_options options = {
            .writer = "east", .kept = kept == 1, .number = kept == 1 ? "000001A" : ""};
        at_oil(state, "5 min", &options);
        scene *s = *state;
        const tt_turn *turn = turn_of(&s->east);
        assert_true(has_word(turn, "stop") && has_word(turn, "danger"));
        assert_int_equal(has_word(turn, "hold"), kept);
        assert_int_equal(has_word(turn, "hand over"), kept);
        turn = type(&s->east, "why"); /* a page that offers no stop */
        assert_true(turn->kind == TT_TURN_WHY);
        if (!has_word(turn, "stop"))
            assert_false(has_word(turn, "hold") || has_word(turn, "hand over"));
        if (kept == 0) one_desk_end(state);
    }
}

static void a_case_without_a_number_tells_none(void **state)
{
    for (int numbered = 0; numbered < 2; numbered++) {
        at_oil(state, "5 min", NULL);
        scene *s = *state;
        talk_close(&s->east);
        s->f->count = 0;
        const tt_talk_options options = {
            .writer = "east", .kept = true, .number = numbered == 1 ? "000001A" : ""};
        s->east = talk_open_with(s->b, s->f, &options, DESK_MORNING);
        bool told = false, titled = false;
        const tt_turn *turn = turn_of(&s->east);
        for (uint32_t i = 0; i < turn->news_count; i++) {
            told = told || strstr(turn->news[i].items[0], "Case number") != NULL;
            titled = titled || strcmp(turn->news[i].items[0], "Pump") == 0;
        }
        assert_true(titled);
        assert_int_equal(told, numbered);
        if (numbered == 0) one_desk_end(state);
    }
}

/* ---- what was tried ---- */

static const tt_turn *filled_in_vain(scene *s)
{
    choose(&s->east, "unsure");
    if (turn_of(&s->east)->kind == TT_TURN_REVIEW) choose(&s->east, "right");
    assert_turn(turn_of(&s->east), TT_TURN_BEFORE_FIX);
    assert_string_equal(turn_of(&s->east)->subject, "fill");
    choose(&s->east, "begin");
    while (turn_of(&s->east)->kind == TT_TURN_FIX_STEP) choose(&s->east, "done");
    return choose(&s->east, "no-change");
}

static void what_is_still_to_be_put_back_stands_with_what_is_known(void **state)
{
    at_oil(state, "5 min", NULL);
    scene *s = *state;
    assert_turn(filled_in_vain(s), TT_TURN_PUT_BACK);
    const tt_turn *turn = type(&s->east, "known");
    assert_turn(turn, TT_TURN_KNOWN);
    assert_true(turn_tells(turn, TT_PART_TRIED, "Fill in oil"));
    assert_true(turn_tells(turn, TT_PART_PUT_BACK, "Drain the oil again (after: Fill in oil)"));
    assert_false(turn_tells(turn, TT_PART_TELL, "Drain the oil"));
    choose(&s->east, "go-on");
    choose(&s->east, "put-back");
    turn = type(&s->east, "known");
    assert_true(turn_tells(turn, TT_PART_TRIED, "Fill in oil"));
    assert_false(turn_tells(turn, TT_PART_PUT_BACK, ""));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(what_was_opened_to_look_is_closed, one_desk_end),
        cmocka_unit_test_teardown(it_is_told_where_with_what_and_how_long, one_desk_end),
        cmocka_unit_test_teardown(only_a_case_that_is_kept_can_wait, one_desk_end),
        cmocka_unit_test_teardown(a_case_without_a_number_tells_none, one_desk_end),
        cmocka_unit_test_teardown(what_is_still_to_be_put_back_stands_with_what_is_known,
                                  one_desk_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
