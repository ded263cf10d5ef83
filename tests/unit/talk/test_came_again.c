/* What was cured at a site is likelier there again, and so is what brings it on; less so as days
 * pass.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "small_book.h"
#include "talk_kit.h"
#include "testing.h"
#include "told_case.h"

static const char rules[] =
    "book:\n  title: Pump\n  edition: 1\n  roles: [anybody]\n  two-faults: 0 %\n  not-listed: 0 %\n"
    "questions:\n"
    "  seal:\n    ask: Is the seal wet?\n"
    "symptoms:\n"
    "  wet:\n    text: The seal is wet\n    heard: [the seal is wet]\n    when: {seal: yes}\n"
    "    shown-by: {torn: 90 %, bent: 90 %, loose: 90 %}\n    otherwise: 5 %\n"
    "causes:\n"
    "  torn:\n    text: The seal is torn\n    how-often: 6\n    brought-on-by: [bent]\n"
    "  bent:\n    text: The shaft is bent\n    how-often: 1\n"
    "  loose:\n    text: The seal is loose\n    how-often: 3\n"
    "fixes:\n"
    "  new-seal:\n    text: Change the seal\n    role: anybody\n    takes: 5 min\n"
    "    cures: {torn: 90 %}\n    harm: none\n    put-back: not needed\n"
    "  tighten:\n    text: Tighten the seal\n    role: anybody\n    takes: 20 min\n"
    "    cures: {loose: 90 %, torn: 10 %}\n    harm: none\n    put-back: not needed\n";

static tt_cured once(tt_cure *cure)
{
    return (tt_cured){.cures = cure, .count = 1, .calls = 1, .days = cure->days};
}

static double odds(told_case *t, const char *cause)
{
    return told_chance(t, cause) / told_chance(t, "loose");
}

static void cures_raise_the_cause_and_its_root(void **state)
{
    (void)state;
    told_case t = told_new(rules, NULL);
    const double torn = odds(&t, "torn"), bent = odds(&t, "bent");
    tt_cure cure = {.cause = "", .fix = "new-seal", .days = 3};
    const tt_cured past = once(&cure);
    assert_int_equal(tt_cured_before(t.c, &past), TT_OK);
    /* A day: 0.1 return, the half of it within 30 days; 2 calls in 33 days; 6 of 10 are torn. */
    const double a_day = 0.1 * log(2) / 30 * exp2(-3.0 / 30), calls = 2 / 33.0;
    assert_true(fabs(odds(&t, "torn") / torn - (1 + a_day / 2 / (calls * 0.6))) < 1e-12);
    assert_true(fabs(odds(&t, "bent") / bent - (1 + a_day / 2 / (calls * 0.1))) < 1e-12);
    told_free(&t);
}

static void long_ago_says_less_and_a_name_unknown_nothing(void **state)
{
    (void)state;
    told_case t = told_new(rules, NULL);
    const double before = odds(&t, "torn");
    tt_cure cure = {.cause = "torn", .fix = "", .days = 2};
    tt_cured past = once(&cure);
    assert_int_equal(tt_cured_before(t.c, &past), TT_OK);
    const double soon = odds(&t, "torn");
    cure.days = past.days = 200;
    assert_int_equal(tt_cured_before(t.c, &past), TT_OK);
    const double late = odds(&t, "torn");
    assert_true(soon > late && late > before);
    cure = (tt_cure){.cause = "worn", .fix = "no-such", .days = 2};
    assert_int_equal(tt_cured_before(t.c, &past), TT_OK);
    assert_true(fabs(odds(&t, "torn") - before) < 1e-12);
    told_free(&t);
}

static void it_has_a_bar_of_its_own(void **state)
{
    (void)state;
    told_case t = told_new(rules, NULL);
    tt_cure cure = {.cause = "torn", .fix = "", .days = 1};
    const tt_cured past = once(&cure);
    assert_int_equal(tt_cured_before(t.c, &past), TT_OK);
    told_answer(&t, "seal", "yes");
    tt_why why;
    double sum = 0, earlier = 0;
    assert_int_equal(tt_why_cause(t.c, 0, TT_NONE, &why), TT_OK);
    for (uint32_t i = 0; i < why.bar_count; i++) {
        sum += why.bars[i].decibels;
        if (strcmp(why.bars[i].kind, "earlier") == 0) earlier = why.bars[i].decibels;
        assert_string_not_equal(why.bars[i].kind, "facts");
    }
    assert_true(earlier > 0);
    assert_true(fabs(sum - why.decibels) < 1e-9);
    told_free(&t);
}

