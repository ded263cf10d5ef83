/* The ordered table of policies, read from the top: the first that holds makes the step. */
#include "decide/decide.h"

#include <assert.h>

#include "decide/situation.h"

typedef enum looked_at { ANY_CASE, TROUBLE } looked_at;

typedef struct policy {
    looked_at when;
    bool (*holds)(situation *s);
    void (*make)(situation *s);
} policy;

#define ROW(id, when, holds, make, when_text, then_text) {when, holds, make},
static const policy policies[] = {POLICY_TABLE(ROW)};
#undef ROW
enum { POLICIES = sizeof policies / sizeof policies[0] };

/* The public names stand in the same order. */
#define NAME(id, when, holds, make, when_text, then_text) HERE_##id,
enum { POLICY_TABLE(NAME) };
#undef NAME
#define SAME(id, when, holds, make, when_text, then_text) \
    _Static_assert((int)TT_BY_##id == (int)HERE_##id, \
                   "telltale.h names the policies in another order");
POLICY_TABLE(SAME)
#undef SAME

bool true_always(situation *s)
{
    (void)s;
    return true;
}

static tt_policy first_that_holds(situation *s)
{
    for (uint32_t i = 0; i < POLICIES; i++) {
        if (policies[i].when == TROUBLE && s->c->now.closed) continue;
        if (policies[i].holds(s)) return (tt_policy)i;
    }
    assert(false); /* the last one always holds */
    return TT_BY_CLOSE;
}

static tt_fix *fixes_of(const tt_view *v)
{
    return (tt_fix *)v->fixes; /* made for this view, and only shown as unchanging */
}

static void hold_fixes_at_the_gate(situation *s)
{
    const tt_view *v = s->view;
    for (uint32_t i = 0; i < v->fix_count; i++) {
        tt_fix *f = &fixes_of(v)[i];
        f->held = v->gate.state != TT_GATE_OPEN;
        if (v->gate.state == TT_GATE_SHUT && f->standing < TT_NOT_YET) f->standing = TT_NOT_YET;
    }
}

static void hold_fixes_beside_adjustment(situation *s)
{
    uint32_t at_work = s->c->now.adjust.fix;
    const tt_view *v = s->view;
    for (uint32_t i = 0; at_work != NO_ID && i < v->fix_count; i++)
        if (v->fixes[i].fix != at_work && v->fixes[i].standing < TT_NOT_YET)
            fixes_of(v)[i].standing = TT_NOT_YET;
}

static void decide_gate(situation *s)
{
    s->view->gate = gate_now(s);
    hold_fixes_at_the_gate(s);
    hold_fixes_beside_adjustment(s);
}

static situation situation_of(tt_case *c, const options *o)
{
    return (situation){.c = c, .o = o, .view = &c->view, .question = NO_ID, .fix = NO_ID};
}

void decide_next(tt_case *c, const options *o)
{
    situation s = situation_of(c, o);
    decide_gate(&s);
    s.view->policy = first_that_holds(&s);
    policies[s.view->policy].make(&s);
    assert(s.view->gate.state == TT_GATE_OPEN ||
           (s.view->step != TT_FIX && s.view->step != TT_PUT_BACK));
}

static tt_status look_no_further(void *context)
{
    tt_case *c = context;
    situation s = situation_of(c, &c->options);
    if (!c->decided) decide_gate(&s);
    return TT_OK;
}

tt_status look_at_gate(tt_case *c, const tt_view **out)
{
    assert(c != NULL && out != NULL);
    tt_status status = case_see(c);
    if (status == TT_OK) status = guarded_case(c, look_no_further, c);
    *out = status == TT_OK ? &c->view : NULL;
    return status;
}
