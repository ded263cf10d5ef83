/* What moved between two editions, in words: each thing that can change has a line of its own, with
 * what was there before, and what did not change has none. */
#include "face/compared.h"
#include "shown_text.h"

enum { MANY = 23 };

static shown_text *told(const tt_compared *all)
{
    shown_text *s = show_at(0);
    show_compared(&s->on, all);
    return s;
}

static void assert_told(const tt_moved *moved, const char *whole)
{
    static const char head[] = "Entries that differ: 0.\n";
    shown_text *s = told(&(tt_compared){.moved = moved, .moved_count = 1});
    const char *text = shown(s);
    assert_shows(text, head);
    assert_string_equal(text + strlen(head), whole);
    shown_free(s);
}

static const char *const steps[] = {"flow", "smoke", "clean"}, *const other[] = {"flow", "hot"},
                         *const fixes[] = {"clean", "swap"}, *const warned[] = {"hot-pipe"};

static void each_change_has_its_line(void **state)
{
    (void)state;
    const tt_moved all = {
        .kind = "worked",
        .name = "a slow drain",
        .before = {.there = true, .leading = "drop", .chance = .25, .path = steps, .path_count = 3},
        .after = {.there = true,
                  .passed = true,
                  .chance = .5,
                  .fixes = fixes,
                  .fix_count = 2,
                  .cautions = warned,
                  .caution_count = 1},
        .leading = true,
        .path = true,
        .fixes = true,
        .cautions = true,
        .passed = true,
        .shift = .25};
    assert_told(&all, "  a slow drain (25 % of the chances lie elsewhere)\n"
                      "    cautions: hot-pipe; before: none\n"
                      "    leads: Something that these rules don't list, 50 %; before: drop, 25 %\n"
                      "    comes out as expected now, and did not before\n"
                      "    fixes: clean, swap; before: none\n"
                      "    comes next: none; before: flow\n");
    const tt_moved fails = {.kind = "stored",
                            .name = "000001A",
                            .before = {.there = true, .passed = true},
                            .after = {.there = true},
                            .passed = true};
    assert_told(&fails, "  Case 000001A (0 % of the chances lie elsewhere)\n"
                        "    does not come out as expected now, and did before\n");
}

static void a_call_goes_another_way_after_what_is_the_same(void **state)
{
    (void)state;
    tt_moved call = {.kind = "call",
                     .name = "7",
                     .before = {.there = true, .path = steps, .path_count = 3},
                     .after = {.there = true, .path = other, .path_count = 2},
                     .path = true};
    assert_told(&call, "  Call 7 (0 % of the chances lie elsewhere)\n"
                       "    goes another way after 1 steps: hot; before: smoke\n");
    call.after.path_count = 1;
    assert_told(&call, "  Call 7 (0 % of the chances lie elsewhere)\n"
                       "    goes another way after 1 steps: none; before: smoke\n");
    call.before.path_count = 1;
    call.after.path_count = 2;
    assert_told(&call, "  Call 7 (0 % of the chances lie elsewhere)\n"
                       "    goes another way after 1 steps: hot; before: none\n");
}

static void who_moved_it_and_who_cannot_play_it(void **state)
{
    (void)state;
    tt_moved lost = {.kind = "worked",
                     .name = "a slow drain",
                     .before = {.there = true},
                     .edits = fixes,
                     .edit_count = 2};
    assert_told(&lost, "  a slow drain (0 % of the chances lie elsewhere)\n"
                       "    can't be played with the newer edition\n"
                       "    by: clean, swap\n");
    lost.before.there = false;
    lost.after.there = true;
    lost.together = true;
    assert_told(&lost, "  a slow drain (0 % of the chances lie elsewhere)\n"
                       "    can't be played with the older edition\n"
                       "    only together, by: clean, swap\n");
}

static void many_are_counted_and_the_first_are_told(void **state)
{
    (void)state;
    tt_moved moved[MANY];
    for (size_t i = 0; i < MANY; i++)
        moved[i] = (tt_moved){
            .kind = "call", .name = "1", .before = {.there = true}, .after = {.there = true}};
    const tt_compared all = {.worked = 4,
                             .moved_worked = 1,
                             .worked_new = 2,
                             .calls = 100,
                             .moved_calls = 22,
                             .moved = moved,
                             .moved_count = MANY};
    shown_text *s = told(&all);
    const char *text = shown(s);
    assert_shows(text, "Worked cases: 1 of 4 come out otherwise.\n"
                       "Worked cases of one edition only: 0 of the older, 2 of the newer.\n"
                       "Made-up calls: 22 of 100 come out otherwise.\n");
    assert_shows_not(text, "Cases that were kept");
    assert_shows(text, "\nAnd 3 more, which moved less.\n");
    shown_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_change_has_its_line),
        cmocka_unit_test(a_call_goes_another_way_after_what_is_the_same),
        cmocka_unit_test(who_moved_it_and_who_cannot_play_it),
        cmocka_unit_test(many_are_counted_and_the_first_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
