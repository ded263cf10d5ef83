/* A site's story from records as they are found in a folder: of another edition of the book, of
 * clocks that are wrong, of cases that nobody ended. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "journal_kit.h"
#include "story_kit.h"
#include "telltale.h"
#include "test_sources.h"
#include "testing.h"

static const char book_text[] =
    "book:\n  title: Pump room\n  roles: [helper]\n"
    "questions:\n"
    "  air:\n    ask: What does the air gauge read?\n    round: daily\n    good: air-set\n"
    "    reading: pressure\n    unit: psi\n    plausible: 0 to 100 psi\n"
    "  air-set:\n    ask: At which air does it run well?\n    about: the site\n"
    "    reading: pressure\n    unit: psi\n"
    "  share:\n    ask: How much is the bucket's share?\n    round: daily\n"
    "    reading: share\n    unit: \"%\"\n"
    "quantities:\n"
    "  lost:\n    text: What is lost\n    formula: air-set - air\n    unit: psi\n    over-time: "
    "yes\n"
    "symptoms:\n"
    "  weak:\n    text: It is weak\n    heard: [it is weak]\n    when: {air: below 20 psi}\n"
    "    shown-by: {knob: usually}\n"
    "causes:\n  knob:\n    text: The knob was turned\n"
    "fixes:\n  turn-back:\n    text: Turn the knob back\n    cures: {knob: 90 %}\n    role: "
    "helper\n"
    "    harm: none\n    takes: 2 min\n    put-back: not needed\n    steps:\n      - Turn it.\n"
    "    look-again: [air]\n";
static const char site_text[] = "site:\n  title: The pump house\n  answers:\n"
                                "    air-set: {value: 30 psi, day: 2026-11-02}\n";

enum { A_DAY = 86400000 };

/* Of the day after the 29th of November 2026 by so many. */
static journal_kit kept_case(arena *keep, int day, const char *begin)
{
    journal_kit k = journal_kit_new(keep);
    k.clock += (int64_t)day * A_DAY;
    kit_add(&k, "east", "begin", begin);
    return k;
}

static void add_read(journal_kit *k, const char *question, const char *number)
{
    kit_add(k, "east", "answer",
            str_printf(k->keep, "{\"question\":\"%s\",\"reply\":{\"kind\":\"number\",%s}}",
                       question, number)
                .p);
}

static void add_kept(story_kit *k, const journal_kit *records)
{
    story_kit_add(k, records->records, records->count);
}

static const char a_round[] = "{\"kind\":\"round\",\"every\":\"daily\",\"title\":\"Pump room\"}",
                  a_fault[] = "{\"kind\":\"fault\",\"title\":\"Pump room\"}",
                  in_order[] = "{\"how\":\"in-order\"}";

static void keep_round(story_kit *k, arena *keep, int day, const char *air)
{
    journal_kit r = kept_case(keep, day, a_round);
    add_read(&r, "air", air);
    kit_add(&r, "east", "close", in_order);
    add_kept(k, &r);
}

