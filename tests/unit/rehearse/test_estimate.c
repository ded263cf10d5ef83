/* Shares with their intervals, means with their errors, and what a tally makes of calls. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "rehearse/estimate.h"
#include "test_sources.h"

static void assert_near(double got, double wanted, double off)
{
    if (!(fabs(got - wanted) <= off)) fail_msg("%.12g is not %.12g", got, wanted);
}

/* Newcombe, R. G. (1998). Two-sided confidence intervals for the single proportion. Statistics in
 * Medicine 17, 857-872, method 3: Wilson's without correction; worked out in Python by that
 * formula. */
static void intervals_are_wilsons(void **state)
{
    (void)state;
    static const struct {
        uint64_t count, of;
        double low, high;
    } known[] = {
        {81, 263, .2553, .3662}, {15, 148, .0624, .1605}, {0, 20, 0, .1611}, {1, 29, .0061, .1718}};
    for (unsigned i = 0; i < 4; i++) {
        tt_share s = share_of(known[i].count, known[i].of);
        assert_near(s.share, (double)known[i].count / (double)known[i].of, 1e-15);
        assert_near(s.low, known[i].low, 5e-5);
        assert_near(s.high, known[i].high, 5e-5);
    }
    tt_share all = share_of(20, 20), none = share_of(0, 0);
    assert_true(all.high == 1 && fabs(all.low - (1 - .1611)) < 5e-5);
    assert_true(none.share == 0 && none.low == 0 && none.high == 0);
}

/* 2, 4, 4, 4, 5, 5, 7, 9: mean 5, sum of squared distances 32. */
static void means_have_their_standard_error(void **state)
{
    (void)state;
    moments m = {40, 4 + 16 * 3 + 25 * 2 + 49 + 81};
    tt_mean mean = mean_of(&m, 8, 0.5);
    assert_near(mean.mean, 2.5, 1e-15);
    assert_near(mean.plus_minus, 1.959963984540054 * sqrt(32.0 / 7 / 8) * 0.5, 1e-12);
    assert_true(mean_of(&(moments){3, 9}, 1, 1).plus_minus == 0);
    assert_true(mean_of(&(moments){0, 0}, 0, 1).mean == 0);
}

static played played_with(bool leads, double leading, double truth, int64_t blamed, double minutes)
{
    judgement j = {.leads = leads,
                   .among_three = leads,
                   .leading = leading,
                   .truth = truth,
                   .blamed = blamed,
                   .in_set = leads || truth > .2,
                   .set_mass = leading > .9 ? leading : .9375,
                   .set_count = leading > .9 ? 1 : 3};
    return (played){.end = END_CURED,
                    .ranked = true,
                    .first = j,
                    .questions = 2,
                    .fixes = 1,
                    .needless = {1, 0, 0},
                    .working = minutes,
                    .minutes = minutes};
}

static void add(tally *t, arena *keep, made_call call, played own, double other_minutes)
{
    played other = own;
    other.minutes = other_minutes;
    other.needless[0] = own.needless[0] * 3;
    const played *const ways[WAY_COUNT] = {[WAY_TELLTALE] = &own,
                                           [WAY_SOONEST] = &other,
                                           [WAY_IN_ORDER] = call.number == 0 ? &other : NULL,
                                           [WAY_CLAIRVOYANT] = call.number == 0 ? &other : NULL};
    tally_call(t, keep, &call, ways);
}

/* Five calls that differ in everything. */
static void add_call(tally *t, arena *keep, unsigned which)
{
    const made_call one = {.size = 1, .causes = {2}},
                    two = {.size = 2, .causes = {0, 1}, .number = 1}, other = {.size = 0};
    const played stopped = {.end = END_STOPPED, .minutes = 240};
    switch (which) {
    case 0:
        add(t, keep, one, played_with(true, .95, .95, 2, 10), 12);
        return;
    case 1:
        add(t, keep, one, played_with(false, .55, .25, 0, 20), 24);
        return;
    case 2:
        add(t, keep, other, played_with(false, .91, .03125, 1, 30), 29.5);
        return;
    case 3:
        add(t, keep, two, played_with(true, 1, .5, 1, 40), 41);
        return;
    default:
        add(t, keep, one, stopped, 240);
        return;
    }
}

