/* What is known once some questions are answered. */
#include "compile/reckoned.h"

#include <assert.h>
#include <math.h>

state_mask every_state(uint32_t states)
{
    assert(states > 0);
    return states >= EXPR_STATES_MAX ? ~(state_mask)0 : ((state_mask)1 << states) - 1;
}

state_mask reply_mask(const program *p, const reply *r, bool *known)
{
    assert(r->kind != REPLY_ANSWER || r->answer < program_states(p, r->question));
    state_mask all = every_state(program_states(p, r->question));
    state_mask left = r->kind == REPLY_NOT ? all & ~r->excluded : 0;
    bool one_left = left != 0 && (left & (left - 1)) == 0;
    *known = r->kind == REPLY_ANSWER || r->kind == REPLY_READING || one_left;
    if (r->kind == REPLY_ANSWER) return (state_mask)1 << r->answer;
    if (r->kind == REPLY_READING)
        return (state_mask)1 << program_state_near(p, r->question, r->number, r->magnitude);
    if (r->kind == REPLY_NOT) return left;
    return all;
}

/* ---- conditions ---- */

static truth truth_of_leaf(const known_replies *k, const cond *c)
{
    const reply *r = k->of(k->context, c->subject);
    if (r == NULL) return c->kind == COND_KNOWN ? TRUTH_FALSE : TRUTH_UNKNOWN;
    bool known;
    state_mask mask = reply_mask(k->p, r, &known);
    if (c->kind == COND_KNOWN) return known ? TRUTH_TRUE : TRUTH_FALSE;
    if (c->kind == COND_RANGE) {
        if (r->kind != REPLY_READING) return TRUTH_UNKNOWN;
        return interval_holds(c, r->number, r->magnitude) ? TRUTH_TRUE : TRUTH_FALSE;
    }
    if ((mask & ~c->answers) == 0) return TRUTH_TRUE;
    return (mask & c->answers) == 0 ? TRUTH_FALSE : TRUTH_UNKNOWN;
}

static truth truth_of_many(const known_replies *k, const cond *c)
{
    uint32_t needed = c->kind == COND_ALL        ? c->count
                      : c->kind == COND_AT_LEAST ? c->number
                                                 : 1,
             held = 0, open = 0;
    for (uint32_t i = 0; i < c->count; i++) {
        truth t = cond_truth(k, c->parts[i]);
        held += t == TRUTH_TRUE;
        open += t == TRUTH_UNKNOWN;
    }
    assert(held + open <= c->count);
    if (held >= needed) return TRUTH_TRUE;
    return held + open < needed ? TRUTH_FALSE : TRUTH_UNKNOWN;
}

static truth opposite(truth t)
{
    return t == TRUTH_UNKNOWN ? t : t == TRUTH_TRUE ? TRUTH_FALSE : TRUTH_TRUE;
}

truth cond_truth(const known_replies *k, const cond *c)
{
    switch (c->kind) {
    case COND_NOT:
        return opposite(cond_truth(k, c->parts[0]));
    case COND_NONE:
        return opposite(truth_of_many(k, c));
    case COND_ALL:
    case COND_ANY:
    case COND_AT_LEAST:
        return truth_of_many(k, c);
    case COND_ANSWER:
    case COND_RANGE:
    case COND_KNOWN:
        return truth_of_leaf(k, c);
    case COND_SYMPTOM:
    case COND_CONCLUSION:
        break;
    }
    return TRUTH_UNKNOWN;
}

/* ---- one quantity ---- */

static bool number_of(void *context, uint32_t question, double *number)
{
    const known_replies *k = context;
    const reply *r = k->of(k->context, question);
    if (r == NULL || r->kind != REPLY_READING) return false;
    *number = r->number;
    return true;
}

/* The case that holds; null while it is not known which, or if none does. */
static const formula_case *case_that_holds(const known_replies *k, const struct question *q)
{
    for (uint32_t i = 0; i < q->case_count; i++) {
        truth t = q->cases[i].when == NULL ? TRUTH_TRUE : cond_truth(k, q->cases[i].when);
        if (t == TRUTH_TRUE) return &q->cases[i];
        if (t == TRUTH_UNKNOWN) return NULL;
    }
    return NULL;
}

/* Far beyond whatever is measured, and far enough from what a number can hold that it can be shown
 * in any unit. */
static bool is_too_large(double base, double number)
{
    const double largest = 1e100;
    return !(fabs(base) <= largest && fabs(number) <= largest);
}

bool quantity_reckoned(const known_replies *k, uint32_t question, reply *out, formula_lack *why)
{
    const struct question *q = &k->p->book->questions[question];
    const formula_case *holds = case_that_holds(k, q);
    assert(q->kind == QUESTION_QUANTITY);
    if (holds == NULL) return false;
    formula_result value = formula_value(holds->is, number_of, (void *)(uintptr_t)k);
    if (value.state == FORMULA_UNDEFINED) *why = value.why;
    if (value.state != FORMULA_VALUE) return false;
    double number = unit_from_base(&q->in, value.base);
    if (is_too_large(value.base, number)) {
        *why = FORMULA_TOO_LARGE;
        return false;
    }
    *out = (reply){.kind = REPLY_READING,
                   .question = question,
                   .at = span_nowhere(),
                   .number = number,
                   .magnitude = value.scale / q->in.factor};
    return true;
}
