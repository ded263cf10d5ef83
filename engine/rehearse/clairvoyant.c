/* The cheapest course for what is wrong, by dynamic programming over the fixes tried and the causes
 * left. */
#include "rehearse/clairvoyant.h"

#include <assert.h>
#include <math.h>

enum {
    HELPFUL_MOST = 10,
    BOTH = 3
}; /* of more fixes for one cause, those that cure most in a minute */

/* A fix that may be tried and removes some of what is wrong. */
typedef struct helpful {
    uint32_t fix;
    double minutes, wrongly; /* how often it is done wrongly, and so cures nothing */
    double cures[2];         /* [place in made_call.causes] chance of a try */
} helpful;

typedef struct course_table {
    const helpful *fixes;
    uint32_t count, wrong; /* wrong: a bit for each cause that is there */
    double call_minutes;
    double *value; /* [tried][left] expected minutes; tried and left as bits */
} course_table;

static double chance_of_cure(const made_call *call, uint32_t fix, uint32_t cause)
{
    const uint32_t count = call->from->prog->book->fixes[fix].cures_count;
    for (uint32_t i = 0; i < count; i++)
        if (call->in->cures[fix][i].cause == cause) return call->in->cures[fix][i].chance;
    return 0;
}

static bool may_be_tried(tt_case *c, uint32_t fix)
{
    return !c->now.tried[fix] && case_may_do(c, fix) && fix_is_possible(c, fix) &&
           !fix_waits(c, fix);
}

static double cured_a_minute(const helpful *h)
{
    return (h->cures[0] + h->cures[1]) / fmax(h->minutes, 1e-3);
}

/* Keeps the best; equals in the order of their numbers. */
static void keep_helpful(helpful *all, uint32_t *count, helpful one)
{
    uint32_t at = *count;
    while (at > 0 && cured_a_minute(&all[at - 1]) < cured_a_minute(&one)) at--;
    if (*count < HELPFUL_MOST) ++*count;
    for (uint32_t i = *count; i-- > at + 1;) all[i] = all[i - 1];
    if (at < *count) all[at] = one;
    assert(*count <= HELPFUL_MOST);
}

static uint32_t find_helpful(tt_case *c, const made_call *call, helpful *all)
{
    const book *b = c->book->book;
    uint32_t count = 0;
    for (uint32_t f = 0; f < b->fix_count; f++) {
        helpful one = {
            .fix = f, .minutes = b->fixes[f].minutes, .wrongly = b->fixes[f].done_wrongly};
        for (uint32_t k = 0; k < call->size; k++)
            one.cures[k] = chance_of_cure(call, f, call->causes[k]);
        if (one.cures[0] + one.cures[1] > 0 && may_be_tried(c, f)) keep_helpful(all, &count, one);
    }
    return count;
}

static double *value_at(const course_table *t, uint32_t tried, uint32_t left)
{
    assert(tried < 1U << t->count && left <= BOTH);
    return &t->value[tried * (BOTH + 1) + left];
}

/* Done rightly it cures each cause or not by itself. */
static double chance_of_what_is_left(const helpful *h, uint32_t left, uint32_t then)
{
    const double rightly = 1 - h->wrongly;
    double chance = rightly;
    assert(rightly > 0 && (then & ~left) == 0);
    for (uint32_t k = 0; k < 2; k++) {
        const double cured = fmin(1, h->cures[k] / rightly);
        if ((left >> k & 1) != 0) chance *= (then >> k & 1) != 0 ? 1 - cured : cured;
    }
    return then == left ? chance + h->wrongly : chance;
}

/* Trying fix i, then the best. */
static double try_then_best(const course_table *t, uint32_t i, uint32_t tried, uint32_t left)
{
    double expected = t->fixes[i].minutes;
    for (uint32_t then = left;; then = (then - 1) & left) { /* all that may be left */
        const double chance = chance_of_what_is_left(&t->fixes[i], left, then);
        if (chance > 0) expected += chance * *value_at(t, tried | 1U << i, then);
        if (then == 0) return expected;
    }
}

static double best_from(const course_table *t, uint32_t tried, uint32_t left, uint32_t *first)
{
    double best = left == 0 ? 0 : t->call_minutes;
    *first = NO_ID;
    for (uint32_t i = 0; i < t->count && left != 0; i++) {
        if ((tried >> i & 1) != 0) continue;
        const double value = try_then_best(t, i, tried, left);
        if (value >= best) continue;
        best = value;
        *first = t->fixes[i].fix;
    }
    return best;
}

uint32_t clairvoyant_fix(arena *scratch, tt_case *c, const made_call *call)
{
    helpful all[HELPFUL_MOST];
    course_table t = {.fixes = all, .count = find_helpful(c, call, all)};
    uint32_t first = NO_ID;
    t.call_minutes = c->book->book->call_minutes;
    t.wrong = (1U << call->size) - 1;
    t.value = ARENA_ARRAY(scratch, double, (size_t)(BOTH + 1) << t.count);
    for (uint32_t tried = 1U << t.count; tried-- > 0;)
        for (uint32_t left = 0; left <= t.wrong; left++)
            *value_at(&t, tried, left) = best_from(&t, tried, left, &first);
    best_from(&t, 0, t.wrong, &first);
    assert(first == NO_ID || may_be_tried(c, first));
    return first;
}
