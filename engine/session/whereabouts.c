/* Where the person is, and how long it is from there to anywhere. */
#include <assert.h>

#include "session/session.h"

/* Where an event was: what was looked at or worked on there. What a file says was seen by nobody
 * just now. */
static uint32_t place_of_event(const tt_case *c, const event *e)
{
    const book *b = c->book->book;
    if (e->who != c->speaker) return NO_ID;
    if (e->kind == EVENT_COMPLAINT) return book_symptom_place(b, e->subject);
    if (e->kind == EVENT_OUTCOME || e->kind == EVENT_PUT_BACK) return b->fixes[e->subject].place;
    if (e->kind != EVENT_ANSWER || e->filed) return NO_ID;
    assert(e->subject < b->question_count);
    return b->questions[e->subject].place;
}

/* Where whoever speaks did the last thing; who has done nothing yet is where the complaint is seen.
 */
static uint32_t place_now(const tt_case *c)
{
    for (uint32_t i = c->event_count; i-- > 0;) {
        const uint32_t place = place_of_event(c, &c->events[i]);
        if (place != NO_ID) return place;
    }
    return c->now.complaint == NO_ID ? NO_ID : book_symptom_place(c->book->book, c->now.complaint);
}

void options_place(tt_case *c, options *o)
{
    const book *b = c->book->book;
    const uint32_t count = b->place_count;
    double *walk = ARENA_ARRAY(c->derived, double, (size_t)count *count);
    for (uint32_t from = 0; from < count; from++)
        for (uint32_t to = 0; to < count; to++)
            walk[(size_t)from * count + to] = book_walk(b, from, to);
    o->in.walk = walk;
    o->in.place_count = count;
    o->in.here = place_now(c);
    assert(o->in.here == NO_ID || o->in.here < count);
}
