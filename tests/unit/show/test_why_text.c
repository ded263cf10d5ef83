/* Why a fix waits, in words: each reason, and numbers that turn it, rounded to the side on which
 * they do. */
#include "testing.h"

#include "show/why_text.h"
#include "test_sources.h"

static const char *const names[] = {"in-winter", "in-frost"};

static const tt_why_fix plain_case = {
    .wanted = {.name = "new-seal",
               .text = "Fit a new seal",
               .chance = .3,
               .risk = "medium",
               .role_text = "Technician"},
    .first = {.name = "tighten", .text = "Tighten the gland", .chance = .6, .risk = "low"},
    .names = names,
    .name_count = 2,
    .text = "the pressure, 70 psi, is above 60 psi",
    .least = .05,
    .cost = 40,
    .first_cost = 5,
};

/* Its lines, of all parts, each on one of its own. */
static const char *lines_of(arena *keep, const tt_why_fix *w, tongue in)
{
    part_list parts = {.keep = keep, .in = in};
    text_builder b = {.keep = keep};
    tell_why_fix(&parts, w);
    for (uint32_t i = 0; i < parts.count; i++) {
        text_addf(&b, "%s\n", parts.items[i].title);
        for (uint32_t k = 0; k < parts.items[i].item_count; k++)
            text_addf(&b, "%s\n", parts.items[i].items[k]);
    }
    return text_done(&b).p;
}

static tt_why_fix waits_for(const char *reason)
{
    tt_why_fix w = plain_case;
    w.reason = reason;
    return w;
}

static void each_reason_has_its_words(void **state)
{
    (void)state;
    static const char *const reasons[][2] = {
        {"tried", ""},          {"forbidden", ""},
        {"only-when", ""},      {"only-when-open", ""},
        {"role", "Technician"}, {"rule", "in-winter"},
        {"rule", "in-frost"},   {"setting", "the pressure, 70 psi, is above 60 psi"},
        {"after", "in-winter"}, {"worth", "30 %"},
        {"worth", "5 %"},       {"risk", "low"},
        {"risk", "medium"},     {"pace", "60 %"},
        {"pace", "30 %"},
    };
    arena *keep = test_arena();
    for (size_t i = 0; i < sizeof reasons / sizeof *reasons; i++) {
        const tt_why_fix w = waits_for(reasons[i][0]);
        const char *said = lines_of(keep, &w, 0);
        assert_non_null(strstr(said, "Fit a new seal"));
        assert_non_null(strstr(said, "Tighten the gland"));
        assert_non_null(strstr(said, reasons[i][1]));
        assert_null(strstr(said, "{"));
        for (size_t k = 0; k < i; k++) {
            const tt_why_fix other = waits_for(reasons[k][0]);
            if (strcmp(reasons[k][0], reasons[i][0]) != 0)
                assert_string_not_equal(lines_of(keep, &other, 0), said);
        }
    }
    arena_free(keep);
}

/* Only an order can be turned by a number; where none does, that is said. */
static void only_an_order_tells_what_would_turn_it(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const tt_why_fix role = waits_for("role"), pace = waits_for("pace");
    part_list of_role = {.keep = keep}, of_pace = {.keep = keep};
    tell_why_fix(&of_role, &role);
    tell_why_fix(&of_pace, &pace);
    assert_int_equal(of_role.count, 1);
    assert_int_equal(of_pace.count, 2);
    assert_int_equal(of_pace.items[1].item_count, 1);
    arena_free(keep);
}

static void a_fix_can_wait_though_none_comes_first(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_why_fix w = waits_for("worth");
    w.first = (tt_fix){.name = NULL};
    assert_null(strstr(lines_of(keep, &w, 0), "Tighten"));
    assert_non_null(strstr(lines_of(keep, &w, 0), "Fit a new seal"));
    arena_free(keep);
}

static const struct {
    const char *kind;
    double was, then;
    const char *shown, *was_shown;
} pivots[] = {
    {"takes", 40, 12.56, "12.5 min", "40 min"},
    {"takes", 7.5, 2.58, "2.5 min", "7.5 min"},
    {"takes", 2880, 1439.9, "1439 min", "2880 min"},
    {"takes", 200, 123.96, "123 min", "200 min"},
    {"takes", 1000000, 99999, "99999 min", "1000000 min"},
    {"cures", .3, .801, "81 %", "30 %"},
    {"cures-less", .9, .309, "30 %", "90 %"},
    {"how-often", 1, 2.341, "2.35", ""},
    {"how-often", 1, 12.341, "12.4", ""},
    {"how-often", 1, 1234.5, "1235", ""},
    {"how-often", 1, 3, "3", ""},
};

static void a_number_is_rounded_to_where_it_still_turns(void **state)
{
    (void)state;
    arena *keep = test_arena();
    for (size_t i = 0; i < sizeof pivots / sizeof *pivots; i++) {
        const tt_fix_pivot p = {.kind = pivots[i].kind,
                                .fix = "Fit a new seal",
                                .cause = "The seal is worn",
                                .was = pivots[i].was,
                                .then = pivots[i].then};
        tt_why_fix w = waits_for("pace");
        part_list parts = {.keep = keep};
        w.pivots = &p;
        w.pivot_count = 1;
        tell_why_fix(&parts, &w);
        const char *said = parts.items[1].items[0];
        if (strstr(said, pivots[i].shown) == NULL || strstr(said, pivots[i].was_shown) == NULL)
            fail_msg("%s, where %s and %s should be", said, pivots[i].shown, pivots[i].was_shown);
    }
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_reason_has_its_words),
        cmocka_unit_test(only_an_order_tells_what_would_turn_it),
        cmocka_unit_test(a_fix_can_wait_though_none_comes_first),
        cmocka_unit_test(a_number_is_rounded_to_where_it_still_turns),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