/* An older edition read another unit, and had a fix of another name. */
static void what_an_older_edition_kept_is_told_as_far_as_it_fits(void **state)
{
    (void)state;
    story_kit k = story_kit_new(book_text, site_text);
    arena *keep = test_arena();
    journal_kit r = kept_case(keep, 0, a_fault);
    kit_add(&r, "east", "complaint", "{\"symptom\":\"hoarse\",\"text\":\"It is hoarse\"}");
    add_read(&r, "air", "\"number\":3,\"unit\":\"gal\"");
    add_read(&r, "gauge", "\"number\":3,\"unit\":\"psi\"");
    kit_add(&r, "east", "answer",
            "{\"question\":\"air\",\"reply\":{\"kind\":\"answer\",\"answer\":\"low\"}}");
    kit_add(&r, "east", "tried", "{\"fix\":\"blow-out\",\"outcome\":\"gone\"}");
    add_read(&r, "air", "\"number\":31");
    kit_add(
        &r, "east", "close",
        "{\"how\":\"gone\",\"fix\":\"blow-out\",\"fix_text\":\"Blow it out\",\"cause\":\"dust\","
        "\"cause_text\":\"Dust\"}");
    add_kept(&k, &r);
    keep_round(&k, keep, 1, "\"number\":500,\"unit\":\"psi\""); /* more than is plausible */
    tt_story *s = story_at(&k, "2026-12-01T08:00:00Z");
    const tt_series *air = series_named(s, "air");
    assert_int_equal(air->point_count, 2);
    assert_string_equal(air->points[0].words, "31 psi");
    assert_true(air->points[0].after_fix && !air->points[1].after_fix);
    assert_int_equal(air->mark_count, 2);
    assert_string_equal(air->marks[1].text, "blow-out"); /* the book knows no words for it */
    const tt_site_story *out = tt_story_look(s);
    assert_string_equal(out->cases[0].fix_text, "Blow it out");
    assert_string_equal(out->cases[0].says.complaint, "It is hoarse");
    assert_int_equal(out->returned_count, 0);
    assert_int_equal(series_named(s, "lost")->point_count, 1);
    tt_story_free(s);
    tt_story_free(NULL);
    arena_free(keep);
    story_kit_end(&k);
}

/* What can't be placed in time is in no series, and comes first of the cases. */
static void times_that_are_none_are_left_out(void **state)
{
    (void)state;
    story_kit k = story_kit_new(book_text, site_text);
    arena *keep = test_arena();
    keep_round(&k, keep, 2, "\"number\":30");
    journal_kit r = kept_case(keep, 0, a_fault);
    kit_add(&r, "east", "complaint", "{\"symptom\":\"weak\",\"text\":\"It is weak\"}");
    add_read(&r, "air", "\"number\":12");
    kit_add(&r, "east", "tried", "{\"fix\":\"turn-back\",\"outcome\":\"gone\"}");
    kit_add(&r, "east", "close", "{\"how\":\"gone\",\"fix\":\"turn-back\"}");
    for (uint32_t i = 0; i < r.count; i++) r.records[i].time = "yesterday";
    add_kept(&k, &r);
    journal_kit open = kept_case(keep, 1, a_round); /* nobody went it to its end */
    add_read(&open, "air", "\"number\":33");
    add_kept(&k, &open);
    tt_story *s = story_at(&k, "2026-11-20T08:00:00Z"); /* the clock went back since */
    const tt_site_story *out = tt_story_look(s);
    assert_int_equal(out->case_count, 3);
    assert_string_equal(out->cases[0].number, "000002A");
    assert_string_equal(out->from, "2026-11-30");
    assert_string_equal(out->to, "2026-12-01");
    assert_int_equal(out->rounds, 1);
    assert_int_equal(out->gap_count, 0);
    const tt_series *air = series_named(s, "air");
    assert_int_equal(air->point_count, 2);
    assert_string_equal(air->points[0].words, "33 psi");
    assert_int_equal(air->mark_count, 1); /* of the site's file; the fix is at no moment */
    tt_story_free(s);
    arena_free(keep);
    story_kit_end(&k);
}

static void keep_trouble(story_kit *k, arena *keep, int day, const char *symptom, const char *close)
{
    journal_kit r = kept_case(keep, day, a_fault);
    if (*symptom != 0)
        kit_add(&r, "east", "complaint",
                str_printf(keep, "{\"symptom\":\"%s\",\"text\":\"It is\"}", symptom).p);
    kit_add(&r, "east", "close", close);
    add_kept(k, &r);
}