static void calls_are_counted_where_they_belong(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tally *t = tally_new(keep, 3, 2, 1);
    for (unsigned i = 0; i < 5; i++) add_call(t, keep, i);
    tt_rehearsed r = {0};
    estimate(t, &r);
    assert_int_equal(r.calls, 5);
    assert_true(r.all.leads.count == 2 && r.all.leads.of == 4);
    assert_true(r.kinds[TT_ONE_CAUSE].calls.count == 3 && r.kinds[TT_ONE_CAUSE].leads.of == 2);
    assert_true(r.kinds[TT_NOT_LISTED].leads.count == 0 && r.not_listed_blamed.count == 1);
    assert_int_equal(r.not_listed_blamed_surely.count, 1);
    assert_int_equal(r.ways[TT_SAFEST_FIRST].stopped.count, 1);
    assert_near(r.all.minutes.mean, (10 + 20 + 30 + 40 + 240) / 5.0, 1e-12);
    assert_near(r.ways[TT_SOONEST].minutes_more.mean, (2 + 4 - .5 + 1 + 0) / 5, 1e-12);
    assert_near(r.ways[TT_SAFEST_FIRST].needless[0].mean, .8, 1e-12);
    assert_near(r.ways[TT_SOONEST].needless_more[0].mean, 1.6, 1e-12);
    assert_true(r.ways[TT_IN_ORDER].needless[0].of == 4 && r.ways[TT_EVERYTHING].minutes.of == 0);
    assert_near(r.ways[TT_IN_ORDER].minutes_more.mean, (2 + 4 - .5 + 0) / 4, 1e-12);
    assert_true(r.bins[9].right.of == 3 && r.bins[9].right.count == 2 && r.bins[5].right.of == 1);
    assert_near(r.bins[9].said, (.95 + .91 + 1) / 3, 1e-6);
    assert_near(r.calibration_error, (3 * fabs((.95 + .91 + 1) / 3 - 2.0 / 3) + .55) / 4, 1e-6);
    assert_true(r.set.held.of == 4 && r.set.held.count == 3 && r.set.causes.mean == 1.5);
    assert_near(r.set.said, (.95 + .9375 + .91 + 1) / 4, 1e-6);
    assert_true(r.over_clairvoyant.of == 3 &&
                r.known_over_clairvoyant.of == 0); /* one had stopped */
    assert_near(r.over_clairvoyant.ratio, (10 + 20 + 30) / (12 + 24 + 29.5), 1e-12);
    assert_near(r.surprise.mean, (-log2(.95) + 2 + 5) / 3, 1e-3);
    assert_int_equal(t->mistake_count, 2);
    assert_true(t->mistakes[0].cause == 2 && t->mistakes[0].blamed == 0);
    assert_true(t->mistakes[1].cause == 3 && t->mistakes[1].blamed == 1);
    arena_free(keep);
}

/* Mean distance of a share from its chance over n calls, De Moivre's closed form (Diaconis and
 * Zabell 1991, Closed form summation for classical distributions, Statistical Science 6,
 * equation 1.1): 2 v C(n,v) p^v (1-p)^(n-v+1) / n with v the whole number above np. */
static double mean_deviation(double p, unsigned n)
{
    const unsigned v = (unsigned)floor(n * p) + 1;
    double logarithm = log(2.0 * v) + v * log(p) + (n - v + 1) * log1p(-p);
    for (unsigned i = 1; i <= v; i++) logarithm += log((double)(n - v + i) / i);
    return exp(logarithm) / n;
}

/* Calls that all say 0.55, and as many that say 0.95: what luck alone would show is what the closed
 * form says, within four standard errors of a mean of a hundred draws; and one draw in twenty or so
 * shows more than `high`. */
static void the_floor_is_what_luck_shows(void **state)
{
    (void)state;
    enum { EACH = 300 };
    arena *keep = test_arena();
    tally *t = tally_new(keep, 3, 1, 5);
    for (unsigned i = 0; i < 2 * EACH; i++) {
        const made_call call = {.size = 1, .causes = {2}, .number = i};
        const played own = played_with(true, i % 2 == 0 ? .55 : .95, .5, 2, 10);
        const played *const ways[WAY_COUNT] = {&own};
        tally_call(t, keep, &call, ways);
    }
    tt_rehearsed r = {0};
    estimate(t, &r);
    const double wanted = (mean_deviation(.55, EACH) + mean_deviation(.95, EACH)) / 2;
    assert_near(r.calibration_floor.mean, wanted, 4 * .6 * wanted / sqrt(PERFECT));
    assert_true(r.calibration_floor.high > 1.3 * wanted && r.calibration_floor.high < 3 * wanted);
    const double said = (.9375 + .95) / 2, sigma = sqrt(said * (1 - said) / (2 * EACH));
    assert_near(r.set.floor.mean, sigma * sqrt(2 / 3.14159265), .25 * sigma);
    assert_true(r.set.floor.high > 1.5 * sigma && r.set.floor.high < 2.6 * sigma);
    arena_free(keep);
}

/* In any slices and any order the same result, byte for byte. */
static void tallies_add_up(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tally *whole = tally_new(keep, 3, 2, 1), *parts[3], *sum = tally_new(keep, 3, 2, 1);
    for (unsigned i = 0; i < 3; i++) parts[i] = tally_new(keep, 3, 2, 1);
    for (unsigned i = 0; i < 500; i++) add_call(whole, keep, i % 5);
    for (unsigned i = 500; i-- > 0;) add_call(parts[i * i % 3], keep, i % 5);
    for (unsigned i = 3; i-- > 0;) tally_add(sum, keep, parts[i]);
    tt_rehearsed one = {0}, other = {0};
    estimate(whole, &one);
    estimate(sum, &other);
    assert_memory_equal(&one, &other, sizeof one);
    assert_int_equal(whole->mistake_count, sum->mistake_count);
    assert_memory_equal(whole->mistakes, sum->mistakes, sum->mistake_count * sizeof *sum->mistakes);
    assert_memory_equal(whole->calls_of, sum->calls_of, 4 * sizeof *sum->calls_of);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(intervals_are_wilsons),
        cmocka_unit_test(means_have_their_standard_error),
        cmocka_unit_test(calls_are_counted_where_they_belong),
        cmocka_unit_test(the_floor_is_what_luck_shows),
        cmocka_unit_test(tallies_add_up),
    };
    return cmocka_run_group_tests_name("estimate", tests, NULL, NULL);
}
