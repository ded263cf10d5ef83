/* Whom a case that ends in a call names: whoever asks for help is sent to the next role; from
 * there on those who are likely to be of use, and somebody from outside where nobody is. */
#include "testing.h"

#include "base/value.h"
#include "talk_kit.h"

#include <stdio.h>
#include <string.h>

/* What share of the calls is the electrician's, how often the fitter's own fix cures, and what
 * there is of contacts. */
#define BOOK(electric) \
    "book:\n" \
    "  title: Pump\n" \
    "  edition: 1\n" \
    "  not-listed: 20 %\n" \
    "  roles: [hand, {fitter: {authorised: yes}}, {electrician: {authorised: yes}}]\n" \
    "questions:\n" \
    "  runs: {ask: \"Does it run?\", usual: yes}\n" \
    "symptoms:\n" \
    "  dead:\n" \
    "    text: It does not run\n" \
    "    heard: [it does not run]\n" \
    "    when: {runs: no}\n" \
    "    shown-by: {jammed: 90 %, fuse: 90 %}\n" \
    "    otherwise: 40 %\n" \
    "causes:\n" \
    "  jammed: {text: \"It is jammed\", how-often: 50}\n" \
    "  fuse: {text: \"A fuse has blown\", how-often: " electric "}\n" \
    "fixes:\n" \
    "  turn: {text: \"Turn it by hand\", role: fitter, cures: {jammed: 99 %}, takes: 10 min, " \
    "harm: none, put-back: not needed}\n" \
    "  renew: {text: \"Renew the fuse\", role: electrician, cures: {fuse: 99 %}, takes: 10 min, " \
    "harm: none, put-back: not needed}\n"
static const char site[] =
    "site:\n"
    "  contacts:\n"
    "    - {role: fitter, post: workshop, telephone: 555-0101}\n"
    "    - {role: electrician, post: \"contract electrician\", telephone: 555-0102}\n"
    "    - {purpose: \"maker of the pump\", post: \"service desk\", telephone: 555-0103}\n";

static const char now[] = "2026-11-30T09:00:00+01:00";

/* Until the case comes to a call. */
static const tt_turn *until_called(told_talk *t)
{
    const tt_turn *turn = turn_of(t);
    for (int i = 0; i < 40 && turn->kind != TT_TURN_CALL; i++) switch (turn->kind) {
        case TT_TURN_DANGER:
            turn = choose(t, "no");
            break;
        case TT_TURN_QUESTION:
            turn = choose(t, "no");
            break;
        case TT_TURN_BEFORE_FIX:
            turn = choose(t, "begin");
            break;
        case TT_TURN_FIX_STEP:
            turn = choose(t, "done");
            break;
        case TT_TURN_OUTCOME:
            turn = choose(t, "no-change");
            break;
        default:
            turn = type(t, "it does not run");
            break;
        }
    assert_turn(turn, TT_TURN_CALL);
    return turn;
}

static tt_book *book_at(const char *yaml)
{
    const tt_source book = {"book.yaml", yaml, strlen(yaml)},
                    at = {"site.yaml", site, strlen(site)};
    tt_book *b;
    tt_report *report;
    assert_int_equal(tt_book_load_at(&book, 1, &at, &b, &report), TT_OK);
    tt_report_free(report);
    return b;
}

typedef struct scene {
    tt_book *book;
    record_folder *folder;
    told_talk talk;
} scene;

static scene begin(const char *yaml, const char *role)
{
    scene s = {.book = book_at(yaml), .folder = record_folder_new()};
    s.talk = talk_open(s.book, s.folder, "west", role, NULL, now);
    return s;
}

static void end(scene *s)
{
    talk_close(&s->talk);
    record_folder_free(s->folder);
    tt_book_free(s->book);
}

