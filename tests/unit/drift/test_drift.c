/* How readings move: whether one is beyond its good value, and whether it crept or jumped there.
 * The slow twin reckons the same in another way: slopes from pairs of readings, each jump by its
 * two stretches in full, the median by counting. */
#include <math.h>
#include <stdlib.h>

#include "luck.h"
#include "telltale.h"
#include "testing.h"

enum { MOST = 40, WEEKS = 21 };

typedef struct series {
    tt_dated items[MOST];
    uint32_t count;
} series;

static void add(series *s, double days, double number)
{
    assert_true(s->count < MOST);
    s->items[s->count++] = (tt_dated){days, number};
}

/* ---- the twin ---- */

static long double squares_of(const tt_dated *r, uint32_t from, uint32_t to)
{
    long double sum = 0;
    for (uint32_t i = from; i < to; i++)
        for (uint32_t k = i + 1; k < to; k++)
            sum += ((long double)r[i].number - r[k].number) * (r[i].number - r[k].number);
    return sum / (to - from); /* the squares about the mean, from all pairs */
}

static long double slope_of(const tt_dated *r, uint32_t n)
{
    long double both = 0, along = 0;
    for (uint32_t i = 0; i < n; i++)
        for (uint32_t k = i + 1; k < n; k++) {
            const long double days = (long double)r[i].days - r[k].days;
            both += days * ((long double)r[i].number - r[k].number);
            along += days * days;
        }
    return along > 0 ? both / along : 0;
}

static long double line_squares(const tt_dated *r, uint32_t n)
{
    const long double slope = slope_of(r, n);
    tt_dated level[MOST];
    for (uint32_t i = 0; i < n; i++)
        level[i] = (tt_dated){r[i].days, (double)(r[i].number - slope * r[i].days)};
    return squares_of(level, 0, n);
}

/* The middle one by counting how many are below. */
static long double median_range(const tt_dated *r, uint32_t n)
{
    double ranges[MOST];
    long double lower = -1, upper = -1;
    for (uint32_t i = 0; i + 1 < n; i++) ranges[i] = fabs(r[i + 1].number - r[i].number);
    for (uint32_t i = 0; i + 1 < n; i++) {
        uint32_t below = 0, same = 0;
        for (uint32_t k = 0; k + 1 < n; k++) {
            below += ranges[k] < ranges[i];
            same += ranges[k] == ranges[i];
        }
        if (below <= (n - 2) / 2 && below + same > (n - 2) / 2) lower = ranges[i];
        if (below <= (n - 1) / 2 && below + same > (n - 1) / 2) upper = ranges[i];
    }
    return (lower + upper) / 2;
}

static tt_trend twin(const series *s, double good, uint32_t *jump)
{
    const uint32_t n = s->count;
    const tt_dated *r = s->items;
    const long double own = median_range(r, n) / (sqrtl(2) * 0.674489750196L),
                      scatter = fmaxl(own, 0.02L * fabs(good)), last = r[n - 1].number;
    if (fabsl(last - good) <= 3 * scatter) return TT_STEADY;
    long double least = INFINITY;
    for (uint32_t at = 1; at < n; at++) {
        const long double both = squares_of(r, 0, at) + squares_of(r, at, n);
        if (both < least - 1e-12L) {
            least = both;
            *jump = at;
        }
    }
    const long double line = line_squares(r, n) / (scatter * scatter) + 2 * logl(n),
                      step = least / (scatter * scatter) + 3 * logl(n), slope = slope_of(r, n);
    if (slope * (last - good) > 0 && line < step) return slope > 0 ? TT_RISING : TT_FALLING;
    return TT_JUMP;
}

/* ---- made series ---- */

typedef enum how { STAYS, CREEPS, JUMPS } how;

/* Three weeks of daily rounds at a good value of 30, read to a tenth; what moves ends `size`
 * scatters away. */
static series made(how h, double scatter, double size, uint64_t *seed)
{
    series s = {.count = 0};
    const int at = 5 + (int)(luck_share(seed) * 12);
    for (int day = 0; day < WEEKS; day++) {
        const double moved = h == CREEPS               ? size * day / (WEEKS - 1)
                             : h == JUMPS && day >= at ? size
                                                       : 0;
        add(&s, day + luck_share(seed) * 0.3,
            round((30 + scatter * (moved + luck_normal(seed))) * 10) / 10);
    }
    return s;
}

