/* What only shows once every section is read: what conditions rest on in the end. */
#include <assert.h>

#include "model/reader.h"

typedef bool (*leaf_test)(const reader *r, const cond *leaf);

typedef struct descent { /* through conclusions, by the rules that set them; each is entered once */
    const reader *r;
    leaf_test wanted;
    bool *entered;
} descent;

static const cond *first_leaf(descent *d, const cond *c);

static bool rule_sets(const rule *one, uint32_t id)
{
    for (uint32_t i = 0; i < one->set_count; i++)
        if (one->sets[i].conclusion == id) return true;
    return false;
}

static const cond *through_conclusion(descent *d, uint32_t id)
{
    if (d->entered[id]) return NULL;
    d->entered[id] = true;
    const rulebook *b = d->r->book;
    for (uint32_t i = 0; i < b->rule_count; i++) {
        if (b->rules[i].when == NULL || !rule_sets(&b->rules[i], id)) continue;
        const cond *found = first_leaf(d, b->rules[i].when);
        if (found != NULL) return found;
    }
    return NULL;
}

static const cond *first_leaf(descent *d, const cond *c)
{
    if (c->kind == COND_CONCLUSION) return through_conclusion(d, c->subject);
    if (c->count == 0) return d->wanted(d->r, c) ? c : NULL;
    for (uint32_t i = 0; i < c->count; i++) {
        const cond *found = first_leaf(d, c->parts[i]);
        if (found != NULL) return found;
    }
    return NULL;
}

static const cond *search(const reader *r, const cond *c, leaf_test wanted)
{
    descent d = {r, wanted, ARENA_ARRAY(r->scratch, bool, r->book->conclusion_count)};
    return first_leaf(&d, c);
}

/* ---- symptoms ---- */

static bool is_known(const reader *r, const cond *leaf)
{
    (void)r;
    return leaf->kind == COND_KNOWN;
}

static bool is_sign(const reader *r, const cond *leaf)
{
    return leaf->kind == COND_SYMPTOM || r->tables[SECTION_QUESTIONS].items[leaf->subject].broken
           || r->book->questions[leaf->subject].about == ABOUT_FAULT;
}

static bool rests_on_unset(const reader *r, const cond *c)
{
    if (c->kind == COND_CONCLUSION) {
        for (uint32_t i = 0; i < r->book->rule_count; i++)
            if (rule_sets(&r->book->rules[i], c->subject)) return false;
        return true;
    }
    for (uint32_t i = 0; i < c->count; i++)
        if (rests_on_unset(r, c->parts[i])) return true;
    return false;
}

static void check_known(reader *r, const symptom *s)
{
    const cond *known = search(r, s->when, is_known);
    if (known == NULL) return;
    bool here = known->at.file == s->when->at.file && known->at.start >= s->when->at.start && known->at.end <= s->when->at.end;
    fault *f = fault_add(r->list, FAULT_KNOWN_IN_SYMPTOM, here ? known->at : s->when->at,
                         "The symptom '%.*s' rests on whether something is known; that is no sign of a fault.", STR_ARG(s->id.name));
    if (!here) fault_note_at(r->list, f, known->at, "It reaches it through a rule that asks it here.");
    fault_help(r->list, f, "Use 'known' in rules and 'only-when'; a symptom needs answers.");
}

static void check_facts_alone(reader *r, const symptom *s)
{
    if (search(r, s->when, is_sign) != NULL || rests_on_unset(r, s->when)) return;
    fault *f = fault_add(r->list, FAULT_FACTS_ALONE, s->when->at, "The symptom '%.*s' rests on facts alone, and a fact is no sign of a fault.",
                         STR_ARG(s->id.name));
    fault_help(r->list, f, "Write a rule with 'likelier' for what the fact changes, or add an observation to 'when'.");
}

void check_symptom_conditions(reader *r)
{
    for (uint32_t i = 0; i < r->book->symptom_count; i++) {
        const symptom *s = &r->book->symptoms[i];
        if (s->when == NULL) continue;
        uint32_t before = faults_errors(r->list);
        check_known(r, s);
        if (faults_errors(r->list) == before) check_facts_alone(r, s);
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

static bool lists(const symptom *s, uint32_t id)
{
    for (uint32_t i = 0; i < s->shown_by_count; i++)
        if (s->shown_by[i].cause == id) return true;
    return false;
}

static void check_factor(reader *r, const rule *one, const rule_factor *factor, const bool *marks)
{
    for (uint32_t i = 0; i < r->book->symptom_count; i++) {
        const symptom *s = &r->book->symptoms[i];
        if (s->when == NULL || !lists(s, factor->cause) || !asks_one_of(s->when, marks)) continue;
        fault *f = fault_add(r->list, FAULT_COUNTED_TWICE, factor->at, "The rule '%.*s' weighs '%.*s' by a question whose symptom lists it already: it counts twice.",
                             STR_ARG(one->id.name), STR_ARG(r->book->causes[factor->cause].id.name));
        fault_note_at(r->list, f, s->id.at, "The symptom stands here.");
        fault_help(r->list, f, "Keep the symptom, and let the rule rest on facts only.");
        return;
    }
}

void check_counted_twice(reader *r)
{
    for (uint32_t i = 0; i < r->book->rule_count; i++) {
        const rule *one = &r->book->rules[i];
        if (one->when == NULL || one->factor_count == 0) continue;
        bool *marks = ARENA_ARRAY(r->scratch, bool, r->book->question_count);
        mark_questions(one->when, marks);
        for (uint32_t k = 0; k < one->factor_count; k++)
            if (one->factors[k].factor > 0) check_factor(r, one, &one->factors[k], marks);
    }
}
