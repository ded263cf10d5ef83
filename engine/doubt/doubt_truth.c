/* What a condition comes to when only some questions are answered: those that the caller knows. */
#include <assert.h>

#include "doubt/doubt.h"

/* Levels of symptoms and conclusions in conditions; conditions looked at for one, and in all of
 * them: what is beyond is open. A conclusion may be set by many rules that rest on the next. */
enum { LEVELS_MAX = 24, STEPS_MAX = 20000, ALL_STEPS_MAX = 4000000 };

typedef struct known {
    const doubter *d;
    truth_of_leaf *leaf;
    const void *of;
    uint32_t steps_end; /* of all: no further */
} known;

static truth come_to(const known *k, const cond *c, uint32_t level);

static truth not_so(truth t)
{
    return t == IS_OPEN ? IS_OPEN : t == IS_TRUE ? IS_FALSE : IS_TRUE;
}

/* At least so many of its parts. */
static truth parts_come_to(const known *k, const cond *c, uint32_t wanted, uint32_t level)
{
    uint32_t holding = 0, open = 0;
    for (uint32_t i = 0; i < c->count; i++) {
        const truth t = come_to(k, c->parts[i], level);
        holding += t == IS_TRUE;
        open += t == IS_OPEN;
    }
    return holding >= wanted ? IS_TRUE : holding + open < wanted ? IS_FALSE : IS_OPEN;
}

/* It holds if any of the rules does that set it so; one that nothing sets is told elsewhere. */
static truth conclusion_comes_to(const known *k, const cond *c, uint32_t level)
{
    const book *b = k->d->book;
    const links *of = &k->d->index->rules_of;
    bool set = false, open = false;
    for (uint32_t i = of->first[c->subject]; i < of->first[c->subject + 1]; i++) {
        const rule *r = &b->rules[of->items[i]];
        if (!rule_sets(r, c)) continue;
        set = true;
        const truth t = come_to(k, r->when, level);
        if (t == IS_TRUE) return IS_TRUE;
        open = open || t == IS_OPEN;
    }
    return set && !open ? IS_FALSE : IS_OPEN;
}

static truth come_to(const known *k, const cond *c, uint32_t level)
{
    uint32_t *steps = k->d->index->truth_steps;
    if (level >= LEVELS_MAX || *steps >= k->steps_end) return IS_OPEN;
    ++*steps;
    switch (c->kind) {
    case COND_ANSWER:
    case COND_RANGE:
    case COND_KNOWN:
        return k->leaf(k->of, c);
    case COND_SYMPTOM:
        return come_to(k, k->d->book->symptoms[c->subject].when, level + 1);
    case COND_CONCLUSION:
        return conclusion_comes_to(k, c, level + 1);
    case COND_ALL:
        return parts_come_to(k, c, c->count, level);
    case COND_ANY:
        return parts_come_to(k, c, 1, level);
    case COND_NONE:
        return not_so(parts_come_to(k, c, 1, level));
    case COND_AT_LEAST:
        return parts_come_to(k, c, c->number, level);
    case COND_NOT:
        return not_so(come_to(k, c->parts[0], level));
    }
    assert(false);
    return IS_OPEN;
}

truth truth_of(const doubter *d, const cond *c, truth_of_leaf *leaf, const void *of)
{
    assert(c != NULL && leaf != NULL);
    const uint32_t left = ALL_STEPS_MAX - *d->index->truth_steps,
                   most = left < STEPS_MAX ? left : STEPS_MAX;
    return come_to(&(known){d, leaf, of, *d->index->truth_steps + most}, c, 0);
}
