/* Chances of symptoms: causes that no answer tells apart, signs that tell nothing, or too much. */
#include <assert.h>
#include <math.h>

#include "base/sorted.h"
#include "doubt/doubt.h"

/* ---- twins: two causes with the same signs ---- */

typedef struct sign {         /* of a cause */
    uint32_t cause, kind, of; /* SYMPTOM or RULE, and which */
    double strength;          /* log-odds of the chance; log of a rule's factor */
} sign;

static int by_cause(const void *left, const void *right)
{
    const sign *a = left, *b = right;
    if (a->cause != b->cause) return THREE_WAY(a->cause, b->cause);
    return a->kind != b->kind ? THREE_WAY(a->kind, b->kind) : THREE_WAY(a->of, b->of);
}

static double log_odds(double chance)
{
    const double least = 1e-6, c = fmin(fmax(chance, least), 1 - least);
    return log(c / (1 - c));
}

static sign *all_signs(const doubter *d, uint32_t *count)
{
    const book *b = d->book;
    uint32_t most = 0, n = 0;
    for (uint32_t i = 0; i < b->symptom_count; i++) most += b->symptoms[i].shown_by_count;
    for (uint32_t i = 0; i < b->rule_count; i++) most += b->rules[i].factor_count;
    sign *all = ARENA_ARRAY(d->scratch, sign, most);
    for (uint32_t i = 0; i < b->symptom_count; i++)
        for (uint32_t k = 0; k < b->symptoms[i].shown_by_count; k++) {
            const rate *r = &b->symptoms[i].shown_by[k];
            all[n++] = (sign){r->cause, 0, i, log_odds(r->chance)};
        }
    for (uint32_t i = 0; i < b->rule_count; i++)
        for (uint32_t k = 0; k < b->rules[i].factor_count; k++) {
            const rule_factor *f = &b->rules[i].factors[k];
            all[n++] = (sign){f->cause, 1, i, log(fmax(f->factor, 1e-9))};
        }
    SORT(all, n, by_cause);
    *count = n;
    return all;
}

typedef struct signs {
    const sign *items;
    uint32_t count;
} signs;

static bool are_alike(const signs *a, const signs *b)
{
    assert(a != b);
    const double next_to_nothing =
        0.1; /* nats, over all signs; the nearest honest pair known is at 2.3 */
    double apart = 0;
    if (a->count != b->count || a->count == 0) return false;
    for (uint32_t i = 0; i < a->count; i++) {
        if (a->items[i].kind != b->items[i].kind || a->items[i].of != b->items[i].of) return false;
        apart += fabs(a->items[i].strength - b->items[i].strength);
    }
    return apart < next_to_nothing;
}

/* A question that is asked for others already, is cheap, and says nothing of either. */
static uint32_t question_to_part(const doubter *d, uint32_t one, uint32_t other)
{
    assert(one < d->book->cause_count && other < d->book->cause_count);
    const book *b = d->book;
    const links *of = &d->index->symptoms_of;
    const arena_mark before = arena_here(d->scratch);
    bool *lists = ARENA_ARRAY(d->scratch, bool, b->symptom_count);
    uint32_t best = NO_ID;
    for (uint32_t i = of->first[one]; i < of->first[one + 1]; i++) lists[of->items[i]] = true;
    for (uint32_t i = of->first[other]; i < of->first[other + 1]; i++) lists[of->items[i]] = true;
    for (uint32_t i = 0; i < b->symptom_count; i++) {
        const symptom *s = &b->symptoms[i];
        if (!s->rests_on_one || lists[i]) continue;
        if (best == NO_ID || b->questions[s->one_question].minutes < b->questions[best].minutes)
            best = s->one_question;
    }
    arena_back_to(d->scratch, before);
    return best;
}

