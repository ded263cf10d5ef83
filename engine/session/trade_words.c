/* Words of danger that a book calls its trade's own (`not-danger`): none by which somebody hurt,
 * caught or burnt is known. */
#include <assert.h>

#include "listen/listen.h"
#include "session/session.h"

void check_trade_words(const book *b, arena *scratch, faults *list)
{
    assert(b->not_danger.count == 0 || b->not_danger.items != NULL);
    bool *grave = ARENA_ARRAY(scratch, bool, b->not_danger.count);
    listen_are_grave(scratch, b->not_danger.items, b->not_danger.count, grave);
    for (uint32_t i = 0; i < b->not_danger.count; i++) {
        const label *words = &b->not_danger.items[i];
        if (!grave[i]) continue;
        fault *f = fault_add(
            list, FAULT_GRAVE_WORD, words->at,
            "'%.*s' can tell of somebody hurt or of fire, so a book can't call it no danger.",
            STR_ARG(words->name));
        fault_help(list, f,
                   "Leave it out, or name the thing that is meant in full, such as 'photo eye'.");
    }
}
