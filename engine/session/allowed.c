/* What whoever asks may be asked and may do: by role, by risk, by rules in force, by what is known.
 */
#include <assert.h>

#include "base/risk_matrix.h"
#include "session/session.h"

risk_level safety_risk(const safety *s, bool protected)
{
    if (!s->any) return RISK_LOW;
    return protected
               ? risk_of((risk_severity)s->protected_worst, (risk_probability)s->protected_chance)
               : risk_of((risk_severity)s->unprotected_worst,
                         (risk_probability)s->unprotected_chance);
}

bool safety_forbids(const safety *s)
{
    return safety_risk(s, true) == RISK_HIGH || s->hazards[HAZARD_CONFINED_SPACE];
}

bool case_may_do(const tt_case *c, uint32_t fix)
{
    const book *b = c->book->book;
    assert(fix < b->fix_count);
    return book_may_work(b, c->role, b->fixes[fix].role, &b->fixes[fix].harm);
}

static bool unanswered(const tt_case *c, uint32_t question)
{
    return c->now.replies[question] == NULL || c->now.stale[question];
}

/* Role, risk and rules allow it, whatever its only-when. */
static bool is_allowed(const tt_case *c, uint32_t question)
{
    assert(question < c->book->book->question_count);
    const struct question *q = &c->book->book->questions[question];
    return book_may_work(c->book->book, c->role, q->role, &q->harm) && !safety_forbids(&q->harm) &&
           !c->now.skip_questions[question];
}

bool case_could_ask(const tt_case *c, uint32_t question)
{
    return unanswered(c, question) && is_allowed(c, question);
}

bool case_could_look(const tt_case *c, uint32_t question)
{
    return c->book->book->questions[question].kind != QUESTION_QUANTITY &&
           is_allowed(c, question) &&
           case_truth(c, c->book->prog->ask_atom[question]) == TRUTH_TRUE;
}

bool case_may_ask(const tt_case *c, uint32_t question)
{
    return case_could_ask(c, question) &&
           case_truth(c, c->book->prog->ask_atom[question]) == TRUTH_TRUE;
}
