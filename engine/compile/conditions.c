/* Conditions of the book as conditions over findings and atoms, or over findings alone. */
#include <assert.h>

#include "compile/program_parts.h"

static void each_part(const cond *c, void (*visit)(void *, const cond *), void *context)
{
    if (c == NULL) return;
    visit(context, c);
    for (uint32_t i = 0; i < c->count; i++) each_part(c->parts[i], visit, context);
}

void program_each_condition(const book *b, void (*visit)(void *, const cond *), void *context)
{
    for (uint32_t i = 0; i < b->question_count; i++)
        each_part(b->questions[i].only_when, visit, context);
    for (uint32_t i = 0; i < b->symptom_count; i++) each_part(b->symptoms[i].when, visit, context);
    for (uint32_t i = 0; i < b->fix_count; i++) each_part(b->fixes[i].only_when, visit, context);
    for (uint32_t i = 0; i < b->cause_count; i++) each_part(b->causes[i].only_when, visit, context);
    for (uint32_t i = 0; i < b->rule_count; i++) each_part(b->rules[i].when, visit, context);
}

/* What is being followed, up to where the walk began: a symptom or conclusion that rests on itself,
 * and on nothing else, never holds. */
typedef struct ancestor {
    const cond *followed;
    const struct ancestor *above;
} ancestor;

/* What a symptom or conclusion was expanded to, and how many parts that took. */
typedef struct expansion {
    const expr *to;
    uint64_t answers;
    uint32_t parts;
    const struct expansion *next; /* of the same one, for other answers */
} expansion;

struct expander {
    arena *keep;
    const program *p;
    const uint32_t *first, *rules; /* [conclusion + 1] in rules: those that set it */
    const expansion **symptoms, **conclusions;
    uint32_t kept, cut; /* kept: expansions; cut: where one was not followed to its end */
};

/* One walk serves both readings of a condition: with atoms, or expanded to the findings beneath
 * them. */
typedef struct reading {
    arena *keep;
    const program *p;
    expander *expand; /* null: with atoms */
    uint32_t *left;   /* parts that may still be made */
    const ancestor *above;
} reading;

static bool same_proposition(const cond *a, const cond *b)
{
    return a->kind == b->kind && a->subject == b->subject &&
           (a->kind == COND_SYMPTOM || a->answers == b->answers);
}

static bool is_followed(const reading *r, const cond *c)
{
    for (const ancestor *a = r->above; a != NULL; a = a->above)
        if (same_proposition(a->followed, c)) return true;
    return false;
}

static const expr *read_condition(const reading *r, const cond *c);

static const expr *any_of(const reading *r, const expr **parts, uint32_t count, span at)
{
    return count == 1 ? parts[0] : expr_many(r->keep, EXPR_ANY, parts, count, at);
}

static bool sets(const struct rule *rule, const cond *c)
{
    for (uint32_t k = 0; k < rule->set_count; k++)
        if (rule->sets[k].conclusion == c->subject &&
            ((c->answers >> rule->sets[k].answer) & 1) != 0)
            return true;
    return false;
}

/* A conclusion has a value if some rule that sets it holds. */
static const expr *conclusion_beneath(const reading *r, const cond *c)
{
    assert(c->subject < r->p->book->conclusion_count);
    const uint32_t first = r->expand->first[c->subject], end = r->expand->first[c->subject + 1];
    const expr **parts = ARENA_ARRAY(r->keep, const expr *, end - first);
    uint32_t count = 0;
    for (uint32_t i = first; i < end; i++) {
        const struct rule *rule = &r->p->book->rules[r->expand->rules[i]];
        if (sets(rule, c)) parts[count++] = read_condition(r, rule->when);
    }
    return any_of(r, parts, count, c->at);
}

static const expr *conclusion_atoms(const reading *r, const cond *c)
{
    assert(c->subject < r->p->book->conclusion_count);
    uint32_t count = 0, answers = r->p->book->conclusions[c->subject].answer_count;
    const expr **parts = ARENA_ARRAY(r->keep, const expr *, answers);
    for (uint32_t i = 0; i < answers; i++)
        if (((c->answers >> i) & 1) != 0)
            parts[count++] = expr_atom(r->keep, r->p->conclusion_atom[c->subject][i], c->at);
    return any_of(r, parts, count, c->at);
}

static const expr **read_parts(const reading *r, const cond *c)
{
    const expr **parts = ARENA_ARRAY(r->keep, const expr *, c->count);
    for (uint32_t i = 0; i < c->count; i++) parts[i] = read_condition(r, c->parts[i]);
    return parts;
}

static const expr *read_symptom(const reading *r, const cond *c)
{
    assert(c->subject < r->p->book->symptom_count);
    if (r->expand != NULL) return read_condition(r, r->p->book->symptoms[c->subject].when);
    return expr_atom(r->keep, r->p->symptom_atom[c->subject], c->at);
}

static const expr *nothing_more(const reading *r, const cond *c)
{
    if (r->expand != NULL) r->expand->cut++;
    return expr_many(r->keep, EXPR_ANY, NULL, 0, c->at);
}

static const expansion **expansions_of(const reading *r, const cond *c)
{
    return c->kind == COND_SYMPTOM ? &r->expand->symptoms[c->subject]
                                   : &r->expand->conclusions[c->subject];
}

static const expansion *expansion_of(const reading *r, const cond *c)
{
    const expansion *x = *expansions_of(r, c);
    while (x != NULL && c->kind == COND_CONCLUSION && x->answers != c->answers) x = x->next;
    return x;
}

