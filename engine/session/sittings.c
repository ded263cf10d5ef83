/* Who ruled danger out, and when. Every speaker does so once in each of their sittings, and once
 * more when something calls for it; a danger that anybody tells stands against all of them until
 * somebody who knew of it says that it is safe. Replayed from the events like everything else. */
#include <assert.h>
#include <math.h>

#include "session/session.h"

/* ---- what is safe ---- */

bool reply_is_safe(const struct question *q, const reply *r)
{
    assert(q->gate);
    if (q->kind == QUESTION_CHOICE) return r->kind == REPLY_ANSWER && answer_is_safe(q, r->answer);
    return r->kind == REPLY_READING && reading_is_safe(q, r->number, r->magnitude);
}

static uint32_t first_safe_answer(const struct question *q)
{
    uint32_t i = 0;
    while (i + 1 < q->answer_count && !answer_is_safe(q, q->shown_order[i])) i++;
    return q->shown_order[i];
}

/* What somebody says who sees nothing dangerous. */
reply safe_reply(const book *b, uint32_t question)
{
    const struct question *q = &b->questions[question];
    reply r = {.kind = REPLY_ANSWER, .question = question, .at = span_nowhere()};
    if (q->kind == QUESTION_CHOICE) {
        r.answer = first_safe_answer(q);
    } else {
        r.kind = REPLY_READING;
        r.number = safe_number(q);
    }
    assert(reply_is_safe(q, &r));
    return r;
}

static bool answers_gate(const tt_case *c, const event *e)
{
    return e->kind == EVENT_ANSWER && c->book->book->questions[e->subject].gate;
}

bool event_is_danger(const tt_case *c, const event *e)
{
    return e->kind == EVENT_DANGER ||
           (answers_gate(c, e) && !reply_is_safe(&c->book->book->questions[e->subject], &e->reply));
}

/* ---- as it is told ---- */

/* The number below which this safe answer ends dangers. */
static uint32_t ends_below(const tt_case *c, const event *e)
{
    uint32_t all = c->now.gate.dangers;
    return e->unaware && e->first_unseen < all ? e->first_unseen : all;
}

static void play_danger(tt_case *c, const event *e)
{
    gate_ledger *g = &c->now.gate;
    g->dangers++;
    assert(e->kind == EVENT_DANGER || c->book->book->questions[e->subject].gate);
    if (e->kind == EVENT_DANGER)
        g->danger_said = g->dangers;
    else
        g->unsafe[e->subject] = g->dangers;
}

static void play_safe_answer(tt_case *c, const event *e)
{
    gate_ledger *g = &c->now.gate;
    uint32_t q = e->subject, ends = ends_below(c, e);
    assert(ends <= g->dangers);
    if (ends > g->ended[q]) g->ended[q] = ends;
    if (e->who != c->speaker) return;
    g->mine[q] = true;
    g->mine_ended[q] = ends;
}

static void ask_all_again(tt_case *c)
{
    for (uint32_t q = 0; q < c->book->book->question_count; q++) c->now.gate.mine[q] = false;
}

void sitting_look_again(tt_case *c, uint32_t question)
{
    assert(question < c->book->book->question_count);
    c->now.gate.mine[question] = false;
}

void sitting_play(tt_case *c, const event *e)
{
    bool own = e->who == c->speaker;
    bool asks_again = e->kind == EVENT_SITTING || e->kind == EVENT_RECHECK ||
                      (e->kind == EVENT_OUTCOME && e->outcome == TT_WORSE);
    if (event_is_danger(c, e))
        play_danger(c, e);
    else if (answers_gate(c, e) && !e->complaint)
        play_safe_answer(c, e);
    if (own && asks_again) ask_all_again(c);
    if (own && e->kind == EVENT_RETRACT) sitting_look_again(c, e->subject);
}

bool sitting_takes(const tt_case *c, const event *e)
{
    if (!answers_gate(c, e) || event_is_danger(c, e)) return true;
    const gate_ledger *g = &c->now.gate;
    uint32_t ends = e->complaint ? g->ended[e->subject] : ends_below(c, e);
    return ends >= g->unsafe[e->subject] || g->ended[e->subject] >= g->unsafe[e->subject];
}

/* ---- where it stands ---- */

static uint32_t later(uint32_t a, uint32_t b)
{
    return a > b ? a : b;
}

bool sitting_is_safe(const tt_case *c, uint32_t question)
{
    const gate_ledger *g = &c->now.gate;
    return g->mine[question] &&
           g->mine_ended[question] >= later(g->unsafe[question], g->danger_said);
}

bool sitting_told_danger(const tt_case *c, uint32_t question)
{
    return c->now.gate.unsafe[question] > c->now.gate.ended[question];
}

static bool applies(const tt_case *c, uint32_t question)
{
    return case_truth(c, c->book->prog->ask_atom[question]) != TRUTH_FALSE;
}

/* The first gate question whose safe answers leave a danger standing: one that was told by
 * answering it, or that was said. */
static uint32_t first_against(const tt_case *c, bool said, bool only_applying)
{
    const gate_ledger *g = &c->now.gate;
    for (uint32_t q = 0; q < c->book->book->question_count; q++) {
        if (!c->book->book->questions[q].gate || (only_applying && !applies(c, q))) continue;
        if ((said ? g->danger_said : g->unsafe[q]) > g->ended[q]) return q;
    }
    return NO_ID;
}

static bool any_applies(const tt_case *c)
{
    for (uint32_t q = 0; q < c->book->book->question_count; q++)
        if (c->book->book->questions[q].gate && applies(c, q)) return true;
    return false;
}

/* A danger that was told by an answer stands whether its question still applies or not. */
uint32_t sitting_danger(const tt_case *c)
{
    uint32_t told = first_against(c, false, false);
    return told != NO_ID ? told : first_against(c, true, any_applies(c));
}
