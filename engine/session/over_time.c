/* Quantities whose values are shown over time, reckoned from what a case was told, or what is
 * missing for them. */
#include <assert.h>

#include "session/session.h"

/* What is asked for it in the end, and nobody has told. */
static void add_missing(tt_case *c, const question *q, tt_reckoned *out)
{
    const book *b = c->book->book;
    tt_untold *all = ARENA_ARRAY(c->derived, tt_untold, q->beneath.count + 1);
    for (uint32_t i = 0; i < q->beneath.count; i++) {
        const uint32_t asked = q->beneath.items[i];
        if (c->now.replies[asked] != NULL && c->now.replies[asked]->kind == REPLY_READING) continue;
        const struct question *m = &b->questions[asked];
        all[out->missing_count++] = (tt_untold){asked, cstr(c->derived, m->id.name),
                                                case_text(c, &m->ask), m->about == ABOUT_SITE};
    }
    out->missing = all;
}

static bool rests_on_readings(const tt_case *c, const question *q)
{
    for (uint32_t i = 0; i < q->beneath.count; i++) {
        const uint32_t asked = q->beneath.items[i];
        if (c->now.replies[asked] != NULL && !c->now.of_site[asked]) return true;
    }
    return false;
}

static tt_reckoned reckoned(tt_case *c, uint32_t question)
{
    const struct question *q = &c->book->book->questions[question];
    const reply *r = c->now.replies[question];
    const unit shown = book_shown_unit(c->book->book, &q->in);
    tt_reckoned out = {.question = question,
                       .name = cstr(c->derived, q->id.name),
                       .text = case_text(c, &q->ask),
                       .unit = cstr(c->derived, shown.text),
                       .words = "",
                       .why = c->now.undefined[question] == FORMULA_LACKS_NOTHING
                                  ? ""
                                  : lack_words(c, c->now.undefined[question])};
    assert(q->kind == QUESTION_QUANTITY);
    out.known = r != NULL && r->kind == REPLY_READING;
    out.read = rests_on_readings(c, q);
    if (!out.known) {
        add_missing(c, q, &out);
        return out;
    }
    out.number = unit_convert(&q->in, &shown, r->number);
    out.words = reading_words(c, question, r->number);
    return out;
}

typedef struct looking {
    tt_case *c;
    const tt_reckoned *out;
    uint32_t count;
} looking;

static tt_status look(void *context)
{
    looking *l = context;
    const book *b = l->c->book->book;
    case_stand_unweighed(l->c);
    tt_reckoned *all = ARENA_ARRAY(l->c->derived, tt_reckoned, b->question_count + 1);
    for (uint32_t q = 0; q < b->question_count; q++)
        if (b->questions[q].over_time) all[l->count++] = reckoned(l->c, q);
    l->out = all;
    return TT_OK;
}

tt_status tt_over_time_look(tt_case *c, const tt_reckoned **out, uint32_t *count)
{
    assert(c != NULL && out != NULL && count != NULL);
    looking l = {.c = c};
    const tt_status status = guarded_case(c, look, &l);
    *out = l.out;
    *count = l.count;
    return status;
}
