/* What words mean at this turn. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "talk/talk.h"

void take_given(tt_talk *t, const tt_given *given, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        const tt_given *g = &given[i];
        const uint32_t question = tt_question_find(t->book, g->question);
        tt_reply reply = {.kind = TT_NUMBER, .number = g->number, .unit = g->unit};
        if (question == TT_NONE) {
            talk_wrong(t, "no-such-question", OURS(TEXT_DOES_NOT_FIT));
            return;
        }
        const tt_question q = talk_question(t, question);
        const uint32_t option = option_named(&q, g->choice);
        if (g->choice != NULL && option != TT_NONE) reply = (tt_reply){.kind = TT_ANSWER, .option = option};
        else if (g->choice != NULL && strcmp(g->choice, "unsure") == 0) reply.kind = TT_UNSURE;
        else if (g->choice != NULL && strcmp(g->choice, "cannot") == 0) reply.kind = TT_CANNOT;
        take_answer(t, question, &reply, "");
    }
}

void take_words(tt_talk *t, const char *words)
{
    const talk_word word = word_of(t, words);
    if (word != WORD_NONE) do_word(t, word);
    else talk_wrong(t, "not-understood", OURS(TEXT_NOT_UNDERSTOOD));
}
