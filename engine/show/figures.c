/* Figures as people say them: rounded, in words of the catalogue. */
#include "show/figures.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/str.h"
#include "say/catalogue.h"

const char *count_words(arena *keep, unsigned count)
{
    return str_printf(keep, "%u", count).p;
}

/* From an hour on in quarters: nobody plans by the minute then. */
const char *minutes_words_of(arena *keep, tongue in, double minutes)
{
    assert(minutes >= 0);
    if (minutes < 1) return catalogue_text(in, TEXT_UNDER_A_MINUTE);
    if (minutes < 1.5) return catalogue_text(in, TEXT_ABOUT_A_MINUTE);
    const unsigned whole = (unsigned)lround(fmin(minutes, 1e6));
    if (whole < 60) return FILL(keep, in, TEXT_ABOUT_MINUTES, count_words(keep, whole));
    const unsigned quarters = (unsigned)lround(fmin(minutes, 1e6) / 15), hours = quarters / 4,
                   rest = quarters % 4 * 15;
    if (rest != 0)
        return FILL(keep, in, TEXT_ABOUT_HOURS_MINUTES, count_words(keep, hours),
                    count_words(keep, rest));
    return FILL(keep, in, hours == 1 ? TEXT_ABOUT_AN_HOUR : TEXT_ABOUT_HOURS,
                count_words(keep, hours));
}

const char *percent_words(arena *keep, tongue in, double chance)
{
    assert(chance >= 0 && chance <= 1 + 1e-9);
    if (chance < 0.01) return catalogue_text(in, TEXT_UNDER_ONE_PERCENT);
    if (chance > 0.99) return catalogue_text(in, TEXT_OVER_NINETYNINE_PERCENT);
    return FILL(keep, in, TEXT_PERCENT, count_words(keep, (unsigned)lround(100 * chance)));
}

const char *chance_words(tongue in, double chance)
{
    if (chance >= 0.8) return catalogue_text(in, TEXT_VERY_LIKELY);
    if (chance >= 0.5) return catalogue_text(in, TEXT_LIKELY);
    if (chance >= 0.2) return catalogue_text(in, TEXT_FAIR_CHANCE);
    return catalogue_text(in, chance >= 0.05 ? TEXT_SMALL_CHANCE : TEXT_UNLIKELY);
}

const char *outcome_words(tongue in, tt_outcome outcome)
{
    switch (outcome) {
    case TT_GONE:
        return catalogue_text(in, TEXT_OUTCOME_GONE);
    case TT_BETTER:
        return catalogue_text(in, TEXT_OUTCOME_BETTER);
    case TT_NO_CHANGE:
        return catalogue_text(in, TEXT_OUTCOME_NO_CHANGE);
    case TT_COULD_NOT:
        return catalogue_text(in, TEXT_OUTCOME_COULD_NOT);
    case TT_WORSE:
        return catalogue_text(in, TEXT_OUTCOME_WORSE);
    }
    assert(false);
    return "";
}

typedef struct named_words {
    const char *name;
    text_id words;
} named_words;

static const char *words_of(tongue in, const named_words *all, size_t count, const char *name)
{
    size_t i = 0;
    while (i < count && strcmp(all[i].name, name) != 0) i++;
    assert(i < count);
    return catalogue_text(in, all[i].words);
}

const char *risk_words(tongue in, const char *risk)
{
    static const named_words all[] = {{"low", TEXT_RISK_LOW},
                                      {"medium", TEXT_RISK_MEDIUM},
                                      {"serious", TEXT_RISK_SERIOUS},
                                      {"high", TEXT_RISK_HIGH}};
    return words_of(in, all, sizeof all / sizeof all[0], risk);
}

const char *strength_words(tongue in, const char *strength)
{
    static const named_words all[] = {{"slight", TEXT_SIGN_SLIGHT},
                                      {"some", TEXT_SIGN_SOME},
                                      {"strong", TEXT_SIGN_STRONG},
                                      {"very strong", TEXT_SIGN_VERY_STRONG}};
    return words_of(in, all, sizeof all / sizeof all[0], strength);
}

const char *cause_words(tongue in, const tt_cause *cause)
{
    return cause->name != NULL ? cause->text : catalogue_text(in, TEXT_NOT_LISTED);
}
