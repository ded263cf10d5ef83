/* Which fixes wait for others, and what a fix costs beside its time. */
#include <assert.h>

#include "session/session.h"

/* Tried in vain, or not for this equipment. What could not be done, or is nobody's here to do, is
 * still to come. */
static bool is_settled(tt_case *c, uint32_t fix)
{
    assert(fix < c->book->book->fix_count);
    if (!fix_applies(c, fix)) return true;
    return c->now.tried[fix] && c->now.outcomes[fix] != TT_COULD_NOT;
}

static uint32_t option_of(const options *o, uint32_t fix)
{
    for (uint32_t i = 0; i < o->in.fix_count; i++)
        if (o->fix_of[i] == fix) return i;
    return NO_ID;
}

/* Those that are still to come. False: one of them is no option of anybody, so somebody is called.
 */
static bool list_first(tt_case *c, const options *o, uint32_t fix, uint32_t *first, uint32_t *count)
{
    const ids *after = &c->book->book->fixes[fix].after;
    for (uint32_t i = 0; i < after->count; i++) {
        if (is_settled(c, after->items[i])) continue;
        const uint32_t option = option_of(o, after->items[i]);
        if (option == NO_ID) return false;
        first[(*count)++] = option;
    }
    return true;
}

static bool waits_in_vain(const fix_option *all, uint32_t f)
{
    for (uint32_t i = 0; i < all[f].after_count; i++)
        if (!all[all[f].after[i]].open) return true;
    return false;
}

/* What waits for something that this person can't do waits in vain, and so does what waits for
 * that. The order has no loops (model/fix_sequence.c), so this ends. */
static void close_what_waits_in_vain(fix_option *all, uint32_t count)
{
    for (bool closed = true; closed;) {
        closed = false;
        for (uint32_t f = 0; f < count; f++) {
            if (!all[f].open || !waits_in_vain(all, f)) continue;
            all[f].open = false;
            closed = true;
        }
    }
}

void options_sequence(tt_case *c, const options *o, fix_option *all)
{
    assert(all == o->in.fixes);
    for (uint32_t f = 0; f < o->in.fix_count; f++) {
        const uint32_t fix = o->fix_of[f], most = c->book->book->fixes[fix].after.count;
        if (most == 0) continue;
        uint32_t *first = ARENA_ARRAY(c->derived, uint32_t, most), count = 0;
        if (!list_first(c, o, fix, first, &count)) all[f].open = false;
        all[f].after = first;
        all[f].after_count = count;
    }
    close_what_waits_in_vain(all, o->in.fix_count);
}

/* Of whoever does it. */
double fix_cost_in_minutes(const tt_case *c, uint32_t fix)
{
    const book *b = c->book->book;
    const money *cost = &b->fixes[fix].cost;
    assert(c->role < b->role_count);
    const money *minute = &b->minute_costs[c->role];
    if (cost->currency.n == 0 || minute->amount <= 0) return 0;
    return cost->amount / minute->amount;
}
