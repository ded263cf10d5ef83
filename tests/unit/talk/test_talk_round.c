/* Rounds and records, led through the conversation; three weeks of rounds in which one reading
 * creeps and another jumps. */
#include <stdio.h>
#include <string.h>

#include "base/value.h"
#include "talk_kit.h"
#include "test_sources.h"
#include "testing.h"

#define FOLDER TT_SOURCE_DIR "/tests/unit/talk/rounds"

static const char site_text[] =
    "site:\n  title: The pump house\n  contacts:\n    - {role: fitter, post: service desk, "
    "telephone: 555-0142}\n  answers:\n"
    "    air-set: {value: 30 psi, day: 2026-11-02}\n"
    "    water-set: {value: 42 psi, day: 2026-11-02, role: fitter, how: a gauge}\n";

static tt_book *book_at_site(arena *keep)
{
    const str text = file_bytes(keep, FOLDER "/book.yaml");
    const tt_source source = {"book.yaml", text.p, text.n},
                    site = {"site.yaml", site_text, strlen(site_text)};
    tt_report *report;
    tt_book *b;
    if (tt_book_load_at(&source, 1, &site, &b, &report) != TT_OK)
        fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    return b;
}

static told_talk begin(const tt_book *b, record_folder *f, tt_case_kind kind, tt_every every,
                       const tt_past *past, const char *now)
{
    const tt_talk_options options = {.writer = "east",
                                     .role = kind == TT_KIND_RECORD ? "fitter" : "helper",
                                     .kept = true,
                                     .number = "000001A",
                                     .kind = kind,
                                     .every = every,
                                     .past = past};
    return talk_open_with(b, f, &options, now);
}

static void pass_the_gate(told_talk *t)
{
    assert_turn(turn_of(t), TT_TURN_DANGER);
    choose(t, turn_of(t)->choices[0].id);
}

/* ---- a round ---- */

static void places_follow_the_way(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = book_at_site(keep);
    record_folder *f = record_folder_new();
    told_talk t = begin(b, f, TT_KIND_ROUND, TT_DAILY, NULL, "2026-11-29T09:00:00Z");
    pass_the_gate(&t);
    assert_string_equal(turn_of(&t)->subject, "hum");
    choose(&t, "even");
    assert_turn(choose(&t, "known"), TT_TURN_KNOWN);
    type(&t, "yes"); /* that it was read */
    assert_string_equal(turn_of(&t)->subject, "air");
    read_off(&t, 31, "psi");
    assert_string_equal(turn_of(&t)->subject, "level"); /* the water is for each week */
    choose(&t, "yes");
    assert_turn(turn_of(&t), TT_TURN_WALKED);
    assert_false(turn_offers(turn_of(&t), "fault"));
    choose(&t, "close");
    assert_turn(turn_of(&t), TT_TURN_END);
    assert_string_equal(turn_of(&t)->how, "in-order");
    assert_string_equal(value_text(f->records[0].data, "kind"), "round");
    assert_string_equal(value_text(f->records[0].data, "every"), "daily");
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
    arena_free(keep);
}

static const tt_turn *see_all(told_talk *t, const char *hum, double air)
{
    pass_the_gate(t);
    choose(t, hum);
    read_off(t, air, "psi");
    const tt_turn *turn = choose(t, "yes");
    assert_turn(turn, TT_TURN_WALKED);
    return turn;
}

/* However it is said, and whoever goes away then has gone the whole round. */
static void a_round_in_order_ends_in_any_words(void **state)
{
    static const char *const said[] = {"in order", "yes", "ok",    "todo en orden",
                                       "all good", "1",   "listo", "stop"};
    (void)state;
    arena *keep = test_arena();
    tt_book *b = book_at_site(keep);
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        record_folder *f = record_folder_new();
        told_talk t = begin(b, f, TT_KIND_ROUND, TT_DAILY, NULL, "2026-11-29T09:00:00Z");
        see_all(&t, "even", 31);
        const tt_turn *turn = type(&t, said[i]);
        assert_turn(turn, TT_TURN_END);
        assert_string_equal(turn->how, "in-order");
        talk_close(&t);
        record_folder_free(f);
    }
    tt_book_free(b);
    arena_free(keep);
}

