#include "host/clock.h"

#include <stdlib.h>
#include <time.h>

/* "+0130" in minutes. */
static int16_t offset_of(const char zone[6])
{
    const long number = strtol(zone, NULL, 10);
    return (int16_t)(number / 100 * 60 + number % 100);
}

int64_t clock_milliseconds(void)
{
    struct timespec time = {.tv_sec = 0};
    clock_gettime(CLOCK_REALTIME, &time);
    return (int64_t)time.tv_sec * 1000 + time.tv_nsec / 1000000;
}

void clock_now(char now[TT_MOMENT_SIZE])
{
    const int64_t milliseconds = clock_milliseconds();
    const time_t second = (time_t)(milliseconds / 1000);
    struct tm local;
    char zone[6] = "+0000";
    if (localtime_r(&second, &local) != NULL) strftime(zone, sizeof zone, "%z", &local);
    tt_moment_text((tt_moment){milliseconds, offset_of(zone)}, now);
}
