/* The course of a call: fixes that wait for the wrong thing or leave something behind, rules that
 * speak against themselves, worked cases that can't come about. */
#include <assert.h>
#include <math.h>

#include "doubt/doubt.h"
#include "model/hazard_words.h"

/* ---- what fixes wait for ---- */

static bool shares_cause(const fix *a, const fix *b)
{
    for (uint32_t i = 0; i < a->cures_count; i++)
        for (uint32_t k = 0; k < b->cures_count; k++)
            if (a->cures[i].cause == b->cures[k].cause) return true;
    return false;
}

static void doubt_after(const doubter *d, const fix *x)
{
    const book *b = d->book;
    for (uint32_t i = 0; i < x->after.count; i++) {
        const fix *first = &b->fixes[x->after.items[i]];
        assert(first != x);
        if (!book_may(b, x->role, first->role)) {
            fault *f = fault_add(d->list, FAULT_AFTER_ABOVE, x->id.at,
                                 "'%.*s' waits for '%.*s', which is the work of '%.*s': whoever "
                                 "may do this one waits until they were called.",
                                 STR_ARG(x->of.base), STR_ARG(first->of.base),
                                 STR_ARG(b->roles[first->role].name));
            fault_note_at(d->list, f, first->id.at, "what it waits for");
            fault_help(d->list, f, "Take it out of 'after', or write the easier one first.");
        } else if (!shares_cause(x, first)) {
            fault *f = fault_add(d->list, FAULT_AFTER_APART, x->id.at,
                                 "'%.*s' waits for '%.*s', and they cure nothing in common.",
                                 STR_ARG(x->of.base), STR_ARG(first->of.base));
            fault_note_at(d->list, f, first->id.at, "what it waits for");
            fault_help(d->list, f,
                       "Name a fix of the same cause that is tried first, or leave 'after' out.");
        }
    }
}

/* Can whoever may do the fix come to know that it holds? */
static bool can_know(const book *b, const cond *c, uint32_t role)
{
    if (c->kind == COND_ANSWER || c->kind == COND_RANGE) {
        const question *q = &b->questions[c->subject];
        if (q->kind == QUESTION_QUANTITY) return true;
        return q->about == ABOUT_SITE || book_may(b, role, q->role);
    }
    if (c->kind == COND_SYMPTOM) return can_know(b, b->symptoms[c->subject].when, role);
    if (c->kind == COND_ALL) {
        for (uint32_t i = 0; i < c->count; i++)
            if (!can_know(b, c->parts[i], role)) return false;
        return true;
    }
    if (c->kind != COND_ANY || c->count == 0) return true;
    for (uint32_t i = 0; i < c->count; i++)
        if (can_know(b, c->parts[i], role)) return true;
    return false;
}

static void doubt_waits(const doubter *d, const fix *x)
{
    if (x->only_when == NULL || can_know(d->book, x->only_when, x->role)) return;
    fault *f = fault_add(d->list, FAULT_WAITS_ABOVE, x->only_when->at,
                         "'%.*s' is the work of '%.*s', and is offered only once a question above "
                         "that role was answered.",
                         STR_ARG(x->of.base), STR_ARG(d->book->roles[x->role].name));
    fault_help(d->list, f, "Name what '%.*s' can see, or give the fix to the higher role.",
               STR_ARG(d->book->roles[x->role].name));
}

/* ---- what fixes leave behind ---- */

static bool notes_how_it_was(const fix *x)
{
    for (uint32_t i = 0; i < x->steps.count; i++)
        for (uint32_t k = 0; k < x->steps.items[i].count; k++) {
            const str text = x->steps.items[i].items[k].text;
            const bool notes = word_at(text, "write down") == 0 || word_at(text, "anote") == 0;
            if (notes && (word_at(text, "as they are") != SIZE_MAX ||
                          word_at(text, "as it is") != SIZE_MAX ||
                          word_at(text, "what the gauge reads") != SIZE_MAX))
                return true;
        }
    return false;
}

static void doubt_left_behind(const doubter *d, const fix *x)
{
    if (x->undo.kind == PUT_BACK_NOT_NEEDED && notes_how_it_was(x)) {
        fault *f = fault_add(d->list, FAULT_NOT_PUT_BACK, x->id.at,
                             "A step of '%.*s' writes down how it was, and nothing puts it back.",
                             STR_ARG(x->of.base));
        fault_help(d->list, f, "Write under 'put-back' how it is set back if it did not help.");
    }
}

/* ---- rules that speak against themselves ---- */

static bool asks_answer(const cond *c, uint32_t question, uint64_t answers)
{
    if (c->kind == COND_ANSWER && c->subject == question) return (c->answers & ~answers) == 0;
    for (uint32_t i = 0; i < c->count && c->kind == COND_ALL; i++)
        if (asks_answer(c->parts[i], question, answers)) return true;
    return false;
}

