/* What only shows once every section is read: what conditions rest on in the end. */
#include <assert.h>

#include "base/sorted.h"
#include "read/reader.h"

/* ---- sorted pairs: which rules use a conclusion, which symptoms list a cause ---- */

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
        if (p->items[middle].key < key)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Symptoms come one after the other, and those of one cause stay so: how many each cause has says
 * where those of the next begin. */
static pairs by_cause(reader *r, const pairs *found)
{
    const uint32_t causes = r->book->cause_count;
    uint32_t *next = ARENA_ARRAY(r->scratch, uint32_t, (size_t)causes + 1);
    pair *sorted = arena_take_unset(r->scratch, found->count * sizeof *sorted);
    for (uint32_t i = 0; i < found->count; i++) {
        assert(found->items[i].key < causes);
        next[found->items[i].key + 1]++;
    }
    for (uint32_t c = 1; c < causes; c++) next[c] += next[c - 1];
    for (uint32_t i = 0; i < found->count; i++)
        sorted[next[found->items[i].key]++] = found->items[i];
    return (pairs){sorted, found->count};
}

static pairs symptoms_by_cause(reader *r)
{
    const book *b = r->book;
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->symptom_count; i++) count += b->symptoms[i].shown_by_count;
    pairs p = {ARENA_ARRAY(r->scratch, pair, count), 0};
    for (uint32_t i = 0; i < b->symptom_count; i++)
        for (uint32_t k = 0; k < b->symptoms[i].shown_by_count; k++)
            p.items[p.count++] = (pair){b->symptoms[i].shown_by[k].cause, i};
    return by_cause(r, &p);
}

/* ---- what conclusions rest on, through the rules that set them ---- */

static const cond unread; /* stands for what has been reported already: a conclusion that nothing
                             sets, a rule without `when` */

/* For each conclusion a condition on `known` beneath it, and one on a sign of a fault; null if
 * there is none. */
typedef struct basis {
    const reader *r;
    const cond **known, **sign;
    pairs users; /* conclusion → rules whose `when` names it */
    uint32_t *queue, queued;
    bool for_sign;
} basis;

static bool is_sign(const reader *r, const cond *leaf)
{
    return leaf->kind == COND_SYMPTOM ||
           (leaf->subject < r->book->named_questions &&
            r->tables[SECTION_QUESTIONS].items[leaf->subject].broken) ||
           r->book->questions[leaf->subject].about == ABOUT_FAULT;
}

static const cond *first_leaf(const basis *b, const cond *c)
{
    if (c->kind == COND_CONCLUSION) return (b->for_sign ? b->sign : b->known)[c->subject];
    if (c->kind < COND_ALL)
        return (b->for_sign ? is_sign(b->r, c) : c->kind == COND_KNOWN) ? c : NULL;
    for (uint32_t i = 0; i < c->count; i++) {
        const cond *found = first_leaf(b, c->parts[i]);
        if (found != NULL) return found;
    }
    return NULL;
}

static void found_beneath(basis *b, const rule *one, const cond *leaf)
{
    const cond **of = b->for_sign ? b->sign : b->known;
    for (uint32_t i = 0; leaf != NULL && i < one->set_count; i++) {
        uint32_t id = one->sets[i].conclusion;
        if (of[id] != NULL) continue;
        of[id] = leaf;
        b->queue[b->queued++] = id;
    }
}

/* Every conclusion enters the queue at most once, so a long chain of rules costs no more than its
 * length. */
static void settle(basis *b, bool for_sign)
{
    const book *all = b->r->book;
    b->for_sign = for_sign;
    for (uint32_t i = 0; i < all->rule_count; i++) {
        const rule *one = &all->rules[i];
        found_beneath(b, one,
                      one->when != NULL ? first_leaf(b, one->when)
                      : for_sign        ? &unread
                                        : NULL);
    }
    for (uint32_t next = 0; next < b->queued; next++) {
        uint32_t id = b->queue[next];
        for (uint32_t i = pairs_from(&b->users, id);
             i < b->users.count && b->users.items[i].key == id; i++)
            found_beneath(b, &all->rules[b->users.items[i].value],
                          (for_sign ? b->sign : b->known)[id]);
    }
    assert(b->queued <= all->conclusion_count);
    b->queued = 0;
}

