/* Whether conditions can hold together: a search over what each question may still be answered.
 * Exact for answers, ranges, all, any, none, not, and at least one or all of them; a symptom is its
 * condition, a conclusion is any of the rules that set it. What is beyond that, or beyond the
 * limit, counts as possible, so that no doubt is told that is none. */
#include <assert.h>
#include <math.h>

#include "doubt/doubt.h"

enum { STEPS_MAX = 20000, LEVELS_MAX = 24 };

typedef struct box { /* what a question may be answered */
    uint64_t answers;
    double low, high;
    bool low_in, high_in;
    bool waited_for; /* its own only-when has been asked for */
} box;

typedef struct want { /* a condition that is to hold, or not to, and what else */
    const cond *c;
    bool denied;
    uint32_t level;
    const struct want *next;
} want;

typedef struct search {
    const doubter *d;
    const book *book;
    box *boxes;
    uint32_t steps;
} search;

static bool possible(search *s, const want *w);

static bool is_empty(const box *b)
{
    return b->low > b->high || (b->low == b->high && !(b->low_in && b->high_in));
}

/* Whoever answers a question was asked it; whoever does not answer it so need not have been. */
static bool with_its_wait(search *s, uint32_t question, const want *w)
{
    assert(question < s->book->question_count);
    box *b = &s->boxes[question];
    const cond *wait = s->book->questions[question].only_when;
    if (wait == NULL || b->waited_for || w->level >= LEVELS_MAX) return possible(s, w->next);
    const want first = {wait, false, w->level + 1, w->next};
    b->waited_for = true;
    const bool can = possible(s, &first);
    b->waited_for = false;
    return can;
}

static bool try_answers(search *s, const want *w)
{
    box *b = &s->boxes[w->c->subject];
    const uint64_t before = b->answers;
    b->answers &= w->denied ? ~w->c->answers : w->c->answers;
    const bool can =
        b->answers != 0 && (w->denied ? possible(s, w->next) : with_its_wait(s, w->c->subject, w));
    b->answers = before;
    return can;
}

static bool try_interval(search *s, const want *w, double low, bool low_in, double high,
                         bool high_in)
{
    assert(w->c->subject < s->book->question_count);
    box *b = &s->boxes[w->c->subject];
    const box before = *b;
    if (low > b->low || (low == b->low && !low_in)) {
        b->low = low;
        b->low_in = low_in;
    }
    if (high < b->high || (high == b->high && !high_in)) {
        b->high = high;
        b->high_in = high_in;
    }
    const bool can =
        !is_empty(b) && (w->denied ? possible(s, w->next) : with_its_wait(s, w->c->subject, w));
    *b = before;
    return can;
}

static bool try_range(search *s, const want *w)
{
    const cond *c = w->c;
    if (!w->denied) return try_interval(s, w, c->low, c->low_in, c->high, c->high_in);
    return (c->low > -INFINITY && try_interval(s, w, -INFINITY, true, c->low, !c->low_in)) ||
           (c->high < INFINITY && try_interval(s, w, c->high, !c->high_in, INFINITY, true));
}

/* All of its parts, each denied or not. */
static bool try_all(search *s, const want *w, bool denied)
{
    want parts[64];
    const want *next = w->next;
    if (w->c->count > 64) return possible(s, w->next);
    for (uint32_t i = w->c->count; i-- > 0; next = &parts[i])
        parts[i] = (want){w->c->parts[i], denied, w->level + 1, next};
    return possible(s, next);
}

static bool try_any(search *s, const want *w, bool denied)
{
    for (uint32_t i = 0; i < w->c->count; i++)
        if (possible(s, &(want){w->c->parts[i], denied, w->level + 1, w->next})) return true;
    return w->c->count == 0;
}

static bool try_conclusion(search *s, const want *w)
{
    assert(w->c->subject < s->book->conclusion_count);
    bool set = false;
    if (w->denied) return possible(s, w->next);
    const links *of = &s->d->index->rules_of;
    for (uint32_t i = of->first[w->c->subject]; i < of->first[w->c->subject + 1]; i++) {
        const rule *r = &s->book->rules[of->items[i]];
        if (!rule_sets(r, w->c)) continue;
        set = true;
        if (possible(s, &(want){r->when, false, w->level + 1, w->next})) return true;
    }
    return !set && possible(s, w->next); /* one that nothing sets is told elsewhere */
}

static bool possible(search *s, const want *w)
{
    if (w == NULL || ++s->steps > STEPS_MAX) return true;
    if (w->level >= LEVELS_MAX) return possible(s, w->next);
    const cond *c = w->c;
    switch (c->kind) {
    case COND_ANSWER:
        return try_answers(s, w);
    case COND_RANGE:
        return try_range(s, w);
    case COND_SYMPTOM:
        return possible(
            s, &(want){s->book->symptoms[c->subject].when, w->denied, w->level + 1, w->next});
    case COND_CONCLUSION:
        return try_conclusion(s, w);
    case COND_ALL:
        return w->denied ? try_any(s, w, true) : try_all(s, w, false);
    case COND_ANY:
        return w->denied ? try_all(s, w, true) : try_any(s, w, false);
    case COND_NONE:
        return w->denied ? try_any(s, w, false) : try_all(s, w, true);
    case COND_NOT:
        return possible(s, &(want){c->parts[0], !w->denied, w->level + 1, w->next});
    case COND_AT_LEAST:
        if (c->number == c->count) return w->denied ? try_any(s, w, true) : try_all(s, w, false);
        if (c->number == 1) return w->denied ? try_all(s, w, true) : try_any(s, w, false);
        return possible(s, w->next);
    case COND_KNOWN:
        return possible(s, w->next);
    }
    assert(false);
    return true;
}

static box any_answer(const question *q)
{
    box b = {.answers = q->answer_count >= 64 ? UINT64_MAX : (UINT64_C(1) << q->answer_count) - 1,
             .low = -INFINITY,
             .high = INFINITY,
             .low_in = true,
             .high_in = true};
    if (!q->has_plausible) return b;
    b.low = q->plausible_low;
    b.high = q->plausible_high;
    return b;
}

struct box *boxes_of(arena *keep, const book *b)
{
    box *boxes = ARENA_ARRAY(keep, box, b->question_count);
    for (uint32_t i = 0; i < b->question_count; i++) boxes[i] = any_answer(&b->questions[i]);
    return boxes;
}

/* Whatever a search narrows it makes wide again, so one array does for all. */
static bool search_all(const doubter *d, const want *w)
{
    assert(d->index != NULL && d->index->boxes != NULL);
    search s = {.d = d, .book = d->book, .boxes = d->index->boxes};
    return possible(&s, w);
}

bool can_hold(const doubter *d, const cond *const *all, uint32_t count)
{
    want wants[8];
    const want *next = NULL;
    assert(count <= 8);
    for (uint32_t i = 0; i < count; i++) {
        if (all[i] == NULL) continue;
        wants[i] = (want){all[i], false, 0, next};
        next = &wants[i];
    }
    return search_all(d, next);
}

bool can_fail(const doubter *d, const cond *c)
{
    assert(c != NULL);
    return search_all(d, &(want){c, true, 0, NULL});
}
