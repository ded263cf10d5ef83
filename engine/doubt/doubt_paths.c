/* What can't come about together: a cause and its sign, a fix and what it cures, a question and
 * what it waits for. */
#include <assert.h>

#include "doubt/doubt.h"

static bool together(const doubter *d, const cond *a, const cond *b)
{
    return a == NULL || can_hold(d, (const cond *const[]){a, b}, 2);
}

/* ---- causes, and what is said of them ---- */

static bool each_holds(const doubter *d, const cond *c)
{
    return c == NULL || can_hold(d, &c, 1); /* one that never holds is told by itself */
}

static void doubt_sign(const doubter *d, const symptom *s, const rate *r)
{
    assert(r->cause < d->book->cause_count);
    const cause *c = &d->book->causes[r->cause];
    if (c->only_when == NULL || !each_holds(d, s->when) || !each_holds(d, c->only_when) ||
        together(d, s->when, c->only_when))
        return;
    fault *f = fault_add(d->list, FAULT_SIGN_EXCLUDED, r->at,
                         "'%.*s' can't show this: it is out as soon as what 'when' says is known.",
                         STR_ARG(c->of.base));
    fault_help(d->list, f, "Change the cause's 'only-when', or take the cause out here.");
    fault_note_at(d->list, f, c->only_when->at, "the cause is there only when this holds");
}

static void doubt_cure(const doubter *d, const fix *x, const rate *r)
{
    assert(r->cause < d->book->cause_count);
    const cause *c = &d->book->causes[r->cause];
    if (c->only_when == NULL || !each_holds(d, x->only_when) || !each_holds(d, c->only_when) ||
        together(d, x->only_when, c->only_when))
        return;
    fault *f = fault_add(d->list, FAULT_CURE_EXCLUDED, r->at,
                         "Where '%.*s' is there this fix is never offered.", STR_ARG(c->of.base));
    fault_help(d->list, f, "Change the 'only-when' of one of them, or take the cause out here.");
    fault_note_at(d->list, f, c->only_when->at, "the cause is there only when this holds");
}

static void doubt_factor(const doubter *d, const rule *x, const rule_factor *factor)
{
    assert(factor->cause < d->book->cause_count);
    const cause *c = &d->book->causes[factor->cause];
    if (c->only_when == NULL || !each_holds(d, x->when) || !each_holds(d, c->only_when) ||
        together(d, x->when, c->only_when))
        return;
    fault *f = fault_add(d->list, FAULT_FACTOR_EXCLUDED, factor->at,
                         "'%.*s' is out already when this rule holds, so this says nothing.",
                         STR_ARG(c->of.base));
    fault_help(d->list, f,
               "Change the cause's 'only-when' or the rule's 'when', or take the cause out here.");
    fault_note_at(d->list, f, c->only_when->at, "the cause is there only when this holds");
}

/* ---- questions that wait for themselves ---- */

typedef struct waits {
    const doubter *d;
    bool *seen, *rules_seen; /* [question], [rule] */
    uint32_t from;
} waits;

static bool reaches(waits *w, const cond *c);

static bool question_reaches(waits *w, uint32_t question)
{
    assert(question < w->d->book->question_count);
    if (question == w->from) return true;
    if (w->seen[question]) return false;
    w->seen[question] = true;
    return reaches(w, w->d->book->questions[question].only_when);
}

/* Where several rules set it, one of the others may. */
static bool conclusion_reaches(waits *w, uint32_t conclusion)
{
    assert(conclusion < w->d->book->conclusion_count);
    const links *of = &w->d->index->rules_of;
    const uint32_t first = of->first[conclusion];
    if (of->first[conclusion + 1] - first != 1 || w->rules_seen[of->items[first]]) return false;
    w->rules_seen[of->items[first]] = true;
    return reaches(w, w->d->book->rules[of->items[first]].when);
}

/* Of a part that may also be left open nothing need be waited for. */
static bool reaches(waits *w, const cond *c)
{
    if (c == NULL || c->kind == COND_ANY || c->kind == COND_AT_LEAST || c->kind == COND_NOT ||
        c->kind == COND_NONE)
        return false;
    if (c->kind == COND_ANSWER || c->kind == COND_RANGE || c->kind == COND_KNOWN)
        return question_reaches(w, c->subject);
    if (c->kind == COND_SYMPTOM) return reaches(w, w->d->book->symptoms[c->subject].when);
    if (c->kind == COND_CONCLUSION) return conclusion_reaches(w, c->subject);
    for (uint32_t i = 0; i < c->count; i++)
        if (reaches(w, c->parts[i])) return true;
    return false;
}

static void doubt_wait(const doubter *d, uint32_t question)
{
    assert(question < d->book->question_count);
    const struct question *q = &d->book->questions[question];
    const arena_mark before = arena_here(d->scratch);
    waits w = {d, ARENA_ARRAY(d->scratch, bool, d->book->question_count),
               ARENA_ARRAY(d->scratch, bool, d->book->rule_count), question};
    const bool round = reaches(&w, q->only_when);
    arena_back_to(d->scratch, before);
    if (!round) return;
    fault *f = fault_add(d->list, FAULT_WAITS_FOR_ITSELF, q->only_when->at,
                         "'%.*s' is asked only once its own answer is known, so it is never asked.",
                         STR_ARG(q->of.base));
    fault_help(d->list, f,
               "Follow its 'only-when' from question to question, and break the circle.");
}

void doubt_paths(const doubter *d)
{
    const book *b = d->book;
    for (uint32_t i = 0; i < b->symptom_count; i++)
        for (uint32_t k = 0; k < b->symptoms[i].shown_by_count; k++)
            doubt_sign(d, &b->symptoms[i], &b->symptoms[i].shown_by[k]);
    for (uint32_t i = 0; i < b->fix_count; i++)
        for (uint32_t k = 0; k < b->fixes[i].cures_count; k++)
            doubt_cure(d, &b->fixes[i], &b->fixes[i].cures[k]);
    for (uint32_t i = 0; i < b->rule_count; i++)
        for (uint32_t k = 0; k < b->rules[i].factor_count; k++)
            doubt_factor(d, &b->rules[i], &b->rules[i].factors[k]);
    for (uint32_t i = 0; i < b->question_count; i++)
        if (b->questions[i].only_when != NULL) doubt_wait(d, i);
}
