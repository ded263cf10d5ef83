/* Which fix comes first in a case: what waits for another, what costs money, what is near. */
#include <stdio.h>

#include "testing.h"

#include "told_case.h"

/* Worn packing: a sixth of a turn is put back as found, a new one is not. */
static const char packing[] =
    "book:\n"
    "  title: Packing\n"
    "  roles: [helper, mender]\n"
    "  not-listed: 2 %%\n"
    "%s"
    "questions:\n"
    "  danger: {ask: Danger, about: today, safe: [no]}\n"
    "  old: {ask: Old, about: today}\n"
    "  drips: {ask: Drips, usual: no}\n"
    "symptoms:\n"
    "  dripping: {text: Drips, when: {drips: yes}, heard: [drips], shown-by: {loose: often, "
    "worn: often}}\n"
    "causes:\n"
    "  loose: {text: Loose, how-often: common}\n"
    "  worn: {text: Worn, how-often: common}\n"
    "fixes:\n"
    "  tighten:\n"
    "    {text: Tighten, cures: {loose: 35 %%}, takes: 10 min, harm: none, put-back: Back, %s}\n"
    "  replace:\n"
    "    {text: Replace, role: helper, cures: {worn: 90 %%, loose: 80 %%}, takes: 90 min,\n"
    "     harm: none, put-back: impossible%s}\n";

static told_case dripping(const char *manifest, const char *tighten, const char *replace)
{
    char text[4096];
    const int length = snprintf(text, sizeof text, packing, manifest, tighten, replace);
    assert_true(length > 0 && (size_t)length < sizeof text);
    told_case t = told_new(text, NULL);
    told_answer(&t, "danger", "no");
    told_answer(&t, "drips", "yes");
    return t;
}

static tt_standing standing_of(told_case *t, const char *fix)
{
    const tt_view *v = told_look(t);
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (strcmp(v->fixes[i].name, fix) == 0) return v->fixes[i].standing;
    fail_msg("%s is not ranked", fix);
    return TT_NOT_YET;
}

static void tightening_comes_before_replacing(void **state)
{
    (void)state;
    told_case t = dripping("", "role: helper", "");
    assert_int_equal(standing_of(&t, "tighten"), TT_POSSIBLE_FIX);
    assert_int_equal(standing_of(&t, "replace"), TT_LIKELY_FIX);
    assert_string_equal(told_look(&t)->fixes[0].name, "tighten");
    told_offers(&t, TT_FIX, "tighten");
    told_free(&t);
}

/* Tried in vain it lets the other come; what could not be done does not. */
static void what_waits_comes_after_a_try_in_vain(void **state)
{
    (void)state;
    told_case t = dripping("", "role: helper", ", after: tighten");
    assert_int_equal(standing_of(&t, "replace"), TT_NOT_YET);
    told_offers(&t, TT_FIX, "tighten");
    assert_int_equal(told_tried(&t, "tighten", TT_NO_CHANGE), TT_OK);
    assert_int_equal(tt_put_back(t.c, told_fix(&t, "tighten")), TT_OK);
    told_offers(&t, TT_FIX, "replace");
    told_free(&t);

    t = dripping("", "role: helper", ", after: tighten");
    assert_int_equal(told_tried(&t, "tighten", TT_COULD_NOT), TT_OK);
    told_comes(&t, TT_CALL, TT_BY_BALANCED);
    told_free(&t);
}

static void what_waits_for_a_higher_role_is_for_a_call(void **state)
{
    (void)state;
    told_case t = dripping("", "role: mender", ", after: tighten");
    assert_int_equal(standing_of(&t, "replace"), TT_NOT_YET);
    told_comes(&t, TT_CALL, TT_BY_BALANCED);
    told_free(&t);
    t = dripping("", "role: mender", "");
    told_offers(&t, TT_FIX, "replace");
    told_free(&t);
}

static void what_does_not_apply_is_not_waited_for(void **state)
{
    (void)state;
    told_case t = dripping("", "role: mender, only-when: {old: no}", ", after: tighten");
    told_answer(&t, "old", "yes");
    told_offers(&t, TT_FIX, "replace");
    told_free(&t);
    t = dripping("", "role: mender, only-when: {old: no}", ", after: tighten");
    told_answer(&t, "old", "no");
    told_comes(&t, TT_CALL, TT_BY_BALANCED);
    told_free(&t);
}

