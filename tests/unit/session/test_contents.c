/* A book listed for a handbook: what is there once for each piece stands once, and each list points
 * into the next. */
#include "asked_book.h"
#include "testing.h"

static const char filters[] =
    "book:\n  title: Filters\n  roles: [keeper, fitter]\n"
    "kinds:\n  filter:\n    ask: Which filters are there?\n"
    "site:\n  units:\n    filter:\n      coarse:\n        text: the coarse filter\n      fine:\n   "
    "     text: the fine filter\n"
    "questions:\n"
    "  flow:\n    ask: How does it run?\n    answers:\n      trickle: It trickles\n      strong: "
    "Strongly\n    usual: strong\n"
    "  drop:\n    for-each: filter\n    ask: What is the drop at {filter}?\n    reading: "
    "pressure\n    unit: psi\n    usual: 1 to 4 psi\n"
    "  danger:\n    ask: Is there danger?\n    about: today\n    safe: [no]\n"
    "symptoms:\n"
    "  high-drop:\n    for-each: filter\n    text: It holds the water back\n    when: {drop: above "
    "10 psi}\n    shown-by: {full: 90 %}\n"
    "  weak:\n    when: {flow: trickle}\n    heard: [hardly any water]\n    shown-by: {full of any "
    "filter: 80 %, worn: 60 %}\n"
    "causes:\n"
    "  full:\n    for-each: filter\n    text: \"{filter} is full\"\n    how-often: 6\n    "
    "spare-parts: [cartridge]\n"
    "  worn:\n    text: The pump is worn\n    how-often: 2\n    confirmed-by: fitter\n    means: "
    "It turns and gives little.\n"
    "fixes:\n"
    "  change:\n    for-each: filter\n    text: Change it\n    role: keeper\n    cures: {full: 95 "
    "%}\n    harm: none\n    put-back: impossible\n"
    "  flush:\n    for-each: filter\n    text: Flush it\n    role: keeper\n    cures: {full: 40 "
    "%}\n    harm: none\n    put-back: not needed\n"
    "  call-fitter:\n    text: Have it looked at\n    role: fitter\n    cures: {worn: 85 %}\n    "
    "harm: none\n    put-back: not needed\n";

static tt_contents look(asked_book *a)
{
    tt_contents all;
    *a = asked_new(filters);
    assert_int_equal(tt_book_contents(a->c, &all), TT_OK);
    return all;
}

static void pieces_of_a_kind_stand_once(void **state)
{
    (void)state;
    asked_book a;
    const tt_contents all = look(&a);
    assert_int_equal(all.causes.count, 2);
    assert_int_equal(all.fixes.count, 3);
    assert_int_equal(all.symptoms.count, 2);
    assert_int_equal(all.questions.count, 3);
    const tt_listed *full = &all.causes.items[0];
    assert_string_equal(full->name, "full");
    assert_string_equal(full->text, "The coarse filter is full");
    assert_int_equal(full->likewise_count, 1);
    assert_string_equal(tt_piece_show(a.book, full->likewise[0], NULL).text, "the fine filter");
    assert_int_equal(all.causes.items[1].likewise_count, 0);
    asked_free(&a);
}

static void shares_are_of_all_pieces_and_fall(void **state)
{
    (void)state;
    asked_book a;
    const tt_contents all = look(&a);
    assert_float_equal(all.causes.items[0].share, 0.75, 1e-12);
    assert_float_equal(all.causes.items[1].share, 0.25, 1e-12);
    assert_string_equal(all.causes.items[1].confirmed_by, "fitter");
    assert_string_equal(all.causes.items[1].means, "It turns and gives little.");
    assert_int_equal(all.causes.items[0].spare_count, 1);
    assert_string_equal(all.causes.items[0].spares[0], "cartridge");
    asked_free(&a);
}

static void complaints_come_first_and_point_to_causes(void **state)
{
    (void)state;
    asked_book a;
    const tt_contents all = look(&a);
    const tt_listed *weak = &all.symptoms.items[0], *drop = &all.symptoms.items[1];
    assert_true(weak->complaint && !drop->complaint);
    assert_string_equal(weak->text, "It trickles");
    assert_int_equal(weak->point_count, 2);
    assert_int_equal(weak->points[0].to, 0);
    assert_float_equal(weak->points[0].chance, 0.8, 1e-12);
    assert_int_equal(weak->points[1].to, 1);
    assert_float_equal(weak->points[1].chance, 0.6, 1e-12);
    assert_int_equal(drop->point_count, 1);
    assert_int_equal(drop->likewise_count, 1);
    asked_free(&a);
}

static void causes_point_to_fixes_the_surest_first(void **state)
{
    (void)state;
    asked_book a;
    const tt_contents all = look(&a);
    const tt_listed *full = &all.causes.items[0];
    assert_int_equal(full->point_count, 2);
    assert_string_equal(all.fixes.items[full->points[0].to].name, "change");
    assert_float_equal(full->points[0].chance, 0.95, 1e-12);
    assert_string_equal(all.fixes.items[full->points[1].to].name, "flush");
    assert_string_equal(all.fixes.items[all.causes.items[1].points[0].to].name, "call-fitter");
    for (uint32_t i = 0; i < all.fixes.count; i++) {
        tt_fix_plan plan;
        assert_int_equal(tt_fix_show(a.c, all.fixes.items[i].id, &plan), TT_OK);
        assert_string_equal(plan.text, all.fixes.items[i].text);
    }
    asked_free(&a);
}

static void danger_is_asked_first_and_what_is_usual_said(void **state)
{
    (void)state;
    asked_book a;
    const tt_contents all = look(&a);
    assert_string_equal(all.questions.items[0].name, "danger");
    assert_string_equal(all.questions.items[0].usual, "");
    assert_string_equal(all.questions.items[1].name, "drop");
    assert_string_equal(all.questions.items[1].usual, "1 psi \u2013 4 psi");
    assert_string_equal(all.questions.items[2].usual, "Strongly");
    asked_free(&a);
}

static void every_emergency_can_be_shown(void **state)
{
    (void)state;
    asked_book a;
    const tt_contents all = look(&a);
    assert_true(all.emergency_count >= 10);
    for (uint32_t i = 0; i < all.emergency_count; i++) {
        tt_emergency e;
        assert_int_equal(tt_emergency_show(a.c, all.emergencies[i], &e), TT_OK);
        assert_true(e.do_count > 0);
    }
    asked_free(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_of_a_kind_stand_once),
        cmocka_unit_test(shares_are_of_all_pieces_and_fall),
        cmocka_unit_test(complaints_come_first_and_point_to_causes),
        cmocka_unit_test(causes_point_to_fixes_the_surest_first),
        cmocka_unit_test(danger_is_asked_first_and_what_is_usual_said),
        cmocka_unit_test(every_emergency_can_be_shown),
    };
    return cmocka_run_group_tests_name("contents", tests, NULL, NULL);
}
