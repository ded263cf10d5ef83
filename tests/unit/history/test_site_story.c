/* The cases of a site as one story: readings with what is good and what was done, what is reckoned
 * from them and what is missing for it, what came back, the days without a round. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "story_kit.h"
#include "talk_kit.h"
#include "testing.h"

static const char book_text[] =
    "book:\n  title: Pump room\n  roles: [helper, {fitter: {authorised: yes}}]\n"
    "questions:\n"
    "  air:\n    ask: What does the air gauge read?\n    round: daily\n    good: air-set\n"
    "    reading: pressure\n    unit: psi\n    plausible: 0 to 100 psi\n"
    "  fill:\n    ask: How long does the bucket take to fill?\n    round: daily\n    about: today\n"
    "    reading: time\n    unit: s\n    plausible: 1 to 600 s\n"
    "  air-set:\n    ask: At which air does it run well?\n    about: the site\n"
    "    reading: pressure\n    unit: psi\n"
    "  bucket:\n    ask: How much does the bucket hold?\n    about: the site\n    round: monthly\n"
    "    reading: volume\n    unit: gal\n"
    "  crate:\n    ask: How much is in a crate?\n    about: the site\n    reading: volume\n    "
    "unit: gal\n"
    "quantities:\n"
    "  flow:\n    text: What flows\n    formula: bucket / fill\n    unit: gal/min\n    over-time: "
    "yes\n"
    "  crates:\n    text: Crates a day\n    formula: flow * 24 h / crate\n    over-time: yes\n"
    "  unseen:\n    text: Twice the flow\n    formula: 2 * flow\n    unit: gal/min\n"
    "symptoms:\n"
    "  weak:\n    text: It is weak\n    heard: [it is weak]\n    when: {air: below 20 psi}\n"
    "    shown-by: {knob: usually}\n"
    "causes:\n  knob:\n    text: {en: \"The knob was turned\", es: \"Movieron la perilla\"}\n"
    "fixes:\n  turn-back:\n    text: {en: \"Turn the knob back\", es: \"Regresar la perilla\"}\n   "
    " cures: "
    "{knob: 90 %}\n    role: "
    "helper\n"
    "    harm: none\n    takes: 2 min\n    put-back: not needed\n    steps:\n      - Turn it.\n    "
    "look-again: [air]\n";

static const char site_text[] = "site:\n  title: The pump house\n  answers:\n"
                                "    air-set: {value: 30 psi, day: 2026-11-02}\n"
                                "    bucket: 5 gal\n";

static told_talk begin_case(story_kit *k, record_folder *f, tt_case_kind kind, const char *day)
{
    char now[40];
    snprintf(now, sizeof now, "%sT08:00:00Z", day);
    const tt_talk_options options = {.writer = "east",
                                     .role = kind == TT_KIND_RECORD ? "fitter" : "helper",
                                     .kept = true,
                                     .number = "000001A",
                                     .kind = kind};
    told_talk t = talk_open_with(k->book, f, &options, now);
    choose(&t, turn_of(&t)->choices[0].id);
    return t;
}

static void end_case(story_kit *k, told_talk *t, record_folder *f)
{
    talk_close(t);
    story_kit_add(k, f->records, f->count);
    record_folder_free(f);
}

/* fill: NAN leaves it out. */
static void go_round(story_kit *k, const char *day, double air, double fill)
{
    record_folder *f = record_folder_new();
    told_talk t = begin_case(k, f, TT_KIND_ROUND, day);
    read_off(&t, air, "psi");
    if (isfinite(fill))
        read_off(&t, fill, "s");
    else
        choose(&t, "unsure");
    choose(&t, "close");
    assert_turn(turn_of(&t), TT_TURN_END);
    end_case(k, &t, f);
}

static void cure(story_kit *k, const char *day, bool comes_back)
{
    record_folder *f = record_folder_new();
    told_talk t = begin_case(k, f, TT_KIND_FAULT, day);
    type(&t, "it is weak");
    for (int i = 0; i < 20 && turn_of(&t)->kind != TT_TURN_END; i++) {
        const tt_turn *turn = turn_of(&t);
        if (turn->kind == TT_TURN_CONFIRM)
            choose(&t, turn->choices[0].id);
        else if (turn->takes.reading)
            read_off(&t,
                     last_record(f, "fix") == NULL && last_record(f, "tried") == NULL &&
                             last_record(f, "begun") == NULL
                         ? 12
                         : 30,
                     "psi");
        else if (turn_offers(turn, "begin"))
            choose(&t, "begin");
        else if (turn_offers(turn, "done"))
            choose(&t, "done");
        else if (turn_offers(turn, "gone"))
            choose(&t, "gone");
        else
            choose(&t, turn->choices[0].id);
    }
    assert_turn(turn_of(&t), TT_TURN_END);
    if (comes_back) {
        talk_close(&t);
        t = talk_open(k->book, f, "east", NULL, "resume", "2026-11-20T08:00:00Z");
        choose(&t, "came-back");
    }
    end_case(k, &t, f);
}

