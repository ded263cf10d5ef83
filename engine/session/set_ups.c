/* Which fixes share a lockout, so that two of them can be done before it is given back. */
#include <assert.h>

#include "session/session.h"

/* A setting changed step by step is tried between its steps, and lines typed by hand are nobody
 * else's. */
static bool has_set_up(const tt_case *c, uint32_t fix)
{
    const struct fix *f = &c->book->book->fixes[fix];
    return f->harm.procedure_count > 0 && !f->harm.by_hand && f->adjust.reading == NO_ID &&
           book_set_up_minutes(c->book->book, &f->harm) > 0;
}

/* All of them, in the same order: what is isolated is exactly the same. */
bool fixes_share_set_up(const tt_case *c, uint32_t fix, uint32_t with)
{
    const safety *a = &c->book->book->fixes[fix].harm, *b = &c->book->book->fixes[with].harm;
    assert(fix != with);
    if (!has_set_up(c, fix) || !has_set_up(c, with)) return false;
    if (a->procedure_count != b->procedure_count) return false;
    for (uint32_t i = 0; i < a->procedure_count; i++)
        if (a->procedures[i] != b->procedures[i]) return false;
    return true;
}

double set_up_shared(const tt_case *c, uint32_t fix, uint32_t with)
{
    if (!fixes_share_set_up(c, fix, with)) return 0;
    return book_set_up_minutes(c->book->book, &c->book->book->fixes[with].harm);
}

void options_set_ups(tt_case *c, const options *o, fix_option *all)
{
    uint32_t count = 0;
    assert(all == o->in.fixes);
    for (uint32_t f = 0; f < o->in.fix_count; f++) {
        if (!has_set_up(c, o->fix_of[f])) continue;
        const safety *harm = &c->book->book->fixes[o->fix_of[f]].harm;
        all[f].set_up_minutes = book_set_up_minutes(c->book->book, harm);
        for (uint32_t g = 0; g < f && all[f].set_up == NO_SET_UP; g++)
            if (all[g].set_up != NO_SET_UP && fixes_share_set_up(c, o->fix_of[f], o->fix_of[g]))
                all[f].set_up = all[g].set_up;
        if (all[f].set_up == NO_SET_UP) all[f].set_up = ++count;
    }
}

const net_rate *cures_together(tt_case *c, uint32_t fix, uint32_t with, uint32_t *count)
{
    const book *b = c->book->book;
    const net_rate *one = c->book->prog->cures[fix], *two = c->book->prog->cures[with];
    const uint32_t ones = b->fixes[fix].cures_count, twos = b->fixes[with].cures_count;
    net_rate *both = ARENA_ARRAY(c->derived, net_rate, (size_t)ones + twos);
    uint32_t i = 0, k = 0;
    for (*count = 0; i < ones || k < twos; ++*count) {
        const bool first = k == twos || (i < ones && one[i].cause <= two[k].cause),
                   second = i == ones || (k < twos && two[k].cause <= one[i].cause);
        const double left = (first ? 1 - one[i].chance : 1) * (second ? 1 - two[k].chance : 1);
        both[*count] = (net_rate){first ? one[i].cause : two[k].cause, 1 - left};
        i += first;
        k += second;
    }
    return both;
}
