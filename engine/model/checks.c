/* What only shows once every section is read: what conditions rest on in the end. */
#include <assert.h>
#include <stdlib.h>

#include "model/reader.h"

/* ---- two sorted lists of pairs: by which rules a conclusion is set, which symptoms list a cause ---- */

typedef struct pair {
    uint32_t key, value;
} pair;
typedef struct pairs {
    pair *items;
    uint32_t count;
} pairs;

static int by_pair(const void *a, const void *b)
{
    const pair *x = a, *y = b;
    if (x->key != y->key) return x->key < y->key ? -1 : 1;
    return (x->value > y->value) - (x->value < y->value);
}

static uint32_t pairs_from(const pairs *p, uint32_t key)
{
    uint32_t low = 0, high = p->count;
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        if (p->items[middle].key < key) low = middle + 1;
        else high = middle;
    }
    return low;
}

static pairs rules_by_conclusion(reader *r)
{
    const rulebook *b = r->book;
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->rule_count; i++) count += b->rules[i].set_count;
    pairs p = {ARENA_ARRAY(r->scratch, pair, count), 0};
    for (uint32_t i = 0; i < b->rule_count; i++)
        for (uint32_t k = 0; k < b->rules[i].set_count; k++) p.items[p.count++] = (pair){b->rules[i].sets[k].conclusion, i};
    if (p.count > 0) qsort(p.items, p.count, sizeof *p.items, by_pair);
    return p;
}

static pairs symptoms_by_cause(reader *r)
{
    const rulebook *b = r->book;
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->symptom_count; i++) count += b->symptoms[i].shown_by_count;
    pairs p = {ARENA_ARRAY(r->scratch, pair, count), 0};
    for (uint32_t i = 0; i < b->symptom_count; i++)
        for (uint32_t k = 0; k < b->symptoms[i].shown_by_count; k++) p.items[p.count++] = (pair){b->symptoms[i].shown_by[k].cause, i};
    if (p.count > 0) qsort(p.items, p.count, sizeof *p.items, by_pair);
    return p;
}

/* ---- what a condition rests on, through conclusions and the rules that set them ---- */

typedef struct descent {
    const reader *r;
    pairs setters;
    bool *entered; /* conclusions; each is entered once */
    bool for_sign; /* a sign of a fault is wanted; else `known` */
} descent;

static const cond *first_leaf(descent *d, const cond *c);

/* A conclusion that nothing sets, or a rule that could not be read, has been reported; it passes for a sign. */
static const cond *through_conclusion(descent *d, const cond *c)
{
    uint32_t first = pairs_from(&d->setters, c->subject);
    bool unset = first == d->setters.count || d->setters.items[first].key != c->subject;
    if (d->entered[c->subject]) return NULL;
    d->entered[c->subject] = true;
    if (unset) return d->for_sign ? c : NULL;
    for (uint32_t i = first; i < d->setters.count && d->setters.items[i].key == c->subject; i++) {
        const cond *when = d->r->book->rules[d->setters.items[i].value].when;
        const cond *found = when != NULL ? first_leaf(d, when) : d->for_sign ? c : NULL;
        if (found != NULL) return found;
    }
    return NULL;
}

static bool is_sign(const reader *r, const cond *leaf)
{
    return leaf->kind == COND_SYMPTOM || r->tables[SECTION_QUESTIONS].items[leaf->subject].broken
           || r->book->questions[leaf->subject].about == ABOUT_FAULT;
}

static const cond *first_leaf(descent *d, const cond *c)
{
    if (c->kind == COND_CONCLUSION) return through_conclusion(d, c);
    if (c->count == 0) return (d->for_sign ? is_sign(d->r, c) : c->kind == COND_KNOWN) ? c : NULL;
    for (uint32_t i = 0; i < c->count; i++) {
        const cond *found = first_leaf(d, c->parts[i]);
        if (found != NULL) return found;
    }
    return NULL;
}

