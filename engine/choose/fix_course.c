/* A course of fixes made: what its runs look up, and the room that they work in. */
#include <assert.h>
#include <math.h>

#include "choose/fix_order.h"

/* What can't be put back is held to the next level's standard. */
risk_level fix_held_to(const fix_option *f)
{
    assert(f->level <= RISK_HIGH);
    return f->cannot_undo && f->level < RISK_HIGH ? (risk_level)(f->level + 1) : f->level;
}

void fixes_by_cause(arena *keep, const choice_input *in, const bool *open,
                    const uint32_t **cure_start, const uint32_t **cure_fixes)
{
    uint32_t *start = ARENA_ARRAY(keep, uint32_t, (size_t)in->cause_count + 2);
    for (uint32_t f = 0; f < in->fix_count; f++)
        for (uint32_t i = 0; (open == NULL || open[f]) && i < in->fixes[f].cure_count; i++) {
            net_rate cure = in->fixes[f].cures[i];
            assert(cure.cause < in->cause_count);
            assert(cure.chance >= 0 && cure.chance <= 1);
            start[cure.cause + 2]++;
        }
    /* Counts stand two places up: the sums leave start[c + 1] at the beginning of c, and filling
     * moves it to the end. */
    for (uint32_t c = 0; c < in->cause_count; c++) start[c + 2] += start[c + 1];
    uint32_t *fixes = ARENA_ARRAY(keep, uint32_t, start[in->cause_count + 1]);
    for (uint32_t f = 0; f < in->fix_count; f++)
        for (uint32_t i = 0; (open == NULL || open[f]) && i < in->fixes[f].cure_count; i++)
            fixes[start[in->fixes[f].cures[i].cause + 1]++] = f;
    *cure_start = start;
    *cure_fixes = fixes;
}

uint32_t fixes_set_up_most(const choice_input *in)
{
    uint32_t most = NO_SET_UP;
    for (uint32_t f = 0; f < in->fix_count; f++)
        if (in->fixes[f].set_up > most) most = in->fixes[f].set_up;
    return most;
}

static const bool *which_share(arena *keep, const choice_input *in, const bool *open)
{
    bool *shares = ARENA_ARRAY(keep, bool, in->fix_count);
    uint32_t *with = /* [set-up] open fixes */
        ARENA_ARRAY(keep, uint32_t, (size_t)fixes_set_up_most(in) + 1);
    for (uint32_t f = 0; f < in->fix_count; f++) with[in->fixes[f].set_up] += open[f];
    for (uint32_t f = 0; f < in->fix_count; f++) {
        const uint32_t set_up = in->fixes[f].set_up;
        assert(set_up == NO_SET_UP || in->fixes[f].set_up_minutes <= in->fixes[f].minutes);
        shares[f] = open[f] && set_up != NO_SET_UP && with[set_up] > 1;
    }
    return shares;
}

/* Open ones, and those of them that may have to wait. */
static void list_open(fix_course *run, arena *keep)
{
    uint32_t *offered = ARENA_ARRAY(keep, uint32_t, run->in->fix_count),
             *waiters = ARENA_ARRAY(keep, uint32_t, run->in->fix_count),
             *parted = ARENA_ARRAY(keep, uint32_t, run->in->fix_count);
    run->lightest = 1;
    for (uint32_t f = 0; f < run->in->fix_count; f++) {
        const fix_option *fix = &run->in->fixes[f];
        if (!run->open[f]) continue;
        run->where[f] = run->untried_count;
        run->untried[run->untried_count++] = offered[run->offered_count++] = f;
        if (fix->after_count > 0) waiters[run->waiter_count++] = f;
        if (fix->needs_parts) parted[run->parted_count++] = f;
        if (fix->cure_count > 0)
            run->lightest = fmin(run->lightest, run->worth[f] / fix->cure_count);
    }
    run->offered = offered;
    run->waiters = waiters;
    run->parted = parted;
}

fix_course *fix_course_of(arena *keep, const choice_input *in, const bool *open)
{
    fix_course *run = ARENA_NEW(keep, fix_course);
    double *worth = ARENA_ARRAY(keep, double, in->fix_count);
    double *price = ARENA_ARRAY(keep, double, in->fix_count);
    double *flat = ARENA_ARRAY(keep, double, in->fix_count);
    for (uint32_t f = 0; f < in->fix_count; f++) {
        assert(in->fixes[f].minutes >= 0);
        worth[f] = in->rules.worth_trying[fix_held_to(&in->fixes[f])];
        price[f] = in->rules.price[fix_held_to(&in->fixes[f])];
        flat[f] = in->fixes[f].minutes + price[f];
        assert(price[f] >= 0);
    }
    *run = (fix_course){.in = in, .worth = worth, .price = price, .flat = flat, .open = open};
    run->left = ARENA_ARRAY(keep, double, (size_t)in->cause_count + 1);
    run->cured = ARENA_ARRAY(keep, double, in->fix_count);
    run->counted = ARENA_ARRAY(keep, uint32_t, in->fix_count);
    for (uint32_t f = 0; f < in->fix_count; f++) run->cured[f] = -1;
    run->total = -1;
    run->tried = ARENA_ARRAY(keep, bool, in->fix_count);
    run->gone = ARENA_ARRAY(keep, uint32_t, in->fix_count);
    run->missing = ARENA_ARRAY(keep, bool, in->fix_count);
    run->order = ARENA_ARRAY(keep, uint32_t, in->fix_count);
    run->after = ARENA_ARRAY(keep, double, (size_t)in->cause_count + 1);
    run->chain = ARENA_ARRAY(keep, uint32_t, in->fix_count);
    run->in_chain = ARENA_ARRAY(keep, uint64_t, in->fix_count);
    run->ranks = ARENA_ARRAY(keep, fix_rank, in->fix_count);
    run->worthy = ARENA_ARRAY(keep, uint32_t, in->fix_count);
    run->untried = ARENA_ARRAY(keep, uint32_t, in->fix_count);
    run->where = ARENA_ARRAY(keep, uint32_t, in->fix_count);
    run->before = ARENA_ARRAY(keep, double, (size_t)in->cause_count + 1);
    run->joined = ARENA_ARRAY(keep, bool, in->fix_count);
    run->shares = which_share(keep, in, open);
    run->under = NO_FIX;
    run->here = run->at = NO_PLACE;
    list_open(run, keep);
    fixes_by_cause(keep, in, open, &run->cure_start, &run->cure_fixes);
    return run;
}

static bool may_be_offered(const fix_option *f)
{
    return f->open && f->level != RISK_HIGH;
}

fix_course *fix_course_own(arena *keep, const choice_input *in)
{
    bool *open = ARENA_ARRAY(keep, bool, in->fix_count);
    for (uint32_t f = 0; f < in->fix_count; f++) open[f] = may_be_offered(&in->fixes[f]);
    fix_course *run = fix_course_of(keep, in, open);
    run->walks = true;
    run->sends = in->sends;
    run->here = run->at = in->here;
    return run;
}
