/* Two answers that don't fit together: the weaker of them is looked at again before anything is
 * built on both. Answers that tell of danger are never asked back. */
#include <assert.h>

#include "believe/clash.h"
#include "decide/situation.h"

static uint32_t asks_again(tt_case *c, const bool *danger, uint32_t finding, tt_again *how)
{
    *how = TT_LOOK_ANOTHER;
    const uint32_t with_another = look_asks(c, danger, finding, *how);
    if (with_another != NO_ID) return with_another;
    *how = TT_LOOK_AGAIN;
    return look_asks(c, danger, finding, *how);
}

static const bool *may_clash(tt_case *c, const bool *danger)
{
    const book *b = c->book->book;
    bool *may = ARENA_ARRAY(c->derived, bool, b->question_count);
    for (uint32_t q = 0; q < b->question_count; q++)
        may[q] = c->book->prog->is_evidence[q] && !b->questions[q].gate &&
                 c->now.weights[q] != NULL && !danger[q];
    return may;
}

bool answers_clash(situation *s)
{
    tt_case *c = s->c;
    const evidence seen = case_evidence(c);
    clash found;
    if (complaint_is_open(s) || c->now.any_better) return false;
    const bool *danger = look_danger(c), *may = may_clash(c, danger);
    if (!belief_clash(c->now.single, c->now.pairs, c->scratch, &seen, may, &found)) return false;
    s->other = found.other;
    s->question = asks_again(c, danger, found.weaker, &s->again);
    if (s->question != NO_ID) return true;
    s->other = found.weaker;
    s->question = asks_again(c, danger, found.other, &s->again);
    return s->question != NO_ID;
}

void clash_step(situation *s)
{
    assert(s->again != TT_FIRST_LOOK && s->other != s->question);
    ask_step(s, s->question, TEXT_BECAUSE_CLASH);
    s->view->next.again = s->again;
    s->view->next.with = look_words(s->c, s->question, s->again);
    s->view->next.clash = s->other;
}