/* What it rules out, or makes less likely, is just what its condition is a sign of. */
static void doubt_factors(const doubter *d, const rule *r)
{
    const book *b = d->book;
    const links *of = &d->index->symptoms_of;
    for (uint32_t k = 0; k < r->factor_count; k++)
        for (uint32_t i = of->first[r->factors[k].cause];
             r->factors[k].factor < 1 && i < of->first[r->factors[k].cause + 1]; i++) {
            const symptom *s = &b->symptoms[of->items[i]];
            if (s->when->kind != COND_ANSWER ||
                !asks_answer(r->when, s->when->subject, s->when->answers))
                continue;
            for (uint32_t j = 0; j < s->shown_by_count; j++) {
                if (s->shown_by[j].cause != r->factors[k].cause ||
                    s->shown_by[j].chance <= 2 * s->otherwise)
                    continue;
                fault *f = fault_add(d->list, FAULT_RULES_OUT_SHOWN, r->factors[k].at,
                                     "'%.*s' shows what this rule's 'when' asks for, and the rule "
                                     "speaks against it.",
                                     STR_ARG(b->causes[r->factors[k].cause].of.base));
                fault_note_at(d->list, f, s->shown_by[j].at, "where it is a sign");
                fault_help(d->list, f, "Take the cause out here, or there.");
            }
        }
}

static bool rests_on(const cond *c, uint32_t question)
{
    if ((c->kind == COND_ANSWER || c->kind == COND_RANGE) && c->subject == question) return true;
    for (uint32_t i = 0; i < c->count; i++)
        if (rests_on(c->parts[i], question)) return true;
    return false;
}

static bool cures_shown(const doubter *d, const fix *x, const cond *when)
{
    const links *of = &d->index->symptoms_of;
    for (uint32_t k = 0; k < x->cures_count; k++)
        for (uint32_t i = of->first[x->cures[k].cause]; i < of->first[x->cures[k].cause + 1]; i++) {
            const symptom *s = &d->book->symptoms[of->items[i]];
            if (s->when->kind == COND_ANSWER &&
                asks_answer(when, s->when->subject, s->when->answers) &&
                rate_of(s, x->cures[k].cause)->chance > 0.5)
                return true;
        }
    return false;
}

static void doubt_skips(const doubter *d, const rule *r)
{
    const book *b = d->book;
    for (uint32_t i = 0; i < r->skip_questions.count; i++) {
        const question *q = &b->questions[r->skip_questions.items[i]];
        if (!rests_on(r->when, r->skip_questions.items[i])) continue;
        fault *f = fault_add(d->list, FAULT_SKIPS_ITS_OWN, r->id.at,
                             "'%.*s' skips '%.*s', which it asks for itself.", STR_ARG(r->id.name),
                             STR_ARG(q->of.base));
        fault_help(d->list, f, "Skip what is not needed then, or change 'when'.");
    }
    for (uint32_t i = 0; i < r->skip_fixes.count; i++) {
        const fix *x = &b->fixes[r->skip_fixes.items[i]];
        if (!cures_shown(d, x, r->when)) continue;
        fault *f = fault_add(d->list, FAULT_SKIPS_ITS_OWN, r->id.at,
                             "'%.*s' skips '%.*s' just when what it cures is seen.",
                             STR_ARG(r->id.name), STR_ARG(x->of.base));
        fault_help(d->list, f, "Skip what does not apply then, or change 'when'.");
    }
}

static bool brings_on(const doubter *d, uint32_t from, uint32_t to, bool *seen)
{
    const ids *by = &d->book->causes[from].brought_on_by;
    for (uint32_t i = 0; i < by->count; i++) {
        const uint32_t next = by->items[i];
        if (next == to) return true;
        if (seen[next]) continue;
        seen[next] = true;
        if (brings_on(d, next, to, seen)) return true;
    }
    return false;
}

static void doubt_circle(const doubter *d, uint32_t cause)
{
    const book *b = d->book;
    if (b->causes[cause].brought_on_by.count == 0) return;
    const arena_mark before = arena_here(d->scratch);
    const bool round = brings_on(d, cause, cause, ARENA_ARRAY(d->scratch, bool, b->cause_count));
    arena_back_to(d->scratch, before);
    if (!round) return;
    fault *f = fault_add(d->list, FAULT_BROUGHT_ON_ROUND, b->causes[cause].id.at,
                         "By 'brought-on-by' '%.*s' brings on itself, by way of others.",
                         STR_ARG(b->causes[cause].of.base));
    fault_help(d->list, f, "Name only what was there first.");
}

