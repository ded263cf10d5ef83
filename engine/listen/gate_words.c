/* What sounds like an answer to the danger question and is none by itself. */
#include "listen/gate_words.h"

#include <assert.h>

#include "listen/listener.h"

void gate_words_add(phrasebook *p, arena *scratch)
{
    assert(p->words.count == 0);
#define GATE(class, phrases) phrasebook_add_all(p, scratch, phrases, GATE_##class);
    GATE_WORDS(GATE)
#undef GATE
}