static void a_round_that_is_off_ends_as_it_is_said(void **state)
{
    static const char done[] = "The round is done: not everything is in order.";
    static const char *const said[][2] = {{"yes", "fault"}, {"no", "drifted"}, {"stop", "stopped"}};
    (void)state;
    arena *keep = test_arena();
    tt_book *b = book_at_site(keep);
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        record_folder *f = record_folder_new();
        told_talk t = begin(b, f, TT_KIND_ROUND, TT_DAILY, NULL, "2026-11-29T09:00:00Z");
        see_all(&t, "rattle", 44);
        assert_turn(type(&t, "all good"), TT_TURN_WALKED); /* it is not */
        const tt_turn *turn = type(&t, said[i][0]);
        assert_string_equal(turn->how, said[i][1]);
        assert_int_equal(strcmp(turn->prompt, done) == 0, i < 2);
        assert_int_equal(turn_tells(turn, TT_PART_CALL, "service desk: 555-0142"), i == 1);
        talk_close(&t);
        record_folder_free(f);
    }
    tt_book_free(b);
    arena_free(keep);
}

static void what_is_off_is_told(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = book_at_site(keep);
    record_folder *f = record_folder_new();
    told_talk t = begin(b, f, TT_KIND_ROUND, TT_WEEKLY, NULL, "2026-11-29T09:00:00Z");
    pass_the_gate(&t);
    choose(&t, "rattle");
    const tt_turn *turn = read_off(&t, 44, "psi");
    assert_true(turn_tells(turn, TT_PART_DRIFT, "30 psi was found good on 2026-11-02"));
    assert_string_equal(turn->subject, "water");
    choose(&t, "unsure");
    turn = choose(&t, "yes");
    assert_turn(turn, TT_TURN_WALKED);
    assert_true(turn_tells(turn, TT_PART_DRIFT, "A rattle"));
    assert_true(turn_tells(turn, TT_PART_DRIFT, "44 psi"));
    assert_true(turn_tells(turn, TT_PART_NOTE, "water gauge"));
    turn = choose(&t, "fault");
    assert_string_equal(turn->how, "fault");
    talk_close(&t);
    t = talk_open(b, f, "west", NULL, "resume", "2026-11-29T10:00:00Z"); /* it is a round still */
    assert_turn(turn_of(&t), TT_TURN_CLOSED);
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
    arena_free(keep);
}

/* A round passes the gate, and danger ends it as it ends any case. */
static void danger_comes_first(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = book_at_site(keep);
    record_folder *f = record_folder_new();
    told_talk t = begin(b, f, TT_KIND_ROUND, TT_DAILY, NULL, "2026-11-29T09:00:00Z");
    pass_the_gate(&t);
    const tt_turn *turn = type(&t, "somebody is bleeding");
    assert_turn(turn, TT_TURN_STOP);
    assert_true(turn->dangerous);
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
    arena_free(keep);
}

/* ---- a record ---- */

static void the_lowest_role_records_nothing(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = book_at_site(keep);
    tt_talk *talk;
    tt_talk_options options = {.writer = "east", .number = "", .kind = TT_KIND_RECORD};
    assert_int_equal(tt_talk_new(b, &options, &talk), TT_FAULTY);
    options.role = "helper";
    assert_int_equal(tt_talk_new(b, &options, &talk), TT_FAULTY);
    options.role = "fitter";
    assert_int_equal(tt_talk_new(b, &options, &talk), TT_OK);
    tt_talk_free(talk);
    tt_book_free(b);
    arena_free(keep);
}

