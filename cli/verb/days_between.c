/* --since and --until: days as they are here. */
#include "verb/days_between.h"

#include <stdio.h>
#include <time.h>

#include "host/screen.h"

/* "2026-11-25", each digit in its place: a number read alone may have a sign. */
static bool is_written_like_a_day(const char *typed)
{
    static const char like[] = "dddd-dd-dd";
    uint32_t i = 0;
    for (; like[i] != 0; i++)
        if (like[i] == 'd' ? typed[i] < '0' || typed[i] > '9' : typed[i] != like[i]) return false;
    return typed[i] == 0;
}

static bool read_day(const char *typed, struct tm *out)
{
    int year, month, day;
    *out = (struct tm){.tm_isdst = -1};
    if (!is_written_like_a_day(typed) || sscanf(typed, "%4d-%2d-%2d", &year, &month, &day) != 3)
        return false;
    out->tm_year = year - 1900;
    out->tm_mon = month - 1;
    out->tm_mday = day;
    struct tm same = *out;
    return mktime(&same) != (time_t)-1 && same.tm_mday == day && same.tm_mon == month - 1 &&
           same.tm_year == year - 1900;
}

/* The first moment of a day, here; `after`: of the day after it. */
static exit_status read_date(const char *option, const char *typed, int after, int64_t *out)
{
    struct tm day;
    if (!read_day(typed, &day)) {
        complain("--%s %s is no day. Write it like 2026-11-25: year, month, day", option, typed);
        return EXIT_USAGE;
    }
    day.tm_mday += after;
    *out = (int64_t)mktime(&day) * 1000 - after;
    return EXIT_DONE;
}

exit_status days_between(const command_line *line, int64_t *first, int64_t *last)
{
    const char *since = line->values[OPTION_SINCE], *until = line->values[OPTION_UNTIL];
    *first = INT64_MIN;
    *last = INT64_MAX;
    exit_status status = since != NULL ? read_date("since", since, 0, first) : EXIT_DONE;
    if (status == EXIT_DONE && until != NULL) status = read_date("until", until, 1, last);
    if (status != EXIT_DONE || *first <= *last) return status;
    complain("--since %s is later than --until %s, so no case could fit", since, until);
    return EXIT_USAGE;
}
