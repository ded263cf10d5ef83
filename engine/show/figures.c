/* Figures as people say them: rounded, in words of the catalogue. */
#include "show/figures.h"

#include <assert.h>
#include <math.h>

#include "base/str.h"
#include "show/catalogue.h"

const char *count_words(arena *keep, unsigned count)
{
    return str_printf(keep, "%u", count).p;
}

/* From an hour on in quarters: nobody plans by the minute then. */
const char *minutes_words_of(arena *keep, double minutes)
{
    assert(minutes >= 0);
    if (minutes < 1) return catalogue_text(TEXT_UNDER_A_MINUTE);
    if (minutes < 1.5) return catalogue_text(TEXT_ABOUT_A_MINUTE);
    const unsigned whole = (unsigned)lround(fmin(minutes, 1e6));
    if (whole < 60) return FILL(keep, TEXT_ABOUT_MINUTES, count_words(keep, whole));
    const unsigned quarters = (unsigned)lround(fmin(minutes, 1e6) / 15), hours = quarters / 4, rest = quarters % 4 * 15;
    if (rest != 0) return FILL(keep, TEXT_ABOUT_HOURS_MINUTES, count_words(keep, hours), count_words(keep, rest));
    return FILL(keep, hours == 1 ? TEXT_ABOUT_AN_HOUR : TEXT_ABOUT_HOURS, count_words(keep, hours));
}
