/* Why one cause rather than another, in words: each kind of bar, of what is missing, and of what
 * would turn it. */
#include "testing.h"

#include <math.h>

#include "show/why_text.h"
#include "test_sources.h"

static const char *const two[] = {"in-winter", "in-frost"};

/* Its lines, of all parts, each on one of its own. */
static const char *lines_of(arena *keep, const tt_turning *t)
{
    part_list parts = {.keep = keep};
    text_builder b = {.keep = keep};
    tell_why(&parts, t);
    for (uint32_t i = 0; i < parts.count; i++) {
        text_addf(&b, "%s\n", parts.items[i].title);
        for (uint32_t k = 0; k < parts.items[i].item_count; k++)
            text_addf(&b, "%s\n", parts.items[i].items[k]);
    }
    return text_done(&b).p;
}

static const tt_bar start = {.kind = "start", .text = ""};

static tt_turning turning(const tt_bar *bars, uint32_t count, double decibels)
{
    return (tt_turning){
        .why = {.cause = {.name = "worn", .text = "The seal is worn", .chance = .6},
                .rival = {.name = "loose", .text = "The gland is loose", .chance = .3},
                .decibels = decibels,
                .bars = bars,
                .bar_count = count}};
}

static void assert_says(const tt_turning *t, const char *wanted, bool said)
{
    arena *keep = test_arena();
    const char *lines = lines_of(keep, t);
    if ((strstr(lines, wanted) != NULL) != said)
        fail_msg("'%s' %s\n%s", wanted, said ? "isn't in" : "is in", lines);
    assert_null(strstr(lines, "{"));
    arena_free(keep);
}

