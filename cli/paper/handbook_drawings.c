/* The drawings of a book, each where it belongs: the whole, what to look at, how answers look, what
 * a cause is, what a step does. */
#include "cases/begin_case.h"
#include "host/memory.h"
#include "paper/handbook.h"
#include "show/figures.h"

static void put_drawing(const handbook *h, piece_of_text lead, const tt_picture *picture)
{
    if (picture != NULL) h->p->kind->drawn(h->p, lead, picture);
}

void put_whole(const handbook *h)
{
    const tt_picture *whole;
    must_be_done(tt_book_picture(h->c, &whole));
    put_drawing(h, our_words(h->p->in, HANDBOOK_DRAWING), whole);
}

void put_step_drawings(const handbook *h, const tt_picture *const *pictures, uint32_t count)
{
    for (uint32_t i = 0; pictures != NULL && i < count; i++)
        put_drawing(
            h,
            our_text(FILL(h->keep, h->p->in, HANDBOOK_DRAWING_STEP, count_words(h->keep, i + 1))),
            pictures[i]);
}

void put_cause_drawings(const handbook *h)
{
    for (uint32_t i = 0; i < h->all.causes.count; i++)
        put_drawing(h, rule_text(h->all.causes.items[i].text), h->all.causes.items[i].picture);
}

static bool has_drawing(const tt_question *q)
{
    bool any = q->picture != NULL;
    for (uint32_t i = 0; i < q->option_count; i++) any |= q->options[i].picture != NULL;
    return any;
}

void put_question_drawings(const handbook *h)
{
    for (uint32_t i = 0; i < h->all.questions.count; i++) {
        tt_question q;
        must_be_done(tt_question_show(h->c, h->all.questions.items[i].id, &q));
        if (!has_drawing(&q)) continue;
        h->p->kind->subheading(h->p, rule_text(h->all.questions.items[i].text));
        put_drawing(h, our_words(h->p->in, HANDBOOK_DRAWING), q.picture);
        for (uint32_t k = 0; k < q.option_count; k++)
            put_drawing(h, rule_text(q.options[k].text), q.options[k].picture);
    }
}
