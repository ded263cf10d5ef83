/* Moments and the calendar: against a table (worked out with GNU date -u), and day by day against a
 * plain counter. */
#include "testing.h"

#include <math.h>

#include "base/moment.h"
#include "test_sources.h"

static void moments_are_read(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int64_t milliseconds;
        int offset;
    } table[] = {
        {"1970-01-01T00:00:00Z", 0, 0},
        {"2000-02-29T12:00:00.250+00:00", 951825600250, 0},
        {"2026-11-25T21:00:00+01:00", 1795636800000, 60},
        {"1969-12-31T23:59:59.000-00:30", 1799000, -30},
        {"2026-11-25t20:00:00z", 1795636800000, 0},
        {"2026-11-25 20:00:00.9999999999Z", 1795636800999, 0},
        {"2026-11-25T20:00:00.5Z", 1795636800500, 0},
        {"2016-12-31T23:59:60Z", 1483228800000, 0}, /* a leap second is the next minute */
        {"0000-01-01T00:00:00Z", -62167219200000, 0},
        {"9999-12-31T23:59:59Z", 253402300799000, 0},
        {"2026-11-25T20:00:00-23:59", 1795723140000, -1439},
    };
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        tt_moment m;
        assert_true(moment_from(str_of(table[i].text), &m));
        assert_true(m.milliseconds == table[i].milliseconds);
        assert_int_equal(m.offset, table[i].offset);
    }
}

static void what_is_none_is_refused(void **state)
{
    (void)state;
    static const char *const wrong[] = {
        "",
        "2026-11-25",
        "2026-11-25T21:00:00",
        "2026-13-25T21:00:00Z",
        "2026-00-25T21:00:00Z",
        "2026-11-31T21:00:00Z",
        "2026-02-29T21:00:00Z",
        "1900-02-29T21:00:00Z",
        "2026-11-00T21:00:00Z",
        "2026-11-25T24:00:00Z",
        "2026-11-25T21:60:00Z",
        "2026-11-25T21:00:61Z",
        "2026-11-25T21:00:00+1:00",
        "2026-11-25T21:00:00+24:00",
        "2026-11-25T21:00:00+01:60",
        "2026-11-25T21:00:00.5",
        "2026-11-25T21:00:00.Z",
        "2026-11-25T21:00:00,5Z",
        "x026-11-25T21:00:00Z",
        "2026-11-25T21:00:00Z ",
        " 2026-11-25T21:00:00Z",
        "2026-11-25X21:00:00Z",
        "2026-1-25T21:00:00Z",
        "+2026-11-25T21:00:00Z",
        "2026-11-25T21:00:00+0100",
        "2026-11-25T21:00Z",
        "20261125T210000Z",
    };
    tt_moment m;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        assert_false(moment_from(str_of(wrong[i]), &m));
    assert_true(moment_from(STR("2024-02-29T21:00:00Z"), &m));
    assert_true(moment_from(STR("2000-02-29T21:00:00Z"), &m));
}

static void moments_are_written(void **state)
{
    (void)state;
    arena *a = test_arena();
    static const struct {
        tt_moment m;
        const char *text;
    } table[] = {
        {{0, 0}, "1970-01-01T00:00:00.000+00:00"},
        {{1795636800250, 60}, "2026-11-25T21:00:00.250+01:00"},
        {{1795636800250, -210}, "2026-11-25T16:30:00.250-03:30"},
        {{-1, 0}, "1969-12-31T23:59:59.999+00:00"},
        {{253402300799999, 0}, "9999-12-31T23:59:59.999+00:00"},
        {{253402300799999, 60}, "9999-12-31T23:59:59.999+01:00"}, /* the last of these years */
        {{INT64_MAX, 0}, "9999-12-31T23:59:59.999+00:00"},
        {{INT64_MIN, -60}, "0000-01-01T00:00:00.000-01:00"},
    };
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        assert_str(moment_text(a, table[i].m), table[i].text);
    arena_free(a);
}

