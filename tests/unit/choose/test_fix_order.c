/* The order of fixes and the value of trying them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "choose/choose.h"

enum { MOST = 24 };

/* One problem; fixes are added one by one. */
typedef struct bench_table {
    choice_input in;
    fix_option fixes[MOST];
    net_rate cures[MOST][4];
    double w[MOST + 1];
    arena *scratch;
    guard way_out;
} bench_table;

static int set_up(void **state)
{
    static bench_table b;
    memset(&b, 0, sizeof b);
    b.scratch = arena_new(NULL, &b.way_out);
    if (b.scratch == NULL) return 1;
    if (setjmp(b.way_out.place) != 0) return 1;
    b.in.rules = choice_rules_default;
    b.in.fixes = b.fixes;
    *state = &b;
    return 0;
}

static int tear_down(void **state)
{
    arena_free(((bench_table *)*state)->scratch);
    return 0;
}

/* What the theorems on chance per minute assume. */
static void no_gates_or_prices(bench_table *b)
{
    memset(b->in.rules.worth_trying, 0, sizeof b->in.rules.worth_trying);
    memset(b->in.rules.price, 0, sizeof b->in.rules.price);
    b->in.rules.soonest = true;
}

static fix_option *add(bench_table *b, const char *name, double minutes, risk_level level)
{
    uint32_t f = b->in.fix_count++;
    assert_true(f < MOST);
    b->fixes[f] =
        (fix_option){.name = str_of(name), .minutes = minutes, .level = level, .open = true};
    b->fixes[f].cures = b->cures[f];
    return &b->fixes[f];
}

static void cures(bench_table *b, fix_option *fix, uint32_t cause, double chance)
{
    ptrdiff_t f = fix - b->fixes;
    b->cures[f][fix->cure_count++] = (net_rate){cause, chance};
    if (cause >= b->in.cause_count) b->in.cause_count = cause + 1;
}

/* A fix for a cause of its own. */
static fix_option *add_single(bench_table *b, const char *name, double chance, double minutes,
                              risk_level level)
{
    fix_option *fix = add(b, name, minutes, level);
    uint32_t cause = b->in.cause_count;
    cures(b, fix, cause, 1);
    b->w[1 + cause] = chance;
    return fix;
}

/* Names of the first `count` in order, one letter each. */
static const char *order_of(bench_table *b, uint32_t count)
{
    static char names[MOST + 1];
    ranked_fix out[MOST];
    choose_order(&b->in, b->scratch, b->w, out);
    for (uint32_t i = 0; i < count; i++) names[i] = b->fixes[out[i].fix].name.p[0];
    names[count] = '\0';
    return names;
}

static ranked_fix nth(bench_table *b, uint32_t at)
{
    ranked_fix out[MOST];
    choose_order(&b->in, b->scratch, b->w, out);
    return out[at];
}

static double value(bench_table *b)
{
    return choose_fix_value(&b->in, b->scratch, b->w, NULL);
}

static void near(double found, double expected)
{
    if (!(fabs(found - expected) <= 1e-12 * fmax(1, fabs(expected))))
        fail_msg("%.17g, expected %.17g", found, expected);
}

/* ---- chance per minute, from published examples; all fixes on one level, no gates ---- */

/* Two boxes: order 1-2 costs 3.4, the other 4.4 (3 + 0.2 x 2; 2 + 0.8 x 3). By cost
 * alone box 2 would come first. */
static void two_boxes(void **state)
{
    bench_table *b = *state;
    no_gates_or_prices(b);
    add_single(b, "1", .8, 3, RISK_LOW);
    add_single(b, "2", .2, 2, RISK_LOW);
    assert_string_equal(order_of(b, 2), "12");
    near(value(b), 3.4);
}

/* Machine breakdown, an exercise of the kind in Ross, A First Course in Probability: check 1 first
 * if and only if p/C1 >= (1-p)/C2. With p = .3, C = (10, 20) the expected costs are 60.5 and 59.5
 * (repair costs cancel): check 2 first. */