static uint32_t conclusions_in(const cond *c, uint32_t of_rule, pairs *out)
{
    uint32_t count = c->kind == COND_CONCLUSION ? 1 : 0;
    if (count > 0 && out != NULL) out->items[out->count++] = (pair){c->subject, of_rule};
    for (uint32_t i = 0; i < c->count; i++) count += conclusions_in(c->parts[i], of_rule, out);
    return count;
}

static pairs users_of_conclusions(reader *r)
{
    const book *b = r->book;
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->rule_count; i++)
        count += b->rules[i].when == NULL ? 0 : conclusions_in(b->rules[i].when, i, NULL);
    pairs p = {ARENA_ARRAY(r->scratch, pair, count), 0};
    for (uint32_t i = 0; i < b->rule_count; i++)
        if (b->rules[i].when != NULL) conclusions_in(b->rules[i].when, i, &p);
    SORT(p.items, p.count, by_pair);
    return p;
}

static basis basis_of(reader *r)
{
    const book *all = r->book;
    uint32_t count = all->conclusion_count;
    basis b = {.r = r, .users = users_of_conclusions(r)};
    b.known = ARENA_ARRAY(r->scratch, const cond *, count);
    b.sign = ARENA_ARRAY(r->scratch, const cond *, count);
    b.queue = ARENA_ARRAY(r->scratch, uint32_t, count);
    bool *set = ARENA_ARRAY(r->scratch, bool, count);
    for (uint32_t i = 0; i < all->rule_count; i++)
        for (uint32_t k = 0; k < all->rules[i].set_count; k++)
            set[all->rules[i].sets[k].conclusion] = true;
    settle(&b, false);
    for (uint32_t i = 0; i < count; i++) {
        if (set[i]) continue;
        b.sign[i] = &unread;
        b.queue[b.queued++] = i;
    }
    settle(&b, true);
    return b;
}

/* ---- symptoms ---- */

static void report_known(reader *r, const symptom *s, const cond *known)
{
    assert(s->when != NULL && known != NULL);
    bool here = known->at.file == s->when->at.file && known->at.start >= s->when->at.start &&
                known->at.end <= s->when->at.end;
    fault *f = fault_add(
        r->list, FAULT_KNOWN_IN_SYMPTOM, here ? known->at : s->when->at,
        "The symptom '%.*s' rests on whether something is known; that is no sign of a fault.",
        STR_ARG(s->id.name));
    if (!here) fault_note_at(r->list, f, known->at, "A rule on which it rests asks that here.");
    fault_help(r->list, f, "Use 'known' in rules and 'only-when'; a symptom needs answers.");
}

static void report_facts_alone(reader *r, const symptom *s)
{
    fault *f =
        fault_add(r->list, FAULT_FACTS_ALONE, s->when->at,
                  "The symptom '%.*s' rests on facts alone, and a fact is no sign of a fault.",
                  STR_ARG(s->id.name));
    fault_help(
        r->list, f,
        "Write a rule with 'likelier' for what the fact changes, or add an observation to 'when'.");
}

void check_symptom_conditions(reader *r)
{
    basis b = basis_of(r);
    for (uint32_t i = 0; i < r->book->symptom_count; i++) {
        const symptom *s = &r->book->symptoms[i];
        if (s->when == NULL) continue;
        b.for_sign = false;
        const cond *known = first_leaf(&b, s->when);
        b.for_sign = true;
        if (known != NULL)
            report_known(r, s, known);
        else if (first_leaf(&b, s->when) == NULL)
            report_facts_alone(r, s);
    }
}

/* ---- counted twice ---- */

static void mark_questions(const cond *c, bool *marks, bool as)
{
    assert(c != NULL && marks != NULL);
    bool answer = c->kind == COND_ANSWER || c->kind == COND_RANGE;
    if (answer) marks[c->subject] = as;
    for (uint32_t i = 0; i < c->count; i++) mark_questions(c->parts[i], marks, as);
}