/* 200 of money at 2 a minute are 100 minutes more; without minute-costs money is not weighed. */
static void money_is_time(void **state)
{
    (void)state;
    static const char costs[] = "  minute-costs: {helper: 2 USD}\n",
                      dear[] = "role: helper, cost: 200 USD";
    told_case t = dripping("", dear, "");
    told_offers(&t, TT_FIX, "tighten");
    assert_true(told_look(&t)->fixes[0].minutes == 10);
    told_free(&t);
    t = dripping(costs, dear, "");
    told_offers(&t, TT_FIX, "replace");
    assert_true(told_look(&t)->fixes[1].minutes == 10);
    told_free(&t);
}

/* ---- places ---- */

static const char places[] =
    "book: {title: House, roles: [helper, mender], not-listed: 2 %, walk: 20 min}\n"
    "places:\n"
    "  attic: {text: the attic}\n"
    "  cellar: {text: the cellar}\n"
    "questions:\n"
    "  danger: {ask: Danger, about: today, safe: [no]}\n"
    "  hums: {ask: Hums, usual: no, place: cellar}\n"
    "  tank: {ask: Tank, usual: no, place: attic, takes: 1 min}\n"
    "  pump: {ask: Pump, usual: no, place: cellar, takes: 2 min}\n"
    "  cap: {ask: Cap, usual: no, place: cellar, takes: 9 min, read-right: 99 %, "
    "confirms: {yes: burnt}}\n"
    "symptoms:\n"
    "  humming: {text: Hums, when: {hums: yes}, heard: [hums], shown-by: {stuck: often, dry: "
    "often, burnt: often}}\n"
    "  empty: {text: Empty, when: {tank: yes}, heard: [empty], shown-by: {dry: usually}}\n"
    "  hot: {text: Hot, when: {pump: yes}, heard: [hot], shown-by: {stuck: usually, burnt: "
    "rarely}}\n"
    "causes:\n"
    "  stuck: {text: Stuck, how-often: common}\n"
    "  dry: {text: Dry, how-often: common}\n"
    "  burnt: {text: Burnt, how-often: common}\n"
    "fixes:\n"
    "  free: {text: Free, role: helper, cures: {stuck: 90 %}, takes: 30 min, harm: none, "
    "put-back: not needed, place: cellar}\n"
    "  fill: {text: Fill, role: helper, cures: {dry: 90 %}, takes: 30 min, harm: none, "
    "put-back: not needed, place: attic}\n"
    "  renew: {text: Renew, role: helper, cures: {burnt: 90 %}, takes: 90 min, harm: none, "
    "put-back: impossible, place: cellar}\n";

static told_case standing_in_house(const char *first, const char *said)
{
    told_case t = told_new(places, NULL);
    told_answer(&t, "danger", "no");
    told_answer(&t, first, said);
    return t;
}

/* The quicker question is in the attic, twenty minutes away. */
static void what_is_near_is_asked_first(void **state)
{
    (void)state;
    told_case t = standing_in_house("hums", "yes");
    told_asks(&t, "pump", TT_BY_BALANCED);
    told_free(&t);
    t = standing_in_house("hums", "yes");
    told_answer(&t, "tank", "unsure"); /* now in the attic: nothing is near any more */
    assert_int_equal(told_look(&t)->step, TT_FIX);
    told_offers(&t, TT_FIX, "fill");
    told_free(&t);
}

static void what_was_taken_back_leaves_one_where_one_was(void **state)
{
    (void)state;
    told_case t = standing_in_house("hums", "yes");
    told_answer(&t, "tank", "unsure");
    told_offers(&t, TT_FIX, "fill");
    assert_int_equal(tt_undo(t.c), TT_OK);
    told_asks(&t, "pump", TT_BY_BALANCED);
    told_free(&t);
}

/* The pump is cold and the tank is full: it is time for the 90 minutes, but the cap is beside it.
 */
static void what_settles_a_fix_is_looked_at_before_it(void **state)
{
    (void)state;
    told_case t = standing_in_house("hums", "yes");
    told_answer(&t, "tank", "no");
    told_answer(&t, "pump", "no");
    told_asks(&t, "cap", TT_BY_BALANCED);
    told_answer(&t, "cap", "yes");
    told_offers(&t, TT_FIX, "renew");
    told_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tightening_comes_before_replacing),
        cmocka_unit_test(what_waits_comes_after_a_try_in_vain),
        cmocka_unit_test(what_waits_for_a_higher_role_is_for_a_call),
        cmocka_unit_test(what_does_not_apply_is_not_waited_for),
        cmocka_unit_test(money_is_time),
        cmocka_unit_test(what_is_near_is_asked_first),
        cmocka_unit_test(what_was_taken_back_leaves_one_where_one_was),
        cmocka_unit_test(what_settles_a_fix_is_looked_at_before_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