static const cond *search(descent *d, const cond *c, bool for_sign)
{
    for (uint32_t i = 0; i < d->r->book->conclusion_count; i++) d->entered[i] = false;
    d->for_sign = for_sign;
    return first_leaf(d, c);
}

static void report_known(reader *r, const symptom *s, const cond *known)
{
    bool here = known->at.file == s->when->at.file && known->at.start >= s->when->at.start && known->at.end <= s->when->at.end;
    fault *f = fault_add(r->list, FAULT_KNOWN_IN_SYMPTOM, here ? known->at : s->when->at,
                         "The symptom '%.*s' rests on whether something is known; that is no sign of a fault.", STR_ARG(s->id.name));
    if (!here) fault_note_at(r->list, f, known->at, "A rule on which it rests asks that here.");
    fault_help(r->list, f, "Use 'known' in rules and 'only-when'; a symptom needs answers.");
}

static void report_facts_alone(reader *r, const symptom *s)
{
    fault *f = fault_add(r->list, FAULT_FACTS_ALONE, s->when->at, "The symptom '%.*s' rests on facts alone, and a fact is no sign of a fault.",
                         STR_ARG(s->id.name));
    fault_help(r->list, f, "Write a rule with 'likelier' for what the fact changes, or add an observation to 'when'.");
}

void check_symptom_conditions(reader *r)
{
    descent d = {.r = r, .setters = rules_by_conclusion(r), .entered = ARENA_ARRAY(r->scratch, bool, r->book->conclusion_count)};
    for (uint32_t i = 0; i < r->book->symptom_count; i++) {
        const symptom *s = &r->book->symptoms[i];
        if (s->when == NULL) continue;
        const cond *known = search(&d, s->when, false);
        if (known != NULL) report_known(r, s, known);
        else if (search(&d, s->when, true) == NULL) report_facts_alone(r, s);
    }
}

/* ---- counted twice ---- */

static void mark_questions(const cond *c, bool *marks)
{
    bool answer = c->kind == COND_ANSWER || c->kind == COND_RANGE;
    if (answer) marks[c->subject] = true;
    for (uint32_t i = 0; i < c->count; i++) mark_questions(c->parts[i], marks);
}

static bool asks_one_of(const cond *c, const bool *marks)
{
    if (c->kind == COND_ANSWER || c->kind == COND_RANGE) return marks[c->subject];
    for (uint32_t i = 0; i < c->count; i++)
        if (asks_one_of(c->parts[i], marks)) return true;
    return false;
}

static void check_factor(reader *r, const rule *one, const rule_factor *factor, const bool *marks, const pairs *listed)
{
    for (uint32_t i = pairs_from(listed, factor->cause); i < listed->count && listed->items[i].key == factor->cause; i++) {
        const symptom *s = &r->book->symptoms[listed->items[i].value];
        if (s->when == NULL || !asks_one_of(s->when, marks)) continue;
        fault *f = fault_add(r->list, FAULT_COUNTED_TWICE, factor->at,
                             "The rule '%.*s' weighs '%.*s' by a question whose symptom lists it already: it counts twice.",
                             STR_ARG(one->id.name), STR_ARG(r->book->causes[factor->cause].id.name));
        fault_note_at(r->list, f, s->id.at, "The symptom stands here.");
        fault_help(r->list, f, "Keep the symptom, and let the rule rest on facts only.");
        return;
    }
}

void check_counted_twice(reader *r)
{
    pairs listed = symptoms_by_cause(r);
    for (uint32_t i = 0; i < r->book->rule_count; i++) {
        const rule *one = &r->book->rules[i];
        if (one->when == NULL || one->factor_count == 0) continue;
        arena_mark here = arena_here(r->scratch);
        bool *marks = ARENA_ARRAY(r->scratch, bool, r->book->question_count);
        mark_questions(one->when, marks);
        for (uint32_t k = 0; k < one->factor_count; k++)
            if (one->factors[k].factor > 0) check_factor(r, one, &one->factors[k], marks, &listed);
        arena_back_to(r->scratch, here);
    }
}