static void whoever_asks_for_help_is_sent_to_the_next(void **state)
{
    (void)state;
    scene s = begin(BOOK("1"), "hand");
    const tt_turn *turn = until_called(&s.talk);
    assert_true(turn_tells(turn, TT_PART_CALL, "workshop: 555-0101"));
    assert_true(turn_tells(turn, TT_PART_KINDS, "Turn it by hand"));
    assert_false(turn_tells(turn, TT_PART_CALL, "outside"));
    end(&s);
}

static void one_who_is_likely_to_be_of_use_is_named(void **state)
{
    (void)state;
    scene s = begin(BOOK("30"), "fitter");
    const tt_turn *turn = until_called(&s.talk);
    assert_true(turn_tells(turn, TT_PART_CALL, "contract electrician: 555-0102"));
    assert_true(turn_tells(turn, TT_PART_KINDS, "Renew the fuse"));
    assert_false(turn_tells(turn, TT_PART_CALL, "outside"));
    choose(&s.talk, "wait");
    assert_string_equal(value_text(last_record(s.folder, "waiting")->data, "whom"), "electrician");
    end(&s);
}

static void where_nobody_is_it_is_somebody_from_outside(void **state)
{
    (void)state;
    scene s = begin(BOOK("1"), "fitter");
    const tt_turn *turn = until_called(&s.talk);
    assert_true(turn_tells(turn, TT_PART_CALL, "somebody from outside who knows this equipment"));
    assert_true(turn_tells(turn, TT_PART_CALL, "service desk: 555-0103"));
    assert_false(turn_tells(turn, TT_PART_CALL, "electrician"));
    assert_false(turn_tells(turn, TT_PART_KINDS, "Renew the fuse")); /* it may be no electrician */
    assert_string_equal(turn->contacts[0].telephone, "555-0103");
    assert_turn(choose(&s.talk, "wait"), TT_TURN_END);
    assert_true(turn_tells(turn_of(&s.talk), TT_PART_CALL, "somebody from outside"));
    assert_string_equal(value_text(last_record(s.folder, "waiting")->data, "whom"), "");
    end(&s);
}

/* Nobody stands above the last role. */
static void the_last_role_is_not_sent_to_itself(void **state)
{
    (void)state;
    scene s = begin(BOOK("30"), "electrician");
    const tt_turn *turn = until_called(&s.talk);
    assert_true(turn_tells(turn, TT_PART_CALL, "somebody from outside"));
    end(&s);
}

static told_talk come_again(scene *s, const char *writer, const char *how)
{
    return talk_open(s->book, s->folder, writer, NULL, how, now);
}

/* One case, left to whoever was called, and looked at once more. */
static told_talk closed_by_a_call(scene *s)
{
    until_called(&s->talk);
    assert_turn(choose(&s->talk, "close"), TT_TURN_END);
    told_talk again = come_again(s, "east", "resume");
    assert_turn(turn_of(&again), TT_TURN_CLOSED);
    return again;
}

static void say_that_nothing_was(told_talk *t)
{
    assert_turn(turn_of(t), TT_TURN_STOP);
    assert_turn(choose(t, "mistaken"), TT_TURN_DANGER);
    choose(t, "no");
}

static void danger_opens_what_was_left_to_another(void **state)
{
    (void)state;
    scene s = begin(BOOK("1"), "hand");
    told_talk east = closed_by_a_call(&s);
    choose(&east, "danger");
    say_that_nothing_was(&east);
    assert_turn(turn_of(&east), TT_TURN_CALL);
    talk_close(&east);
    end(&s);
}

/* Or "leave" would close it as if the trouble were gone. */
static void danger_that_another_tells_opens_it_too(void **state)
{
    (void)state;
    scene s = begin(BOOK("1"), "hand");
    told_talk east = closed_by_a_call(&s), third = come_again(&s, "third", "join");
    choose(&third, "danger");
    talk_news_of_others(&east);
    say_that_nothing_was(&east);
    assert_turn(turn_of(&east), TT_TURN_CALL);
    choose(&east, turn_offers(turn_of(&east), "leave") ? "leave" : "close");
    assert_string_equal(value_text(last_record(s.folder, "close")->data, "how"), "call");
    talk_close(&third);
    talk_close(&east);
    end(&s);
}

