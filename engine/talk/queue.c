/* What was said in one breath and is still to be asked, in order. */
#include <assert.h>

#include "talk/talk_replies.h"

bool next_in_queue(tt_talk *t)
{
    assert(t->doing.kind == ASIDE_NONE && t->queue_from <= t->queue_count);
    while (t->queue_from < t->queue_count) {
        const aside next = t->queue[t->queue_from++];
        if (next.kind == ASIDE_CONFIRM && talk_is_told(t, next.heard[0])) continue;
        t->doing = next;
        return true;
    }
    return false;
}

void leave_queue(tt_talk *t)
{
    t->queue_from = t->queue_count;
}

void queue_add(tt_talk *t, const aside *a)
{
    GROW(t->keep, t->queue, t->queue_count, t->queue_room);
    t->queue[t->queue_count++] = *a;
}