static void tell_twins(const doubter *d, uint32_t one, uint32_t other)
{
    assert(one != other && other < d->book->cause_count);
    const cause *a = &d->book->causes[one], *b = &d->book->causes[other];
    fault *f =
        fault_add(d->list, FAULT_TWIN_CAUSES, b->id.at,
                  "No answer tells '%.*s' from '%.*s': the same symptoms list both, as often.",
                  STR_ARG(b->of.base), STR_ARG(a->of.base));
    fault_note_at(d->list, f, a->id.at, "the other one");
    if (!fault_wants_help(d->list, f)) return;
    const uint32_t question = question_to_part(d, one, other);
    if (question != NO_ID)
        fault_help(d->list, f,
                   "Write what one of them shows and the other doesn't. '%.*s' says nothing of "
                   "either so far: does it look the same for both?",
                   STR_ARG(d->book->questions[question].of.base));
    else
        fault_help(d->list, f, "Write a question whose answer differs, or make one cause of them.");
}

/* A cause beside those with signs of the same kinds, of which some may be as strong. */
typedef struct twin {
    signs has;
    uint32_t cause;
} twin;

static int by_kinds_of_signs(const signs *a, const signs *b)
{
    if (a->count != b->count) return THREE_WAY(a->count, b->count);
    for (uint32_t i = 0; i < a->count; i++) {
        const sign *x = &a->items[i], *y = &b->items[i];
        if (x->kind != y->kind) return THREE_WAY(x->kind, y->kind);
        if (x->of != y->of) return THREE_WAY(x->of, y->of);
    }
    return 0;
}

static int by_signs(const void *left, const void *right)
{
    const twin *a = left, *b = right;
    const int order = by_kinds_of_signs(&a->has, &b->has);
    return order != 0 ? order : THREE_WAY(a->cause, b->cause);
}

static bool as_strong(const signs *a, const signs *b)
{
    for (uint32_t i = 0; i < a->count; i++)
        if (a->items[i].strength != b->items[i].strength) return false;
    return true;
}

/* Those without conditions, with what is written once for several pieces once: it stands together,
 * and what is said of one is said of the others, where their signs are as strong. */
static twin *possible_twins(const doubter *d, uint32_t *count)
{
    const book *b = d->book;
    uint32_t sign_count = 0, n = 0;
    const sign *all = all_signs(d, &sign_count);
    twin *found = ARENA_ARRAY(d->scratch, twin, b->cause_count);
    for (uint32_t i = 0; i < sign_count; i++) {
        const bool first = n == 0 || found[n - 1].cause != all[i].cause;
        if (first) found[n++] = (twin){{&all[i], 0}, all[i].cause};
        found[n - 1].has.count++;
    }
    SORT(found, n, by_signs);
    *count = 0;
    for (uint32_t i = 0; i < n; i++) {
        const cause *c = &b->causes[found[i].cause];
        const twin *last = *count == 0 ? NULL : &found[*count - 1];
        const bool again = last != NULL && same_written(&b->causes[last->cause].id, &c->id) &&
                           by_kinds_of_signs(&last->has, &found[i].has) == 0 &&
                           as_strong(&last->has, &found[i].has);
        if (c->only_when == NULL && !again) found[(*count)++] = found[i];
    }
    return found;
}

static void doubt_twins(const doubter *d)
{
    const book *b = d->book;
    uint32_t count, first = 0;
    const twin *all = possible_twins(d, &count);
    for (uint32_t i = 0; i < count; i++) {
        uint32_t told = 0;
        if (by_kinds_of_signs(&all[first].has, &all[i].has) != 0) first = i;
        for (uint32_t k = first; k < i && told < FAULT_NOTES_MAX; k++) {
            if (!are_alike(&all[i].has, &all[k].has) ||
                same_written(&b->causes[all[i].cause].id, &b->causes[all[k].cause].id))
                continue;
            tell_twins(d, all[k].cause, all[i].cause);
            told++;
        }
    }
}

/* ---- signs that tell nothing, or too much ---- */

