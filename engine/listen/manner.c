/* How people answer. */
#include "listen/manner.h"

#include <assert.h>

#include "listen/manner_words.h"

void manner_words_add(phrasebook *p, arena *scratch)
{
    assert(p->words.count == 0);
#define MANNER(class, phrases) phrasebook_add_all(p, scratch, phrases, MANNER_##class);
    MANNER_WORDS(MANNER)
#undef MANNER
}

void reply_words_add(phrasebook *p, arena *scratch)
{
    assert(p->words.count == 0);
#define MANNER(class, phrases) phrasebook_add_all(p, scratch, phrases, MANNER_##class);
    REPLY_WORDS(MANNER)
#undef MANNER
}

uint64_t manner_of(const phrasebook *p, arena *scratch, str plain_phrase)
{
    said s = said_read(scratch, plain_phrase);
    phrase_items all = phrasebook_read(p, scratch, scratch, &s);
    return all.count == 1 ? all.items[0].tags : 0;
}