static void one_creeps_and_one_jumps(void **state)
{
    (void)state;
    uint64_t seed = 7;
    uint32_t right = 0, calls = 0;
    const int each = 400;
    for (int i = 0; i < each; i++)
        for (how h = CREEPS; h <= JUMPS; h++) {
            const series s = made(h, 0.8, 8, &seed);
            const tt_drift d = tt_drift_judge(s.items, s.count, 30);
            if (!d.beyond) continue;
            calls++;
            right += d.trend == (h == CREEPS ? TT_RISING : TT_JUMP);
        }
    print_message("%u of %u that ended 8 scatters away told apart\n", right, calls);
    assert_true(calls > 1.9 * each && right > 0.97 * calls);
}

/* What stays is called beyond about as seldom as three scatters of a normal are passed. */
static void what_stays_is_let_be(void **state)
{
    (void)state;
    uint64_t seed = 11;
    uint32_t beyond = 0;
    const uint32_t calls = 4000;
    for (uint32_t i = 0; i < calls; i++) {
        const series s = made(STAYS, 0.8, 0, &seed);
        beyond += tt_drift_judge(s.items, s.count, 30).beyond;
    }
    print_message("%u of %u that stayed are called beyond\n", beyond, calls);
    assert_true(beyond < 0.02 * calls);
}

static void twins_agree(void **state)
{
    (void)state;
    uint64_t seed = 3;
    uint32_t told[TT_TRENDS] = {0};
    for (int i = 0; i < 3000; i++) {
        const how h = (how)(luck_share(&seed) * 3);
        const double scatter = 0.3 + 2 * luck_share(&seed), size = (luck_share(&seed) - 0.5) * 20;
        series s = made(h, scatter, size, &seed);
        s.count = 4 + (uint32_t)(luck_share(&seed) * (WEEKS - 4));
        const tt_drift d = tt_drift_judge(s.items, s.count, 30);
        uint32_t jump = 0;
        const tt_trend wanted = twin(&s, 30, &jump);
        assert_int_equal(d.trend, wanted);
        assert_true(d.known);
        if (d.trend == TT_JUMP) assert_int_equal(d.jump, jump);
        told[d.trend]++;
    }
    for (int i = 0; i < TT_TRENDS; i++) assert_true(told[i] > 40);
}

/* Worked out by hand: ranges 1, 1, 1, 9, so a scatter of 1/.9539; the line through 30 31 30 31 40
 * has the slope 2 and leaves 30.0, the jump before the last leaves 1. */
static void by_hand(void **state)
{
    (void)state;
    const tt_dated r[] = {{0, 30}, {1, 31}, {2, 30}, {3, 31}, {4, 40}};
    const tt_drift d = tt_drift_judge(r, 5, 30);
    assert_true(d.beyond && d.known && fabs(d.scatter - 1 / 0.953872552417) < 1e-9);
    assert_int_equal(d.trend, TT_JUMP);
    assert_int_equal(d.jump, 4);
    const tt_dated up[] = {{0, 30}, {7, 32}, {14, 34}, {21, 36}, {28, 38}};
    const tt_drift u = tt_drift_judge(up, 5, 30);
    assert_true(u.beyond);
    assert_int_equal(u.trend, TT_RISING);
    assert_true(fabs(u.per_week - 2) < 1e-9);
}

/* Few readings say that one is beyond, and not how it came there; none say nothing. */
static void few_tell_little(void **state)
{
    (void)state;
    const tt_dated r[] = {{0, 30}, {1, 30}, {2, 44}};
    assert_false(tt_drift_judge(NULL, 0, 30).beyond);
    assert_false(tt_drift_judge(r, 2, 30).beyond);
    const tt_drift d = tt_drift_judge(r, 3, 30);
    assert_true(d.beyond && !d.known);
    assert_int_equal(d.trend, TT_STEADY);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_creeps_and_one_jumps),
        cmocka_unit_test(what_stays_is_let_be),
        cmocka_unit_test(twins_agree),
        cmocka_unit_test(by_hand),
        cmocka_unit_test(few_tell_little),
    };
    return cmocka_run_group_tests_name("drift", tests, NULL, NULL);
}