/* ---- worked cases ---- */

static truth leaf_in_case(const void *of, const cond *leaf)
{
    const worked_case *w = of;
    for (uint32_t i = 0; i < w->reply_count; i++) {
        const reply *r = &w->replies[i];
        if (r->question != leaf->subject) continue;
        const bool known = r->kind == REPLY_ANSWER || r->kind == REPLY_READING;
        if (known && leaf->kind == COND_KNOWN) return IS_TRUE;
        if (r->kind == REPLY_ANSWER && leaf->kind == COND_ANSWER)
            return (leaf->answers >> r->answer & 1) != 0 ? IS_TRUE : IS_FALSE;
        if (r->kind == REPLY_READING && leaf->kind == COND_RANGE)
            return interval_holds(leaf, r->number, r->magnitude) ? IS_TRUE : IS_FALSE;
    }
    return IS_OPEN;
}

static void doubt_replies(const doubter *d, const worked_case *w, uint32_t role)
{
    const book *b = d->book;
    for (uint32_t i = 0; i < w->reply_count; i++) {
        const reply *r = &w->replies[i];
        const question *q = &b->questions[r->question];
        if (q->only_when != NULL && truth_of(d, q->only_when, leaf_in_case, w) == IS_FALSE) {
            fault *f = fault_add(d->list, FAULT_CASE_NOT_ASKED, r->at,
                                 "In this call '%.*s' is never asked, by its 'only-when'.",
                                 STR_ARG(q->of.base));
            fault_help(d->list, f, "Take the answer out, or mend what it waits for.");
        } else if (!book_may(b, role, q->role) && q->about == ABOUT_FAULT) {
            fault *f = fault_add(d->list, FAULT_CASE_ABOVE_ROLE, r->at,
                                 "'%.*s' may not answer '%.*s', which is for '%.*s'.",
                                 STR_ARG(b->roles[role].name), STR_ARG(q->of.base),
                                 STR_ARG(b->roles[q->role].name));
            fault_help(d->list, f, "Write 'as: %.*s' in this case.",
                       STR_ARG(b->roles[q->role].name));
        }
    }
}

static bool cures(const fix *x, uint32_t cause)
{
    for (uint32_t i = 0; i < x->cures_count; i++)
        if (x->cures[i].cause == cause) return true;
    return false;
}

static void doubt_expected(const doubter *d, const worked_case *w, uint32_t role)
{
    const book *b = d->book;
    if (w->first_fix != NO_ID) {
        const fix *x = &b->fixes[w->first_fix];
        const bool other = w->leading_cause < b->cause_count && !cures(x, w->leading_cause),
                   above = !book_may(b, role, x->role);
        if (other || above) {
            fault *f = fault_add(d->list, FAULT_CASE_OTHER_FIX, w->first_fix_at,
                                 other ? "'%.*s' does not cure the cause that this case expects."
                                       : "'%.*s' is not offered to whoever asks in this case.",
                                 STR_ARG(x->of.base));
            fault_help(d->list, f,
                       other ? "Name a fix that cures it, or list the cause under its 'cures'."
                             : "Write 'as: %.*s' in this case.",
                       STR_ARG(b->roles[x->role].name));
        }
    }
    for (uint32_t i = 0; i < w->never_offered.count; i++) {
        const fix *x = &b->fixes[w->never_offered.items[i]];
        if (book_may(b, role, x->role)) continue;
        fault *f = fault_add(d->list, FAULT_CASE_OTHER_FIX, w->never_offered_at,
                             "'%.*s' is never offered to '%.*s' anyhow, so this tries nothing.",
                             STR_ARG(x->of.base), STR_ARG(b->roles[role].name));
        fault_help(d->list, f, "Write 'as: %.*s' in this case.", STR_ARG(b->roles[x->role].name));
    }
}

void doubt_course(const doubter *d)
{
    const book *b = d->book;
    for (uint32_t i = 0; i < b->fix_count; i++) {
        doubt_after(d, &b->fixes[i]);
        doubt_waits(d, &b->fixes[i]);
        doubt_left_behind(d, &b->fixes[i]);
    }
    for (uint32_t i = 0; i < b->rule_count; i++) {
        doubt_factors(d, &b->rules[i]);
        doubt_skips(d, &b->rules[i]);
    }
    for (uint32_t i = 0; i < b->cause_count; i++) doubt_circle(d, i);
    for (uint32_t i = 0; i < b->case_count; i++) {
        const worked_case *w = &b->cases[i];
        const uint32_t role = w->role == NO_ID ? 0 : w->role;
        doubt_replies(d, w, role);
        doubt_expected(d, w, role);
    }
}