/* ---- what is tested ---- */

static void nothing_is_kept_yet(void **state)
{
    (void)state;
    story_kit k = story_kit_new(book_text, site_text);
    tt_story *s = story_at(&k, "2026-11-10T08:00:00Z");
    const tt_site_story *out = tt_story_look(s);
    assert_string_equal(out->site, "The pump house");
    assert_string_equal(out->from, "");
    assert_int_equal(out->case_count, 0);
    assert_int_equal(out->gap_count, 0);
    const tt_series *air = series_named(s, "air"), *flow = series_named(s, "flow");
    assert_true(air != NULL && flow != NULL);
    assert_int_equal(air->point_count, 0);
    assert_true(air->has_good);
    assert_string_equal(air->good_words, "30 psi");
    assert_int_equal(flow->missing_count, 1); /* the bucket stands in the site's file */
    assert_string_equal(flow->missing[0].name, "fill");
    assert_null(series_named(s, "unseen"));
    tt_story_free(s);
    tt_story *none = NULL;
    assert_int_equal(tt_story_new(k.book, k.past, "yesterday", NULL, &none), TT_FAULTY);
    assert_null(none);
    story_kit_end(&k);
}

static void readings_move_and_are_judged(void **state)
{
    (void)state;
    story_kit k = story_kit_new(book_text, site_text);
    for (int day = 3; day < 24; day++) {
        char text[32];
        snprintf(text, sizeof text, "2026-11-%02d", day);
        go_round(&k, text, 30 + (double)((day - 2) / 2), NAN);
    }
    tt_story *s = story_at(&k, "2026-11-24T08:00:00Z");
    const tt_series *air = series_named(s, "air");
    assert_int_equal(air->point_count, 21);
    assert_false(air->points[0].beyond);
    assert_true(air->points[20].beyond);
    assert_true(air->beyond && air->trend_known);
    assert_int_equal(air->trend, TT_RISING);
    assert_true(strncmp(air->per_week, "3.", 2) == 0);
    assert_string_equal(air->points[20].words, "40 psi");
    assert_int_equal(air->mark_count, 1); /* what the site's file says of the second */
    assert_int_equal(air->marks[0].kind, TT_MARK_SET);
    assert_string_equal(air->marks[0].number, "");
    tt_story_free(s);
    story_kit_end(&k);
}

static void what_is_reckoned_follows_the_readings(void **state)
{
    (void)state;
    story_kit k = story_kit_new(book_text, site_text);
    go_round(&k, "2026-11-03", 30, 60);
    go_round(&k, "2026-11-04", 30, NAN); /* nothing to reckon with */
    record_folder *f = record_folder_new();
    told_talk t = begin_case(&k, f, TT_KIND_RECORD, "2026-11-05");
    while (turn_of(&t)->kind == TT_TURN_QUESTION)
        if (strcmp(turn_of(&t)->subject, "bucket") == 0)
            read_off(&t, 10, "gal");
        else
            read_off(&t, 30, "psi");
    choose(&t, "keep");
    end_case(&k, &t, f);
    go_round(&k, "2026-11-06", 30, 60);
    tt_story *s = story_at(&k, "2026-11-06T09:00:00Z");
    const tt_series *flow = series_named(s, "flow"), *crates = series_named(s, "crates");
    assert_true(flow->reckoned);
    assert_int_equal(flow->point_count, 2);
    assert_float_equal(flow->points[0].number, 5, 1e-9);
    assert_float_equal(flow->points[1].number, 10, 1e-9); /* as it was recorded */
    assert_string_equal(flow->points[1].words, "10 gal/min");
    assert_int_equal(crates->point_count, 0);
    bool named = false;
    for (uint32_t i = 0; i < crates->missing_count; i++)
        named =
            named || (strcmp(crates->missing[i].name, "crate") == 0 && crates->missing[i].of_site);
    assert_true(named);
    tt_story_free(s);
    story_kit_end(&k);
}

