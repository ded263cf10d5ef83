/* Our own words in a turn: texts of the catalogue with their inserts, and figures as people say
 * them. */
#include <assert.h>

#include "talk/talk.h"

const char *talk_fill(tt_talk *t, text_id id, const char *const *inserts, uint32_t count)
{
    assert(id < TEXT_COUNT);
    return catalogue_fill(t->shown, t->tongue, id, inserts, count);
}

const char *talk_number(tt_talk *t, uint32_t number)
{
    return count_words(t->shown, number);
}

const char *talk_minutes(tt_talk *t, double minutes)
{
    return minutes_words_of(t->shown, t->tongue, minutes);
}

const char *talk_percent(tt_talk *t, double chance)
{
    return percent_words(t->shown, t->tongue, chance);
}
