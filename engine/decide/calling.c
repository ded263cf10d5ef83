/* Whom to call. */
#include <assert.h>

#include "decide/situation.h"

/* The next role above the one who asks, or NO_ID. */
static uint32_t role_above(const tt_case *c)
{
    const book *b = c->book->book;
    uint32_t next = c->role;
    while (next < b->role_count && b->role_level[next] == b->role_level[c->role]) next++;
    return next < b->role_count ? next : NO_ID;
}

static uint32_t likely_role(situation *s)
{
    const uint32_t callee = balanced_choice(s)->callee;
    return callee == NO_CALLEE ? NO_ID : s->o->role_of[callee];
}

static const char *role_name(const tt_case *c, uint32_t role)
{
    return role == NO_ID ? NULL : cstr(c->derived, c->book->book->roles[role].name);
}

const char *role_in_danger(situation *s)
{
    const tt_view *v = s->view;
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (v->fixes[i].standing == TT_OTHER_ROLE) return v->fixes[i].role;
    return role_name(s->c, role_above(s->c));
}

/* Whoever took over work that they may not do: it is gone on with, and put back, by one who may. */
void call_for(situation *s, uint32_t fix)
{
    const book *b = s->c->book->book;
    assert(fix < b->fix_count);
    const uint32_t role = book_role_for(b, b->fixes[fix].role, &b->fixes[fix].harm);
    s->view->step = TT_CALL;
    s->view->call_role = role_name(s->c, role);
}

void call_step(situation *s)
{
    s->view->step = TT_CALL;
    s->view->call_role = role_name(s->c, likely_role(s));
}
