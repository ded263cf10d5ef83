/* Whom to call. */
#include <assert.h>

#include "decide/situation.h"

/* The next role above the one who asks; the same if there is none. */
static uint32_t next_role(const tt_case *c)
{
    const book *b = c->book->book;
    uint32_t next = c->role;
    while (next + 1 < b->role_count && b->role_level[next] == b->role_level[c->role]) next++;
    return b->role_level[next] == b->role_level[c->role] ? c->role : next;
}

const char *role_to_call(situation *s)
{
    const tt_view *v = s->view;
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (v->fixes[i].standing == TT_OTHER_ROLE) return v->fixes[i].role;
    assert(next_role(s->c) < s->c->book->book->role_count);
    return cstr(s->c->derived, s->c->book->book->roles[next_role(s->c)].name);
}

/* Whoever took over work that they may not do: it is gone on with, and put back, by one who may. */
void call_for(situation *s, uint32_t fix)
{
    const book *b = s->c->book->book;
    assert(fix < b->fix_count);
    const uint32_t role = book_role_for(b, b->fixes[fix].role, &b->fixes[fix].harm);
    s->view->step = TT_CALL;
    s->view->call_role = cstr(s->c->derived, b->roles[role].name);
}

void call_step(situation *s)
{
    s->view->step = TT_CALL;
    s->view->call_role = role_to_call(s);
}
