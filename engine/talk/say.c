/* Our own words in a turn: texts of the catalogue with their inserts, and figures as people say them. */
#include <assert.h>
#include <math.h>

#include "talk/talk.h"

const char *talk_fill(tt_talk *t, text_id id, const char *const *inserts, uint32_t count)
{
    return catalogue_fill(t->shown, id, inserts, count);
}

const char *talk_number(tt_talk *t, uint32_t number)
{
    return str_printf(t->shown, "%u", number).p;
}

const char *talk_minutes(tt_talk *t, double minutes)
{
    assert(minutes >= 0);
    if (minutes < 1) return OURS(TEXT_UNDER_A_MINUTE);
    if (minutes < 1.5) return OURS(TEXT_ABOUT_A_MINUTE);
    const uint32_t whole = (uint32_t)lround(minutes);
    if (whole < 60) return SAY(t, TEXT_ABOUT_MINUTES, talk_number(t, whole));
    const uint32_t quarters = (uint32_t)lround(minutes / 15), hours = quarters / 4, rest = quarters % 4 * 15;
    if (rest == 0) return SAY(t, hours == 1 ? TEXT_ABOUT_AN_HOUR : TEXT_ABOUT_HOURS, talk_number(t, hours));
    return SAY(t, TEXT_ABOUT_HOURS_MINUTES, talk_number(t, hours), talk_number(t, rest));
}

const char *talk_percent(tt_talk *t, double chance)
{
    assert(chance >= 0 && chance <= 1 + 1e-9);
    if (chance < 0.01) return OURS(TEXT_UNDER_ONE_PERCENT);
    if (chance > 0.99) return OURS(TEXT_OVER_NINETYNINE_PERCENT);
    return SAY(t, TEXT_PERCENT, talk_number(t, (uint32_t)lround(100 * chance)));
}

const char *talk_chance(double chance)
{
    if (chance >= 0.8) return catalogue_text(TEXT_VERY_LIKELY);
    if (chance >= 0.5) return catalogue_text(TEXT_LIKELY);
    if (chance >= 0.2) return catalogue_text(TEXT_FAIR_CHANCE);
    return catalogue_text(chance >= 0.05 ? TEXT_SMALL_CHANCE : TEXT_UNLIKELY);
}

const char *talk_outcome(tt_outcome outcome)
{
    switch (outcome) {
    case TT_GONE: return catalogue_text(TEXT_OUTCOME_GONE);
    case TT_BETTER: return catalogue_text(TEXT_OUTCOME_BETTER);
    case TT_NO_CHANGE: return catalogue_text(TEXT_OUTCOME_NO_CHANGE);
    case TT_COULD_NOT: return catalogue_text(TEXT_OUTCOME_COULD_NOT);
    case TT_WORSE: return catalogue_text(TEXT_OUTCOME_WORSE);
    }
    assert(false);
    return "";
}