static void machine_breakdown(void **state)
{
    bench_table *b = *state;
    no_gates_or_prices(b);
    add_single(b, "1", .3, 10, RISK_LOW);
    add_single(b, "2", .7, 20, RISK_LOW);
    assert_string_equal(order_of(b, 2), "21");
    near(value(b), 20 + .3 * 10);
}

/* Optimum of all 120 orders, computed: 28.46 = order 4 2 3 1 5; by chance alone 40.05, by cost
 * alone 33.06. */
static void five_actions(void **state)
{
    bench_table *b = *state;
    no_gates_or_prices(b);
    add_single(b, "1", .35, 30, RISK_LOW);
    add_single(b, "2", .25, 5, RISK_LOW);
    add_single(b, "3", .20, 12, RISK_LOW);
    add_single(b, "4", .12, 2, RISK_LOW);
    add_single(b, "5", .08, 20, RISK_LOW);
    assert_string_equal(order_of(b, 5), "42315");
    near(value(b), 28.46);
}

/* Weighted completion times (Smith's rule), t = (3,1,2), w = (2,5,1): order 2,1,3 (exercise in
 * Kleinberg and Tardos, Algorithm Design); the best of the six sums is 19. */
static void weighted_completion(void **state)
{
    bench_table *b = *state;
    no_gates_or_prices(b);
    add_single(b, "1", 2, 3, RISK_LOW);
    add_single(b, "2", 5, 1, RISK_LOW);
    add_single(b, "3", 1, 2, RISK_LOW);
    assert_string_equal(order_of(b, 3), "213");
    near(value(b), 19);
}

/* Looks that may overlook (Blackwell, in Chew, "A Sequential Search Procedure", Ann. Math. Stat.
 * 38, 1967): p = (.6, .4), overlooked with chance (.5, .1). Greedy looks 2,1,1,1,1,2,1,1,1,2 are
 * the best of all 1024 sequences of ten: 2.464075 with 3 per unresolved. */
static void looks_that_overlook(void **state)
{
    bench_table *b = *state;
    no_gates_or_prices(b);
    b->in.rules.call_minutes = 3;
    static const uint32_t looks[10] = {1, 0, 0, 0, 0, 1, 0, 0, 0, 1};
    for (uint32_t i = 0; i < 7; i++) cures(b, add(b, "1", 1, RISK_LOW), 0, .5);
    for (uint32_t i = 0; i < 3; i++) cures(b, add(b, "2", 1, RISK_LOW), 1, .9);
    b->w[1] = .6;
    b->w[2] = .4;
    near(value(b), 2.464075);
    for (uint32_t i = 0; i < 10; i++) {
        ranked_fix next = nth(b, 0);
        assert_int_equal(b->fixes[next.fix].cures[0].cause, looks[i]);
        b->w[1 + looks[i]] *= 1 - b->fixes[next.fix].cures[0].chance;
        b->fixes[next.fix].open = false;
        if (i == 0) near(b->w[1] / (b->w[1] + b->w[2]), .9375);
    }
}

/* ---- groups, gates, prices ---- */

/* A book may say that a fix helps in 0 of 100 tries: it is as needless there as where it says
 * nothing. */
static void what_a_fix_never_cures_makes_it_no_cheaper(void **state)
{
    bench_table *b = *state;
    fix_option *first = add(b, "a", 10, RISK_MEDIUM), *second = add(b, "b", 20, RISK_MEDIUM);
    cures(b, first, 0, .9);
    cures(b, second, 1, .9);
    cures(b, first, 1, 0);
    b->w[0] = .1;
    b->w[1] = .5;
    b->w[2] = .4;
    const double listed = value(b);
    first->cure_count = 1;
    near(listed, value(b));
    second->open = false; /* alone, too */
    const double left_out = value(b);
    first->cure_count = 2;
    near(value(b), left_out);
}

