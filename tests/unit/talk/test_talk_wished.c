/* What a case began with, or ended with: the quickest fix first for whoever takes it up as well;
 * and what it was, of many causes. */
#include "one_desk.h"
#include "small_book.h"
#include "testing.h"

#include <stdio.h>
#include <string.h>

#include "base/value.h"

typedef one_desk scene;

/* The likely one has the lower risk, so it comes first unless somebody is in a hurry. */
static const char likely_and_quick[] =
    "book: {title: Pump, roles: [{hand: {authorised: yes}}], two-faults: 0, not-listed: 1 %}\n"
    "questions:\n  runs: {ask: 'Does it run?', usual: yes}\n"
    "symptoms:\n  dead: {text: 'It does not run', heard: [it does not run], when: {runs: no},\n"
    "         otherwise: 1 %, shown-by: {worn: 90 %, loose: 90 %}}\n"
    "causes:\n  worn: {text: 'It is worn', how-often: 6}\n  loose: {text: 'It is loose', "
    "how-often: "
    "4}\n"
    "fixes:\n"
    "  slow: {text: 'Renew it', role: hand, cures: {worn: 99 %}, takes: 90 min, harm: none,\n"
    "         put-back: not needed}\n"
    "  quick:\n    text: Tighten it\n    role: hand\n    cures: {loose: 99 %}\n    takes: 1 min\n"
    "    harm:\n      from: [hot-surface]\n      unprotected: {worst: marginal, chance: "
    "occasional}\n"
    "      protected: {worst: marginal, chance: occasional}\n    protect: [Gloves]\n"
    "    put-back: not needed\n";

static const char *first_fix(told_talk *t)
{
    const tt_turn *turn = turn_of(t);
    if (turn->kind == TT_TURN_STOP || turn->kind == TT_TURN_DANGER) say_it_is_safe(t, "no");
    if (turn_of(t)->kind == TT_TURN_COMPLAINT) choose(t, "dead");
    if (turn_of(t)->kind == TT_TURN_REVIEW) choose(t, "right");
    assert_turn(turn_of(t), TT_TURN_BEFORE_FIX);
    return turn_of(t)->subject;
}

static void who_is_in_a_hurry_stays_so(void **state)
{
    (void)state;
    tt_book *book = small_book(likely_and_quick);
    for (int begun = 0; begun < 2; begun++)
        for (int taken_up = 0; taken_up < 2; taken_up++) {
            record_folder *f = record_folder_new();
            tt_talk_options options = {
                .writer = "east", .kept = true, .number = "000001A", .soonest = begun == 1};
            told_talk t = talk_open_with(book, f, &options, DESK_MORNING);
            assert_string_equal(first_fix(&t), begun == 1 ? "quick" : "slow");
            talk_close(&t);
            options.soonest = taken_up == 1;
            options.how = "resume";
            t = talk_open_with(book, f, &options, DESK_MORNING);
            assert_string_equal(first_fix(&t), begun + taken_up > 0 ? "quick" : "slow");
            talk_close(&t);
            record_folder_free(f);
        }
    tt_book_free(book);
}

/* ---- what it was ---- */

enum { CAUSES = 12, OFFERED = 8 };

static void at_its_cause(void **state)
{
    char yaml[4096], *at = yaml, *last = yaml + sizeof yaml;
    at += snprintf(at, (size_t)(last - at),
                   "book: {title: Pump, roles: [hand], two-faults: 0}\n"
                   "questions:\n  runs: {ask: 'Does it run?', usual: yes}\n"
                   "symptoms:\n  dead: {text: 'It does not run', heard: [it does not run], when: "
                   "{runs: no}, shown-by: {");
    for (int c = 0; c < CAUSES; c++)
        at += snprintf(at, (size_t)(last - at), "%sc%d: 90 %%", c > 0 ? ", " : "", c);
    at += snprintf(at, (size_t)(last - at), "}}\ncauses:\n");
    for (int c = 0; c < CAUSES; c++)
        at += snprintf(at, (size_t)(last - at), "  c%d: {text: 'Part %d broke', how-often: %d}\n",
                       c, c, c == 0 ? 90 : 1);
    snprintf(at, (size_t)(last - at),
             "fixes:\n  renew: {text: 'Renew it', role: hand, cures: {c0: 99 %%}, takes: 1 min, "
             "harm: none, put-back: not needed}\n");
    scene *s = one_desk_new(small_book(yaml));
    *state = s;
    assert_string_equal(first_fix(&s->east), "renew");
    choose(&s->east, "begin");
    while (turn_of(&s->east)->kind == TT_TURN_FIX_STEP) choose(&s->east, "done");
    assert_turn(choose(&s->east, "gone"), TT_TURN_CAUSE);
}

static void what_it_was_may_be_something_not_listed(void **state)
{
    at_its_cause(state);
    scene *s = *state;
    const tt_turn *turn = choose(&s->east, "no");
    assert_turn(turn, TT_TURN_CAUSE);
    assert_int_equal(turn->choice_count, OFFERED + 3);
    assert_false(turn_offers(turn, "c0")); /* that one it was not */
    assert_string_equal(turn->choices[OFFERED].id, "something-not-listed");
    assert_string_equal(turn->choices[OFFERED + 1].id, "unsure");
    assert_string_equal(turn->choices[OFFERED + 2].id, "more");
    turn = choose(&s->east, "more");
    assert_int_equal(turn->choice_count, CAUSES - 1 + 2);
    assert_false(turn_offers(turn, "more"));
    choose(&s->east, "something-not-listed");
    const tt_record *r = last_record(s->f, "confirm");
    assert_non_null(r);
    assert_string_equal(value_text(r->data, "cause"), "something-not-listed");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(who_is_in_a_hurry_stays_so),
        cmocka_unit_test_teardown(what_it_was_may_be_something_not_listed, one_desk_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
