/* Which of two who said different things is right. */
#include <assert.h>
#include <string.h>

#include "talk/talk_replies.h"

static void settle(tt_talk *t, const dispute *d, uint32_t right)
{
    assert(right < d->answers && d->answers > 1);
    const journal *j = talk_meaning(t);
    uint32_t *wrong = ARENA_ARRAY(t->shown, uint32_t, d->count), count = 0;
    for (uint32_t i = 0; i < d->count; i++)
        if (d->answer[i] != right) wrong[count++] = d->items[i];
    keep_settled(t, j, dispute_said(d, right), wrong, count);
}

void on_settle(tt_talk *t, const char *id)
{
    assert(t->turn.kind == TT_TURN_SETTLE);
    const dispute d = dispute_first(t);
    if (strcmp(id, "ask-again") == 0) {
        t->doing = (aside){.kind = ASIDE_ANEW, .question = dispute_question(t, &d)};
        return;
    }
    for (uint32_t i = 0; i < t->turn.choice_count; i++)
        if (strcmp(t->turn.choices[i].id, id) == 0) settle(t, &d, i);
}
