/* Moments: RFC 3339 text to milliseconds since 1970 and back, in the calendar of ISO 8601
 * (Gregorian, also before it was in use). Nothing here knows what time it is: who asks "how long
 * ago" hands in now. */
#ifndef TT_BASE_MOMENT_H
#define TT_BASE_MOMENT_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"
#include "telltale.h"

/* ---- the calendar ---- */
typedef struct calendar_day {
    int32_t year;       /* 0 is the year before 1 */
    uint8_t month, day; /* from 1 */
} calendar_day;
int64_t days_since_1970(calendar_day d);
calendar_day day_since_1970(int64_t days);

/* The day that people there had, in days since 1970. */
int64_t day_on_the_wall(tt_moment m);

/* ---- texts ---- */
/* "2026-11-29T09:12:00Z", "2026-11-29 09:12:00.25+01:00": 'T', 't' or a blank between date and
 * time; 'Z', 'z' or an offset; any number of digits behind the second, of which three are kept;
 * second 60 is second 0 of the next minute. False: it is no such text, or names a day, hour or
 * offset that there is none of. */
bool moment_from(str text, tt_moment *out);
/* "2026-11-29T09:12:00.250+01:00". The years are 0 to 9999: what lies beyond is written as the
 * first or last moment of these. */
str moment_text(arena *keep, tt_moment m);
/* For people, in the offset of `now`: "09:12", or "2026-11-25 09:12" if that was not on the day of
 * `now`. */
str moment_for_people(arena *keep, tt_moment m, tt_moment now);

/* ---- how long ago ---- */
/* Minutes from a text until now. What can't be read, or lies more than five minutes after now,
 * counts as long ago: INFINITY. What is a little after now (clocks differ) is 0. */
double minutes_ago(const char *text, tt_moment now);

#endif