/* As safe, and more of a chance a minute; a safer likely one keeps its place. */
static void a_possible_one_goes_before_a_likely_one_as_safe(void **state)
{
    bench_table *b = *state;
    fix_option *replace = add(b, "r", 90, RISK_MEDIUM), *tighten = add(b, "t", 10, RISK_MEDIUM);
    replace->cannot_undo = true;
    b->w[0] = .38;
    b->w[1] = .62;
    cures(b, replace, 0, .9);
    cures(b, tighten, 0, .3);
    assert_string_equal(order_of(b, 2), "tr");
    assert_int_equal(nth(b, 0).standing, FIX_POSSIBLE);
    replace->level = RISK_LOW;
    assert_string_equal(order_of(b, 2), "rt");
    replace->level = RISK_MEDIUM;
    replace->minutes = 20; /* .62 * .9 / (20 + 30) is less than .186 / (10 + 10) no more */
    assert_string_equal(order_of(b, 2), "rt");
}

/* The one that waits is the better one: what opens the way to it stands where both would. */
static void what_opens_the_way_stands_for_both(void **state)
{
    bench_table *b = *state;
    add_single(b, "x", .01, 10, RISK_LOW); /* not worth trying by itself */
    add_single(b, "m", .15, 10, RISK_LOW);
    fix_option *waits = add_single(b, "w", .60, 10, RISK_LOW);
    static const uint32_t first[] = {0};
    assert_string_equal(order_of(b, 3), "wmx");
    waits->after = first;
    waits->after_count = 1;
    assert_string_equal(order_of(b, 1), "x");
    assert_int_equal(nth(b, 0).standing, FIX_LIKELY);
    near(nth(b, 0).chance, .01 / .76);
    assert_int_equal(nth(b, 2).standing, FIX_NOT_YET);
    b->fixes[0].open = false;
    assert_string_equal(order_of(b, 2), "wm");
}

static void what_is_far_cures_less_a_minute(void **state)
{
    bench_table *b = *state;
    static const double walk[] = {0, 30, 30, 0};
    add_single(b, "a", .15, 10, RISK_LOW)->place = 1;
    add_single(b, "b", .15, 20, RISK_LOW)->place = 0;
    b->w[0] = .70;
    assert_string_equal(order_of(b, 2), "ab");
    b->in.walk = walk;
    b->in.place_count = 2;
    assert_string_equal(order_of(b, 2), "ba");
    b->in.here = 1;
    assert_string_equal(order_of(b, 2), "ab");
    b->in.here = NO_PLACE; /* nobody knows: no way is longer */
    assert_string_equal(order_of(b, 2), "ab");
}

/* From here to what opens the way, and from there to what waits. */
static void what_opens_the_way_is_as_far_as_both(void **state)
{
    bench_table *b = *state;
    static const double walk[] = {0, 12, 12, 0};
    static const uint32_t first[] = {0};
    add_single(b, "x", .01, 10, RISK_LOW)->place = 1;
    add_single(b, "m", .15, 10, RISK_LOW)->place = 0;
    fix_option *waits = add_single(b, "w", .60, 10, RISK_LOW);
    waits->place = 0;
    waits->after = first;
    waits->after_count = 1;
    b->w[0] = .24;
    assert_string_equal(order_of(b, 1), "x"); /* .61 / 20 is more than .15 / 10 */
    b->in.walk = walk;
    b->in.place_count = 2;
    assert_string_equal(order_of(b, 1), "m"); /* .61 / 44 is less; .61 / 32 would be more */
    waits->place = 1;
    assert_string_equal(order_of(b, 1), "x");
    b->in.here = 1;
    assert_string_equal(order_of(b, 1), "x");
    b->in.walk = NULL;
    b->w[2] = .30; /* .30 / 10 is less than .61 / 20 */
    assert_string_equal(order_of(b, 1), "x");
    b->w[2] = .31;
    assert_string_equal(order_of(b, 1), "m");
}

static void what_the_order_goes_by_is_told_of_one(void **state)
{
    bench_table *b = *state;
    static const double walk[] = {0, 7, 7, 0};
    static const uint32_t first[] = {0};
    add_single(b, "x", .10, 10, RISK_LOW);
    fix_option *far = add_single(b, "w", .30, 20, RISK_MEDIUM);
    far->place = 1;
    far->cannot_undo = true; /* held to what is serious */
    b->w[0] = .80;
    b->in.walk = walk;
    b->in.place_count = 2;
    fix_measure m = choose_measure(&b->in, b->scratch, b->w, 1);
    assert_int_equal(m.standing, FIX_LIKELY);
    assert_false(m.waits);
    near(m.chance, .30 / 1.20);
    near(m.least, .20);
    near(m.cost, 20 + 7 + 30);
    far->after = first;
    far->after_count = 1;
    m = choose_measure(&b->in, b->scratch, b->w, 1);
    assert_true(m.waits);
    assert_int_equal(m.standing, FIX_NOT_YET);
}