static bool asks_one_of(const cond *c, const bool *marks)
{
    if (c->kind == COND_ANSWER || c->kind == COND_RANGE) return marks[c->subject];
    for (uint32_t i = 0; i < c->count; i++)
        if (asks_one_of(c->parts[i], marks)) return true;
    return false;
}

static void check_factor(reader *r, const rule *one, const rule_factor *factor, const bool *marks,
                         const pairs *listed)
{
    for (uint32_t i = pairs_from(listed, factor->cause);
         i < listed->count && listed->items[i].key == factor->cause; i++) {
        const symptom *s = &r->book->symptoms[listed->items[i].value];
        if (s->when == NULL || !asks_one_of(s->when, marks)) continue;
        fault *f =
            fault_add(r->list, FAULT_COUNTED_TWICE, factor->at,
                      "The rule '%.*s' weighs '%.*s' by a question whose symptom lists it already: "
                      "it counts twice.",
                      STR_ARG(one->id.name), STR_ARG(r->book->causes[factor->cause].id.name));
        fault_note_at(r->list, f, s->id.at, "The symptom stands here.");
        fault_help(r->list, f, "Keep the symptom, and let the rule rest on facts only.");
        return;
    }
}

void check_counted_twice(reader *r)
{
    pairs listed = symptoms_by_cause(r);
    bool *marks = ARENA_ARRAY(r->scratch, bool, r->book->question_count);
    for (uint32_t i = 0; i < r->book->rule_count; i++) {
        const rule *one = &r->book->rules[i];
        if (one->when == NULL || one->factor_count == 0) continue;
        mark_questions(one->when, marks, true);
        for (uint32_t k = 0; k < one->factor_count; k++)
            if (one->factors[k].factor > 0) check_factor(r, one, &one->factors[k], marks, &listed);
        mark_questions(one->when, marks, false);
    }
}

/* ---- judged twice ---- */

/* Which readings a symptom's condition judges: by fixed limits, or through quantities. */
static void mark_judged(const book *b, const cond *c, bool *fixed, bool *through)
{
    if (c->kind == COND_RANGE) {
        const question *q = &b->questions[c->subject];
        if (q->kind != QUESTION_QUANTITY) fixed[c->subject] = true;
        for (uint32_t i = 0; i < q->beneath.count; i++)
            if (b->questions[q->beneath.items[i]].about == ABOUT_FAULT)
                through[q->beneath.items[i]] = true;
    }
    for (uint32_t i = 0; i < c->count; i++) mark_judged(b, c->parts[i], fixed, through);
}

static void report_judged(reader *r, uint32_t cause, uint32_t question)
{
    const book *b = r->book;
    fault *f =
        fault_add(r->list, FAULT_JUDGED_TWICE, b->causes[cause].id.at,
                  "'%.*s' is judged both by a fixed limit and by what it is reckoned into, for the "
                  "cause '%.*s': "
                  "it counts twice.",
                  STR_ARG(b->questions[question].id.name), STR_ARG(b->causes[cause].id.name));
    fault_note_at(r->list, f, b->questions[question].id.at, "The question stands here.");
    fault_help(r->list, f, "Keep one of the two in the 'shown-by' of that cause.");
}

void check_judged_twice(reader *r)
{
    const book *b = r->book;
    if (b->reckon_count == 0) return;
    pairs listed = symptoms_by_cause(r);
    for (uint32_t i = 0; i < listed.count;) {
        arena_mark here = arena_here(r->scratch);
        bool *fixed = ARENA_ARRAY(r->scratch, bool, b->question_count);
        bool *through = ARENA_ARRAY(r->scratch, bool, b->question_count);
        uint32_t cause = listed.items[i].key;
        for (; i < listed.count && listed.items[i].key == cause; i++) {
            const cond *when = b->symptoms[listed.items[i].value].when;
            if (when != NULL) mark_judged(b, when, fixed, through);
        }
        for (uint32_t q = 0; q < b->question_count; q++)
            if (fixed[q] && through[q]) report_judged(r, cause, q);
        arena_back_to(r->scratch, here);
    }
}