/* What was followed to its end comes to the same wherever it stands: had it met what is above
 * here, it would have met itself beneath that. */
static void keep_expansion(const reading *r, const cond *c, const expr *to, uint32_t parts)
{
    expansion *x = ARENA_NEW(r->keep, expansion);
    const expansion **all = expansions_of(r, c);
    *x = (expansion){to, c->answers, parts, *all};
    *all = x;
    r->expand->kept++;
}

static const expr *expanded_anew(const reading *r, const cond *c)
{
    const ancestor here = {c, r->above};
    reading below = *r;
    below.above = &here;
    return c->kind == COND_SYMPTOM ? read_symptom(&below, c) : conclusion_beneath(&below, c);
}

static const expr *followed(const reading *r, const cond *c)
{
    if (is_followed(r, c)) return nothing_more(r, c);
    const expansion *known = expansion_of(r, c);
    if (known != NULL && known->parts >= *r->left) {
        *r->left = 0;
        return nothing_more(r, c);
    }
    if (known != NULL) {
        *r->left -= known->parts;
        return known->to;
    }
    const uint32_t left = *r->left, cut = r->expand->cut;
    const expr *to = expanded_anew(r, c);
    if (r->expand->cut == cut) keep_expansion(r, c, to, left - *r->left);
    return to;
}

static const expr *read_condition(const reading *r, const cond *c)
{
    if (*r->left == 0) return nothing_more(r, c);
    (*r->left)--;
    assert(c->kind != COND_NOT || c->count == 1);
    if (r->expand != NULL && (c->kind == COND_SYMPTOM || c->kind == COND_CONCLUSION))
        return followed(r, c);
    switch (c->kind) {
    case COND_ANSWER:
        return expr_is(r->keep, c->subject, c->answers, c->at);
    case COND_RANGE:
        return expr_is(r->keep, c->subject, program_range_mask(r->p, c), c->at);
    case COND_KNOWN:
        return expr_known(r->keep, c->subject, c->at);
    case COND_SYMPTOM:
        return read_symptom(r, c);
    case COND_CONCLUSION:
        return conclusion_atoms(r, c);
    case COND_ALL:
        return expr_of_kept(r->keep, EXPR_ALL, 0, read_parts(r, c), c->count, c->at);
    case COND_ANY:
        return expr_of_kept(r->keep, EXPR_ANY, 0, read_parts(r, c), c->count, c->at);
    case COND_NONE:
        return expr_not(
            r->keep, expr_of_kept(r->keep, EXPR_ANY, 0, read_parts(r, c), c->count, c->at), c->at);
    case COND_NOT:
        return expr_not(r->keep, read_condition(r, c->parts[0]), c->at);
    case COND_AT_LEAST:
        return expr_of_kept(r->keep, EXPR_AT_LEAST, c->number, read_parts(r, c), c->count, c->at);
    }
    assert(!"every kind of condition is handled");
    return NULL;
}

const expr *program_condition(arena *keep, const program *p, const cond *c)
{
    uint32_t left = UINT32_MAX;
    return read_condition(&(reading){keep, p, NULL, &left, NULL}, c);
}

/* Rules by the conclusion that they set, each once. */
static void index_setters(expander *x)
{
    const book *b = x->p->book;
    uint32_t *first = ARENA_ARRAY(x->keep, uint32_t, (size_t)b->conclusion_count + 2), all = 0;
    uint32_t *last = ARENA_ARRAY(x->keep, uint32_t, b->conclusion_count); /* rule + 1 */
    for (uint32_t i = 0; i < b->rule_count; i++) all += b->rules[i].set_count;
    uint32_t *rules = ARENA_ARRAY(x->keep, uint32_t, all);
    for (uint32_t i = 0; i < b->rule_count; i++)
        for (uint32_t k = 0; k < b->rules[i].set_count; k++) {
            const uint32_t c = b->rules[i].sets[k].conclusion;
            first[c + 2] += last[c] != i + 1;
            last[c] = i + 1;
        }
    /* Counts stand two places up: filling moves first[c + 1] from the beginning of c to its end. */
    for (uint32_t c = 0; c < b->conclusion_count; c++) {
        first[c + 2] += first[c + 1];
        last[c] = 0;
    }
    for (uint32_t i = 0; i < b->rule_count; i++)
        for (uint32_t k = 0; k < b->rules[i].set_count; k++) {
            const uint32_t c = b->rules[i].sets[k].conclusion;
            if (last[c] != i + 1) rules[first[c + 1]++] = i;
            last[c] = i + 1;
        }
    x->first = first;
    x->rules = rules;
}

expander *program_expander(arena *keep, const program *p)
{
    expander *x = ARENA_NEW(keep, expander);
    *x = (expander){.keep = keep, .p = p};
    x->symptoms = ARENA_ARRAY(keep, const expansion *, p->book->symptom_count);
    x->conclusions = ARENA_ARRAY(keep, const expansion *, p->book->conclusion_count);
    index_setters(x);
    return x;
}

const expr *program_expanded(expander *x, const cond *c)
{
    uint32_t left = EXPANDED_PARTS_MAX;
    const expr *e = read_condition(&(reading){x->keep, x->p, x, &left, NULL}, c);
    return left == 0 ? NULL : e;
}

uint32_t program_expansions(const expander *x)
{
    return x->kept;
}
