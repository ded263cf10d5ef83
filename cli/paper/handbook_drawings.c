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

exit_status put_whole(const handbook *h)
{
    const tt_picture *whole;
    const exit_status status = status_of(tt_book_picture(h->c, &whole));
    if (status == EXIT_DONE) put_drawing(h, our_words(h->p->in, HANDBOOK_DRAWING), whole);
    return status;
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

exit_status put_question_drawings(const handbook *h)
{
    exit_status status = EXIT_DONE;
    for (uint32_t i = 0; status == EXIT_DONE && i < h->all.questions.count; i++) {
        tt_question q;
        status = status_of(tt_question_show(h->c, h->all.questions.items[i].id, &q));
        if (status != EXIT_DONE || !has_drawing(&q)) continue;
        h->p->kind->subheading(h->p, rule_text(h->all.questions.items[i].text));
        put_drawing(h, our_words(h->p->in, HANDBOOK_DRAWING), q.picture);
        for (uint32_t k = 0; k < q.option_count; k++)
            put_drawing(h, rule_text(q.options[k].text), q.options[k].picture);
    }
    return status;
}
