/* A complaint about a kind of equipment of which there are several pieces: which of them is it? */
#include <assert.h>

#include "decide/situation.h"

bool piece_is_not_said(situation *s)
{
    for (uint32_t i = 0; i < s->c->book->book->symptom_count; i++) {
        s->question = i;
        if (s->c->now.somewhere[i]) return true;
    }
    return false;
}

void piece_step(situation *s)
{
    const book *b = s->c->book->book;
    uint32_t symptom = s->question;
    assert(symptom < b->symptom_count && b->symptoms[symptom].of.piece != NO_ID);
    s->view->step = TT_PIECE;
    s->view->symptom = symptom;
    s->view->kind = b->pieces[b->symptoms[symptom].of.piece].kind;
}