static void likely_ones_come_first_lowest_level_first(void **state)
{
    bench_table *b = *state;
    add_single(b, "q", .10, 40, RISK_LOW);     /* possible: .1/40 */
    add_single(b, "m", .30, 10, RISK_MEDIUM);  /* likely: .3/20 */
    add_single(b, "l", .22, 60, RISK_LOW);     /* likely: .22/60, the worst */
    add_single(b, "k", .21, 50, RISK_LOW);     /* likely: .21/50 */
    add_single(b, "p", .06, 20, RISK_MEDIUM);  /* possible: .06/30 */
    add_single(b, "s", .11, 20, RISK_SERIOUS); /* not yet: below .20 */
    assert_string_equal(order_of(b, 6), "klmqps");
    static const fix_standing standing[] = {FIX_LIKELY,   FIX_LIKELY,   FIX_LIKELY,
                                            FIX_POSSIBLE, FIX_POSSIBLE, FIX_NOT_YET};
    for (uint32_t i = 0; i < 6; i++) assert_int_equal(nth(b, i).standing, standing[i]);
    near(nth(b, 5).chance, .11);
}

static void soonest_goes_by_ratio_alone(void **state)
{
    bench_table *b = *state;
    b->in.rules.soonest = true;
    add_single(b, "a", .30, 20, RISK_LOW);
    add_single(b, "b", .10, 1, RISK_LOW);
    add_single(b, "c", .60, 20, RISK_SERIOUS);
    assert_string_equal(order_of(b, 3), "bac");
    memset(b->in.rules.price, 0, sizeof b->in.rules.price);
    assert_string_equal(order_of(b, 3), "bca");
    assert_int_equal(nth(b, 0).standing, FIX_POSSIBLE);
}

static void gates_rise_with_the_level(void **state)
{
    bench_table *b = *state;
    add_single(b, "l", .05, 10, RISK_LOW);
    add_single(b, "m", .05, 10, RISK_MEDIUM);
    add_single(b, "s", .20, 10, RISK_SERIOUS);
    add_single(b, "x", .70, 10, RISK_LOW);
    for (uint32_t i = 0; i < 4; i++) assert_true(nth(b, i).standing <= FIX_POSSIBLE);
    /* A hair more of something not listed, and three of them are below. */
    b->w[0] = 1e-9;
    for (uint32_t i = 1; i < 4; i++) assert_int_equal(nth(b, i).standing, FIX_NOT_YET);
}

static void likely_begins_at_its_number(void **state)
{
    bench_table *b = *state;
    b->in.rules.likely = .25;
    add_single(b, "a", .25, 10, RISK_LOW);
    b->w[0] = .75;
    assert_int_equal(nth(b, 0).standing, FIX_LIKELY);
    b->w[0] = .7500001;
    assert_int_equal(nth(b, 0).standing, FIX_POSSIBLE);
}

static void below_its_gate_a_fix_is_not_tried(void **state)
{
    bench_table *b = *state;
    uint32_t first = 7;
    add_single(b, "a", .04, 1, RISK_LOW);
    b->w[0] = .96;
    assert_true(choose_fix_value(&b->in, b->scratch, b->w, &first) == 240);
    assert_int_equal(first, UINT32_MAX);
    assert_int_equal(nth(b, 0).standing, FIX_NOT_YET);
}

/* After the first fix failed, the second, below its gate before, is worth trying. */
static void gates_are_looked_at_again_after_each_failure(void **state)
{
    bench_table *b = *state;
    add_single(b, "a", .85, 10, RISK_LOW);
    add_single(b, "b", .15, 10, RISK_SERIOUS);
    assert_int_equal(nth(b, 1).standing, FIX_NOT_YET);
    /* 10 for a, then .15 of the calls go on: b is certain there, nothing is needless. */
    near(value(b), 10 + .15 * 10);
}