static uint32_t rank_of(told_case *t, const char *cause)
{
    const tt_view *v = told_look(t);
    uint32_t rank = 0;
    while (v->causes[rank].name == NULL || strcmp(v->causes[rank].name, cause) != 0) rank++;
    return rank;
}

static double earlier_bar(told_case *t, const char *mine, const char *theirs)
{
    tt_why why;
    assert_int_equal(tt_why_cause(t->c, rank_of(t, mine), rank_of(t, theirs), &why), TT_OK);
    for (uint32_t i = 0; i < why.bar_count; i++)
        if (strcmp(why.bars[i].kind, "earlier") == 0) return why.bars[i].decibels;
    return 0;
}

/* For whichever two: it is what the cure did to their odds. */
static void its_bar_is_what_it_did_to_the_odds(void **state)
{
    static const char *const names[] = {"torn", "bent", "loose"};
    double before[3];
    (void)state;
    told_case t = told_new(rules, NULL);
    for (int i = 0; i < 3; i++) before[i] = told_chance(&t, names[i]);
    tt_cure cure = {.cause = "", .fix = "new-seal", .days = 3};
    const tt_cured past = once(&cure);
    assert_int_equal(tt_cured_before(t.c, &past), TT_OK);
    for (int i = 0; i < 3; i++)
        for (int k = 0; k < 3; k++) {
            if (i == k) continue;
            const double now = told_chance(&t, names[i]) / told_chance(&t, names[k]);
            const double wanted = 10 * log10(now / (before[i] / before[k]));
            const double bar = earlier_bar(&t, names[i], names[k]);
            assert_true(fabs(bar - wanted) < 1e-9);
            assert_true(fabs(bar + earlier_bar(&t, names[k], names[i])) < 1e-9);
        }
    told_free(&t);
}

/* Something not listed keeps its share, so each cause has a little less than its factor against it.
 */
static void against_what_is_not_listed_it_is_its_factor(void **state)
{
    char text[sizeof rules];
    (void)state;
    memcpy(text, rules, sizeof rules);
    memcpy(strstr(text, "not-listed: 0 %"), "not-listed: 9 %", 15);
    told_case t = told_new(text, NULL);
    const tt_view *v = told_look(&t);
    uint32_t other = 0;
    while (v->causes[other].name != NULL) other++;
    const double before = told_chance(&t, "torn") / v->causes[other].chance;
    tt_cure cure = {.cause = "", .fix = "new-seal", .days = 3};
    const tt_cured past = once(&cure);
    assert_int_equal(tt_cured_before(t.c, &past), TT_OK);
    const double torn = told_chance(&t, "torn");
    v = told_look(&t);
    for (other = 0; v->causes[other].name != NULL;) other++;
    const double factor = torn / v->causes[other].chance / before;
    tt_why why;
    for (int turned = 0; turned < 2; turned++) {
        const uint32_t rank = turned ? other : rank_of(&t, "torn"),
                       rival = turned ? rank_of(&t, "torn") : other;
        assert_int_equal(tt_why_cause(t.c, rank, rival, &why), TT_OK);
        assert_int_equal(why.bar_count, 2); /* no rule has a part in it */
        assert_string_equal(why.bars[1].kind, "earlier");
        assert_true(fabs(why.bars[1].decibels - (turned ? -10 : 10) * log10(factor)) < 1e-9);
    }
    told_free(&t);
}

/* ---- from the journals ---- */

static const tt_turn *to_fix(told_talk *t)
{
    const tt_turn *turn = turn_of(t);
    for (unsigned i = 0; i < 8 && turn->kind != TT_TURN_BEFORE_FIX; i++)
        turn = turn->kind == TT_TURN_COMPLAINT ? choose(t, "wet")
               : turn->kind == TT_TURN_REVIEW  ? choose(t, "right")
               : turn->kind == TT_TURN_EARLIER ? choose(t, "none")
                                               : choose(t, "no");
    assert_turn(turn, TT_TURN_BEFORE_FIX);
    return turn;
}

