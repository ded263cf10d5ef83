#include "face/wordings.h"

#include <assert.h>
#include <string.h>

#include "host/plain_text.h"

char *percent_words(double chance)
{
    assert(chance >= 0 && chance <= 1 + 1e-9);
    if (chance < 0.01) return copy_text("under 1%");
    if (chance > 0.99) return copy_text("over 99%");
    return format_text("%.0f%%", 100 * chance);
}

const char *chance_words(double chance)
{
    if (chance >= 0.8) return "very likely";
    if (chance >= 0.5) return "likely";
    if (chance >= 0.2) return "a fair chance";
    return chance >= 0.05 ? "a small chance" : "unlikely";
}

char *minutes_words(double minutes)
{
    assert(minutes >= 0);
    if (minutes < 1) return copy_text("under a minute");
    if (minutes < 1.5) return copy_text("about a minute");
    if (minutes < 90) return format_text("about %.0f minutes", minutes);
    return format_text("about %.0f hours", minutes / 60);
}

const char *standing_words(tt_standing standing)
{
    switch (standing) {
    case TT_LIKELY_FIX:
        return "likely";
    case TT_POSSIBLE_FIX:
        return "possible";
    case TT_NOT_YET:
        return "not yet";
    case TT_OTHER_ROLE:
        return "needs another role";
    }
    assert(false);
    return "";
}

const char *outcome_words(tt_outcome outcome)
{
    switch (outcome) {
    case TT_GONE:
        return "the trouble is gone";
    case TT_BETTER:
        return "better, but not gone";
    case TT_NO_CHANGE:
        return "no change";
    case TT_COULD_NOT:
        return "could not be done";
    case TT_WORSE:
        return "worse, or something new happened";
    }
    assert(false);
    return "";
}

static const char *const outcome_names[] = {[TT_GONE] = "gone",
                                            [TT_BETTER] = "better",
                                            [TT_NO_CHANGE] = "no-change",
                                            [TT_COULD_NOT] = "could-not",
                                            [TT_WORSE] = "worse"};

const char *outcome_name(tt_outcome outcome)
{
    assert(outcome <= TT_WORSE);
    return outcome_names[outcome];
}

tt_outcome outcome_of_name(const char *name)
{
    unsigned i = 0;
    while (i <= TT_WORSE && strcmp(outcome_names[i], name) != 0) i++;
    return (tt_outcome)i;
}

const char *cause_words(const tt_cause *cause)
{
    return cause->name != NULL ? cause->text : "Something that these rules don't list";
}