static void what_cannot_be_undone_is_held_to_the_next_level(void **state)
{
    bench_table *b = *state;
    fix_option *fix = add_single(b, "a", .10, 10, RISK_MEDIUM);
    b->w[0] = .90;
    assert_int_equal(nth(b, 0).standing, FIX_POSSIBLE);
    near(value(b), 10 + 10 * .9 + 240 * .9);
    fix->cannot_undo = true;
    assert_int_equal(nth(b, 0).standing, FIX_NOT_YET);
    b->w[0] = .30; /* chance .25: above .20, priced at 30 */
    assert_int_equal(nth(b, 0).standing, FIX_LIKELY);
    near(value(b), 10 * .4 + 30 * .3 + 240 * .3);
    fix->level = RISK_SERIOUS;
    assert_int_equal(nth(b, 0).standing, FIX_NOT_YET);
}

static void a_needless_job_is_priced_only_where_it_cannot_help(void **state)
{
    bench_table *b = *state;
    fix_option *fix = add_single(b, "a", .5, 20, RISK_SERIOUS);
    b->cures[0][0].chance = .8;
    cures(b, fix, 1, .5);
    b->w[2] = .3;
    b->w[0] = .2;
    near(value(b), 20 + 30 * .2 + 240 * (.5 * .2 + .3 * .5 + .2));
}

static void stops_at_the_cheapest_prefix(void **state)
{
    bench_table *b = *state;
    b->in.rules.call_minutes = 30;
    add_single(b, "a", .50, 2, RISK_LOW);
    add_single(b, "b", .30, 90, RISK_LOW);
    b->w[0] = .2;
    near(value(b), 2 + .5 * 30);
    b->in.rules.call_minutes = 1;
    near(value(b), 1);
}

/* Both serve cause 0: once one has failed, the other is worth less than a fix that it was ahead of.
 */
static void recomputed_after_each_failure(void **state)
{
    bench_table *b = *state;
    no_gates_or_prices(b);
    cures(b, add(b, "a", 10, RISK_LOW), 0, .9);
    cures(b, add(b, "b", 11, RISK_LOW), 0, .9);
    cures(b, add(b, "c", 12, RISK_LOW), 1, .9);
    b->w[1] = .6;
    b->w[2] = .4;
    assert_string_equal(order_of(b, 3), "abc");
    /* a, c, b */
    double after_c = .06 + .04;
    near(value(b), 10 + 12 * .46 + 11 * after_c + 240 * (.006 + .04));
}

/* ---- who may do it ---- */

static void high_and_closed_ones_come_last_and_are_never_tried(void **state)
{
    bench_table *b = *state;
    uint32_t first = 0;
    add_single(b, "h", .50, 1, RISK_HIGH);
    add_single(b, "c", .40, 1, RISK_LOW)->open = false;
    add_single(b, "n", .01, 90, RISK_LOW);
    b->w[0] = .09;
    /* Closed ones by ratio: h .5/121, c .4/1. */
    assert_string_equal(order_of(b, 3), "nch");
    assert_int_equal(nth(b, 1).standing, FIX_CLOSED);
    assert_int_equal(nth(b, 2).standing, FIX_CLOSED);
    near(nth(b, 2).chance, .5);
    near(value(b), 240);
    choose_fix_value(&b->in, b->scratch, b->w, &first);
    assert_int_equal(first, UINT32_MAX);
    memset(b->in.rules.worth_trying, 0, sizeof b->in.rules.worth_trying);
    choose_fix_value(&b->in, b->scratch, b->w, &first);
    assert_int_equal(first, 2);
}

/* ---- ties and edges ---- */

static void ties_go_to_the_lower_level_then_to_the_name(void **state)
{
    bench_table *b = *state;
    no_gates_or_prices(b);
    add_single(b, "d", .125, 10, RISK_LOW);
    add_single(b, "b", .125, 10, RISK_MEDIUM);
    add_single(b, "c", .125, 10, RISK_LOW);
    add_single(b, "a", .125, 10, RISK_MEDIUM);
    add_single(b, "y", .25, 10, RISK_LOW);
    add_single(b, "x", .25, 10, RISK_LOW);
    assert_string_equal(order_of(b, 6), "xycdab");
}