static bool share_question(const doubter *d, const cond *a, const cond *b, uint32_t question)
{
    for (uint32_t i = 0; i < a->count; i++)
        if (share_question(d, a->parts[i], b, question)) return true;
    const bool leaf = a->kind == COND_ANSWER || a->kind == COND_RANGE;
    if (!leaf) return false;
    if (question == NO_ID) return share_question(d, b, a, a->subject); /* does b ask it? */
    return a->subject == question;
}

/* "Never", of a cause that the same question shows otherwise, is meant so. */
static bool speaks_against(const doubter *d, const symptom *s, const rate *r)
{
    assert(r->cause < d->book->cause_count);
    enum { SIGNS_MAX = 1000 }; /* of one cause; what is beyond may speak for it */
    const book *b = d->book;
    const links *of = &d->index->symptoms_of;
    if (r->chance > s->otherwise / 2 && r->chance > b->word_chance[0] * 1.0001) return false;
    for (uint32_t i = of->first[r->cause]; i < of->first[r->cause + 1]; i++) {
        const symptom *other = &b->symptoms[of->items[i]];
        if (i - of->first[r->cause] == SIGNS_MAX) return true;
        if (rate_of(other, r->cause)->chance > 2 * other->otherwise &&
            share_question(d, s->when, other->when, NO_ID))
            return true;
    }
    return false;
}

static void doubt_rate(const doubter *d, const symptom *s, const rate *r)
{
    const cause *c = &d->book->causes[r->cause];
    const double percent = 100 * r->chance, others = 100 * s->otherwise;
    assert(!s->from_confirms);
    if (r->chance >= 0.9999 || r->chance <= 0.0001) {
        fault *f = fault_add(
            d->list, FAULT_CERTAIN_SIGN, r->at,
            "%.4g %% leaves no room for a slip: one wrong answer here %s '%.*s' for good.", percent,
            r->chance > 0.5 ? "rules out" : "decides against", STR_ARG(c->of.base));
        fault_help(d->list, f,
                   "Write 'almost always' or 'rarely', or 'confirms' in the question if it settles "
                   "the matter.");
    } else if (r->chance <= s->otherwise * 1.0001 && !speaks_against(d, s, r)) {
        fault *f = fault_add(d->list, FAULT_NO_SIGN, r->at,
                             "'%.*s' shows this no more often (%.3g %%) than other faults do (%.3g "
                             "%%), so it is no sign of it.",
                             STR_ARG(c->of.base), percent, others);
        fault_help(d->list, f,
                   "Write a higher chance, lower 'otherwise', or take the cause out; what speaks "
                   "against a cause needs no entry.");
    }
}

/* The most that any of its signs can raise the odds of a cause. */
static void doubt_strength(const doubter *d, uint32_t cause, const double *most)
{
    assert(cause < d->book->cause_count);
    const struct cause *c = &d->book->causes[cause];
    const double little = log(2);
    if (most[cause] <= 0 || most[cause] >= little) return;
    fault *f = fault_add(
        d->list, FAULT_WEAK_SIGNS, c->id.at,
        "No answer speaks for '%.*s' more than %.2g to 1, so it can hardly come to the top.",
        STR_ARG(c->of.base), exp(most[cause]));
    fault_help(d->list, f, "Write a sign that this cause shows often and others rarely.");
}

void doubt_signs(const doubter *d)
{
    const book *b = d->book;
    double *most = ARENA_ARRAY(d->scratch, double, b->cause_count);
    for (uint32_t i = 0; i < b->symptom_count; i++) {
        const symptom *s = &b->symptoms[i];
        for (uint32_t k = 0; k < s->shown_by_count; k++) {
            const rate *r = &s->shown_by[k];
            const double tells = log(fmax(r->chance, 1e-6) / fmax(s->otherwise, 1e-6)),
                         silent = log(fmax(1 - r->chance, 1e-6) / fmax(1 - s->otherwise, 1e-6));
            most[r->cause] = fmax(most[r->cause], fmax(tells, silent));
            if (!s->from_confirms) doubt_rate(d, s, r);
        }
    }
    for (uint32_t i = 0; i < b->cause_count; i++) doubt_strength(d, i, most);
    doubt_twins(d);
}