static void each_bar_has_its_words(void **state)
{
    (void)state;
    static const struct {
        tt_bar bar;
        const char *said;
    } rows[] = {
        {{.kind = "start", .text = ""}, "+0.0 How often it happens"},
        {{.kind = "answers", .text = "Does it drip? Yes", .decibels = 12.06},
         "+12.1 Does it drip? Yes"},
        {{.kind = "earlier", .text = "", .decibels = -3}, "-3.0 What was cured here before"},
        {{.kind = "facts", .text = "", .names = two, .name_count = 2, .decibels = 1},
         "mostly are: in-winter, in-frost"},
        {{.kind = "facts", .text = "", .decibels = 1}, "+1.0 The place and the day"},
        {{.kind = "facts", .text = "", .decibels = -INFINITY}, "ruled out The place and the day"},
        {{.kind = "fixes", .text = "", .names = two, .name_count = 1, .decibels = 2},
         "Fixes that did not help: in-winter"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const tt_turning t = turning(&rows[i].bar, 1, 5);
        assert_says(&t, rows[i].said, true);
        assert_says(&t, "Nothing: no other answer", true); /* and nothing turns it */
    }
    const tt_bar none = {.kind = "answers", .text = "Does it hum? No", .decibels = .04};
    const tt_turning t = turning(&none, 1, 5);
    assert_says(&t, "Does it hum?", false); /* it would be shown as nought */
}

static void the_sum_names_whom_it_speaks_for(void **state)
{
    (void)state;
    static const struct {
        double decibels;
        const char *said;
    } rows[] = {{10, "10 times"},
                {3, "2.0 times"},
                {29.9, "977 times"},
                {40, "over 1000 times"},
                {INFINITY, "ruled out: The gland is loose"},
                {-INFINITY, "ruled out: The seal is worn"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const tt_turning t = turning(&start, 1, rows[i].decibels);
        assert_says(&t, rows[i].said, true);
        assert_says(&t, "bring it forward", rows[i].decibels < 0);
        assert_says(&t, "also count two faults", false);
    }
    tt_turning t = turning(&start, 1, 3);
    t.why.two_faults = true;
    assert_says(&t, "also count two faults", true);
}

static void what_is_missing_is_told_with_who_may_say(void **state)
{
    (void)state;
    static const tt_instead both[] = {
        {"yes", "Yes", 6, 0}, {"no", "No", -4, 0}, {"so", "So", 2, 0}};
    static const tt_missing mine = {.question = "drip",
                                    .ask = "Does it drip?",
                                    .role = "",
                                    .answers = both,
                                    .answer_count = 3},
                            one = {.question = "hum",
                                   .ask = "Does it hum?",
                                   .role = "fitter",
                                   .role_text = "Fitter",
                                   .answers = both,
                                   .answer_count = 1},
                            other = {.question = "hot",
                                     .ask = "Is it hot?",
                                     .role = "",
                                     .answers = &both[1],
                                     .answer_count = 1};
    const tt_missing all[] = {mine, one,  other,
                              mine, mine, {.question = "last", .ask = "The sixth?", .role = ""}};
    tt_turning t = turning(&start, 1, 3);
    t.missing = all;
    t.missing_count = 6;
    assert_says(&t, "Does it drip?", true);
    assert_says(&t, "+6.0", true);
    assert_says(&t, "-4.0", true);
    assert_says(&t, "+2.0", false); /* the answers that say most */
    assert_says(&t, "Fitter", true);
    assert_says(&t, "Is it hot?", true);
    assert_says(&t, "The sixth?", false);
}

static void what_would_turn_it_is_told_by_its_kind(void **state)
{
    (void)state;
    static const tt_instead words[] = {{"yes", "Yes", 6, 0}, {"", "", -4, 0}};
    static const tt_place place = {.at = "signs.yaml:7"};
    static const struct {
        tt_pivot pivot;
        const char *said;
    } rows[] = {
        {{.kind = "answer",
          .name = "drip",
          .text = "Does it drip?",
          .was = "No",
          .instead = words,
          .instead_count = 2},
         "no answer"},
        {{.kind = "question",
          .name = "hum",
          .text = "Does it hum?",
          .was = "",
          .instead = words,
          .instead_count = 1},
         "Does it hum?"},
        {{.kind = "number",
          .name = "shown-by",
          .text = "",
          .was = "often",
          .names = two,
          .name_count = 2,
          .instead = words,
          .instead_count = 1,
          .place = &place},
         "instead of 'often' as shown-by of in-winter, in-frost (signs.yaml:7)"},
        {{.kind = "facts", .name = "", .text = "", .was = "", .names = two, .name_count = 1},
         "Without these rules: in-winter"},
        {{.kind = "facts", .name = "", .text = "", .was = ""},
         "about no piece of equipment by name"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        tt_turning t = turning(&start, 1, 3);
        t.pivots = &rows[i].pivot;
        t.pivot_count = 1;
        assert_says(&t, rows[i].said, true);
        assert_says(&t, "Nothing: no other answer", false);
    }
}

/* The least of each kind, and no more than three. */
static void no_kind_fills_the_page(void **state)
{
    (void)state;
    static const char *const asks[] = {"First?", "Second?", "Third?", "Fourth?"};
    tt_pivot all[5];
    for (int i = 0; i < 4; i++)
        all[i] = (tt_pivot){.kind = "question", .name = "q", .text = asks[i], .was = ""};
    all[4] = (tt_pivot){.kind = "facts", .name = "", .text = "", .was = ""};
    tt_turning t = turning(&start, 1, 3);
    t.pivots = all;
    t.pivot_count = 5;
    assert_says(&t, "Third?", true);
    assert_says(&t, "Fourth?", false);
    assert_says(&t, "about no piece of equipment", true);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_bar_has_its_words),
        cmocka_unit_test(the_sum_names_whom_it_speaks_for),
        cmocka_unit_test(what_is_missing_is_told_with_who_may_say),
        cmocka_unit_test(what_would_turn_it_is_told_by_its_kind),
        cmocka_unit_test(no_kind_fills_the_page),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
