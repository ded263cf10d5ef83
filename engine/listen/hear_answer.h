/* What of a few words answers one question; for the room only. */
#ifndef TT_LISTEN_HEAR_ANSWER_H
#define TT_LISTEN_HEAR_ANSWER_H

#include "listen/listener.h"

/* Some of the words of an utterance. */
typedef struct words_in {
    const listener *l;
    arena *keep;
    const said *s;
    uint32_t first, end;
} words_in;

/* `asked`: it is the question at the prompt, so that a bare yes, a number of a choice or "as usual"
 * is an answer to it. `strength` (may be null): in units of all that words can tell. */
answer_heard answer_in(const words_in *w, uint32_t question, bool asked, double *strength);

/* The answer whose name, text or plain words these words are, all of them; or NO_ID. */
uint32_t answer_said_whole(const words_in *w, const question *q);

/* Does any of these words stand among them? */
bool manner_in(const words_in *w, uint64_t manner);

#endif