/* Whoever leaves the page then, closes nothing that another has opened. */
static void what_another_opens_is_open_for_all(void **state)
{
    (void)state;
    scene s = begin(BOOK("1"), "hand");
    told_talk east = closed_by_a_call(&s), third = come_again(&s, "third", "resume");
    const uint32_t before = s.folder->count;
    choose(&third, "reopen");
    talk_news_of_others(&east);
    assert_int_not_equal(turn_of(&east)->kind, TT_TURN_CLOSED);
    choose(&east, "stop");
    for (uint32_t i = before; i < s.folder->count; i++)
        assert_string_not_equal(s.folder->records[i].kind, "close");
    talk_close(&third);
    talk_close(&east);
    end(&s);
}

static void what_may_be_danger_is_asked_though_it_is_closed(void **state)
{
    (void)state;
    scene s = begin(BOOK("1"), "hand");
    told_talk east = closed_by_a_call(&s);
    assert_turn(type(&east, "it smells of chlorine"), TT_TURN_DANGER);
    talk_close(&east);
    end(&s);
}

/* Of many causes that are all unlikely the first is told all the same, and no more; of likely ones
 * three. */
static void whoever_is_called_is_told_the_first_cause_at_least(void **state)
{
    static const struct {
        int causes;
        uint32_t told;
    } books[] = {{2, 2}, {4, 3}, {30, 1}};
    (void)state;
    for (size_t i = 0; i < sizeof books / sizeof *books; i++) {
        char yaml[8192], *at = yaml, *last = yaml + sizeof yaml;
        at += snprintf(at, (size_t)(last - at),
                       "book: {title: Pump, roles: [hand, fitter, electrician], not-listed: 1 %%}\n"
                       "questions:\n  runs: {ask: 'Does it run?', usual: yes}\n"
                       "symptoms:\n  dead: {text: 'It does not run', heard: [it does not run], "
                       "when: {runs: no}, otherwise: 1 %%, shown-by: {");
        for (int c = 0; c < books[i].causes; c++)
            at += snprintf(at, (size_t)(last - at), "%sc%d: 90 %%", c > 0 ? ", " : "", c);
        at += snprintf(at, (size_t)(last - at), "}}\ncauses:\n");
        for (int c = 0; c < books[i].causes; c++)
            at += snprintf(at, (size_t)(last - at), "  c%d: {text: 'Part %d broke'}\n", c, c);
        snprintf(at, (size_t)(last - at),
                 "fixes:\n  renew: {text: 'Renew it', role: fitter, cures: {c0: 99 %%}, takes: 10 "
                 "min, harm: none, put-back: not needed}\n");
        scene s = begin(yaml, "hand");
        const tt_turn *turn = until_called(&s.talk);
        uint32_t told = 0;
        for (uint32_t p = 0; p < turn->part_count; p++)
            for (uint32_t k = 0; k < turn->parts[p].item_count; k++)
                told += turn->parts[p].kind == TT_PART_TELL &&
                        strstr(turn->parts[p].items[k], " broke (") != NULL;
        assert_int_equal(told, books[i].told);
        end(&s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whoever_asks_for_help_is_sent_to_the_next),
        cmocka_unit_test(one_who_is_likely_to_be_of_use_is_named),
        cmocka_unit_test(where_nobody_is_it_is_somebody_from_outside),
        cmocka_unit_test(the_last_role_is_not_sent_to_itself),
        cmocka_unit_test(whoever_is_called_is_told_the_first_cause_at_least),
        cmocka_unit_test(danger_opens_what_was_left_to_another),
        cmocka_unit_test(danger_that_another_tells_opens_it_too),
        cmocka_unit_test(what_another_opens_is_open_for_all),
        cmocka_unit_test(what_may_be_danger_is_asked_though_it_is_closed),
    };
    return cmocka_run_group_tests_name("whom to call", tests, NULL, NULL);
}