static void lead_to_a_cure(const tt_book *b, tt_past *past)
{
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", "anybody", NULL, "2026-11-20T10:00:00+00:00");
    assert_string_equal(to_fix(&t)->subject, "new-seal");
    choose(&t, "begin");
    choose(&t, "done");
    choose(&t, "gone");
    talk_close(&t);
    assert_non_null(last_record(f, "close"));
    assert_int_equal(tt_past_add(past, "000001A", f->records, f->count), TT_OK);
    record_folder_free(f);
}

/* In percent, as it is said of the shaft, which brings a torn seal on. */
static double said_of_shaft(const told_talk *t)
{
    const tt_turn *turn = turn_of(t);
    for (uint32_t i = 0; i < turn->leading_count; i++)
        if (strncmp(turn->leading[i].text, "The shaft", 9) == 0)
            return strtod(strchr(turn->leading[i].text, '(') + 1, NULL);
    fail_msg("nothing is said of the shaft");
    return 0;
}

static double shaft_chance(const tt_book *b, const tt_past *past)
{
    record_folder *f = record_folder_new();
    const tt_talk_options options = {.writer = "west", .role = "anybody", .past = past};
    told_talk t = talk_open_with(b, f, &options, "2026-11-25T10:00:00+00:00");
    to_fix(&t);
    const double chance = said_of_shaft(&t);
    talk_close(&t);
    t = talk_open(b, f, "west", NULL, "resume", "2026-11-27T10:00:00+00:00"); /* days later */
    to_fix(&t);
    assert_true(fabs(said_of_shaft(&t) - chance) < 1e-12);
    talk_close(&t);
    record_folder_free(f);
    return chance;
}

static void an_earlier_case_says_it(void **state)
{
    (void)state;
    tt_book *b = small_book(rules);
    tt_past *past, *none;
    assert_int_equal(tt_past_new(&past), TT_OK);
    assert_int_equal(tt_past_new(&none), TT_OK);
    lead_to_a_cure(b, past);
    const double with = shaft_chance(b, past), without = shaft_chance(b, none);
    if (!(with > without)) fail_msg("%g, and %g without", with, without);
    tt_past_free(past);
    tt_past_free(none);
    tt_book_free(b);
}

/* Told as soon as the complaint is known, by whoever begins a case then. */
static bool tells_then(const tt_book *b, const tt_past *past, const char *now, const char *words)
{
    bool tells = false;
    record_folder *f = record_folder_new();
    const tt_talk_options options = {.writer = "west", .role = "anybody", .past = past};
    told_talk t = talk_open_with(b, f, &options, now);
    const tt_turn *turn = turn_of(&t);
    for (unsigned i = 0; i < 4 && turn->kind != TT_TURN_BEFORE_FIX; i++) {
        turn = turn->kind == TT_TURN_COMPLAINT ? choose(&t, "wet")
               : turn->kind == TT_TURN_EARLIER ? choose(&t, "none")
                                               : choose(&t, "no");
        tells |= turn_tells(turn, TT_PART_PAST, words);
    }
    talk_close(&t);
    record_folder_free(f);
    return tells;
}

static void how_often_and_within_how_many_days_is_told(void **state)
{
    (void)state;
    tt_book *b = small_book(rules);
    tt_past *past;
    assert_int_equal(tt_past_new(&past), TT_OK);
    lead_to_a_cure(b, past);
    assert_true(tells_then(b, past, "2026-11-20T18:00:00+00:00", "2 times in one day, with this"));
    assert_true(tells_then(b, past, "2026-11-25T11:00:00+00:00", "2 times in 6 days, with this"));
    assert_true(tells_then(b, past, "2038-11-25T11:00:00+00:00", "2 times, with this one"));
    assert_true(tells_then(b, past, "2026-11-25T11:00:00+00:00",
                           "Last time, on 2026-11-20: Change the seal. It helped."));
    tt_past_free(past);
    tt_book_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cures_raise_the_cause_and_its_root),
        cmocka_unit_test(long_ago_says_less_and_a_name_unknown_nothing),
        cmocka_unit_test(it_has_a_bar_of_its_own),
        cmocka_unit_test(its_bar_is_what_it_did_to_the_odds),
        cmocka_unit_test(against_what_is_not_listed_it_is_its_factor),
        cmocka_unit_test(an_earlier_case_says_it),
        cmocka_unit_test(how_often_and_within_how_many_days_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