static void days_without_a_round_are_told(void **state)
{
    (void)state;
    story_kit k = story_kit_new(book_text, site_text);
    go_round(&k, "2026-11-09", 30, 60); /* in no order */
    go_round(&k, "2026-11-03", 30, 60);
    go_round(&k, "2026-11-04", 30, 60);
    go_round(&k, "2026-11-04", 30, 60);
    tt_story *s = story_at(&k, "2026-11-11T08:00:00Z");
    const tt_site_story *out = tt_story_look(s);
    assert_int_equal(out->rounds, 4);
    assert_int_equal(out->gap_count, 2);
    assert_string_equal(out->gaps[0].from, "2026-11-05");
    assert_string_equal(out->gaps[0].to, "2026-11-08");
    assert_int_equal(out->gaps[0].days, 4);
    assert_string_equal(out->gaps[1].from, "2026-11-10"); /* today is not over */
    assert_string_equal(out->gaps[1].to, "2026-11-10");
    assert_int_equal(out->days_without, 5);
    assert_int_equal(out->gap_month_count, 1);
    assert_string_equal(out->gap_months[0].month, "2026-11");
    assert_string_equal(out->gap_months[0].which, "05\u201308, 10");
    assert_int_equal(out->gap_months[0].days, 5);
    assert_string_equal(out->from, "2026-11-03");
    assert_string_equal(out->cases[3].number, "000001A"); /* by when they began */
    tt_story_free(s);
    story_kit_end(&k);
}

static void a_gap_over_a_year_is_told_month_by_month(void **state)
{
    (void)state;
    story_kit k = story_kit_new(book_text, site_text);
    go_round(&k, "2026-11-29", 30, 60);
    go_round(&k, "2027-02-03", 30, 60);
    tt_story *s = story_at(&k, "2027-02-03T08:00:00Z");
    const tt_site_story *out = tt_story_look(s);
    static const char *const months[] = {"2026-11", "2026-12", "2027-01", "2027-02"},
                             *const which[] = {"30", "01\u201331", "01\u201331", "01\u201302"};
    assert_int_equal(out->gap_count, 1);
    assert_int_equal(out->gap_month_count, 4);
    for (uint32_t i = 0; i < 4; i++) {
        assert_string_equal(out->gap_months[i].month, months[i]);
        assert_string_equal(out->gap_months[i].which, which[i]);
    }
    tt_story_free(s);
    story_kit_end(&k);
}

static void what_came_back_is_told_with_what_had_helped(void **state)
{
    (void)state;
    story_kit k = story_kit_new(book_text, site_text);
    cure(&k, "2026-11-04", false);
    tt_story *s = story_at(&k, "2026-11-30T08:00:00Z");
    assert_int_equal(tt_story_look(s)->returned_count, 0);
    tt_story_free(s);
    cure(&k, "2026-11-14", true);
    s = story_at(&k, "2026-11-30T08:00:00Z");
    const tt_site_story *out = tt_story_look(s);
    assert_int_equal(out->returned_count, 1);
    const tt_returned *r = &out->returned[0];
    assert_string_equal(r->name, "weak");
    assert_int_equal(r->times, 2);
    assert_string_equal(r->fix_text, "Turn the knob back");
    assert_float_equal(r->days, 10, 0.1);
    assert_true(r->said);
    const tt_series *air = series_named(s, "air");
    bool marked = false;
    for (uint32_t i = 0; i < air->mark_count; i++)
        marked = marked || (air->marks[i].kind == TT_MARK_FIX &&
                            strcmp(air->marks[i].text, "Turn the knob back") == 0);
    assert_true(marked);
    tt_story_free(s);
    assert_int_equal(tt_story_new(k.book, k.past, "2026-11-30T08:00:00Z", "es", &s), TT_OK);
    assert_string_equal(tt_story_look(s)->cases[0].fix_text, "Regresar la perilla");
    assert_string_equal(tt_story_look(s)->cases[0].says.cause, "Movieron la perilla");
    assert_string_equal(tt_story_look(s)->cases[0].says.complaint, "It is weak");
    tt_story_free(s);
    story_kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_kept_yet),
        cmocka_unit_test(readings_move_and_are_judged),
        cmocka_unit_test(what_is_reckoned_follows_the_readings),
        cmocka_unit_test(days_without_a_round_are_told),
        cmocka_unit_test(a_gap_over_a_year_is_told_month_by_month),
        cmocka_unit_test(what_came_back_is_told_with_what_had_helped),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
