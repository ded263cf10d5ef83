/* The danger gate. It is open only while every gate question that applies was answered as safe, by
 * whoever speaks, in this sitting. Whatever is not known to be safe counts as danger. */
#include <assert.h>

#include "decide/decide.h"
#include "decide/situation.h"

static uint32_t stop_rule_in_force(const tt_case *c)
{
    const book *b = c->book->book;
    for (uint32_t r = 0; r < b->rule_count; r++)
        if (b->rules[r].stops && case_truth(c, c->book->prog->rule_atom[r]) == TRUTH_TRUE) return r;
    return NO_ID;
}

/* What decides whether the question applies, or NO_ID: nobody can be asked for it. */
static uint32_t fact_before(const tt_case *c, uint32_t gate)
{
    const ids *facts = &c->book->book->questions[gate].facts_first;
    for (uint32_t i = 0; i < facts->count; i++)
        if (case_may_ask(c, facts->items[i])) return facts->items[i];
    return NO_ID;
}

/* The first gate question that is not answered as safe, or what must be known before it. An unknown
 * that nobody can be asked about counts as if the question applied. */
static uint32_t open_gate_question(const tt_case *c)
{
    const book *b = c->book->book;
    for (uint32_t q = 0; q < b->question_count; q++) {
        truth applies = case_truth(c, c->book->prog->ask_atom[q]);
        if (!b->questions[q].gate || applies == TRUTH_FALSE) continue;
        uint32_t fact = applies == TRUTH_UNKNOWN ? fact_before(c, q) : NO_ID;
        if (fact != NO_ID) return fact;
        if (!sitting_is_safe(c, q)) return q;
    }
    return NO_ID;
}

/* What a rule says of this danger; else what the book says of any. */
static tt_gate shut_gate(situation *s, uint32_t question, uint32_t rule)
{
    tt_case *c = s->c;
    const book *b = c->book->book;
    tt_gate g = {.state = TT_GATE_SHUT, .question = question};
    if (rule == NO_ID) {
        g.stop_text = case_text(c, &b->stop_text);
        g.call_role = role_in_danger(s);
        return g;
    }
    g.stop_text = case_text(c, &b->rules[rule].stop);
    if (b->rules[rule].call != NO_ID)
        g.call_role = cstr(c->derived, b->roles[b->rules[rule].call].name);
    return g;
}

tt_gate gate_now(situation *s)
{
    uint32_t rule = stop_rule_in_force(s->c), danger = sitting_danger(s->c),
             asked = open_gate_question(s->c);
    if (danger != NO_ID) return shut_gate(s, danger, rule);
    if (rule != NO_ID) return shut_gate(s, asked, rule);
    return asked == NO_ID ? (tt_gate){.state = TT_GATE_OPEN, .question = TT_NONE}
                          : (tt_gate){.state = TT_GATE_ASK, .question = asked};
}

typedef struct waiting {
    tt_case *c;
    uint32_t question;
} waiting;

static tt_status find_what_waits(void *context)
{
    waiting *w = context;
    case_stand_unweighed(w->c);
    const bool shut = sitting_danger(w->c) != NO_ID || stop_rule_in_force(w->c) != NO_ID;
    w->question = shut ? NO_ID : open_gate_question(w->c);
    return TT_OK;
}

tt_status gate_waits_for(tt_case *c, uint32_t *question)
{
    assert(c != NULL && question != NULL);
    waiting w = {c, NO_ID};
    tt_status status = guarded_case(c, find_what_waits, &w);
    *question = w.question;
    return status;
}

/* Once the trouble is gone nothing more is to be done at the equipment, so nobody need be asked;
 * what is known as danger stays so. */
bool gate_is_not_open(situation *s)
{
    tt_gate_state state = s->view->gate.state;
    return state == TT_GATE_SHUT || (state == TT_GATE_ASK && !s->c->now.closed);
}

void danger_step(situation *s)
{
    const tt_gate *g = &s->view->gate;
    if (g->state == TT_GATE_ASK) {
        ask_step(s, g->question, TEXT_BECAUSE_DANGER);
        s->view->next.first = true;
        return;
    }
    s->view->step = TT_STOP;
    s->view->stop_text = g->stop_text;
    s->view->call_role = g->call_role;
    assert(g->stop_text != NULL && *g->stop_text != '\0');
}
