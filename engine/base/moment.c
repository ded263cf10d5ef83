/* Reading, writing and reckoning with moments. */
#include "base/moment.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { MINUTE = 60000, DAY_MINUTES = 1440, LAST_YEAR = 9999 };

static const int64_t day_milliseconds = (int64_t)DAY_MINUTES * MINUTE;

/* ---- the calendar ---- */

static bool is_leap(int32_t year)
{
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

static uint8_t days_in_month(int32_t year, uint8_t month)
{
    static const uint8_t days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    assert(month >= 1 && month <= 12);
    return (uint8_t)(days[month - 1] + (month == 2 && is_leap(year)));
}

static int64_t floor_div(int64_t a, int64_t b)
{
    assert(b > 0);
    return a / b - (a % b < 0);
}

/* Days before the first of January of a year, from that of the year 0, itself a leap year. Every
 * 400 years have 97 leap days, so the pattern begins again after 146097 days. */
static int64_t days_before_year(int64_t year)
{
    int64_t before = year - 1; /* leap days lie in the years up to this one */
    return 365 * year + floor_div(before, 4) - floor_div(before, 100) + floor_div(before, 400) + 1;
}

enum { YEAR_0_TO_1970 = 719528 };

int64_t days_since_1970(calendar_day d)
{
    int64_t days = days_before_year(d.year) - YEAR_0_TO_1970 + d.day - 1;
    assert(d.day >= 1 && d.day <= days_in_month(d.year, d.month));
    for (uint8_t month = 1; month < d.month; month++) days += days_in_month(d.year, month);
    return days;
}

calendar_day day_since_1970(int64_t days)
{
    int64_t since_0 = days + YEAR_0_TO_1970;
    int64_t year =
        floor_div(since_0 * 400, 146097); /* by the mean length of a year: right, or one off */
    while (days_before_year(year) > since_0) year--;
    while (days_before_year(year + 1) <= since_0) year++;
    calendar_day d = {.year = (int32_t)year, .month = 1};
    int64_t left = since_0 - days_before_year(year);
    for (; left >= days_in_month(d.year, d.month); d.month++)
        left -= days_in_month(d.year, d.month);
    d.day = (uint8_t)(left + 1);
    assert(days_since_1970(d) == days);
    return d;
}

int64_t day_on_the_wall(tt_moment m)
{
    return floor_div(m.milliseconds + (int64_t)m.offset * MINUTE, day_milliseconds);
}

/* ---- reading ---- */

typedef struct cursor {
    str left;
    bool failed;
} cursor;

static int32_t eat_digits(cursor *c, size_t count)
{
    int32_t number = 0;
    if (c->left.n < count) c->failed = true;
    for (size_t i = 0; i < count && !c->failed; i++) {
        char digit = c->left.p[i];
        if (digit < '0' || digit > '9') c->failed = true;
        number = number * 10 + (digit - '0');
    }
    if (c->failed) return 0;
    c->left = str_slice(c->left, count, c->left.n);
    return number;
}

/* One of these characters; 0: none of them. */
static char eat_one(cursor *c, const char *any)
{
    char first = c->left.n > 0 ? c->left.p[0] : '\0';
    if (first == '\0' || strchr(any, first) == NULL) return '\0';
    c->left = str_slice(c->left, 1, c->left.n);
    return first;
}

static void expect(cursor *c, const char *any)
{
    if (eat_one(c, any) == '\0') c->failed = true;
}

static int32_t eat_fraction(cursor *c)
{
    int32_t milliseconds = 0, weight = 100;
    if (eat_one(c, ".") == '\0') return 0;
    milliseconds += weight * eat_digits(c, 1);
    for (char digit; (digit = eat_one(c, "0123456789")) != '\0';)
        milliseconds += (weight /= 10) * (digit - '0');
    return milliseconds;
}

/* Minutes east of universal time. */
static int16_t eat_offset(cursor *c)
{
    char sign = eat_one(c, "Zz+-");
    if (sign == 'Z' || sign == 'z') return 0;
    int32_t hours = eat_digits(c, 2);
    expect(c, ":");
    int32_t minutes = eat_digits(c, 2);
    if (sign == '\0' || hours > 23 || minutes > 59) c->failed = true;
    return (int16_t)((sign == '-' ? -1 : 1) * (hours * 60 + minutes));
}

static int64_t eat_date(cursor *c)
{
    calendar_day d = {.year = eat_digits(c, 4)};
    expect(c, "-");
    int32_t month = eat_digits(c, 2);
    expect(c, "-");
    int32_t day = eat_digits(c, 2);
    c->failed = c->failed || month < 1 || month > 12;
    if (c->failed || day < 1 || day > days_in_month(d.year, (uint8_t)month)) {
        c->failed = true;
        return 0;
    }
    d.month = (uint8_t)month;
    d.day = (uint8_t)day;
    return days_since_1970(d);
}

/* Milliseconds since the day began. */
static int64_t eat_time(cursor *c)
{
    int64_t hour = eat_digits(c, 2);
    expect(c, ":");
    int64_t minute = eat_digits(c, 2);
    expect(c, ":");
    int64_t second = eat_digits(c, 2), milliseconds = eat_fraction(c);
    if (hour > 23 || minute > 59 || second > 60) c->failed = true;
    return ((hour * 60 + minute) * 60 + second) * 1000 + milliseconds;
}

bool moment_from(str text, tt_moment *out)
{
    cursor c = {.left = text};
    int64_t days = eat_date(&c);
    expect(&c, "Tt ");
    int64_t within = eat_time(&c);
    int16_t offset = eat_offset(&c);
    if (c.failed || c.left.n > 0) return false;
    *out = (tt_moment){days * day_milliseconds + within - (int64_t)offset * MINUTE, offset};
    return true;
}

/* ---- writing ---- */

/* What a clock on the wall shows there: milliseconds since 1970 as if that were universal time. */
static int64_t on_the_wall(int64_t milliseconds, int16_t offset)
{
    const int64_t first = days_since_1970((calendar_day){0, 1, 1}) * day_milliseconds;
    const int64_t end = days_since_1970((calendar_day){LAST_YEAR + 1, 1, 1}) * day_milliseconds;
    if (milliseconds < first - day_milliseconds) return first;
    if (milliseconds > end + day_milliseconds) return end - 1;
    int64_t wall = milliseconds + (int64_t)offset * MINUTE;
    return wall < first ? first : wall >= end ? end - 1 : wall;
}

static int64_t within_day(int64_t wall)
{
    return wall - floor_div(wall, day_milliseconds) * day_milliseconds;
}

/* So many digits and what follows them; the place behind. */
static char *put(char *out, unsigned number, unsigned digits, char mark)
{
    for (unsigned i = digits; i-- > 0; number /= 10) out[i] = (char)('0' + number % 10);
    assert(number == 0);
    out[digits] = mark;
    return out + digits + 1;
}

/* "2026-11-29" and the mark. */
static char *put_date(char *out, int64_t wall, char mark)
{
    calendar_day d = day_since_1970(floor_div(wall, day_milliseconds));
    assert(d.year >= 0 && d.year <= LAST_YEAR);
    out = put(out, (unsigned)d.year, 4, '-');
    out = put(out, d.month, 2, '-');
    return put(out, d.day, 2, mark);
}

void tt_moment_text(tt_moment moment, char out[TT_MOMENT_SIZE])
{
    assert(moment.offset > -DAY_MINUTES && moment.offset < DAY_MINUTES);
    int64_t wall = on_the_wall(moment.milliseconds, moment.offset);
    unsigned within = (unsigned)within_day(wall), minutes = within / MINUTE, rest = within % MINUTE;
    unsigned east = (unsigned)(moment.offset < 0 ? -moment.offset : moment.offset);
    char *end = put_date(out, wall, 'T');
    end = put(end, minutes / 60, 2, ':');
    end = put(end, minutes % 60, 2, ':');
    end = put(end, rest / 1000, 2, '.');
    end = put(end, rest % 1000, 3, moment.offset < 0 ? '-' : '+');
    end = put(end, east / 60, 2, ':');
    end = put(end, east % 60, 2, '\0');
    assert(end - out <= TT_MOMENT_SIZE);
}

bool tt_moment_read(const char *text, tt_moment *out)
{
    return moment_from(str_of(text), out);
}

str moment_text(arena *keep, tt_moment m)
{
    char text[TT_MOMENT_SIZE];
    tt_moment_text(m, text);
    return str_copy(keep, str_of(text));
}

str moment_for_people(arena *keep, tt_moment m, tt_moment now)
{
    char words[TT_MOMENT_SIZE], *end = words;
    int64_t wall = on_the_wall(m.milliseconds, now.offset),
            today = on_the_wall(now.milliseconds, now.offset);
    unsigned minutes = (unsigned)(within_day(wall) / MINUTE);
    if (floor_div(wall, day_milliseconds) != floor_div(today, day_milliseconds))
        end = put_date(end, wall, ' ');
    end = put(end, minutes / 60, 2, ':');
    put(end, minutes % 60, 2, '\0');
    return str_copy(keep, str_of(words));
}

double minutes_ago(const char *text, tt_moment now)
{
    enum { CLOCKS_DIFFER = 5 };
    tt_moment then;
    if (text == NULL || !moment_from(str_of(text), &then)) return INFINITY;
    double minutes = ((double)now.milliseconds - (double)then.milliseconds) / MINUTE;
    if (minutes < -CLOCKS_DIFFER) return INFINITY;
    return minutes > 0 ? minutes : 0;
}
