/* The complaints of a book, and those that words fit. */
#include <assert.h>
#include <stdlib.h>

#include "listen/listen.h"
#include "session/session.h"

const char *complaint_text(const book *b, uint32_t symptom, str language)
{
    const struct symptom *s = &b->symptoms[symptom];
    str text = texts_for(s->of.piece == NO_ID ? &s->text : &s->of_any, language);
    if (text.n == 0 && s->rests_on_one)
        text = texts_for(&b->questions[s->one_question].answers[s->one_answer].text, language);
    return text.n == 0 ? s->id.name.p : text.p;
}

const char *tt_complaint_text(const tt_case *c, uint32_t symptom)
{
    assert(symptom < c->book->book->symptom_count);
    return complaint_text(c->book->book, symptom, c->language);
}

static uint32_t kind_of_symptom(const book *b, uint32_t symptom)
{
    uint32_t piece = b->symptoms[symptom].of.piece;
    return piece == NO_ID ? TT_NONE : b->pieces[piece].kind;
}

typedef struct gathering {
    const tt_book *book;
    const char *words; /* null: all complaints */
    arena *hearing, *scratch;
    tt_complaint *out; /* malloc'd, room for every symptom */
    uint32_t count;
} gathering;

static void add_complaint(gathering *g, uint32_t symptom, double match)
{
    const book *b = g->book->book;
    const struct symptom *s = &b->symptoms[symptom];
    for (uint32_t i = 0; i < g->count; i++)
        if (g->out[i].symptom == symptom) return;
    assert(g->count < b->symptom_count);
    g->out[g->count++] = (tt_complaint){symptom,
                                        s->of.base.p,
                                        complaint_text(b, symptom, b->language),
                                        match,
                                        kind_of_symptom(b, symptom),
                                        book_symptom_place(b, symptom)};
}

static tt_status gather_all(gathering *g)
{
    for (uint32_t s = 0; s < g->book->book->symptom_count; s++)
        if (is_complaint(g->book->book, s)) add_complaint(g, s, 1);
    return TT_OK;
}

/* Of each complaint that was spoken of the likeliest first; then what else each may have been. */
static tt_status gather(void *context)
{
    gathering *g = context;
    const double worth_offering = 0.15;
    if (g->words == NULL) return gather_all(g);
    const complaints_heard all =
        listen_complaints(book_ear(g->book, g->hearing, g->scratch), g->scratch, str_of(g->words));
    for (uint32_t i = 0; i < all.count; i++)
        add_complaint(g, all.items[i].ranked[0].symptom, all.items[i].ranked[0].posterior);
    for (uint32_t i = 0; i < all.count; i++)
        for (uint32_t k = 1;
             k < all.items[i].count && all.items[i].ranked[k].posterior >= worth_offering; k++)
            add_complaint(g, all.items[i].ranked[k].symptom, all.items[i].ranked[k].posterior);
    return TT_OK;
}

static tt_status complaints(const tt_book *book, const char *words, tt_complaint **out,
                            uint32_t *count)
{
    *out = NULL;
    *count = 0;
    gathering g = {book,
                   words,
                   arena_new(NULL, NULL),
                   arena_new(NULL, NULL),
                   calloc(book->book->symptom_count + 1, sizeof(tt_complaint)),
                   0};
    tt_status status = TT_NO_MEMORY;
    if (g.hearing != NULL && g.scratch != NULL && g.out != NULL)
        status = guarded((arena *[]){g.hearing, g.scratch}, 2, gather, &g);
    arena_free(g.hearing);
    arena_free(g.scratch);
    if (status != TT_OK) {
        free(g.out);
        return status;
    }
    *out = g.out;
    *count = g.count;
    return TT_OK;
}

tt_status tt_complaints(const tt_book *b, tt_complaint **out, uint32_t *count)
{
    return complaints(b, NULL, out, count);
}

tt_status tt_complaints_heard(const tt_book *b, const char *words, tt_complaint **out,
                              uint32_t *count)
{
    return complaints(b, words, out, count);
}