static void good_values_and_set_points_are_asked(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = book_at_site(keep);
    record_folder *f = record_folder_new();
    told_talk t = begin(b, f, TT_KIND_RECORD, TT_DAILY, NULL, "2026-11-29T09:00:00Z");
    pass_the_gate(&t);
    assert_string_equal(turn_of(&t)->subject, "air");
    const tt_turn *turn = read_off(&t, 300, "psi");
    assert_string_equal(turn->subject, "air"); /* implausible: asked again */
    assert_string_not_equal(turn->wrong, "");
    turn = read_off(&t, 65, "psi"); /* usual is 10 to 60: as good it is asked for twice */
    assert_string_equal(turn->subject, "air");
    assert_string_equal(turn->wrong_code, "unusual-good");
    turn = type(&t, "66 psi"); /* which is not the same */
    assert_string_equal(turn->wrong_code, "unusual-good");
    turn = type(&t, "66 psi");
    assert_string_equal(turn->subject, "tip");
    choose(&t, "back");
    read_off(&t, 33, "psi");
    assert_string_equal(turn_of(&t)->subject, "tip"); /* of the site, and looked at now and then */
    choose(&t, "large");
    turn = read_off(&t, 42, "psi");
    assert_turn(turn, TT_TURN_WALKED);
    assert_true(turn_tells(turn, TT_PART_FACTS, "33 psi (until now 30 psi)"));
    assert_true(turn_tells(turn, TT_PART_FACTS, "42 psi"));
    assert_false(turn_tells(turn, TT_PART_FACTS, "42 psi (until"));
    const tt_walked *all;
    uint32_t count;
    assert_int_equal(tt_walk_look(tt_talk_case(t.talk), &all, &count), TT_OK);
    assert_int_equal(count, 3);
    assert_string_equal(all[0].value, "33 psi");
    assert_string_equal(all[1].value, "large");
    turn = type(&t, "yes"); /* that it is written down */
    assert_string_equal(turn->how, "recorded");
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
    arena_free(keep);
}

/* ---- three weeks of rounds ---- */

/* The air creeps half a psi a day, the water jumps on the eleventh; both read to the nearest psi.
 */
static void go_round(const tt_book *b, tt_past *past, int day)
{
    char now[40];
    record_folder *f = record_folder_new();
    snprintf(now, sizeof now, "2026-11-%02dT08:00:00Z", day);
    told_talk t = begin(b, f, TT_KIND_ROUND, TT_WEEKLY, NULL, now);
    pass_the_gate(&t);
    choose(&t, "even");
    read_off(&t, 30 + (double)((day - 2) / 2), "psi");
    read_off(&t, (day < 11 ? 42 : 50) + day % 2, "psi");
    choose(&t, "yes");
    choose(&t, "close");
    assert_turn(turn_of(&t), TT_TURN_END);
    talk_close(&t);
    assert_int_equal(tt_past_add(past, "000001A", f->records, f->count), TT_OK);
    record_folder_free(f);
}

static tt_past *three_weeks(const tt_book *b)
{
    tt_past *past;
    assert_int_equal(tt_past_new(&past), TT_OK);
    for (int day = 3; day < 24; day++) go_round(b, past, day);
    return past;
}

static void creeping_and_jumping_are_told_apart(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = book_at_site(keep);
    tt_past *past = three_weeks(b);
    record_folder *f = record_folder_new();
    assert_int_equal(tt_past_due(past, "2026-11-24T08:00:00Z"), TT_MONTHLY); /* never gone */
    told_talk t = begin(b, f, TT_KIND_ROUND, TT_WEEKLY, past, "2026-11-27T08:00:00Z");
    assert_true(turn_tells(turn_of(&t), TT_PART_NOTE, "on 2026-11-23. Left out since: 3"));
    tt_past_free(past); /* the case holds all that it needs of it */
    pass_the_gate(&t);
    choose(&t, "even");
    const tt_turn *turn = read_off(&t, 42, "psi");
    assert_true(turn_tells(turn, TT_PART_DRIFT, "crept up, about 3."));
    turn = read_off(&t, 50, "psi");
    assert_true(turn_tells(turn, TT_PART_DRIFT, "jumped, between 2026-11-10 and 2026-11-11"));
    turn = choose(&t, "yes");
    assert_true(turn_tells(turn, TT_PART_DRIFT, "crept up"));
    talk_close(&t);
    t = talk_open(b, f, "east", NULL, "resume", "2026-11-27T08:05:00Z"); /* from its records */
    pass_the_gate(&t);
    assert_true(turn_tells(turn_of(&t), TT_PART_DRIFT, "crept up"));
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
    arena_free(keep);
}

