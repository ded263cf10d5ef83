/* Where the person is, and how long it is from there to anywhere. */
#include <assert.h>

#include "session/session.h"

/* Who tells a quantity has read what is asked for it in the end. */
static uint32_t place_of_answer(const book *b, uint32_t question)
{
    assert(question < b->question_count);
    const struct question *q = &b->questions[question];
    uint32_t place = q->place;
    for (uint32_t i = 0; q->kind == QUESTION_QUANTITY && i < q->beneath.count; i++)
        if (b->questions[q->beneath.items[i]].place != NO_ID)
            place = b->questions[q->beneath.items[i]].place;
    return place;
}

/* Where an event was: what was looked at or worked on there. What a file says was seen by nobody
 * just now. */
static uint32_t place_of_event(const tt_case *c, const event *e)
{
    const book *b = c->book->book;
    if (e->who != c->speaker) return NO_ID;
    if (e->kind == EVENT_COMPLAINT) return book_symptom_place(b, e->subject);
    if (e->kind == EVENT_OUTCOME || e->kind == EVENT_PUT_BACK) return b->fixes[e->subject].place;
    return e->kind != EVENT_ANSWER || e->filed ? NO_ID : place_of_answer(b, e->subject);
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