static void what_is_written_is_read_again(void **state)
{
    (void)state;
    arena *a = test_arena();
    uint64_t random = 1;
    for (int i = 0; i < 20000; i++) {
        random = random * 6364136223846793005u + 1442695040888963407u;
        tt_moment m = {(int64_t)(random >> 16) % 250000000000000 - 60000000000000,
                       (int16_t)((random >> 3) % 2879 - 1439)},
                  back;
        arena_mark mark = arena_here(a);
        assert_true(moment_from(moment_text(a, m), &back));
        arena_back_to(a, mark);
        assert_true(back.milliseconds == m.milliseconds && back.offset == m.offset);
    }
    arena_free(a);
}

/* The Gregorian rule as ISO 8601-1:2019 (4.2.1) has it, applied day by day. */
static void every_day_follows_the_one_before(void **state)
{
    (void)state;
    calendar_day day = {1600, 1, 1};
    int64_t number = days_since_1970(day);
    while (day.year < 2401) {
        calendar_day found = day_since_1970(number);
        assert_true(found.year == day.year && found.month == day.month && found.day == day.day);
        assert_true(days_since_1970(day) == number);
        bool leap = day.year % 400 == 0 || (day.year % 4 == 0 && day.year % 100 != 0);
        static const int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
        int length = day.month == 2 && leap ? 29 : lengths[day.month - 1];
        if (day.day++ == length) {
            day.day = 1;
            if (day.month++ == 12) day = (calendar_day){day.year + 1, 1, 1};
        }
        number++;
    }
    assert_true(number == days_since_1970((calendar_day){2401, 1, 1}));
    assert_true(days_since_1970((calendar_day){1970, 1, 1}) == 0);
}

static void far_years_are_reckoned_too(void **state)
{
    (void)state;
    for (int32_t year = -100000; year <= 100000; year += 97) {
        calendar_day day = {year, 12, 31};
        calendar_day next = day_since_1970(days_since_1970(day) + 1);
        assert_true(next.year == year + 1 && next.month == 1 && next.day == 1);
    }
}

static void people_read_the_hour_or_the_day(void **state)
{
    (void)state;
    arena *a = test_arena();
    tt_moment now = {1795636800000, 60}; /* 2026-11-25 21:00 */
    assert_str(moment_for_people(a, (tt_moment){1795636800000 - 5 * 3600000, 0}, now), "16:00");
    assert_str(moment_for_people(a, (tt_moment){1795636800000 - 21 * 3600000 - 60000, 60}, now),
               "2026-11-24 23:59");
    assert_str(moment_for_people(a, (tt_moment){1795636800000 + 3 * 3600000, 0}, now),
               "2026-11-26 00:00");
    arena_free(a);
}

static void what_can_t_be_told_is_long_ago(void **state)
{
    (void)state;
    tt_moment now;
    assert_true(moment_from(STR("2026-11-29T09:30:00+01:00"), &now));
    assert_true(minutes_ago("2026-11-29T08:00:00Z", now) == 30);
    assert_true(minutes_ago("2025-11-29T08:30:00Z", now) == 365 * 1440);
    assert_true(minutes_ago("2026-11-29T08:34:00Z", now) == 0); /* clocks differ a little */
    assert_true(isinf(minutes_ago("2026-11-29T08:36:00Z", now)));
    assert_true(isinf(minutes_ago("2026-11-29 08:00", now)));
    assert_true(isinf(minutes_ago("", now)));
    assert_true(isinf(minutes_ago(NULL, now)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(moments_are_read),
        cmocka_unit_test(what_is_none_is_refused),
        cmocka_unit_test(moments_are_written),
        cmocka_unit_test(what_is_written_is_read_again),
        cmocka_unit_test(every_day_follows_the_one_before),
        cmocka_unit_test(far_years_are_reckoned_too),
        cmocka_unit_test(people_read_the_hour_or_the_day),
        cmocka_unit_test(what_can_t_be_told_is_long_ago),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
