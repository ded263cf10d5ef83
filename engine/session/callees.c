/* Who may be called from here on, and what each of them may do. */
#include <assert.h>

#include "session/session.h"

/* A fix that waits for an answer is open to whoever comes: they find out. */
static const bool *open_to(tt_case *c, const options *o, uint32_t role)
{
    const book *b = c->book->book;
    bool *open = ARENA_ARRAY(c->derived, bool, o->in.fix_count);
    for (uint32_t i = 0; i < o->in.fix_count; i++) {
        const struct fix *f = &b->fixes[o->fix_of[i]];
        open[i] = !c->now.tried[o->fix_of[i]] && book_may_work(b, role, f->role, &f->harm);
    }
    return open;
}

/* Whoever asks for help, or may not lock out where somebody may, sends for the next, who can look
 * further than the rules do. */
static bool sends_for_the_next(const book *b, uint32_t role)
{
    bool somebody_locks = false;
    for (uint32_t r = 0; r < b->role_count; r++) somebody_locks |= b->authorised[r];
    return b->role_level[role] == b->role_level[0] || (somebody_locks && !b->authorised[role]);
}

void add_callees(tt_case *c, options *o)
{
    const book *b = c->book->book;
    callee *all = ARENA_ARRAY(c->derived, callee, b->role_count);
    uint32_t *role_of = ARENA_ARRAY(c->derived, uint32_t, b->role_count), count = 0;
    for (uint32_t r = 0; r < b->role_count; r++) {
        if (b->role_level[r] <= b->role_level[c->role]) continue;
        assert(count == 0 || b->role_level[r] >= all[count - 1].level);
        role_of[count] = r;
        all[count++] = (callee){b->role_level[r], open_to(c, o, r), sends_for_the_next(b, r)};
    }
    o->in.callees = all;
    o->in.callee_count = count;
    o->in.sends = sends_for_the_next(b, c->role);
    o->role_of = role_of;
}
