/* Three weeks of rounds at a site with two stands and a row on each: the air of one stand creeps,
 * that of the other jumps, and so does one row. Each is told of its own. */
#include <stdio.h>
#include <string.h>

#include "talk_kit.h"
#include "testing.h"

static const char yaml[] =
    "book:\n  title: Stands\n  roles: [helper]\n"
    "kinds:\n  stand:\n    one: stand\n    ask: Which?\n    unnamed: the stand\n"
    "  row:\n    hangs-on: stand\n    one: row\n    ask: Which?\n"
    "questions:\n"
    "  air:\n    for-each: stand\n    ask: What does the air gauge read?\n    round: daily\n    "
    "good: air-set\n    reading: pressure\n"
    "    unit: psi\n    plausible: 0 to 100 psi\n    usual: 10 to 60 psi\n"
    "  air-set:\n    for-each: stand\n    ask: At which air is it right?\n    about: the site\n    "
    "reading: pressure\n    unit: psi\n"
    "    plausible: 0 to 100 psi\n"
    "  throw:\n    for-each: row\n    ask: How far does {row} throw?\n    round: daily\n    good: "
    "throw-set\n    reading: length\n"
    "    unit: ft\n    plausible: 0 to 40 ft\n    usual: 1 to 30 ft\n"
    "  throw-set:\n    for-each: row\n    ask: How far should {row} throw?\n    about: the site\n  "
    "  reading: length\n    unit: ft\n"
    "    plausible: 0 to 40 ft\n"
    "symptoms:\n"
    "  creeps:\n    for-each: stand\n    text: The air creeps up\n    when: {air: {trend: "
    "rising}}\n    shown-by: {seat: usually}\n    otherwise: rarely\n"
    "  jumped:\n    for-each: stand\n    text: The air has jumped\n    when: {air: {trend: "
    "jump}}\n    shown-by: {knob: usually}\n    otherwise: rarely\n"
    "causes:\n"
    "  seat:\n    for-each: stand\n    text: The seat is worn\n    how-often: common\n"
    "  knob:\n    for-each: stand\n    text: The knob was turned\n    how-often: common\n"
    "  screen:\n    for-each: row\n    text: The screen of {row} is clogged\n    how-often: "
    "common\n";
static const char site_text[] = "site:\n  units:\n    stand:\n      foam: {air-set: 30 psi}\n      "
                                "friction: {air-set: 20 psi}\n"
                                "    row:\n      side: {hangs-on: foam, throw-set: 10 ft}\n      "
                                "cloth: {hangs-on: friction, throw-set: 10 ft}\n";

static tt_book *stands(void)
{
    const tt_source source = {"book.yaml", yaml, strlen(yaml)},
                    site = {"site.yaml", site_text, strlen(site_text)};
    tt_report *report;
    tt_book *b;
    if (tt_book_load_at(&source, 1, &site, &b, &report) != TT_OK)
        fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    return b;
}

static told_talk begin(const tt_book *b, record_folder *f, tt_case_kind kind, const tt_past *past,
                       const char *now)
{
    const tt_talk_options options = {.writer = "east",
                                     .role = "helper",
                                     .kept = true,
                                     .number = "000001A",
                                     .kind = kind,
                                     .every = TT_DAILY,
                                     .past = past};
    told_talk t = talk_open_with(b, f, &options, now);
    assert_turn(turn_of(&t), TT_TURN_DANGER);
    choose(&t, turn_of(&t)->choices[0].id);
    return t;
}

/* The foam stand creeps half a psi a day; the friction stand jumps on the eleventh; the row on the
 * cloth falls short from then on. */
static double reading_of(const char *question, int day)
{
    if (strcmp(question, "air of foam") == 0) return 30 + (day - 2) / 2;
    if (strcmp(question, "air of friction") == 0) return (day < 11 ? 20 : 28) + day % 2;
    return strcmp(question, "throw of cloth") == 0 && day >= 11 ? 6 : 10;
}

static const tt_turn *read_all(told_talk *t, int day)
{
    const tt_turn *turn = turn_of(t);
    for (unsigned i = 0; i < 4; i++)
        turn = read_off(t, reading_of(turn->subject, day),
                        strncmp(turn->subject, "air", 3) == 0 ? "psi" : "ft");
    return turn;
}

static void go_round(const tt_book *b, tt_past *past, int day)
{
    char now[40];
    record_folder *f = record_folder_new();
    snprintf(now, sizeof now, "2026-11-%02dT08:00:00Z", day);
    told_talk t = begin(b, f, TT_KIND_ROUND, NULL, now);
    read_all(&t, day);
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

static void each_stand_and_row_is_told_its_own(void **state)
{
    (void)state;
    tt_book *b = stands();
    tt_past *past = three_weeks(b);
    record_folder *f = record_folder_new();
    told_talk t = begin(b, f, TT_KIND_ROUND, past, "2026-11-24T08:00:00Z");
    const tt_turn *turn = read_all(&t, 24);
    assert_turn(turn, TT_TURN_WALKED);
    assert_true(turn_tells(
        turn, TT_PART_DRIFT,
        "30 psi is good here; it is 41 psi now. It has crept up, about 3.5 psi a week."));
    assert_true(turn_tells(
        turn, TT_PART_DRIFT,
        "20 psi is good here; it is 28 psi now. It jumped, between 2026-11-10 and 2026-11-11."));
    assert_true(turn_tells(turn, TT_PART_DRIFT,
                           "How far does cloth throw? 10 ft is good here; it is 6 ft now. It "
                           "jumped, between 2026-11-10 and 2026-11-11."));
    assert_false(turn_tells(turn, TT_PART_DRIFT, "side throw"));
    talk_close(&t);
    tt_past_free(past);
    record_folder_free(f);
    tt_book_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_stand_and_row_is_told_its_own)};
    return cmocka_run_group_tests_name("rounds of two stands", tests, NULL, NULL);
}