/* Of the site, and no reading that moves. */
static void say_what_is_good(told_talk *t)
{
    const tt_given set = {.question = "air-set", .number = 33, .unit = "psi"};
    hand_in(t, &(tt_heard){.given = &set, .given_count = 1});
}

static void of_the_past_a_case_keeps_what_has_a_good_value(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = book_at_site(keep);
    tt_past *past = three_weeks(b);
    record_folder *f = record_folder_new(), *before = record_folder_new();
    told_talk t = begin(b, before, TT_KIND_FAULT, TT_DAILY, NULL, "2026-11-24T08:00:00Z");
    pass_the_gate(&t);
    say_what_is_good(&t);
    assert_non_null(last_record(before, "answer"));
    talk_close(&t);
    assert_int_equal(tt_past_add(past, "000001B", before->records, before->count), TT_OK);
    t = begin(b, f, TT_KIND_FAULT, TT_DAILY, past, "2026-11-25T08:00:00Z");
    pass_the_gate(&t);
    const tt_value *readings = value_get(last_record(f, "past")->data, "readings");
    assert_int_equal(readings->count, 2);
    assert_int_equal(value_get(readings, "air")->count, 21);
    assert_int_equal(value_get(readings, "water")->count, 21);
    talk_close(&t);
    tt_past_free(past);
    record_folder_free(before);
    record_folder_free(f);
    tt_book_free(b);
    arena_free(keep);
}

static double chance_of(tt_talk *talk, const char *cause)
{
    const tt_view *v;
    assert_int_equal(tt_look(tt_talk_case(talk), &v), TT_OK);
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (v->causes[i].name != NULL && strcmp(v->causes[i].name, cause) == 0)
            return v->causes[i].chance;
    fail_msg("there is no cause '%s'", cause);
    return 0;
}

/* What the author says of a trend is evidence in a case of the fault, and ends with its reading. */
static void drift_is_evidence(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *b = book_at_site(keep);
    tt_past *past = three_weeks(b);
    record_folder *f = record_folder_new();
    told_talk t = begin(b, f, TT_KIND_FAULT, TT_DAILY, past, "2026-11-24T08:00:00Z");
    tt_past_free(past);
    pass_the_gate(&t);
    type(&t, "it rattles");
    const double before = chance_of(t.talk, "seat");
    type(&t, "air gauge 41 psi");
    const double after = chance_of(t.talk, "seat");
    assert_true(after > 2 * before && after > chance_of(t.talk, "knob"));
    const tt_view *v;
    bool told = false;
    assert_int_equal(tt_look(tt_talk_case(t.talk), &v), TT_OK);
    for (uint32_t i = 0; i < v->fact_count; i++)
        if (strcmp(v->facts[i].name, "air: trend") == 0)
            told = strcmp(v->facts[i].value, "rising") == 0 && !v->facts[i].is_number;
    assert_true(told);
    choose(&t, "back");
    assert_true(chance_of(t.talk, "seat") < after);
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(places_follow_the_way),
        cmocka_unit_test(a_round_in_order_ends_in_any_words),
        cmocka_unit_test(a_round_that_is_off_ends_as_it_is_said),
        cmocka_unit_test(what_is_off_is_told),
        cmocka_unit_test(danger_comes_first),
        cmocka_unit_test(the_lowest_role_records_nothing),
        cmocka_unit_test(good_values_and_set_points_are_asked),
        cmocka_unit_test(creeping_and_jumping_are_told_apart),
        cmocka_unit_test(of_the_past_a_case_keeps_what_has_a_good_value),
        cmocka_unit_test(drift_is_evidence),
    };
    return cmocka_run_group_tests_name("talk round", tests, NULL, NULL);
}