static void the_scale_of_the_weights_does_not_matter(void **state)
{
    bench_table *b = *state;
    add_single(b, "a", .30, 10, RISK_MEDIUM);
    add_single(b, "b", .25, 15, RISK_LOW);
    add_single(b, "c", .25, 15, RISK_SERIOUS);
    b->w[0] = .2;
    double before = value(b), scale = ldexp(1, -900);
    char order[4];
    memcpy(order, order_of(b, 3), sizeof order);
    for (uint32_t h = 0; h < 4; h++) b->w[h] *= scale;
    assert_true(value(b) == before * scale);
    assert_string_equal(order_of(b, 3), order);
}

static void no_weight_at_all(void **state)
{
    bench_table *b = *state;
    uint32_t first = 0;
    no_gates_or_prices(b);
    add_single(b, "a", 0, 10, RISK_LOW);
    assert_true(choose_fix_value(&b->in, b->scratch, b->w, &first) == 0);
    assert_int_equal(first, UINT32_MAX);
    assert_int_equal(nth(b, 0).standing, FIX_NOT_YET);
    assert_true(nth(b, 0).chance == 0);
}

static void nothing_to_choose_from(void **state)
{
    bench_table *b = *state;
    b->w[0] = 1;
    assert_true(value(b) == 240);
    choose_order(&b->in, b->scratch, b->w, NULL);
}

/* A cure that is certain leaves nothing, and nothing is asked of the fixes after it. */
static void a_certain_cure_ends_the_course(void **state)
{
    bench_table *b = *state;
    no_gates_or_prices(b);
    add_single(b, "a", 1, 10, RISK_LOW);
    cures(b, add(b, "b", 10, RISK_LOW), 0, .5);
    assert_true(value(b) == 10);
}

static void a_fix_that_takes_no_time(void **state)
{
    bench_table *b = *state;
    add_single(b, "a", .5, 0, RISK_LOW);
    add_single(b, "b", .5, 1, RISK_LOW);
    assert_string_equal(order_of(b, 2), "ab");
    near(value(b), .5);
}

static void scratch_is_given_back(void **state)
{
    bench_table *b = *state;
    add_single(b, "a", .5, 10, RISK_LOW);
    size_t before = arena_size(b->scratch);
    order_of(b, 1);
    value(b);
    assert_int_equal(arena_size(b->scratch), before);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(what_a_fix_never_cures_makes_it_no_cheaper),
        TEST(two_boxes),
        TEST(machine_breakdown),
        TEST(five_actions),
        TEST(weighted_completion),
        TEST(looks_that_overlook),
        TEST(likely_ones_come_first_lowest_level_first),
        TEST(a_possible_one_goes_before_a_likely_one_as_safe),
        TEST(what_opens_the_way_stands_for_both),
        TEST(what_is_far_cures_less_a_minute),
        TEST(what_opens_the_way_is_as_far_as_both),
        TEST(what_the_order_goes_by_is_told_of_one),
        TEST(soonest_goes_by_ratio_alone),
        TEST(gates_rise_with_the_level),
        TEST(likely_begins_at_its_number),
        TEST(below_its_gate_a_fix_is_not_tried),
        TEST(gates_are_looked_at_again_after_each_failure),
        TEST(what_cannot_be_undone_is_held_to_the_next_level),
        TEST(a_needless_job_is_priced_only_where_it_cannot_help),
        TEST(stops_at_the_cheapest_prefix),
        TEST(recomputed_after_each_failure),
        TEST(high_and_closed_ones_come_last_and_are_never_tried),
        TEST(ties_go_to_the_lower_level_then_to_the_name),
        TEST(the_scale_of_the_weights_does_not_matter),
        TEST(no_weight_at_all),
        TEST(nothing_to_choose_from),
        TEST(a_certain_cure_ends_the_course),
        TEST(a_fix_that_takes_no_time),
        TEST(scratch_is_given_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
