/* The step is a question. Until it is, the view has none (case_view). */
#include <assert.h>

#include "decide/situation.h"

void ask_step(situation *s, uint32_t question, text_id reason)
{
    assert(question < s->c->book->book->question_count);
    s->view->step = TT_ASK;
    s->view->next = (tt_next){.question = question,
                              .quantity = TT_NONE,
                              .minutes = s->c->book->book->questions[question].minutes,
                              .reason = case_says(s->c, reason),
                              .with = "",
                              .clash = TT_NONE};
}

uint32_t ask_or_what_it_needs(situation *s, uint32_t question)
{
    truth applies = case_truth(s->c, s->c->book->prog->ask_atom[question]);
    if (applies == TRUTH_TRUE) return question;
    return applies == TRUTH_UNKNOWN ? case_missing_fact(s->c, question) : NO_ID;
}