static void what_came_back_stands_by_how_often_and_name(void **state)
{
    (void)state;
    story_kit k = story_kit_new(book_text, site_text);
    arena *keep = test_arena();
    static const char called[] = "{\"how\":\"call\"}";
    keep_trouble(&k, keep, 0, "weak", called);
    keep_trouble(&k, keep, 1, "hoarse", called);
    keep_trouble(&k, keep, 2, "", called); /* nobody said what the trouble was */
    keep_trouble(&k, keep, 3, "weak", called);
    keep_trouble(&k, keep, 4, "hoarse", called);
    keep_trouble(&k, keep, 5, "loud", called);
    tt_story *s = story_at(&k, "2026-12-10T08:00:00Z");
    const tt_site_story *out = tt_story_look(s);
    assert_int_equal(out->returned_count, 2);
    assert_string_equal(out->returned[0].name, "hoarse");
    assert_string_equal(out->returned[1].name, "weak");
    assert_string_equal(out->returned[1].text, "It is weak");
    assert_string_equal(out->returned[0].fix, ""); /* nothing had helped */
    assert_true(isnan(out->returned[0].days));
    assert_false(out->returned[0].said);
    tt_story_free(s);
    keep_trouble(&k, keep, 6, "weak", called);
    s = story_at(&k, "2026-12-10T08:00:00Z");
    assert_string_equal(tt_story_look(s)->returned[0].name, "weak");
    tt_story_free(s);
    arena_free(keep);
    story_kit_end(&k);
}

static void a_reading_falls_or_jumps(void **state)
{
    (void)state;
    arena *keep = test_arena();
    story_kit falls = story_kit_new(book_text, site_text),
              jumps = story_kit_new(book_text, site_text);
    for (int day = 0; day < 21; day++) {
        const double down = 30 - 0.3 * (day + 1), up = day < 10 ? 30.5 - day % 2 : 36.5 - day % 2;
        keep_round(&falls, keep, day - 26, str_printf(keep, "\"number\":%.9g", down).p);
        keep_round(&jumps, keep, day - 26, str_printf(keep, "\"number\":%.9g", up).p);
    }
    tt_story *s = story_at(&falls, "2026-12-20T08:00:00Z");
    assert_int_equal(series_named(s, "air")->trend, TT_FALLING);
    assert_string_equal(series_named(s, "air")->per_week, "2.1 psi"); /* seven times .3 */
    tt_story_free(s);
    s = story_at(&jumps, "2026-12-20T08:00:00Z");
    const tt_series *air = series_named(s, "air");
    assert_int_equal(air->trend, TT_JUMP);
    assert_string_equal(air->per_week, "");
    assert_string_equal(air->jumped_after, "2026-11-12");
    assert_string_equal(air->jumped_before, "2026-11-13");
    tt_story_free(s);
    story_kit_end(&falls);
    story_kit_end(&jumps);
    arena_free(keep);
}

/* Recorded on the day of which the site's file says it, it is one mark. Before that day a reading
 * is held against nothing. */
static void what_was_found_good_is_marked_once(void **state)
{
    (void)state;
    story_kit k = story_kit_new(book_text, site_text);
    arena *keep = test_arena();
    keep_round(&k, keep, -30, "\"number\":60"); /* the 30th of October */
    journal_kit r = kept_case(keep, -27, "{\"kind\":\"record\",\"title\":\"Pump room\"}");
    add_read(&r, "air", "\"number\":30");
    kit_add(&r, "east", "close", "{\"how\":\"recorded\"}");
    add_kept(&k, &r);
    keep_round(&k, keep, 0, "\"number\":60");
    tt_story *s = story_at(&k, "2026-12-01T08:00:00Z");
    const tt_series *air = series_named(s, "air");
    assert_int_equal(air->mark_count, 1);
    assert_string_equal(air->marks[0].text, "30 psi");
    assert_string_equal(air->marks[0].number, "000002A");
    assert_int_equal(air->point_count, 3);
    assert_false(air->points[0].beyond);
    assert_true(air->points[2].beyond && air->beyond);
    tt_story_free(s);
    arena_free(keep);
    story_kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_an_older_edition_kept_is_told_as_far_as_it_fits),
        cmocka_unit_test(times_that_are_none_are_left_out),
        cmocka_unit_test(what_came_back_stands_by_how_often_and_name),
        cmocka_unit_test(a_reading_falls_or_jumps),
        cmocka_unit_test(what_was_found_good_is_marked_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
